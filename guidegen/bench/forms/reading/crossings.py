"""Triangles in → the pairs of them that pass through one another out.

A tree of boxes over the triangles in Morton order (Morton 1966) finds those that come near; then
each side of one is cut with the other (Möller and Trumbore 1997).
"""

import numpy as np

from guidegen.bench.forms.records import FaceMask, Indices, Numbers

LEAF = 4
"""Triangles in a box of the lowest level."""
MOST_PAIRS = 12_000_000
"""Pairs of boxes or triangles looked at, at one level. Our choice: a second of work."""
NEAR = 1e-7
"""Share of a side, or of a triangle, by which two must pass one another to count."""


class TooTangled(Exception):
    """So many triangles lie in one another's boxes that looking at all pairs takes too long."""


def crossing_pairs(points: Numbers, faces: Indices) -> Indices:
    """Pairs of faces that pass through one another. Raises TooTangled."""
    pairs = _near_pairs(points[faces].min(axis=1), points[faces].max(axis=1))
    found = []
    for start in range(0, len(pairs), 200_000):
        some = pairs[start : start + 200_000]
        found.append(some[_cross(points, faces[some[:, 0]], faces[some[:, 1]])])
    return np.concatenate(found) if found else np.zeros((0, 2), np.int64)


def _morton(middles: Numbers) -> Indices:
    """Place of each point along a curve that fills space: near ones are mostly near on it."""
    low, high = middles.min(axis=0), middles.max(axis=0)
    cells = ((middles - low) / max(float((high - low).max()), 1e-9) * 1023).astype(np.int64)
    key = np.zeros(len(middles), np.int64)
    for bit in range(10):
        for axis in range(3):
            key |= (cells[:, axis] >> bit & 1) << (3 * bit + axis)
    return key


def _near_pairs(low: Numbers, high: Numbers) -> Indices:
    """Pairs whose boxes overlap."""
    count = len(low)
    order = np.argsort(_morton((low + high) / 2), kind="stable")
    depth = max(0, int(np.ceil(np.log2(max(1, count / LEAF)))))
    leaves = 1 << depth
    size = -(-count // leaves)
    rows = np.full(leaves * size, -1)
    rows[:count] = order
    lows, highs = np.full((leaves * size, 3), np.inf), np.full((leaves * size, 3), -np.inf)
    lows[:count], highs[:count] = low[order], high[order]
    levels = [
        (lows.reshape(leaves, size, 3).min(axis=1), highs.reshape(leaves, size, 3).max(axis=1))
    ]
    while len(levels[0][0]) > 1:
        below_low, below_high = levels[0]
        levels.insert(
            0,
            (below_low.reshape(-1, 2, 3).min(axis=1), below_high.reshape(-1, 2, 3).max(axis=1)),
        )
    pairs = np.zeros((1, 2), np.int64)
    for box_low, box_high in levels[1:]:
        pairs = _overlapping(_below(pairs, 2), box_low, box_high)
    pairs = _overlapping(_below(pairs, size), lows, highs)
    pairs = np.sort(rows[pairs], axis=1)
    return np.asarray(pairs[(pairs[:, 0] >= 0) & (pairs[:, 0] != pairs[:, 1])], np.int64)


def _below(pairs: Indices, size: int) -> Indices:
    """All pairs of what the two of a pair hold; of a box with itself each pair once."""
    one, two = np.divmod(np.arange(size * size), size)
    if len(pairs) * size * size > MOST_PAIRS:
        raise TooTangled
    first = (pairs[:, :1] * size + one).ravel()
    second = (pairs[:, 1:] * size + two).ravel()
    kept = first <= second
    return np.stack((first[kept], second[kept]), axis=1)


def _overlapping(pairs: Indices, low: Numbers, high: Numbers) -> Indices:
    one, two = pairs[:, 0], pairs[:, 1]
    inside = (low[one] <= high[two]) & (low[two] <= high[one])
    return np.asarray(pairs[inside.all(axis=1)])


def _cross(points: Numbers, first: Indices, second: Indices) -> FaceMask:
    """Which of the pairs pass through one another; neighbours along an edge do not."""
    shared = (first[:, :, None] == second[:, None, :]).any(axis=2)
    found = np.zeros(len(first), bool)
    for sides, owner in ((first, second), (second, first)):
        for corner in range(3):
            one, two = sides[:, corner], sides[:, (corner + 1) % 3]
            # A side that ends on the other triangle does not pass through it.
            free = (owner != one[:, None]).all(axis=1) & (owner != two[:, None]).all(axis=1)
            free &= shared.sum(axis=1) < 2
            found[free] |= _pierced(points, one[free], two[free], owner[free])
    return found


def _pierced(points: Numbers, one: Indices, two: Indices, owner: Indices) -> FaceMask:
    start, way = points[one], points[two] - points[one]
    a, b, c = (points[owner[:, corner]] for corner in range(3))
    across = np.cross(way, c - a)
    bent = np.einsum("ij,ij->i", b - a, across)
    flat = np.abs(bent) < 1e-12
    bent = np.where(flat, 1.0, bent)
    away = start - a
    u = np.einsum("ij,ij->i", away, across) / bent
    other = np.cross(away, b - a)
    v = np.einsum("ij,ij->i", way, other) / bent
    t = np.einsum("ij,ij->i", c - a, other) / bent
    return np.asarray(
        ~flat & (u > NEAR) & (v > NEAR) & (u + v < 1 - NEAR) & (t > NEAR) & (t < 1 - NEAR)
    )
