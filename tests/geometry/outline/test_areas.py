"""Filled polygons: areas, faults, clipping, and what fits where."""

import random
from itertools import pairwise
from math import pi

import pytest

from guidegen.geometry.outline.areas import (
    clip_line,
    convex_hull,
    fault_of,
    least_misfit,
    overlap_area,
    polygon_area,
    shape_area,
)
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.distances import farthest_apart, lie_alike
from guidegen.geometry.outline.records import Arc, Edge, Shape

SQUARE = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
ASIDE = [(20.0, 0.0), (30.0, 0.0), (30.0, 10.0), (20.0, 10.0)]


def shape(*points: tuple[float, float], holes=()):
    """A shape with straight edges."""
    return Shape((Edge("rim", lines_through(*points, points[0])),), tuple(holes))


def circle(x, y, radius):
    """A hole."""
    return (Arc((x, y), radius, 0, -360),)


def test_areas_and_distances():
    """Plain squares have the areas and distances that one sees."""
    assert polygon_area(SQUARE) == 100
    assert polygon_area(SQUARE, [[(2, 2), (4, 2), (4, 4), (2, 4)]]) == 96
    assert overlap_area(SQUARE, [(5, 5), (15, 5), (15, 15), (5, 15)]) == 25
    assert farthest_apart([(0, 0), (10, 0)], [(0, 1), (10, 3)]) == pytest.approx(3)
    assert shape_area(shape(*SQUARE, holes=[circle(5, 5, 2)])) == pytest.approx(100 - 4 * pi)


def test_faults_are_found_with_their_place():
    """A crossing outline is told with the point; so are holes that leave the foam."""
    assert fault_of(shape(*SQUARE)) is None
    assert fault_of(shape((0, 0), (10, 10), (10, 0), (0, 10))) == (
        "the outline crosses itself",
        (5, 5),
    )
    assert fault_of(shape((0, 0), (10, 0), (20, 0)))[0].startswith("the outline")
    outside = fault_of(shape(*SQUARE, holes=[circle(50, 50, 2)]))
    assert outside[0] in {
        "a hole lies outside the outline",
        "a hole crosses the outline or another hole",
    }
    crossing = fault_of(shape(*SQUARE, holes=[circle(10, 5, 2)]))
    assert crossing[0] == "a hole crosses the outline or another hole"
    two = fault_of(shape(*SQUARE, holes=[circle(4, 5, 2), circle(6, 5, 2)]))
    assert two[0] == "a hole crosses the outline or another hole"


def test_lines_are_clipped_to_foam():
    """Only the stretches on foam stay, in the line's order."""
    plate = shape(*SQUARE, holes=[circle(5, 5, 2)])
    parts = clip_line([(-5, 5), (15, 5)], plate)
    assert [(part[0], part[-1]) for part in parts] == [
        (pytest.approx((0, 5)), pytest.approx((3, 5), abs=0.02)),
        (pytest.approx((7, 5), abs=0.02), pytest.approx((10, 5))),
    ]
    assert clip_line([(-5, 50), (15, 50)], plate) == []


def test_hulls():
    """A hull leaves inner points out and runs counter-clockwise."""
    hull = convex_hull([*SQUARE, (5.0, 5.0)])
    assert sorted(hull) == sorted(SQUARE)
    assert polygon_area(hull) == 100


def test_the_best_angle_is_found():
    """A long strip fits a square room on its diagonal only."""
    strip = [(0.0, 0.0), (130.0, 0.0), (130.0, 4.0), (0.0, 4.0)]
    assert least_misfit(strip, 100, 100, [0, 90])[0] == pytest.approx(30)
    misfit, angle = least_misfit(strip, 100, 100, range(180))
    assert misfit < 0
    assert angle in {45, 135}


def test_lines_are_alike_where_they_are_nowhere_far_apart():
    """Told as by the largest distance between the two: of lines with the same points, turned about,
    with other points on the same way, beside one another, and beside in one corner alone."""
    rng = random.Random(3)
    line = [(10.0 * k, rng.uniform(-5, 5)) for k in range(12)]
    middles = [((a + c) / 2, (b + d) / 2) for (a, b), (c, d) in pairwise(line)]
    finer = [one for pair in zip(line, middles, strict=False) for one in pair] + [line[-1]]
    corner = [*line[:5], (line[5][0], line[5][1] + 0.4), *line[6:]]
    aside = [(x, y + 0.2) for x, y in line]
    for other, wanted in ((line[::-1], True), (finer, True), (corner, False), (aside, False)):
        assert lie_alike(line, other, 0.1) is wanted
        assert (farthest_apart(line, other) < 0.1) is wanted
