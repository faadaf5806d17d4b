"""Points, ends and lengths of segments and runs: pure measures that later stages may use."""

from math import atan2, ceil, cos, degrees, hypot, radians, sin

from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run, Segment
from guidegen.units import FLATTEN_TOLERANCE


def segment_start(segment: Segment) -> Point:
    """Where a segment begins."""
    if isinstance(segment, Arc):
        return arc_point(segment, 0.0)
    return segment.start


def segment_end(segment: Segment) -> Point:
    """Where a segment ends."""
    if isinstance(segment, Arc):
        return arc_point(segment, 1.0)
    return segment.end


def arc_point(arc: Arc, t: float) -> Point:
    """Point of an arc at 0 <= t <= 1."""
    angle = radians(arc.start_angle + arc.sweep * t)
    return (arc.centre[0] + arc.radius * cos(angle), arc.centre[1] + arc.radius * sin(angle))


def segment_point(segment: Segment, t: float) -> Point:
    """Point of a segment at 0 <= t <= 1."""
    match segment:
        case Line(start=(x0, y0), end=(x1, y1)):
            return (x0 + (x1 - x0) * t, y0 + (y1 - y0) * t)
        case Arc():
            return arc_point(segment, t)
        case Cubic(start=p0, control1=p1, control2=p2, end=p3):
            s = 1 - t
            a, b, c, d = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
            return (
                a * p0[0] + b * p1[0] + c * p2[0] + d * p3[0],
                a * p0[1] + b * p1[1] + c * p2[1] + d * p3[1],
            )


def tangent(segment: Segment, t: float) -> Point:
    """Unit tangent of a segment at 0 <= t <= 1; (0, 0) where the segment has no length."""
    match segment:
        case Line(start=(x0, y0), end=(x1, y1)):
            dx, dy = x1 - x0, y1 - y0
        case Arc(start_angle=start, sweep=sweep):
            turn = 90 if sweep > 0 else -90
            angle = radians(start + sweep * t + turn)
            dx, dy = cos(angle), sin(angle)
        case Cubic():
            dx, dy = _cubic_direction(segment, t)
    length = hypot(dx, dy)
    return (dx / length, dy / length) if length else (0.0, 0.0)


def _cubic_direction(curve: Cubic, t: float) -> Point:
    """Derivative; at an end whose control point lies on it, the direction to the next point."""
    p0, p1, p2, p3 = curve.start, curve.control1, curve.control2, curve.end
    s = 1 - t
    dx = 3 * (s * s * (p1[0] - p0[0]) + 2 * s * t * (p2[0] - p1[0]) + t * t * (p3[0] - p2[0]))
    dy = 3 * (s * s * (p1[1] - p0[1]) + 2 * s * t * (p2[1] - p1[1]) + t * t * (p3[1] - p2[1]))
    if hypot(dx, dy) > 1e-9:
        return (dx, dy)
    if t < 0.5:
        far = p2 if hypot(p2[0] - p0[0], p2[1] - p0[1]) > 1e-9 else p3
        return (far[0] - p0[0], far[1] - p0[1])
    near = p1 if hypot(p3[0] - p1[0], p3[1] - p1[1]) > 1e-9 else p0
    return (p3[0] - near[0], p3[1] - near[1])


def flatten_segment(segment: Segment, tolerance: float = FLATTEN_TOLERANCE) -> list[Point]:
    """Points of a segment, both ends included, no chord farther than `tolerance` mm from it."""
    if isinstance(segment, Line):
        return [segment.start, segment.end]
    count = chord_count(segment, tolerance)
    # The formulas of `segment_point`, written out: it is asked for a million points in a press.
    shares = [number / count for number in range(count + 1)]
    if isinstance(segment, Arc):
        (x, y), radius = segment.centre, segment.radius
        start, sweep = segment.start_angle, segment.sweep
        angles = [radians(start + sweep * t) for t in shares]
        return [(x + radius * cos(angle), y + radius * sin(angle)) for angle in angles]
    (x0, y0), (x1, y1) = segment.start, segment.control1
    (x2, y2), (x3, y3) = segment.control2, segment.end
    points: list[Point] = []
    for t in shares:
        s = 1 - t
        a, b, c, d = s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t
        points.append((a * x0 + b * x1 + c * x2 + d * x3, a * y0 + b * y1 + c * y2 + d * y3))
    return points


def chord_count(segment: Segment, tolerance: float = FLATTEN_TOLERANCE) -> int:
    """How many chords stand for a segment; what it costs, known before it is flattened."""
    match segment:
        case Line():
            return 1
        case Arc(radius=radius, sweep=sweep):
            # Sagitta of a chord that turns by a: r * (1 - cos(a / 2)), about r * a**2 / 8.
            step = degrees((8 * min(tolerance, radius / 4) / radius) ** 0.5)
            count = max(2.0, abs(sweep) / step)
        case Cubic(start=p0, control1=p1, control2=p2, end=p3):
            # A bound on the second derivative gives an even division that keeps the tolerance
            # (Filip, Magedson, Markot, 1986: error <= |f''| / (8 n**2)).
            bend = 6 * max(
                hypot(p0[0] - 2 * p1[0] + p2[0], p0[1] - 2 * p1[1] + p2[1]),
                hypot(p1[0] - 2 * p2[0] + p3[0], p1[1] - 2 * p2[1] + p3[1]),
            )
            count = min(4096.0, max(2.0, (bend / (8 * tolerance)) ** 0.5))
    return ceil(count)


def flatten(run: Run, tolerance: float = FLATTEN_TOLERANCE) -> list[Point]:
    """Points of a run in order; a closed run repeats its first point at the end."""
    points: list[Point] = []
    for segment in run:
        new = flatten_segment(segment, tolerance)
        points.extend(new if not points else new[1:])
    return points


def segment_length(segment: Segment) -> float:
    """Arc length in mm: exact for lines and arcs, to about 1e-9 of it for cubics."""
    match segment:
        case Line(start=(x0, y0), end=(x1, y1)):
            return hypot(x1 - x0, y1 - y0)
        case Arc(radius=radius, sweep=sweep):
            return radius * radians(abs(sweep))
        case Cubic():
            return _cubic_length(segment, 0.0, 1.0, 0)


# Nodes and weights of the 8-point Gauss-Legendre rule on [-1, 1]; Abramowitz and Stegun, 25.4.30.
_GAUSS = (
    (0.1834346424956498, 0.3626837833783620),
    (0.5255324099163290, 0.3137066458778873),
    (0.7966664774136267, 0.2223810344533745),
    (0.9602898564975363, 0.1012285362903763),
)


def _gauss_length(curve: Cubic, t0: float, t1: float) -> float:
    half, middle = (t1 - t0) / 2, (t1 + t0) / 2
    p0, p1, p2, p3 = curve.start, curve.control1, curve.control2, curve.end
    total = 0.0
    for node, weight in _GAUSS:
        for t in (middle - half * node, middle + half * node):
            s = 1 - t
            a, b, c = 3 * s * s, 6 * s * t, 3 * t * t
            dx = a * (p1[0] - p0[0]) + b * (p2[0] - p1[0]) + c * (p3[0] - p2[0])
            dy = a * (p1[1] - p0[1]) + b * (p2[1] - p1[1]) + c * (p3[1] - p2[1])
            total += weight * hypot(dx, dy)
    return half * total


def _cubic_length(curve: Cubic, t0: float, t1: float, depth: int) -> float:
    """Adaptive Gauss-Legendre quadrature of the speed."""
    whole = _gauss_length(curve, t0, t1)
    middle = (t0 + t1) / 2
    halves = _gauss_length(curve, t0, middle) + _gauss_length(curve, middle, t1)
    if abs(whole - halves) <= 1e-10 * (1 + halves) or depth >= 16:
        return halves
    return _cubic_length(curve, t0, middle, depth + 1) + _cubic_length(curve, middle, t1, depth + 1)


def run_length(run: Run) -> float:
    """Arc length of a run in mm."""
    return sum(segment_length(segment) for segment in run)


def point_at_share(run: Run, share: float) -> tuple[Point, Point]:
    """Point of a run at a share of its length, and its unit tangent there; for drawings.

    Within a curve the share is one of its parameter, which nobody sees; geometry that has to meet
    takes spot_at (curves.py), which is exact. Raises ValueError for an empty run.
    """
    left = run_length(run) * share
    for segment in run:
        length = segment_length(segment)
        # The last one also where rounding leaves a hair of length over.
        if left <= length or segment is run[-1]:
            part = min(1.0, left / length) if length else 0.0
            return segment_point(segment, part), tangent(segment, part)
        left -= length
    raise ValueError("an empty run has no points")


def nearest_share(start: Point, end: Point, point: Point) -> tuple[float, float]:
    """Distance in mm from a point to a straight line, and the share of it that lies nearest."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    square = dx * dx + dy * dy
    # A line of no length is its start.
    share = ((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / square if square else 0.0
    share = min(1.0, max(0.0, share))
    return hypot(start[0] + dx * share - point[0], start[1] + dy * share - point[1]), share


CLOSED = 0.02
"""mm between start and end of a run that is closed: rounding of what is graded."""


def is_closed(run: Run) -> bool:
    """Whether a run comes back to its start."""
    (x, y), (u, v) = segment_start(run[0]), segment_end(run[-1])
    return hypot(x - u, y - v) < CLOSED


def run_area(run: Run) -> float:
    """Signed area in mm² of a closed run, exact; positive when counter-clockwise.

    Green's theorem: half the integral of x dy - y dx, in closed form for each kind of segment.
    """
    return sum(_swept_area(segment) for segment in run)


def _swept_area(segment: Segment) -> float:
    match segment:
        case Line(start=p0, end=p1):
            return _cross(p0, p1) / 2
        case Arc(centre=(cx, cy), radius=radius, sweep=sweep):
            (x0, y0), (x1, y1) = segment_start(segment), segment_end(segment)
            return (radius * radius * radians(sweep) + cx * (y1 - y0) - cy * (x1 - x0)) / 2
        case Cubic(start=p0, control1=p1, control2=p2, end=p3):
            return 0.15 * (
                2 * _cross(p0, p1)
                + _cross(p0, p2)
                + _cross(p0, p3) / 3
                + _cross(p1, p2)
                + _cross(p1, p3)
                + 2 * _cross(p2, p3)
            )


def _cross(a: Point, b: Point) -> float:
    return a[0] * b[1] - a[1] * b[0]


def bounds(runs: tuple[Run, ...]) -> tuple[float, float, float, float]:
    """Least x, least y, greatest x, greatest y of runs, of their flattened form."""
    points = [point for run in runs for point in flatten(run)]
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))


def heading(direction: Point) -> float:
    """Angle of a direction in degrees from the x axis, counter-clockwise."""
    return degrees(atan2(direction[1], direction[0]))


def dihedral(first: float, second: float) -> float:
    """degrees between the faces of two parts whose edges are bevelled by `first` and `second`
    degrees from square and meet without a gap: each bevel takes its share of the turn."""
    return 180 - first - second
