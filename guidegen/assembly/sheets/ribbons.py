"""A way through space in → a strap or cord along it, as a sheet of its width."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.records import PlacedSheet, Points3, Row
from guidegen.assembly.sheets.flat import FlatMesh, boundary

PROUD = 0.4
"""mm between a strap and what it lies on, so that the picture knows which is in front."""
STEP = 4.0
"""mm between points along a strap. Our choice."""
SMOOTHED = 2
"""Rounds in which corners of its way are rounded. Our choice, looked at."""


@dataclass(frozen=True, slots=True)
class StrapBand:
    """What a strap is like."""

    part: str
    material: str
    width: float
    thickness: float
    """mm."""


def even_way(way: Points3, step: float = STEP) -> Points3:
    """Points of a way about `step` mm apart."""
    length = np.concatenate([[0.0], np.cumsum(np.sqrt((np.diff(way, axis=0) ** 2).sum(1)))])
    count = max(2, int(np.ceil(length[-1] / step)) + 1)
    at = np.linspace(0.0, length[-1], count)
    return np.stack([np.interp(at, length, way[:, k]) for k in range(3)], axis=1)


def softened(way: Points3, rounds: int = SMOOTHED) -> Points3:
    """The same with round corners; its ends stay."""
    way = way.copy()
    for _ in range(rounds):
        way[1:-1] = (way[:-2] + 2 * way[1:-1] + way[2:]) / 4
    return way


def ribbon(band: StrapBand, way: Points3, normals: Points3, key: str) -> PlacedSheet:
    """A strap whose middle runs along a way; `normals` look out of its outer face."""
    tangent = unit(np.gradient(way, axis=0) + 1e-12)
    side = unit(np.cross(normals, tangent) + 1e-12)
    normals = np.cross(tangent, side)
    half = band.width / 2
    along = np.concatenate([[0.0], np.cumsum(np.sqrt((np.diff(way, axis=0) ** 2).sum(1)))])
    flat = np.concatenate([np.stack([along, np.full(len(way), y)], 1) for y in (-half, half)])
    count = len(way)
    k = np.arange(count - 1)
    triangles = np.concatenate(
        [
            np.stack([k, k + 1, k + 1 + count], axis=1),
            np.stack([k, k + 1 + count, k + count], axis=1),
        ]
    )
    return PlacedSheet(
        part=band.part,
        key=key,
        material=band.material,
        thickness=band.thickness,
        middle=np.concatenate([way - side * half, way + side * half]),
        normals=np.concatenate([normals, normals]),
        flat=flat,
        triangles=triangles,
        rims=boundary(triangles, flat),
    )


def fair_strap(band: StrapBand, way: Points3, normals: Points3, key: str) -> PlacedSheet:
    """A strap along a way with corners; `normals` look out of its outer face."""
    length = np.concatenate([[0.0], np.cumsum(np.sqrt((np.diff(way, axis=0) ** 2).sum(1)))])
    fine = even_way(way)
    at = np.linspace(0.0, length[-1], len(fine))
    out = np.stack([np.interp(at, length, normals[:, k]) for k in range(3)], axis=1)
    return ribbon(band, softened(fine), unit(softened(out) + 1e-9), key)


def ribbon_mesh(sheet: PlacedSheet) -> FlatMesh:
    """The flat mesh of a strap, for what lies on it."""
    return FlatMesh(sheet.flat, sheet.triangles, sheet.rims)


def pushed_out(way: Points3, surfaces: Sequence[tuple[Points3, Points3, float]]) -> Points3:
    """A way moved out of what it would pass through: of each surface its points, unit normals and
    mm that the way keeps off it."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy, and only where there is a view

    for points, normals, off in surfaces:
        _, nearest = cKDTree(points).query(way)
        over = ((way - points[nearest]) * normals[nearest]).sum(1)
        way = way + normals[nearest] * np.maximum(off - over, 0.0)[:, None]
    return way


def arch(start: Row, end: Row, up: Row, length: float, count: int = 60) -> Points3:
    """A loop of a length from one point to another, bulging upward: half an oval with upright
    sides, as a strap that is held up takes it."""
    middle, half = (start + end) / 2, (end - start) / 2
    t = np.linspace(np.pi, 0.0, count)
    x = np.sign(np.cos(t)) * np.abs(np.cos(t)) ** (2 / OVAL)
    y = np.abs(np.sin(t)) ** (2 / OVAL)

    def at(height: float) -> Points3:
        return np.asarray(middle + x[:, None] * half + (height * y)[:, None] * up)

    low, high = 0.0, length
    for _ in range(40):
        height = (low + high) / 2
        long = float(np.sqrt((np.diff(at(height), axis=0) ** 2).sum(1)).sum())
        low, high = (height, high) if long < length else (low, height)
    return at((low + high) / 2)


OVAL = 2.8
"""Exponent of that oval: squarer than an ellipse. Our choice, looked at."""
