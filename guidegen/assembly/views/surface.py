"""Solids → one mesh of all of them, which is then drawn from many sides."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.records import WALL, Assembly, Points3, Solid, Triangles
from guidegen.assembly.sheets.solids import face_normals, thickened

FACES = 8
"""Numbers that the faces of one solid may have."""


@dataclass(frozen=True, eq=False)
class Surface:
    """Triangles of several solids."""

    points: Points3
    triangles: Triangles
    codes: NDArray[np.int64]
    """Of each triangle: number of its solid times FACES, and its face."""
    bent: NDArray[np.float64]
    """Unit normals at the three corners of each triangle, for the light."""


def surface_of(solids: Sequence[Solid]) -> Surface:
    """All of them together, in their order."""
    starts = np.cumsum([0, *(len(solid.points) for solid in solids)])
    if not solids:
        none = np.zeros((0, 3))
        return Surface(none, none.astype(np.int64), none[:, 0].astype(np.int64), none[:, None])
    return Surface(
        np.concatenate([solid.points for solid in solids]),
        np.concatenate([solid.triangles + at for solid, at in zip(solids, starts, strict=False)]),
        np.concatenate([solid.faces + FACES * k for k, solid in enumerate(solids)]),
        np.concatenate([_bent(solid) for solid in solids]),
    )


_SURFACES: WeakKeyDictionary[Assembly, tuple[float, Surface]] = WeakKeyDictionary()
"""Of assemblies that still exist, the last one: each is looked at from many sides."""


def whole_surface(assembly: Assembly, least: float = 0.0) -> Surface:
    """Limbs of the figure, then sheets, each at least `least` mm thick: a strap that is thinner
    than a line is drawn as thick as one."""
    made = _SURFACES.get(assembly)
    if made is None or made[0] != least:
        limbs = [solid for _, solid in assembly.figure]
        sheets = (
            sheet if sheet.thickness >= least else replace(sheet, thickness=least)
            for sheet in assembly.sheets
        )
        made = _SURFACES[assembly] = least, surface_of([*limbs, *map(thickened, sheets)])
    return made[1]


_BENT: WeakKeyDictionary[Solid, NDArray[np.float64]] = WeakKeyDictionary()
"""Of solids that still exist: a sheet belongs to several things that steps join."""


def _bent(solid: Solid) -> NDArray[np.float64]:
    """Unit normals at the corners of triangles: smooth within a face and sharp between faces."""
    if solid not in _BENT:
        normals = face_normals(solid.points, solid.triangles)
        keys = solid.triangles + (solid.faces * len(solid.points))[:, None]
        total = np.zeros((len(solid.points) * (int(solid.faces.max(initial=0)) + 1), 3))
        for k in range(3):
            for axis in range(3):
                total[:, axis] += np.bincount(keys[:, k], normals[:, axis], minlength=len(total))
        bent = (total / np.maximum(np.sqrt((total**2).sum(1, keepdims=True)), 1e-12))[keys]
        if solid.normals is not None:
            bent = np.where(
                (solid.faces == WALL)[:, None, None], bent, solid.normals[solid.triangles]
            )
        _BENT[solid] = bent
    return _BENT[solid]
