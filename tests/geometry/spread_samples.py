"""Drawn plates that are opened at spread lines, and how sound what comes out is."""

from itertools import pairwise

from guidegen.geometry.drawing.records import DrawnPiece
from guidegen.geometry.grading.spread import left_stays, spread_piece
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.curves import distance, turn_between
from guidegen.geometry.outline.measures import (
    segment_end,
    segment_start,
    tangent,
)
from guidegen.geometry.outline.records import (
    Edge,
    Run,
    Shape,
)

UPRIGHT = '<line id="spread-w" x1="70" y1="10" x2="70" y2="90"/>'

LEVEL = '<line id="spread-l" x1="130" y1="50" x2="10" y2="50"/>'


def opened(
    piece: DrawnPiece, width: float, hinge: str = "none", line: str = "", left: bool | None = None
) -> DrawnPiece:
    """A piece opened at a line (its first), the side that stays chosen by the rule."""
    spread = next(s for s in piece.spreads if line in {"", s.name})
    stays = left_stays(piece, spread, frozenset()) if left is None else left
    return spread_piece(piece, spread, width, hinge, stays)


def sound(piece: DrawnPiece) -> bool:
    """True where no line of a piece crosses another and the outline is closed."""
    ring = piece.ring()
    closed = all(
        distance(segment_end(before), segment_start(after)) < 1e-6
        for before, after in zip(ring, ring[1:] + ring[:1], strict=True)
    )
    return closed and fault_of(Shape((Edge("outline", ring),), piece.holes)) is None


def sharpest(run: Run) -> float:
    """The largest turn in degrees between neighbouring segments of a run."""
    return max(
        (
            abs(turn_between(tangent(before, 1.0), tangent(after, 0.0)))
            for before, after in pairwise(run)
        ),
        default=0.0,
    )
