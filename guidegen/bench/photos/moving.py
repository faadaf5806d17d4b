"""Runs on the bench → the same runs in a drawing of their own, over the photo from above."""

from dataclasses import dataclass

import numpy as np

from guidegen.bench.photos.arrays import Array
from guidegen.bench.photos.edges import Sight, Traced
from guidegen.bench.photos.fitting.whole import Fitted, dense
from guidegen.bench.photos.records import Trace, Trust, What
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Segment

MARGIN = 10.0
"""mm around the outline in its drawing."""


@dataclass(frozen=True, slots=True)
class BenchMove:
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


@dataclass(frozen=True, slots=True)
class FoundTemplate:
    """What was found on the bench, where it lies there."""

    outline: Fitted
    traced: Traced
    """The places that the outline goes through."""
    holes: tuple[Fitted, ...]
    marks: tuple[Fitted, ...]
    what: What
    trust: Trust
    strips: tuple[int, ...]
    """Their numbers for people."""
    notes: tuple[str, ...]


def placed(
    sight: Sight,
    found: FoundTemplate,
    scale: float,
) -> Trace:
    """All moved to the lower left of a drawing of its own; strips are `scale` times too large."""
    fitted, outline = found.outline, found.traced
    places = dense(fitted.run, 1.0)
    low, high = places.min(axis=0) - MARGIN / scale, places.max(axis=0) + MARGIN / scale
    move = BenchMove(low, scale)
    near = dense(fitted.run)
    some = np.flatnonzero(outline.good)[::4]
    gaps = ((outline.points[some][:, None] - near[None, ::2]) ** 2).sum(axis=2)
    on = near[::2][gaps.argmin(axis=1)]
    whiskers = tuple(
        np.vstack((move.point(a), move.point(b)))
        for a, b in zip(on, outline.points[some], strict=True)
    )
    flat = sight.flat
    left, top = flat.to_cells(np.array([(low[0], high[1])]))[0]
    right, bottom = flat.to_cells(np.array([(high[0], low[1])]))[0]
    box = (
        slice(max(0, round(top)), round(bottom) + 1),
        slice(max(0, round(left)), round(right) + 1),
    )
    return Trace(
        move.fitted(fitted),
        tuple(move.fitted(one) for one in found.holes),
        tuple(move.fitted(one) for one in found.marks),
        found.what,
        found.trust,
        flat.picture[box],
        whiskers,
        (float(high[0] - low[0]) * scale, float(high[1] - low[1]) * scale),
        found.strips,
        found.notes,
    )
