"""Measured places along a run → where it is divided, and what each part is: the cheapest way.

Each part costs what it leaves over, against how exact places are, and a price for its numbers. All
ways from candidate to candidate are compared by dynamic programming; then the dividing places are
moved one by one of the measured places, within a few millimetres.
"""

from dataclasses import dataclass
from enum import IntEnum

import numpy as np

from guidegen.bench.photos.arrays import Array, BenchMask, Whole
from guidegen.bench.photos.fitting.cubics import fit_cubics, sampled
from guidegen.bench.photos.fitting.moments import Moments

EVERY = 6.0
"""mm between candidates."""
MOST = 110
"""Candidates; a longer run has them farther apart."""
EXACT = 0.06
"""mm: what counts as exact, however exact places are: a knife and a pencil are not more so."""
TOGETHER = 4.0
"""Neighbouring places err together, about as many as a lens blurs into one."""
PRICES = (14.0, 18.0, 30.0)
"""Of a line, an arc, a cubic: the first of its numbers and of a dividing place. Our choice."""
SHORT = 2.0
"""mm of the shortest part."""


class PartKind(IntEnum):
    """What a part is."""

    LINE = 0
    ARC = 1
    CUBIC = 2


@dataclass(frozen=True, slots=True)
class Parts:
    """A run divided: part n reaches from place cuts[n] to cuts[n + 1]."""

    cuts: tuple[int, ...]
    kinds: tuple[PartKind, ...]


def divide(points: Array, sharp: BenchMask, weights: Array, spacing: float, noise: float) -> Parts:
    """Divide an open run of places; for a ring, the first place comes again as the last."""
    costs = _Costs(points, weights, spacing, noise)
    count = len(points)
    step = max(round(EVERY / spacing), count // MOST, 1)
    candidates = np.union1d(np.arange(0, count - 1, step), np.flatnonzero(sharp))
    # Next to a corner no other candidate: the part would be one of the rounded corner alone.
    near = np.zeros(count, bool)
    for corner in np.flatnonzero(sharp):
        near[max(0, corner - step // 2) : corner + step // 2 + 1] = True
    candidates = candidates[sharp[candidates] | ~near[candidates]]
    candidates = np.unique(np.concatenate(([0], candidates, [count - 1])))
    parts = _cheapest(candidates, costs)
    return _moved(parts, sharp, costs, round(EVERY / spacing))


class _Costs:
    """What stretches of places cost as one part."""

    def __init__(self, points: Array, weights: Array, spacing: float, noise: float) -> None:
        self._points, self._moments = points, Moments(points, weights)
        self._unit = max(noise, EXACT) ** 2 * TOGETHER
        self._least = max(2, round(SHORT / spacing))
        # A rounded corner is no end of a curve: it begins at the first place that counts.
        counted = np.flatnonzero(weights > 0)
        at = np.arange(len(points))
        after, before = np.searchsorted(counted, at), np.searchsorted(counted, at, "right") - 1
        self._first = counted[after.clip(0, len(counted) - 1)]
        self._last = counted[before.clip(0, len(counted) - 1)]

    def of(self, first: Whole, last: Whole) -> Array:
        """Stretches × kinds."""
        unit, short = self._unit, last - first < self._least
        line = self._moments.line_error(first, last) / unit + PRICES[PartKind.LINE]
        arc = self._moments.arc_error(first, last) / unit + PRICES[PartKind.ARC]
        counts = self._moments.counts(first, last)
        cubic = np.full(len(first), np.inf)
        # A cubic is looked for where neither line nor arc is nearly as cheap as it could be.
        worth = np.minimum(line, arc) > PRICES[PartKind.CUBIC]
        first, last = self._first[first], self._last[last]
        worth &= last - first >= 4 * self._least
        if worth.any():
            _, errors = fit_cubics(sampled(self._points, first[worth], last[worth]))
            cubic[worth] = errors * counts[worth] / unit + PRICES[PartKind.CUBIC]
        found = np.column_stack((line, arc, cubic))
        found[short] = 1e9
        return found


def _cheapest(candidates: Whole, costs: _Costs) -> Parts:
    """The cheapest way from the first candidate to the last."""
    many = len(candidates)
    ends = np.concatenate([np.full(n, n) for n in range(1, many)])
    starts = np.concatenate([np.arange(n) for n in range(1, many)])
    prices = costs.of(candidates[starts], candidates[ends])
    kinds, cheapest = prices.argmin(axis=1), prices.min(axis=1)
    best = np.zeros(many)
    came = np.zeros(many, np.int64)
    what = np.zeros(many, np.int64)
    at = 0
    for end in range(1, many):
        ways = best[:end] + cheapest[at : at + end]
        came[end] = ways.argmin()
        what[end] = kinds[at + came[end]]
        best[end] = ways[came[end]]
        at += end
    cuts, found, place = [many - 1], [], many - 1
    while place:
        found.append(PartKind(int(what[place])))
        place = int(came[place])
        cuts.append(place)
    return Parts(tuple(int(candidates[c]) for c in cuts[::-1]), tuple(found[::-1]))


def _moved(parts: Parts, sharp: BenchMask, costs: _Costs, reach: int) -> Parts:
    """Dividing places moved to where both parts beside them cost least; corners stay."""
    cuts, kinds = list(parts.cuts), parts.kinds
    for _ in range(2):
        for number in range(1, len(cuts) - 1):
            if sharp[cuts[number]]:
                continue
            before, after = cuts[number - 1], cuts[number + 1]
            tries = np.arange(
                max(before + 4, cuts[number] - reach), min(after - 4, cuts[number] + reach) + 1
            )
            if len(tries) < 2:
                continue
            left = costs.of(np.full(len(tries), before), tries)[:, kinds[number - 1]]
            right = costs.of(tries, np.full(len(tries), after))[:, kinds[number]]
            both = left + right
            if np.isfinite(both).any():
                cuts[number] = int(tries[int(np.nanargmin(both))])
    return Parts(tuple(cuts), kinds)
