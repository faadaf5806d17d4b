"""Other packs and sheets that would do as well, on plans worked out by hand."""

from dataclasses import replace

import pytest

from guidegen.buildfile.records.materials import Pack
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.outline.records import Edge, Line, Shape
from guidegen.geometry.pieces.records import Piece, Side
from guidegen.layout.buying.alternatives import pack_alternatives, sheet_alternatives
from guidegen.layout.records import MaterialLine, PackCount
from guidegen.words import ENGLISH

SQUARE = [(0.0, 0.0), (240.0, 0.0), (240.0, 240.0), (0.0, 240.0)]
SHAPE = Shape((Edge("rim", tuple(map(Line, SQUARE, SQUARE[1:] + SQUARE[:1]))),))
PIECE = Piece("plate", "P", "Plate", Side.ANY, 4, 0, "foam", 10.0, SHAPE, SHAPE)
"""Four squares of 240 mm: one mat of 500 mm holds them in two rows with 3 mm between."""


def _foam(thickness: float, *sheets: dict[str, object], **more: object) -> dict[str, object]:
    return {"name": f"Foam, {thickness:g} mm", "kind": "sheet", "thickness": thickness,
            "sheets": list(sheets), **more}  # fmt: skip


MAT = {"name": "mat", "width": 500, "height": 500, "price": 6}
CRAFT = {"name": "craft sheet", "width": 300, "height": 500, "price": 2.5}
PACKED = {"name": "small sheet", "width": 250, "height": 250, "pack": 3, "price": 5}
TINY = {"name": "tiny sheet", "width": 200, "height": 200, "price": 0.1}


def _line(unit: str, high: float, pack: PackCount, cost: float) -> MaterialLine:
    return MaterialLine(
        "foam", "Foam", "sheet", unit, high, high, high, "", (pack,), 0, cost, "", ()
    )


def test_each_size_of_sheet_alone() -> None:
    """Two craft sheets hold two squares each; small ones come in threes; tiny ones hold none."""
    stock = Stock.model_validate({"materials": {"foam": _foam(10, CRAFT, MAT, PACKED, TINY)}})
    line = _line("sheets", 2, PackCount("craft sheet", 2, 1, 2.5), 5.0)
    found = sheet_alternatives(line, [PIECE], stock, ENGLISH)
    told = [(one.packs[0].name, one.packs[0].count, one.cost) for one in found]
    assert told == [("mat", 1, 6.0), ("small sheet, pack of 3 sheets", 2, 10.0)]


def test_a_substitute_is_named() -> None:
    """'or 2 craft sheets of 5 mm': the cheapest sheets of the foam that may take its place."""
    materials = {"foam": _foam(10, MAT, substitutes=["thin"]), "thin": _foam(5, MAT, CRAFT)}
    stock = Stock.model_validate({"materials": materials})
    line = _line("sheets", 1, PackCount("mat", 1, 1, 6), 6.0)
    (other,) = sheet_alternatives(line, [PIECE], stock, ENGLISH)
    assert other.material == "Foam, 5 mm"
    assert [(pack.count, pack.name) for pack in other.packs] == [(2, "craft sheet")]


def test_too_many_pieces_are_not_tried() -> None:
    """Hundreds of copies are left to the cut plan."""
    stock = Stock.model_validate({"materials": {"foam": _foam(10, MAT, CRAFT)}})
    line = _line("sheets", 1, PackCount("mat", 1, 1, 6), 6.0)
    assert sheet_alternatives(line, [replace(PIECE, copies=301)], stock, ENGLISH) == ()


@pytest.mark.parametrize(
    ("high", "told"),
    [
        (400.0, [(2, 250.0, 18.0)]),  # chosen 1 × 500 at 15
        (100.0, [(1, 500.0, 15.0)]),  # chosen 1 × 250 at 9; a litre at 28 is more than twice that
    ],
)
def test_packs_of_other_sizes(high: float, told: list[tuple[int, float, float]]) -> None:
    """Each size alone covers the need; what costs more than twice as much is no alternative."""
    packs = (Pack(amount=250, price=9), Pack(amount=500, price=15), Pack(amount=1000, price=31))
    chosen = PackCount("500 ml", 1, 500, 15) if high > 250 else PackCount("250 ml", 1, 250, 9)
    found = pack_alternatives(_line("ml", high, chosen, chosen.price), packs, ENGLISH)
    assert [(one.packs[0].count, one.packs[0].amount, one.cost) for one in found] == told


def test_more_off_the_same_roll_is_no_alternative() -> None:
    """Four squares in rows take 500 mm off the roll: told beside sheets, not beside 400 mm of it."""
    roll = {"name": "off the roll", "width": 500, "height": 3000, "by": 100, "price": 1}
    stock = Stock.model_validate({"materials": {"foam": _foam(10, MAT, roll)}})
    sheets = _line("sheets", 1, PackCount("mat", 1, 1, 6), 6.0)
    (other,) = sheet_alternatives(sheets, [PIECE], stock, ENGLISH)
    assert other.packs == (PackCount("off the roll, 500\N{NO-BREAK SPACE}mm", 1, 1, 5.0),)
    name = "off the roll, 400\N{NO-BREAK SPACE}mm"
    by_roll = _line("sheets", 1, PackCount(name, 1, 1, 4.0), 4.0)
    (other,) = sheet_alternatives(by_roll, [PIECE], stock, ENGLISH)
    assert [pack.name for pack in other.packs] == ["mat"]
