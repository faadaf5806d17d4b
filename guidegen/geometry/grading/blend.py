"""A displacement that changes along a run in → the run moved by it, as smooth as before.

Curves keep their kind: end points move by the displacement at their place, control points by the
displacement at the arc length that their handle reaches, which keeps neighbours tangent.
"""

from dataclasses import dataclass

from guidegen.geometry.drawing.curves import as_cubics
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import segment_length
from guidegen.geometry.outline.records import Cubic, Line, Point, Run, Segment
from guidegen.geometry.outline.transforms import RigidMotion, transform_run


@dataclass(frozen=True, slots=True)
class Blend:
    """Displacement along a stretch: cubic Hermite in the arc length, linear where slopes agree."""

    length: float
    first: Point
    last: Point
    slope_first: Point
    """mm per mm at the start."""
    slope_last: Point

    def at(self, s: float) -> Point:
        """Displacement at an arc length."""
        u = s / self.length
        a, b = (1 + 2 * u) * (1 - u) ** 2, u * u * (3 - 2 * u)
        c, d = u * (1 - u) ** 2 * self.length, u * u * (u - 1) * self.length
        x, y = (
            a * self.first[k] + b * self.last[k] + c * self.slope_first[k] + d * self.slope_last[k]
            for k in (0, 1)
        )
        return (x, y)

    def slope(self, s: float) -> Point:
        """Change of the displacement per mm at an arc length."""
        u = s / self.length
        a, b = 6 * u * (u - 1) / self.length, 6 * u * (1 - u) / self.length
        c, d = (1 - u) * (1 - 3 * u), u * (3 * u - 2)
        x, y = (
            a * self.first[k] + b * self.last[k] + c * self.slope_first[k] + d * self.slope_last[k]
            for k in (0, 1)
        )
        return (x, y)

    @property
    def linear(self) -> bool:
        """True where the displacement grows evenly."""
        even = (
            (self.last[0] - self.first[0]) / self.length,
            (self.last[1] - self.first[1]) / self.length,
        )
        return max(distance(self.slope_first, even), distance(self.slope_last, even)) < 1e-12

    @property
    def rigid(self) -> bool:
        """True where the whole stretch moves alike."""
        return self.linear and distance(self.first, self.last) < 1e-12


def move_run(run: Run, blend: Blend, s: float = 0.0) -> Run:
    """A run moved by a blend, which it takes part in from an arc length on."""
    if blend.rigid:
        return transform_run(run, RigidMotion(*blend.first))
    moved: list[Segment] = []
    for segment in run:
        if isinstance(segment, Line) and blend.linear:
            length = segment_length(segment)
            moved.append(
                Line(added(segment.start, blend.at(s)), added(segment.end, blend.at(s + length)))
            )
            s += length
            continue
        # An arc that is moved unevenly is no arc any more.
        for cubic in as_cubics(segment):
            length = segment_length(cubic)
            moved.append(_move_cubic(cubic, blend, s, s + length))
            s += length
    return tuple(moved)


def _move_cubic(cubic: Cubic, blend: Blend, s0: float, s1: float) -> Cubic:
    """Handles turn with the outline: the moved curve's direction is tangent + slope."""
    h0, h1 = distance(cubic.start, cubic.control1), distance(cubic.end, cubic.control2)
    d0, d1, m0, m1 = blend.at(s0), blend.at(s1), blend.slope(s0), blend.slope(s1)
    return Cubic(
        added(cubic.start, d0),
        added(cubic.control1, (d0[0] + m0[0] * h0, d0[1] + m0[1] * h0)),
        added(cubic.control2, (d1[0] - m1[0] * h1, d1[1] - m1[1] * h1)),
        added(cubic.end, d1),
    )


def added(point: Point, step: Point) -> Point:
    """A point moved by a step."""
    return (point[0] + step[0], point[1] + step[1])
