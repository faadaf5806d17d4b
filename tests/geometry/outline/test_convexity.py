"""Dents of an outline: found where a ruler does not touch, smoothed over without a new one."""

import itertools
from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guidegen.geometry.outline.areas import convex_hull
from guidegen.geometry.outline.convexity import concave_turn, is_convex, smooth_dents
from guidegen.geometry.outline.curves import turn_between
from guidegen.geometry.outline.distances import farthest_apart
from guidegen.geometry.outline.measures import (
    flatten,
    run_length,
    segment_end,
    segment_start,
    tangent,
)
from guidegen.geometry.outline.records import Arc, Cubic, Line
from guidegen.geometry.shapes.fitting import fit_curve


def dented(depth: float, waves: int):
    """A round edge from the right over the top to the left, pressed in by waves of a depth."""

    def point(turn: float):
        radius = 100 - depth * sin(waves * turn) ** 2
        return (radius * cos(turn), radius * sin(turn))

    return fit_curve(point, 0.2, pi - 0.2)


def test_a_round_edge_comes_back_as_it_is():
    """What has no dent is not touched at all."""
    arc = Arc((0.0, 0.0), 50.0, 0.0, 170.0)
    edge = (arc, Line(segment_end(arc), (-45.0, -40.0)))
    assert is_convex(edge)
    assert smooth_dents(edge) is edge


def test_a_right_turn_is_measured():
    """An edge that turns 30 degrees to the right and back has 30 degrees of dent."""
    edge = (Line((0, 0), (10, 0)), Line((10, 0), (20, -5.7735)), Line((20, -5.7735), (30, -5.7735)))
    assert concave_turn(edge) == pytest.approx(30, abs=0.01)


@given(st.floats(0.3, 12), st.integers(2, 9))
@settings(max_examples=40, deadline=None)
def test_dents_are_smoothed_and_the_ends_stay(depth, waves):
    """A dented round edge turns left all along, has no kink, and begins and ends where it did."""
    edge = dented(depth, waves)
    smooth = smooth_dents(edge)
    assert concave_turn(smooth) < 0.02
    assert segment_start(smooth[0]) == pytest.approx(segment_start(edge[0]))
    assert segment_end(smooth[-1]) == pytest.approx(segment_end(edge[-1]))
    for before, after in itertools.pairwise(smooth):
        assert segment_end(before) == pytest.approx(segment_start(after), abs=1e-6)
    assert run_length(smooth) <= run_length(edge) + depth


def test_smoothing_leaves_no_kink():
    """Where the curve over a dent begins and ends, the edge has one direction."""
    smooth = smooth_dents(dented(4, 3))
    for before, after in itertools.pairwise(smooth):
        assert abs(turn_between(tangent(before, 1.0), tangent(after, 0.0))) < 1.0


def test_a_ring_without_corners_is_smoothed_across_its_start():
    """A dent of 20 mm at the very start of a ring is found too; the ring stays closed there and
    within 8 mm of the ruler."""

    def point(turn: float):
        radius = 100 - 20 * max(0.0, cos(turn)) ** 12
        return (radius * cos(turn), radius * sin(turn))

    ring = fit_curve(point, 0.0, 2 * pi)
    assert concave_turn(ring) > 5
    smooth = smooth_dents(ring, closed=True)
    points = flatten(smooth)
    assert points[0] == pytest.approx(points[-1], abs=1e-6)
    assert concave_turn((*smooth, *smooth)) < 0.05
    hull = convex_hull(flatten(ring))
    assert farthest_apart(points, [*hull, hull[0]]) < 8


def test_a_corner_beside_a_dent_stays():
    """A curve over a dent ends at a corner instead of cutting it off."""
    dent = Cubic((100, 0), (100, 40), (92, 60), (100, 100))
    edge = (Line((0, 0), (100, 0)), dent, Line((100, 100), (0, 100)))
    smooth = smooth_dents(edge)
    assert concave_turn(smooth) < 0.02
    assert (100, 0) in flatten(smooth)
    assert any(p == pytest.approx((100, 100)) for p in flatten(smooth))
