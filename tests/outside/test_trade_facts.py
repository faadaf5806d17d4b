"""Facts of the trade that no handbook states; each is marked. The geometry behind them is plain.

Sources: bevel and mitre angles of regular figures are standard values of solid geometry (cube,
dodecahedron, icosahedron; recomputed); the demo figures are invented, their lengths computed.
"""

from math import atan2, cos, degrees, radians, sin, tan

import pytest

from guidegen.geometry.outline.bevels import EdgeBevel, bevel_setback, bevelled_edges
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import dihedral, segment_end, segment_start
from guidegen.geometry.outline.records import Edge, Shape
from guidegen.geometry.pieces.grooves import groove_depth, groove_mouth
from guidegen.geometry.shapes.building import wrap_length

STRIP = Shape(
    tuple(
        Edge(name, lines_through(start, end))
        for name, start, end in (
            ("bottom", (0, 0), (320, 0)),
            ("right", (320, 0), (320, 28)),
            ("top", (320, 28), (0, 28)),
            ("left", (0, 28), (0, 0)),
        )
    )
)


def test_two_strips_bevelled_45_degrees_meet_square():
    """Common practice, no source: 45 degrees on both strips makes a square corner.

    The section of each bevelled edge is a right triangle of the foam's thickness and the setback;
    laid face to face, the two cut faces make up the corner between the strips.
    """
    thickness = 10.0
    (bevel,) = bevelled_edges(STRIP, {"top": EdgeBevel(45, "inward")}, thickness)
    setback = 28 - segment_start(bevel.far_face[0])[1]
    cut = degrees(atan2(setback, thickness))  # of the cut face from square
    assert cut == pytest.approx(45)
    assert 180 - 2 * cut == pytest.approx(90)


@pytest.mark.parametrize("bevel", [60.0, 45.0, 30.0, 15.0])
def test_bevelled_strips_close_without_a_gap(bevel):
    """Common practice, no source: each edge takes half of the turn, (180 - dihedral) / 2.

    Both strips are set up in section at their dihedral: the far corner of one cut face then
    coincides with that of the other, so there is neither gap nor overlap.
    """
    thickness = 10.0
    setback = bevel_setback(bevel, thickness)
    # Strip one lies along the x axis with its outer face down, its long edge in the origin.
    far_one = (-setback, thickness)
    # Strip two is its mirror image across the plane that halves the dihedral.
    half = radians(180 - dihedral(bevel, bevel) / 2)
    x, y = far_one
    far_two = (x * cos(2 * half) + y * sin(2 * half), x * sin(2 * half) - y * cos(2 * half))
    assert far_two == pytest.approx(far_one, abs=1e-9)


def test_square_cut_edges_leave_a_gap():
    """Common practice, no source: edges cut square that meet at 120 degrees gape by 10 mm in
    10 mm foam, 2*t*sin((180 - dihedral)/2); the bevel that closes it is 30 degrees."""
    assert dihedral(30, 30) == 120
    assert 2 * 10 * sin(radians(30)) == pytest.approx(10)


@pytest.mark.parametrize(
    ("solid", "between", "bevel"),
    [
        ("tetrahedron", 70.528779, 54.73561),
        ("cube", 90.0, 45.0),
        ("dodecahedron", 116.565051, 31.717474),
        ("icosahedron", 138.189685, 20.905157),
    ],
)
def test_bevels_of_regular_solids(solid, between, bevel):
    """Edges of plates that make a regular solid are bevelled by (180 - dihedral) / 2."""
    assert dihedral(bevel, bevel) == pytest.approx(between, abs=1e-5), solid


def test_groove_closes_when_it_is_folded():
    """Common practice, no source: a V as wide as the fold, 8 mm deep for 40 degrees, has a mouth
    of 5.8 mm; turned by 40 degrees about its root, one wall lies on the other."""
    depth = groove_depth(10, 2)
    mouth = groove_mouth(depth, 40)
    assert (depth, mouth) == (8, pytest.approx(5.8, abs=0.05))
    left, right = (-mouth / 2, depth), (mouth / 2, depth)
    turn = radians(40)
    turned = (
        right[0] * cos(turn) - right[1] * sin(turn),
        right[0] * sin(turn) + right[1] * cos(turn),
    )
    assert turned == pytest.approx(left, abs=1e-9)
    assert groove_mouth(8, 50) == pytest.approx(7.5, abs=0.05)


def test_ridge_of_the_demo():
    """Common practice, no source: two strips of 10 mm with 30 degree bevels meet at 120 degrees;
    their far faces end 10*tan(30) = 5.77 mm before the edge."""
    (top,) = bevelled_edges(STRIP, {"top": EdgeBevel(30, "inward")}, 10)
    assert segment_end(top.far_face[0])[1] == pytest.approx(28 - 10 * tan(radians(30)))
    assert dihedral(top.angle, top.angle) == 120


def test_thickness_swap():
    """Common practice, no source: 10 mm foam in place of 5 mm makes a full wrap 16 mm longer."""
    values = {"backing": 3.0, "neutral": 0.5, "ease": 25.0}
    assert round(wrap_length(280, values, 10) - wrap_length(280, values, 5)) == 16
