"""Segments in → the same curves as cubics, with an end moved, or carried through a smooth map."""

from collections.abc import Callable
from itertools import pairwise
from math import ceil, cos, hypot, radians, sin, tan

from guidegen.geometry.outline.measures import (
    flatten,
    nearest_share,
    segment_end,
    segment_length,
    segment_point,
    segment_start,
)
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run, Segment

type Mapping = Callable[[Point], Point]


def ellipse_cubics(
    middle: tuple[Point, Point, Point], t0: float, sweep: float, ends: tuple[Point, Point]
) -> Run:
    """Cubics for centre + cos(t) * u + sin(t) * v over `sweep` radians from `t0`.

    `middle` is (centre, u, v). Pieces of at most 30 degrees leave the ellipse by less than 4e-7
    of its radius (control points at 4/3 * tan(step / 4) along the tangents: Riškus, Information
    Technology and Control 35(4), 2006).
    """
    centre, u, v = middle
    count = max(1, ceil(abs(sweep) / radians(30) - 1e-9))
    step = sweep / count
    k = 4 / 3 * tan(step / 4)

    def at(t: float, handle: float) -> Point:
        c, s = cos(t) - handle * sin(t), sin(t) + handle * cos(t)
        return (centre[0] + c * u[0] + s * v[0], centre[1] + c * u[1] + s * v[1])

    # The ends as they were given, not as worked out: neighbours must meet in the very same point.
    points = [ends[0], *(at(t0 + step * n, 0) for n in range(1, count)), ends[1]]
    return tuple(
        Cubic(points[n], at(t0 + step * n, k), at(t0 + step * (n + 1), -k), points[n + 1])
        for n in range(count)
    )


def as_cubics(segment: Segment) -> tuple[Cubic, ...]:
    """The segment as cubics: exact for lines, within 4e-7 of the radius for arcs."""
    match segment:
        case Cubic():
            return (segment,)
        case Line(start=start, end=end):
            return (Cubic(start, between(start, end, 1 / 3), between(start, end, 2 / 3), end),)
        case Arc(centre=centre, radius=radius, start_angle=first, sweep=sweep):
            axes = (centre, (radius, 0.0), (0.0, radius))
            ends = (segment_start(segment), segment_end(segment))
            cubics = ellipse_cubics(axes, radians(first), radians(sweep), ends)
            return tuple(cubic for cubic in cubics if isinstance(cubic, Cubic))


def longest(run: Run) -> float:
    """mm that a run is at most: quick, and exact for lines and arcs."""
    total = 0.0
    for segment in run:
        match segment:
            case Line() | Arc():
                total += segment_length(segment)
            case Cubic(start=p, control1=q, control2=r, end=s):
                # A curve is no longer than its control polygon.
                total += hypot(q[0] - p[0], q[1] - p[1])
                total += hypot(r[0] - q[0], r[1] - q[1]) + hypot(s[0] - r[0], s[1] - r[1])
    return total


def between(start: Point, end: Point, share: float) -> Point:
    """The point at a share of the way from `start` to `end`."""
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


def move_start(run: Run, point: Point) -> Run:
    """The run with its first point put at `point`; its tangent there stays where it can."""
    start = segment_start(run[0])
    dx, dy = point[0] - start[0], point[1] - start[1]
    if hypot(dx, dy) < 1e-9:
        return run
    match run[0]:
        case Line(end=end):
            return (Line(point, end), *run[1:])
        case Cubic(control1=(x, y), control2=control2, end=end):
            # The handle goes along, which keeps the tangent; the other end does not feel it.
            return (Cubic(point, (x + dx, y + dy), control2, end), *run[1:])
        case Arc():
            # An arc with one end moved is no arc of the same circle.
            return move_start((*as_cubics(run[0]), *run[1:]), point)


def move_end(run: Run, point: Point) -> Run:
    """The run with its last point put at `point`; its tangent there stays where it can."""
    end = segment_end(run[-1])
    dx, dy = point[0] - end[0], point[1] - end[1]
    if hypot(dx, dy) < 1e-9:
        return run
    match run[-1]:
        case Line(start=start):
            return (*run[:-1], Line(start, point))
        case Cubic(start=start, control1=control1, control2=(x, y)):
            return (*run[:-1], Cubic(start, control1, (x + dx, y + dy), point))
        case Arc():
            return move_end((*run[:-1], *as_cubics(run[-1])), point)


def map_segment(segment: Segment, at: Mapping, straight: bool = False) -> Run:
    """A segment carried through a smooth map, tangents at its ends exact (by difference quotient).

    `straight` says that the map keeps straight lines straight.
    """
    if straight and isinstance(segment, Line):
        return (Line(at(segment.start), at(segment.end)),)
    return tuple(_map_cubic(cubic, at) for cubic in as_cubics(segment))


def _map_cubic(cubic: Cubic, at: Mapping) -> Cubic:
    def handle(end: Point, control: Point, moved: Point) -> Point:
        # Share of the handle: small enough that a map of any bend in our drawings is straight over
        # it, large enough that the difference keeps twelve of sixteen digits.
        step = 1e-4
        ahead = at(between(end, control, step))
        return (moved[0] + (ahead[0] - moved[0]) / step, moved[1] + (ahead[1] - moved[1]) / step)

    start, end = at(cubic.start), at(cubic.end)
    return Cubic(
        start,
        handle(cubic.start, cubic.control1, start),
        handle(cubic.end, cubic.control2, end),
        end,
    )


def enlarge_segment(segment: Segment, factor: float) -> Segment:
    """A segment enlarged about the origin by a positive factor."""

    def at(point: Point) -> Point:
        return (point[0] * factor, point[1] * factor)

    match segment:
        case Line(start=start, end=end):
            return Line(at(start), at(end))
        case Arc(centre=centre, radius=radius, start_angle=first, sweep=sweep):
            return Arc(at(centre), radius * factor, first, sweep)
        case Cubic(start=start, control1=control1, control2=control2, end=end):
            return Cubic(at(start), at(control1), at(control2), at(end))


def chord_gap(point: Point, p: Point, q: Point) -> float:
    """mm from a point to the straight line from `p` to `q`."""
    return nearest_share(p, q, point)[0]


def nearest_on(segment: Segment, point: Point) -> tuple[float, float]:
    """Distance in mm from a point to a segment, and the parameter of the nearest point."""
    points = flatten((segment,))
    count = len(points) - 1
    best, best_t = float("inf"), 0.0
    for number, (p, q) in enumerate(pairwise(points)):
        gap, share = nearest_share(p, q, point)
        if gap < best:
            # Flattening cuts a segment at even parameters, so the chord's number gives the
            # parameter.
            best, best_t = gap, (number + share) / count
    return _refine(segment, point, best_t, 1.0 / count)


def _refine(segment: Segment, point: Point, t: float, width: float) -> tuple[float, float]:
    """Golden-section search around a rough parameter."""

    def gap(u: float) -> float:
        x, y = segment_point(segment, u)
        return hypot(x - point[0], y - point[1])

    # One chord to either side: the true nearest point may lie just over the end of its chord.
    low, high = max(0.0, t - width), min(1.0, t + width)
    ratio = (5**0.5 - 1) / 2
    # Sixty steps shrink the span by 0.618 each, past the last bit of a double: the same on every
    # machine.
    for _ in range(60):
        a, b = high - (high - low) * ratio, low + (high - low) * ratio
        if gap(a) <= gap(b):
            high = b
        else:
            low = a
    # Ends are asked too: where a distance has two valleys, the search may have taken the wrong
    # one.
    best = min(((low + high) / 2, t, 0.0, 1.0), key=gap)
    return gap(best), best
