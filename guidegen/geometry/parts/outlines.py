"""A guide, the stock and one size in → finished outlines of all parts, each after those that it
asks for lengths."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from guidegen.buildfile.derive.part_order import part_order
from guidegen.buildfile.derive.sizes import SizeNumbers
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.materials import MaterialKind, Stuff
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.vocabulary import LINING
from guidegen.geometry.outline.grain import grain_of
from guidegen.geometry.parts.darts import darts_of
from guidegen.geometry.parts.finished import Finished, make_finished, make_lining
from guidegen.geometry.parts.lengths import PartNames
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.problems import Checked, did_you_mean


@dataclass(frozen=True, slots=True)
class Outlines:
    """What the parts of one size are before anything is done to their edges and faces."""

    askers: Mapping[str, PartAsker]
    """For every part, in the guide's order."""
    names: PartNames
    """What arithmetic may use from now on, lengths of parts too."""
    finished: Mapping[str, Finished]
    """What could be made, in the guide's order."""
    thickness: Mapping[str, float]
    """mm of foam by part, where its material is a sheet."""


def make_outlines(
    file: GuideFile, stock: Stock, size: str, numbers: SizeNumbers
) -> Checked[Outlines]:
    """The outlines of all parts that can be made; what is wrong with one, its asker notes."""
    thickness: dict[str, float | None] = {}
    finished: dict[str, Finished] = {}
    names = PartNames(file, numbers.names(), thickness, finished)
    askers = {
        name: PartAsker(
            file,
            name,
            size,
            names,
            sewn=_is_sewn(stock, part.material),
            stock=stock,
            grain=grain_of(stock.materials.get(part.material)),
        )
        for name, part in file.guide.parts.items()
    }
    for part, asker in askers.items():
        thickness[part] = _thickness(asker, stock)
    # In this order, since a part may ask for the lengths of those before it: `names` answers from
    # what stands in `finished` by then.
    order = yield from part_order(file)
    for kind, part in order:
        if kind == "values":
            names.work_out(part)
            continue
        foam = thickness[part]
        if foam is not None and (outline := _finish(askers[part], foam, numbers, finished)):
            finished[part] = replace(outline, darts=tuple(darts_of(askers[part], outline.template)))
    return Outlines(
        askers,
        names,
        {part: finished[part] for part in askers if part in finished},
        {part: foam for part, foam in thickness.items() if foam is not None},
    )


def _finish(
    asker: PartAsker, foam: float, numbers: SizeNumbers, others: Mapping[str, Finished]
) -> Finished | None:
    """One finished outline; None, and problems, where there is none."""
    if asker.part.shape == LINING:
        return make_lining(asker, others)
    return make_finished(asker, foam, numbers)


def _is_sewn(stock: Stock, material: str) -> bool:
    known = stock.materials.get(material)
    return known is not None and known.made_of is Stuff.CLOTH


def _thickness(asker: PartAsker, stock: Stock) -> float | None:
    """mm of the part's sheet material; None, and a problem, where it is none."""
    name = asker.part.material
    material = stock.materials.get(name)
    if material is None:
        hint = did_you_mean(name, stock.materials)
        asker.refuse("unknown-name", f'no material "{name}"{hint}', "material")
        return None
    if material.kind is not MaterialKind.SHEET or material.thickness is None:
        asker.refuse("not-a-sheet", f'"{name}" is not sold in sheets', "material")
        return None
    value = asker.number(material.thickness, "material")
    if value is not None and not 0 < value <= 100:
        asker.refuse("out-of-range", f'"{name}" is {value:g} mm thick', "material")
        return None
    return value
