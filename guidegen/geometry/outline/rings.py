"""Rings of points: what is the same before anything is asked of them."""

from collections.abc import Sequence
from math import inf

from guidegen.geometry.outline.records import Point

_SAME = 1e-6
"""mm; points nearer than this are one point. Our choice: far above rounding, far below a cut."""


def distinct(ring: Sequence[Point]) -> list[Point]:
    """A ring without points that lie on the one before, or the last on the first: ends that
    differ by rounding would otherwise close it with a tiny side that seems to cross. In mm."""
    points: list[Point] = []
    last_x = last_y = inf
    for x, y in ring:
        if abs(x - last_x) > _SAME or abs(y - last_y) > _SAME:
            points.append((x, y))
            last_x, last_y = x, y
    while (
        len(points) > 1
        and max(abs(a - b) for a, b in zip(points[0], points[-1], strict=True)) <= _SAME
    ):
        points.pop()
    return points
