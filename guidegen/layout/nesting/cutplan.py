"""One size's pieces and the stock in → a cut plan for each sheet material out (mm, degrees).

Rows first: they always work. Where they are not proven best already, a plan that was kept, or the
nesting solver, may do better.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.tree import Source
from guidegen.errors import SolverError
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.nesting.bounds import gap_words
from guidegen.layout.nesting.pieces import SheetType
from guidegen.layout.nesting.rows import Misfit, find_misfits
from guidegen.layout.nesting.search import Solve, make_plan
from guidegen.layout.nesting.solver_process import solve_apart
from guidegen.layout.nesting.stored_plans import StoredPlans
from guidegen.layout.nesting.task import CutTask, cut_tasks
from guidegen.layout.records import CutPlan
from guidegen.problems import Place, Problem
from guidegen.units import mm_text

__all__ = ["SECONDS", "gap_words", "plan_cuts"]

SECONDS = 4.0
"""Budget for one plan of up to 60 pieces on an idle machine. Our choice: longer finds little
more."""


def plan_cuts(
    kit: Kit,
    stock: Stock,
    *,
    stored: StoredPlans | None = None,
    seconds: float = SECONDS,
    again: bool = False,
    solve: bool = True,
    progress: Callable[[str], None] | None = None,
    source: Source | None = None,
    offcuts: Mapping[str, Sequence[SheetType]] | None = None,
    solver: Solve = solve_apart,
) -> tuple[tuple[CutPlan, ...], StoredPlans, list[Problem]]:
    """A cut plan for each sheet material of the kit, in the stock's order.

    `seconds` bounds the search for one plan (on a busy machine three times that); without `solve`
    plans that were kept and rows are all there is. `again` searches longer, also where a plan was
    kept that may not be the best. Also returns the plans of this kit that are worth keeping, and
    problems: pieces too large for any sheet (left out of the plan), a solver that failed.
    `progress` is told each material's name when its plan is made; `source` gives places to
    problems; `offcuts` are sheets at hand, by material, with how many there are.
    """
    plans: list[CutPlan] = []
    # A quick draft forgets nothing: what it cannot use may be right again after the next change.
    keep = stored if stored is not None and not solve else StoredPlans()
    problems: list[Problem] = []
    for task in cut_tasks(kit, stock, offcuts):
        # Before anything is planned: neither rows nor the solver can do with a piece that fits
        # nowhere, and the rest of the kit is planned all the same.
        misfits = find_misfits(task.pieces, task.sheets, task.cutting)
        problems += [_too_large(misfit, task, kit, source) for misfit in misfits]
        fitting = _without(task, misfits)
        if not fitting.pieces:
            continue
        plan, found = make_plan(fitting, stored, seconds if solve else 0.0, solver, again=again)
        plans.append(plan)
        if isinstance(found, SolverError):
            problems.append(_solver_failed(task, kit, source, found))
        # Kept under the key of what was really planned, without the pieces that fit no sheet.
        elif found:
            keep = keep.with_plan(fitting.key, plan)
        if progress is not None:
            progress(task.name)
    return tuple(plans), keep, problems


def _without(task: CutTask, misfits: Sequence[Misfit]) -> CutTask:
    large = {misfit.piece.key for misfit in misfits}
    return replace(task, pieces=tuple(piece for piece in task.pieces if piece.key not in large))


def _too_large(misfit: Misfit, task: CutTask, kit: Kit, source: Source | None) -> Problem:
    size = f"{mm_text(misfit.width)} × {mm_text(misfit.height)} mm"
    # Rounded up, so that nobody shortens a part by too little.
    miss = mm_text(misfit.excess + 0.05, 1)
    return Problem(
        "too-large",
        _place(kit, source, misfit.piece.part),
        f"parts.{misfit.piece.part}",
        f"in size {kit.size} {misfit.piece.name} ({size}) fits no sheet of {task.name}; "
        f"it misses the sheet {misfit.sheet.name} by {miss} mm",
        "divide the part, or add a larger sheet to the material in stock.yaml",
    )


def _solver_failed(task: CutTask, kit: Kit, source: Source | None, error: SolverError) -> Problem:
    return Problem(
        "solver-failed",
        _place(kit, source),
        "",
        f"in size {kit.size} {error}; the cut plan of {task.name} is the simple one in rows",
    )


def _place(kit: Kit, source: Source | None, part: str = "") -> Place:
    if source is None:
        return Place(f"{kit.guide}/guide.yaml")
    return source.place(("parts", part) if part else ())
