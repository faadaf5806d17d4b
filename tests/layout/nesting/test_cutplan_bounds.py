"""Lower bounds on cut plans, against plans by hand and against trying everything."""

from dataclasses import replace
from itertools import product
from math import ceil, inf

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.nest_samples import FREE, boxes, sheet

from guidegen.geometry.pieces.records import Kit
from guidegen.layout.nesting.bounds import (
    above_best,
    cheapest_cover,
    gap_words,
    is_best,
    least_bins,
    least_cost,
    least_sheets,
    swollen_room,
)
from guidegen.layout.nesting.pieces import Cutting
from guidegen.layout.records import CutPlan, CutSheet, GuidePlan, SizePlan
from guidegen.layout.schedules import Schedule
from guidegen.words import ENGLISH


def test_sheets_by_hand() -> None:
    """Three plates of 60 % of a sheet need three sheets, though their area is that of 1.8."""
    assert least_sheets(boxes(*[(60, 100)] * 3), [sheet(100, 100)], FREE) == 3
    assert least_sheets(boxes(*[(50, 100)] * 3), [sheet(100, 100)], FREE) == 2


def test_spacing_counts() -> None:
    """Two halves of a sheet fit one without spacing, and need two with it."""
    halves = boxes((50, 100), (50, 100))
    assert least_sheets(halves, [sheet(100, 100)], FREE) == 1
    spaced = Cutting(spacing=4, rim=0, rotation="any", flips=False)
    assert least_sheets(halves, [sheet(100, 100)], spaced) == 2
    assert least_sheets(halves, [sheet(104, 100)], spaced) == 1


def test_cost_by_hand() -> None:
    """Area of 1.5 large sheets: one large at 10 and one small at 4 are the least; packs count."""
    tiles = boxes(*[(100, 50)] * 3)
    sizes = [sheet(100, 100, 10), sheet(100, 50, 4)]
    assert least_cost(tiles, sizes, FREE) == 12
    assert least_cost(tiles, [sheet(100, 100, 10), sheet(100, 50, 5.5)], FREE) == 15.5
    assert least_cost(tiles, [sheet(100, 100, 30, pack=3), sheet(100, 50, 11)], FREE) == 30


kinds = st.lists(
    st.tuples(st.integers(1, 9), st.integers(0, 9), st.sampled_from([None, None, 1, 2])),
    min_size=1,
    max_size=3,
)


@settings(max_examples=150, deadline=None)
@given(need=st.integers(1, 25), kinds=kinds)
def test_cover_is_the_least(need: int, kinds: list[tuple[float, float, int | None]]) -> None:
    """The search finds the price that trying all counts finds."""
    counts = [
        range(ceil(need / amount) + 1 if most is None else most + 1) for amount, _, most in kinds
    ]
    least = inf
    for choice in product(*counts):
        if sum(count * kind[0] for count, kind in zip(choice, kinds, strict=True)) >= need:
            price = sum(count * kind[1] for count, kind in zip(choice, kinds, strict=True))
            least = min(least, price)
    if least < inf:
        assert cheapest_cover(need, kinds) == pytest.approx(least)


@settings(max_examples=100, deadline=None)
@given(st.lists(st.integers(1, 20), min_size=1, max_size=7))
def test_bins_below_the_best_packing(sizes: list[int]) -> None:
    """No packing of up to seven sizes into bins of 20 uses fewer bins than the bound."""
    assert least_bins(sizes, 20) <= _best_packing(sorted(sizes, reverse=True), [])


def _best_packing(sizes: list[int], bins: list[int]) -> int:
    """Fewest bins of 20, by trying every bin for every size."""
    if not sizes:
        return len(bins)
    best = _best_packing(sizes[1:], [*bins, sizes[0]])
    for number, filled in enumerate(bins):
        if filled + sizes[0] <= 20:
            more = [*bins[:number], filled + sizes[0], *bins[number + 1 :]]
            best = min(best, _best_packing(sizes[1:], more))
    return best


def plan(widths: list[float], least: int, cost: float, least_cost: float) -> CutPlan:
    """A plan of empty sheets."""
    sheets = tuple(CutSheet("s", width, 100, (), 0) for width in widths)
    return CutPlan("foam", 10, sheets, least, "rows", cost, least_cost)


def test_words_for_the_author() -> None:
    """The gap is told in sheets where there is one size, else in price, always as 'at most'."""
    assert gap_words(plan([100], 1, 5, 5), ENGLISH) == "the best possible"
    assert (
        gap_words(plan([100] * 3, 2, 15, 10), ENGLISH)
        == "at most 1\u00a0sheet above the best possible"
    )
    assert (
        gap_words(plan([100] * 4, 2, 20, 10), ENGLISH)
        == "at most 2\u00a0sheets above the best possible"
    )
    dearer = gap_words(plan([100, 200], 1, 11.5, 10), ENGLISH)
    assert dearer == "at most 15% dearer than the best possible"
    assert gap_words(plan([100], 1, 0, 0), ENGLISH) == "the best possible number of sheets"


def test_only_plans_above_the_best_are_named() -> None:
    """Sizes with the same gap stand together; proven plans and empty ones say nothing."""
    best, above = plan([100], 1, 5, 5), plan([100] * 3, 2, 15, 10)
    sizes = tuple(
        SizePlan(Kit("g", name, (), (), (), (), ()), cuts)
        for name, cuts in (("S", (best,)), ("M", (above,)), ("L", (above, plan([], 0, 0, 0))))
    )
    guide = GuidePlan(None, sizes, (), Schedule(1, ()))
    assert is_best(best) and not is_best(above)
    assert above_best(guide) == "foam at most 1\u00a0sheet above the best possible (M, L)"
    assert above_best(replace(guide, sizes=sizes[:1])) == ""


def test_a_sheet_that_is_all_rim_has_no_room() -> None:
    """Swollen by half the spacing, a sheet of 104 mm has 102 mm of room; one of 4 mm has none."""
    cutting = Cutting(spacing=2, rim=2, rotation="any", flips=False)
    assert swollen_room(sheet(104, 104), cutting) == 102**2
    assert swollen_room(sheet(4, 104), cutting) == swollen_room(sheet(104, 3), cutting) == 0
