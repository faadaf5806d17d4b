"""A sheet's middle face and normals in → its closed surface: outer face, inner face and walls."""

import numpy as np

from guidegen.assembly.records import INNER, OUTER, WALL, PlacedSheet, Points3, Solid, Triangles


def thickened(sheet: PlacedSheet) -> Solid:
    """The closed surface of a sheet, half of its thickness to each side of its middle face."""
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
    faces = np.repeat([OUTER, INNER, WALL], [len(outer), len(inner), len(wall)])
    return Solid(points, triangles, faces.astype(np.int64))


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
