"""Felt by the metre: pieces nested on the width of a roll, the shortest length bought."""

import pytest
from layout.nest_samples import (
    disc,
    make_kit,
    make_piece,
    polygon,
    rectangle,
    sheet_material,
    stock_of,
)
from pydantic import ValidationError

from guidegen.buildfile.records.materials import SheetSize
from guidegen.geometry.pieces.records import Piece
from guidegen.layout.nesting.cutplan import plan_cuts
from guidegen.layout.nesting.rolls import LENGTHS
from guidegen.layout.nesting.task import CutTask, cut_tasks
from guidegen.layout.records import CutPlan
from guidegen.quantities import SPACE

ROLL = SheetSize(name="off the roll", width=450, height=3000, by=100, price=0.8)


def tasks(*pieces: Piece, roll: SheetSize = ROLL, **settings: object) -> CutTask:
    """What to nest on a roll."""
    (task,) = cut_tasks(make_kit(pieces), stock_of(sheet_material(roll, **settings)))
    return task


def planned(*pieces: Piece, roll: SheetSize = ROLL, seconds: float = 0.0) -> CutPlan:
    """The plan in rows, or with the solver."""
    (plan,), _, problems = plan_cuts(
        make_kit(pieces), stock_of(sheet_material(roll)), seconds=seconds, solve=seconds > 0
    )
    assert problems == []
    return plan


def test_a_length_off_the_roll_holds_all() -> None:
    """Three boxes of 400 by 190 mm, 3 apart, are 576 mm: 600 off the roll, at 0.80 for each 100."""
    plan = planned(make_piece("a", rectangle(400, 190), 3))
    ((name, width, height),) = [(one.name, one.width, one.height) for one in plan.sheets]
    assert (name, width, height) == (f"off the roll, 600{SPACE}mm", 450, 600)
    assert plan.cost == pytest.approx(6 * 0.8)


def test_lengths_go_from_what_the_area_needs_to_what_rows_need() -> None:
    """Ten discs of 200 mm are 697 mm at least of 450 mm, and 1015 mm two in a row."""
    task = tasks(make_piece("a", disc(100), 10))
    assert [sheet.height for sheet in task.sheets] == [800, 900, 1000, 1100]
    assert [sheet.price for sheet in task.sheets] == pytest.approx([6.4, 7.2, 8.0, 8.8])


def test_a_roll_that_is_sold_by_the_mm_offers_a_choice() -> None:
    """Hundreds of lengths would be tried one by one: some are, the one that rows need among them."""
    fine = SheetSize(name="off the roll", width=450, height=3000, by=1, price=0.01)
    task = tasks(make_piece("a", disc(100), 10), roll=fine)
    heights = [sheet.height for sheet in task.sheets]
    assert 2 < len(heights) <= LENGTHS
    assert heights[-1] == 5 * 200 + 4 * 3  # as high as five rows, 3 mm apart
    assert heights == sorted(heights)


def test_what_is_longer_than_the_longest_piece_takes_two() -> None:
    """Eight boxes of 440 by 900 mm on pieces of 3 m at most: three each, so three lengths."""
    plan = planned(make_piece("a", rectangle(440, 900), 8))
    assert sorted(len(one.placed) for one in plan.sheets) == [2, 3, 3]
    assert all(one.height <= 3000 for one in plan.sheets)


def test_what_is_wider_than_the_roll_is_told() -> None:
    """A box of 500 by 500 mm lies nowhere on 450 mm; the others are planned without it."""
    kit = make_kit([make_piece("wide", rectangle(500, 500)), make_piece("a", rectangle(400, 190))])
    (plan,), _, (problem,) = plan_cuts(kit, stock_of(sheet_material(ROLL)), solve=False)
    assert problem.code == "too-large"
    assert [one.height for one in plan.sheets] == [200]


def test_the_solver_finds_a_shorter_length() -> None:
    """Two triangles with legs of 400 mm lie on 400 mm of the roll together; in rows on 400 each."""
    triangles = make_piece("a", polygon([(0, 0), (400, 0), (0, 400)]), 2)
    assert [one.height for one in planned(triangles).sheets] == [400, 400]
    found = planned(triangles, seconds=20)
    assert [(one.height, len(one.placed)) for one in found.sheets] == [(400, 2)]
    assert (found.method, found.cost) == ("solver", pytest.approx(3.2))


@pytest.mark.parametrize("wrong", [{"pack": 4}, {"interlock": 10}])
def test_a_roll_has_neither_packs_nor_teeth(wrong: dict[str, object]) -> None:
    """Both belong to sheets; the file is refused where they stand."""
    with pytest.raises(ValidationError, match="off a roll"):
        SheetSize(name="r", width=450, height=3000, by=100, price=1, **wrong)
