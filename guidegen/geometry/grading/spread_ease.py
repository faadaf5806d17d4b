"""Edges cut at a slant in → the same edges led aside gently, so that a bridge joins them smoothly.

Where an edge passes the spread line at a slant, its cut ends come apart sideways as well. That
offset is spread over the gap and a stretch of the edge on either side: the edge leaves its course
by a share that grows smoothly (3s² - 2s³) from one far end to the other.
"""

from collections.abc import Sequence
from math import hypot

from guidegen.geometry.drawing.corners import KINK
from guidegen.geometry.grading.blend import Blend, move_run
from guidegen.geometry.grading.spread_cut import CutSegment
from guidegen.geometry.outline.curves import cut_run, spot_at, turn_between
from guidegen.geometry.outline.measures import run_length, segment_end, segment_start, tangent
from guidegen.geometry.outline.records import Run

EASE = 20.0
"""Length over which an edge is led aside, in widths of the offset. Our choice: its direction
changes by 1.5 / EASE at most, about 4 degrees."""

_NOTHING = 1e-9


def ease(bits: Sequence[CutSegment], moved: list[Run], cut: int) -> None:
    """Lead both sides of the cut before bit `cut` aside, in `moved`, where there is room."""
    before, after = moved[cut - 1], moved[cut]
    (ax, ay), (bx, by) = tangent(before[-1], 1.0), tangent(after[0], 0.0)
    size = hypot(ax + bx, ay + by)
    # Ends that point against each other have no common direction, and a corner is to stay one.
    if size < 0.1 or abs(_turn(bits[cut - 1], bits[cut])) > KINK:
        return
    tx, ty = (ax + bx) / size, (ay + by) / size
    start, end = segment_end(before[-1]), segment_start(after[0])
    along = (end[0] - start[0]) * tx + (end[1] - start[1]) * ty
    # What the bridge cannot take: the shift across the direction of the edge.
    offset = (end[0] - start[0] - along * tx, end[1] - start[1] - along * ty)
    width = hypot(*offset)
    room = min(_room(bits, moved, cut - 1, -1), _room(bits, moved, cut, 1))
    # Both sides alike, so that match marks at equal shares of the edge stay at equal shares.
    reach = min((EASE * width - along) / 2, room)
    if width < _NOTHING or reach < _NOTHING:
        return
    # One S-curve from far end to far end; the gap in its middle is left to the bridge, which needs
    # its value and its slope at both cut ends.
    share, slope = _smooth(reach / (2 * reach + along))
    slope /= 2 * reach + along
    still, turned = (0.0, 0.0), (offset[0] * slope, offset[1] * slope)
    early = (offset[0] * share, offset[1] * share)
    _lead(moved, cut - 1, -1, Blend(reach, still, early, still, turned))
    _lead(moved, cut, 1, Blend(reach, (-early[0], -early[1]), still, turned, still))


def _smooth(s: float) -> tuple[float, float]:
    """3s² - 2s³ and its slope."""
    return s * s * (3 - 2 * s), 6 * s * (1 - s)


def _turn(before: CutSegment, after: CutSegment) -> float:
    return turn_between(tangent(before.segment, 1.0), tangent(after.segment, 0.0))


def _room(bits: Sequence[CutSegment], moved: Sequence[Run], first: int, step: int) -> float:
    """mm from a cut along smooth bits of one stretch; half the way where another cut ends it."""
    room, index = 0.0, first
    while True:
        room += run_length(moved[index])
        if bits[index if step < 0 else (index + 1) % len(bits)].cut:
            # Two cuts share the edge between them.
            return room / 2
        index += step
        if not 0 <= index < len(bits) or not moved[index]:
            return room
        if bits[index].stretch != bits[first].stretch:
            return room
        pair = (index, index + 1) if step < 0 else (index - 1, index)
        if abs(_turn(bits[pair[0]], bits[pair[1]])) > KINK:
            return room


def _lead(moved: list[Run], first: int, step: int, blend: Blend) -> None:
    """Move the runs from a cut on by a blend, as far as it reaches."""
    index, passed = first, 0.0
    while passed < blend.length - _NOTHING and 0 <= index < len(moved):
        run = moved[index]
        length = run_length(run)
        left = blend.length - passed
        if step > 0:
            moved[index] = _lead_start(run, length, left, blend, passed)
        else:
            moved[index] = _lead_end(run, length, left, blend, passed)
        passed += length
        index += step


def _lead_start(run: Run, length: float, left: float, blend: Blend, passed: float) -> Run:
    """A run led aside from its start on."""
    if left >= length:
        return move_run(run, blend, passed)
    spot = spot_at(run, left)
    return (*move_run(cut_run(run, None, spot), blend, passed), *cut_run(run, spot, None))


def _lead_end(run: Run, length: float, left: float, blend: Blend, passed: float) -> Run:
    """A run led aside up to its end; the blend is counted toward the cut."""
    if left >= length:
        return move_run(run, blend, blend.length - passed - length)
    spot = spot_at(run, length - left)
    return (*cut_run(run, None, spot), *move_run(cut_run(run, spot, None), blend))
