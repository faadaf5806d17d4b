"""The plan in rows: always valid, cheapest of its kind, and exact about what does not fit."""

from dataclasses import replace
from math import cos, hypot, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.nest_samples import FREE, boxes, sheet

from guidegen.geometry.outline.areas import convex_hull
from guidegen.layout.nesting.bounds import least_cost, least_sheets
from guidegen.layout.nesting.checks import faults_of_plan
from guidegen.layout.nesting.pieces import Cutting, NestPiece, SheetType
from guidegen.layout.nesting.rows import find_misfits, plan_cost, plan_rows

lengths = st.floats(1, 250)


@st.composite
def nest_piece(draw: st.DrawFn, key: str) -> NestPiece:
    """A star-shaped outline anywhere in the plane, with up to three copies."""
    count = draw(st.integers(3, 9))
    radii = draw(st.lists(st.floats(3, 120), min_size=count, max_size=count))
    x, y = draw(st.tuples(st.floats(-500, 500), st.floats(-500, 500)))
    ring = tuple(
        (x + r * cos(2 * pi * n / count), y + r * sin(2 * pi * n / count))
        for n, r in enumerate(radii)
    )
    return NestPiece(key, key, key, draw(st.integers(1, 3)), ring)


cuttings = st.builds(
    Cutting,
    spacing=st.floats(0, 10),
    rim=st.floats(0, 15),
    rotation=st.sampled_from(["any", "quarter", "half", "none"]),
    flips=st.booleans(),
)
sheet_lists = st.lists(
    st.builds(
        lambda width, height, price, pack: sheet(width, height, price, pack=pack),
        st.integers(100, 600), st.integers(100, 600), st.integers(0, 20), st.integers(1, 4),
    ),
    min_size=1, max_size=3, unique_by=lambda size: size.name,
)  # fmt: skip


@settings(max_examples=60, deadline=None)
@given(
    pieces=st.integers(1, 7).flatmap(
        lambda count: st.tuples(*(nest_piece(f"p{number}") for number in range(count)))
    ),
    sheets=sheet_lists,
    cutting=cuttings,
)
def test_rows_always_hold(
    pieces: tuple[NestPiece, ...], sheets: list[SheetType], cutting: Cutting
) -> None:
    """Whatever fits a sheet at all gets a plan without faults, above every lower bound."""
    large = {misfit.piece.key for misfit in find_misfits(pieces, sheets, cutting)}
    fitting = [piece for piece in pieces if piece.key not in large]
    plan = plan_rows(fitting, sheets, cutting) if fitting else []
    assert plan is not None
    assert list(faults_of_plan(plan, fitting, sheets, cutting)) == []
    if fitting:
        assert len(plan) >= least_sheets(fitting, sheets, cutting)
        assert plan_cost(plan, sheets) >= least_cost(fitting, sheets, cutting) - 1e-6
    for piece in pieces:
        # Nothing is called too large that lies on a sheet just as it is drawn.
        width = max(x for x, _ in piece.outline) - min(x for x, _ in piece.outline)
        height = max(y for _, y in piece.outline) - min(y for _, y in piece.outline)
        rooms = [cutting.room(size) for size in sheets]
        if any(width <= room[0] and height <= room[1] for room in rooms):
            assert piece.key not in large


def test_rows_by_hand() -> None:
    """Four tiles of half the sheet's sides fill it exactly, in one go."""
    plan = plan_rows(boxes(*[(50, 30)] * 4), [sheet(100, 60)], FREE)
    assert plan is not None
    assert len(plan) == 1
    assert {(p.x, p.y) for p in plan[0].placed} == {(0, 0), (50, 0), (0, 30), (50, 30)}


def test_spacing_and_rim_take_room() -> None:
    """With 2 mm between the tiles a second sheet is needed; a larger sheet brings one back."""
    tiles = boxes(*[(50, 30)] * 4)
    narrow = replace(FREE, spacing=2)
    plan = plan_rows(tiles, [sheet(100, 60)], narrow)
    assert plan is not None
    assert len(plan) > 1
    both = replace(narrow, rim=5)
    plan = plan_rows(tiles, [sheet(112, 72)], both)
    assert plan is not None
    assert len(plan) == 1


def test_cheapest_mix_not_fewest() -> None:
    """Two small sheets at 3 are taken rather than one large at 7; at 5 the large one."""
    tiles = boxes((90, 90), (90, 90))
    for price, count in ((7.0, 2), (5.0, 1)):
        plan = plan_rows(tiles, [sheet(100, 100, 3), sheet(200, 100, price)], FREE)
        assert plan is not None
        assert len(plan) == count


def test_packs_are_paid_whole() -> None:
    """One sheet from a pack of ten at 20 costs 20, so a single one at 5 is cheaper."""
    packed, single = sheet(100, 100, 20, pack=10), sheet(100, 101, 5)
    one = plan_rows(boxes((90, 90)), [packed, single], FREE)
    assert one is not None
    assert [s.name for s in one] == [single.name]
    six = plan_rows(boxes(*[(90, 90)] * 6), [packed, single], FREE)
    assert six is not None
    assert {s.name for s in six} == {packed.name}


def test_offcuts_first() -> None:
    """An offcut that costs nothing is used, but no more often than it is there."""
    tiles = boxes((90, 90), (90, 90))
    plan = plan_rows(tiles, [sheet(100, 100, 0, available=1), sheet(95, 100, 4)], FREE)
    assert plan is not None
    assert sorted(s.name for s in plan) == ["100 × 100", "95 × 100"]
    assert plan_rows(tiles, [sheet(100, 100, 0, available=1)], FREE) is None


@pytest.mark.parametrize(
    ("rotation", "excess"), [("none", 40.0), ("half", 40.0), ("quarter", 0.0), ("any", 0.0)]
)
def test_turns_allowed(rotation: str, excess: float) -> None:
    """An upright strip of 140 mm misses a sheet 100 mm high by 40 mm, unless it may be turned."""
    misfits = find_misfits(boxes((20, 140)), [sheet(200, 100)], replace(FREE, rotation=rotation))
    assert [misfit.excess for misfit in misfits] == ([excess] if excess else [])


def test_only_askew() -> None:
    """A strip longer than both sides lies from corner to corner where any turn is allowed."""
    strip = boxes((110, 5))
    cutting = replace(FREE, rim=1)
    plan = plan_rows(strip, [sheet(102, 102)], cutting)
    assert plan is not None
    assert list(faults_of_plan(plan, strip, [sheet(102, 102)], cutting)) == []
    (misfit,) = find_misfits(strip, [sheet(102, 102)], replace(cutting, rotation="quarter"))
    assert misfit.excess == pytest.approx(10)


def test_smallest_box_of_a_turned_rectangle() -> None:
    """A rectangle drawn askew is laid straight: it then fits a sheet of its own size."""
    turned = tuple(
        (x * cos(0.5) - y * sin(0.5), x * sin(0.5) + y * cos(0.5))
        for x, y in ((0, 0), (80, 0), (80, 30), (0, 30))
    )
    piece = NestPiece("a", "a", "a", 1, turned)
    assert max(hypot(x, y) for x, y in convex_hull(turned)) == pytest.approx(hypot(80, 30))
    plan = plan_rows([piece], [sheet(80.001, 30.001)], FREE)
    assert plan is not None
    assert list(faults_of_plan(plan, [piece], [sheet(80.001, 30.001)], FREE)) == []
