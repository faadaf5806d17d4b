"""What to nest, and the plan in rows → the same in the nesting solver's words (mm, degrees)."""

import heapq
from collections.abc import Iterator
from itertools import islice
from math import ceil

from guidegen.layout.nesting.bounds import swollen_room
from guidegen.layout.nesting.outlines import simple_outline
from guidegen.layout.nesting.pieces import (
    Cutting,
    NestPiece,
    SheetType,
    hull_angles,
    swollen_piece_area,
    total_copies,
)
from guidegen.layout.nesting.rows import MANY_COPIES
from guidegen.layout.nesting.solver_messages import (
    NestRequest,
    Search,
    SolverItem,
    SolverSheet,
    Turns,
)
from guidegen.layout.nesting.task import CutTask
from guidegen.layout.records import CutPlan

LIKELY_USE = 0.75
"""Share of the foam that a plan uses, for a first guess at how many sheets. Our choice."""

EASY_USE = 0.7
"""Share of the room that pieces with their spacing may take in a mix of sheets that is tried for
itself. Measured: what fits so loosely is found in a second, and denser mixes waste the time."""

DENSE_USE = 0.97
"""The same where a longer search is asked for. Our choice: what is denser has never been found."""

AIMS = 2
"""Mixes of sheets that are tried one by one, cheapest first. Our choice."""

AIMS_FOR_SHEETS = 8
"""Sheets of the plan in rows up to which mixes are tried one by one: larger ones are too many."""


def request_for(
    task: CutTask, rows: CutPlan, seconds: float, *, longer: bool = False
) -> NestRequest:
    """The task in the solver's words, with where the search may end.

    `rows` is the plan to beat. A longer search also tries mixes of sheets that are hard to fill.
    """
    # Nothing goes into a hole that is narrower than the slimmest piece with its spacing, and each
    # hole costs the solver time.
    least_hole = min(map(_narrow_side, task.pieces)) + 2 * task.cutting.spacing
    items = []
    for piece in task.pieces:
        outline, holes = simple_outline(piece, least_hole)
        # Our holes run clockwise, the solver wants them the other way.
        items.append(SolverItem(outline, tuple(hole[::-1] for hole in holes), piece.copies))
    need = sum(piece.area * piece.copies for piece in task.pieces) / LIKELY_USE
    return NestRequest(
        sheets=tuple(_solver_sheet(sheet, rows, need) for sheet in task.sheets),
        items=tuple(items),
        spacing=task.cutting.spacing,
        rim=task.cutting.rim,
        searches=_searches(task, rows, longer=longer),
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
    # The solver knows no packs. A pack's price is spread over the sheets that will likely be
    # bought, so that a single sheet seems as dear as the pack that it forces one to buy.
    price = sheet.cost(guess) / guess or sheet.width * sheet.height * 1e-6
    most = sum(len(filled.placed) for filled in rows.sheets)
    if sheet.price > 0:
        # A plan with more of them would be dearer than rows.
        most = min(most, int(rows.cost / sheet.price + 1e-9) + 1)
    if sheet.available is not None:
        most = min(most, sheet.available)
    return SolverSheet(sheet.width, sheet.height, price, most, sheet.pack, sheet.pack_price)


def _searches(task: CutTask, rows: CutPlan, *, longer: bool) -> tuple[Search, ...]:
    """What to search for, one after the other, and the share of the time for each.

    First the cheapest mixes of sheets that are easy to fill, one by one: whether all pieces fit
    given sheets is found out sooner than which sheets are best. Then any mix, with quarter turns,
    then at every angle. Measured: with few turns the solver's tree search is at its best, with
    every angle its local search; the first is better more often. For hundreds of pieces every
    angle takes too long.

    Where sheets of one size are sold singly and in packs, the search for any mix seldom finds the
    fewest: it trades one kind for the other. A longer search therefore begins with the cheapest
    mixes that the areas leave open, and gives them most of its time.
    """
    steps = _steps(task.cutting)
    use, share = (DENSE_USE, 5) if longer else (EASY_USE, 1)
    searches = [Search(steps, aim, share) for aim in islice(_aims(task, rows, use), AIMS)]
    searches.append(Search(steps, (), 4))
    if task.cutting.rotation == "any" and total_copies(task.pieces) < MANY_COPIES:
        sides = {side for _, _, side in steps}
        searches.append(Search(tuple((0.0, 360.0, side) for side in sorted(sides)), (), 2))
    return tuple(searches)


def _steps(cutting: Cutting) -> Turns:
    """Turns by quarters or halves, as far as the material allows."""
    sides = (False, True) if cutting.flips else (False,)
    step = {"any": 90, "quarter": 90, "half": 180, "none": 360}[cutting.rotation]
    return tuple((float(a), float(a), side) for side in sides for a in range(0, 360, step))


def _aims(task: CutTask, rows: CutPlan, use: float) -> Iterator[tuple[int, ...]]:
    """Mixes of sheets that would be better than rows, cheapest first: how many of each size.

    `use` is the share of their room that the pieces with their spacing may take.

    With one size of sheet the solver looks for the fewest anyway.
    """
    # Mixes grow with the number of sheets to the power of their kinds.
    if len(task.sheets) < 2 or len(rows.sheets) > AIMS_FOR_SHEETS:
        return
    cutting = task.cutting
    need = sum(swollen_piece_area(p, cutting.spacing) * p.copies for p in task.pieces) / use
    start = (0.0, 0, 0.0, (0,) * len(task.sheets))
    heap, seen = [start], {start[3]}
    while heap:
        # Cheapest first, and a mix only grows dearer by one more sheet: so the first with room
        # enough is the cheapest of all that are left.
        _, count, room, mix = heapq.heappop(heap)
        if room >= need:
            yield mix
            continue
        for number, sheet in enumerate(task.sheets):
            more = (*mix[:number], mix[number] + 1, *mix[number + 1 :])
            dearer = sum(kind.cost(taken) for kind, taken in zip(task.sheets, more, strict=True))
            better = (round(dearer, 6), count + 1) < (rows.cost, len(rows.sheets))
            # A mix can be reached in many orders; `seen` keeps one of them.
            enough = sheet.available is None or more[number] <= sheet.available
            if better and enough and more not in seen:
                seen.add(more)
                larger = room + swollen_room(sheet, cutting)
                heapq.heappush(heap, (round(dearer, 6), count + 1, larger, more))
