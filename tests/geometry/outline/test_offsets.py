"""Edges moved sideways: allowances outside, far faces of bevels inside."""

from math import cos, pi, radians, sin, tan

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from guidegen.geometry.outline.allowances import EdgeAllowance, add_allowances
from guidegen.geometry.outline.areas import fault_of, polygon_area, shape_area
from guidegen.geometry.outline.bevels import EdgeBevel, bevel_setback, bevelled_edges
from guidegen.geometry.outline.curves import distance, lines_through
from guidegen.geometry.outline.distances import farthest_apart
from guidegen.geometry.outline.measures import (
    bounds,
    flatten,
    run_area,
    run_length,
    segment_end,
    segment_start,
)
from guidegen.geometry.outline.offsets import OffsetError, offset_edges, offset_run
from guidegen.geometry.outline.records import Arc, Cubic, Edge, Line, LineKind, Shape
from guidegen.geometry.outline.unfold import unfold


def buffered(ring, width):
    """Shapely's own offset of a ring, mitred; negative: inside."""
    return list(Polygon(ring).buffer(width, join_style="mitre", mitre_limit=4.0).exterior.coords)


SQUARE = Shape(
    (
        Edge("bottom", (Line((0, 0), (100, 0)),)),
        Edge("right", (Line((100, 0), (100, 60)),)),
        Edge("top", (Line((100, 60), (0, 60)),)),
        Edge("left", (Line((0, 60), (0, 0)),)),
    )
)


def outline(*points: tuple[float, float]):
    """An outline with straight edges called e0, e1, …"""
    ends = [*points[1:], points[0]]
    return tuple(
        Edge(f"e{number}", lines_through(start, end))
        for number, (start, end) in enumerate(zip(points, ends, strict=True))
    )


def grown(edges, widths, fold=""):
    """The outline with moved edges, checked for being closed."""
    moved = offset_edges(edges, widths, fold)
    ring = [segment for edge in moved for segment in edge.run]
    for segment, following in zip(ring, ring[1:] + ring[:1], strict=True):
        assert distance(segment_end(segment), segment_start(following)) < 1e-5
    return Shape(moved)


def test_one_edge_moves_and_its_neighbours_follow():
    """The neighbours of a moved edge grow along their own direction; each keeps its name."""
    shape = grown(SQUARE.edges, {"left": 10})
    assert shape.edge("left").run == (Line((-10, 60), (-10, 0)),)
    assert shape.edge("bottom").run == (Line((-10, 0), (100, 0)),)
    assert shape.edge("top").run == (Line((100, 60), (-10, 60)),)
    assert shape.edge("right") == SQUARE.edge("right")


def test_all_edges_grow_to_mitred_corners():
    """Equal widths all round keep a rectangle a rectangle."""
    shape = grown(SQUARE.edges, dict.fromkeys(("bottom", "right", "top", "left"), 10))
    assert bounds((shape.ring(),)) == pytest.approx((-10, -10, 110, 70))
    assert run_area(shape.ring()) == pytest.approx(120 * 80)


def test_a_sharp_corner_is_rounded():
    """Beyond the mitre limit a corner between equal widths gets an arc around it."""
    edges = outline((0, 0), (200, 0), (200, 20))
    widths = dict.fromkeys(("e0", "e1", "e2"), 10)
    shape = grown(edges, widths)
    arcs = [segment for segment in shape.ring() if isinstance(segment, Arc)]
    assert [(arc.centre, arc.radius) for arc in arcs] == [((0, 0), 10)]
    assert fault_of(shape) is None


def test_a_sharp_corner_of_unequal_widths_is_closed_straight():
    """Where only one of two edges moves at a sharp corner, its end is closed by a line."""
    edges = outline((0, 0), (200, 0), (200, 20))
    shape = grown(edges, {"e0": 10})
    assert fault_of(shape) is None
    assert run_area(shape.ring()) > run_area(tuple(s for e in edges for s in e.run))
    assert bounds((shape.ring(),))[1] == pytest.approx(-10)


def test_a_hollow_corner_is_cut_back():
    """At a corner that points into the piece, moved edges are shortened to where they meet."""
    edges = outline((0, 0), (100, 0), (100, 100), (60, 100), (60, 40), (0, 40))
    shape = grown(edges, {"e3": 10, "e4": 10})
    assert shape.edge("e3").run[0].start == pytest.approx((50, 100))
    assert shape.edge("e3").run[-1].end == pytest.approx((50, 50))
    assert shape.edge("e4").run[0].start == pytest.approx((50, 50))


def test_a_hollow_corner_with_one_moved_edge():
    """The moved edge ends on its neighbour, which is cut back along itself."""
    edges = outline((0, 0), (100, 0), (100, 100), (60, 100), (60, 40), (0, 40))
    shape = grown(edges, {"e3": 10})
    assert shape.edge("e3").run[-1].end == pytest.approx((50, 40))
    assert shape.edge("e4").run == (Line((50, 40), (0, 40)),)


def test_arcs_stay_arcs():
    """A moved circle is a circle of the larger radius."""
    rim = (Edge("rim", (Arc((0, 0), 40, -90, 360),)),)
    shape = grown(rim, {"rim": 6})
    assert all(isinstance(segment, Arc) and segment.radius == 46 for segment in shape.ring())
    assert run_length(shape.ring()) == pytest.approx(2 * pi * 46)


CURVE = (Cubic((0, 0), (30, -40), (70, -40), (100, 0)),)


@pytest.mark.parametrize("width", [8.0, -8.0, 15.0])
def test_bezier_offsets_keep_their_distance(width):
    """Every point of a moved Bézier curve lies the given width from the curve it came from."""
    moved = offset_run(CURVE, width)
    points = flatten(moved, 0.002)
    base = flatten(CURVE, 0.0005)
    for point in points[::5]:
        nearest = min(distance(point, other) for other in base)
        assert nearest == pytest.approx(abs(width), abs=0.02)
    assert all(isinstance(segment, Cubic) for segment in moved)
    assert len(moved) <= 16


def test_curves_that_are_too_tight_are_refused():
    """A hollow of 5 mm radius cannot take an allowance of 10 mm; the message says so."""
    hollow = (
        Edge("e0", (Line((0, 0), (100, 0)), Line((100, 0), (100, 50)))),
        Edge(
            "dent", (Line((100, 50), (55, 50)), Arc((50, 50), 5, 0, -180), Line((45, 50), (0, 50)))
        ),
        Edge("e2", (Line((0, 50), (0, 0)),)),
    )
    with pytest.raises(OffsetError, match=r"radius of 5\.0 mm") as refused:
        offset_edges(hollow, {"dent": 10})
    assert refused.value.edge == "dent"
    assert str(refused.value) == (
        "the edge bends with a radius of 5.0 mm, too tight to be moved 10.0 mm sideways"
    )
    tight = (Cubic((0, 0), (0, 20), (4, 20), (4, 0)),)
    with pytest.raises(OffsetError, match="too tight"):
        offset_run(tight, 10)


def test_a_short_edge_that_disappears_is_refused():
    """An edge that its neighbours' allowances swallow is named."""
    edges = outline(
        (0, 0), (100, 0), (100, 100), (52, 100), (52, 50), (48, 50), (48, 100), (0, 100)
    )
    with pytest.raises(OffsetError, match="swallows") as refused:
        offset_edges(edges, {"e3": 10, "e5": 10})
    assert refused.value.edge == "e4"
    assert "a stretch of this one that is 4.0 mm long" in str(refused.value)


@given(st.integers(3, 9), st.floats(40, 200), st.floats(-8, -0.1) | st.floats(0.1, 20))
def test_offsets_agree_with_shapely(sides, radius, width):
    """A regular polygon grown or shrunk all round covers what Shapely's mitred buffer covers."""
    points = [
        (radius * cos(2 * pi * n / sides), radius * sin(2 * pi * n / sides)) for n in range(sides)
    ]
    shape = grown(outline(*points), {f"e{n}": width for n in range(sides)})
    expected = buffered(points, width)
    assert polygon_area(flatten(shape.ring())) == pytest.approx(polygon_area(expected), rel=1e-6)


@settings(max_examples=50)
@given(st.floats(3, 25), st.floats(-30, 30), st.floats(-30, 30))
def test_curved_offsets_agree_with_shapely(width, a, b):
    """A blob of Bézier curves grown all round lies where a rounded buffer lies."""
    edges = (
        Edge("low", (Cubic((0, 0), (40, -50 + a), (110, -50 - a), (150, 0)),)),
        Edge("high", (Cubic((150, 0), (150 + b, 70), (b, 70), (0, 0)),)),
    )
    try:
        shape = grown(edges, {"low": width, "high": width})
    except OffsetError:
        return  # too tight for the width: refused, not drawn wrong
    base = [point for edge in edges for point in flatten(edge.run)]
    expected = buffered(base, width)
    assert farthest_apart(flatten(shape.ring()), expected) < 1
    assert shape_area(shape) == pytest.approx(polygon_area(expected), rel=1e-3)


# Allowances.


def test_the_finished_line_stays_drawn():
    """An allowance moves the cut line; the finished line stays as a glue line with its purpose."""
    shape = add_allowances(SQUARE, {"left": EdgeAllowance("overlap", 25)})
    (line,) = shape.lines
    assert line.kind is LineKind.GLUE
    assert line.run == SQUARE.edge("left").run
    assert line.label == "overlap 25 mm"
    assert shape_area(shape) == pytest.approx(125 * 60)


def test_cloth_is_sewn_along_the_finished_line():
    """On cloth the finished line of a seam is where one sews, that of a trim where one folds."""
    wide = {"left": EdgeAllowance("seam", 10), "top": EdgeAllowance("trim", 30)}
    kinds = {line.label: line.kind for line in add_allowances(SQUARE, wide, sewn=True).lines}
    assert kinds == {
        "seam allowance 10 mm": LineKind.STITCH,
        "trim allowance 30 mm": LineKind.HEM,
    }


def test_an_allowance_of_nothing_draws_nothing():
    """Zero width leaves the shape as it is."""
    assert add_allowances(SQUARE, {"left": EdgeAllowance("trim", 0)}) == SQUARE


def test_allowances_of_a_half_meet_on_the_fold():
    """Also where an edge meets the fold at a slant, both halves of its allowance meet there."""
    half = Shape(
        (
            Edge("hem", (Line((0, -15), (80, 0)),)),
            Edge("side", (Line((80, 0), (60, 70)),)),
            Edge("top", (Line((60, 70), (0, 55)),)),
            Edge("fold", (Line((0, 55), (0, -15)),)),
        )
    )
    wide = {name: EdgeAllowance("trim", 8) for name in ("hem", "side", "top")}
    cut = add_allowances(half, wide, "fold")
    whole = unfold(cut, "fold")
    assert fault_of(whole) is None
    finished = unfold(half, "fold")
    expected = buffered(flatten(finished.ring()), 8)
    assert shape_area(whole) == pytest.approx(polygon_area(expected), rel=1e-6)


# Bevels.


def test_a_bevel_sets_the_far_face_back():
    """At 45 degrees the far face ends one thickness before the near one."""
    assert bevel_setback(45, 10) == pytest.approx(10)
    assert bevel_setback(30, 10) == pytest.approx(10 * tan(radians(30)))
    (bevel,) = bevelled_edges(SQUARE, {"top": EdgeBevel(45, "inward")}, 10)
    assert bevel.edge == "top"
    assert bevel.far_face[0].start == pytest.approx((100, 50))
    assert bevel.far_face[0].end == pytest.approx((0, 50))


def test_neighbouring_bevels_meet():
    """Far faces of two bevelled edges meet in one corner."""
    both = {"top": EdgeBevel(45, "inward"), "left": EdgeBevel(45, "inward")}
    top, left = bevelled_edges(SQUARE, both, 10)
    assert segment_end(top.far_face[-1]) == pytest.approx((10, 50))
    assert segment_start(left.far_face[0]) == pytest.approx((10, 50))


def test_a_bevel_larger_than_the_piece_is_refused():
    """A far face that would vanish is an error, not an outline turned inside out."""
    bevels = {"top": EdgeBevel(75, "inward"), "bottom": EdgeBevel(75, "inward")}
    with pytest.raises(OffsetError, match="swallows"):
        bevelled_edges(SQUARE, bevels, 10)


def test_polylines_with_slight_turns_stay_closed():
    """A hollow drawn as a hundred short lines grows like the arc that it stands for."""
    turns = [radians(180 - 1.8 * number) for number in range(101)]
    hollow = tuple((100 + 40 * cos(t), 100 - 40 * sin(t)) for t in turns)
    edges = (
        Edge("low", lines_through((0, 100), (0, 0), (200, 0), (200, 100))),
        Edge("right", lines_through((200, 100), (140, 100))),
        Edge("hollow", lines_through(*hollow[::-1])),
        Edge("left", lines_through((60, 100), (0, 100))),
    )
    shape = grown(edges, {"hollow": 8})
    assert fault_of(shape) is None
    radii = [distance(segment_start(segment), (100, 100)) for segment in shape.edge("hollow").run]
    assert radii[10:-10] == pytest.approx([32] * len(radii[10:-10]), abs=0.02)
