"""Pieces that are laid on another → their sheets, outward from it: layers, studs, bands, strips."""

from collections.abc import Iterator, Sequence

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.sheets.flat import FlatMesh, Points2, even_points, mesh_of
from guidegen.assembly.sheets.made import Made, lifted, piece_mesh, sheet_of
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Arc, Edge, InnerLine, LineKind, Run
from guidegen.geometry.pieces.records import Piece

MATCHED, OFF = 96, 3.0
"""Points round an outline that are compared with its placement line, and mm that they may be off:
what a stretch of an outer layer shifts them along it."""
CLEAR = 0.15
"""mm between faces that are glued on one another, so that the picture knows which is in front."""


def laid_on(
    base: Made, piece: Piece, line: InnerLine, key: str, *, behind: bool = False
) -> Made | None:
    """A piece on its placement line."""
    own = piece_mesh(piece)
    if own is None:
        return None
    moved = _moved(own, piece, line.run)
    if moved is not None:
        mesh = FlatMesh(own.points, moved.triangles, moved.rims, own.edges)
        return on_base(base, piece, mesh, moved.points, key, behind=behind)
    moved = mesh_of((Edge("rim", line.run),), spacing=8.0)
    if moved is None:
        return None
    return on_base(base, piece, moved, moved.points, key, behind=behind)


def on_base(
    base: Made, piece: Piece, mesh: FlatMesh, there: Points2, key: str, *, behind: bool = False
) -> Made:
    """A piece whose points lie `there` on the flat base, outward from it."""
    out = (base.sheet.thickness + piece.thickness) / 2 + CLEAR
    points, normals = lifted(base, there, -out if behind else out)
    return Made(piece, sheet_of(piece, mesh, points, normals, key), mesh)


def _moved(own: FlatMesh, piece: Piece, there: Run) -> FlatMesh | None:
    """The mesh as it lies on the base: moved, turned and stretched as its outline is; None where
    the outline is bent along an edge."""
    here = np.array(even_points(flatten(piece.shape.ring()), MATCHED))
    goal = np.array(even_points(flatten(there), MATCHED))
    a = np.concatenate([here, np.ones((len(here), 1))], axis=1)
    # Normal equations by hand: the same sums in the same order on every machine.
    gram = (a[:, :, None] * a[:, None, :]).sum(0)
    right = (a[:, :, None] * goal[:, None, :]).sum(0)
    matrix = np.linalg.solve(gram, right)
    if np.abs(a @ matrix - goal).max() > OFF:
        return None
    points = own.points[:, :1] * matrix[0] + own.points[:, 1:] * matrix[1] + matrix[2]
    if matrix[0, 0] * matrix[1, 1] < matrix[0, 1] * matrix[1, 0]:
        # A symmetrical piece may be found turned over: its other face is the same.
        turned = own.triangles[:, [0, 2, 1]]
        return FlatMesh(points, turned, tuple(rim[::-1] for rim in own.rims), own.edges)
    return FlatMesh(points, own.triangles, own.rims, own.edges)


def placement_lines(base: Piece, label: str) -> list[InnerLine]:
    """Placement lines of the part with a label, in their order."""
    lines = base.shape.lines
    return [line for line in lines if line.kind is LineKind.PLACEMENT and line.label == label]


def stud_places(base: Piece, diameter: float) -> Iterator[tuple[float, float]]:
    """Middles of round placement lines of a diameter: where studs go."""
    for line in base.shape.lines:
        only = line.run[0] if len(line.run) == 1 else None
        if line.kind is not LineKind.PLACEMENT or not isinstance(only, Arc):
            continue
        if abs(abs(only.sweep) - 360) < 1 and abs(2 * only.radius - diameter) < 0.5:
            yield only.centre


def stud_on(base: Made, piece: Piece, at: tuple[float, float], key: str) -> Made | None:
    """A small piece at a place of its base."""
    mesh = piece_mesh(piece)
    if mesh is None:
        return None
    return on_base(base, piece, mesh, mesh.points + np.array(at), key)


def along_edge(base: Made, piece: Piece, edge: str, key: str) -> Made | None:
    """A strip on its base along an edge, flush with it: cut or drawn longer, it ends with it."""
    runs = [own.run for own in base.piece.shape.edges if own.name in (edge, f"{edge}-2")]
    mesh = piece_mesh(piece)
    if not runs or mesh is None:
        return None
    line = _joined(runs)
    low, high = mesh.points.min(0), mesh.points.max(0)
    # Edges run with the foam on their left: a strip's upper side lies inward.
    place = np.array(even_points([(float(x), float(y)) for x, y in line], 120))
    tangent = unit(np.gradient(place, axis=0))
    inward = np.stack([-tangent[:, 1], tangent[:, 0]], axis=1)
    share = (mesh.points[:, 0] - low[0]) / (high[0] - low[0]) * 120
    number = np.arange(121)
    across = (mesh.points[:, 1] - low[1])[:, None]
    there = np.stack([np.interp(share, number, place[:, k]) for k in range(2)], axis=1)
    normal = np.stack([np.interp(share, number, inward[:, k]) for k in range(2)], axis=1)
    return on_base(base, piece, mesh, there + normal * across, key)


def _joined(runs: Sequence[Run]) -> NDArray[np.float64]:
    """Runs that follow one another as one line, whichever comes first."""
    lines = [np.array(flatten(run)) for run in runs]
    while len(lines) > 1:
        one, other = lines[0], lines[1]
        if ((one[-1] - other[0]) ** 2).sum() < 1:
            lines[:2] = [np.concatenate([one, other[1:]])]
        elif ((other[-1] - one[0]) ** 2).sum() < 1:
            lines[:2] = [np.concatenate([other, one[1:]])]
        else:
            del lines[1]
    return lines[0]
