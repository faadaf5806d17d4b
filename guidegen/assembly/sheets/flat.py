"""A flat outline with holes in → triangles with points inside, so that it can be bent."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import ceil, sqrt

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.records import Triangles
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Edge, Run

type Points2 = NDArray[np.float64]

SPACING = 12.0
"""mm between points. Our choice: a bend of 80 mm radius then keeps within 0.3 mm of its curve."""
CORNER, BEND_STEP = 30.0, 12.0
"""degrees by which an edge turns at a corner, and from point to point of a bend at most."""
CLOSEST = 5.0
"""How many times closer points stand in a bend than along a straight edge at most."""
SAME = 0.02
"""mm; points nearer to one another are one."""
LEAST = 1e-4
"""mm² of a triangle that counts."""


@dataclass(frozen=True, eq=False)
class FlatMesh:
    """Triangles of a flat outline."""

    points: Points2
    triangles: Triangles
    rims: tuple[NDArray[np.int64], ...]
    """Point numbers round the outline (counter-clockwise), then round each hole."""
    edges: Mapping[str, NDArray[np.int64]] = field(default_factory=dict)
    """Point numbers along each named edge, in the order of the outline."""


def mesh_of(
    edges: Sequence[Edge],
    holes: Sequence[Run] = (),
    *,
    spacing: float = SPACING,
    counts: Mapping[str, int] | None = None,
    inside: Sequence[tuple[float, float]] = (),
) -> FlatMesh | None:
    """The triangles of an outline; None where it has none.

    `counts` says into how many parts an edge is divided, evenly by length: both edges of a seam
    into as many. `inside` are points that must be there, such as those of a fold.
    """
    rim: list[tuple[float, float]] = []
    spans: dict[str, tuple[int, int]] = {}
    for edge in edges:
        points = _edge_points(edge.run, spacing, (counts or {}).get(edge.name))
        spans[edge.name] = (len(rim), len(rim) + len(points) - 1)
        rim += points[:-1]
    rings = [np.array(rim)]
    rings += [np.array(_ring_points(hole, spacing)) for hole in holes]
    if len(rim) < 3:
        return None
    whole = np.concatenate([*rings, _grid(rings, spacing, inside)])
    triangles = _triangles(whole, rings)
    if not len(triangles):
        return None
    named = {name: np.arange(start, end + 1) % len(rim) for name, (start, end) in spans.items()}
    return FlatMesh(whole, triangles, boundary(triangles, whole), named)


def _edge_points(run: Run, spacing: float, count: int | None) -> list[tuple[float, float]]:
    """Points along an edge, its end included: at its corners, and evenly between them, closer in
    bends, whatever the segments that it was drawn or graded with."""
    if count is not None:
        return even_points(flatten(run), count)
    line = np.array(flatten(run))
    steps = np.diff(line, axis=0)
    line = line[np.concatenate([[True], (steps**2).sum(1) > SAME**2])]
    if len(line) < 2:
        return [(float(x), float(y)) for x, y in (line[0], line[0])]
    turns = _turns(line)
    corners = [0, *(np.flatnonzero(turns > CORNER) + 1).tolist(), len(line) - 1]
    bends = np.concatenate([[0.0], np.where(turns > CORNER, 0.0, turns), [0.0]])
    found = [(float(line[0, 0]), float(line[0, 1]))]
    for start, end in pairwise(corners):
        found += _between_corners(line[start : end + 1], bends[start : end + 1], spacing)
    return found


def _between_corners(
    line: Points2, bends: NDArray[np.float64], spacing: float
) -> list[tuple[float, float]]:
    """Points along a line without corners, its start left out; `bends` are degrees at points."""
    steps = np.sqrt((np.diff(line, axis=0) ** 2).sum(1))
    bent = (bends[:-1] + bends[1:]) / 2 / BEND_STEP
    parts = np.minimum(np.maximum(steps / spacing, bent), steps * CLOSEST / spacing)
    along = np.concatenate([[0.0], np.cumsum(parts)])
    wanted = np.linspace(0.0, along[-1], max(1, ceil(along[-1] - 1e-6)) + 1)[1:]
    x, y = (np.interp(wanted, along, line[:, k]) for k in range(2))
    return [(float(a), float(b)) for a, b in zip(x, y, strict=True)]


def _turns(line: Points2) -> NDArray[np.float64]:
    """degrees by which a line turns at each of its inner points."""
    steps = np.diff(line, axis=0)
    one, two = steps[:-1], steps[1:]
    cross = one[:, 0] * two[:, 1] - one[:, 1] * two[:, 0]
    return np.asarray(np.degrees(np.abs(np.arctan2(cross, (one * two).sum(1)))))


def _ring_points(run: Run, spacing: float) -> list[tuple[float, float]]:
    return _edge_points(run, spacing, None)[:-1]


def even_points(line: Sequence[tuple[float, float]], count: int) -> list[tuple[float, float]]:
    """`count` + 1 points along a line, evenly by length."""
    points = np.array(line)
    steps = np.sqrt((np.diff(points, axis=0) ** 2).sum(1))
    along = np.concatenate([[0.0], np.cumsum(steps)])
    wanted = np.linspace(0.0, along[-1], count + 1)
    return [
        (float(x), float(y))
        for x, y in zip(
            np.interp(wanted, along, points[:, 0]),
            np.interp(wanted, along, points[:, 1]),
            strict=True,
        )
    ]


def _grid(
    rings: Sequence[Points2], spacing: float, inside: Sequence[tuple[float, float]]
) -> Points2:
    """Points of a triangular grid within the outline, none too near to a rim or a given point."""
    low, high = rings[0].min(0), rings[0].max(0)
    rise = spacing * sqrt(3) / 2
    rows = np.arange(-ceil((high[1] - low[1]) / 2 / rise), ceil((high[1] - low[1]) / 2 / rise) + 1)
    columns = np.arange(
        -ceil((high[0] - low[0]) / 2 / spacing) - 1, ceil((high[0] - low[0]) / 2 / spacing) + 2
    )
    middle = (low + high) / 2
    x = (columns[None, :] + 0.5 * (rows[:, None] % 2)) * spacing + middle[0]
    y = np.broadcast_to(rows[:, None] * rise + middle[1], x.shape)
    points = np.stack([x.ravel(), y.ravel()], axis=1)
    points = points[within(points, rings)]
    given = np.array(inside, dtype=float).reshape(-1, 2)
    if len(given):
        given = given[within(given, rings)]
    near = np.concatenate([*rings, given])
    keep = np.ones(len(points), dtype=bool)
    for start in range(0, len(points), 2000):
        some = points[start : start + 2000]
        gap = ((some[:, None, :] - near[None, :, :]) ** 2).sum(2).min(1)
        keep[start : start + 2000] = gap > (0.55 * spacing) ** 2
    return np.concatenate([given, points[keep]])


def within(points: Points2, rings: Sequence[Points2]) -> NDArray[np.bool_]:
    """Which points lie within rings, by the even-odd rule."""
    odd = np.zeros(len(points), dtype=bool)
    x, y = points[:, 0], points[:, 1]
    for ring in rings:
        after = np.roll(ring, -1, axis=0)
        for (x0, y0), (x1, y1) in zip(ring.tolist(), after.tolist(), strict=True):
            if y0 == y1:
                continue
            crosses = (y0 > y) != (y1 > y)
            odd ^= crosses & (x < (x1 - x0) * (y - y0) / (y1 - y0) + x0)
    return odd


def _triangles(points: Points2, rings: Sequence[Points2]) -> Triangles:
    """Delaunay triangles whose middle lies within the rings; none where points make none."""
    from scipy.spatial import Delaunay, QhullError  # noqa: PLC0415 - heavy, only for views

    try:
        found = Delaunay(points).simplices.astype(np.int64)
    except QhullError:
        return np.zeros((0, 3), dtype=np.int64)
    a, b, c = (points[found[:, k]] for k in range(3))
    area = (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
    found = np.where((area < 0)[:, None], found[:, [0, 2, 1]], found)
    keep = (np.abs(area) > LEAST) & within((a + b + c) / 3, rings)
    found = found[keep]
    # Each triangle begins with its least point, and they stand in order: the same on every machine.
    turn = found.argmin(1)
    found = np.take_along_axis(found, (turn[:, None] + np.arange(3)) % 3, axis=1)
    return np.asarray(found[np.lexsort((found[:, 2], found[:, 1], found[:, 0]))])


def boundary(triangles: Triangles, points: Points2) -> tuple[NDArray[np.int64], ...]:
    """Closed chains of edges that belong to one triangle alone, the longest first."""
    sides = np.concatenate([triangles[:, [0, 1]], triangles[:, [1, 2]], triangles[:, [2, 0]]])
    count = len(points)
    there = np.unique(sides[:, 0] * count + sides[:, 1])
    rim = there[~np.isin(there, sides[:, 1] * count + sides[:, 0])]
    follow: dict[int, list[int]] = {}
    for a, b in zip((rim // count).tolist(), (rim % count).tolist(), strict=True):
        follow.setdefault(a, []).append(b)
    chains: list[list[int]] = []
    while follow:
        start = min(follow)
        chain, here = [], start
        while here in follow:
            chain.append(here)
            nexts = follow[here]
            after = nexts.pop(0)
            if not nexts:
                del follow[here]
            here = after
            if here == start:
                break
        if len(chain) > 2:
            chains.append(chain)
    chains.sort(key=lambda chain: -_length(points[chain]))
    return tuple(np.array(chain, dtype=np.int64) for chain in chains)


def _length(ring: Points2) -> float:
    return float(np.sqrt(((np.roll(ring, -1, axis=0) - ring) ** 2).sum(1)).sum())


@dataclass(frozen=True, eq=False)
class Located:
    """Points of one flat mesh by the triangles of another that they lie in or next to."""

    triangle: NDArray[np.int64]
    weights: NDArray[np.float64]

    def value(self, values: NDArray[np.float64], triangles: Triangles) -> NDArray[np.float64]:
        """What the other mesh has there; beyond its edge as it goes on."""
        corners = values[triangles[self.triangle]]
        return np.asarray((corners * self.weights[:, :, None]).sum(1))


def locate(points: Points2, base: FlatMesh) -> Located:
    """Where points lie on another mesh: in a triangle, else in the one that is nearest."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy, and only where there is a view

    corners = base.points[base.triangles]
    near = min(NEAREST, len(corners))
    _, some = cKDTree(corners.mean(1)).query(points, k=near)
    some = np.asarray(some).reshape(len(points), near)
    a, b, c = (corners[some, k] for k in range(3))
    p = points[:, None, :]
    area = _turn(b - a, c - a)
    u, v = _turn(b - p, c - p) / area, _turn(c - p, a - p) / area
    w = 1 - u - v
    # How far outside, in mm: the least weight times the triangle's size.
    out = np.minimum(np.minimum(np.minimum(u, v), w), 0.0) * np.sqrt(np.abs(area))
    best = np.argmax(out, axis=1)
    rows = np.arange(len(points))
    weights = np.stack([u[rows, best], v[rows, best], w[rows, best]], axis=1)
    return Located(some[rows, best], weights)


NEAREST = 12
"""Triangles by their middles among which a point's own is looked for."""


def _turn(one: Points2, other: Points2) -> NDArray[np.float64]:
    return np.asarray(one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0])
