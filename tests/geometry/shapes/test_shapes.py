"""Computed shapes: their edges, sizes and refusals."""

from math import pi, radians, tau

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.buildfile.records.vocabulary import SHAPES
from guidegen.geometry.outline.areas import fault_of, shape_area
from guidegen.geometry.outline.measures import (
    bounds,
    run_area,
    run_length,
    segment_end,
    segment_start,
)
from guidegen.geometry.outline.records import Line
from guidegen.geometry.outline.unfold import unfold
from guidegen.geometry.shapes.building import ShapeError, wrap_length
from guidegen.geometry.shapes.registry import BUILDERS

GIVEN = {
    "tapered-tube": {"girth-top": 280.0, "girth-bottom": 185.0, "length": 210.0},
    "horn-segment": {"girth": 170.0, "length": 260.0, "segments": 6.0, "segment": 2.0},
    "strip": {"length": 320.0, "width": 28.0},
    "disc": {"diameter": 160.0},
    "ring": {"outside": 160.0, "inside": 90.0},
    "rounded-rectangle": {"width": 90.0, "height": 70.0, "radius": 12.0},
    "frame": {"width": 60.0, "height": 90.0, "web": 10.0, "radius": 14.0},
    "polygon": {"sides": 5.0, "across": 120.0},
    "belt": {"girth": 860.0, "width": 50.0},
    "lame": {
        "girth-top": 330.0,
        "girth-bottom": 290.0,
        "length": 180.0,
        "lames": 3.0,
        "lame": 2.0,
    },
    "scale-row": {"length": 300.0, "scales": 6.0, "depth": 40.0, "band": 15.0},
    "gore": {"gores": 5.0, "radius": 110.0},
    "cap-half": {"length": 200.0, "width": 160.0, "rise": 90.0},
    "dome": {"radius": 100.0, "arc": 120.0, "darts": 3.0},
    "gusset": {"slit": 120.0, "opens": 100.0},
    "godet": {"slit": 200.0, "angle": 40.0},
    "ellipse": {"width": 120.0, "height": 80.0},
    "superellipse": {"width": 120.0, "height": 80.0},
    "star": {"points": 5.0, "outside": 120.0, "inside": 60.0},
    "crescent": {"diameter": 120.0, "bite": 110.0, "thickness": 40.0},
    "leaf": {"length": 160.0, "width": 60.0},
    "ridge": {"length": 320.0, "base": 48.0, "rise": 14.0},
    "ring-segment": {"segments": 6.0, "across": 160.0, "width": 30.0},
    "box": {"width": 90.0, "depth": 60.0, "height": 40.0},
}
"""Dimensions without a default, for one good example of each shape."""


def dimensions(name, **changes: float):
    """The example's dimensions with defaults filled in."""
    defaults = {d.name: d.default for d in SHAPES[name].dimensions if d.default is not None}
    return defaults | GIVEN[name] | {key.replace("_", "-"): v for key, v in changes.items()}


ZERO = {"tapered-tube": ("girth-top", "girth-bottom")}
"""Dimensions that may be 0: square corners, and the point of a full cone."""


def build(name, **changes: float):
    """The whole shape."""
    return BUILDERS[name].whole(dimensions(name, **changes), 5)


def test_registry_and_vocabulary_agree():
    """Every shape that authors may name can be built, with the edges that the vocabulary lists."""
    assert list(BUILDERS) == list(SHAPES)
    assert set(GIVEN) == set(SHAPES)
    for name, kind in SHAPES.items():
        needed = {d.name for d in kind.dimensions if d.default is None}
        assert set(GIVEN[name]) - {"radius"} == needed - {"radius"}
        edges = tuple(edge.name for edge in build(name).edges)
        assert edges == kind.edges or (kind.edges_vary and set(edges) <= set(kind.edges))
        assert (BUILDERS[name].half is not None) == bool(kind.half_edges)
        if kind.half_edges:
            half = BUILDERS[name].half(dimensions(name), 5)
            assert tuple(edge.name for edge in half.edges) == kind.half_edges


@pytest.mark.parametrize("name", BUILDERS)
def test_shapes_are_sound_and_centred(name):
    """Every shape is a closed ring, counter-clockwise, sound, its middle in the origin."""
    shape = build(name)
    ring = shape.ring()
    for segment, following in zip(ring, ring[1:] + ring[:1], strict=True):
        assert segment_end(segment) == pytest.approx(segment_start(following), abs=1e-6)
    assert run_area(ring) > 0
    assert all(run_area(hole) < 0 for hole in shape.holes)
    assert fault_of(shape) is None
    left, low, right, high = bounds((ring,))
    assert (left + right, low + high) == pytest.approx((0, 0), abs=0.05)


@pytest.mark.parametrize("name", [name for name, kind in SHAPES.items() if kind.half_edges])
def test_halves_unfold_to_the_whole(name):
    """A half template, unfolded, covers what the whole shape covers."""
    half = BUILDERS[name].half(dimensions(name), 5)
    whole = unfold(half, "centre")
    assert shape_area(whole) == pytest.approx(shape_area(build(name)), rel=1e-4)
    assert bounds((whole.ring(),)) == pytest.approx(bounds((build(name).ring(),)), abs=0.05)
    assert shape_area(half) == pytest.approx(shape_area(whole) / 2, rel=1e-4)


@pytest.mark.parametrize("name", BUILDERS)
def test_measures_are_positive_and_named(name):
    """Every shape states at least one finished length."""
    measures = BUILDERS[name].measures(dimensions(name), 5)
    assert measures
    assert all(measure.value > 0 and measure.name for measure in measures)


@pytest.mark.parametrize("name", BUILDERS)
@pytest.mark.parametrize("bad", [0.0, -5.0])
def test_zero_and_negative_dimensions_are_refused(name, bad):
    """A length of nothing or less is refused, and the message says which dimension it is."""
    for dimension in GIVEN[name]:
        if bad == 0 and dimension in ZERO.get(name, ("radius",)):
            continue
        with pytest.raises(ShapeError) as refused:
            build(name, **{dimension: bad})
        assert refused.value.dimension in GIVEN[name]


# The tube around a limb.


def lengths(shape):
    """Length of every edge by name."""
    return {edge.name: run_length(edge.run) for edge in shape.edges}


def test_tube_rims_close_around_limb_backing_and_foam():
    """A rim is girth + ease + 2*pi*(backing + half the foam) long, the closing edges as asked."""
    found = lengths(build("tapered-tube", ease=25.0, backing=3.0))
    around = 25 + tau * (3 + 2.5)
    assert found["top"] == pytest.approx(280 + around)
    assert found["bottom"] == pytest.approx(185 + around)
    assert found["side"] == pytest.approx(210)
    assert found["side-2"] == pytest.approx(210)


@given(
    st.floats(100, 700),
    st.floats(100, 700),
    st.floats(150, 600),
    st.floats(0, 40),
    st.floats(0, 40),
)
def test_tube_rims_lose_the_gap_and_gain_the_overlap(top, bottom, length, gap, overlap):
    """Both rims are the closed length less the gap plus the overlap, whatever the taper."""
    changes = {"girth_top": top, "girth_bottom": bottom, "length": length}
    found = lengths(build("tapered-tube", gap=gap, overlap=overlap, **changes))
    assert found["top"] == pytest.approx(top + pi * 5 - gap + overlap, abs=0.01)
    assert found["bottom"] == pytest.approx(bottom + pi * 5 - gap + overlap, abs=0.01)
    assert found["side"] == pytest.approx(found["side-2"])


@given(st.floats(120, 600), st.floats(5, 100), st.floats(60, 500))
def test_development_inverts(long_rim, less, slope):
    """From the flat outline one gets back both rims and the slope."""
    changes = {"girth_top": long_rim, "girth_bottom": long_rim - less, "length": slope}
    shape = build("tapered-tube", **changes)
    (top,), (bottom,) = shape.edge("top").run, shape.edge("bottom").run
    angle = radians(abs(top.sweep))
    assert angle * top.radius - pi * 5 == pytest.approx(long_rim)
    assert angle * bottom.radius - pi * 5 == pytest.approx(long_rim - less)
    assert top.radius - bottom.radius == pytest.approx(slope)


def test_a_tube_with_equal_girths_is_a_rectangle():
    """The limit of the taper is a cylinder, whose flat outline is straight all round."""
    shape = build("tapered-tube", girth_bottom=280.0)
    assert all(isinstance(segment, Line) for segment in shape.ring())
    assert lengths(shape)["top"] == pytest.approx(280 + pi * 5)


def test_towards_the_cylinder_nothing_jumps():
    """A taper of a hair gives nearly the same outline as none."""
    straight, tapered = build("tapered-tube", girth_bottom=280.0), None
    tapered = build("tapered-tube", girth_bottom=279.9)
    assert bounds((tapered.ring(),)) == pytest.approx(bounds((straight.ring(),)), abs=0.2)


def test_a_tube_wider_below_is_the_other_one_upside_down():
    """Swapping the girths turns the outline over."""
    up = build("tapered-tube")
    down = build("tapered-tube", girth_top=185.0, girth_bottom=280.0)
    assert shape_area(up) == pytest.approx(shape_area(down))
    assert lengths(up)["top"] == pytest.approx(lengths(down)["bottom"])


def test_the_neutral_layer_sets_how_much_the_foam_adds():
    """With the neutral layer inside nothing is added, outside the foam's whole thickness counts."""
    values = {"ease": 0.0, "backing": 0.0}
    assert wrap_length(300, values | {"neutral": 0.0}, 10) == 300
    assert wrap_length(300, values | {"neutral": 1.0}, 10) == pytest.approx(300 + tau * 10)


@pytest.mark.parametrize(
    ("changes", "dimension", "words"),
    [
        ({"gap": 400.0}, "gap", "larger than the whole tube"),
        ({"gap": -1.0}, "gap", "0 or more"),
        ({"overlap": -1.0}, "overlap", "0 or more"),
        ({"backing": -1.0}, "backing", "0 or more"),
        ({"neutral": 1.5}, "neutral", "from 0 to 1"),
        ({"ease": -400.0}, "ease", "more than the whole girth"),
        ({"length": 12.0}, "length", "flatter than a flat ring"),
    ],
)
def test_tubes_that_cannot_be(changes, dimension, words):
    """Impossible tubes are refused at the dimension that is wrong."""
    with pytest.raises(ShapeError, match=words) as refused:
        build("tapered-tube", **changes)
    assert refused.value.dimension == dimension


# Plates.


@pytest.mark.parametrize(
    ("name", "changes", "dimension"),
    [
        ("ring", {"inside": 160.0}, "inside"),
        ("rounded-rectangle", {"radius": 36.0}, "radius"),
        ("frame", {"web": 30.0}, "web"),
        ("polygon", {"sides": 2.0}, "sides"),
        ("polygon", {"sides": 5.5}, "sides"),
        ("polygon", {"sides": 1e6}, "sides"),
    ],
)
def test_plates_that_cannot_be(name, changes, dimension):
    """A hole as large as its disc, a radius too large, half a side: refused where it stands."""
    with pytest.raises(ShapeError) as refused:
        build(name, **changes)
    assert refused.value.dimension == dimension


def test_areas_of_plates():
    """Areas follow the formulas of school geometry, within what flattening takes."""
    assert shape_area(build("disc")) == pytest.approx(pi * 80**2)
    assert shape_area(build("ring")) == pytest.approx(pi * (80**2 - 45**2))
    corners = (4 - pi) * 12**2
    assert shape_area(build("rounded-rectangle")) == pytest.approx(90 * 70 - corners)
    window = 40 * 70 - (4 - pi) * 4**2
    frame = 60 * 90 - (4 - pi) * 14**2 - window
    assert shape_area(build("frame")) == pytest.approx(frame)


def test_rounded_edges_end_in_the_middle_of_corners():
    """Each edge of a rounded plate takes half of both its corners, so opposite edges are equal."""
    found = lengths(build("rounded-rectangle"))
    assert found["bottom"] == pytest.approx(90 - 24 + 12 * pi / 2)
    assert found["right"] == pytest.approx(70 - 24 + 12 * pi / 2)
    assert found["top"] == pytest.approx(found["bottom"])


@given(st.integers(3, 40), st.floats(10, 400))
def test_polygons_stand_on_a_side(sides, across):
    """Polygons are sound, have equal sides, and the first of them lies level at the bottom."""
    shape = build("polygon", sides=float(sides), across=across)
    run = shape.edge("rim").run
    assert len(run) == sides
    assert [run_length((side,)) for side in run] == pytest.approx([run_length(run[:1])] * sides)
    assert run[0].start[1] == pytest.approx(run[0].end[1], abs=1e-9)
    assert fault_of(shape) is None
