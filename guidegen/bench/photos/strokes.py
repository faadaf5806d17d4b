"""Cells that are drawn lines in → the way of each stroke out, as places in their order.

Lines are worn down to one cell (Zhang and Suen, Communications of the ACM 27, 1984), parted where
they branch, walked from end to end, and joined again where two go straight on.
"""

import numpy as np

from guidegen.bench.photos import vision
from guidegen.bench.photos.arrays import Array, BenchMask, Whole

LEAST = 5.0
"""mm of the shortest stroke."""
STRAIGHT = 25.0
"""degrees that a stroke may turn where others cross it."""
ACROSS = 2.5
"""mm that may be missing where lines cross."""
MOST = 60
"""Strokes of a piece."""

_AROUND = ((-1, 0), (-1, 1), (0, 1), (1, 1), (1, 0), (1, -1), (0, -1), (-1, -1))


def strokes_in(mask: BenchMask, step: float) -> list[tuple[Array, bool]]:
    """Columns and rows of each stroke, and whether it is closed; longest first."""
    thin = thinned(mask)
    open_: list[Array] = []
    rings: list[Array] = []
    labels, boxes = vision.patches(thin & (_ways(_neighbours(thin)) <= 2), diagonal=True)
    for number in range(1, len(boxes)):
        x, y, wide, high, area = boxes[number]
        if area * step < LEAST / 3:
            continue
        rows, columns = np.nonzero(labels[y : y + high, x : x + wide] == number)
        way, closed = _walked(set(zip((columns + x).tolist(), (rows + y).tolist(), strict=True)))
        (rings if closed and len(way) > 12 else open_).append(way)
    found = [(ring, True) for ring in rings] + [(way, False) for way in _joined(open_, step)]
    kept = [one for one in found if _length(one[0]) * step >= LEAST]
    return sorted(kept, key=lambda one: -_length(one[0]))[:MOST]


def thinned(mask: BenchMask) -> BenchMask:
    """A mask worn down to lines of one cell."""
    thin = mask.copy()
    thin[[0, -1], :] = thin[:, [0, -1]] = False
    for _ in range(200):
        changed = False
        for even in (True, False):
            p = _neighbours(thin)
            count = p.sum(axis=0)
            turns = _ways(p)
            north, east, south, west = p[0], p[2], p[4], p[6]
            one = north & east & south if even else north & east & west
            two = east & south & west if even else north & south & west
            gone = thin & (count >= 2) & (count <= 6) & (turns == 1) & ~one & ~two
            if gone.any():
                thin &= ~gone
                changed = True
        if not changed:
            break
    return thin


def _ways(around: BenchMask) -> Whole:
    """How many lines leave each cell: a slanting one's cells have two, and more neighbours."""
    return np.asarray((~around & np.roll(around, -1, axis=0)).sum(axis=0))


def _neighbours(mask: BenchMask) -> BenchMask:
    return np.array([np.roll(mask, (-dy, -dx), (0, 1)) for dy, dx in _AROUND])


def _walked(cells: set[tuple[int, int]]) -> tuple[Array, bool]:
    """Cells of a line in their order, and whether it comes back to its start."""

    def beside(cell: tuple[int, int]) -> list[tuple[int, int]]:
        near = [(cell[0] + dx, cell[1] + dy) for dy, dx in _AROUND]
        # Straight neighbours before diagonal ones, so that steps are not cut off.
        near = [one for one in near if one in cells]
        return sorted(near, key=lambda c: abs(c[0] - cell[0]) + abs(c[1] - cell[1]))

    ends = sorted(cell for cell in cells if len(beside(cell)) <= 1)
    start = ends[0] if ends else min(cells)
    way, seen = [start], {start}
    while True:
        ahead = [one for one in beside(way[-1]) if one not in seen]
        if not ahead:
            break
        way.append(ahead[0])
        seen.add(ahead[0])
    closed = not ends and max(abs(way[0][0] - way[-1][0]), abs(way[0][1] - way[-1][1])) <= 2
    return np.array(way, dtype=np.float64), closed


def _joined(ways: list[Array], step: float) -> list[Array]:
    """Strokes that go straight on across a crossing made one."""
    ways = list(ways)
    while True:
        best: tuple[float, int, int, bool, bool] | None = None
        for first in range(len(ways)):
            for second in range(first + 1, len(ways)):
                for back in (False, True):
                    for ahead in (False, True):
                        a = ways[first][::-1] if back else ways[first]
                        b = ways[second][::-1] if ahead else ways[second]
                        bend = _bend(a, b, step)
                        if bend < STRAIGHT and (best is None or bend < best[0]):
                            best = (bend, first, second, back, ahead)
        if best is None or len(ways) > 4 * MOST:
            return ways
        _, first, second, back, ahead = best
        a = ways[first][::-1] if back else ways[first]
        b = ways[second][::-1] if ahead else ways[second]
        ways = [way for n, way in enumerate(ways) if n not in (first, second)]
        ways.append(np.vstack((a, b)))


def _bend(a: Array, b: Array, step: float) -> float:
    """degrees by which b turns from a that ends where b begins; 180 where they do not meet."""
    if np.linalg.norm(b[0] - a[-1]) * step > ACROSS:
        return 180.0
    reach = max(4, round(4.0 / step))
    one, two = a[-1] - a[max(0, len(a) - reach)], b[min(reach, len(b)) - 1] - b[0]
    if not one.any() or not two.any():
        return 180.0
    cross = one[0] * two[1] - one[1] * two[0]
    return float(abs(np.degrees(np.arctan2(cross, one @ two))))


def _length(way: Array) -> float:
    return float(np.linalg.norm(np.diff(way, axis=0), axis=1).sum())
