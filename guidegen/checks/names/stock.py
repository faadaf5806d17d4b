"""What stock.yaml says about shops holds: sizes are plain numbers, names differ, cuts fit packs."""

from collections.abc import Iterator

from guidegen.buildfile.derive.quantities import quantities
from guidegen.buildfile.derive.sizes import SizeNumbers, size_numbers
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Use
from guidegen.buildfile.records.materials import SheetSize
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.buildfile.yaml.tree import Source, Trail
from guidegen.problems import Problem
from guidegen.units import mm_text

MAX_STRAPS = 500
"""Straps of one entry. Our choice, as for copies of a part: a kit has a dozen."""


def check_stock(content: Content) -> Iterator[Problem]:
    """Sizes in the stock are the same for every body, and no two sheets of a material share one."""
    source = content.stock_source
    for trail, quantity in quantities(content.stock):
        if trail[0] == "sequences":
            continue  # worked out in the guides that use them
        try:
            number = quantity.value({})
        except ExpressionError as error:
            yield source.problem("arithmetic", trail, f'"{quantity.text}": {error}')
            continue
        if number < 0:
            yield source.problem("bad-value", trail, "expected 0 or more")
    for material_id, material in content.stock.materials.items():
        seen: set[str] = set()
        for index, sheet in enumerate(material.sheets):
            if sheet.name in seen:
                trail = ("materials", material_id, "sheets", index, "name")
                message = f'two sheets of {material_id} are called "{sheet.name}"'
                yield source.problem("double-name", trail, message)
            seen.add(sheet.name)
            yield from _teeth(source, ("materials", material_id, "sheets", index), sheet)
            yield from _roll(source, ("materials", material_id, "sheets", index), sheet)


def _roll(source: Source, trail: Trail, sheet: SheetSize) -> Iterator[Problem]:
    """What is cut off a roll is at least one step long."""
    try:
        step, most = (sheet.by.value({}) if sheet.by is not None else 1.0), sheet.height.value({})
    except ExpressionError:
        return  # reported where arithmetic is checked
    if step == 0 or (sheet.by is not None and 0 < most < step):
        message = f"expected more than 0 and at most the height of {mm_text(most)} mm"
        yield source.problem("bad-value", (*trail, "by"), message)


def _teeth(source: Source, trail: Trail, sheet: SheetSize) -> Iterator[Problem]:
    """The teeth of a mat leave something to cut from."""
    try:
        usable, teeth = min(sheet.usable()), sheet.interlock.value({})
    except ExpressionError:
        return  # reported where arithmetic is checked
    if teeth > 0 and usable <= 0:
        message = f"{mm_text(teeth)} mm on each side leave nothing of the sheet"
        yield source.problem("bad-value", (*trail, "interlock"), message)


def check_cut_lengths(content: Content, file: GuideFile) -> Iterator[Problem]:
    """No strap is longer than the longest pack that it is cut from: straps are never joined."""
    tables = [size_numbers(file, size)[0] for size in file.size_names()]
    for number, step in enumerate(file.guide.steps):
        for index, use in enumerate(step.uses):
            material = content.stock.materials.get(use.material)
            if use.length is None or material is None or not material.packs:
                continue
            yield from _piece_counts(file, ("steps", number, "uses", index, "pieces"), use, tables)
            longest = max(pack.amount for pack in material.packs)
            for table in tables:
                try:
                    length = use.length.value(table.names())
                except ExpressionError:
                    break  # reported where arithmetic is checked
                if not 0 < length <= longest:
                    yield file.source.problem(
                        "cut-length",
                        ("steps", number, "uses", index, "length"),
                        f"{mm_text(length)} mm in size {table.size}, but {material.name} is sold "
                        f"in lengths up to {mm_text(longest)} mm",
                    )
                    break


def _piece_counts(
    file: GuideFile, trail: Trail, use: Use, tables: list[SizeNumbers]
) -> Iterator[Problem]:
    """The number of straps is one that can be planned: each of them is placed in a pack."""
    for table in tables if use.pieces is not None else ():
        try:
            pieces = use.pieces.value(table.names()) if use.pieces is not None else 1
        except ExpressionError:
            break  # reported where arithmetic is checked
        if not 0 <= pieces <= MAX_STRAPS:
            message = f"expected at most {MAX_STRAPS} pieces, found {pieces:g} in size {table.size}"
            yield file.source.problem("bad-value", trail, message)
            break
