"""A longer search looks again where a kept plan may not be the best, and keeps the better of both."""

import pytest
from layout.nest_samples import make_kit, make_piece, polygon, sheet_material, stock_of, task_of

from guidegen.buildfile.records.materials import SheetSize
from guidegen.errors import SolverError
from guidegen.layout.nesting.cutplan import plan_cuts
from guidegen.layout.nesting.request import request_for
from guidegen.layout.nesting.solver_messages import NestAnswer, NestRequest
from guidegen.layout.nesting.stored_plans import StoredPlans

SINGLE = SheetSize(name="single", width=102, height=102, price=5.5)
PACK = SheetSize(name="pack", width=102, height=102, pack=4, price=17)
STOCK = stock_of(sheet_material(SINGLE, PACK))
TRIANGLE = polygon([(0, 0), (98, 0), (0, 98)])
KIT = make_kit([make_piece("a", TRIANGLE, 2)])


class Asked:
    """A solver that keeps what it was asked and finds nothing, or fails."""

    def __init__(self, error: SolverError | None = None) -> None:
        self.requests: list[NestRequest] = []
        self.error = error

    def __call__(self, request: NestRequest) -> NestAnswer:
        """No plan."""
        self.requests.append(request)
        if self.error is not None:
            raise self.error
        return NestAnswer(())


def poor() -> StoredPlans:
    """What a search without luck keeps: a sheet for each of two triangles that share one."""
    (plan,), keep, _ = plan_cuts(KIT, STOCK, solver=Asked())
    assert len(plan.sheets) == 2
    return keep


@pytest.mark.parametrize(("again", "asked"), [(False, 0), (True, 1)])
def test_a_kept_plan_is_searched_again_only_if_that_is_asked(again: bool, asked: int) -> None:
    """A kept plan costs no time; asked again, the solver has to beat it, and it stays if not."""
    solver, stored = Asked(), poor()
    (plan,), keep, problems = plan_cuts(KIT, STOCK, stored=stored, again=again, solver=solver)
    assert (len(solver.requests), problems, len(plan.sheets)) == (asked, [], 2)
    assert keep.plans == stored.plans


def test_a_better_plan_takes_the_place_of_the_kept_one() -> None:
    """The longer search lays both triangles on one sheet, and that is kept from then on."""
    (plan,), keep, _ = plan_cuts(KIT, STOCK, stored=poor(), again=True, seconds=3)
    assert len(plan.sheets) == 1
    solver = Asked()
    (again,), _, _ = plan_cuts(KIT, STOCK, stored=keep, again=True, solver=solver)
    assert again == plan
    assert solver.requests == []  # proven: no longer search can do better


def test_a_solver_that_fails_leaves_the_kept_plan() -> None:
    """Nothing is lost, and nothing is told, where the longer search breaks off."""
    stored = poor()
    solver = Asked(SolverError("out of memory"))
    (plan,), keep, problems = plan_cuts(KIT, STOCK, stored=stored, again=True, solver=solver)
    assert (len(plan.sheets), keep.plans, problems) == (2, stored.plans, [])


def test_a_longer_search_tries_the_mixes_that_areas_leave_open() -> None:
    """Seven triangles of 98 mm cover 3.2 sheets: four singles, or a pack of four, could hold them.

    The usual search leaves such mixes alone, since they are hard to fill; the longer one begins
    with them, cheapest first.
    """
    task = task_of([make_piece("a", TRIANGLE, 7)], SINGLE, PACK)
    (rows,), _, _ = plan_cuts(make_kit([make_piece("a", TRIANGLE, 7)]), STOCK, solve=False)
    usual = request_for(task, rows, 4).searches
    longer = request_for(task, rows, 4, longer=True).searches
    assert (0, 4) not in [search.mix for search in usual]
    assert longer[0].mix == (0, 4)
    assert longer[0].share > longer[-1].share
