"""A piece and how it lies → its sheet in space, with the flat mesh that other pieces lie on."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import lru_cache
from math import sqrt

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.records import PlacedSheet, Points3
from guidegen.assembly.sheets.bends import Bend, Folded
from guidegen.assembly.sheets.flat import SPACING, FlatMesh, Points2, even_points, locate, mesh_of
from guidegen.geometry.outline.measures import bounds, flatten
from guidegen.geometry.outline.records import Run
from guidegen.geometry.pieces.records import Piece, Side

MIRROR = np.array([-1.0, 1.0, 1.0])
"""The other side of the body."""


@dataclass(frozen=True, eq=False)
class Made:
    """A placed sheet and the flat mesh that it was bent from."""

    piece: Piece
    sheet: PlacedSheet
    mesh: FlatMesh
    """In the piece's own place: what is laid on the piece is found here."""


def piece_mesh(piece: Piece, counts: Mapping[str, int] | None = None) -> FlatMesh | None:
    """The flat mesh of a piece, with points along its grooves; None where it has none."""
    return _mesh(piece, tuple(sorted(counts.items())) if counts is not None else None)


@lru_cache(maxsize=8)
def _mesh(piece: Piece, counts: tuple[tuple[str, int], ...] | None) -> FlatMesh | None:
    # Kept for a while: there are dozens of a stud.
    inside: list[tuple[float, float]] = []
    for groove in piece.grooves:
        inside += even_points(flatten(groove.run), GROOVE_PARTS)
    width, height = _size(piece.shape.ring())
    narrow = min(width, height)
    spacing = SPACING if narrow > 40 else 8.0 if narrow > 22 else 5.0
    # Very large pieces get a coarser mesh: what one takes is bounded.
    spacing = max(spacing, sqrt(width * height / MOST_POINTS))
    holes = tuple(hole for hole in piece.shape.holes if min(_size(hole)) >= SMALLEST_HOLE)
    return mesh_of(
        piece.shape.edges, holes, spacing=spacing, counts=dict(counts or ()), inside=inside
    )


SMALLEST_HOLE = 14.0
"""mm; narrower holes are no windows and are not drawn. Our choice."""
MOST_POINTS = 3000
"""Points of a mesh, about. Our choice: half a square metre at the usual spacing."""
GROOVE_PARTS = 14


def _size(run: Run) -> tuple[float, float]:
    """mm across and upright."""
    left, low, right, high = bounds((run,))
    return right - left, high - low


def bent(piece: Piece, bend: Bend, key: str = "", mesh: FlatMesh | None = None) -> Made | None:
    """The piece bent as said; None where its outline has no triangles."""
    mesh = mesh or piece_mesh(piece)
    if mesh is None:
        return None
    points, normals = bend.place(mesh.points)
    sheet = replace(sheet_of(piece, mesh, points, normals, key), light=normals)
    if isinstance(bend, Folded):
        middles = mesh.points[mesh.triangles].mean(1)
        sheet = replace(sheet, halves=(bend.off(middles) > 0).astype(np.int64))
    return Made(piece, sheet, mesh)


def sheet_of(
    piece: Piece, mesh: FlatMesh, points: Points3, normals: Points3, key: str = ""
) -> PlacedSheet:
    """The sheet of a piece whose middle face and normals are known."""
    return PlacedSheet(
        part=piece.part,
        key=key or piece.key,
        material=piece.material,
        thickness=piece.thickness,
        middle=points,
        normals=normals,
        flat=mesh.points,
        triangles=mesh.triangles,
        rims=mesh.rims,
        strain=strain_of(mesh, points),
    )


def lifted(base: Made, there: Points2, off: float) -> tuple[Points3, Points3]:
    """Flat points of a base in space, `off` mm outward from the middle of its foam, and unit
    normals there."""
    found = locate(there, base.mesh)
    normals = unit(found.value(base.sheet.normals, base.sheet.triangles))
    return found.value(base.sheet.middle, base.sheet.triangles) + normals * off, normals


def sides_of(mesh: FlatMesh) -> NDArray[np.int64]:
    """Both points of each side of a triangle, each once."""
    found = np.concatenate(
        [mesh.triangles[:, [0, 1]], mesh.triangles[:, [1, 2]], mesh.triangles[:, [2, 0]]]
    )
    return np.unique(np.sort(found, axis=1), axis=0)


def strain_of(mesh: FlatMesh, points: Points3) -> float:
    """Largest share by which a side of a triangle is longer or shorter than on the flat piece."""
    sides = sides_of(mesh)
    flat = np.sqrt(((mesh.points[sides[:, 1]] - mesh.points[sides[:, 0]]) ** 2).sum(1))
    now = np.sqrt(((points[sides[:, 1]] - points[sides[:, 0]]) ** 2).sum(1))
    return float(np.abs(now / flat - 1).max(initial=0.0))


def mirrored(made: Made, piece: Piece) -> Made:
    """The other hand of a piece on the other side of the body."""
    key = made.sheet.key.replace(f"-{Side.LEFT}", f"-{Side.RIGHT}")
    flip = np.array([-1.0, 1.0])
    triangles = made.sheet.triangles[:, [0, 2, 1]]
    rims = tuple(rim[::-1] for rim in made.sheet.rims)
    mesh = FlatMesh(made.mesh.points * flip, triangles, rims, made.mesh.edges)
    sheet = replace(
        made.sheet,
        key=key,
        middle=made.sheet.middle * MIRROR,
        normals=made.sheet.normals * MIRROR,
        light=made.sheet.light * MIRROR if made.sheet.light is not None else None,
        flat=mesh.points,
        triangles=triangles,
        rims=rims,
    )
    return Made(piece, sheet, mesh)
