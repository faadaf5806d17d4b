"""Runs in their own place → the same runs on a drawing: mirrored, turned, scaled and moved."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from itertools import pairwise
from math import cos, radians, sin

from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run, Segment


@dataclass(frozen=True, slots=True)
class Frame:
    """Where a piece lies on a drawing: first mirrored, then turned, scaled, and moved last."""

    scale: float = 1.0
    """mm on the drawing for one mm of foam."""
    x: float = 0.0
    y: float = 0.0
    """mm on the drawing; where the origin comes to lie."""
    angle: float = 0.0
    """degrees, counter-clockwise."""
    flipped: bool = False
    """True mirrors across the y axis before turning."""

    def point(self, point: Point) -> Point:
        """A point of the piece, on the drawing."""
        x, y = self.vector(point)
        return (x * self.scale + self.x, y * self.scale + self.y)

    def vector(self, vector: Point) -> Point:
        """A direction of the piece, on the drawing; its length stays."""
        x, y = (-vector[0] if self.flipped else vector[0]), vector[1]
        turn = radians(self.angle)
        return (x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn))

    def inverse(self) -> "Frame":
        """The frame that undoes this one."""
        if self.flipped:
            # Mirroring undoes itself; the turn after it runs the other way round.
            back = Frame(1 / self.scale, angle=self.angle, flipped=True)
        else:
            back = Frame(1 / self.scale, angle=-self.angle)
        x, y = back.point((self.x, self.y))
        return replace(back, x=-x, y=-y)

    def run(self, run: Run) -> Run:
        """A run of the piece, on the drawing."""
        at = self._mover()
        return tuple(self._segment(segment, at) for segment in run)

    def runs(self, runs: tuple[Run, ...]) -> tuple[Run, ...]:
        """Several runs of the piece, on the drawing."""
        return tuple(self.run(run) for run in runs)

    def _mover(self) -> Callable[[Point], Point]:
        """`point`, for many points: the turn is worked out once."""
        turn = radians(self.angle)
        c, s, flipped = cos(turn), sin(turn), self.flipped
        scale, left, low = self.scale, self.x, self.y

        def at(point: Point) -> Point:
            x, y = point
            if flipped:
                x = -x
            return ((x * c - y * s) * scale + left, (x * s + y * c) * scale + low)

        return at

    def _segment(self, segment: Segment, at: Callable[[Point], Point]) -> Segment:
        match segment:
            case Line(start=start, end=end):
                return Line(at(start), at(end))
            case Cubic(start=start, control1=first, control2=second, end=end):
                return Cubic(at(start), at(first), at(second), at(end))
            case Arc(centre=centre, radius=radius, start_angle=start, sweep=sweep):
                if self.flipped:
                    # In a mirror a point at angle a stands at 180 - a, and what turned left turns
                    # right.
                    start, sweep = 180 - start, -sweep
                return Arc(at(centre), radius * self.scale, start + self.angle, sweep)


type Room = tuple[float, float, float, float]
"""A level rectangle on a drawing: x and y of its lower left corner, width, height; mm."""

type Extent = tuple[float, float, float, float]
"""A level rectangle by its sides: least x, least y, greatest x, greatest y; mm on a drawing."""


def frame_into(runs: tuple[Run, ...], scale: float, room: Room) -> Frame:
    """The frame that centres `runs` on a room; no width and no height centre it on a point."""
    left, low, right, high = bounds(runs)
    x, y, width, height = room
    return Frame(
        scale,
        x + width / 2 - (left + right) / 2 * scale,
        y + height / 2 - (low + high) / 2 * scale,
    )


def polygon(points: list[Point]) -> Run:
    """A closed run of straight lines through `points`."""
    return tuple(
        Line(start, end) for start, end in zip(points, points[1:] + points[:1], strict=True)
    )


def polyline(points: list[Point]) -> Run:
    """An open run of straight lines through `points`."""
    return tuple(Line(start, end) for start, end in pairwise(points))
