"""Two runs in → the points where they cross or touch."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from guidegen.geometry.outline.curves import NEAR, RunSpot, velocity
from guidegen.geometry.outline.measures import flatten_segment, segment_point
from guidegen.geometry.outline.records import Line, Point, Run, Segment


@dataclass(frozen=True, slots=True)
class Meeting:
    """A point that two runs share."""

    first: RunSpot
    second: RunSpot
    point: Point


def meetings(first: Run, second: Run) -> list[Meeting]:
    """Points where two runs cross or touch, in the order of the first.

    Found on the flattened curves, then refined by Newton's method on the true ones. Stretches
    that run along each other give none.
    """
    found: list[Meeting] = []
    # Flattened once for all pairs: this loop is where seams, allowances and bevels spend their
    # time.
    flat_second = [_flat(segment) for segment in second]
    for i, a in enumerate(first):
        points_a, box_a = _flat(a)
        for j, (points_b, box_b) in enumerate(flat_second):
            if not _boxes_meet(box_a, box_b):
                continue
            for rough in _crossings(points_a, points_b, box_a, box_b):
                # A flattened curve is off by up to its tolerance; a mitre or a match mark must not
                # be.
                t, u = _refine(a, second[j], *rough)
                found.append(Meeting(RunSpot(i, t), RunSpot(j, u), segment_point(a, t)))
    return sorted(found, key=lambda meeting: meeting.first.order)


type _Box = tuple[float, float, float, float]


def _flat(segment: Segment) -> tuple[list[Point], _Box]:
    points = flatten_segment(segment)
    return points, _box(points)


def _box(points: Sequence[Point]) -> _Box:
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))


def _boxes_meet(a: _Box, b: _Box) -> bool:
    return (
        a[0] <= b[2] + NEAR and b[0] <= a[2] + NEAR and a[1] <= b[3] + NEAR and b[1] <= a[3] + NEAR
    )


def _crossings(
    a: list[Point], b: list[Point], box_a: _Box, box_b: _Box
) -> list[tuple[float, float]]:
    """Parameters (of evenly divided curves) where two polylines cross."""
    chords_b = [
        (j, chord) for j, chord in enumerate(pairwise(b)) if _boxes_meet(_box(chord), box_a)
    ]
    found = []
    for i, chord in enumerate(pairwise(a)):
        if not _boxes_meet(_box(chord), box_b):
            continue
        for j, other in chords_b:
            hit = _cross_lines(*chord, *other)
            if hit is not None:
                found.append(((i + hit[0]) / (len(a) - 1), (j + hit[1]) / (len(b) - 1)))
    return found


def _cross_lines(p: Point, q: Point, r: Point, s: Point) -> tuple[float, float] | None:
    """Where two straight segments cross, as shares of both; a hair's breadth past an end counts."""
    dx, dy, ex, ey = q[0] - p[0], q[1] - p[1], s[0] - r[0], s[1] - r[1]
    cross = dx * ey - dy * ex
    size = hypot(dx, dy) * hypot(ex, ey)
    # Parallel within rounding: stretches that run along each other share no single point.
    if abs(cross) <= 1e-12 * size or size == 0:
        return None
    t = ((r[0] - p[0]) * ey - (r[1] - p[1]) * ex) / cross
    u = ((r[0] - p[0]) * dy - (r[1] - p[1]) * dx) / cross
    # Ends that only touch differ by rounding; a meeting there counts for both neighbours and must
    # not be lost between them.
    slack_t, slack_u = NEAR / hypot(dx, dy), NEAR / hypot(ex, ey)
    if -slack_t <= t <= 1 + slack_t and -slack_u <= u <= 1 + slack_u:
        return (min(1.0, max(0.0, t)), min(1.0, max(0.0, u)))
    return None


def _refine(a: Segment, b: Segment, t: float, u: float) -> tuple[float, float]:
    """Newton's method on a(t) = b(u)."""
    if isinstance(a, Line) and isinstance(b, Line):
        return t, u
    # Newton doubles the right digits at each turn: from a chord's error of 0.02 mm three turns
    # reach rounding; six leave room for curves that meet at a flat angle.
    for _ in range(6):
        p, q = segment_point(a, t), segment_point(b, u)
        fx, fy = p[0] - q[0], p[1] - q[1]
        (ax, ay), (bx, by) = velocity(a, t), velocity(b, u)
        cross = ax * by - ay * bx
        if abs(cross) < 1e-12:
            break
        t = min(1.0, max(0.0, t - (fx * by - fy * bx) / cross))
        u = min(1.0, max(0.0, u - (fx * ay - fy * ax) / cross))
    return t, u
