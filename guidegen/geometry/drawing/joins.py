"""Strokes in any order and direction in → closed rings and what stays open.

Ends up to GAP apart are put together at the point half way between them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import hypot, inf

from guidegen.geometry.drawing.curves import between, longest, move_end, move_start
from guidegen.geometry.drawing.records import Subpath
from guidegen.geometry.outline.measures import (
    run_area,
    segment_end,
    segment_start,
)
from guidegen.geometry.outline.records import Line, Point, Run, Segment
from guidegen.geometry.outline.transforms import reverse_run

GAP = 0.5
"""mm; ends nearer than this are meant to meet. Our choice: a pencil line is as wide."""

SPECK = 0.01
"""mm; shorter segments of an outline are left out. Our choice: a fifth of the finest print."""

MAX_STROKES = 500
"""Lines of one piece. Our choice: bounds the search for partners and for sides of a cut."""


@dataclass(frozen=True, slots=True)
class Joined:
    """Strokes put together."""

    rings: tuple[Run, ...]
    opens: tuple[Run, ...]
    gap: float = 0.0
    """mm; the smallest gap that was too wide to close, where something stays open."""
    at: Point = (0.0, 0.0)
    """Where that gap is."""


def join_strokes(strokes: Sequence[Subpath]) -> Joined:
    """Rings of closed strokes, and of open ones whose ends meet."""
    rings = [close_ring(stroke.run) for stroke in strokes if is_closed(stroke)]
    left = [stroke.run for stroke in strokes if not is_closed(stroke)]
    opens: list[Run] = []
    while left:
        # Forward, then backward from the same stroke: the one that came first in the file may be
        # in the middle of its chain.
        chain = _grow(left.pop(0), left)
        chain = reverse_run(_grow(reverse_run(chain), left))
        if _meets(chain):
            rings.append(close_ring(chain))
        else:
            opens.append(chain)
    gap, at = _widest_need(opens)
    return Joined(tuple(rings), tuple(opens), gap, at)


def is_closed(stroke: Subpath) -> bool:
    """True where a stroke is closed by the drawing, or its ends meet within GAP."""
    return stroke.closed or _meets(stroke.run)


def _meets(run: Run) -> bool:
    """True where a run comes back to its start, not merely because it is so short."""
    # A stroke of half a millimetre has both ends within GAP, and is no ring for that.
    return _gap(run, run) <= GAP and longest(run) > 4 * GAP


def close_ring(run: Run) -> Run:
    """A ring whose last point is exactly its first: a small gap is healed, a wide one bridged."""
    run = _without_specks(run)
    gap = _gap(run, run)
    if gap < 1e-6:
        return run
    start, end = segment_start(run[0]), segment_end(run[-1])
    # Bridged where the drawing says that it closes; and one segment alone cannot give way at both
    # ends.
    if gap > GAP or len(run) == 1:
        return (*run, Line(end, start))
    # Half way: neither end is the right one, and each moves by a quarter of a millimetre at most.
    middle = between(start, end, 0.5)
    return move_end(move_start(run, middle), middle)


def _without_specks(run: Run) -> Run:
    """A ring without segments shorter than SPECK: what rounding left has no direction to keep."""
    kept: list[Segment] = []
    for segment in run:
        # Three segments are the least that enclose an area.
        if len(run) > 3 and longest((segment,)) < SPECK:
            continue
        # Where a speck went, the next one takes over its start: the ring stays closed.
        if kept and _gap((kept[-1],), (segment,)) > 1e-6:
            kept.extend(move_start((segment,), segment_end(kept[-1])))
        else:
            kept.append(segment)
    return tuple(kept) or run


def counter_clockwise(ring: Run) -> Run:
    """The ring with its inside on the left."""
    return ring if run_area(ring) > 0 else reverse_run(ring)


def clockwise(ring: Run) -> Run:
    """The ring with its inside on the right."""
    return ring if run_area(ring) < 0 else reverse_run(ring)


def _gap(first: Run, second: Run) -> float:
    """mm from the end of one run to the start of another."""
    end, start = segment_end(first[-1]), segment_start(second[0])
    return hypot(end[0] - start[0], end[1] - start[1])


def _grow(chain: Run, left: list[Run]) -> Run:
    """Append strokes whose end meets the chain's; takes them out of `left`."""
    while left:
        choices = [
            (_gap(chain, run), number, run)
            for number, stroke in enumerate(left)
            for run in (stroke, reverse_run(stroke))
        ]
        # The nearest end, and of equally near ones the first in the file: the same chain each
        # time.
        gap, number, run = min(choices, key=lambda choice: choice[:2])
        # A chain that could close now must not run on into a stroke that only touches it.
        if gap > GAP or (_meets(chain) and _gap(chain, chain) <= gap):
            return chain
        del left[number]
        middle = between(segment_end(chain[-1]), segment_start(run[0]), 0.5)
        chain = (*move_end(chain, middle), *move_start(run, middle))
    return chain


def _widest_need(opens: list[Run]) -> tuple[float, Point]:
    """The smallest distance between free ends, of one stroke or of two."""
    ends = [
        (number, side, point)
        for number, run in enumerate(opens)
        for side, point in enumerate((segment_start(run[0]), segment_end(run[-1])))
    ]
    best, at = inf, (0.0, 0.0)
    for index, (_, _, p) in enumerate(ends):
        for _, _, q in ends[index + 1 :]:
            gap = hypot(p[0] - q[0], p[1] - q[1])
            if gap < best:
                best, at = gap, between(p, q, 0.5)
    return (best, at) if opens else (0.0, at)
