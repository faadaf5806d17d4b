"""What to nest in → the best plan that rows, a kept plan or the nesting solver give (mm, degrees).

Whatever comes is checked with the true outlines before it is used.
"""

from collections.abc import Callable
from dataclasses import replace
from math import ceil

from guidegen.errors import SolverError
from guidegen.layout.cutplan_task import CutTask, finish_plan
from guidegen.layout.nesting_outlines import simple_outline
from guidegen.layout.nesting_pieces import (
    Cutting,
    NestPiece,
    SheetType,
    hull_angles,
    total_copies,
)
from guidegen.layout.records import CutPlan, CutSheet, Placed
from guidegen.layout.rows import MANY_COPIES, plan_key, plan_rows
from guidegen.layout.solver_messages import (
    NestAnswer,
    NestRequest,
    SolverItem,
    SolverSheet,
    Turns,
)
from guidegen.layout.solver_process import solve_apart
from guidegen.layout.stored_plans import StoredPlans

COPIES_PER_BUDGET = 60
"""Pieces for which the stated seconds are meant; twice as many get twice the time. Our choice:
the solver's first whole plan takes about that much longer."""

LIKELY_USE = 0.75
"""Share of the foam that a plan uses, for a first guess at how many sheets. Our choice."""

type Solve = Callable[[NestRequest], NestAnswer]


def make_plan(
    task: CutTask, stored: StoredPlans | None, seconds: float, solver: Solve = solve_apart
) -> tuple[CutPlan, bool | SolverError]:
    """The plan for pieces that all fit, and whether it is worth keeping (or why the solver failed).

    Rows that are proven best need no search. A plan is kept when time was spent on it: then the
    next one costs none, and is the same. Raises SolverError where there are not enough sheets.
    """
    sheets = plan_rows(task.pieces, task.sheets, task.cutting)
    if sheets is None:
        raise SolverError(f"there are not enough sheets of {task.name} for all pieces")
    rows = finish_plan(task, sheets, "rows")
    if _proven(rows):
        return rows, False
    kept = _kept(task, rows, stored)
    if kept is not None:
        return kept, True
    if seconds <= 0:
        return rows, False
    budget = seconds * max(1.0, total_copies(task.pieces) / COPIES_PER_BUDGET)
    try:
        return _solved(task, rows, budget, solver), True
    except SolverError as error:
        return rows, error


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
    if plan_key(plan.sheets, task.sheets) > plan_key(rows.sheets, task.sheets):
        return None
    return replace(plan, least=min(max(plan.least, kept.least), len(plan.sheets)))


def _solved(task: CutTask, rows: CutPlan, seconds: float, solver: Solve) -> CutPlan:
    """The solver's plan, or rows with the solver's bound where it found nothing better."""
    answer = solver(_request(task, rows, seconds))
    best = rows
    # Where the time is too short the solver has no whole plan, which is no fault.
    if sum(len(places) for _, places in answer.sheets) >= total_copies(task.pieces):
        found = finish_plan(task, _sheets_of(answer, task), "solver")
        # Of equals rows are taken: they are easier to cut.
        if plan_key(found.sheets, task.sheets) < plan_key(rows.sheets, task.sheets):
            best = found
    return replace(best, least=min(max(best.least, answer.least_sheets), len(best.sheets)))


def _request(task: CutTask, rows: CutPlan, seconds: float) -> NestRequest:
    """The task in the solver's words."""
    least_hole = min(map(_narrow_side, task.pieces)) + 2 * task.cutting.spacing
    items = []
    for piece in task.pieces:
        outline, holes = simple_outline(piece, least_hole)
        items.append(SolverItem(outline, tuple(hole[::-1] for hole in holes), piece.copies))
    need = sum(piece.area * piece.copies for piece in task.pieces) / LIKELY_USE
    many = total_copies(task.pieces) >= MANY_COPIES
    return NestRequest(
        sheets=tuple(_solver_sheet(sheet, rows, need) for sheet in task.sheets),
        items=tuple(items),
        spacing=task.cutting.spacing,
        rim=task.cutting.rim,
        searches=_searches(task.cutting, many=many),
        seconds=seconds,
        enough=(rows.least_cost, rows.least),
    )


def _narrow_side(piece: NestPiece) -> float:
    """mm; the narrow side of the slimmest box around a piece."""
    boxes = (piece.box(angle) for angle in hull_angles(piece))
    return min(min(right - left, top - bottom) for left, bottom, right, top in boxes)


def _solver_sheet(sheet: SheetType, rows: CutPlan, need: float) -> SolverSheet:
    """A size with a price for one sheet, packs that would be left unused included.

    `need` is the foam to buy in mm²: as many sheets are guessed to be bought. Without a price a
    sheet counts by its area.
    """
    guess = max(1, ceil(need / (sheet.width * sheet.height)))
    price = sheet.cost(guess) / guess or sheet.width * sheet.height * 1e-6
    most = sum(len(filled.placed) for filled in rows.sheets)
    if sheet.price > 0:
        # A plan with more of them would be dearer than rows.
        most = min(most, int(rows.cost / sheet.price + 1e-9) + 1)
    if sheet.available is not None:
        most = min(most, sheet.available)
    return SolverSheet(sheet.width, sheet.height, price, most, sheet.pack, sheet.pack_price)


def _searches(cutting: Cutting, *, many: bool) -> tuple[Turns, ...]:
    """Turns to search: quarter turns first, then every angle where the material allows it.

    Measured: with a few turns the solver's tree search is at its best, with every angle its local
    search, and neither is always better. For hundreds of pieces every angle takes too long.
    """
    sides = (False, True) if cutting.flips else (False,)
    step = {"any": 90, "quarter": 90, "half": 180, "none": 360}[cutting.rotation]
    steps = tuple((float(a), float(a), side) for side in sides for a in range(0, 360, step))
    if cutting.rotation == "any" and not many:
        return steps, tuple((0.0, 360.0, side) for side in sides)
    return (steps,)


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
