"""Corners of a line that was thinned in → a smooth run through it: no line seems to have corners
that are but points of a curve.

Each corner that may be rounded is the control point of a parabola from the middle of one side to
the middle of the next (a uniform quadratic B-spline): it touches the sides in their middles.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import atan2, hypot, pi

from guidegen.geometry.outline.parabolas import parabola
from guidegen.geometry.outline.records import Cubic, Line, Point, Run

SHARP = 55.0
"""degrees by which a line turns at what is a corner in any case. Our choice."""


def rounded_run(points: Sequence[Point], off: float, *, closed: bool = False) -> Run:
    """A run through points that lie at most `off` mm from the line that was meant; a closed one
    ends where it begins. Corners from which a parabola would keep farther off stay sharp."""
    if len(points) < 3:
        return tuple(Line(a, b) for a, b in pairwise(points))
    if not closed:
        sharp = [True, *(_is_sharp(*three, off) for three in _threes(points)), True]
        return _run(points, sharp)
    ring = [points[-1], *points, points[0]]
    sharp = [_is_sharp(*three, off) for three in _threes(ring)]
    if True in sharp:
        first = sharp.index(True)
        turned = [*points[first:], *points[: first + 1]]
        return _run(turned, [*sharp[first:], *sharp[: first + 1]])
    start = _middle(points[-1], points[0])
    return _run([start, *points, start], [True, *(False for _ in points), True])


def _threes(points: Sequence[Point]) -> Iterator[tuple[Point, Point, Point]]:
    return zip(points, points[1:], points[2:], strict=False)


def _is_sharp(before: Point, here: Point, after: Point, off: float) -> bool:
    ax, ay = here[0] - before[0], here[1] - before[1]
    bx, by = after[0] - here[0], after[1] - here[1]
    turn = abs(atan2(ax * by - ay * bx, ax * bx + ay * by))
    # A curve that was thinned turns by so much at a point as its sides are long: its height over
    # a side is turn times length by eight.
    return turn > SHARP * pi / 180 or turn * min(hypot(ax, ay), hypot(bx, by)) / 8 > 2 * off


def _run(points: Sequence[Point], sharp: Sequence[bool]) -> Run:
    """A run from the first to the last point, both of them sharp."""
    found: list[Line | Cubic] = []
    here = points[0]
    for number, corner in enumerate(points[1:], 1):
        if sharp[number]:
            if here != corner and (sharp[number - 1] or not found):
                found.append(Line(here, corner))
            here = corner
            continue
        after = points[number + 1]
        end = after if sharp[number + 1] else _middle(corner, after)
        found.append(parabola(here, corner, end))
        here = end
    return tuple(found)


def _middle(one: Point, other: Point) -> Point:
    return ((one[0] + other[0]) / 2, (one[1] + other[1]) / 2)
