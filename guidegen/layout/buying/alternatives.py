"""What is needed, and all that shops sell → other packs that would do as well, priced (mm, ml)."""

from collections.abc import Sequence
from dataclasses import replace
from math import ceil

from guidegen.buildfile.records.materials import Material, Pack, SheetSize
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.pieces.records import Piece
from guidegen.layout.buying.lengths import plan_lengths
from guidegen.layout.buying.packs import choose_packs
from guidegen.layout.nesting.pieces import NestPiece, cutting_of, nest_pieces, sheet_types
from guidegen.layout.nesting.rolls import lengths_off
from guidegen.layout.nesting.rows import find_misfits, plan_rows
from guidegen.layout.records import Alternative, LengthCut, MaterialLine, PackCount
from guidegen.words import Words

MOST = 2
"""Alternatives that are told, the cheapest first. Our choice: a shopping list stays short."""

MOST_DEARER = 2.0
"""Times the price of what was chosen. Our choice: a litre is no alternative to a tube."""

STEPS = 1000
"""Steps of the search for other packs of lengths. Our choice: they need not be the best."""

MOST_PIECES = 300
"""Copies up to which sheets of one size are tried. Our choice: rows of more take seconds."""


def pack_alternatives(
    line: MaterialLine, packs: Sequence[Pack], lang: Words
) -> tuple[Alternative, ...]:
    """Each size of pack alone in place of the chosen mix, where enough of it may be bought."""
    found = (choose_packs(line.high, (pack,), line.unit, lang) for pack in packs)
    return _cheapest([Alternative("", counts) for counts in found], line.packs)


def length_alternatives(
    line: MaterialLine, packs: Sequence[Pack], cuts: Sequence[LengthCut], lang: Words
) -> tuple[Alternative, ...]:
    """Each size of pack alone that is long enough for every cut."""
    found = []
    for pack in packs:
        plan = plan_lengths(line.material, (pack,), cuts, lang, at_least=line.high, steps=STEPS)
        # A pack that is shorter than one strap is no alternative, however cheap.
        if not plan.too_long and plan.packs:
            one = plan.packs[0]
            count = PackCount(one.name, len(plan.packs), one.amount, one.price)
            found.append(Alternative("", (count,)))
    return _cheapest(found, line.packs)


def sheet_alternatives(
    line: MaterialLine, pieces: Sequence[Piece], stock: Stock, lang: Words
) -> tuple[Alternative, ...]:
    """Each size of sheet alone, and those of the material's substitutes, laid out in rows.

    Rows are a plan that always works; the nesting solver might do with fewer.
    """
    material = stock.materials[line.material]
    nested = nest_pieces(tuple(pieces), line.material)
    if sum(piece.copies for piece in nested) > MOST_PIECES:
        return ()
    found = [
        Alternative("", packs)
        for size, packs in _single_sheets(material, nested, lang)
        if not _is_chosen_roll(size, line.packs)
    ]
    own = _cheapest(found, line.packs)
    others: list[Alternative] = []
    for name in material.substitutes:
        other = stock.materials[name]
        choices = [Alternative(other.name, p) for _, p in _single_sheets(other, nested, lang)]
        # One of each substitute, and no limit of price: what a shop has instead is worth knowing.
        others += _cheapest(choices, ())[:1]
    # Substitutes keep their place: other packs of the same are the lesser news.
    return (*own[: max(0, MOST - len(others))], *others)


def _single_sheets(
    material: Material, nested: Sequence[NestPiece], lang: Words
) -> list[tuple[SheetSize, tuple[PackCount, ...]]]:
    """For every size of sheet: the packs of it that hold all pieces in rows."""
    cutting = cutting_of(material)
    found: list[tuple[SheetSize, tuple[PackCount, ...]]] = []
    for size, largest in zip(material.sheets, sheet_types(material), strict=True):
        # Rows raise nothing for a piece that fits nowhere, so it is asked before.
        if find_misfits(nested, (largest,), cutting):
            continue
        # Off a roll, the shortest length that rows need.
        kind = next(reversed(lengths_off(size, largest, nested, cutting)), largest)
        rows = plan_rows(nested, (kind,), cutting)
        if rows is not None:
            name = sheet_pack_name(kind.name, size.pack, lang)
            count = ceil(len(rows) / size.pack)
            found.append((size, (PackCount(name, count, size.pack, kind.pack_price),)))
    return found


def _is_chosen_roll(size: SheetSize, chosen: Sequence[PackCount]) -> bool:
    """True where lengths off the same roll are bought: more of it is no alternative."""
    return size.by is not None and any(pack.name.startswith(f"{size.name}, ") for pack in chosen)


def sheet_pack_name(name: str, pack: int, lang: Words) -> str:
    """'mat 600 × 600 mm, pack of 4 sheets'; the name alone for single sheets."""
    if pack == 1:
        return name
    return lang.say("{sheet}, pack of {count} sheets", sheet=name, count=pack)


def _cheapest(
    found: Sequence[Alternative], chosen: tuple[PackCount, ...]
) -> tuple[Alternative, ...]:
    """The cheapest that are not what was chosen; of equal prices the first in stock."""
    limit = sum(pack.count * pack.price for pack in chosen) * MOST_DEARER
    other = [one for one in found if one.packs and one.packs != chosen]
    if chosen:
        other = [one for one in other if one.cost <= limit]
    return tuple(sorted(other, key=lambda one: one.cost)[:MOST])


def with_alternatives(line: MaterialLine, others: tuple[Alternative, ...]) -> MaterialLine:
    """The line with other choices of packs."""
    return replace(line, others=others)
