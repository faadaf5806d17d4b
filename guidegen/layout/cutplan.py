"""One size's pieces and the stock in → a cut plan for each sheet material out (mm, degrees).

Rows first: they always work. Where they are not proven best already, a plan that was kept, or the
nesting solver, may do better. Whatever comes is checked with the true outlines before it is used.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from guidegen.buildfile.stock import Material, MaterialKind, Stock
from guidegen.buildfile.tree import Source
from guidegen.errors import SolverError
from guidegen.geometry.records import Kit
from guidegen.layout.cutplan_bounds import least_cost, least_sheets
from guidegen.layout.cutplan_checks import faults_of_plan
from guidegen.layout.nesting_outlines import simple_outline
from guidegen.layout.nesting_pieces import (
    Cutting,
    NestPiece,
    SheetType,
    cutting_of,
    nest_pieces,
    sheet_types,
    total_copies,
)
from guidegen.layout.records import CutPlan, CutSheet, Placed
from guidegen.layout.rows import find_misfits, plan_cost, plan_key, plan_rows
from guidegen.layout.solver_messages import NestAnswer, NestRequest, SolverItem, SolverSheet
from guidegen.layout.solver_process import solve_apart
from guidegen.layout.stored_plans import StoredPlans, task_key
from guidegen.problems import Place, Problem, Severity
from guidegen.units import mm_text

SECONDS = 4.0
"""Budget for one plan. Our choice: longer finds little for kits of up to a hundred pieces."""

DIGITS = 3
"""Decimals of mm that a plan keeps: far below the tolerance of its check."""
ANGLE_DIGITS = 6
"""Decimals of degrees that a plan keeps: 0.001 mm at the end of 50 m."""

type Solve = Callable[[NestRequest], NestAnswer]


@dataclass(frozen=True)
class CutTask:
    """All pieces of one material, and what they may be cut from."""

    material: str
    name: str
    """Of the material, for readers."""
    thickness: float
    pieces: tuple[NestPiece, ...]
    sheets: tuple[SheetType, ...]
    cutting: Cutting

    @property
    def key(self) -> str:
        """What decides whether a plan that was kept still is the answer."""
        return task_key(self.material, self.pieces, self.sheets, self.cutting)


def plan_cuts(
    kit: Kit,
    stock: Stock,
    *,
    stored: StoredPlans | None = None,
    seconds: float = SECONDS,
    solve: bool = True,
    progress: Callable[[str], None] | None = None,
    source: Source | None = None,
    solver: Solve = solve_apart,
) -> tuple[tuple[CutPlan, ...], StoredPlans, list[Problem]]:
    """A cut plan for each sheet material of the kit, in the stock's order.

    `seconds` bounds the search for one plan; without `solve` plans that were kept and rows are
    all there is. Also returns the plans of this kit that are worth keeping, and problems: pieces
    too large for any sheet (left out of the plan), a solver that failed. `progress` is told each
    material's name when its plan is made.
    """
    plans: list[CutPlan] = []
    # A quick draft forgets nothing: what it cannot use may be right again after the next change.
    keep = stored if stored is not None and not solve else StoredPlans()
    problems: list[Problem] = []
    for task in cut_tasks(kit, stock):
        fitting, too_large = _sort_out(task, kit, source)
        problems += too_large
        if not fitting.pieces:
            continue
        plan, found = make_plan(fitting, stored, seconds if solve else 0.0, solver)
        plans.append(plan)
        if isinstance(found, SolverError):
            problems.append(_solver_failed(task, kit, source, found))
        elif found:
            keep = keep.with_plan(fitting.key, plan)
        if progress is not None:
            progress(task.name)
    return tuple(plans), keep, problems


def cut_tasks(kit: Kit, stock: Stock) -> list[CutTask]:
    """The kit's pieces by sheet material, in the stock's order."""
    tasks = []
    for id_, material in stock.materials.items():
        if material.kind is MaterialKind.SHEET:
            pieces = nest_pieces(kit.pieces, id_)
            if pieces:
                tasks.append(_task(id_, material, pieces))
    return tasks


def _task(id_: str, material: Material, pieces: tuple[NestPiece, ...]) -> CutTask:
    thickness = material.thickness.value({}) if material.thickness is not None else 0.0
    sheets = sheet_types(material)
    return CutTask(id_, material.name, thickness, pieces, sheets, cutting_of(material))


def make_plan(
    task: CutTask, stored: StoredPlans | None, seconds: float, solver: Solve = solve_apart
) -> tuple[CutPlan, bool | SolverError]:
    """The plan for pieces that all fit, and whether it is worth keeping (or why the solver failed).

    A plan is kept when time was spent on it; rows are made again faster than read.
    """
    sheets = plan_rows(task.pieces, task.sheets, task.cutting)
    if sheets is None:
        raise SolverError(f"there are not enough sheets of {task.name} for all pieces")
    rows = _cut_plan(task, tidy(sheets, task), "rows")
    check_plan(rows.sheets, task)
    if _proven(rows):
        return rows, False
    kept = stored.plan(task.key) if stored is not None else None
    if kept is not None and not any(_faults(kept.sheets, task)):
        return kept, True
    if seconds <= 0:
        return rows, False
    try:
        return _solved(task, rows, seconds, solver), True
    except SolverError as error:
        return rows, error


def _solved(task: CutTask, rows: CutPlan, seconds: float, solver: Solve) -> CutPlan:
    """The solver's plan, or rows with the solver's bound where it found nothing better."""
    answer = solver(_request(task, rows, seconds))
    least = max(rows.least, answer.least_sheets)
    cost = max(rows.least_cost, answer.least_cost)
    bounded = replace(rows, least=min(least, len(rows.sheets)), least_cost=min(cost, rows.cost))
    if sum(len(places) for _, places in answer.sheets) < total_copies(task.pieces):
        return bounded  # too little time for a whole plan: no fault of the solver's
    sheets = tidy(_sheets_of(answer, task), task)
    check_plan(sheets, task)
    if plan_key(sheets, task.sheets) >= plan_key(rows.sheets, task.sheets):
        return bounded  # of equals, rows: they are easier to cut
    found = _cut_plan(task, sheets, "solver")
    return replace(
        found,
        least=min(max(found.least, least), len(sheets)),
        least_cost=min(max(found.least_cost, cost), found.cost),
    )


def check_plan(sheets: Sequence[CutSheet], task: CutTask) -> None:
    """Raises SolverError where a plan does not hold."""
    faults = _faults(sheets, task)
    if faults:
        raise SolverError(f"the plan does not hold: {faults[0]}")


def _faults(sheets: Sequence[CutSheet], task: CutTask) -> list[str]:
    return list(faults_of_plan(sheets, task.pieces, task.sheets, task.cutting))


def _proven(plan: CutPlan) -> bool:
    """True where no plan can be cheaper, or as cheap with fewer sheets."""
    cheapest = plan.cost <= plan.least_cost + 1e-6
    return cheapest and len(plan.sheets) <= plan.least


def _cut_plan(task: CutTask, sheets: tuple[CutSheet, ...], method: str) -> CutPlan:
    return CutPlan(
        material=task.material,
        thickness=task.thickness,
        sheets=sheets,
        least=least_sheets(task.pieces, task.sheets, task.cutting),
        method=method,
        cost=round(plan_cost(sheets, task.sheets), 6),
        least_cost=least_cost(task.pieces, task.sheets, task.cutting),
    )


def tidy(sheets: Sequence[CutSheet], task: CutTask) -> tuple[CutSheet, ...]:
    """A plan in order: sizes as in stock, the fullest first; copies numbered along; rounded."""
    order = {(kind.name, kind.width, kind.height): n for n, kind in enumerate(task.sheets)}
    rank = {piece.key: number for number, piece in enumerate(task.pieces)}
    copies = dict.fromkeys(rank, 0)
    done = []
    for sheet in sorted(
        sheets, key=lambda s: (order[s.name, s.width, s.height], -round(s.used, 3))
    ):
        placed = []
        for place in sorted(sheet.placed, key=lambda p: (rank[p.piece], p.y, p.x, p.angle)):
            copies[place.piece] += 1
            placed.append(_rounded(place, copies[place.piece]))
        done.append(replace(sheet, placed=tuple(placed), used=round(sheet.used, 3)))
    return tuple(done)


def _rounded(place: Placed, copy: int) -> Placed:
    angle = round(place.angle % 360, ANGLE_DIGITS) % 360
    # Adding zero turns a negative zero into a plain one.
    x, y = round(place.x, DIGITS) + 0.0, round(place.y, DIGITS) + 0.0
    return Placed(place.piece, copy, x, y, angle, place.flipped)


def _request(task: CutTask, rows: CutPlan, seconds: float) -> NestRequest:
    """The task in the solver's words."""
    narrowest = min(
        min(right - left, top - bottom)
        for piece in task.pieces
        for left, bottom, right, top in [piece.box(0)]
    )
    items = []
    for piece in task.pieces:
        outline, holes = simple_outline(piece, narrowest + 2 * task.cutting.spacing)
        items.append(SolverItem(outline, tuple(hole[::-1] for hole in holes), piece.copies))
    sheets = tuple(
        SolverSheet(sheet.width, sheet.height, sheet.price, _copies(sheet, rows))
        for sheet in task.sheets
    )
    return NestRequest(
        sheets, tuple(items), task.cutting.spacing, task.cutting.rim, _turns(task.cutting), seconds
    )


def _copies(sheet: SheetType, rows: CutPlan) -> int:
    """More than this many of one size would be no better than rows."""
    most = total_copies_of(rows)
    if sheet.price > 0:
        most = min(most, int(rows.cost / sheet.price + 1e-9) + 1)
    return most if sheet.available is None else min(most, sheet.available)


def total_copies_of(plan: CutPlan) -> int:
    """How many pieces a plan places."""
    return sum(len(sheet.placed) for sheet in plan.sheets)


def _turns(cutting: Cutting) -> tuple[tuple[float, float, bool], ...]:
    step = {"any": 90, "quarter": 90, "half": 180, "none": 360}[cutting.rotation]
    sides = (False, True) if cutting.flips else (False,)
    return tuple((float(a), float(a), side) for side in sides for a in range(0, 360, step))


def _sheets_of(answer: NestAnswer, task: CutTask) -> list[CutSheet]:
    """The solver's plan in our words; copies are numbered later."""
    done = []
    for number, places in answer.sheets:
        kind = task.sheets[number]
        placed = tuple(
            Placed(task.pieces[p.item].key, 1, p.x, p.y, p.angle, p.flipped) for p in places
        )
        used = sum(task.pieces[p.item].area for p in places)
        done.append(CutSheet(kind.name, kind.width, kind.height, placed, used))
    return done


def _sort_out(task: CutTask, kit: Kit, source: Source | None) -> tuple[CutTask, list[Problem]]:
    """The pieces that fit some sheet, and problems about those that do not."""
    misfits = find_misfits(task.pieces, task.sheets, task.cutting)
    problems = []
    for misfit in misfits:
        width, height = mm_text(misfit.width), mm_text(misfit.height)
        message = (
            f"size {kit.size}: {misfit.piece.name} ({width} × {height} mm) fits no sheet of "
            f"{task.name}; it misses {misfit.sheet.name} by {mm_text(misfit.excess + 0.05, 1)} mm"
        )
        problems.append(
            Problem(
                "too-large",
                Severity.ERROR,
                _place(kit, source, misfit.piece.part),
                f"parts.{misfit.piece.part}",
                message,
                "divide the part, or add a larger sheet to the material in stock.yaml",
            )
        )
    large = {misfit.piece.key for misfit in misfits}
    fitting = tuple(piece for piece in task.pieces if piece.key not in large)
    return replace(task, pieces=fitting), problems


def _solver_failed(task: CutTask, kit: Kit, source: Source | None, error: SolverError) -> Problem:
    return Problem(
        "solver-failed",
        Severity.WARNING,
        _place(kit, source),
        "",
        f"size {kit.size}: {error}; the cut plan of {task.name} is the simple one in rows",
    )


def _place(kit: Kit, source: Source | None, part: str = "") -> Place:
    if source is None:
        return Place(f"{kit.guide}/guide.yaml")
    return source.place(("parts", part) if part else ())
