"""What comes out of forms whose flat pieces are known by formula, and how much others strain."""

from functools import cache
from math import cos, hypot, pi, radians

import numpy as np
import pytest
from form_shapes import along_meridians, ball, box, cone, obj, ring, torso

from guidegen.bench.forms.flatten import Flattened, flatten
from guidegen.bench.forms.panels import at_points
from guidegen.bench.forms.records import CutAlong, FormError, FormWishes, Shown
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import Arc

FOAM = 10.0


@cache
def gores() -> Flattened:
    """A sphere of 100 mm in 12 gores."""
    lines = along_meridians(48, 23, 4, poles=True)
    return flatten(obj(ball(100, 48, 24), lines), "ball.obj", FormWishes("mm", up="z"))


@pytest.mark.parametrize(("shows", "radius"), [("inside", 55), ("middle", 50), ("outside", 45)])
@pytest.mark.parametrize("around", [20, 64])
def test_a_cylinder_is_as_wide_as_its_foam_goes_round(shows, radius, around):
    """The flat width is 2 pi (r + t/2), r or 2 pi (r - t/2), however coarse the mesh is: the layer in
    the middle of bent foam keeps its length (trade: neutral layer at half of the thickness)."""
    wishes = FormWishes("mm", shows=Shown(shows), foam=FOAM, up="z")
    found = flatten(obj(cone(50, 50, 200, around, 6)), "tube.obj", wishes)
    (piece,) = found.pieces
    rims = [run_length(edge.run) for edge in piece.edges if edge.name.startswith("free")]
    assert sum(rims) / 2 / (2 * pi) == pytest.approx(radius, abs=0.05)
    assert found.seams[0].lengths == pytest.approx((200, 200), abs=0.05)


@pytest.mark.parametrize(
    ("bottom", "top", "height"),
    # Worked examples of published cone developments: (GEO-CONE-2) formulas of mathforum.org
    # drmath/65796; (GEO-CONE-1) ceemrr.com DrawingsNets6, inches as mm * 10.
    [(100, 50, 150), (40, 25, 40)],
)
@pytest.mark.parametrize(("shows", "side"), [("inside", 0.5), ("middle", 0), ("outside", -0.5)])
def test_a_cone_is_laid_flat_as_drafting_has_it(bottom, top, height, shows, side):
    """Radii r / sin a and the angle 360 sin a, with sin a = (R - r) / slant, within 0.05 mm; with
    foam, of radii that its middle has."""
    wishes = FormWishes("mm", shows=Shown(shows), foam=FOAM, up="z")
    found = flatten(obj(cone(bottom, top, height, 48, 5)), "cone.obj", wishes)
    slant = hypot(height, bottom - top)
    sine = (bottom - top) / slant
    wanted = [(r + side * FOAM * height / slant) / sine for r in (bottom, top)]
    (piece,) = found.pieces
    arcs = [s for edge in piece.edges for s in edge.run if isinstance(s, Arc)]
    assert len(arcs) >= 4
    for arc in arcs:
        assert min(abs(arc.radius - radius) for radius in wanted) < 0.05
    assert sum(abs(arc.sweep) for arc in arcs) / 2 == pytest.approx(360 * sine, abs=0.02)


def test_gores_are_those_of_handbooks():
    """Half widths pi R cos(latitude) / n and the length pi R of handbooks (GEO-GORE-15 to -75,
    GEO-GORE-LEN), within the 2.5 % that foam gives here, and the area of the sphere within 0.5 %."""
    found = gores()
    assert len(found.pieces) == 12
    area = sum(float(piece.panel.strain.areas.sum()) for piece in found.pieces)
    assert area == pytest.approx(4 * pi * 100**2, rel=0.005)
    piece = found.pieces[0]
    flat = piece.panel.flat - piece.panel.flat.mean(axis=0)
    along = flat[:, 1] if np.ptp(flat[:, 1]) > np.ptp(flat[:, 0]) else flat[:, 0]
    across = flat[:, 0] if np.ptp(flat[:, 1]) > np.ptp(flat[:, 0]) else flat[:, 1]
    assert np.ptp(along) == pytest.approx(pi * 100, rel=0.01)
    for latitude in (0, 15, 30, 60):
        near = np.abs(np.abs(along) - pi / 180 * 100 * latitude) < 4
        width = np.ptp(across[near]) / 2
        assert width == pytest.approx(pi * 100 * cos(radians(latitude)) / 12, rel=0.04)


def test_a_sphere_in_twelve_strains_by_less_than_one_per_cent_in_the_mean():
    """The strain of a gore goes with the square of its width: 0.7 % in the mean, 2 % at the worst."""
    strain = gores().pieces[0].panel.strain
    assert 0.005 < strain.mean < 0.01
    assert strain.worst < 0.025
    assert gores().flagged == ()


def test_a_body_form_in_eight_panels_holds_to_the_bounds():
    """Strain at 95 of 100 places is at most 5 %, both sides of each seam agree within 0.5 mm."""
    lines = along_meridians(64, 33, 8)
    wishes = FormWishes("mm", shows=Shown.INSIDE, foam=FOAM, up="z")
    found = flatten(obj(torso(64, 32), lines), "torso.obj", wishes)
    assert len(found.pieces) == 8
    assert max(piece.panel.strain.high for piece in found.pieces) <= 0.05
    assert len(found.seams) == 8
    assert max(seam.apart for seam in found.seams) < 0.5
    assert found.unequal == ()


def test_seams_are_proposed_until_nothing_strains_too_much():
    """A torus without marks falls into pieces that lie flat within the bounds; each seam has both
    of its sides, and no piece lies on itself."""
    found = flatten(obj(ring(100, 40, 18, 12)), "ring.obj", FormWishes("mm"))
    assert found.along is CutAlong.PROPOSAL
    assert len(found.pieces) > 4
    assert max(piece.panel.strain.high for piece in found.pieces) <= 0.05
    assert found.unequal == ()
    edges = {(piece.id, edge.name) for piece in found.pieces for edge in piece.edges}
    assert {end for seam in found.seams for end in seam.ends} == edges


def test_a_strained_piece_is_flagged_with_a_seam_that_helps():
    """A sphere in two halves strains far too much: both are flagged, and one more seam across each
    lowers what its halves give."""
    lines = along_meridians(32, 15, 16, poles=True)
    found = flatten(obj(ball(100, 32, 16), lines), "ball.obj", FormWishes("mm"))
    assert len(found.flagged) == len(found.pieces) == 2
    for piece in found.pieces:
        assert piece.proposal is not None
        assert piece.proposal.high < 0.8 * piece.panel.strain.high


@pytest.mark.parametrize(("shows", "wanted"), [("outside", (100, 80)), ("inside", (120, 100))])
def test_walls_of_a_box_are_mitred(shows, wanted):
    """Walls of 10 mm foam that show the outside are as large as the box, those on the inside larger
    by two thicknesses; all edges are bevelled by 45 degrees, so that the inner face ends smaller."""
    wishes = FormWishes("mm", CutAlong.SHARP, Shown(shows), FOAM, up="z")
    found = flatten(obj(box(100, 80, 60, 2)), "box.obj", wishes)
    assert len(found.pieces) == 6
    top = found.pieces[0]
    sides = sorted({round(run_length(edge.run), 2) for edge in top.edges}, reverse=True)
    assert sides == pytest.approx(wanted, abs=0.01)
    assert {angle for _, angle in top.bevels} == {45.0}
    assert {round(seam.turn) for seam in found.seams} == {90}
    assert len(found.seams) == 12


def test_an_inward_bend_is_bevelled_the_other_way():
    """Where two walls meet in a valley, the outer faces end smaller."""
    wishes = FormWishes("mm", CutAlong.SHARP, Shown.MIDDLE, FOAM, up="z")
    points = np.array(
        [(0, 0, 50), (0, 100, 50), (50, 0, 0), (50, 100, 0), (100, 0, 50), (100, 100, 50)]
    )
    faces = np.array([(0, 2, 1), (2, 3, 1), (2, 4, 3), (4, 5, 3)])
    found = flatten(obj((points, faces)), "valley.obj", wishes)
    assert [seam.turn for seam in found.seams] == pytest.approx([-90])
    assert [angle for piece in found.pieces for _, angle in piece.bevels] == [-45.0, -45.0]


def test_foam_that_cannot_bend_so_tightly_is_refused_with_its_place():
    """Foam of 30 mm inside a tube of 12 mm radius would pass through itself."""
    with pytest.raises(FormError, match=r"foam of 30 mm cannot follow it at \("):
        flatten(
            obj(cone(12, 12, 100, 24, 4)), "t.obj", FormWishes("mm", shows=Shown.OUTSIDE, foam=30)
        )


def test_a_window_stays_a_hole():
    """A hole in a plate that hardly bends is a hole of its piece, and no seam leads to it."""
    points, faces = cone(60, 40, 1, 24, 2)
    found = flatten(obj((points * (1, 1, 0.01), faces)), "plate.obj", FormWishes("mm", up="z"))
    (piece,) = found.pieces
    assert found.seams == ()
    assert [round(run_length(hole), 1) for hole in piece.holes] == [round(2 * pi * 40, 1)]


def test_the_strain_of_a_sliver_is_that_of_its_surroundings():
    """A corner of a hundredth of a mm², stretched by half, tells nothing of a piece; a whole
    triangle that is stretched does."""
    corners = np.array([[0, 1, 2], [1, 3, 2], [1, 4, 3]])
    strain = np.array([0.02, 0.02, 0.5])
    sliver = at_points(corners, np.array([40.0, 40.0, 0.03]), strain)
    assert sliver.max() < 0.021
    assert at_points(corners, np.array([40.0, 40.0, 40.0]), strain).max() == pytest.approx(0.5)
