"""Path data, shapes, lengths and transforms of SVG become true curves in mm."""

from math import cos, hypot, pi, radians, sin

import pytest
from geometry.drawing_samples import svg

from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.svg_reader import (
    Affine,
    SvgValueError,
    count_segments,
    read_length,
    read_transform,
)
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import segment_end, segment_point, segment_start
from guidegen.geometry.outline.records import Arc, Cubic, Line, Run
from guidegen.problems import has_errors


def run_of(body: str) -> Run:
    """The first stroke of a drawing's first path, in mm, y upward from the foot of the page."""
    drawing, problems = read_drawing(svg(body), "a.svg")
    assert problems == ()
    assert drawing is not None
    return drawing.paths[0].subpaths[0].run


@pytest.mark.parametrize(
    ("text", "px"),
    [("1in", 96), ("2.54cm", 96), ("25.4mm", 96), ("72pt", 96), ("6pc", 96), ("101.6Q", 96)],
)
def test_lengths_are_exact(text, px):
    """Each unit of CSS Values and Units Level 3, 6.2, makes 96 px to the inch."""
    assert read_length(text) == pytest.approx(px, rel=1e-12)


@pytest.mark.parametrize("text", ["1 em", "ten", "", "1mm2", "--1", "1e"])
def test_lengths_that_are_none_are_refused(text):
    """A unit that depends on letters, or no number at all, is refused."""
    with pytest.raises(SvgValueError):
        read_length(text)


def test_transforms_apply_from_right_to_left():
    """In a list the last transform is applied first; SVG 1.1, 7.6."""
    matrix = read_transform("translate(10, 20) rotate(90) scale(2)")
    assert matrix.point((3, 0)) == pytest.approx((10, 26))
    assert matrix.after(Affine(e=1)).point((2, 0)) == pytest.approx((10, 26))


@pytest.mark.parametrize("text", ["rotate(30", "spin(3)x", "matrix(1)", "scale(1e400)", ")("])
def test_broken_transforms_are_refused(text):
    """A transform that cannot be read to its end is refused."""
    with pytest.raises(SvgValueError):
        read_transform(text)


def test_a_circular_arc_stays_an_arc():
    """Under turning, mirroring and even scaling an arc keeps its kind, radius and sweep."""
    (arc,) = run_of(
        '<g transform="rotate(30) translate(150 0) scale(-2 2)"><path d="M10 20 A8 8 0 0 1 26 20"/></g>'
    )
    assert isinstance(arc, Arc)
    assert arc.radius == pytest.approx(16)
    # Mirrored once by the scale and once by the page's y axis: clockwise on screen stays so.
    assert arc.sweep == pytest.approx(180)


def test_an_arc_may_become_circular():
    """An ellipse that the transforms make round again is an arc."""
    (arc,) = run_of('<ellipse cx="40" cy="50" rx="10" ry="20" transform="scale(2 1)"/>')
    assert isinstance(arc, Arc)
    assert (arc.radius, abs(arc.sweep)) == (pytest.approx(20), pytest.approx(360))


def test_a_full_circle_of_two_arcs_is_one_arc():
    """Editors draw circles as two or four arcs; they are one again."""
    (arc,) = run_of('<path d="M10 50 a20 20 0 0 1 40 0 a20 20 0 0 1 -40 0z"/>')
    assert isinstance(arc, Arc)
    assert abs(arc.sweep) == pytest.approx(360)


def test_cubics_follow_an_ellipse():
    """An elliptical arc leaves the ellipse by less than a thousandth of a millimetre."""
    run = run_of('<ellipse cx="100" cy="150" rx="90" ry="40" transform="rotate(20 100 150)"/>')
    assert all(isinstance(segment, Cubic) for segment in run)
    c, s = cos(radians(20)), sin(radians(20))
    for segment in run:
        for step in range(21):
            x, y = segment_point(segment, step / 20)
            dx, dy = x - 100, 300 - y - 150
            u, v = (dx * c + dy * s) / 90, (-dx * s + dy * c) / 40
            assert abs(hypot(u, v) - 1) * 90 < 1e-3


def test_quadratics_become_the_same_curve():
    """A quadratic and its cubic agree at every parameter; the formula of the quadratic's points."""
    (curve,) = run_of('<path d="M10 20 Q60 90 110 40"/>')
    for step in range(11):
        t = step / 10
        x = (1 - t) ** 2 * 10 + 2 * t * (1 - t) * 60 + t * t * 110
        y = 300 - ((1 - t) ** 2 * 20 + 2 * t * (1 - t) * 90 + t * t * 40)
        assert segment_point(curve, t) == pytest.approx((x, y), abs=1e-9)


def test_strokes_hang_together():
    """Every segment of a stroke begins where the one before it ended."""
    run = run_of('<rect x="10" y="20" width="90" height="60" rx="15" transform="rotate(10)"/>')
    assert [type(segment) for segment in run] == [Line, Arc] * 4
    for before, after in zip(run, run[1:] + run[:1], strict=True):
        assert distance(segment_end(before), segment_start(after)) < 1e-6


def test_y_points_upward():
    """The page's lower left corner is the origin."""
    (line,) = run_of('<path d="M0 300 L200 0"/>')
    assert isinstance(line, Line)
    assert line.start == pytest.approx((0, 0), abs=1e-9)
    assert line.end == pytest.approx((200, 300), abs=1e-9)


@pytest.mark.parametrize(
    ("data", "count"),
    [
        ("", 0),
        ("M0 0", 1),
        ("M0 0 10 10 20 20", 3),
        ("M0,0h1v1h-1z", 5),
        ("m0 0c1 1 2 2 3 3s1 1 2 2", 3),
    ],
)
def test_segments_are_counted_before_they_are_made(data, count):
    """The count of a path's segments (moves included) is known from its numbers alone."""
    assert count_segments(data) == count


def test_a_path_with_too_many_segments_is_refused_quickly():
    """A megabyte of path data is refused before it becomes segments."""
    drawing, problems = read_drawing(svg(f'<path d="M0 0{"h1" * 400_000}"/>'), "a.svg")
    assert [problem.code for problem in problems] == ["drawing-value"]
    assert "10000 segments" in problems[0].message
    assert drawing is not None
    assert drawing.paths == ()


def test_a_circle_is_as_long_as_it_should_be():
    """The circumference of a circle read from SVG is 2 * pi * r."""
    (arc,) = run_of('<circle cx="50" cy="60" r="1.5cm"/>')
    assert isinstance(arc, Arc)
    assert arc.radius * radians(abs(arc.sweep)) == pytest.approx(2 * pi * 15 * 96 / 25.4, rel=1e-9)


@pytest.mark.parametrize("size", ['width="0" height="30mm"', 'width="30mm" height="0"'])
def test_a_page_without_width_or_height_is_told(size):
    """A page needs both: one of them alone gives no scale; the rest is looked at all the same."""
    text = f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="0 0 30 30"><path d="M1 1h9v9z"/></svg>'
    drawing, problems = read_drawing(text, "plate.svg")
    assert drawing is not None
    assert len(drawing.paths) == 1
    assert "has no width and height" in problems[0].message
    assert has_errors(problems)


def test_a_line_element_is_a_line():
    """SVG 1.1, 9.5: from x1, y1 to x2, y2."""
    (line,) = run_of("<line x1='10' y1='20' x2='40' y2='20'/>")
    assert isinstance(line, Line)
    assert distance(line.start, line.end) == pytest.approx(30)


@pytest.mark.parametrize(
    "size",
    [
        "width='0' height='20'", "width='20' height='0'", "width='20'", "width='-5' height='20'",
        "width='20' height='-5'",
    ],
)  # fmt: skip
def test_a_rectangle_without_area_draws_nothing(size):
    """SVG 1.1, 9.2: zero disables it, what is not given is zero, less than zero is an error."""
    drawing, problems = read_drawing(svg(f"<rect x='5' y='5' {size}/>"), "a.svg")
    assert drawing is None or not drawing.paths
    assert all("rect" not in problem.message for problem in problems)
