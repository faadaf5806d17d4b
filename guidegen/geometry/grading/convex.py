"""A piece as drawn and as graded → the graded piece, convex wherever it was drawn convex.

Closing a spread line draws a band together, and an edge that runs away from the line is pressed in
at the band's border; moving a corner blends an edge, with the same effect. Nobody draws such a
dent: by hand one lays a ruler over it and trues the edge.
"""

from collections.abc import Mapping
from dataclasses import replace

from guidegen.geometry.drawing.corners import KINK
from guidegen.geometry.drawing.curves import nearest_on
from guidegen.geometry.drawing.records import DrawnPiece
from guidegen.geometry.outline.convexity import (
    CONVEX_UP_TO,
    begin_ring,
    concave_turn,
    is_convex,
    smooth_dents,
)
from guidegen.geometry.outline.curves import RunSpot, cut_run, turn_between
from guidegen.geometry.outline.measures import segment_start, tangent
from guidegen.geometry.outline.records import Point, Run

_NEW_DENT = 0.01
"""degrees by which an edge may turn back more than it was drawn. Our choice: rounding only."""


def keep_convex(
    drawn: DrawnPiece, graded: DrawnPiece, flares: Mapping[int, float] | None = None
) -> DrawnPiece:
    """The graded piece without the dents that grading pressed into convex edges.

    `flares` are degrees by which opened hinges turn stretches inward: that much is meant.

    Stretches that run smoothly into one another are looked at together: a dent at a corner that is
    only a mark on a round edge is a dent of that edge. Corners outside dents stay where they are.
    """
    stretches = list(graded.stretches)
    for group in _smooth_groups(drawn):
        before = _joined([drawn.stretches[number] for number in group])
        after = _joined([stretches[number] for number in group])
        meant = sum((flares or {}).get(number, 0.0) for number in group)
        if concave_turn(after) <= concave_turn(before) + meant + _NEW_DENT:
            continue
        marks = [segment_start(stretches[number][0]) for number in group]
        ring = len(group) == len(stretches) and _runs_on(drawn, group[0])
        smooth = smooth_dents(after, closed=ring)
        if ring:
            smooth = begin_ring(smooth, _nearest(smooth, 0, marks[0]))
        for number, run in zip(group, _split(smooth, marks[1:]), strict=True):
            stretches[number] = run
    return replace(graded, stretches=tuple(stretches))


def _smooth_groups(piece: DrawnPiece) -> list[list[int]]:
    """Numbers of neighbouring stretches that make one convex, smooth edge."""
    count = len(piece.stretches)
    convex = [is_convex(run) for run in piece.stretches]
    # A group begins where the outline turns sharply, or where what comes before is not convex.
    begins = [not (convex[n] and convex[n - 1] and _runs_on(piece, n)) for n in range(count)]
    first = begins.index(True) if True in begins else 0
    groups: list[list[int]] = []
    for step in range(count):
        number = (first + step) % count
        if not convex[number]:
            continue
        if begins[number] or not groups:
            groups.append([])
        groups[-1].append(number)
    return groups


def _runs_on(piece: DrawnPiece, number: int) -> bool:
    """Whether a stretch goes on smoothly from the one before it, and not to the right."""
    if len(piece.stretches) == 1:
        return not piece.corners
    before, after = piece.stretches[number - 1], piece.stretches[number]
    return -CONVEX_UP_TO < turn_between(tangent(before[-1], 1.0), tangent(after[0], 0.0)) < KINK


def _joined(runs: list[Run]) -> Run:
    return tuple(segment for run in runs for segment in run)


def _split(run: Run, marks: list[Point]) -> list[Run]:
    """A run cut at the points of it that are nearest to marks, which come in its order."""
    parts: list[Run] = []
    start = RunSpot(0, 0.0)
    for mark in marks:
        end = _nearest(run, start.index, mark)
        parts.append(cut_run(run, start, end))
        start = end
    return [*parts, cut_run(run, start, None)]


def _nearest(run: Run, first: int, mark: Point) -> RunSpot:
    """Where a run, from a segment on, is nearest to a point."""
    found = [(nearest_on(run[index], mark), index) for index in range(first, len(run))]
    # The last digits must not decide which of two segments that meet there has it.
    (_, t), index = min(found, key=lambda pair: round(pair[0][0], 6))
    return RunSpot(index, t)
