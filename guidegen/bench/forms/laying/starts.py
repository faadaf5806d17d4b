"""A sheet in → a first layout: conformal, or convex where that folds over."""

from collections.abc import Callable

import numpy as np
from scipy.sparse import coo_matrix, csc_matrix, diags, identity
from scipy.sparse.csgraph import dijkstra
from scipy.sparse.linalg import splu

from guidegen.bench.forms.laying.sheets import PanelSheet
from guidegen.bench.forms.records import Indices, Numbers


def conformal(sheet: PanelSheet) -> Numbers:
    """Least squares conformal map with two far points of the border held, at true area."""
    count, rows = sheet.count, np.arange(len(sheet.corners))
    after, before = np.roll(sheet.shapes, -1, axis=1), np.roll(sheet.shapes, -2, axis=1)
    way = (before - after) / np.sqrt(2 * sheet.areas)[:, None, None]
    row = np.repeat(rows, 3)
    column = sheet.corners.ravel()
    real, imaginary = way[:, :, 0].ravel(), way[:, :, 1].ravel()
    half = len(rows)
    matrix = coo_matrix(
        (
            np.concatenate((real, -imaginary, imaginary, real)),
            (
                np.concatenate((row, row, row + half, row + half)),
                np.concatenate((column, column + count, column, column + count)),
            ),
        ),
        shape=(2 * half, 2 * count),
    ).tocsc()
    ring = np.unique(sheet.border)
    held = _far_apart(sheet, ring)
    fixed = np.array([held[0], held[1], held[0] + count, held[1] + count])
    free = np.setdiff1d(np.arange(2 * count), fixed)
    values = np.array([0.0, 1.0, 0.0, 0.0])
    free_part, right = matrix[:, free], -(matrix[:, fixed] @ values)
    solved = np.zeros(2 * count)
    solved[fixed] = values
    solved[free] = factor(free_part.T @ free_part)(free_part.T @ right)
    flat = solved.reshape(2, count).T
    corners = flat[sheet.corners]
    one, two = corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0]
    area = abs(float(np.sum(one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0]))) / 2
    return np.asarray(flat * np.sqrt(float(sheet.areas.sum()) / max(area, 1e-12)))


def _far_apart(sheet: PanelSheet, ring: Indices) -> tuple[int, int]:
    """Two points of the border that are far from one another along the panel's sides."""
    one, two = sheet.corners.ravel(), np.roll(sheet.corners, -1, axis=1).ravel()
    sides = np.linalg.norm(np.roll(sheet.shapes, -1, axis=1) - sheet.shapes, axis=2).ravel()
    graph = csc_matrix((sides, (one, two)), shape=(sheet.count, sheet.count))
    first = int(ring[np.argmax(dijkstra(graph, directed=False, indices=int(ring[0]))[ring])])
    away = dijkstra(graph, directed=False, indices=first)[ring]
    second = int(ring[np.argmax(away)])
    return first, second if second != first else int(ring[ring != first][0])


def convex(sheet: PanelSheet) -> Numbers | None:
    """Tutte's map to a circle, at true area; None where a panel has several borders."""
    ring = ring_of(sheet.border)
    if ring is None:
        return None
    order, lengths = ring, dict(zip(map(tuple, sheet.border.tolist()), sheet.lengths, strict=True))
    sizes = np.array(
        [lengths[one, two] for one, two in zip(order, [*order[1:], order[0]], strict=True)]
    )
    angle = 2 * np.pi * np.concatenate(([0.0], np.cumsum(sizes)[:-1])) / sizes.sum()
    radius = np.sqrt(float(sheet.areas.sum()) / np.pi)
    flat = np.zeros((sheet.count, 2))
    flat[order] = radius * np.column_stack((np.cos(angle), np.sin(angle)))
    inner = np.setdiff1d(np.arange(sheet.count), order)
    if len(inner):
        one, two = sheet.corners.ravel(), np.roll(sheet.corners, -1, axis=1).ravel()
        links = coo_matrix((np.ones(len(one)), (one, two)), shape=(sheet.count,) * 2).tocsr()
        links = (links + links.T > 0).astype(float)
        laplace = (diags(np.asarray(links.sum(axis=1)).ravel()) - links).tocsr()[inner]
        solve = factor(laplace[:, inner].tocsc())
        right = -(laplace[:, order] @ flat[order])
        flat[inner] = np.column_stack((solve(right[:, 0]), solve(right[:, 1])))
    return flat


def ring_of(border: Indices) -> list[int] | None:
    """Points along the only border, in the order of its sides; None where there are several."""
    nexts = dict(border.tolist())
    start = place = int(border[0, 0])
    order = [start]
    while (place := nexts[place]) != start:
        order.append(place)
        if len(order) > len(border):
            return None
    return order if len(order) == len(border) else None


def factor(matrix: csc_matrix) -> Callable[[Numbers], Numbers]:
    """What solves equations of a symmetric matrix, whose zero directions are held a little."""
    small = 1e-12 * float(np.abs(matrix.diagonal()).max() or 1.0)
    matrix = (matrix + small * identity(matrix.shape[0], format="csc")).tocsc()
    solver = splu(
        matrix, permc_spec="MMD_AT_PLUS_A", diag_pivot_thresh=0.0, options={"SymmetricMode": True}
    )
    return lambda right: np.asarray(solver.solve(right))
