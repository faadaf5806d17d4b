"""Work and idle spans in → an axis out that squeezes long waits, so that work stays readable."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

type TimeSpan = tuple[float, float]
"""Start and end in minutes."""

IDLE = 9.0
"""mm; a wait during which nobody works is drawn no wider."""


STEPS = (15, 30, 60, 120, 180, 240, 360, 720, 1440)
"""minutes between round times on an axis."""


@dataclass(frozen=True, slots=True)
class HourStretch:
    """A span of the axis in which the scale stays the same."""

    start: float
    end: float
    """minutes."""
    x0: float
    x1: float
    """mm on the drawing."""
    squeezed: bool
    """True where time runs faster than elsewhere on the axis."""


@dataclass(frozen=True, slots=True)
class Axis:
    """Minutes to mm."""

    stretches: tuple[HourStretch, ...]

    def x(self, minute: float) -> float:
        """Where a minute lies on the drawing."""
        # The stretch that begins last before the minute; at a border the later one, both agree
        # there.
        number = bisect_right([s.start for s in self.stretches], minute) - 1
        stretch = self.stretches[max(0, number)]
        length = stretch.end - stretch.start
        share = (minute - stretch.start) / length if length else 0.0
        return stretch.x0 + (stretch.x1 - stretch.x0) * min(1.0, max(0.0, share))

    @property
    def squeezed(self) -> bool:
        """Whether time runs faster anywhere."""
        return any(stretch.squeezed for stretch in self.stretches)

    def ticks(self, room: float) -> list[float]:
        """Minutes to write below the axis, at least `room` mm apart.

        Where work begins again after a squeezed wait comes first, then round times between.
        """
        if not self.stretches:
            return []
        wanted = [0.0]
        wanted += [s.end for s in self.stretches[:-1] if s.squeezed]
        plain = [s for s in self.stretches if not s.squeezed and s.end > s.start]
        step = STEPS[-1]
        if plain:
            scale = (plain[0].x1 - plain[0].x0) / (plain[0].end - plain[0].start)
            step = next((step for step in STEPS if step * scale >= room), STEPS[-1])
        for stretch in plain:
            first = ceil(stretch.start / step)
            wanted += [n * step for n in range(first, floor(stretch.end / step) + 1)]
        ticks: list[float] = []
        for minute in wanted:
            # In the order of need: starts of work keep their place, round times give way.
            if all(abs(self.x(minute) - self.x(tick)) >= room for tick in ticks):
                ticks.append(minute)
        return sorted(ticks)


def make_axis(work: Sequence[TimeSpan], end: float, left: float, width: float) -> Axis:
    """An axis from 0 to `end` minutes over `width` mm from `left`, work at one scale.

    Stretches without work that would be wider than `IDLE` mm are squeezed to it (less where
    there are so many that they would take more than half).
    """
    spans = _alternate(work, end)
    idle = [stop - start for start, stop, working in spans if not working]
    # At least half of the drawing is left to work.
    most = min(IDLE, width / 2 / len(idle)) if idle else IDLE
    busy = sum(stop - start for start, stop, working in spans if working)
    scale = _scale(busy, idle, width, most)
    stretches: list[HourStretch] = []
    x = left
    for start, stop, working in spans:
        true = (stop - start) * scale
        across = true if working else min(true, most)
        # Rounding alone does not make a wait a squeezed one.
        stretches.append(HourStretch(start, stop, x, x + across, across < true - 1e-9))
        x += across
    return Axis(tuple(stretches) or (HourStretch(0, 0, left, left, False),))


def _alternate(work: Sequence[TimeSpan], end: float) -> list[tuple[float, float, bool]]:
    """The whole time as spans with work and spans without."""
    spans: list[tuple[float, float, bool]] = []
    now = 0.0
    for start, stop in sorted(work):
        if start > now:
            spans.append((now, start, False))
        # Work of several people overlaps: what is busy already is not laid on the axis again.
        if stop > max(now, start):
            spans.append((max(now, start), stop, True))
        now = max(now, stop)
    if end > now:
        spans.append((now, end, False))
    return spans


def _scale(busy: float, idle: list[float], width: float, most: float) -> float:
    """mm a minute at which all spans fill the width, idle ones at most `most` wide each."""
    # The wanted scale lies between that of nothing squeezed and that of all idle time gone; their
    # sum is above both.
    low, high = 0.0, width / max(1e-9, busy + sum(idle)) + width / max(1e-9, busy or sum(idle))
    # The width used only grows with the scale, so halving finds the one where it is all used;
    # eighty halvings pass the last bit.
    for _ in range(80):
        middle = (low + high) / 2
        used = busy * middle + sum(min(length * middle, most) for length in idle)
        if used < width:
            low = middle
        else:
            high = middle
    return low
