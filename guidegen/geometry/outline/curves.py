"""Runs in → pieces of runs, points along them, where they turn sharply."""

from dataclasses import dataclass
from itertools import pairwise
from math import atan2, degrees, hypot, radians

from guidegen.geometry.outline.measures import (
    flatten_segment,
    segment_end,
    segment_length,
    segment_point,
    segment_start,
    tangent,
)
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run, Segment

CORNER_ANGLE = 5.0
"""degrees; a run that turns by more at one point has a corner there. Our choice: above what
rounding in a drawing program brings, below any corner that is meant."""

NEAR = 1e-6
"""mm; points nearer than this are the same. Our choice: far under anything that can be cut."""


@dataclass(frozen=True, slots=True)
class RunSpot:
    """A point of a run: which segment, and how far along it (0 to 1)."""

    index: int
    t: float

    @property
    def order(self) -> tuple[int, float]:
        """Sorts spots along the run."""
        return (self.index, self.t)


def distance(first: Point, second: Point) -> float:
    """mm between two points."""
    return hypot(second[0] - first[0], second[1] - first[1])


def along(point: Point, direction: Point, length: float) -> Point:
    """The point `length` mm from `point` in a unit direction."""
    return (point[0] + direction[0] * length, point[1] + direction[1] * length)


def inward_normal(direction: Point) -> Point:
    """Unit vector to the left of a direction: into a counter-clockwise outline."""
    return (-direction[1], direction[0])


def turn_between(first: Point, second: Point) -> float:
    """degrees from one direction to another, -180 to 180; positive turns left."""
    cross = first[0] * second[1] - first[1] * second[0]
    return degrees(atan2(cross, first[0] * second[0] + first[1] * second[1]))


def cut_segment(segment: Segment, t0: float, t1: float) -> Segment:
    """The part of a segment between two parameters, t0 <= t1."""
    match segment:
        case Line():
            return Line(segment_point(segment, t0), segment_point(segment, t1))
        case Arc(centre=centre, radius=radius, start_angle=start, sweep=sweep):
            return Arc(centre, radius, start + sweep * t0, sweep * (t1 - t0))
        case Cubic():
            _, right = _split_cubic(segment, t0) if t0 > 0 else (segment, segment)
            if t1 >= 1:
                return right
            # The second cut is made on what the first has left, whose parameter runs from t0 to 1.
            left, _ = _split_cubic(right, (t1 - t0) / (1 - t0) if t0 < 1 else 0.0)
            return left


def _split_cubic(curve: Cubic, t: float) -> tuple[Cubic, Cubic]:
    """Both parts of a Bézier curve: de Casteljau's construction."""

    def between(p: Point, q: Point) -> Point:
        return (p[0] + (q[0] - p[0]) * t, p[1] + (q[1] - p[1]) * t)

    a = between(curve.start, curve.control1)
    b = between(curve.control1, curve.control2)
    c = between(curve.control2, curve.end)
    d, e = between(a, b), between(b, c)
    middle = between(d, e)
    return Cubic(curve.start, a, d, middle), Cubic(middle, e, c, curve.end)


def cut_run(run: Run, start: RunSpot | None = None, end: RunSpot | None = None) -> Run:
    """The part of a run between two spots; its own end where one is None. Empty if reversed."""
    start = start or RunSpot(0, 0.0)
    end = end or RunSpot(len(run) - 1, 1.0)
    if start.order >= end.order:
        return ()
    parts: list[Segment] = []
    for index in range(start.index, end.index + 1):
        t0 = start.t if index == start.index else 0.0
        t1 = end.t if index == end.index else 1.0
        if t0 == 0.0 and t1 == 1.0:
            parts.append(run[index])
        elif t1 > t0:
            part = cut_segment(run[index], t0, t1)
            # A cut that falls on a joint would leave a speck of no length, whose direction is
            # undefined.
            if segment_length(part) > NEAR:
                parts.append(part)
    return tuple(parts)


def spot_at(run: Run, length: float) -> RunSpot:
    """Where a run is `length` mm old; its ends for lengths outside it.

    Raises ValueError for a run without segments.
    """
    for index, segment in enumerate(run):
        whole = segment_length(segment)
        # Lengths add up with rounding: what lies past the end by a hair belongs to the last
        # segment.
        if length <= whole or index == len(run) - 1:
            return RunSpot(index, _parameter_at(segment, max(0.0, min(length, whole)), whole))
        length -= whole
    raise ValueError("a run without segments has no spots")


def _parameter_at(segment: Segment, length: float, whole: float) -> float:
    """The parameter at an arc length: exact for lines and arcs, by bisection for cubics."""
    if whole <= 0:
        return 0.0
    if not isinstance(segment, Cubic):
        return length / whole
    if length >= whole:
        return 1.0
    low, high = 0.0, 1.0
    # Arc length of a cubic has no closed form and grows with t without a pause: bisection is slow,
    # but it cannot miss. Forty turns reach the limit.
    while high - low > 1e-12:
        middle = (low + high) / 2
        if segment_length(cut_segment(segment, 0.0, middle)) < length:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def point_at(run: Run, length: float) -> tuple[Point, Point]:
    """Point and unit tangent of a run at an arc length in mm."""
    spot = spot_at(run, length)
    return segment_point(run[spot.index], spot.t), tangent(run[spot.index], spot.t)


def start_direction(run: Run) -> Point:
    """Unit tangent where a run begins."""
    return tangent(run[0], 0.0)


def end_direction(run: Run) -> Point:
    """Unit tangent where a run ends."""
    return tangent(run[-1], 1.0)


def tidy_run(run: Run) -> Run:
    """The run without segments that have no length."""
    return tuple(segment for segment in run if segment_length(segment) > NEAR)


def lines_through(*points: Point) -> Run:
    """Straight segments from point to point."""
    return tidy_run(tuple(Line(a, b) for a, b in pairwise(points)))


def split_at_corners(run: Run, angle: float = CORNER_ANGLE) -> tuple[Run, ...]:
    """The stretches of a run that turn by no more than `angle` degrees at one point, in order."""
    stretches: list[list[Segment]] = []
    for segment in run:
        if stretches:
            turn = turn_between(tangent(stretches[-1][-1], 1.0), tangent(segment, 0.0))
            # Only the joint between two segments can turn sharply: a segment itself is smooth.
            if abs(turn) <= angle:
                stretches[-1].append(segment)
                continue
        stretches.append([segment])
    return tuple(tuple(stretch) for stretch in stretches)


def straight_ends(run: Run, tolerance: float = 0.01) -> tuple[Point, Point] | None:
    """Both ends of a run that is one straight line within `tolerance` mm; None where it is not."""
    if not run:
        return None
    start, end = segment_start(run[0]), segment_end(run[-1])
    length = distance(start, end)
    if length <= tolerance:
        return None
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    last = 0.0
    for segment in run:
        for x, y in flatten_segment(segment):
            forward = (x - start[0]) * ux + (y - start[1]) * uy
            aside = abs((y - start[1]) * ux - (x - start[0]) * uy)
            # Straight means near the chord and never back: a run that doubles over itself lies on
            # its chord too.
            if aside > tolerance or forward < last - tolerance:
                return None
            last = forward
    return start, end


def same_run(first: Run, second: Run, tolerance: float = 0.01) -> bool:
    """True where both run along the same points, in either direction."""
    if len(first) != len(second):
        return False
    # Ends and middles of segments: two lines, arcs or cubics of one drawing that agree in these
    # are one path; comparing flattened points would depend on how each was divided.
    points = [p for s in first for p in (segment_point(s, 0.0), segment_point(s, 0.5))]
    points.append(segment_end(first[-1]))
    others = [p for s in second for p in (segment_point(s, 0.0), segment_point(s, 0.5))]
    others.append(segment_end(second[-1]))
    return any(
        all(distance(p, q) <= tolerance for p, q in zip(points, order, strict=True))
        for order in (others, others[::-1])
    )


def velocity(segment: Segment, t: float) -> Point:
    """Derivative of a segment's point by its parameter, in mm."""
    match segment:
        case Line(start=start, end=end):
            return (end[0] - start[0], end[1] - start[1])
        case Arc(radius=radius, sweep=sweep):
            tx, ty = tangent(segment, t)
            speed = radius * abs(radians(sweep))
            return (tx * speed, ty * speed)
        case Cubic(start=p0, control1=p1, control2=p2, end=p3):
            s = 1 - t
            a, b, c = 3 * s * s, 6 * s * t, 3 * t * t
            return (
                a * (p1[0] - p0[0]) + b * (p2[0] - p1[0]) + c * (p3[0] - p2[0]),
                a * (p1[1] - p0[1]) + b * (p2[1] - p1[1]) + c * (p3[1] - p2[1]),
            )
