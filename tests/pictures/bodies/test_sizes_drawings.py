"""Sizes over one another, whom they serve, and where their boxes lie among people."""

from dataclasses import replace
from itertools import combinations, pairwise
from math import cos, hypot, pi, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pictures.drawing_lint import check_drawing, description, elements, path_points, words
from pictures.english import draw_coverage, draw_nested, draw_reach, share_words
from pictures.picture_samples import box, round_hole, sample_pieces

from guidegen.geometry.fit.records import Coverage, SizeReach, SizeShare
from guidegen.geometry.outline.records import Shape
from guidegen.geometry.pieces.records import Piece, Side
from guidegen.pictures.bodies.nested_places import Ray, alike, name_places, widest_ray
from guidegen.pictures.bodies.nested_table import change_words
from guidegen.pictures.bodies.reach import MOST_DOTS, BodyDot

SIZES = ("S", "M", "L")


def plate(width: float, height: float, hole: float = 10) -> Piece:
    """A plate with a hole."""
    shape = Shape(box(width, height), holes=(round_hole(hole),))
    return replace(
        sample_pieces()[0], side=Side.ANY, label="A1", template=shape, shape=shape, grooves=()
    )


def graded(width: float, height: float, *, dx: float, dy: float) -> list[tuple[str, Piece]]:
    """Three sizes of a plate."""
    return [(s, plate(width + n * dx, height + n * dy)) for n, s in enumerate(SIZES)]


def leaders(svg: str) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Both ends of each line from an outline to a name."""
    lines = [path_points(e.get("d", "")) for e in elements(svg, "path", "thin")]
    dots = [(float(e.get("cx", 0)), float(e.get("cy", 0))) for e in elements(svg, "circle", "dot")]
    return [
        (line[0], line[1])
        for line in lines
        if len(line) == 2 and any(hypot(d[0] - line[0][0], d[1] - line[0][1]) < 1e-3 for d in dots)
    ]


def cross(first, second) -> bool:
    """Whether two segments cross within their lengths."""
    (p, q), (r, s) = first, second

    def turn(a, b, c):
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    return turn(p, q, r) * turn(p, q, s) < 0 and turn(r, s, p) * turn(r, s, q) < 0


@pytest.mark.parametrize(
    ("width", "height", "dx", "dy"),
    [(200, 300, 20, 25), (500, 20, 30, 0), (60, 400, 0, 30), (90, 90, -8, 5), (900, 800, 40, 40)],
)
def test_every_size_is_named_and_measured(width, height, dx, dy):
    """Each size has an outline, a dot on it with its name, and a row with its true measures."""
    sizes = graded(width, height, dx=dx, dy=dy)
    svg = draw_nested(sizes, "M", "t")
    check_drawing(svg)
    assert len(elements(svg, "circle", "dot")) == len(leaders(svg)) == 3
    written = words(svg)
    for number, size in enumerate(SIZES):
        assert written.count(size) == 2
        assert str(width + number * dx) in written and str(height + number * dy) in written
    assert written.count(change_words(dx)) >= 2
    assert f"S: {width} by {height} mm" in description(svg)


def test_sizes_differ_by_their_dashes_and_the_base_is_heavier():
    """Without colour every outline has other dashes; that of the base size is the widest."""
    svg = draw_nested(graded(200, 300, dx=20, dy=20), "M", "t")
    outlines = [e for e in elements(svg, "path", "ink") if len(path_points(e.get("d", ""))) > 3]
    rims = [e for e in outlines if e.get("stroke-width") in {"0.25", "0.7"}]
    assert len({e.get("stroke-dasharray") for e in rims}) == 3
    assert [e.get("stroke-width") for e in rims] == ["0.25", "0.25", "0.7"]
    assert len({e.get("stroke") for e in rims}) == 1


def test_holes_are_those_of_the_base_size():
    """Three sizes with three holes show that of M, 11 mm at 1 : 2.5: all would only darken it."""
    sizes = [(s, plate(200 + 20 * n, 300, hole=10 + n)) for n, s in enumerate(SIZES)]
    svg = draw_nested(sizes, "M", "t")
    holes = [e.get("d", "") for e in elements(svg, "path", "ink") if "A" in e.get("d", "")]
    assert len(holes) == 1
    assert "A4.4 4.4" in holes[0]


def test_sizes_that_are_one_share_a_name_and_a_row():
    """A plate that is not graded has one outline, named by the first and the last size."""
    svg = draw_nested(graded(200, 300, dx=0, dy=0), "M", "t")
    check_drawing(svg)
    assert words(svg).count("S to L") == 2
    assert len(elements(svg, "circle", "dot")) == 1
    pair = draw_nested([*graded(200, 300, dx=0, dy=0)[:2], ("L", plate(220, 300))], "L", "t")
    assert {"S M", "L"} <= set(words(pair))


def test_names_stand_where_sizes_are_farthest_apart():
    """Of plates that only grow in width, the names stand beside them, on the level of the dots."""
    svg = draw_nested(graded(200, 300, dx=20, dy=0), "M", "t")
    ends = leaders(svg)
    assert all(name[0] > dot[0] for dot, name in ends)
    assert len({round(dot[1], 3) for dot, _ in ends}) == 1
    tall = leaders(draw_nested(graded(200, 300, dx=0, dy=30), "M", "t"))
    assert all(abs(name[1] - dot[1]) > 3 for dot, name in tall)


@given(
    st.lists(st.floats(-15, 15), min_size=2, max_size=7),
    st.floats(0, 360),
    st.floats(1, 12),
)
def test_leaders_never_cross(bends, angle, step):
    """Wherever a ray leaves the outlines, no two of its leaders cross, and names keep apart."""
    outlines = []
    for number in range(len(bends)):
        size = 40 + number * step + bends[number] / 10
        outlines.append(
            [
                (size * cos(t * pi / 30), 1.4 * size * sin(t * pi / 30 + angle / 360))
                for t in range(60)
            ]
        )
    ray = widest_ray(outlines, (0.0, 0.0))
    assert ray is not None
    xs = [x for points in outlines for x, _ in points]
    ys = [y for points in outlines for _, y in points]
    limits = (min(xs), min(ys), max(xs), max(ys))
    places = name_places(ray, limits, (8, 4), 5)
    lines = [(place.dot, place.end) for place in places]
    assert not any(cross(a, b) for a, b in combinations(lines, 2))
    ends = sorted(place.end for place in places)
    assert all(b[0] - a[0] > 7.9 or abs(b[1] - a[1]) > 3.9 for a, b in pairwise(ends))
    for x, y in (place.end for place in places):
        assert not (limits[0] < x < limits[2] and limits[1] < y < limits[3])


def test_a_ray_finds_the_widest_gap():
    """Of three squares whose right sides lie 10 and 20 mm apart, the ray goes to the right."""

    def square(right):
        return [(-50, -50), (right, -50), (right, 50), (-50, 50)]

    ray = widest_ray([square(50), square(60), square(80)], (0, 0))
    assert ray is not None
    assert ray.direction[0] > 0.7
    assert ray.gap >= 10
    assert ray.order == [0, 1, 2]
    assert widest_ray([square(50), [(200, 300)] * 3], (0, 0)) is None


@pytest.mark.parametrize(
    ("direction", "side"),
    [((1, 0.5), "right"), ((-1, 0.5), "left"), ((0.5, 1), "above"), ((0.5, -1), "below")],
)
def test_names_stand_on_the_side_to_which_the_ray_goes(direction, side):
    """By its slant in the box, not on the paper: a box far from the origin, twice as high as wide."""
    limits = (100.0, 10.0, 140.0, 90.0)
    ray = Ray((direction[0] * 40, direction[1] * 80), ((120.0, 50.0),), (10.0,), (1.0,))
    ((x, y),) = [place.end for place in name_places(ray, limits, (8, 4), 5)]
    beyond = {"right": x > 140, "left": x < 100, "above": y > 90, "below": y < 10}
    assert [name for name, true in beyond.items() if true] == [side]


def test_outlines_are_alike_only_within_the_tolerance():
    """A twentieth of a millimetre is no difference, a tenth is."""
    line = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0)]
    assert alike(line, [(x + 0.04, y) for x, y in line])
    assert not alike(line, [(x + 0.1, y) for x, y in line])
    assert not alike(line, line[:2])


def test_long_names_of_sizes_stay_on_the_drawing():
    """Names that are too long are cut off, not drawn beyond the rim."""
    sizes = [(f"made-to-measure-{n}", p) for n, (_, p) in enumerate(graded(200, 90, dx=20, dy=20))]
    check_drawing(draw_nested(sizes, "made-to-measure-1", "t"))


def test_one_size_alone_can_be_drawn():
    """A guide with one size for everybody shows its parts in that size."""
    svg = draw_nested([("one", plate(100, 50))], "one", "t")
    check_drawing(svg)
    assert words(svg).count("one") == 2


COVERAGE = Coverage(
    200, (SizeShare("S", 60, 0.3), SizeShare("M", 100, 0.5), SizeShare("L", 0, 0.0)), 25, 14, 1
)


def test_the_chart_states_every_number():
    """People and shares stand beside the bars in words: by size, smaller, larger, others."""
    svg = draw_coverage(COVERAGE, "Coverage")
    check_drawing(svg)
    written = words(svg)
    for word in ("60", "30%", "100", "50%", "25", "14", "7%", "smaller", "larger"):
        assert word in written
    assert "80% of 200\u00a0people are served" in written
    assert "smaller 25, S 60, M 100, L 0, larger 14, other proportions 1" in description(svg)


def test_bars_are_as_long_as_their_numbers():
    """Lengths of bars are in proportion; the served are filled, the others hatched."""
    svg = draw_coverage(COVERAGE, "Coverage")
    filled = [float(e.get("width", 0)) for e in elements(svg, "rect") if e.get("fill") != "none"]
    open_bars = [float(e.get("width", 0)) for e in elements(svg, "rect") if e.get("fill") == "none"]
    assert filled[0] / filled[1] == pytest.approx(100 / 60, rel=1e-3)
    assert sorted(open_bars)[-1] / filled[0] == pytest.approx(25 / 100, rel=1e-3)
    assert len(elements(svg, "path", "hatch")) == len(open_bars) == 3
    # They begin on one line, which goes on past the first and the last.
    (axis,) = [
        path_points(e.get("d"))
        for e in elements(svg, "path", "thin")
        if len({x for x, _ in path_points(e.get("d"))}) == 1
    ]
    tops = [float(e.get("y", 0)) for e in elements(svg, "rect")]
    feet = [float(e.get("y", 0)) + float(e.get("height", 0)) for e in elements(svg, "rect")]
    assert min(y for _, y in axis) < min(tops) and max(feet) < max(y for _, y in axis)


@pytest.mark.parametrize(
    ("share", "expected"),
    [(0, "0%"), (0.001, "under 1%"), (0.5, "50%"), (0.999, "over 99%"), (1, "100%")],
)
def test_shares_are_not_rounded_to_nobody_or_everybody(share, expected):
    """A few people are not called 0%, nor all but a few 100%."""
    assert share_words(share) == expected


def test_an_empty_population_is_no_fault():
    """Nobody at all is drawn as nobody."""
    check_drawing(draw_coverage(Coverage(0, (SizeShare("S", 0, 0.0),), 0, 0, 0), "Coverage"))


def test_dots_crosses_and_boxes_stand_in_one_scale():
    """A person in the middle of a box is drawn in its middle; who is not served has a cross."""
    people = [BodyDot(900, 160, True), BodyDot(1000, 170, False)]
    boxes = [SizeReach("S", (850, 150), (950, 170)), SizeReach("M", (950, 160), (1050, 180))]
    svg = draw_reach(people, boxes, ("Chest", "Wrist"), "Reach")
    check_drawing(svg)
    rims = [e for e in elements(svg, "rect", "ink") if e.get("stroke-width") == "0.4"]
    x, y, width, height = (float(rims[0].get(n, 0)) for n in ("x", "y", "width", "height"))
    dot = path_points(elements(svg, "path", "dot")[0].get("d", ""))[0]
    assert dot == pytest.approx((x + width / 2, y + height / 2), abs=1e-3)
    arms = path_points(elements(svg, "path", "ink")[0].get("d", ""))
    x, y, width, height = (float(rims[1].get(n, 0)) for n in ("x", "y", "width", "height"))
    middle = ((arms[0][0] + arms[1][0]) / 2, (arms[0][1] + arms[1][1]) / 2)
    assert middle == pytest.approx((x + width / 2, y + height / 2), abs=1e-3)
    assert len({e.get("stroke-dasharray") for e in rims}) == 2
    assert "of 2 people, of whom 1 are served" in description(svg)


def test_a_large_population_is_drawn_in_part_and_says_so():
    """More people than a field can show are thinned out evenly, in words as well."""
    people = [BodyDot(700 + n / 10, 150 + n % 40, n % 3 > 0) for n in range(5000)]
    svg = draw_reach(people, [SizeReach("S", (700, 150), (900, 190))], ("Chest", "Wrist"), "Reach")
    dots = sum(len(path_points(e.get("d", ""))) for e in elements(svg, "path", "dot"))
    assert dots / 2 <= MOST_DOTS
    assert any("of 5000 people drawn" in text for text in words(svg))
    assert "of 5000 people" in description(svg)


def test_one_person_who_is_a_size_still_has_axes():
    """All values alike leave a field that has a width."""
    svg = draw_reach([BodyDot(900, 160, True)], [], ("Chest", "Wrist"), "Reach")
    check_drawing(svg)
