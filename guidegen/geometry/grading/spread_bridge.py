"""Cut ends in → curves that lead smoothly from one to the other."""

from math import acos, cos

from guidegen.geometry.outline.curves import (
    NEAR,
    along,
    cut_run,
    distance,
    split_at_corners,
    spot_at,
)
from guidegen.geometry.outline.measures import (
    run_length,
    segment_end,
    segment_start,
    tangent,
)
from guidegen.geometry.outline.records import Cubic, Line, Point, Run, Segment

ROUNDING = 10.0
"""mm; how far from a hinge a smooth edge is rounded again, at most. Our choice: about what one
redraws by hand when an edge is trued."""

_STRAIGHT = 1e-6
"""radians; directions nearer than this agree."""


def bridge(start: Point, leaving: Point, end: Point, arriving: Point) -> Run:
    """From `start`, in the direction `leaving`, to `end`, arriving in a direction.

    A straight line where the directions agree with it. Otherwise a cubic whose control points
    lie as those of a circular arc that turns as much: chord / (3 * cos²(a / 2)) along the
    tangents, a being the mean angle between chord and tangents.
    """
    chord = distance(start, end)
    if chord <= NEAR:
        return ()
    way = ((end[0] - start[0]) / chord, (end[1] - start[1]) / chord)
    angles = [acos(max(-1.0, min(1.0, way[0] * t[0] + way[1] * t[1]))) for t in (leaving, arriving)]
    if max(angles) < _STRAIGHT:
        return (Line(start, end),)
    # Bounded at 1.6 radians: for ends that point against each other the handle would run off.
    handle = chord / (3 * cos(min(sum(angles) / 2, 1.6) / 2) ** 2)
    return (Cubic(start, along(start, leaving, handle), along(end, arriving, -handle), end),)


def joined(before: Run, after: Run) -> Run:
    """Two runs with a bridge between them, where there is a gap."""
    if not before or not after:
        return before or after
    middle = bridge(
        segment_end(before[-1]), tangent(before[-1], 1.0),
        segment_start(after[0]), tangent(after[0], 0.0),
    )  # fmt: skip
    return (*before, *middle, *after)


def rounded(before: Run, after: Run) -> Run:
    """Two runs that meet at an angle, with the meeting rounded over at most ROUNDING mm."""
    first, second = split_at_corners(before)[-1], split_at_corners(after)[0]
    # Less than half of either edge, so that a fifth of it at least keeps its course.
    back = min(ROUNDING, 0.4 * run_length(first), 0.4 * run_length(second))
    if back < 10 * NEAR:
        return (*before, *after)
    first = cut_run(first, None, spot_at(first, run_length(first) - back))
    second = cut_run(second, spot_at(second, back), None)
    kept = before[: len(before) - len(split_at_corners(before)[-1])]
    rest = after[len(split_at_corners(after)[0]) :]
    return (*kept, *joined(first, second), *rest)


def merged(run: Run) -> Run:
    """The run with neighbouring straight segments of one direction made one."""
    kept: list[Segment] = []
    for segment in run:
        if kept and isinstance(segment, Line) and isinstance(kept[-1], Line):
            (ax, ay), (bx, by) = tangent(kept[-1], 1.0), tangent(segment, 0.0)
            if abs(ax * by - ay * bx) < _STRAIGHT and ax * bx + ay * by > 0:
                kept[-1] = Line(kept[-1].start, segment.end)
                continue
        kept.append(segment)
    return tuple(kept)
