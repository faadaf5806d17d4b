"""Size plan in → its materials list as CSV bytes out, safe to open in a spreadsheet."""

import csv
import io

from guidegen.buildfile.read.content import Content
from guidegen.layout.records import GuidePlan, SizePlan
from guidegen.render.text.markdown import plain_text
from guidegen.render.views.scene import step_numbers
from guidegen.units import mm_text
from guidegen.words import msg

HEADER = (
    msg("kind"), msg("name"), msg("needed"), msg("least"), msg("most"), msg("unit"), msg("buy"),
    msg("pack"), msg("pack amount"), msg("cost"), msg("currency"), msg("left over"), msg("shop"),
    msg("steps"), msg("alternative"), msg("note"),
)  # fmt: skip
"""Columns; amounts are plain numbers in the unit of their row."""

KINDS = (
    msg("sheet"), msg("liquid"), msg("length"), msg("count"), msg("cut"), msg("protection"),
    msg("tool"), msg("sheets"), msg("pieces"),
)  # fmt: skip
"""What a row is about, and its unit."""

_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
"""A spreadsheet takes a cell that begins so for a formula (OWASP, CSV Injection)."""


def materials_csv(content: Content, plan: GuidePlan, size: SizePlan) -> bytes:
    """RFC 4180, UTF-8 with a byte order mark, so that spreadsheets read accents right.

    One row for each pack to buy, then the lengths to cut, then the tools.
    """
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    say = content.words.say
    writer.writerow([say(column) for column in HEADER])
    unit = HEADER.index("unit")
    for row in [*_bought(content, plan, size), *_cuts(size), *_tools(plan, size)]:
        row[0], row[unit] = say(row[0]), say(row[unit])
        writer.writerow([safe_cell(cell) for cell in row])
    return ("\ufeff" + stream.getvalue()).encode("utf-8")


def _bought(content: Content, plan: GuidePlan, size: SizePlan) -> list[list[str]]:
    rows = []
    for line in size.materials.lines:
        for number, pack in enumerate(line.packs):
            first = number == 0
            figures = (line.need, line.low, line.high)
            rows.append(
                [
                    line.kind,
                    line.name,
                    *[mm_text(figure, 2) if first else "" for figure in figures],
                    line.unit,
                    str(pack.count),
                    pack.name,
                    mm_text(pack.amount, 2),
                    f"{pack.count * pack.price:.2f}",
                    content.site.currency,
                    mm_text(line.left, 2) if first else "",
                    line.shop,
                    _steps(plan, line.steps),
                    line.alternative,
                    plain_text(line.note) if line.note else "",
                ]
            )
    return rows


def _cuts(size: SizePlan) -> list[list[str]]:
    names = {line.material: line.name for line in size.materials.lines}
    return [
        ["cut", names.get(cut.material, cut.material), str(cut.pieces), "", "", "pieces", "", "",
         mm_text(cut.length, 1), "", "", "", "", "", "", cut.note]
        for cut in size.materials.cuts
    ]  # fmt: skip


def _tools(plan: GuidePlan, size: SizePlan) -> list[list[str]]:
    return [
        ["protection" if tool.protective else "tool", tool.name, "1", "", "", "pieces", "", "", "",
         "", "", "", "", _steps(plan, tool.steps), tool.alternative,
         plain_text(tool.note) if tool.note else ""]
        for tool in size.materials.tools
    ]  # fmt: skip


def _steps(plan: GuidePlan, ids: tuple[str, ...]) -> str:
    numbers = step_numbers(plan.file.guide)
    return " ".join(str(number) for number in sorted(numbers[name] for name in ids))


def safe_cell(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula; numbers stay numbers."""
    if cell.startswith(_FORMULA) and not _is_number(cell):
        return "'" + cell
    return cell


def _is_number(cell: str) -> bool:
    return cell.removeprefix("-").replace(".", "", 1).isdigit() and cell.isascii()
