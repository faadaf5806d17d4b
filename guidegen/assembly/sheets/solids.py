"""A sheet's middle face and normals in → its closed surface: outer face, inner face and walls."""

from weakref import WeakKeyDictionary

import numpy as np

from guidegen.assembly.records import (
    HALVES,
    INNER,
    OUTER,
    WALL,
    PlacedSheet,
    Points3,
    Solid,
    Triangles,
)

_SOLIDS: WeakKeyDictionary[PlacedSheet, Solid] = WeakKeyDictionary()
"""Surfaces of sheets that still exist: a thing is looked at from many sides."""


def thickened(sheet: PlacedSheet) -> Solid:
    """The closed surface of a sheet, half of its thickness to each side of its middle face."""
    solid = _SOLIDS.get(sheet)
    if solid is None:
        solid = _SOLIDS[sheet] = _thickened(sheet)
    return solid


def _thickened(sheet: PlacedSheet) -> Solid:
    half = sheet.normals * (sheet.thickness / 2)
    count = len(sheet.middle)
    points = np.concatenate([sheet.middle + half, sheet.middle - half])
    outer, inner = sheet.triangles, sheet.triangles[:, [0, 2, 1]] + count
    walls = []
    for ring in sheet.rims:
        rim, after = ring, np.roll(ring, -1)
        shown = ~(np.isin(rim, sheet.welded) & np.isin(after, sheet.welded))
        rim, after = rim[shown], after[shown]
        walls.append(np.stack([rim, rim + count, after + count], axis=1))
        walls.append(np.stack([rim, after + count, after], axis=1))
    wall = np.concatenate(walls) if walls else np.zeros((0, 3), dtype=np.int64)
    triangles = np.concatenate([outer, inner, wall])
    faces = np.repeat([OUTER, INNER, WALL], [len(outer), len(inner), len(wall)]).astype(np.int64)
    if sheet.halves is not None:
        # Each half is flat: its light is that of its triangles.
        faces[: 2 * len(outer)] += HALVES * np.concatenate([sheet.halves, sheet.halves])
        return Solid(points, triangles, faces)
    even = _even(sheet.normals, sheet.triangles) if sheet.light is None else sheet.light
    return Solid(points, triangles, faces, np.concatenate([even, -even]))


EVEN_ROUNDS, EVEN_WITHIN = 6, 0.96
"""Rounds in which normals take the mean of their neighbours', and the cosine of the angle up to
which they are neighbours' at all: a fold stays sharp. Our choice: grain of a mesh is no shape."""


def _even(normals: Points3, triangles: Triangles) -> Points3:
    """Normals for light: those of a bent sheet without the grain of its triangles."""
    one = np.concatenate([triangles[:, k] for k in (0, 1, 2, 1, 2, 0)])
    other = np.concatenate([triangles[:, k] for k in (1, 2, 0, 0, 1, 2)])
    for _ in range(EVEN_ROUNDS):
        near = (normals[one] * normals[other]).sum(1) > EVEN_WITHIN
        total = normals.copy()
        for k in range(3):
            total[:, k] += np.bincount(one[near], normals[other[near], k], minlength=len(normals))
        normals = total / np.maximum(np.sqrt((total**2).sum(1, keepdims=True)), 1e-12)
    return normals


def face_normals(points: Points3, triangles: Triangles) -> Points3:
    """Normals of triangles, as long as twice their areas."""
    a, b, c = (points[triangles[:, k]] for k in range(3))
    return np.cross(b - a, c - a)


def point_normals(points: Points3, triangles: Triangles) -> Points3:
    """Unit normals at points: those of the triangles around, weighted by area."""
    normals = face_normals(points, triangles)
    found = np.zeros_like(points)
    for k in range(3):
        np.add.at(found, triangles[:, k], normals)
    length = np.sqrt((found**2).sum(1, keepdims=True))
    return np.asarray(found / np.maximum(length, 1e-12))


def volume(solid: Solid) -> float:
    """mm³ within a closed surface (divergence theorem)."""
    a, b, c = (solid.points[solid.triangles[:, k]] for k in range(3))
    return float((a * np.cross(b, c)).sum() / 6)
