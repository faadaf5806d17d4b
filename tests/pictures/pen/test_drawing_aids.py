"""Frames, hatches, scales, spreading of labels, splines and axes."""

from itertools import pairwise
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pictures.drawing_lint import elements, path_points, words
from pictures.english import scale_words
from pictures.picture_samples import cuff_shape, round_hole, window

from guidegen.geometry.outline.measures import bounds, flatten, run_area, run_length, segment_point
from guidegen.geometry.outline.records import Arc, InnerLine, LineKind, Shape
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.dimensions import ARROW, NUMBER, dimension
from guidegen.pictures.pen.frames import Frame, frame_into, polygon
from guidegen.pictures.pen.hatches import crossings, hatch_lines
from guidegen.pictures.pen.inner_lines import draw_inner_lines
from guidegen.pictures.pen.lettering import shorten, text_width, wrap
from guidegen.pictures.pen.scales import magnification, reduction
from guidegen.pictures.pen.splines import smooth
from guidegen.pictures.pen.spread import spread_levels
from guidegen.pictures.times.axis import IDLE, make_axis
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

FRAMES = st.builds(
    Frame,
    st.floats(0.05, 8),
    st.floats(-200, 200),
    st.floats(-200, 200),
    st.floats(-360, 360),
    st.booleans(),
)


@given(FRAMES)
def test_a_frame_scales_lengths_and_areas_and_mirrors_only_where_flipped(frame):
    """Length times scale, area times its square; a flipped outline runs the other way round."""
    ring = cuff_shape().ring()
    drawn = frame.run(ring)
    assert run_length(drawn) == pytest.approx(run_length(ring) * frame.scale, rel=1e-6)
    sign = -1 if frame.flipped else 1
    assert run_area(drawn) == pytest.approx(sign * run_area(ring) * frame.scale**2, rel=1e-3)


@given(FRAMES, st.floats(-500, 500), st.floats(-500, 500))
def test_the_inverse_frame_undoes_a_frame(frame, x, y):
    """A point comes back to where it was."""
    assert frame.inverse().point(frame.point((x, y))) == pytest.approx((x, y), abs=1e-6)


def test_arcs_stay_on_the_moved_circle():
    """A flipped and turned arc passes through the images of its points."""
    arc = Arc((10, 5), 20, 30, 100)
    frame = Frame(0.5, 7, -3, 40, flipped=True)
    (drawn,) = frame.run((arc,))
    for t in (0, 0.25, 0.5, 1):
        assert segment_point(drawn, t) == pytest.approx(frame.point(segment_point(arc, t)))


def test_a_run_is_centred_in_its_room():
    """The middle of the outline meets the middle of the room."""
    ring = cuff_shape().ring()
    left, low, right, high = bounds((frame_into((ring,), 0.25, (10, 20, 80, 60)).run(ring),))
    assert ((left + right) / 2, (low + high) / 2) == pytest.approx((50, 50))


@given(st.floats(0, 180), st.floats(0.8, 6))
def test_hatch_lines_cover_the_area_and_stay_out_of_holes(angle, spacing):
    """Sum of lengths times spacing approaches the area; no line has its middle in the hole."""
    rings = (polygon([(-40, -30), (40, -30), (40, 30), (-40, 30)]), round_hole(15))
    lines = hatch_lines(rings, angle, spacing)
    covered = sum(run_length(line) for line in lines) * spacing
    assert covered == pytest.approx(4800 - 706.9, rel=0.05, abs=90 * spacing)
    for ((start, end),) in ([(s.start, s.end) for s in line] for line in lines):
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        assert hypot(*middle) > 14.9


def test_crossings_come_in_pairs_that_bound_the_inside():
    """A window in a rectangle gives four crossings."""
    outer = [(-10.0, -10.0), (10.0, -10.0), (10.0, 10.0), (-10.0, 10.0)]
    inner = flatten(window(8, 8))[:-1]
    assert crossings([outer, inner], 0.5) == pytest.approx([-10, -4, 4, 10])


@pytest.mark.parametrize(
    ("size", "expected"),
    [((580, 580), "1 : 5"), ((40, 30), "1 : 1"), ((1000, 500), "1 : 8"), ((18, 18), "1 : 1")],
)
def test_reductions_are_the_largest_that_fit(size, expected):
    """A room of 131 by 190 mm takes a mat of 580 mm at 1 : 5."""
    assert scale_words(reduction(*size, 131, 190)) == expected


def test_magnifications_are_stated_with_the_one_behind():
    """ISO 5455 writes an enlargement as 5 : 1."""
    assert scale_words(magnification(10, 58)) == "5 : 1"
    assert scale_words(magnification(70, 58)) == "1 : 1.5"


@given(st.lists(st.floats(0, 100), max_size=12), st.floats(0.5, 12))
def test_spread_levels_keep_their_distance_and_order(wanted, distance):
    """No two labels are closer than asked, none changes places, and the middle stays."""
    wanted.sort()
    levels = spread_levels(wanted, distance)
    assert all(b - a >= distance - 1e-6 for a, b in pairwise(levels))
    assert sum(levels) == pytest.approx(sum(wanted), abs=1e-6)


def test_levels_that_have_room_stay_where_they_are():
    """Labels move only where they must."""
    assert spread_levels([0, 20, 40], 10) == pytest.approx([0, 20, 40])
    assert spread_levels([0, 2], 10) == pytest.approx([-4, 6])


def test_a_smooth_run_passes_through_its_points():
    """Catmull and Rom's curve interpolates."""
    points = [(0.0, 0.0), (10.0, 5.0), (20.0, 0.0), (12.0, -8.0)]
    run = smooth(points)
    assert [segment.start for segment in run] == points
    assert run[-1].end == points[0]


@given(st.text(max_size=60), st.floats(4, 60))
def test_shortened_and_wrapped_words_fit(text, width):
    """Nothing that was made to fit is wider than its room, down to a lone ellipsis."""
    text = " ".join(text.split())
    least = text_width("…", 3)
    assert text_width(shorten(text, width, 3), 3) <= max(width, least)
    assert all(text_width(line, 3) <= max(width, least) for line in wrap(text, width, 3))


@pytest.mark.parametrize(
    ("start", "end", "offset", "angle"),
    [
        ((0, 0), (40, 0), -6, 0),
        ((40, 0), (0, 0), 6, 0),
        ((0, 0), (0, 40), 6, -90),
        ((0, 40), (0, 0), 6, -90),
    ],
)
def test_dimension_numbers_read_from_the_bottom_or_the_right(start, end, offset, angle):
    """ISO 129-1: whatever the direction, the number is never upside down."""
    canvas = Canvas(100, 100, "x", "", ENGLISH)
    dimension(canvas, (start[0] + 30, start[1] + 30), (end[0] + 30, end[1] + 30), offset, 40)
    (text,) = elements(svg_file(canvas.drawing()), "text")
    turned = text.get("transform", "rotate(0 0 0)")
    assert float(turned[7:].split()[0]) == angle
    assert words(svg_file(canvas.drawing())) == ["40"]


@pytest.mark.parametrize("offset", [8, -8])
def test_extension_lines_stand_square_on_what_is_measured(offset):
    """ISO 129-1: from each end at right angles, and on beyond the dimension line."""
    canvas = Canvas(100, 100, "x", "", ENGLISH)
    dimension(canvas, (30, 40), (60, 80), offset, 50)
    thin = [
        path_points(path.get("d")) for path in elements(svg_file(canvas.drawing()), "path", "thin")
    ]
    squares = []
    for (x0, y0), *_, (x1, y1) in thin:
        length = hypot(x1 - x0, y1 - y0)
        # 0.6, -0.8 is the way that is measured, with y downward.
        if abs((x1 - x0) * 0.6 - (y1 - y0) * 0.8) < 0.01 * length:
            squares.append(length)
    assert len(squares) == 2
    assert all(abs(offset) < length < abs(offset) + 2 for length in squares)


def test_a_narrow_dimension_puts_arrows_and_number_outside():
    """Two millimetres leave no room between: the number stands beyond the second arrow."""
    canvas = Canvas(100, 100, "x", "", ENGLISH)
    dimension(canvas, (50, 50), (52, 50), -6, 2.04, digits=1)
    (text,) = elements(svg_file(canvas.drawing()), "text")
    assert float(text.get("x", 0)) > 56


def test_arrows_of_a_narrow_dimension_point_in_from_outside():
    """Upright, 2 mm long: the lower arrowhead lies below its end, the upper one above."""
    canvas = Canvas(100, 100, "x", "", ENGLISH)
    dimension(canvas, (50, 50), (50, 52), 6, 2)
    lower, upper = (
        [100 - y for _, y in path_points(path.get("d"))]
        for path in elements(svg_file(canvas.drawing()), "path", "arrow")
    )
    assert (max(lower), min(lower)) == (50, 50 - ARROW)
    assert (min(upper), max(upper)) == (52, 52 + ARROW)


@pytest.mark.parametrize(("air", "between"), [(1.1, True), (0.5, False)])
def test_a_number_stands_between_arrowheads_with_room_for_it(air, between):
    """Half a millimetre of air at each arrowhead, or it stands beyond the second one."""
    long = text_width("40", NUMBER, 600) + 2 * ARROW + air
    canvas = Canvas(100, 100, "x", "", ENGLISH)
    dimension(canvas, (30, 50), (30 + long, 50), -6, 40)
    (text,) = elements(svg_file(canvas.drawing()), "text")
    assert (float(text.get("x", 0)) == pytest.approx(30 + long / 2, abs=0.01)) == between
    assert (float(text.get("x", 0)) > 30 + long) == (not between)


@given(
    st.lists(st.tuples(st.floats(0, 5000), st.floats(1, 200)), min_size=1, max_size=12),
    st.floats(0, 3000),
)
def test_an_axis_runs_over_its_whole_width_and_never_backward(work, rest):
    """Later is never further left; the end is at the right; no idle stretch is too wide."""
    spans = [(start, start + length) for start, length in work]
    end = max(stop for _, stop in spans) + rest
    axis = make_axis(spans, end, 10, 100)
    assert axis.x(0) == pytest.approx(10)
    assert axis.x(end) == pytest.approx(110, abs=0.01)
    minutes = sorted({0.0, end, *(m for span in spans for m in span)})
    places = [axis.x(minute) for minute in minutes]
    assert all(b >= a - 1e-9 for a, b in pairwise(places))
    assert all(s.x1 - s.x0 <= IDLE + 1e-6 for s in axis.stretches if s.squeezed)
    ticks = axis.ticks(10)
    assert all(axis.x(b) - axis.x(a) >= 10 - 1e-6 for a, b in pairwise(ticks))


def test_inner_lines_are_those_that_are_asked_for():
    """Of a groove, a placement and a spread line: the named kinds, and no other."""
    kinds = (LineKind.GROOVE, LineKind.PLACEMENT, LineKind.SPREAD)
    shape = Shape(
        (), lines=tuple(InnerLine(kind, polygon([(0, 0), (9, 0), (9, 9)])) for kind in kinds)
    )
    for asked in ({LineKind.GROOVE}, {LineKind.PLACEMENT, LineKind.SPREAD}):
        canvas = Canvas(20, 20, "x", "", ENGLISH)
        draw_inner_lines(canvas, shape, Frame(), frozenset(asked))
        drawn = {
            css
            for kind in kinds
            for css in [f"line-{kind}"]
            if elements(svg_file(canvas.drawing()), "path", css)
        }
        assert drawn == {f"line-{kind}" for kind in asked}
