"""Lines from corner to corner of cells in → the same lines smoothed, with few points.

All lines of a picture at once: there are hundreds of them, and each step of arithmetic serves all.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

type CellRing = NDArray[np.float64]
"""Points round something, the first not repeated; columns and rows."""
type CellMask = NDArray[np.bool_]
type _Numbers = NDArray[np.int64]

SMOOTHED = 3
"""Rounds in which each point goes half of its way between its neighbours: steps of cells are gone,
and a corner is rounded by a cell. Our choice, looked at."""


def smooth_lines(lines: Sequence[CellRing], closed: Sequence[bool], off: float) -> list[CellRing]:
    """Each line through the middles of cells' sides, smoothed, within `off` cells of that with as
    few points as possible (Douglas and Peucker, Cartographica 10, 1973). Ends stay; a ring that is
    but a point has none.
    """
    if not lines:
        return []
    rings = np.array(closed, dtype=bool)
    points, count = _through_sides(lines, rings)
    start = np.cumsum(count) - count
    before, after = np.arange(-1, len(points) - 1), np.arange(1, len(points) + 1)
    first, last = start, start + count - 1
    # Rings go on round; ends of open lines have no neighbour but themselves, and stay.
    before[first[rings]], after[last[rings]] = last[rings], first[rings]
    for end in (first[~rings], last[~rings]):
        before[end] = after[end] = end
    for _ in range(SMOOTHED):
        points = (points[before] + 2 * points + points[after]) / 4
    return _thinned(points, start, count, rings, off)


def _through_sides(lines: Sequence[CellRing], rings: CellMask) -> tuple[CellRing, _Numbers]:
    """Middles of the sides of all lines, and the ends of open ones; how many points each has."""
    corners = np.concatenate(lines)
    size = np.array([len(line) for line in lines])
    start = np.cumsum(size) - size
    after = np.arange(1, len(corners) + 1)
    after[start + size - 1] = start
    middles = (corners + corners[after]) / 2
    count = size + ~rings
    owner, within = each(size)
    # The side that would close an open line is none; the line's own ends stand before and after.
    side = rings[owner] | (within < size[owner] - 1)
    place = np.cumsum(count) - count
    points = np.empty((int(count.sum()), 2))
    points[(place[owner] + within + ~rings[owner])[side]] = middles[side]
    points[place[~rings]] = corners[start[~rings]]
    points[(place + count - 1)[~rings]] = corners[(start + size - 1)[~rings]]
    return points, count


def _thinned(
    points: CellRing, start: _Numbers, count: _Numbers, rings: CellMask, off: float
) -> list[CellRing]:
    """Lines with as few of their points as keep within `off` of all of them."""
    # Of a ring the first point stands at its end once more, and it is parted at its farthest.
    owner, within = each(count + rings)
    at = start[owner] + within % count[owner]
    line = points[at]
    begin = np.cumsum(count + rings) - (count + rings)
    end = begin + count + rings - 1
    keep = np.zeros(len(line), dtype=bool)
    keep[begin] = keep[end] = True
    away = ((line - line[begin][owner]) ** 2).sum(1)
    _, far = _largest(away, begin)
    flat = rings & (away[far] == 0)
    halved = rings & ~flat
    keep[far[halved]] = True
    ones = np.concatenate([begin[~rings], begin[halved], far[halved]])
    others = np.concatenate([end[~rings], far[halved], end[halved]])
    _keep_far(line, keep, ones, others, off)
    keep[end[rings]] = False
    keep[flat[owner]] = False
    return np.split(line[keep], np.cumsum(np.add.reduceat(keep, begin))[:-1])


def _keep_far(line: CellRing, keep: CellMask, ones: _Numbers, others: _Numbers, off: float) -> None:
    """Of the points between each two kept ones keep the farthest from the straight line between
    them, and go on in both halves, until none is more than `off` away."""
    while True:
        inner = others - ones > 1
        ones, others = ones[inner], others[inner]
        if not len(ones):
            return
        span, step = each(others - ones - 1)
        number = ones[span] + 1 + step
        along = line[others] - line[ones]
        length = np.hypot(along[:, 0], along[:, 1])
        away = line[number] - line[ones][span]
        cross = np.abs(away[:, 0] * along[span, 1] - away[:, 1] * along[span, 0])
        straight = length[span] > 1e-9
        gap = np.where(
            straight,
            cross / np.where(straight, length[span], 1.0),
            np.hypot(away[:, 0], away[:, 1]),
        )
        most, which = _largest(gap, np.flatnonzero(step == 0))
        worst, wide = number[which], most > off
        keep[worst[wide]] = True
        ones, others = (
            np.concatenate([ones[wide], worst[wide]]),
            np.concatenate([worst[wide], others[wide]]),
        )


def _largest(values: NDArray[np.float64], begin: _Numbers) -> tuple[NDArray[np.float64], _Numbers]:
    """The largest value of each run that begins there, and where it stands first."""
    most = np.maximum.reduceat(values, begin)
    size = np.diff(np.append(begin, len(values)))
    is_most = np.flatnonzero(values == np.repeat(most, size))
    return most, is_most[np.searchsorted(is_most, begin)]


def each(count: _Numbers) -> tuple[_Numbers, _Numbers]:
    """For counts 2, 3: 0 0 1 1 1, and how far in each: 0 1 0 1 2."""
    owner = np.repeat(np.arange(len(count)), count)
    start = np.cumsum(count) - count
    return owner, np.arange(len(owner)) - start[owner]
