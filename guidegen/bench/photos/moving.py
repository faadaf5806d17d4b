"""Runs on the bench → the same runs in a drawing of their own."""

from dataclasses import dataclass

import numpy as np

from guidegen.bench.photos.arrays import Array
from guidegen.bench.photos.fitting.whole import Fitted
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Segment


@dataclass(frozen=True, slots=True)
class Move:
    """A shift, then a scale."""

    low: Array
    """What comes to lie at the origin, mm."""
    scale: float

    def point(self, place: Array | Point) -> Array:
        """A place in the drawing."""
        return np.asarray((np.asarray(place) - self.low) * self.scale)

    def fitted(self, found: Fitted) -> Fitted:
        """A run with its corners in the drawing."""
        return Fitted(
            tuple(self._segment(one) for one in found.run),
            tuple(self._pair(one) for one in found.corners),
            found.left_over * self.scale,
        )

    def _pair(self, place: Point) -> Point:
        x, y = self.point(place)
        return float(x), float(y)

    def _segment(self, segment: Segment) -> Segment:
        match segment:
            case Line(start=start, end=end):
                return Line(self._pair(start), self._pair(end))
            case Arc(centre=centre, radius=radius, start_angle=first, sweep=sweep):
                return Arc(self._pair(centre), radius * self.scale, first, sweep)
            case Cubic(start=a, control1=b, control2=c, end=d):
                return Cubic(*(self._pair(one) for one in (a, b, c, d)))
