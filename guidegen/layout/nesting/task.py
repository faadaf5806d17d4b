"""Kit and stock in → what to nest, material by material; a plan put in order, priced and checked.

All lengths in mm, angles in degrees.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

from guidegen.buildfile.records.materials import MaterialKind
from guidegen.buildfile.records.stock import Stock
from guidegen.errors import SolverError
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.nesting.bounds import least_cost, least_sheets
from guidegen.layout.nesting.checks import faults_of_plan
from guidegen.layout.nesting.pieces import (
    Cutting,
    NestPiece,
    SheetType,
    cutting_of,
    nest_pieces,
)
from guidegen.layout.nesting.rolls import offered_sheets
from guidegen.layout.nesting.rows import plan_cost
from guidegen.layout.nesting.stored_plans import task_key
from guidegen.layout.records import CutPlan, CutSheet, Placed

DIGITS = 3
"""Decimals of mm that a plan keeps: far below the tolerance of its check."""
KEPT = 64
"""Plans that are kept as they were checked: a preview asks again after each edit. Our choice: of a
guide of five sizes and three materials, rows and the plan that was kept."""
ANGLE_DIGITS = 6
"""Decimals of degrees that a plan keeps: 0.001 mm at the end of 50 m."""


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

    @cached_property
    def key(self) -> str:
        """What decides whether a plan that was kept still is the answer."""
        return task_key(self.material, self.pieces, self.sheets, self.cutting)


def cut_tasks(
    kit: Kit, stock: Stock, offcuts: Mapping[str, Sequence[SheetType]] | None = None
) -> list[CutTask]:
    """The kit's pieces by sheet material, in the stock's order.

    `offcuts` are sheets that are there already, by material: each with how many are available,
    and for nothing.
    """
    tasks = []
    for id_, material in stock.materials.items():
        if material.kind is not MaterialKind.SHEET:
            continue
        pieces = nest_pieces(kit.pieces, id_)
        if pieces:
            thickness = material.thickness.value({}) if material.thickness is not None else 0.0
            cutting = cutting_of(material)
            sold = offered_sheets(material, pieces, cutting)
            sheets = (*(offcuts or {}).get(id_, ()), *sold)
            tasks.append(CutTask(id_, material.name, thickness, pieces, sheets, cutting))
    return tasks


def finish_plan(task: CutTask, sheets: Sequence[CutSheet], method: str) -> CutPlan:
    """A plan put in order, checked with the true outlines, priced and bounded.

    Raises SolverError where it does not hold.
    """
    return _finished(task, tuple(sheets), method)


@lru_cache(maxsize=KEPT)
def _finished(task: CutTask, sheets: tuple[CutSheet, ...], method: str) -> CutPlan:
    # Before it is put in order, which looks pieces up.
    if any(placed.piece not in _areas(task) for sheet in sheets for placed in sheet.placed):
        raise SolverError("the plan does not hold: it places pieces that are not in the kit")
    ordered = _in_order(sheets, task)
    # On the rounded plan, since that is what is kept and drawn.
    for fault in faults_of_plan(ordered, task.pieces, task.sheets, task.cutting):
        raise SolverError(f"the plan does not hold: {fault}")
    return CutPlan(
        material=task.material,
        thickness=task.thickness,
        sheets=ordered,
        least=least_sheets(task.pieces, task.sheets, task.cutting),
        method=method,
        cost=round(plan_cost(ordered, task.sheets), 6),
        least_cost=least_cost(task.pieces, task.sheets, task.cutting),
    )


def _areas(task: CutTask) -> dict[str, float]:
    return {piece.key: piece.area for piece in task.pieces}


def _in_order(sheets: Sequence[CutSheet], task: CutTask) -> tuple[CutSheet, ...]:
    """Sizes as in stock, the fullest first; copies numbered along; rounded."""
    order = {(kind.name, kind.width, kind.height): n for n, kind in enumerate(task.sheets)}
    rank = {piece.key: number for number, piece in enumerate(task.pieces)}
    areas = _areas(task)
    copies = dict.fromkeys(rank, 0)
    filled = [
        replace(
            sheet,
            # Rounded before it is sorted, so that a plan that was kept stays in its order.
            placed=tuple(
                sorted(
                    map(_rounded, sheet.placed), key=lambda p: (rank[p.piece], p.y, p.x, p.angle)
                )
            ),
            used=round(sum(areas[placed.piece] for placed in sheet.placed), 3),
        )
        for sheet in sheets
        if sheet.placed
    ]
    # The fullest first, so that sheets with much left over come last, and copies are numbered in
    # the order in which one cuts.
    filled.sort(key=lambda s: (order.get((s.name, s.width, s.height), len(order)), -s.used))
    done = []
    for sheet in filled:
        placed = []
        for place in sheet.placed:
            copies[place.piece] += 1
            placed.append(replace(place, copy=copies[place.piece]))
        done.append(replace(sheet, placed=tuple(placed)))
    return tuple(done)


def _rounded(place: Placed) -> Placed:
    angle = round(place.angle % 360, ANGLE_DIGITS) % 360
    # Adding zero turns a negative zero into a plain one.
    x, y = round(place.x, DIGITS) + 0.0, round(place.y, DIGITS) + 0.0
    return replace(place, x=x, y=y, angle=angle)
