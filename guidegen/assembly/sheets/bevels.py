"""A sheet with bevelled edges in → the same with slanted edges, so that it meets its neighbour."""

from dataclasses import replace

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.sheets.made import Made


def bevelled(made: Made) -> Made:
    """The sheet with its bevels: the faces end where the bevel lets them, so the wall slants.

    The outline is that of the larger face; half way through the foam the edge lies
    thickness/2 · tan(angle) farther in.
    """
    light = made.sheet.normals
    middle, normals = made.sheet.middle.copy(), made.sheet.normals.copy()
    for bevel in made.piece.shape.bevels:
        edge = made.mesh.edges.get(bevel.edge)
        if edge is None or len(edge) < 2:
            continue
        tangent = unit(np.gradient(made.sheet.middle[edge], axis=0))
        # Outlines run counter-clockwise: what lies to the right of an edge is outside.
        out = np.cross(tangent, made.sheet.normals[edge])
        sign = 1 if bevel.direction == "inward" else -1
        angles = bevel.angles or (bevel.angle,)
        # A bevel that turns does so evenly along its edge, and a mesh has points all along it.
        here = np.interp(np.linspace(0, 1, len(edge)), np.linspace(0, 1, len(angles)), angles)
        slant = np.tan(np.radians(here))[:, None] * sign
        middle[edge] -= out * (np.abs(slant) * made.sheet.thickness / 2)
        normals[edge] += out * slant
    return replace(made, sheet=replace(made.sheet, middle=middle, normals=normals, light=light))
