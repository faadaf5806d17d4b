"""Rings → where a label fits inside them."""

from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import pairwise
from math import inf, sqrt

from guidegen.geometry.outline.records import Point

type Rings = list[list[Point]]
"""Flattened closed rings; an outline and its holes."""


def inside(rings: Rings, point: Point) -> bool:
    """Whether a point lies inside rings, by the even-odd rule."""
    x, y = point
    odd = False
    for points in rings:
        for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
            if (y0 > y) != (y1 > y) and x < x0 + (x1 - x0) * (y - y0) / (y1 - y0):
                odd = not odd
    return odd


def rim_distance(rings: Rings, point: Point) -> float:
    """Distance from a point to the nearest ring, negative outside (even-odd rule)."""
    x, y = point
    nearest, odd = inf, False
    for points in rings:
        x0, y0 = points[-1]
        for x1, y1 in points:
            dx, dy = x1 - x0, y1 - y0
            if (y0 > y) != (y1 > y) and x < x0 + dx * (y - y0) / dy:
                odd = not odd
            square = dx * dx + dy * dy
            t = ((x - x0) * dx + (y - y0) * dy) / square if square else 0.0
            if t > 1:
                t = 1.0
            elif t < 0:
                t = 0.0
            away_x, away_y = x0 + t * dx - x, y0 + t * dy - y
            away = away_x * away_x + away_y * away_y
            nearest = min(nearest, away)
            x0, y0 = x1, y1
    return sqrt(nearest) if odd else -sqrt(nearest)


def inner_spot(rings: Rings, precision: float = 0.5) -> tuple[Point, float]:
    """The point farthest from every rim, to `precision` mm, and its distance.

    Cells of a grid are split while one may still hold a better point: the pole of
    inaccessibility (Garcia-Castellanos and Lombardo, 2007), found by branch and bound.
    """
    xs = [x for points in rings for x, _ in points]
    ys = [y for points in rings for _, y in points]
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    size = max(min(width, height), max(width, height) / 40) or 1.0
    half = size / 2
    best: Point = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
    best_distance = rim_distance(rings, best)
    heap: list[tuple[float, float, float, float, float]] = []

    def add(x: float, y: float, reach: float) -> None:
        distance = rim_distance(rings, (x, y))
        heappush(heap, (-(distance + reach * 2**0.5), x, y, reach, distance))

    for column in range(int(width / size) + 1):
        for row in range(int(height / size) + 1):
            add(min(xs) + half + column * size, min(ys) + half + row * size, half)
    while heap:
        bound, x, y, reach, distance = heappop(heap)
        if distance > best_distance:
            best, best_distance = (x, y), distance
        if -bound - best_distance <= precision:
            break
        step = reach / 2
        for dx, dy in ((-step, -step), (step, -step), (-step, step), (step, step)):
            add(x + dx, y + dy, step)
    return best, best_distance


def label_spot(
    rings: Rings, width: float, height: float, avoid: Rings | None = None
) -> Point | None:
    """Centre for a level box of `width` by `height` mm inside rings; None where none is found.

    The middle is tried first, since it looks calm. Else the rings are squeezed until the box is
    a square: the point farthest from the rims is then the best place for the box, not for a
    circle. Where lines to `avoid` cross both, a grid of other places is tried, the middle first.
    """
    for centre in _candidates(rings, width, height, bool(avoid)):
        if box_fits(rings, centre, width, height) and not any(
            meets_box(line, centre, width, height) for line in avoid or []
        ):
            return centre
    return None


def _candidates(rings: Rings, width: float, height: float, more: bool) -> Iterator[Point]:
    xs, ys = [x for x, _ in rings[0]], [y for _, y in rings[0]]
    across, up = max(xs) - min(xs), max(ys) - min(ys)
    middle = (min(xs) + across / 2, min(ys) + up / 2)
    yield middle
    if width > across or height > up:
        return
    squeeze = height / width
    squeezed = [[(x * squeeze, y) for x, y in points] for points in rings]
    (x, y), _ = inner_spot(squeezed, max(0.1, height / 10))
    yield (x / squeeze, y)
    if more:
        steps = [(column, row) for column in range(-6, 7) for row in range(-6, 7)]
        steps.sort(key=lambda step: (step[0] ** 2 + step[1] ** 2, -step[1], step[0]))
        for column, row in steps:
            yield (middle[0] + column * across / 14, middle[1] + row * up / 14)


def box_fits(rings: Rings, centre: Point, width: float, height: float) -> bool:
    """Whether a level box lies inside rings and touches none."""
    if not inside(rings, centre):
        return False
    return not any(meets_box([*points, points[0]], centre, width, height) for points in rings)


def meets_box(line: list[Point], centre: Point, width: float, height: float) -> bool:
    """Whether a line through points meets a level box."""
    box = (
        centre[0] - width / 2,
        centre[0] + width / 2,
        centre[1] - height / 2,
        centre[1] + height / 2,
    )
    return any(enters_box(start, end, box) for start, end in pairwise(line))


def enters_box(start: Point, end: Point, box: tuple[float, float, float, float]) -> bool:
    """Whether a segment meets a box of left, right, low, high (Liang and Barsky's clipping)."""
    left, right, low, high = box
    dx, dy = end[0] - start[0], end[1] - start[1]
    least, most = 0.0, 1.0
    for step, room in (
        (-dx, start[0] - left),
        (dx, right - start[0]),
        (-dy, start[1] - low),
        (dy, high - start[1]),
    ):
        if step == 0:
            if room < 0:
                return False
        elif step < 0:
            least = max(least, room / step)
        else:
            most = min(most, room / step)
    return least <= most
