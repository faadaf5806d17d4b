"""Flat sheets, seams and what lies under them → how they lie in space, keeping their lengths.

Projective dynamics (Bouaziz and others, ACM Trans. Graph. 33(4), 2014): each side of a
triangle wants its flat length, each point its distance from what is under it, both edges of a
seam one place, the whole no sudden change of its bend. One sparse matrix is solved repeatedly.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.records import Points3
from guidegen.assembly.sheets.flat import FlatMesh
from guidegen.assembly.sheets.made import sides_of
from guidegen.assembly.sheets.solids import point_normals

SIDES, NEAR, SEAM, BEND = 1.0, 0.02, 4.0, 6.0
"""Weights of lengths, of the distance from what is under, of seams and of an even bend. Our choice,
looked at: lengths within about a per cent, seams within a tenth of a millimetre."""
PUSH = 2.5
"""How much harder what lies too deep is pushed out than what stands off is drawn in."""
SOFT = 0.1
"""Weight of an even bend at the end: first a sheet takes its shape, then its lengths."""
ROUNDS, SETTLING = 70, 50
LOOK = 4
"""Rounds after which the nearest points of what is under are looked for again."""


@dataclass(frozen=True, eq=False)
class Loose:
    """A sheet before it is draped."""

    mesh: FlatMesh
    start: Points3
    """Where its points are to begin with."""
    thickness: float


@dataclass(frozen=True, eq=False)
class Under:
    """What sheets lie on: points of its surface, unit normals, and mm that the foam keeps off."""

    points: Points3
    normals: Points3
    off: NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Sewn:
    """Points of two sheets that meet."""

    first: int
    first_points: NDArray[np.int64]
    second: int
    second_points: NDArray[np.int64]


def drape(
    sheets: Sequence[Loose], seams: Sequence[Sewn], under: Under, hug: float = 1.0
) -> list[Points3]:
    """Points of all sheets where they come to rest.

    `hug` is how much of its way to what is under it a point is drawn: 1 lies on it everywhere, a
    tenth bridges hollows as a stiff cap does.
    """
    from scipy.sparse import csc_matrix  # noqa: PLC0415 - heavy, and only where there is a view
    from scipy.sparse.linalg import splu  # noqa: PLC0415 - the same
    from scipy.spatial import cKDTree  # noqa: PLC0415 - the same

    starts = np.concatenate([[0], np.cumsum([len(sheet.start) for sheet in sheets])])
    points = np.concatenate([sheet.start for sheet in sheets])
    sides = np.concatenate(
        [sides_of(sheet.mesh) + start for sheet, start in zip(sheets, starts, strict=False)]
    )
    rest = np.concatenate([_lengths(sheet.mesh.points, sides_of(sheet.mesh)) for sheet in sheets])
    half = np.concatenate([np.full(len(sheet.start), sheet.thickness / 2) for sheet in sheets])
    pairs = np.concatenate(
        [
            np.stack([s.first_points + starts[s.first], s.second_points + starts[s.second]], axis=1)
            for s in seams
        ]
        or [np.zeros((0, 2), dtype=np.int64)]
    )
    number = np.arange(len(sides))
    ones = np.ones(len(sides))
    apart = csc_matrix(
        (
            np.concatenate([ones, -ones]),
            (np.concatenate([number, number]), np.concatenate([sides[:, 1], sides[:, 0]])),
        ),
        shape=(len(sides), len(points)),
    )
    together = (apart.T * SIDES).tocsr()
    stiff, soft = (
        splu(_matrix(len(points), apart, pairs, sheets, starts, bend=bend)).solve
        for bend in (BEND, SOFT)
    )
    tree = cKDTree(under.points)
    nearest = np.zeros(len(points), dtype=np.int64)
    for turn in range(ROUNDS + SETTLING):
        solve = stiff if turn < ROUNDS else soft
        if turn % LOOK == 0:
            _, nearest = tree.query(points)
        way = points[sides[:, 1]] - points[sides[:, 0]]
        length = np.sqrt((way**2).sum(1))
        right = together @ (way * (rest / np.maximum(length, 1e-9))[:, None])
        away = ((points - under.points[nearest]) * under.normals[nearest]).sum(1)
        over = away - under.off[nearest] - half
        pull = np.where(over > 0, hug * over, PUSH * over)
        right += NEAR * (points - under.normals[nearest] * pull[:, None])
        points = solve(right)
    return [points[a:b] for a, b in pairwise(starts)]


def _lengths(points: NDArray[np.float64], sides: NDArray[np.int64]) -> NDArray[np.float64]:
    return np.asarray(np.sqrt(((points[sides[:, 1]] - points[sides[:, 0]]) ** 2).sum(1)))


def _matrix(
    count: int,
    apart: Any,  # noqa: ANN401 - a sparse matrix of scipy, which has no types
    pairs: NDArray[np.int64],
    sheets: Sequence[Loose],
    starts: NDArray[np.int64],
    *,
    bend: float,
) -> Any:  # noqa: ANN401 - the same
    from scipy.sparse import coo_matrix, csc_matrix, identity  # noqa: PLC0415 - heavy, only for views

    total = NEAR * identity(count, format="csc") + SIDES * (apart.T @ apart)
    if len(pairs):
        number, ones = np.arange(len(pairs)), np.ones(len(pairs))
        met = coo_matrix(
            (
                np.concatenate([ones, -ones]),
                (np.concatenate([number, number]), np.concatenate([pairs[:, 0], pairs[:, 1]])),
            ),
            shape=(len(pairs), count),
        ).tocsc()
        total = total + SEAM * (met.T @ met)
    rows, columns, values = [], [], []
    for sheet, start in zip(sheets, starts, strict=False):
        r, c, v = _evenness(sheet.mesh)
        rows.append(r + start)
        columns.append(c + start)
        values.append(v)
    even = coo_matrix(
        (np.concatenate(values), (np.concatenate(rows), np.concatenate(columns))),
        shape=(count, count),
    ).tocsc()
    twice = even @ even
    return csc_matrix(total + bend * (even.T @ even) * 0.02 + bend * (twice.T @ twice))


def _evenness(
    mesh: FlatMesh,
) -> tuple[NDArray[np.int64], NDArray[np.int64], NDArray[np.float64]]:
    """Weights that give 0 for every point of a flat mesh: mean of neighbours (Floater's mean value
    coordinates, Comput. Aided Geom. Design 20, 2003) less the point."""
    at_rim = np.zeros(len(mesh.points), dtype=bool)
    for rim in mesh.rims:
        at_rim[rim] = True
    p = mesh.points
    rows, columns, values = [], [], []
    for k in range(3):
        here, one, two = (mesh.triangles[:, (k + j) % 3] for j in range(3))
        a, b = p[one] - p[here], p[two] - p[here]
        la, lb = np.hypot(a[:, 0], a[:, 1]), np.hypot(b[:, 0], b[:, 1])
        cosine = np.clip((a * b).sum(1) / (la * lb), -1, 1)
        half = np.tan(np.arccos(cosine) / 2)
        rows += [here, here]
        columns += [one, two]
        values += [half / la, half / lb]
    r, c, v = np.concatenate(rows), np.concatenate(columns), np.concatenate(values)
    keep = ~at_rim[r]
    r, c, v = r[keep], c[keep], v[keep]
    total = np.zeros(len(p))
    np.add.at(total, r, v)
    v = v / total[r]
    inner = np.flatnonzero(~at_rim)
    along = _rim_evenness(mesh, at_rim)
    return (
        np.concatenate([r, inner, along[0]]),
        np.concatenate([c, inner, along[1]]),
        np.concatenate([v, -np.ones(len(inner)), along[2]]),
    )


def _rim_evenness(
    mesh: FlatMesh, at_rim: NDArray[np.bool_]
) -> tuple[NDArray[np.int64], NDArray[np.int64], NDArray[np.float64]]:
    """The same along rims: each point by both its neighbours there and one within (barycentric), so
    that an edge that is longer than its way bulges and does not crumple. Corners are left free."""
    within: dict[int, int] = {}
    for one, two in sides_of(mesh).tolist():
        if at_rim[one] != at_rim[two]:
            edge, other = (one, two) if at_rim[one] else (two, one)
            within.setdefault(edge, other)
    found: list[tuple[int, int, float]] = []
    for rim in mesh.rims:
        for before, here, after in zip(np.roll(rim, 1), rim, np.roll(rim, -1), strict=True):
            a, p, b = (mesh.points[k] for k in (before, here, after))
            if int(here) not in within or _turned(p - a, b - p) > RIM_CORNER:
                continue
            c = mesh.points[within[int(here)]]
            area = _cross(b - a, c - a)
            if abs(area) < 1e-6:
                continue
            u, v = _cross(b - p, c - p) / area, _cross(c - p, a - p) / area
            shares = ((before, u), (after, v), (within[int(here)], 1 - u - v), (here, -1.0))
            found += [(int(here), int(other), float(share)) for other, share in shares]
    rows, columns, values = zip(*found, strict=True) if found else ((), (), ())
    return (
        np.array(rows, dtype=np.int64),
        np.array(columns, dtype=np.int64),
        np.array(values, dtype=np.float64),
    )


RIM_CORNER = np.radians(40.0)
"""Turn of a rim from which on it has a corner. Our choice."""


def _cross(one: NDArray[np.float64], other: NDArray[np.float64]) -> float:
    return float(one[0] * other[1] - one[1] * other[0])


def _turned(one: NDArray[np.float64], other: NDArray[np.float64]) -> float:
    return abs(float(np.arctan2(_cross(one, other), float((one * other).sum()))))


def outer_points(
    middle: Points3, triangles: NDArray[np.int64], thickness: float
) -> tuple[Points3, Points3]:
    """Points of the outer face of a draped sheet and its normals, for what lies on it."""
    normals = point_normals(middle, triangles)
    return middle + normals * (thickness / 2), normals
