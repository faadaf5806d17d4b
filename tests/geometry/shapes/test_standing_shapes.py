"""Curved plates, ridges, rings of segments and boxes."""

from math import cos, hypot, pi, radians, sin, tan

import pytest
from geometry.kit_samples import good_kit
from geometry.shapes.test_shapes import build, dimensions, lengths
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.geometry.outline.areas import fault_of, shape_area
from guidegen.geometry.outline.distances import distance_to_line
from guidegen.geometry.outline.measures import bounds, flatten, run_length, segment_start
from guidegen.geometry.outline.records import LineKind
from guidegen.geometry.shapes.building import ShapeError
from guidegen.geometry.shapes.registry import BUILDERS


def bevels(name, thickness=10.0, **changes: float):
    """Angle and direction of a shape's own bevels, by edge."""
    found = BUILDERS[name].bevels(dimensions(name, **changes), thickness)
    return {edge: (bevel.angle, bevel.direction) for edge, bevel in found.items()}


# Curved plates.


@given(st.floats(20, 400), st.floats(20, 400), st.floats(1.05, 20))
@settings(max_examples=40, deadline=None)
def test_superellipses_follow_their_equation(width, height, exponent):
    """Every point of the outline satisfies |x/a|**n + |y/b|**n = 1, within a hundredth of a mm."""
    shape = build("superellipse", width=width, height=height, exponent=exponent)
    assert fault_of(shape) is None
    for x, y in flatten(shape.ring())[::7]:
        reach = (abs(2 * x / width) ** exponent + abs(2 * y / height) ** exponent) ** (1 / exponent)
        # How far the point is off, along its ray from the middle.
        assert hypot(x, y) * abs(1 - 1 / reach) < 0.05


def test_superellipses_between_their_limits():
    """Exponent 2 is the ellipse, 1 the diamond, and a large one nearly the rectangle."""
    ellipse = shape_area(build("ellipse"))
    assert shape_area(build("superellipse", exponent=2.0)) == pytest.approx(ellipse, rel=1e-4)
    assert shape_area(build("superellipse", exponent=1.0)) == pytest.approx(120 * 80 / 2)
    assert shape_area(build("superellipse", exponent=20.0)) > 0.98 * 120 * 80


@given(st.integers(3, 20), st.floats(60, 300), st.floats(0.2, 0.95))
def test_stars_have_a_point_upright(points, outside, share):
    """A star is sound, twice as many sides as points, the highest point in the middle."""
    shape = build("star", points=float(points), outside=outside, inside=outside * share)
    run = shape.edge("rim").run
    assert len(run) == 2 * points
    assert fault_of(shape) is None
    corners = [segment_start(segment) for segment in run]
    top = max(corners, key=lambda point: point[1])
    left, _, right, _ = bounds((run,))
    assert top[0] == pytest.approx((left + right) / 2, abs=outside * 0.02)


def test_crescents_are_as_thick_as_asked():
    """In the middle, the crescent measures its thickness from the left of the disc to the bite."""
    shape = build("crescent")
    xs = [x for x, y in flatten(shape.edge("inner").run)]
    left = min(x for x, _ in flatten(shape.edge("outer").run))
    assert min(xs) - left == pytest.approx(40, abs=0.05)
    assert fault_of(shape) is None


def test_leaves_are_as_long_and_wide_as_asked():
    """A leaf measures its length from point to point and its width across the middle."""
    assert bounds((build("leaf").ring(),)) == pytest.approx((-30, -80, 30, 80), abs=0.05)


@pytest.mark.parametrize(
    ("name", "changes", "dimension"),
    [
        ("ellipse", {"width": 9000.0}, "height"),
        ("superellipse", {"exponent": 0.5}, "exponent"),
        ("star", {"inside": 120.0}, "inside"),
        ("star", {"points": 2.0}, "points"),
        ("crescent", {"bite": 70.0}, "bite"),
        ("crescent", {"thickness": 130.0}, "thickness"),
        ("leaf", {"width": 170.0}, "width"),
        ("ridge", {"stands": 2.0}, "stands"),
        ("ridge", {"base": 2.0}, "base"),
        ("ridge", {"stands": 1.0, "rise": 5.0}, "rise"),
        ("ridge", {"radius": 40.0}, "length"),
        ("ring-segment", {"width": 90.0}, "width"),
        ("ring-segment", {"lean": 95.0}, "lean"),
        ("ring-segment", {"segments": 2.0}, "segments"),
        ("box", {"lean": -31.0}, "lean"),
        ("box", {"lean": 90.0}, "lean"),
        ("box", {"floor": 5.0}, "floor"),
    ],
)
def test_plates_that_cannot_be(name, changes, dimension):
    """Plates that cannot be cut or joined are refused at the dimension that is wrong."""
    with pytest.raises(ShapeError) as refused:
        build(name, **changes)
    assert refused.value.dimension == dimension


# Ridges.


def test_a_straight_ridge_is_a_strip_with_two_bevels():
    """28 mm strips leaning 60 degrees from upright meet at 120: 30 degrees at the crest inward,
    and half of the hollow, 15 degrees, at the foot outward."""
    wide = {"base": 2 * 28 * sin(radians(60)), "rise": 28 * cos(radians(60))}
    shape = build("ridge", **wide)
    assert lengths(shape) == pytest.approx({"foot": 320, "crest": 320, "right": 28, "left": 28})
    found = bevels("ridge", **wide)
    assert found["crest"] == (pytest.approx(30), "inward")
    assert found["foot"] == (pytest.approx(15), "outward")
    standing = bevels("ridge", stands=1.0, **wide)
    assert standing["foot"] == (pytest.approx(60), "inward")


def test_a_ridge_in_an_arc():
    """Around a circle, the crest is longer than the foot by the rise over the radius."""
    found = lengths(build("ridge", radius=150.0))
    assert found["foot"] == pytest.approx(320)
    assert found["crest"] == pytest.approx(320 * (150 + 14) / 150)
    assert found["right"] == pytest.approx(hypot(24, 14))
    # What a tape checks is the whole strip, also where it is drawn as a half on the fold.
    measured = BUILDERS["ridge"].measures(dimensions("ridge", radius=150.0), 10.0)
    assert [one.value for one in measured] == pytest.approx(
        [found["crest"], found["foot"], found["right"]]
    )


RIDGE = """\
parts:
  strip:
    name: Ridge strip
    label: R
    material: foam-10
    shape: ridge
    dimensions: {length: 320, base: 48, rise: 14, radius: 150}
    hand: pair
seams:
  crest: {join: [strip.crest, strip.crest]}
"""


def test_both_faces_of_a_ridge_are_drawn():
    """The piece shows where its inner face ends at the crest and its outer face at the foot."""
    left, right = good_kit(RIDGE).pieces
    for piece in (left, right):
        far = {bevel.edge: bevel for bevel in piece.shape.bevels}
        assert far["crest"].direction == "inward"
        assert far["foot"].direction == "outward"
        shorter = run_length(piece.shape.edge("crest").run) - run_length(far["crest"].far_face)
        assert shorter > 0


def test_an_author_may_change_a_bevel():
    """A bevel that the guide gives replaces that of the shape; angle 0 takes it away."""
    text = RIDGE.replace(
        "    hand: pair\n",
        "    hand: pair\n    bevels: {crest: {angle: 20, direction: inward},"
        " foot: {angle: 0, direction: inward}}\n",
    )
    found = {bevel.edge: bevel.angle for bevel in good_kit(text).pieces[0].shape.bevels}
    assert found == {"crest": 20}


# Rings of segments.


@given(st.integers(3, 24), st.floats(0, 90), st.floats(100, 400), st.floats(0.05, 0.9))
def test_segments_close_to_a_ring(count, lean, across, share):
    """Set up in space, each plate's upper corners lie on the neighbouring plates' planes too."""
    low = across / 2
    width = share * low / max(sin(radians(lean)), 0.2)
    high = low - width * sin(radians(lean))
    if high * tan(pi / count) < 1:
        return
    found = lengths(
        build("ring-segment", segments=float(count), lean=lean, across=across, width=width)
    )
    assert found["bottom"] == pytest.approx(2 * low * tan(pi / count))
    assert found["top"] == pytest.approx(2 * high * tan(pi / count))
    rise = width * cos(radians(lean))
    # The edge between two plates, from the lower to the upper corner circle.
    corner = hypot((low - high) / cos(pi / count), rise)
    assert found["right"] == pytest.approx(corner)


def test_ring_bevels():
    """Six upright plates are bevelled by 30 degrees; lying flat they are mitred instead."""
    upright = bevels("ring-segment", lean=0.0)
    assert upright["right"] == upright["left"] == (pytest.approx(30), "inward")
    assert bevels("ring-segment") == {}


# Boxes.


BOX = """\
parts:
  box:
    name: Box
    label: B
    material: foam-10
    shape: box
    dimensions: {width: 90, depth: 60, height: 40, lean: 15}
seams:
  c1: {join: [box.front-right, box.right-front]}
  c2: {join: [box.right-back, box.back-right]}
  c3: {join: [box.back-left, box.left-back]}
  c4: {join: [box.left-front, box.front-left]}
"""


def test_the_corners_of_a_box_close():
    """Both edges of each corner are equally long, on upright and on leaning walls."""
    for text in (BOX, BOX.replace("lean: 15", "lean: 0"), BOX.replace("lean: 15", "lean: -12")):
        kit = good_kit(text)
        assert [seam.mismatch for seam in kit.seams] == pytest.approx([0] * 4)
    upright = good_kit(BOX.replace("lean: 15", "lean: 0"))
    assert upright.seams[0].first_length == pytest.approx(40)


def test_a_box_is_folded_at_four_grooves():
    """Walls are folded up by 90 degrees less their lean, at grooves along the floor."""
    (piece,) = good_kit(BOX).pieces
    lean = 15 / 40
    assert [groove.fold for groove in piece.grooves] == pytest.approx([69.444] * 4, abs=1e-3)
    assert sorted(run_length(groove.run) for groove in piece.grooves) == [60, 60, 90, 90]
    assert piece.grooves[0].depth == 8
    half = piece.grooves[0].mouth / 2
    for groove in piece.grooves:  # rims lie in the floor and in the wall, as long as the fold
        assert [run_length(rim) for rim in groove.rims] == pytest.approx(
            [run_length(groove.run)] * 2
        )
        for rim in groove.rims:
            assert distance_to_line(flatten(groove.run), rim[0].start) == pytest.approx(half)
    assert sum(line.kind is LineKind.GROOVE for line in piece.shape.lines) == 4
    assert tan(radians(90 - piece.grooves[0].fold)) == pytest.approx(lean)


def test_bevels_of_a_box():
    """Upright walls are bevelled by 45 degrees; far faces stop at the folds."""
    assert list(bevels("box").values()) == [(pytest.approx(45), "inward")] * 8
    (piece,) = good_kit(BOX).pieces
    for bevel in piece.shape.bevels:
        assert len(piece.shape.bevels) == 8
        for x, y in flatten(bevel.far_face):
            assert abs(x) >= 45 - 1e-6 or abs(y) >= 30 - 1e-6


def test_the_net_of_a_box_has_the_area_of_its_faces():
    """Floor and four walls make up the net."""
    slope = hypot(40, 15)
    walls = 2 * slope * ((90 + 120) / 2 + (60 + 90) / 2)
    shape = build("box", lean=15.0)
    assert shape_area(shape) == pytest.approx(90 * 60 + walls)
