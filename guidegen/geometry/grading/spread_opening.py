"""A cut, ready to be carried out: which side moves, how, and on which side a point lies."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from guidegen.geometry.drawing.curves import chord_gap
from guidegen.geometry.grading.spread_close import ClosingZone
from guidegen.geometry.grading.spread_cut import CutLine, CutSegment
from guidegen.geometry.outline.measures import flatten_segment
from guidegen.geometry.outline.records import Point
from guidegen.geometry.outline.transforms import RigidMotion


@dataclass(frozen=True)
class Opening:
    """One cut, ready to be carried out."""

    line: CutLine
    bits: tuple[CutSegment, ...]
    """Of the outline, with their sides."""
    cuts: tuple[Point, ...]
    """Where the line passes the outline, in the line's order."""
    left_moves: bool
    motion: RigidMotion
    """Of the side that moves."""
    hinge: Point | None = None
    zone: ClosingZone | None = None

    def reach(self) -> tuple[float, float]:
        """Between which distances along the line there is a cut."""
        return (self.line.along(self.cuts[0]) - 1e-6, self.line.along(self.cuts[-1]) + 1e-6)

    @cached_property
    def _rims(self) -> dict[bool, list[tuple[Point, Point]]]:
        """The straightened outline of each side, by whether that is the left one."""
        return {
            left: [edge for bit in self.bits if bit.left is left for edge in _edges(bit)]
            for left in (True, False)
        }

    def is_left(self, point: Point) -> bool:
        """The side of a point: that of the foam around it, or of the nearest edge outside."""
        chords = list(zip(self.cuts[::2], self.cuts[1::2], strict=False))
        for left, rim in self._rims.items():
            if _inside(point, [*rim, *chords]):
                return left
        gaps = {left: min(chord_gap(point, *e) for e in rim) for left, rim in self._rims.items()}
        return gaps[True] < gaps[False]

    def moves(self, point: Point) -> Point:
        """A free point after the opening."""
        return self.motion.point(point) if self.is_left(point) is self.left_moves else point


def _edges(bit: CutSegment) -> list[tuple[Point, Point]]:
    return list(pairwise(flatten_segment(bit.segment, 0.1)))


def _inside(point: Point, edges: Sequence[tuple[Point, Point]]) -> bool:
    """Even-odd rule along a ray to the right."""
    x, y = point
    inside = False
    for (x0, y0), (x1, y1) in edges:
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            inside = not inside
    return inside
