"""A cut plan in → what is wrong with it: outside, too near, turned, flipped or miscounted (mm).

Every plan is checked with the true outlines before it is used, whoever made it.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from math import isfinite

from guidegen.geometry.outline.distances import pairs_nearer_than
from guidegen.layout.nesting.pieces import Cutting, NestPiece, SheetType
from guidegen.layout.records import CutSheet

TOLERANCE = 0.01
"""mm that a plan may miss spacing and rim by. Our choice: a tenth of the width of a knife cut."""


def faults_of_plan(
    plan: Sequence[CutSheet],
    pieces: Sequence[NestPiece],
    sheets: Sequence[SheetType],
    cutting: Cutting,
) -> Iterator[str]:
    """Faults in words, for the author; nothing where the plan holds."""
    known = {piece.key: piece for piece in pieces}
    yield from _miscounted(plan, pieces)
    yield from _unknown_sheets(plan, sheets)
    for number, sheet in enumerate(plan, 1):
        where = f"on sheet {number}"
        for placed in sheet.placed:
            if not all(map(isfinite, (placed.x, placed.y, placed.angle))):
                # No test below has an answer for what is not a number: say so and stop.
                yield f"{placed.piece} lies nowhere {where}"
                return
            if not cutting.allows(placed.angle, flipped=placed.flipped):
                yield f"{placed.piece} is turned or flipped against the material's rule {where}"
        # Unknown pieces are told above and have no outline to test.
        if all(placed.piece in known for placed in sheet.placed):
            yield from _outside(sheet, known, cutting, where)
            yield from _too_near(sheet, known, cutting, where)


def _miscounted(plan: Sequence[CutSheet], pieces: Sequence[NestPiece]) -> Iterator[str]:
    """Copies are numbered 1, 2, 3 … and each is there once."""
    # By copy, not by number alone: a file could list one copy twice and leave another out.
    wanted = Counter((piece.key, copy) for piece in pieces for copy in range(1, piece.copies + 1))
    placed = Counter((placed.piece, placed.copy) for sheet in plan for placed in sheet.placed)
    for key, copy in sorted((wanted - placed).keys()):
        yield f"copy {copy} of {key} is missing"
    for key, copy in sorted((placed - wanted).keys()):
        yield f"copy {copy} of {key} is one too many"


def _unknown_sheets(plan: Sequence[CutSheet], sheets: Sequence[SheetType]) -> Iterator[str]:
    known = {(sheet.name, sheet.width, sheet.height) for sheet in sheets}
    for sheet in plan:
        if (sheet.name, sheet.width, sheet.height) not in known:
            yield f"no sheet {sheet.name} of {sheet.width:g} × {sheet.height:g} mm is sold"
    taken = Counter(sheet.name for sheet in plan)
    for kind in sheets:
        if kind.available is not None and taken[kind.name] > kind.available:
            yield f"more sheets {kind.name} than there are"


def _outside(
    sheet: CutSheet, known: dict[str, NestPiece], cutting: Cutting, where: str
) -> Iterator[str]:
    least = cutting.rim - TOLERANCE
    for placed in sheet.placed:
        # The box is enough for the rim of a rectangle: what is inside by its box is inside.
        left, bottom, right, top = known[placed.piece].box(placed.angle, flipped=placed.flipped)
        room = min(
            left + placed.x,
            bottom + placed.y,
            sheet.width - right - placed.x,
            sheet.height - top - placed.y,
        )
        if room < least:
            yield f"{placed.piece} is {cutting.rim - room:.2f} mm too near the rim {where}"


def _too_near(
    sheet: CutSheet, known: dict[str, NestPiece], cutting: Cutting, where: str
) -> Iterator[str]:
    polygons = [known[placed.piece].rings_at(placed) for placed in sheet.placed]
    for first, second, gap in pairs_nearer_than(polygons, cutting.spacing, TOLERANCE):
        names = f"{sheet.placed[first].piece} and {sheet.placed[second].piece}"
        yield f"{names} are {gap:.2f} mm apart {where}, not {cutting.spacing:g} mm"
