"""A piece, a spread line and a width in → the piece cut along the line and opened there.

One side of the line stays, the other moves away by the width, or turns about the end of the line
that stays shut. What the line passes (outline, holes, inner lines) is joined again by a curve that
keeps the directions of both cut ends; all else moves along rigidly. A negative width closes: see
`spread_close`.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import asin, degrees

from guidegen.geometry.drawing.corners import REACH
from guidegen.geometry.drawing.records import DrawnPiece, SpreadLine
from guidegen.geometry.grading.spread_bridge import merged
from guidegen.geometry.grading.spread_carry import carry, carry_run
from guidegen.geometry.grading.spread_close import ClosingZone
from guidegen.geometry.grading.spread_cut import (
    CutLine,
    CutSegment,
    SpreadError,
    cut_line,
    label_sides,
    runs_of,
    side_area,
    split_at,
)
from guidegen.geometry.grading.spread_opening import Opening
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import Point, Run
from guidegen.geometry.outline.transforms import RigidMotion
from guidegen.units import mm_text

NOTHING = 1e-9
"""mm; a width below this leaves the piece as it is."""

TIE = 0.01
"""Share by which two sides may differ in area and still count as equal. Our choice."""


def left_stays(piece: DrawnPiece, spread: SpreadLine, fold: frozenset[int]) -> bool:
    """Which side of a spread line stays where it is, judged on the drawing as drawn.

    The side with the whole edge on the fold (its stretches are `fold`); otherwise the larger
    side; of equal sides the left one, or the lower one where the line is nearer to level. So a
    symmetrical piece with lines on both sides of its middle grows evenly, and the fold rests.
    Raises SpreadError.
    """
    line = cut_line(spread.start, spread.end)
    bits = _outline_bits(piece, line, distance(spread.start, spread.end), ())
    # The fold is the axis of the unfolded piece: if it moved, both halves would overlap or gape.
    # Cut by the line it lies on both sides, and size decides.
    sides = {bit.left for bit in bits if bit.stretch in fold}
    if len(sides) == 1:
        return sides.pop()
    left, right = (side_area(bits, line, side) for side in (True, False))
    if abs(left - right) > TIE * (left + right):
        return left > right
    nx, ny = line.normal
    # By position, not by the direction in which the author drew the line, which nobody sees.
    return nx < 0 if abs(nx) >= abs(ny) else ny < 0


def spread_piece(
    piece: DrawnPiece, spread: SpreadLine, opens: float, hinge: str, stays_left: bool
) -> DrawnPiece:
    """The piece opened by `opens` mm at a line; negative closes. Raises SpreadError.

    `hinge` is 'none' (the same width all along), 'start' or 'end': that end stays shut and
    `opens` is the straight distance of the cut ends at the other end.
    """
    if abs(opens) < NOTHING:
        return piece
    # Editors split straight lines at will: put together, a piece grades the same however it was
    # drawn.
    piece = replace(piece, stretches=tuple(map(merged, piece.stretches)))
    opening = _prepare(piece, spread, opens, hinge, stays_left)
    stretches = carry(opening, opening.bits, len(piece.stretches), strict=True)
    return replace(
        piece,
        stretches=stretches,
        holes=tuple(carry_run(opening, hole, closed=True) for hole in piece.holes),
        lines=tuple(
            replace(line, run=carry_run(opening, line.run, closed=_closes(line.run)))
            for line in piece.lines
        ),
        spreads=tuple(
            other
            if other.name == spread.name
            else replace(other, start=opening.moves(other.start), end=opening.moves(other.end))
            for other in piece.spreads
        ),
    )


def flare_at(
    piece: DrawnPiece, spread: SpreadLine, opens: float, hinge: str
) -> tuple[int, float] | None:
    """The stretch that an opened hinge lies on, and the degrees by which it turns inward there.

    A piece that opens about a point of its rim becomes a flare, and the rim at the hinge the inner
    rim of it: the development of a cone is hollow there. None without a hinge, or where it closes.
    """
    if hinge == "none" or opens < NOTHING:
        return None
    line = cut_line(spread.start, spread.end)
    bits = _outline_bits(piece, line, distance(spread.start, spread.end), ())
    cuts = sorted(
        (bit for bit in bits if bit.cut), key=lambda bit: line.along(segment_start(bit.segment))
    )
    # The outermost cuts: between them the line may cross a window.
    at, far = (cuts[0], cuts[-1]) if hinge == "start" else (cuts[-1], cuts[0])
    length = distance(segment_start(at.segment), segment_start(far.segment))
    return at.stretch, degrees(2 * asin(opens / (2 * length)))


def _outline_bits(
    piece: DrawnPiece, line: CutLine, length: float, borders: Sequence[CutLine]
) -> tuple[CutSegment, ...]:
    bits = split_at(runs_of(piece.stretches), [line, *borders])
    return tuple(label_sides(bits, line, (-REACH, length + REACH), closed=True))


def _cuts(bits: Sequence[CutSegment], line: CutLine) -> tuple[Point, ...]:
    points = [segment_start(bit.segment) for bit in bits if bit.cut]
    return tuple(sorted(points, key=line.along))


def _prepare(
    piece: DrawnPiece, spread: SpreadLine, opens: float, hinge: str, stays_left: bool
) -> Opening:
    line = cut_line(spread.start, spread.end)
    length = distance(spread.start, spread.end)
    bits = _outline_bits(piece, line, length, ())
    cuts = _cuts(bits, line)
    left_moves = not stays_left
    if hinge == "none":
        # The normal points to the left of the line; a side moves away from the line.
        nx, ny = line.normal if left_moves else (-line.normal[0], -line.normal[1])
        opening = Opening(line, bits, cuts, left_moves, RigidMotion(nx * opens, ny * opens))
    else:
        pivot, far = (cuts[0], cuts[-1]) if hinge == "start" else (cuts[-1], cuts[0])
        # The chord between both cut ends is at most twice the cut, at a half turn; more than its
        # length already folds the piece over itself.
        if abs(opens) > distance(pivot, far):
            raise SpreadError(
                f"opens by {mm_text(opens, 1)} mm, more than the cut is long "
                f"({mm_text(distance(pivot, far), 1)} mm)"
            )
        # An isosceles triangle with the cut as its legs and the opening as its base.
        turn = degrees(2 * asin(opens / (2 * distance(pivot, far))))
        # Seen from the hinge, the side that moves turns away from the other.
        turn = turn if left_moves is (hinge == "start") else -turn
        opening = Opening(line, bits, cuts, left_moves, _turn_about(pivot, turn), pivot)
    if opens > 0:
        return opening
    zone = ClosingZone(line, cuts, left_moves, -opens, opening.hinge, opening.motion.angle)
    # Closing draws a band together. How wide it can be follows from the bits, and where the bits
    # end follows from the band: so they are cut twice.
    zone = zone.fitted(bits)
    bits = _outline_bits(piece, line, length, zone.borders())
    return replace(opening, bits=bits, zone=zone)


def _turn_about(pivot: Point, angle: float) -> RigidMotion:
    x, y = RigidMotion(angle=angle).point(pivot)
    return RigidMotion(pivot[0] - x, pivot[1] - y, angle)


def _closes(run: Run) -> bool:
    return distance(segment_start(run[0]), segment_end(run[-1])) < 1e-6
