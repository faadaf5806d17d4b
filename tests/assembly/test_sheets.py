"""Flat outlines made into sheets of foam in space."""

from itertools import pairwise
from math import pi

import numpy as np
import pytest
from geometry.kit_samples import only_piece

from guidegen.assembly.placing.overlays import along_edge, on_base
from guidegen.assembly.sheets.bends import Axes, Folded, Plane, Round, Tube
from guidegen.assembly.sheets.bevels import bevelled
from guidegen.assembly.sheets.flat import FlatMesh, locate, mesh_of, within
from guidegen.assembly.sheets.made import bent, mirrored, piece_mesh, sides_of, strain_of
from guidegen.assembly.sheets.solids import thickened, volume
from guidegen.geometry.outline.areas import shape_area
from guidegen.geometry.outline.records import Edge, Line

FLAT = Plane(np.zeros(3), np.array([1.0, 0, 0]), np.array([0, 1.0, 0]))
UPRIGHT = Axes(np.zeros(3), *np.eye(3))


def part(shape, dimensions, more=""):
    """The piece of one part of 5 mm foam."""
    return only_piece(
        f"parts: {{plate: {{name: Plate, label: A, material: foam-5, shape: {shape}, "
        f"dimensions: {{{dimensions}}}{more}}}}}"
    )


def area(mesh):
    """mm² of the triangles of a flat mesh."""
    a, b, c = (mesh.points[mesh.triangles[:, k]] for k in range(3))
    return float(
        (
            (b[:, 0] - a[:, 0]) * (c[:, 1] - a[:, 1]) - (b[:, 1] - a[:, 1]) * (c[:, 0] - a[:, 0])
        ).sum()
        / 2
    )


@pytest.mark.parametrize(
    ("shape", "dimensions", "rims"),
    [
        ("rounded-rectangle", "width: 90, height: 70, radius: 10", 1),
        ("frame", "width: 90, height: 70, web: 13, radius: 10", 2),
        ("ring", "outside: 72, inside: 44", 2),
        ("star", "points: 5, outside: 80, inside: 40", 1),
        ("strip", "length: 160, width: 16", 1),
    ],
)
def test_a_mesh_covers_its_outline(shape, dimensions, rims):
    """Triangles cover what is cut, windows left out, and have a rim round each of both."""
    piece = part(shape, dimensions)
    mesh = piece_mesh(piece)
    assert mesh is not None
    assert area(mesh) == pytest.approx(shape_area(piece.shape), rel=0.01)
    assert len(mesh.rims) == rims


def test_a_mesh_of_nothing_is_none():
    """Points on one line make no triangles, and no error either."""
    piece = part("strip", "length: 160, width: 16")
    assert mesh_of((piece.shape.edges[0],)) is None


def test_points_are_found_within_rings():
    """A window is outside, by the even-odd rule."""
    square = np.array([[0, 0], [10, 0], [10, 10], [0, 10]], dtype=float)
    window = square * 0.5 + 2.5
    points = np.array([[1.0, 1], [5, 5], [11, 5]])
    assert within(points, [square, window]).tolist() == [True, False, False]


def test_seams_get_as_many_points_as_asked():
    """Both edges of a seam are divided into as many parts, evenly by length."""
    piece = part("rounded-rectangle", "width: 90, height: 70")
    mesh = piece_mesh(piece, {"right": 7})
    assert mesh is not None
    edge = mesh.points[mesh.edges["right"]]
    steps = np.hypot(*np.diff(edge, axis=0).T)
    assert steps == pytest.approx([10.0] * 7)


def test_a_plate_becomes_a_closed_block():
    """A flat plate of 5 mm is a solid of its area times its thickness."""
    piece = part("frame", "width: 90, height: 70, web: 13")
    made = bent(piece, FLAT)
    assert made is not None
    assert volume(thickened(made.sheet)) == pytest.approx(shape_area(piece.shape) * 5, rel=1e-6)


@pytest.mark.parametrize("turned", [0.0, 30.0])
def test_a_plate_round_a_body_keeps_its_lengths(turned):
    """Round an oval a plate bends one way only: nothing is stretched, however it is turned."""
    piece = part("rounded-rectangle", "width: 120, height: 90, radius: 8")
    made = bent(piece, Round(UPRIGHT, 150, 110, 10, 0.0, 30.0, 2.3, turned))
    assert made is not None
    assert strain_of(made.mesh, made.sheet.middle) < 0.003
    out = (made.sheet.middle * made.sheet.normals).sum(1)
    assert out.min() > 100


def test_a_folded_disc_turns_by_its_groove():
    """Both halves are flat, and their faces turn by the fold."""
    piece = part("disc", "diameter: 160", ", grooves: [{fold: 40, floor: 2}]")
    made = bent(piece, Folded(FLAT, (0.0, 0.0), (1.0, 0.0), 40.0))
    assert made is not None
    above = made.sheet.normals[made.mesh.points[:, 1] > 1]
    below = made.sheet.normals[made.mesh.points[:, 1] < -1]
    turn = np.degrees(np.arccos((above[0] * below[0]).sum()))
    assert turn == pytest.approx(40.0, abs=0.01)
    assert strain_of(made.mesh, made.sheet.middle) < 0.07  # sides that cross the fold are chords


def test_a_bevel_moves_the_faces_apart():
    """45 degrees inward: the outer face keeps its width, the inner one loses both thicknesses."""
    piece = part(
        "rounded-rectangle", "width: 110, height: 150",
        ", bevels: {left: {angle: 45, direction: inward}, right: {angle: 45, direction: inward}}",
    )  # fmt: skip
    flat = bent(piece, FLAT)
    assert flat is not None
    solid = thickened(bevelled(flat).sheet)
    count = len(flat.mesh.points)
    widths = [np.ptp(solid.points[k : k + count, 0]) for k in (0, count)]
    assert widths == pytest.approx([110, 100], abs=0.01)


def test_layers_lie_on_their_base():
    """A layer lies half of both thicknesses out from the middle of what is under it."""
    base = bent(part("rounded-rectangle", "width: 90, height: 70"), FLAT)
    piece = part("disc", "diameter: 30")
    mesh = piece_mesh(piece)
    assert base is not None and mesh is not None
    laid = on_base(base, piece, mesh, mesh.points + np.array([10.0, 5.0]), "disc")
    assert laid.sheet.middle[:, 2] == pytest.approx(5.15, abs=1e-6)
    assert laid.sheet.middle.mean(0)[:2] == pytest.approx([10, 5], abs=0.5)


def test_points_beside_a_base_go_on_as_it_does():
    """What stands out over an edge is found by the triangle that is nearest."""
    base = bent(part("rounded-rectangle", "width: 90, height: 70"), FLAT)
    assert base is not None
    there = locate(np.array([[60.0, 0.0]]), base.mesh).value(
        base.sheet.middle, base.sheet.triangles
    )
    assert there[0] == pytest.approx([60, 0, 0], abs=1e-6)


def test_a_strip_follows_an_edge():
    """A strip along an edge lies inside of it, flush with it."""
    base = bent(part("disc", "diameter: 200"), FLAT)
    assert base is not None
    strip = along_edge(base, part("strip", "length: 628, width: 16"), "rim", "strip")
    assert strip is not None
    away = np.hypot(*strip.sheet.middle[:, :2].T)
    assert away.max() < 100.1 and away.min() > 83


def test_the_other_hand_is_the_mirror_image():
    """The right-hand piece of a pair is a closed block too, as large as the left one."""
    piece = part("rounded-rectangle", "width: 90, height: 70, radius: 9")
    left = bent(piece, Round(UPRIGHT, 150, 110, 10, 60.0))
    assert left is not None
    right = mirrored(left, piece)
    assert volume(thickened(right.sheet)) == pytest.approx(volume(thickened(left.sheet)))
    assert right.sheet.middle.mean(0)[0] == pytest.approx(-left.sheet.middle.mean(0)[0])


def test_a_tube_closes_round_its_axis():
    """A tube's rims have the girths it was made for, half of the foam farther out."""
    piece = part("tapered-tube", "girth-top: 340, girth-bottom: 245, length: 200, neutral: 0.5")
    rims = [girth + 2 * pi * 2.5 for girth in (340, 245)]
    mesh = piece_mesh(piece)
    assert mesh is not None
    low = float(mesh.points[np.abs(mesh.points[:, 0]) < 10, 1].min())
    made = bent(piece, Tube(UPRIGHT, rims[0], rims[1], 200, low))
    assert made is not None
    assert made.sheet.strain < 0.008  # sides of triangles are chords
    away = np.hypot(made.sheet.middle[:, 0], made.sheet.middle[:, 2])
    assert [away.max(), away.min()] == pytest.approx([rim / (2 * pi) for rim in rims], abs=0.1)


def test_points_of_a_rim_do_not_depend_on_its_segments():
    """An edge drawn as three hundred short lines, as a graded one may be, has the points of the same
    edge in one: none nearer than a fifth of the usual, and none farther."""
    corners = [(0.0, 0.0), (300.0, 0.0), (300.0, 60.0), (0.0, 60.0)]

    def outline(parts: int) -> FlatMesh:
        edges = []
        for number, (a, b) in enumerate(zip(corners, corners[1:] + corners[:1], strict=True)):
            points = [
                (a[0] + (b[0] - a[0]) * k / parts, a[1] + (b[1] - a[1]) * k / parts)
                for k in range(parts + 1)
            ]
            run = tuple(Line(p, q) for p, q in pairwise(points))
            edges.append(Edge(f"e{number}", run))
        mesh = mesh_of(tuple(edges))
        assert mesh is not None
        return mesh

    whole, short = outline(1), outline(300)
    assert short.points == pytest.approx(whole.points, abs=1e-6)
    sides = sides_of(short)
    lengths = np.hypot(*(short.points[sides[:, 1]] - short.points[sides[:, 0]]).T)
    assert lengths.min() > 12 / 5
    assert lengths.max() < 2 * 12
