"""Comparison of sheets over sizes, on plans worked out by hand."""

from dataclasses import replace

from guidegen.geometry.outline.records import Edge, Line, Shape
from guidegen.geometry.pieces.records import Kit, Piece, Side
from guidegen.layout.buying.compare import compare_sheets, sheet_use
from guidegen.layout.records import CutPlan, CutSheet, Placed, SizePlan


def _piece(part: str, width: float, height: float) -> Piece:
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    run = tuple(Line(a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True))
    shape = Shape((Edge("rim", run),))
    return Piece(part, part[0], part.title(), Side.ANY, 1, 0, "foam", 10.0, shape, shape)


def _kit(size: str, *pieces: Piece) -> Kit:
    return Kit("g", size, (), (), pieces, (), ())


def _sheet(used: float, *parts: str) -> CutSheet:
    placed = tuple(Placed(part, 1, 0.0, 0.0, 0.0) for part in parts)
    return CutSheet("mat", 500.0, 500.0, placed, used)


def _size(kit: Kit, *sheets: CutSheet, least: int) -> SizePlan:
    plan = CutPlan("foam", 10.0, sheets, least, "rows", 5.0 * len(sheets), 5.0 * least)
    return SizePlan(kit, (plan,))


S_KIT = _kit("S", _piece("back", 400, 300), _piece("belt", 400, 200))
S = _size(S_KIT, _sheet(200_000, "back", "belt"), least=1)
"""120 000 + 80 000 mm² on one mat of 250 000 mm²: 80 % used."""


def test_use_of_a_plan():
    """Counts, areas and the share used are those of the plan's sheets."""
    use = sheet_use("S", S.cut_plans[0])
    assert (use.sheets, use.bought, use.pieces, use.cost) == ((("mat", 1),), 250_000, 200_000, 5)
    assert use.used == 0.8


def test_the_piece_that_tips_it():
    """130 000 + 90 000 mm² would fit one mat by area: the belt alone on the second tips it."""
    kit = _kit("M", _piece("back", 400, 325), _piece("belt", 450, 200))
    size = _size(kit, _sheet(130_000, "back"), _sheet(90_000, "belt"), least=1)
    uses, (change,) = compare_sheets((S, size))
    assert [use.count for use in uses] == [1, 2]
    assert (change.piece, change.piece_area) == ("Belt", 90_000)
    assert not change.unavoidable
    assert abs(change.growth - 0.1) < 1e-12


def test_more_area_than_the_sheets_before_have():
    """160 000 + 100 000 mm² are more than a mat of 250 000 mm²: no plan can do with one."""
    kit = _kit("L", _piece("back", 400, 400), _piece("belt", 400, 250))
    size = _size(kit, _sheet(160_000, "back"), _sheet(100_000, "belt"), least=2)
    _, (change,) = compare_sheets((S, size))
    assert change.unavoidable


def test_nothing_is_told_where_nothing_grows():
    """The same number of sheets, or fewer, needs no reason."""
    assert compare_sheets((S, replace(S, kit=replace(S_KIT, size="M"))))[1] == ()


def test_a_material_that_only_the_larger_size_needs():
    """A size without the material before it counts as none of it."""
    bare = SizePlan(_kit("XS"))
    _, (change,) = compare_sheets((bare, S))
    assert (change.before.size, change.before.count, change.after.count) == ("XS", 0, 1)
    assert change.growth == 0
