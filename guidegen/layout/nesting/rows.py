"""Polygons and sheets in → the simple plan that always works: bounding boxes in rows (mm).

Each piece lies in its smallest box among the turns that the material allows. Boxes fill rows from
the left, rows fill sheets from below, the highest first (first-fit decreasing height, Coffman,
Garey, Johnson, Tarjan, 1980). Boxes keep the spacing, so the pieces in them do.
"""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from guidegen.geometry.outline.areas import least_misfit
from guidegen.layout.nesting.pieces import (
    Cutting,
    NestPiece,
    SheetType,
    hull_angles,
    snug_angles,
    total_copies,
)
from guidegen.layout.records import CutSheet, Placed

_SLACK = 1e-6
"""mm by which sums of floats may seem not to fit."""

MANY_COPIES = 150
"""From this many copies on, fewer ways of filling are tried. Our choice: keeps it under 1 s."""


KEPT = 128
"""Answers that are kept: a preview asks again for every size after an edit of one drawing, which
leaves most materials alone. Our choice: a guide of five sizes and three materials, with all its
alternatives."""


@dataclass(frozen=True, slots=True)
class Misfit:
    """A piece that fits no sheet, at the nearest one."""

    piece: NestPiece
    sheet: SheetType
    excess: float
    """mm by which it misses, at the best turn allowed."""
    width: float
    height: float
    """mm; its box at that turn."""


@dataclass(frozen=True, slots=True)
class _Lie:
    """One way for a box to lie."""

    angle: float
    width: float
    height: float


@dataclass(frozen=True, slots=True)
class _Box:
    """One copy to place."""

    piece: NestPiece
    copy: int
    lies: tuple[_Lie, ...]
    """Lowest first."""


@dataclass(slots=True)
class _Row:
    """A row that is being filled."""

    y: float
    height: float
    end: float
    """mm; where the next box may begin."""


type _Laid = list[tuple[_Box, _Lie, float, float]]


def find_misfits(
    pieces: Sequence[NestPiece], sheets: Sequence[SheetType], cutting: Cutting
) -> list[Misfit]:
    """Pieces that fit no sheet at any turn allowed, each at the sheet that it misses by least."""
    return [*_misfits(tuple(pieces), tuple(sheets), cutting)]


@lru_cache(maxsize=KEPT)
def _misfits(
    pieces: tuple[NestPiece, ...], sheets: tuple[SheetType, ...], cutting: Cutting
) -> tuple[Misfit, ...]:
    found = []
    for piece in pieces:
        # Few angles first: nearly every piece fits at one of them. Only a piece that does not is
        # turned through all, since each angle costs a turn of its hull.
        for angles_of in (snug_angles, _all_angles):
            angles = angles_of(piece, cutting)
            (excess, angle), number = min(
                (least_misfit(piece.hull, *cutting.room(sheet), angles), number)
                for number, sheet in enumerate(sheets)
            )
            if excess <= _SLACK:
                break
        else:
            left, bottom, right, top = piece.box(angle)
            found.append(Misfit(piece, sheets[number], excess, right - left, top - bottom))
    return tuple(found)


def plan_rows(
    pieces: Sequence[NestPiece], sheets: Sequence[SheetType], cutting: Cutting
) -> list[CutSheet] | None:
    """The cheapest of several row plans. None where a piece fits no sheet that is left."""
    plan = _plan(tuple(pieces), tuple(sheets), cutting)
    return None if plan is None else [*plan]


@lru_cache(maxsize=KEPT)
def _plan(
    pieces: tuple[NestPiece, ...], sheets: tuple[SheetType, ...], cutting: Cutting
) -> tuple[CutSheet, ...] | None:
    boxes = [
        _Box(piece, copy, lies)
        for piece in pieces
        # A loop over one: lies are worked out once for a piece, not once for each copy.
        for lies in [_lies(piece, sheets, cutting)]
        for copy in range(1, piece.copies + 1)
    ]
    # No rule is best for every shop. With one size of sheet there is nothing to choose; with many
    # copies each more rule costs too long.
    choices: list[_Choice] = [_by_share]
    if len(sheets) > 1:
        choices.append(_by_packs)
        if total_copies(pieces) < MANY_COPIES:
            choices += [_always(sheet) for sheet in sheets]
    plans: list[list[CutSheet]] = [
        plan
        for choice in choices
        for standing in (False, True)
        for plan in _fill_sheets(boxes, sheets, cutting, choice, standing)
    ]
    best = min(plans, key=lambda plan: plan_key(plan, sheets), default=None)
    return None if best is None else tuple(best)


def plan_key(plan: Sequence[CutSheet], sheets: Sequence[SheetType]) -> tuple[float, int, float]:
    """What makes a plan better: the price of its packs, then fewer sheets, then less area."""
    # Rounded before it is compared: sums of prices in another order differ in their last digit,
    # and would decide between equal plans.
    cost = round(plan_cost(plan, sheets), 6)
    return (cost, len(plan), round(sum(s.width * s.height for s in plan), 3))


def plan_cost(plan: Sequence[CutSheet], sheets: Sequence[SheetType]) -> float:
    """Price of the packs to buy for a plan."""
    counts = Counter((sheet.name, sheet.width, sheet.height) for sheet in plan)
    return sum(sheet.cost(counts[sheet.name, sheet.width, sheet.height]) for sheet in sheets)


type _Choice = Callable[[SheetType, float, int], float]
"""Sheet, mm² used on it and how many of it were taken before → the higher, the better."""


def _by_share(sheet: SheetType, used: float, _taken: int) -> float:
    """Foam used for the price, each sheet at its share of a pack."""
    return used / sheet.price if sheet.price else used * 1e9


def _by_packs(sheet: SheetType, used: float, taken: int) -> float:
    """Foam used for the price, where the rest of a pack that was begun is free."""
    price = sheet.pack_price if taken % sheet.pack == 0 else 0.0
    # Free foam (an offcut at hand, the rest of a pack) before any that is bought; among free
    # sheets, the one that holds most.
    return used / price if price else used * 1e9


def _always(favourite: SheetType) -> _Choice:
    """One size wherever it holds something."""

    def choice(sheet: SheetType, used: float, taken: int) -> float:
        return _by_share(sheet, used, taken) * (1e18 if sheet is favourite else 1.0)

    return choice


def _all_angles(piece: NestPiece, cutting: Cutting) -> list[float]:
    """Turns to try before a piece is called too large."""
    angles = snug_angles(piece, cutting)
    if cutting.rotation == "any":
        edges = hull_angles(piece)
        angles += [*edges, *(angle + 90 for angle in edges), *map(float, range(180))]
    return angles


def _lies(piece: NestPiece, sheets: Sequence[SheetType], cutting: Cutting) -> tuple[_Lie, ...]:
    """Ways to lie that fit some sheet, lowest first."""

    def lies(angles: Sequence[float]) -> Iterator[_Lie]:
        for angle in angles:
            left, bottom, right, top = piece.box(angle)
            lie = _Lie(angle, right - left, top - bottom)
            if any(_fits(lie, *cutting.room(sheet)) for sheet in sheets):
                yield lie

    found = list(lies(snug_angles(piece, cutting)))
    if not found:
        # Only askew, such as a long strip from corner to corner.
        # One such lie is enough: a box that stands askew wastes the rest of its row whatever its
        # angle.
        found = list(lies(_all_angles(piece, cutting)))[:1]
    return tuple(sorted(found, key=lambda lie: (lie.height, lie.width, lie.angle)))


def _fits(lie: _Lie, width: float, height: float) -> bool:
    return lie.width <= width + _SLACK and lie.height <= height + _SLACK


def _fill_sheets(
    boxes: Sequence[_Box],
    sheets: Sequence[SheetType],
    cutting: Cutting,
    choice: _Choice,
    standing: bool,
) -> Iterator[list[CutSheet]]:
    """Fill one sheet after another, each time the best choice; yields whole plans."""
    rest = _in_order(boxes, standing)
    taken = dict.fromkeys(range(len(sheets)), 0)
    plan: list[CutSheet] = []
    while rest:
        options = []
        for number, sheet in enumerate(sheets):
            if sheet.available is not None and taken[number] >= sheet.available:
                continue
            laid, left = _fill_sheet(rest, sheet, cutting, standing)
            if laid:
                used = sum(box.piece.area for box, *_ in laid)
                options.append((-choice(sheet, used, taken[number]), number, laid, left))
        # Sheets have run out, and what is left fits none: this choice gives no plan.
        if not options:
            return
        # By value, then by the order in the stock: never by comparing what was laid.
        _, number, laid, rest = min(options, key=lambda option: option[:2])
        taken[number] += 1
        plan.append(_cut_sheet(laid, sheets[number], cutting))
    yield plan
    free = [
        sheet
        for number, sheet in enumerate(sheets)
        if sheet.available is None or taken[number] < sheet.available
    ]
    # The last sheet holds what was left over, often little: a smaller one may do. A greedy choice
    # cannot know that it is the last.
    for last in _smaller(laid, sheets[number], free, cutting):
        yield [*plan[:-1], last]


def _smaller(
    laid: _Laid, chosen: SheetType, sheets: Sequence[SheetType], cutting: Cutting
) -> Iterator[CutSheet]:
    """The same boxes on every other sheet that holds them all."""
    for sheet in sheets:
        for standing in (False, True):
            if sheet is not chosen:
                boxes = _in_order([box for box, *_ in laid], standing)
                again, left = _fill_sheet(boxes, sheet, cutting, standing)
                if not left:
                    yield _cut_sheet(again, sheet, cutting)
                    break


def _in_order(boxes: Sequence[_Box], standing: bool) -> list[_Box]:
    """Highest first, as they will lie."""
    end = -1 if standing else 0

    def key(box: _Box) -> tuple[float, float, str, int]:
        lie = box.lies[end]
        # Rounded to a micrometre, then by name: the order must not hang on the last bits of a
        # turned outline, or plans would differ between machines.
        return (-round(lie.height, 3), -round(lie.width, 3), box.piece.key, box.copy)

    return sorted(boxes, key=key)


def _fill_sheet(
    boxes: Sequence[_Box], sheet: SheetType, cutting: Cutting, standing: bool
) -> tuple[_Laid, list[_Box]]:
    """Boxes laid on one sheet, and those for which there is no room."""
    width, height = cutting.room(sheet)
    rows: list[_Row] = []
    laid: _Laid = []
    left: list[_Box] = []
    top = 0.0
    for box in boxes:
        place = _in_row(box, rows, width)
        if place is None:
            lies = box.lies[::-1] if standing else box.lies
            # A row takes its height from its first box. Boxes come highest first, so no later one
            # is higher unless it can only stand.
            lie = next((lie for lie in lies if _fits(lie, width, height - top)), None)
            if lie is None:
                left.append(box)
                continue
            rows.append(_Row(top, lie.height, 0.0))
            place = (rows[-1], lie)
            top += lie.height + cutting.spacing
        row, lie = place
        laid.append((box, lie, row.end, row.y))
        # The spacing after the last box of a row may run over the rim: it is compared before it is
        # added.
        row.end += lie.width + cutting.spacing
    return laid, left


def _in_row(box: _Box, rows: Sequence[_Row], width: float) -> tuple[_Row, _Lie] | None:
    """The first row with room, and the narrowest way to lie in it."""
    for row in rows:
        lies = [lie for lie in box.lies if _fits(lie, width - row.end, row.height)]
        if lies:
            return row, min(lies, key=lambda lie: (lie.width, lie.angle))
    return None


def _cut_sheet(laid: _Laid, sheet: SheetType, cutting: Cutting) -> CutSheet:
    placed = []
    for box, lie, x, y in laid:
        left, bottom, _, _ = box.piece.box(lie.angle)
        # Placed says where the origin of the piece comes to lie, not its box.
        corner = (round(cutting.rim + x - left, 6), round(cutting.rim + y - bottom, 6))
        placed.append(Placed(box.piece.key, box.copy, *corner, lie.angle))
    used = sum(box.piece.area for box, *_ in laid)
    return CutSheet(sheet.name, sheet.width, sheet.height, tuple(placed), used)
