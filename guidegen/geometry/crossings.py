"""Two runs in → the points where they cross or touch."""

from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from guidegen.geometry.curves import NEAR, Spot, velocity
from guidegen.geometry.measures import flatten_segment, segment_point
from guidegen.geometry.records import Line, Point, Run, Segment


@dataclass(frozen=True, slots=True)
class Meeting:
    """A point that two runs share."""

    first: Spot
    second: Spot
    point: Point


def meetings(first: Run, second: Run) -> list[Meeting]:
    """Points where two runs cross or touch, in the order of the first.

    Found on the flattened curves, then refined by Newton's method on the true ones. Stretches
    that run along each other give none.
    """
    found: list[Meeting] = []
    for i, a in enumerate(first):
        points_a = flatten_segment(a)
        for j, b in enumerate(second):
            points_b = flatten_segment(b)
            if not _boxes_meet(points_a, points_b):
                continue
            for rough in _crossings(points_a, points_b):
                t, u = _refine(a, b, *rough)
                found.append(Meeting(Spot(i, t), Spot(j, u), segment_point(a, t)))
    return sorted(found, key=lambda meeting: meeting.first.order)


def _boxes_meet(a: list[Point], b: list[Point]) -> bool:
    return all(
        min(p[k] for p in a) <= max(p[k] for p in b) + NEAR
        and min(p[k] for p in b) <= max(p[k] for p in a) + NEAR
        for k in (0, 1)
    )


def _crossings(a: list[Point], b: list[Point]) -> list[tuple[float, float]]:
    """Parameters (of evenly divided curves) where two polylines cross."""
    found = []
    for i, (p, q) in enumerate(pairwise(a)):
        for j, (r, s) in enumerate(pairwise(b)):
            hit = _cross_lines(p, q, r, s)
            if hit is not None:
                found.append(((i + hit[0]) / (len(a) - 1), (j + hit[1]) / (len(b) - 1)))
    return found


def _cross_lines(p: Point, q: Point, r: Point, s: Point) -> tuple[float, float] | None:
    """Where two straight segments cross, as shares of both; a hair's breadth past an end counts."""
    dx, dy, ex, ey = q[0] - p[0], q[1] - p[1], s[0] - r[0], s[1] - r[1]
    cross = dx * ey - dy * ex
    size = hypot(dx, dy) * hypot(ex, ey)
    if abs(cross) <= 1e-12 * size or size == 0:
        return None
    t = ((r[0] - p[0]) * ey - (r[1] - p[1]) * ex) / cross
    u = ((r[0] - p[0]) * dy - (r[1] - p[1]) * dx) / cross
    slack_t, slack_u = NEAR / hypot(dx, dy), NEAR / hypot(ex, ey)
    if -slack_t <= t <= 1 + slack_t and -slack_u <= u <= 1 + slack_u:
        return (min(1.0, max(0.0, t)), min(1.0, max(0.0, u)))
    return None


def _refine(a: Segment, b: Segment, t: float, u: float) -> tuple[float, float]:
    """Newton's method on a(t) = b(u)."""
    if isinstance(a, Line) and isinstance(b, Line):
        return t, u
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
