"""Cells of a picture in → the same without specks: what is a cell wide belongs to its neighbour."""

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.views.contours import NOTHING, CellCodes

ROUNDS = 2
ALIKE = 2
"""Of the eight cells around one that must show the same for it to stay: one of a row a cell wide
has two, the corner of a region three."""
BESIDE = tuple((row, column) for row in (-1, 0, 1) for column in (-1, 0, 1) if row or column)


def tidied(codes: CellCodes) -> CellCodes:
    """The same numbers, but for cells that stand alone or in a row: they show what most of their
    neighbours do. Where faces touch, rounding decides in each cell which is before the other."""
    for _ in range(ROUNDS):
        around = np.pad(codes, 1, constant_values=NOTHING)
        rows, columns = codes.shape
        alike = np.zeros(codes.shape, dtype=np.uint8)
        for row, column in BESIDE:
            alike += around[1 + row : 1 + row + rows, 1 + column : 1 + column + columns] == codes
        y, x = np.nonzero(alike <= ALIKE)
        if not len(y):
            return codes
        near = np.stack([around[y + 1 + row, x + 1 + column] for row, column in BESIDE], axis=1)
        codes = codes.copy()
        codes[y, x] = _commonest(near)
    return codes


def _commonest(near: NDArray[np.int64]) -> NDArray[np.int64]:
    """The number that is most often in each row; of several the first."""
    votes = (near[:, :, None] == near[:, None, :]).sum(2)
    return np.asarray(near[np.arange(len(near)), votes.argmax(1)])


def without_specks(codes: CellCodes, least: float) -> CellCodes:
    """The same numbers without regions of less than `least` cells: each row of such a region shows
    what is beside it."""
    from scipy.sparse import coo_matrix  # noqa: PLC0415 - heavy, and only where there is a view
    from scipy.sparse.csgraph import connected_components  # noqa: PLC0415 - the same

    fresh = np.ones(codes.shape, dtype=bool)
    fresh[:, 1:] = codes[:, 1:] != codes[:, :-1]
    run = np.cumsum(fresh.ravel()).reshape(codes.shape) - 1
    first = np.flatnonzero(fresh.ravel())
    length = np.diff(np.append(first, codes.size))
    # Runs above one another that show the same belong together; one cell of each pair says so.
    meet = (codes[1:] == codes[:-1]) & (fresh[1:] | fresh[:-1])
    one, other = run[1:][meet], run[:-1][meet]
    count = len(first)
    graph = coo_matrix((np.ones(len(one), dtype=bool), (one, other)), shape=(count, count))
    number, region = connected_components(graph, directed=False)
    area = np.bincount(region, weights=length, minlength=number)
    small = area[region] < least
    if not small.any():
        return codes
    # The last run to the left that stays; at the left rim nothing is seen.
    stays = np.maximum.accumulate(np.where(small, -1, np.arange(count)))
    values = codes.ravel()[first]
    rows = first // codes.shape[1]
    beside = (stays >= 0) & (rows[np.maximum(stays, 0)] == rows)
    kept = np.where(beside, values[np.maximum(stays, 0)], NOTHING)
    return np.asarray(np.where(small, kept, values)[run])


def relit(light: NDArray[np.float64], codes: CellCodes, ids: CellCodes) -> NDArray[np.float64]:
    """Light of cells that show something else than was drawn there: that of their neighbours of the
    same number."""
    y, x = np.nonzero(codes != ids)
    light, known = light.copy(), np.pad(codes == ids, 1)
    around = np.pad(codes, 1, constant_values=NOTHING)
    for _ in range(FILLED):
        if not len(y):
            break
        lit, count = np.zeros(len(y)), np.zeros(len(y))
        there = np.pad(light, 1)
        for row, column in BESIDE:
            near = y + 1 + row, x + 1 + column
            alike = known[near] & (around[near] == codes[y, x])
            lit += np.where(alike, there[near], 0.0)
            count += alike
        found = count > 0
        light[y[found], x[found]] = lit[found] / count[found]
        known[y[found] + 1, x[found] + 1] = True
        y, x = y[~found], x[~found]
    return light


FILLED = 12
"""Cells that such a region is deep at most."""


def evened(light: NDArray[np.float64], codes: CellCodes, rounds: int) -> NDArray[np.float64]:
    """Light in which each cell takes the mean of itself and its neighbours in the same region, so
    often as said: grain is gone, edges of regions stay."""
    same_right = (codes[:, 1:] == codes[:, :-1]).astype(np.float64)
    same_up = (codes[1:] == codes[:-1]).astype(np.float64)
    weight = np.ones(codes.shape)
    weight[:, 1:] += same_right
    weight[:, :-1] += same_right
    weight[1:] += same_up
    weight[:-1] += same_up
    for _ in range(rounds):
        total = light.copy()
        total[:, 1:] += same_right * light[:, :-1]
        total[:, :-1] += same_right * light[:, 1:]
        total[1:] += same_up * light[:-1]
        total[:-1] += same_up * light[1:]
        light = total / weight
    return light
