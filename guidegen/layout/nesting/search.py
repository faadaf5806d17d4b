"""What to nest in → the best plan that rows, a kept plan or the nesting solver give (mm, degrees).

Whatever comes is checked with the true outlines before it is used.
"""

from collections.abc import Callable

from guidegen.errors import SolverError
from guidegen.layout.nesting.pieces import total_copies
from guidegen.layout.nesting.request import request_for
from guidegen.layout.nesting.rows import plan_key, plan_rows
from guidegen.layout.nesting.solver_messages import NestAnswer, NestRequest
from guidegen.layout.nesting.solver_process import solve_apart
from guidegen.layout.nesting.stored_plans import StoredPlans
from guidegen.layout.nesting.task import CutTask, finish_plan
from guidegen.layout.records import CutPlan, CutSheet, Placed

COPIES_PER_BUDGET = 60
"""Pieces for which the stated seconds are meant; twice as many get twice the time. Our choice:
the solver's first whole plan takes about that much longer."""

type Solve = Callable[[NestRequest], NestAnswer]


def make_plan(
    task: CutTask,
    stored: StoredPlans | None,
    seconds: float,
    solver: Solve = solve_apart,
    *,
    again: bool = False,
) -> tuple[CutPlan, bool | SolverError]:
    """The plan for pieces that all fit, and whether it is worth keeping (or why the solver failed).

    Rows that are proven best need no search. A plan is kept when time was spent on it: then the
    next one costs none, and is the same. `again` searches longer: a kept plan that may not be the
    best is the one to beat, and stays where nothing better is found. Raises SolverError where there
    are not enough sheets.
    """
    sheets = plan_rows(task.pieces, task.sheets, task.cutting)
    if sheets is None:
        raise SolverError(f"there are not enough sheets of {task.name} for all pieces")
    rows = finish_plan(task, sheets, "rows")
    # Nothing can be better, so neither time nor the kept file is touched: most small kits end
    # here.
    if _proven(rows):
        return rows, False
    # Checked like any other: the file may have been edited, or come from a stranger.
    kept = _kept(task, rows, stored)
    if kept is not None and (not again or seconds <= 0 or _proven(kept)):
        return kept, True
    if seconds <= 0:
        return rows, False
    # By copies, not kinds: the solver places each copy for itself.
    budget = seconds * max(1.0, total_copies(task.pieces) / COPIES_PER_BUDGET)
    try:
        return _solved(task, kept or rows, budget, solver, longer=again), True
    except SolverError as error:
        # A solver that fails costs a better plan, never a plan.
        return (rows, error) if kept is None else (kept, True)


def _proven(plan: CutPlan) -> bool:
    """True where no plan can be cheaper, or as cheap with fewer sheets."""
    return plan.cost <= plan.least_cost + 1e-6 and len(plan.sheets) <= plan.least


def _kept(task: CutTask, rows: CutPlan, stored: StoredPlans | None) -> CutPlan | None:
    """The plan that was kept for this task, if it holds and is no worse than rows."""
    kept = stored.plan(task.key) if stored is not None else None
    if kept is None:
        return None
    try:
        plan = finish_plan(task, kept.sheets, kept.method)
    except SolverError:
        return None
    # Prices or sheets may have changed so that rows are better now.
    if plan_key(plan.sheets, task.sheets) > plan_key(rows.sheets, task.sheets):
        return None
    return plan


def _solved(
    task: CutTask, rows: CutPlan, seconds: float, solver: Solve, *, longer: bool
) -> CutPlan:
    """The solver's plan, or `rows`, the plan to beat, where it found nothing better.

    What the solver proves is not used: it holds for the simple outlines, not for the true ones.
    """
    answer = solver(request_for(task, rows, seconds, longer=longer))
    # Where the time is too short the solver has no whole plan, which is no fault.
    if sum(len(places) for _, places in answer.sheets) < total_copies(task.pieces):
        return rows
    found = finish_plan(task, _sheets_of(answer, task), "solver")
    # Of equals rows are taken: they are easier to cut.
    better = plan_key(found.sheets, task.sheets) < plan_key(rows.sheets, task.sheets)
    return found if better else rows


def _sheets_of(answer: NestAnswer, task: CutTask) -> list[CutSheet]:
    """The solver's plan in our words; copies are numbered later."""
    done = []
    for number, places in answer.sheets:
        kind = task.sheets[number]
        placed = tuple(
            Placed(task.pieces[p.item].key, 1, p.x, p.y, p.angle, p.flipped) for p in places
        )
        done.append(CutSheet(kind.name, kind.width, kind.height, placed, 0.0))
    return done
