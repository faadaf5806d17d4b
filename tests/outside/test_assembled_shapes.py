"""Sheets in space against reference shapes and formulas from outside.

Frustum: radii of the rims are their girths over 2 pi, the slope follows Pythagoras (school
geometry). Volumes, areas and closed surfaces: the primitives and checks of trimesh. Ovals:
perimeters of ellipses by the complete elliptic integral of SciPy (Abramowitz and Stegun, 17.3).
Dome from gores: the ball that its gores were drawn for (Snyder, USGS Professional Paper 1395).
"""

from math import pi, sqrt

import numpy as np
import pytest
import trimesh
from geometry.kit_samples import only_piece
from scipy.special import ellipe

from guidegen.assembly.body.figure import make_figure
from guidegen.assembly.body.lofts import oval
from guidegen.assembly.placing.drape import Loose, Sewn, Under, drape
from guidegen.assembly.sheets.bends import Axes, Plane, Tube
from guidegen.assembly.sheets.made import bent, piece_mesh
from guidegen.assembly.sheets.solids import thickened
from guidegen.geometry.pieces.records import Piece

UPRIGHT = Axes(np.zeros(3), *np.eye(3))


def piece(shape: str, dimensions: str) -> Piece:
    """The piece of one part of 5 mm foam."""
    return only_piece(
        f"parts: {{plate: {{name: Plate, label: A, material: foam-5, shape: {shape}, "
        f"dimensions: {{{dimensions}}}}}}}"
    )


def as_mesh(solid):
    """The same surface as trimesh has it."""
    return trimesh.Trimesh(solid.points, solid.triangles, process=False)


def test_a_rolled_frustum_has_its_volume_and_surfaces():
    """A closed cuff is the body between two frustums: volume within a per cent, since
    sides of triangles are chords."""
    cuff = piece("tapered-tube", "girth-top: 340, girth-bottom: 245, length: 210")
    top, bottom = (girth + 2 * pi * 2.5 for girth in (340, 245))
    mesh = piece_mesh(cuff)
    assert mesh is not None
    low = float(mesh.points[np.abs(mesh.points[:, 0]) < 10, 1].min())
    made = bent(cuff, Tube(UPRIGHT, top, bottom, 210, low))
    assert made is not None
    rise = sqrt(210**2 - ((top - bottom) / (2 * pi)) ** 2)
    assert np.ptp(made.sheet.middle[:, 1]) == pytest.approx(rise, abs=0.2)
    solid = as_mesh(thickened(made.sheet))
    assert solid.is_watertight and solid.is_winding_consistent
    # Pappus: the wall's section turned round the axis at its middle.
    assert solid.volume == pytest.approx(210 * 5 * (top + bottom) / 2, rel=0.01)


def test_a_plate_is_the_box_of_trimesh():
    """A flat plate has the volume and area of a box."""
    made = bent(
        piece("rounded-rectangle", "width: 90, height: 70"),
        Plane(np.zeros(3), np.array([1.0, 0, 0]), np.array([0, 1.0, 0])),
    )
    assert made is not None
    ours, theirs = as_mesh(thickened(made.sheet)), trimesh.creation.box((90, 70, 5))
    assert ours.is_watertight
    assert ours.volume == pytest.approx(theirs.volume)
    assert ours.area == pytest.approx(theirs.area)


def test_limbs_are_closed_surfaces():
    """Every limb of the figure is watertight and turned outward."""
    for name, limb in make_figure({"chest": 980.0}).limbs.items():
        mesh = as_mesh(limb.solid(0))
        assert mesh.is_watertight and mesh.is_winding_consistent, name
        assert mesh.volume > 0, name


@pytest.mark.parametrize("ratio", [0.5, 0.72, 1.0, 1.3])
def test_ovals_have_the_perimeter_of_ellipses(ratio):
    """Half axes of a section by its girth: 4·a·E(m), within a ten-thousandth."""
    section = oval(0, 860.0, ratio)
    a, b = max(section.wide, section.deep), min(section.wide, section.deep)
    assert 4 * a * ellipe(1 - (b / a) ** 2) == pytest.approx(860, rel=1e-4)


def test_gores_make_the_dome_that_they_were_drawn_for():
    """Twelve gores of a ball of 110 mm, sewn by the solver, lie within 6 mm of the ball everywhere
    (the one-sided Hausdorff distance), and their edges within 1 mm of one another."""
    count, radius = 12, 110.0
    gore = piece("gore", f"gores: {count}, radius: {radius}, neutral: 0")
    mesh = piece_mesh(gore, {"left": 18, "right": 18})
    assert mesh is not None
    foot = mesh.points[:, 1].min()
    sheets = []
    for k in range(count):
        # To begin with, strips along meridians of a ball a tenth too large, unsewn.
        angle = (mesh.points[:, 1] - foot) / radius
        out = 1.1 * radius * np.cos(angle)
        turn = 2 * pi * k / count
        x = mesh.points[:, 0]
        sheets.append(
            np.stack(
                [
                    out * np.sin(turn) + x * np.cos(turn),
                    1.1 * radius * np.sin(angle),
                    out * np.cos(turn) - x * np.sin(turn),
                ],
                axis=1,
            )
        )
    seams = [
        Sewn(k, mesh.edges["right"], (k + 1) % count, mesh.edges["left"][::-1])
        for k in range(count)
    ]
    deep = trimesh.creation.icosphere(subdivisions=3, radius=1.0).vertices
    under = Under(deep * radius * 0.5, deep, np.zeros(len(deep)))
    points = drape([Loose(mesh, start, 0.0) for start in sheets], seams, under, hug=0.0)
    dome = np.concatenate(points)
    dome[:, 1] -= dome[:, 1].min()  # it rests on its rim, wherever it was let go
    away = np.sqrt((dome**2).sum(1))
    assert (
        np.abs(away - radius).max() < 6.0
    )  # flat across: a polygon of twelve sides, ±2.5, and the crown
    gaps = [
        np.sqrt(((points[s.first][s.first_points] - points[s.second][s.second_points]) ** 2).sum(1))
        for s in seams
    ]
    assert np.concatenate(gaps).max() < 1.0
