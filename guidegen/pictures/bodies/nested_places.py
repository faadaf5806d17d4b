"""Outlines of several sizes → where they are farthest apart, and leaders to names there."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, hypot, radians, sin

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.frames import Extent

DIRECTIONS = 144
"""Rays on which outlines are compared. Our choice: every 2.5 degrees finds each side and corner."""
FAVOUR = 1.02
"""Rays to the right count for more, since names stand there best beside one another."""


@dataclass(frozen=True, slots=True)
class Ray:
    """A direction from a middle outward, and where it leaves each outline last."""

    direction: Point
    """Unit vector."""
    points: tuple[Point, ...]
    """By outline, in the order given."""
    reaches: tuple[float, ...]
    """mm from the middle to each point."""
    squares: tuple[float, ...]
    """How squarely each outline is met: 1 at right angles, near 0 along it."""

    @property
    def order(self) -> list[int]:
        """Numbers of the outlines from the inmost to the outmost."""
        return sorted(range(len(self.points)), key=lambda number: (self.reaches[number], number))

    @property
    def gap(self) -> float:
        """mm between the two neighbours that are nearest to one another, square to them."""
        return min((self._apart(a, b) for a, b in pairwise(self.order)), default=0.0)

    @property
    def spread(self) -> float:
        """mm from the inmost to the outmost outline, square to them."""
        order = self.order
        return self._apart(order[0], order[-1])

    def _apart(self, first: int, second: int) -> float:
        along = abs(self.reaches[second] - self.reaches[first])
        return along * min(self.squares[first], self.squares[second])


def widest_ray(outlines: Sequence[Sequence[Point]], middle: Point) -> Ray | None:
    """The ray on which neighbouring outlines (flattened, closed) are farthest apart.

    Where some lie on one another everywhere, the ray on which all together differ most. None
    where no ray meets all of them.
    """
    best: tuple[tuple[float, float], Ray] | None = None
    for number in range(DIRECTIONS):
        angle = radians(360 * number / DIRECTIONS)
        # Rounded, so that rays along the axes are exactly that on every machine.
        direction = (round(cos(angle), 12), round(sin(angle), 12))
        ray = _cast(outlines, middle, direction)
        if ray is None:
            continue
        favour = FAVOUR if direction[0] > 0.7 else 1.0
        # To 0.01 mm: of rays that differ by less the first one wins, on every machine.
        score = (round(ray.gap * favour, 2), round(ray.spread * favour, 2))
        if best is None or score > best[0]:
            best = (score, ray)
    return best[1] if best is not None else None


def _cast(outlines: Sequence[Sequence[Point]], middle: Point, direction: Point) -> Ray | None:
    met = [_last_meeting(points, middle, direction) for points in outlines]
    found = [meeting for meeting in met if meeting is not None]
    if len(found) < len(met):
        return None
    return Ray(
        direction,
        tuple((middle[0] + direction[0] * r, middle[1] + direction[1] * r) for r, _ in found),
        tuple(reach for reach, _ in found),
        tuple(square for _, square in found),
    )


def _last_meeting(
    points: Sequence[Point], middle: Point, direction: Point
) -> tuple[float, float] | None:
    """How far along a ray an outline is met for the last time, and how squarely; None if never."""
    dx, dy = direction
    farthest: tuple[float, float] | None = None
    for (x0, y0), (x1, y1) in pairwise([*points, points[0]]):
        # Distance of both ends from the ray's line.
        side0 = (y0 - middle[1]) * dx - (x0 - middle[0]) * dy
        side1 = (y1 - middle[1]) * dx - (x1 - middle[0]) * dy
        # An edge that the ray's line does not pass; a corner on the line belongs to one of its
        # edges.
        if (side0 > 0) == (side1 > 0):
            continue
        share = side0 / (side0 - side1)
        x, y = x0 + (x1 - x0) * share - middle[0], y0 + (y1 - y0) * share - middle[1]
        reach = x * dx + y * dy
        # The last meeting: from there on outward nothing of this outline is in the way of a
        # leader.
        if reach > 0 and (farthest is None or reach > farthest[0]):
            farthest = (reach, abs(side1 - side0) / hypot(x1 - x0, y1 - y0))
    return farthest


@dataclass(frozen=True, slots=True)
class NamePlace:
    """Where the name of an outline stands."""

    dot: Point
    """On the outline."""
    end: Point
    """Where the leader ends, beside the name."""
    anchor: str
    """start, end or middle: which part of the name is at the end of the leader."""
    above: int
    """1: the name stands above the end of its leader, -1: below, 0: beside it."""


def name_places(ray: Ray, box: Extent, room: tuple[float, float], away: float) -> list[NamePlace]:
    """Places for the names outside `box`, in the order of the outlines; leaders never cross.

    `room` is width and height of the largest name, `away` the mm that leaders pass the box by.
    Seen along the side on which the ray leaves the box, names stand in the order of the dots:
    from the outmost on, each leader keeps its own level or yields to its neighbour.
    """
    turn = _side(ray.direction, box)
    seen = [_turned(point, turn) for point in ray.points]
    corners = [_turned((box[0], box[1]), turn), _turned((box[2], box[3]), turn)]
    line = max(x for x, _ in corners) + away
    # At the sides names stand over one another, above and below side by side.
    step = room[1] if turn in (0, 2) else room[0]
    # From the outmost inward: its leader is the shortest way out, and the others yield to it.
    order = ray.order[::-1]
    level = _turned(ray.direction, turn)[1]
    # Names are stacked toward the side from which the ray came: there the inner dots lie.
    way = -1.0 if level >= -1e-9 else 1.0
    levels: dict[int, float] = {}
    last: float | None = None
    for number in order:
        own = seen[number][1]
        if last is not None:
            own = min(own, last - step) if way < 0 else max(own, last + step)
        levels[number] = last = own
    anchor = ("start", "middle", "end", "middle")[turn]
    above = (0, 1, 0, -1)[turn]
    return [
        NamePlace(ray.points[number], _turned((line, levels[number]), -turn), anchor, above)
        for number in range(len(ray.points))
    ]


def _side(direction: Point, box: Extent) -> int:
    """Quarter turns from the right-hand side to the side on which a ray leaves a box."""
    width, height = max(box[2] - box[0], 1e-9), max(box[3] - box[1], 1e-9)
    x, y = direction[0] / width, direction[1] / height
    if abs(x) >= abs(y):
        return 0 if x > 0 else 2
    return 1 if y > 0 else 3


def _turned(point: Point, quarters: int) -> Point:
    """A point turned clockwise by quarter turns about the origin."""
    x, y = point
    for _ in range(quarters % 4):
        x, y = y, -x
    return (x, y)


def alike(first: Sequence[Point], second: Sequence[Point], tolerance: float = 0.05) -> bool:
    """Whether two flattened outlines are one within `tolerance` mm, point by point."""
    return len(first) == len(second) and all(
        hypot(a[0] - b[0], a[1] - b[1]) <= tolerance for a, b in zip(first, second, strict=True)
    )
