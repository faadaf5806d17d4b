"""Cut plans against published packings and bounds.

Sources:
- A. J. W. Duijvestijn, Simple perfect squared square of lowest order, Journal of Combinatorial
  Theory B 25, 1978: 21 squares of different sides fill a square of 112 exactly. Its Bouwkamp code:
  [50,35,27] [8,19] [15,17,11] [6,24] [29,25,9,2] [7,18] [16] [42] [4,37] [33].
- The tangram: seven pieces cut from one square, among them five right isosceles triangles with
  areas of 4, 4, 2, 1 and 1 sixteenths, a square and a parallelogram of 2 sixteenths each.
- D. S. Johnson, A. Demers, J. D. Ullman, M. R. Garey, R. L. Graham, Worst-case performance bounds
  for simple one-dimensional packing algorithms, SIAM Journal on Computing 3, 1974: first-fit
  decreasing may need 11/9 of the best number of bins.
- G. Dósa, The tight bound of first fit decreasing bin-packing algorithm, 2007: it never needs more
  than 11/9 OPT + 6/9.
- S. Martello, P. Toth, Knapsack Problems, 1990, chapter 8: bounds L1 and L2 of bin packing; the
  figures of the example are from memory.
- The cutting-stock example with paper rolls of 5600 mm and 13 widths, whose best is 73 rolls;
  much reprinted, figures from memory.
"""

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.nest_samples import FREE, boxes, make_kit, make_piece, polygon, sheet_material, stock_of

from guidegen.buildfile.records.materials import Pack, SheetSize
from guidegen.layout.buying.lengths import plan_lengths
from guidegen.layout.buying.lengths_fit import first_fit
from guidegen.layout.nesting.bounds import least_bins, least_sheets
from guidegen.layout.nesting.checks import faults_of_plan
from guidegen.layout.nesting.cutplan import plan_cuts
from guidegen.layout.nesting.pieces import NestPiece, SheetType
from guidegen.layout.nesting.task import cut_tasks
from guidegen.layout.records import CutSheet, LengthCut, Placed
from guidegen.words import ENGLISH

BOUWKAMP_CODE = (
    (50, 35, 27), (8, 19), (15, 17, 11), (6, 24), (29, 25, 9, 2), (7, 18), (16,), (42,), (4, 37),
    (33,),
)  # fmt: skip
SQUARE = SheetType("square", 112, 112, 1)


def squares_from_code(code: Sequence[Sequence[int]], side: int) -> list[tuple[int, int, int]]:
    """Left, top (from the upper edge) and side of each square.

    Each bracket of a Bouwkamp code fills the highest, leftmost level stretch from left to right.
    """
    skyline = [0] * side
    placed = []
    for row in code:
        top = min(skyline)
        left = skyline.index(top)
        for width in row:
            assert skyline[left : left + width] == [top] * width
            placed.append((left, top, width))
            skyline[left : left + width] = [top + width] * width
            left += width
    assert skyline == [side] * side
    return placed


def squares() -> tuple[list[NestPiece], CutSheet]:
    """The 21 squares and the published packing of them."""
    found = squares_from_code(BOUWKAMP_CODE, 112)
    pieces, placed = [], []
    for left, top, side in found:
        ring = ((0.0, 0.0), (side, 0.0), (side, side), (0.0, side))
        pieces.append(NestPiece(f"s{side}", "", "", 1, ring))
        placed.append(Placed(f"s{side}", 1, left, 112 - top - side, 0))
    return pieces, CutSheet("square", 112, 112, tuple(placed), 112.0**2)


def test_squared_square_is_accepted() -> None:
    """The published packing has no fault: 21 different squares, no gap, no overlap."""
    pieces, packing = squares()
    assert len({piece.key for piece in pieces}) == 21
    assert sum(piece.area for piece in pieces) == 112**2
    assert list(faults_of_plan([packing], pieces, [SQUARE], FREE)) == []


def test_squared_square_moved_is_refused() -> None:
    """Moving any one square by 0.02 mm to any side overlaps a neighbour or leaves the sheet."""
    pieces, packing = squares()
    for number, place in enumerate(packing.placed):
        for dx, dy in ((0.02, 0), (-0.02, 0), (0, 0.02), (0, -0.02)):
            moved = replace(place, x=place.x + dx, y=place.y + dy)
            placed = (*packing.placed[:number], moved, *packing.placed[number + 1 :])
            assert any(faults_of_plan([replace(packing, placed=placed)], pieces, [SQUARE], FREE))


def test_squared_square_bound() -> None:
    """The bound is one sheet, as the packing proves; with any spacing it is two."""
    pieces, _ = squares()
    assert least_sheets(pieces, [SQUARE], FREE) == 1
    assert least_sheets(pieces, [SQUARE], replace(FREE, spacing=0.5)) == 2


def test_squared_square_searched() -> None:
    """What is found for the 21 squares holds, and is at most one sheet above the best, which is 1."""
    sides = [side for row in BOUWKAMP_CODE for side in row]
    pieces = [
        make_piece(f"s{side}", polygon([(0, 0), (side, 0), (side, side), (0, side)]))
        for side in sides
    ]
    size = SheetSize(name="square", width=112, height=112, price=1)
    stock = stock_of(sheet_material(size, spacing=0, rotation="none"))
    (plan,), _, problems = plan_cuts(make_kit(pieces), stock, seconds=1.5)
    assert problems == []
    (task,) = cut_tasks(make_kit(pieces), stock)
    assert list(faults_of_plan(plan.sheets, task.pieces, task.sheets, task.cutting)) == []
    assert plan.least == 1 <= len(plan.sheets) <= 2


TANGRAM = {
    # Corners in a square with sides of 4, in the classic dissection.
    "large-a": [(0, 0), (4, 0), (2, 2)],
    "large-b": [(0, 0), (2, 2), (0, 4)],
    "medium": [(4, 2), (4, 4), (2, 4)],
    "small-a": [(4, 0), (4, 2), (3, 1)],
    "small-b": [(2, 2), (3, 3), (1, 3)],
    "square": [(2, 2), (3, 1), (4, 2), (3, 3)],
    "parallelogram": [(0, 4), (1, 3), (3, 3), (2, 4)],
}
SIXTEENTHS = {
    "large-a": 4, "large-b": 4, "medium": 2, "small-a": 1, "small-b": 1, "square": 2,
    "parallelogram": 2,
}  # fmt: skip


def tangram(unit: float) -> tuple[NestPiece, ...]:
    """The seven pieces where they lie in the square, with sides of 4 units."""
    return tuple(
        NestPiece(name, name, name, 1, tuple((x * unit, y * unit) for x, y in corners))
        for name, corners in TANGRAM.items()
    )


def test_tangram_is_accepted() -> None:
    """The seven pieces fill their square: areas in sixteenths, no fault where they are drawn."""
    pieces = tangram(25)
    assert {piece.key: round(piece.area / 625, 9) for piece in pieces} == SIXTEENTHS
    placed = tuple(Placed(piece.key, 1, 0, 0, 0) for piece in pieces)
    plan = [CutSheet("square", 100, 100, placed, 1e4)]
    kinds = [SheetType("square", 100, 100, 1)]
    assert list(faults_of_plan(plan, pieces, kinds, FREE)) == []
    assert least_sheets(pieces, kinds, FREE) == 1
    flipped = (*placed[:-1], replace(placed[-1], x=75, flipped=True))
    assert any(faults_of_plan([replace(plan[0], placed=flipped)], pieces, kinds, FREE))


def test_tangram_with_room() -> None:
    """With a tenth more side than the square, the solver packs all seven pieces into one."""
    pieces = [
        make_piece(name, polygon([(x * 25, y * 25) for x, y in corners]))
        for name, corners in TANGRAM.items()
    ]
    size = SheetSize(name="square", width=112, height=112, price=1)
    stock = stock_of(sheet_material(size, spacing=0))
    (plan,), _, problems = plan_cuts(make_kit(pieces), stock, seconds=3)
    assert problems == []
    assert len(plan.sheets) == 1


@pytest.mark.parametrize(("columns", "rows"), [(1, 1), (3, 2), (5, 4)])
def test_rectangles_that_tile_a_sheet(columns: int, rows: int) -> None:
    """Equal rectangles that tile a sheet are laid so by rows alone, and proven best."""
    kit = make_kit(
        [make_piece("tile", polygon([(0, 0), (40, 0), (40, 30), (0, 30)]), columns * rows)]
    )
    size = SheetSize(name="s", width=40 * columns, height=30 * rows, price=2)
    stock = stock_of(sheet_material(size, spacing=0, rotation="none"))
    (plan,), _, _ = plan_cuts(kit, stock, solve=False)
    assert (len(plan.sheets), plan.used, plan.least) == (1, 1, 1)


def test_spacing_of_a_tiling() -> None:
    """The same tiling with 3 mm between needs a sheet larger by exactly the gaps."""
    kit = make_kit([make_piece("tile", polygon([(0, 0), (40, 0), (40, 30), (0, 30)]), 6)])
    for width, count in ((126, 1), (125.9, 2)):
        size = SheetSize(name="s", width=width, height=63, price=2)
        stock = stock_of(sheet_material(size, spacing=3, rotation="none"))
        (plan,), _, _ = plan_cuts(kit, stock, solve=False)
        assert len(plan.sheets) == count


def cuts(*lengths: tuple[float, int]) -> list[LengthCut]:
    """Lengths and how often."""
    return [LengthCut("w", length, count, "") for length, count in lengths]


def test_worst_case_of_first_fit_decreasing() -> None:
    """The instance of 1974: first-fit decreasing needs 11 bins, the best and ours is 9."""
    sizes = [(51, 6), (27, 6), (26, 6), (23, 12)]  # of 100: 1/2+e, 1/4+2e, 1/4+e, 1/4-2e, e = 1
    each = [float(size) for size, count in sizes for _ in range(count)]
    bins = first_fit(each, [100] * 30)
    assert bins is not None
    assert max(bins) + 1 == 11
    plan = plan_lengths("w", [Pack(amount=100, price=1)], cuts(*sizes), ENGLISH)
    assert len(plan.packs) == plan.least == 9


def test_shorter_straps_never_cost_more() -> None:
    """Where first-fit decreasing takes a fourth bin for a shorter strap, our plan stays at three."""
    rest = [24, 24, 22, 21, 17, 8, 8, 6, 6]
    for first, greedy in ((44, 3), (43, 4)):
        sizes = sorted([first, *rest], reverse=True)
        bins = first_fit(sizes, [60] * 10)
        assert bins is not None
        assert max(bins) + 1 == greedy
        plan = plan_lengths(
            "w", [Pack(amount=60, price=1)], cuts(*((s, 1) for s in sizes)), ENGLISH
        )
        assert len(plan.packs) == 3


def test_bounds_of_martello_and_toth() -> None:
    """Their example: nine sizes whose sum fills three bins of 100, but that need four."""
    sizes = [70, 60, 50, 33, 33, 33, 11, 7, 3]
    assert sum(sizes) == 300
    assert least_bins(sizes, 100) == 4


def test_paper_rolls() -> None:
    """219 widths from rolls of 5600 mm: the bound is the known best, 73; ours is one more at most."""
    rolls = cuts(
        (1380, 22), (1520, 25), (1560, 12), (1710, 14), (1820, 18), (1880, 18), (1930, 20),
        (2000, 10), (2050, 12), (2100, 14), (2140, 16), (2150, 18), (2200, 20),
    )  # fmt: skip
    plan = plan_lengths("w", [Pack(amount=5600, price=1)], rolls, ENGLISH)
    assert plan.least == plan.least_cost == 73
    assert 73 <= len(plan.packs) <= 74
    assert sum(len(pack.pieces) for pack in plan.packs) == 219


@settings(max_examples=60, deadline=None)
@given(st.lists(st.integers(1, 100), min_size=1, max_size=14))
def test_bound_of_dosa(sizes: list[int]) -> None:
    """First-fit decreasing stays within 11/9 of our plan and 6/9, so ours is the best or near it."""
    bins = first_fit(sorted(map(float, sizes), reverse=True), [100] * len(sizes))
    assert bins is not None
    plan = plan_lengths(
        "w", [Pack(amount=100, price=1)], cuts(*((size, 1) for size in sizes)), ENGLISH
    )
    assert plan.least_cost == plan.cost
    assert max(bins) + 1 <= (11 * len(plan.packs) + 6) // 9


def test_square_in_a_square() -> None:
    """Two squares fit a square exactly where their sides add up to no more than its side.

    The case of two in the question of P. Erdős and A. Soifer, Squares in a square, Geombinatorics
    4, 1995; from memory.
    """
    for side, pair, count in ((199.9, (100, 100), 2), (200, (100, 100), 1), (140, (100, 40), 1)):
        kit = make_kit(
            [make_piece(p.key, polygon(p.outline)) for p in boxes(*((s, s) for s in pair))]
        )
        size = SheetSize(name="s", width=side, height=side, price=2)
        stock = stock_of(sheet_material(size, spacing=0))
        (plan,), _, _ = plan_cuts(kit, stock, seconds=0.5)
        assert len(plan.sheets) == count, side
