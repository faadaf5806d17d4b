"""Cells of a picture in → closed rings round them, smooth, with few points."""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

type CellRing = NDArray[np.float64]
"""Points round something, the first not repeated; columns and rows."""

type CellMask = NDArray[np.bool_]


def rings_of(mask: CellMask, *, least: float = 12.0, off: float = 0.4) -> list[CellRing]:
    """Rings round the cells of a mask, those inside on the left; none of less than `least` cells.

    They run through the middles of the cells' sides, are smoothed by a cell, and keep within `off`
    cells of that with as few points as possible (Douglas and Peucker, Cartographica 10, 1973).
    """
    rows = np.flatnonzero(mask.any(1))
    if not len(rows):
        return []
    columns = np.flatnonzero(mask.any(0))
    low, left = rows[0], columns[0]
    part = mask[low : rows[-1] + 1, left : columns[-1] + 1]
    found = []
    for chain in _chains(part):
        ring = (chain + np.roll(chain, -1, axis=0)) / 2
        if abs(area_of(ring)) < least:
            continue
        ring = _smooth(_smooth(ring))
        ring = thinned(ring, off) + np.array([left, low])
        if len(ring) > 2:
            found.append(ring)
    return found


def lines_of(
    mask: CellMask, front: CellMask, *, least: float = 14.0, off: float = 0.5
) -> list[CellRing]:
    """Stretches of the rings round a mask whose cells of `front` lie inside: open lines of at
    least `least` cells."""
    rows = np.flatnonzero(mask.any(1))
    if not len(rows):
        return []
    columns = np.flatnonzero(mask.any(0))
    low, left = rows[0], columns[0]
    part = mask[low : rows[-1] + 1, left : columns[-1] + 1]
    wanted = front[low : rows[-1] + 1, left : columns[-1] + 1]
    found = []
    for chain in _chains(part):
        after = np.roll(chain, -1, axis=0)
        step = after - chain
        # The cell on the left of each side of a cell.
        cell = np.floor(
            (chain + after) / 2 + np.stack([-step[:, 1], step[:, 0]], axis=1) / 2
        ).astype(int)
        kept = wanted[cell[:, 1], cell[:, 0]]
        middle = (chain + after) / 2
        for start, end in _stretches(kept):
            line = np.take(middle, np.arange(start, end), axis=0, mode="wrap")
            if len(line) >= least:
                line = _smooth_line(_smooth_line(line))
                found.append(thinned_line(line, off) + np.array([left, low]))
    return found


def _stretches(kept: CellMask) -> list[tuple[int, int]]:
    """Runs of what is kept in a closed row, by first and one past the last; the last may wrap."""
    if kept.all():
        return [(0, len(kept))]
    first = int(np.flatnonzero(~kept)[0])
    turned = np.roll(kept, -first)
    change = np.flatnonzero(np.diff(np.concatenate([[False], turned, [False]]).astype(int)))
    return [(int(a) + first, int(b) + first) for a, b in change.reshape(-1, 2)]


def _smooth_line(line: CellRing) -> CellRing:
    if len(line) < 3:
        return line
    inner = (line[:-2] + 2 * line[1:-1] + line[2:]) / 4
    return np.concatenate([line[:1], inner, line[-1:]])


def area_of(ring: CellRing) -> float:
    """Signed area of a ring; positive counter-clockwise."""
    after = np.roll(ring, -1, axis=0)
    return float((ring[:, 0] * after[:, 1] - after[:, 0] * ring[:, 1]).sum() / 2)


def _chains(mask: CellMask) -> Iterator[CellRing]:
    """Corners of cells round each part of a mask, the mask on the left."""
    padded = np.pad(mask, 1)
    inner = padded[1:-1, 1:-1]
    width = mask.shape[1] + 1
    sides = []
    # Side of a cell by the neighbour beyond it: start corner, end corner.
    for beyond, start, end in (
        (padded[:-2, 1:-1], (0, 0), (0, 1)),
        (padded[1:-1, 2:], (0, 1), (1, 1)),
        (padded[2:, 1:-1], (1, 1), (1, 0)),
        (padded[1:-1, :-2], (1, 0), (0, 0)),
    ):
        r, c = np.nonzero(inner & ~beyond)
        sides.append(
            np.stack(
                [(r + start[0]) * width + c + start[1], (r + end[0]) * width + c + end[1]], axis=1
            )
        )
    pairs = np.concatenate(sides)
    follow: dict[int, int] = {}
    second: dict[int, int] = {}
    for start_corner, end_corner in pairs.tolist():
        if start_corner in follow:
            second[start_corner] = end_corner
        else:
            follow[start_corner] = end_corner
    while follow:
        first = next(iter(follow))
        chain = [first]
        before, here = first, _take(follow, second, first, None, width)
        while here != first:
            chain.append(here)
            before, here = here, _take(follow, second, here, before, width)
        points = np.array(chain)
        yield np.stack([points % width, points // width], axis=1).astype(float)


def _take(
    follow: dict[int, int], second: dict[int, int], here: int, before: int | None, width: int
) -> int:
    """The corner after `here`; where two ways go on, the one that turns left."""
    one = follow[here]
    other = second.pop(here, None)
    if other is None:
        del follow[here]
        return one
    if before is None:
        follow[here] = other
        return one
    step = here - before
    left = {1: width, width: -1, -1: -width, -width: 1}[step]
    if one - here == left:
        follow[here] = other
        return one
    follow[here] = one
    return other


def _smooth(ring: CellRing) -> CellRing:
    return np.asarray((np.roll(ring, 1, axis=0) + 2 * ring + np.roll(ring, -1, axis=0)) / 4)


def thinned(ring: CellRing, off: float) -> CellRing:
    """A ring with as few of its points as keep within `off` of all of them."""
    far = int(((ring - ring[0]) ** 2).sum(1).argmax())
    if far == 0:
        return ring[:0]
    closed = np.concatenate([ring, ring[:1]])
    keep = np.zeros(len(closed), dtype=bool)
    keep[[0, far, len(ring)]] = True
    _keep_far(closed, keep, [(0, far), (far, len(ring))], off)
    return np.asarray(ring[keep[:-1]])


def thinned_line(line: CellRing, off: float) -> CellRing:
    """The same of a line with two ends."""
    keep = np.zeros(len(line), dtype=bool)
    keep[[0, len(line) - 1]] = True
    _keep_far(line, keep, [(0, len(line) - 1)], off)
    return np.asarray(line[keep])


def _keep_far(line: CellRing, keep: CellMask, spans: list[tuple[int, int]], off: float) -> None:
    while spans:
        start, end = spans.pop()
        if end - start < 2:
            continue
        a, b = line[start], line[end]
        along = b - a
        length = float(np.hypot(along[0], along[1]))
        inner = line[start + 1 : end] - a
        if length > 1e-9:
            gap = np.abs(inner[:, 0] * along[1] - inner[:, 1] * along[0]) / length
        else:
            gap = np.hypot(inner[:, 0], inner[:, 1])
        worst = int(gap.argmax())
        if gap[worst] > off:
            keep[start + 1 + worst] = True
            spans += [(start, start + 1 + worst), (start + 1 + worst, end)]
