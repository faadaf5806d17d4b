"""A run of an outline in → where it is dented, and the run with its dents smoothed over.

An outline runs counter-clockwise, so it is convex where it turns left. A dent is found as a hand
with a ruler finds it: laid along the edge, the ruler touches before and after it.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Self

from guidegen.geometry.outline.curves import (
    CORNER_ANGLE,
    NEAR,
    RunSpot,
    along,
    cut_run,
    distance,
    end_direction,
    start_direction,
    turn_between,
)
from guidegen.geometry.outline.measures import (
    segment_end,
    segment_length,
    segment_point,
    segment_start,
    tangent,
)
from guidegen.geometry.outline.records import Cubic, Line, Point, Run, Segment

CONVEX_UP_TO = 0.5
"""degrees that a run may turn back in all and still count as convex. Our choice: what joints of
arcs and curves turn back in a drawing that was made convex."""

_SPECK = 1e-3
"""mm; the direction of a segment as short as this is rounding."""

_LEAN = 0.6
"""Handles of a smoothing curve, as a share of the way to where its end tangents meet. At 1 and
below the curve stays inside their triangle and is convex; 0.55 to 0.67 is close to an oval."""

_ROOM = 0.3
"""Room for a smoothing curve on either side of a dent, in lengths of the dent. Our choice."""


def concave_turn(run: Run) -> float:
    """degrees that a run turns to the right in all: 0 for a convex edge.

    Its directions are compared, not its flattened points: shallow dents vanish in flattening.
    """
    directions: list[Point] = []
    for segment in run:
        if segment_length(segment) > _SPECK:
            count = _steps(segment)
            directions += [tangent(segment, number / count) for number in range(count + 1)]
    turns = (turn_between(one, two) for one, two in pairwise(directions))
    return sum(-turn for turn in turns if turn < 0)


def _steps(segment: Segment) -> int:
    """How many parts of a segment are looked at: one of a line, half a mm each of a curve."""
    if isinstance(segment, Line):
        return 1
    return max(8, min(400, round(segment_length(segment) / 0.5)))


def is_convex(run: Run) -> bool:
    """True for a run that turns left, or goes straight, all along."""
    return concave_turn(run) <= CONVEX_UP_TO


def smooth_dents(run: Run, *, closed: bool = False) -> Run:
    """The run with every dent smoothed over by a curve that bends as its neighbours do.

    Its ends stay where they are; what has no dent comes back as it is. `closed`: a ring whose start
    is a point like any other; what was smoothed begins elsewhere.
    """
    if not closed:
        return _smoothed(run)
    # The lowest point of a ring touches every ruler below it, so it lies in no dent.
    walk = _Walk.along(run)
    lowest = min(range(len(walk.points)), key=lambda n: (walk.points[n][1], walk.points[n][0]))
    turned = begin_ring(run, walk.spots[lowest])
    smooth = _smoothed(turned)
    return run if smooth is turned else smooth


def begin_ring(ring: Run, spot: RunSpot) -> Run:
    """A closed run that begins at a spot of it."""
    return (*cut_run(ring, spot, None), *cut_run(ring, None, spot))


@dataclass(frozen=True, slots=True)
class _Walk:
    """Points along a run, dense where it bends."""

    points: list[Point]
    spots: list[RunSpot]
    passed: list[float]
    """mm from the start of the run to each."""
    corners: list[int]
    """Numbers of the points where the run turns sharply, its ends too."""

    @classmethod
    def along(cls, run: Run) -> Self:
        points, spots, corners = [segment_start(run[0])], [RunSpot(0, 0.0)], [0]
        for index, segment in enumerate(run):
            if index:
                turn = turn_between(end_direction(run[:index]), start_direction(run[index:]))
                if abs(turn) > CORNER_ANGLE:
                    corners.append(len(points) - 1)
            steps = _steps(segment)
            for number in range(1, steps + 1):
                points.append(segment_point(segment, number / steps))
                spots.append(RunSpot(index, number / steps))
        corners.append(len(points) - 1)
        passed = [0.0]
        for p, q in pairwise(points):
            passed.append(passed[-1] + distance(p, q))
        return cls(points, spots, passed, corners)

    def cut(self, run: Run, start: int, end: int) -> Run:
        """The run from one of the points to another."""
        return cut_run(run, self.spots[start], self.spots[end]) if end > start else ()

    def around(self, start: int, end: int, least: float, most: float) -> tuple[int, int]:
        """The point before `start` and the one after `end` from which a curve may smooth over.

        A curve needs room to turn, but must not carry the edge away from the ruler; so it gets a
        share of the dent's length on either side. It ends at the arc lengths `least` and `most`,
        and at a corner, which has to stay.
        """
        reach = _ROOM * (self.passed[end] - self.passed[start])
        low = max(least, self.passed[start] - reach)
        high = min(most, self.passed[end] + reach)
        first = max(bisect_left(self.passed, low), *(c for c in self.corners if c <= start))
        last = bisect_right(self.passed, high) - 1
        return min(first, start), max(end, min(last, *(c for c in self.corners if c >= end)))


def _smoothed(run: Run) -> Run:
    walk = _Walk.along(run)
    dents = _dents(walk.points)
    if not dents:
        return run
    # Between two dents each curve gets half of the way.
    middles = [(walk.passed[a[1]] + walk.passed[b[0]]) / 2 for a, b in pairwise(dents)]
    limits = [0.0, *middles, walk.passed[-1]]
    parts: list[Run] = []
    done = 0
    for (start, end), (least, most) in zip(dents, pairwise(limits), strict=True):
        low, high = walk.around(start, end, least, most)
        low = max(low, done)
        parts += [walk.cut(run, done, low), _over(walk, run, (start, end), (low, high))]
        done = high
    parts.append(walk.cut(run, done, len(walk.points) - 1))
    return tuple(segment for part in parts for segment in part)


def _over(walk: _Walk, run: Run, dent: tuple[int, int], reach: tuple[int, int]) -> Run:
    """The ruler's line over a dent, rounded into its neighbours as far as `reach`."""
    before, after = walk.cut(run, reach[0], dent[0]), walk.cut(run, dent[1], reach[1])
    straight = (*before, Line(walk.points[dent[0]], walk.points[dent[1]]), *after)
    first, last = start_direction(straight), end_direction(straight)
    start, end = segment_start(straight[0]), segment_end(straight[-1])
    cross = first[0] * last[1] - first[1] * last[0]
    if cross < NEAR:
        return straight
    dx, dy = end[0] - start[0], end[1] - start[1]
    # How far from each end the two tangents meet.
    ahead, back = (dx * last[1] - dy * last[0]) / cross, (first[0] * dy - first[1] * dx) / cross
    if min(ahead, back) <= NEAR:
        return straight
    return (Cubic(start, along(start, first, _LEAN * ahead), along(end, last, -_LEAN * back), end),)


def _dents(points: Sequence[Point]) -> list[tuple[int, int]]:
    """Numbers of the points where a ruler touches before and after each dent.

    The points are walked in order; whatever lies right of the line to the next is taken back
    (Graham's scan, along the run instead of around a centre).
    """
    kept: list[int] = []
    for index, point in enumerate(points):
        while len(kept) > 1 and _side(points[kept[-2]], points[kept[-1]], point) < 0:
            kept.pop()
        kept.append(index)
    found: list[tuple[int, int]] = []
    for a, b in pairwise(kept):
        depths = (_side(points[a], points[b], points[index]) for index in range(a + 1, b))
        if max(depths, default=0.0) <= NEAR * distance(points[a], points[b]):
            continue
        if found and found[-1][1] >= a:
            found[-1] = (found[-1][0], b)
        else:
            found.append((a, b))
    return found


def _side(start: Point, end: Point, point: Point) -> float:
    """Twice the area of a triangle; positive where the point lies left of the line."""
    return (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])
