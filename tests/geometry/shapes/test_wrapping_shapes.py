"""Rims, belts, lames, scales, gores, caps and domes: what makes each one fit."""

from itertools import pairwise
from math import cos, hypot, pi, sin, tau

import pytest
from geometry.kit_samples import good_kit
from geometry.shapes.test_shapes import build, dimensions, lengths
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.geometry.outline.areas import fault_of, shape_area
from guidegen.geometry.outline.measures import (
    bounds,
    flatten,
    run_length,
    segment_end,
    segment_start,
)
from guidegen.geometry.outline.records import Arc
from guidegen.geometry.shapes.building import ShapeError
from guidegen.geometry.shapes.cones import FlatTube
from guidegen.geometry.shapes.registry import BUILDERS
from guidegen.geometry.shapes.rims import Rim, plain_height


def measures(name, **changes: float):
    """Finished lengths by name."""
    return {m.name: m.value for m in BUILDERS[name].measures(dimensions(name, **changes), 5)}


# Rims.


@given(
    st.floats(150, 500),
    st.floats(150, 500),
    st.floats(-60, 60),
    st.floats(-60, 60),
    st.integers(0, 9),
)
@settings(max_examples=60, deadline=None)
def test_shaped_rims_are_sound_and_leave_the_middle(top, bottom, slant_top, slant_bottom, scallops):
    """Slants and scallops change the closing edges by what is asked, and never the middle."""
    shape = build(
        "tapered-tube",
        girth_top=top,
        girth_bottom=bottom,
        length=200.0,
        slant_top=slant_top,
        slant_bottom=slant_bottom,
        scallops_top=float(scallops),
        scallop_depth=4.0,
    )
    assert fault_of(shape) is None
    side = 200 - slant_top - slant_bottom - (4 if scallops else 0)
    assert lengths(shape)["side"] == pytest.approx(side, abs=1e-4)
    assert lengths(shape)["side-2"] == pytest.approx(side, abs=1e-4)


def test_a_slanted_rim_lies_in_a_plane():
    """Rolled up, every point of a slanted rim lies in one plane, on a cone and on a cylinder."""
    for top, bottom in ((420.0, 300.0), (300.0, 420.0), (360.0, 360.0)):
        tube = FlatTube(top, bottom, 200.0)
        height = plain_height(tube, Rim("top", 200.0, slant=50.0))
        rise = (200.0**2 - ((top - bottom) / tau) ** 2) ** 0.5 / 200.0
        points = []
        for n in range(13):
            turn = pi * n / 12
            up = height(turn)
            points.append((tube.girth(up) / tau * cos(turn), up * rise))
        # In a plane square to the middle, the height is a linear function of x.
        (x0, z0), (x1, z1) = points[0], points[-1]
        for x, z in points:
            assert z == pytest.approx(z0 + (z1 - z0) * (x - x0) / (x1 - x0), abs=1e-9)
        assert height(0) == pytest.approx(200)
        assert height(pi) == pytest.approx(150)


def test_scallops_touch_the_plain_rim():
    """Seven scallops are seven arcs, as high as the plain rim, cut in by their depth between."""
    shape = build("tapered-tube", girth_bottom=280.0, scallops_top=7.0, scallop_depth=8.0)
    arcs = [segment for segment in shape.edge("top").run if isinstance(segment, Arc)]
    assert len(arcs) == 8  # the middle one is drawn in two halves
    _, low, _, high = bounds((shape.edge("top").run,))
    assert high - low == pytest.approx(8, abs=0.02)


def test_deep_scallops_are_refused():
    """A scallop deeper than half its width would hang over its neighbour."""
    with pytest.raises(ShapeError, match="half of a scallop") as refused:
        build("tapered-tube", scallops_top=20.0, scallop_depth=12.0)
    assert refused.value.dimension == "scallop-depth"
    with pytest.raises(ShapeError, match="nothing at the closing edges"):
        build("tapered-tube", slant_top=120.0, slant_bottom=100.0)


def test_flare_adds_to_one_rim():
    """A flare makes its rim longer and leaves the other."""
    plain, flared = lengths(build("tapered-tube")), lengths(build("tapered-tube", flare_top=30.0))
    assert flared["top"] - plain["top"] == pytest.approx(30)
    assert flared["bottom"] == pytest.approx(plain["bottom"])


# Belts.


def test_the_middle_hole_of_a_belt_fits_the_girth():
    """From the left end to the middle hole it is the closed girth; the overlap lies beyond."""
    shape = build("belt", ease=20.0, backing=4.0, holes=5.0, pitch=25.0, overlap=120.0)
    closed = 860 + 20 + tau * (4 + 2.5)
    left, _, right, _ = bounds((shape.ring(),))
    assert right - left == pytest.approx(closed + 120)
    centres = [hole[0].centre[0] - left for hole in shape.holes]
    assert centres[2] == pytest.approx(closed)
    steps = [b - a for a, b in pairwise(centres)]
    assert steps == pytest.approx([25] * 4)
    assert measures("belt", ease=20.0, backing=4.0)["left end to the middle hole"] == (
        pytest.approx(closed)
    )


@pytest.mark.parametrize(
    ("changes", "dimension"),
    [
        ({"holes": 9.0, "pitch": 25.0}, "overlap"),
        ({"holes": 3.0, "pitch": 6.0}, "pitch"),
        ({"holes": 1.0, "hole": 48.0}, "hole"),
        ({"holes": 1.5}, "holes"),
        ({"tip": 900.0}, "tip"),
        ({"overlap": -1.0}, "overlap"),
        ({"ease": -2000.0}, "ease"),
    ],
)
def test_belts_that_cannot_be(changes, dimension):
    """Holes that do not fit, and other slips, are refused where they stand."""
    with pytest.raises(ShapeError) as refused:
        build("belt", **changes)
    assert refused.value.dimension == dimension


# Lames and scales.


def test_lames_cover_the_length_with_their_overlaps():
    """Three lames of one row overlap by 20 mm and reach from the top to the bottom girth."""
    rows = [build("lame", lame=float(number)) for number in (1, 2, 3)]
    heights = [measures("lame", lame=float(number))["height"] for number in (1, 2, 3)]
    assert sum(heights) - 2 * 20 == pytest.approx(180)
    assert lengths(rows[0])["top"] == pytest.approx(330 + 5 * pi)
    assert lengths(rows[2])["bottom"] == pytest.approx(290 + 5 * pi)
    # Where a lame lies over the next, both are equally long around, 20 mm from their edges.
    step = (330 - 290) / 180
    assert lengths(rows[0])["bottom"] - step * 20 == pytest.approx(
        lengths(rows[1])["top"] - 2 * step * 20, abs=1e-6
    )


def test_lames_that_cannot_be():
    """There is no fourth lame of three, nor one that is hidden by its neighbours."""
    with pytest.raises(ShapeError, match="from 1 to 3"):
        build("lame", lame=4.0)
    with pytest.raises(ShapeError, match="half of a lame"):
        build("lame", overlap=80.0)


def test_rows_of_scales():
    """Scales share the length between them; a round one ends in a half circle, a pointed in a tip."""
    shape = build("scale-row")
    arcs = [segment for segment in shape.edge("bottom").run if isinstance(segment, Arc)]
    width = (300 - 5 * 2) / 6
    assert [arc.radius for arc in arcs] == pytest.approx([width / 2] * 6)
    assert all(arc.sweep == 180 for arc in arcs)
    # The row above covers the band down to this line.
    assert [line.label for line in shape.lines] == ["row above to here"]
    pointed = build("scale-row", point=25.0)
    assert bounds((pointed.ring(),)) == pytest.approx(bounds((shape.ring(),)), abs=0.02)
    assert fault_of(pointed) is None
    for changes, dimension in (
        ({"scales": 90.0}, "scales"),
        ({"point": 50.0}, "point"),
        ({"depth": 20.0}, "depth"),
    ):
        with pytest.raises(ShapeError) as refused:
            build("scale-row", **changes)
        assert refused.value.dimension == dimension


# Domes.


def test_gores_share_every_parallel():
    """The rim of all gores together is the circumference of the dome there."""
    found = measures("gore", arc=130.0, neutral=0.0)
    assert found["rim of one gore"] * 5 == pytest.approx(tau * 110 * sin(130 / 110))
    assert found["middle line, crown to rim"] == pytest.approx(130)
    assert found["inside depth"] == pytest.approx(110 * (1 - cos(130 / 110)))


def test_foam_makes_gores_larger():
    """Backing and foam move the dome's measuring layer outward, at the same angle."""
    found = measures("gore", arc=130.0, backing=3.0)
    assert found["middle line, crown to rim"] == pytest.approx(130 * (110 + 3 + 2.5) / 110)


def test_spheroids_lie_between():
    """A flatter dome has shorter gores than a ball, and as wide at the rim."""
    ball, flat = measures("gore"), measures("gore", rise=70.0)
    assert flat["rim of one gore"] == pytest.approx(ball["rim of one gore"])
    assert flat["middle line, crown to rim"] < ball["middle line, crown to rim"]
    assert flat["inside depth"] == pytest.approx(70)


GORES = """\
parts:
  gore:
    name: Gore
    label: G
    material: foam-5
    shape: gore
    dimensions: {gores: 5, radius: 110, arc: 130}
    copies: 5
seams:
  ribs: {join: [gore.right, gore.left]}
"""


def test_gore_marks_meet_at_equal_height():
    """Both sides of a gore have the same ticks at the same height, so gores match all round."""
    kit = good_kit(GORES)
    (piece,) = kit.pieces
    sides = {"right": [], "left": []}
    for mark in piece.shape.marks:
        sides[mark.edge].append((round(mark.point[1], 6), mark.ticks))
    assert len(sides["right"]) >= 2
    assert sorted(sides["right"]) == sorted(sides["left"])
    assert kit.seams[0].copies == 5


@pytest.mark.parametrize(("top", "bottom"), [(300.0, 0.5), (0.5, 300.0)])
def test_a_full_cone_needs_no_slant_to_be_made(top, bottom):
    """A tube that ends in a point, with no slant given, is made; its rims have their girths."""
    given = {"girth_top": top, "girth_bottom": bottom, "length": 200.0, "gap": 0.0, "ease": 0.0}
    shape = build("tapered-tube", **given, backing=0.0, neutral=0.0)
    assert fault_of(shape) is None
    edges = lengths(shape)
    assert (edges["top"], edges["bottom"]) == pytest.approx((top, bottom), abs=0.01)


@pytest.mark.parametrize("point", ["top", "bottom"])
def test_a_girth_of_nothing_is_the_point_of_a_full_cone(point):
    """Its rim is what 5 mm of foam leave at half their thickness; area of a frustum, pi s (R + r)."""
    girths = {"girth_top": 300.0, "girth_bottom": 300.0, f"girth_{point}": 0.0}
    plain = {"length": 200.0, "gap": 0.0, "ease": 0.0, "backing": 0.0}
    shape = build("tapered-tube", **girths, **plain)
    assert fault_of(shape) is None
    edges = lengths(shape)
    foam = 2 * pi * 2.5
    assert edges[point] == pytest.approx(foam, abs=0.01)
    assert shape_area(shape) == pytest.approx(200 * (300 + 2 * foam) / 2, rel=1e-4)


@pytest.mark.parametrize(
    ("changes", "dimension", "words"),
    [
        ({"girth_top": 0.0, "neutral": 0.0}, "girth-top", "the point of a full cone"),
        ({"girth_bottom": 0.0, "neutral": 0.0}, "girth-bottom", "a girth of 1 mm or more"),
        ({"girth_top": 0.0, "girth_bottom": 0.0}, "girth-top", "both rims are points"),
        ({"girth_top": -5.0}, "girth-top", "expected 0 or more, found -5"),
        ({"girth_top": 0.0, "ease": -40.0}, "ease", "takes away more than the whole girth"),
        ({"girth_top": 0.0, "gap": 20.0}, "gap", "larger than the whole tube"),
    ],
)
def test_cones_that_cannot_be_say_what_is_wrong(changes, dimension, words):
    """The message is about the point where the girth is 0, and about ease where that takes it."""
    given = {"girth_top": 300.0, "girth_bottom": 200.0, "length": 200.0, "gap": 0.0, "ease": 0.0}
    with pytest.raises(ShapeError) as refused:
        build("tapered-tube", **(given | {"backing": 0.0} | changes))
    assert refused.value.dimension == dimension
    assert words in str(refused.value)


def test_cap_halves_share_what_the_foam_has_to_give():
    """The crown is too long by the share by which the middle is too short, and both are told."""
    for sizes in ((200.0, 160.0, 130.0), (200.0, 200.0, 100.0), (200.0, 160.0, 50.0)):
        named = dict(zip(("length", "width", "rise"), sizes, strict=True))
        told = measures("cap-half", **named)
        crown = told["crown seam, along the edge"] / told["crown seam, once formed with heat"]
        middle = "end to end along the middle"
        kept = told[middle] / told[f"{middle}, once formed with heat"]
        assert crown - 1 == pytest.approx(1 - kept, abs=1e-4)
        assert abs(crown - 1) < 0.16
        edges = lengths(build("cap-half", **named))
        assert edges["crown"] == pytest.approx(told["crown seam, along the edge"])
        assert edges["rim"] == pytest.approx(told["rim, along the edge"])


def test_a_cap_half_of_a_tall_narrow_cap_keeps_a_straight_rim():
    """Where bending the rim would only stretch the middle more, the rim stays straight."""
    shape = build("cap-half", length=100.0, width=100.0, rise=300.0, neutral=0.0)
    points = flatten(shape.edge("rim").run)
    assert max(y for _, y in points) - min(y for _, y in points) < 0.01
    assert fault_of(shape) is None


def test_darts_take_out_what_is_too_much():
    """With its darts closed, the rim of a dome is as long as the ball is around there."""
    shape = build("dome", neutral=0.0)
    rim = sum(length for name, length in lengths(shape).items() if name.startswith("rim"))
    assert rim == pytest.approx(tau * 100 * sin(1.2))
    assert measures("dome", neutral=0.0)["one dart, at the rim"] == pytest.approx(56.1, abs=0.05)
    found = lengths(shape)
    for number in (1, 2, 3):
        assert found[f"dart-{number}a"] == pytest.approx(found[f"dart-{number}b"])


@given(st.integers(2, 12), st.floats(0.3, 2.4), st.floats(0.05, 0.75))
@settings(max_examples=40, deadline=None)
def test_domes_are_sound(darts, turn, tip):
    """Any dome within the limits has an outline that does not cross itself."""
    shape = build("dome", radius=150.0, arc=150 * turn, darts=float(darts), tip=150 * turn * tip)
    assert fault_of(shape) is None
    reach = max(hypot(x, y) for x, y in flatten(shape.ring()))
    assert reach > 150 * turn * 0.9


@pytest.mark.parametrize(
    ("name", "changes", "dimension"),
    [
        ("gore", {"gores": 1.0}, "gores"),
        ("gore", {"arc": 345.0}, "arc"),
        ("gore", {"rise": 5.0}, "rise"),
        ("gore", {"backing": -1.0}, "backing"),
        ("cap-half", {"rise": 2.0}, "rise"),
        ("dome", {"darts": 13.0}, "darts"),
        ("dome", {"arc": 251.0}, "arc"),
        ("dome", {"tip": 110.0}, "tip"),
    ],
)
def test_domes_that_cannot_be(name, changes, dimension):
    """Impossible domes are refused at the dimension that is wrong."""
    with pytest.raises(ShapeError) as refused:
        build(name, **changes)
    assert refused.value.dimension == dimension


def test_gore_tips_meet_in_one_point():
    """Both sides of a gore end in its tip, and start at the ends of its rim."""
    shape = build("gore")
    right, left = shape.edge("right").run, shape.edge("left").run
    assert segment_end(right[-1]) == pytest.approx(segment_start(left[0]), abs=1e-9)
    assert run_length(right) == pytest.approx(run_length(left))


def test_a_leaning_tube_states_lean_and_height():
    """The frustum of school geometry: radii that differ by 210 / 2 pi on a slope of 64 mm."""
    found = measures("tapered-tube", girth_top=90.0, girth_bottom=300.0, length=64.0)
    inward = 210 / (2 * pi)
    height = found["height of the closed tube"]
    assert hypot(height, inward) == pytest.approx(64)
    lean = found["lean of its wall, and bevel with which its rims stand flat"]
    assert 64 * cos(lean * pi / 180) == pytest.approx(height)
    straight = measures("tapered-tube", girth_top=300.0, girth_bottom=300.0, length=64.0)
    assert not [name for name in straight if "lean" in name or "height" in name]
