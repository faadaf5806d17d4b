"""Measured places along a ring → which of them are corners."""

import numpy as np

from guidegen.bench.photos.arrays import Array, BenchMask

NEAR, FAR = 1.2, 5.0
"""mm before and after a place between which its direction is taken: nearer, a lens rounds it."""
TURN = 14.0
"""degrees from which on a bend is a corner. Our choice: an arc of 20 mm turns as much in 5 mm."""


def find_corners(points: Array, spacing: float, *, closed: bool) -> BenchMask:
    """Places where the direction turns at once."""
    turn = turns(points, spacing, closed=closed)
    far = round(FAR / spacing)
    # What an even bend would turn from one half of the window to the other is no corner.
    even = _even_bend(turn, far, closed=closed)
    sharp = np.abs(turn) - np.minimum(even, np.abs(turn))
    found = np.zeros(len(points), bool)
    order = np.argsort(-sharp, kind="stable")
    taken = np.zeros(len(points), bool)
    for place in order:
        if sharp[place] < TURN:
            break
        if taken[place]:
            continue
        found[_outermost(points, int(place), round(2.0 / spacing), far, closed=closed)] = True
        around = np.arange(place - far, place + far + 1)
        taken[around % len(points) if closed else np.clip(around, 0, len(points) - 1)] = True
    return found


def _outermost(points: Array, place: int, reach: int, far: int, *, closed: bool) -> int:
    """The place near a bend that stands farthest from the chord under it."""
    count = len(points)
    around = np.arange(place - reach, place + reach + 1)
    ends = np.array([place - far, place + far])
    if closed:
        around, ends = around % count, ends % count
    else:
        around, ends = around.clip(0, count - 1), ends.clip(0, count - 1)
    start, way = points[ends[0]], points[ends[1]] - points[ends[0]]
    away = np.abs((points[around] - start) @ np.array([-way[1], way[0]]))
    return int(around[int(away.argmax())])


def turns(points: Array, spacing: float, *, closed: bool) -> Array:
    """degrees by which the direction turns at each place, from mm before to mm after it."""
    near, far = max(1, round(NEAR / spacing)), round(FAR / spacing)
    count = len(points)
    pads = far
    pad = ((pads, pads), (0, 0))
    line = np.pad(points, pad, mode="wrap") if closed else np.pad(points, pad, mode="edge")
    at = np.arange(count) + pads
    before = line[at - near] - line[at - far]
    after = line[at + far] - line[at + near]
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    dot = (before * after).sum(axis=1)
    turn = np.degrees(np.arctan2(cross, dot))
    if not closed:
        turn[:far] = turn[-far:] = 0.0
    return np.asarray(turn)


def _even_bend(turn: Array, far: int, *, closed: bool) -> Array:
    """The smaller of the turns a window before and after: what a bend has that goes on."""
    size = np.abs(turn)
    if closed:
        return np.asarray(np.minimum(np.roll(size, far), np.roll(size, -far)))
    padded = np.pad(size, far, mode="edge")
    return np.asarray(np.minimum(padded[: len(size)], padded[2 * far :]))
