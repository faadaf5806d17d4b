"""Corners move; the outline between them follows smoothly and what lies inside comes along."""

from itertools import pairwise
from math import cos, pi, sin

import pytest
from geometry.drawing_samples import good_piece

from guidegen.geometry.grading.inside import Inside
from guidegen.geometry.grading.rules import move_corners
from guidegen.geometry.outline.curves import distance, turn_between
from guidegen.geometry.outline.measures import (
    bounds,
    flatten,
    run_length,
    segment_end,
    segment_point,
    segment_start,
    tangent,
)
from guidegen.geometry.outline.records import Arc, Cubic, Line, Run

LEAF = """\
<path id="outline" d="M20,100 C40,40 100,20 160,60 A30 30 0 0 1 160,120 C100,160 50,150 20,100 Z"/>
<circle id="corner-tip" cx="20" cy="100" r="1"/>
<circle id="corner-upper" cx="160" cy="60" r="1"/>
<circle id="corner-lower" cx="160" cy="120" r="1"/>
<circle class="hole" cx="90" cy="90" r="6"/>
<path class="fold" d="M20 100 C60 95 110 85 160 60"/>
"""
"""A leaf with a tip, a hole, and a fold from corner to corner."""

ROUND = """\
<path id="outline" d="M20,100 C20,60 60,40 100,40 C140,40 180,60 180,100 L180,150 L20,150 Z"/>
<circle id="corner-left" cx="20" cy="150" r="1"/>
<circle id="corner-right" cx="180" cy="150" r="1"/>
<circle id="corner-top" cx="100" cy="40" r="1"/>
"""
"""A plate with a rounded top, on which one corner is smooth."""


def kinks(run: Run) -> list[float]:
    """Turns in degrees between neighbouring segments."""
    return [abs(turn_between(tangent(a, 1.0), tangent(b, 0.0))) for a, b in pairwise(run)]


def test_moving_all_corners_alike_moves_the_piece():
    """One displacement for all corners is a plain movement; arcs stay arcs."""
    piece = good_piece(LEAF)
    moved = move_corners(piece, dict.fromkeys(piece.corners, (7.0, -3.0)))
    assert [type(s) for s in moved.ring()] == [type(s) for s in piece.ring()]
    for old, new in zip(piece.ring(), moved.ring(), strict=True):
        for t in (0.0, 0.3, 1.0):
            x, y = segment_point(old, t)
            assert segment_point(new, t) == pytest.approx((x + 7, y - 3), abs=1e-9)
    (old,), (new,) = piece.holes[0], moved.holes[0]
    assert isinstance(new, Arc)
    assert isinstance(old, Arc)
    assert new.centre == pytest.approx((old.centre[0] + 7, old.centre[1] - 3))


def test_no_movement_is_the_same_piece():
    """Without any movement the piece itself comes back."""
    piece = good_piece(LEAF)
    assert move_corners(piece, {}) is piece
    assert move_corners(piece, {"tip": (0.0, 0.0)}) is piece


def test_curves_stay_smooth_between_corners():
    """Where curves of one stretch meet smoothly they still do, exactly."""
    piece = good_piece(ROUND)
    moved = move_corners(piece, {"left": (-20.0, -10.0), "right": (25.0, 5.0), "top": (4.0, 30.0)})
    for old, new in zip(piece.stretches, moved.stretches, strict=True):
        assert len(old) == len(new)
        for before, after in zip(kinks(old), kinks(new), strict=True):
            if before < 1e-6:
                assert after < 1e-6


def test_a_smooth_corner_stays_smooth():
    """A corner that only names a place on a smooth curve gets no kink when it moves."""
    piece = good_piece(ROUND)
    moved = move_corners(piece, {"top": (10.0, 25.0)})
    top = moved.corners.index("top")
    turn = turn_between(
        tangent(moved.stretches[top - 1][-1], 1.0), tangent(moved.stretches[top][0], 0.0)
    )
    assert abs(turn) < 1e-6
    assert segment_start(moved.stretches[top][0]) == pytest.approx((110, 285))


def test_corners_land_where_the_rule_says():
    """Every corner moves by exactly its rule; others stay."""
    piece = good_piece(LEAF)
    moved = move_corners(piece, {"upper": (12.0, 8.0)})
    for name, old, new in zip(piece.corners, piece.stretches, moved.stretches, strict=True):
        x, y = segment_start(old[0])
        shift = (12.0, 8.0) if name == "upper" else (0.0, 0.0)
        assert segment_start(new[0]) == pytest.approx((x + shift[0], y + shift[1]), abs=1e-9)


def test_the_displacement_is_blended_by_arc_length():
    """Half way along an edge the outline has moved by half, as by the rule's definition."""
    body = (
        '<path id="outline" d="M20,20 L60,20 L120,20 V80 H20 Z"/>'
        '<circle id="corner-a" cx="20" cy="20" r="1"/><circle id="corner-b" cx="120" cy="20" r="1"/>'
        '<circle id="corner-c" cx="120" cy="80" r="1"/><circle id="corner-d" cx="20" cy="80" r="1"/>'
    )
    moved = move_corners(good_piece(body), {"b": (10.0, 20.0)})
    points = [segment_start(segment) for segment in moved.ring()]
    # The node at x = 60 is 40 of 100 mm from the corner that stays.
    assert any(distance(point, (64, 288)) < 1e-9 for point in points)


def test_inner_lines_stay_fixed_to_the_corners_they_reach():
    """A fold from corner to corner still ends at both corners, without a break."""
    piece = good_piece(LEAF)
    moved = move_corners(piece, {"upper": (15.0, 10.0), "tip": (-10.0, 5.0)})
    (fold,) = [line.run for line in moved.lines]
    corners = {
        name: segment_start(run[0])
        for name, run in zip(moved.corners, moved.stretches, strict=True)
    }
    assert distance(segment_start(fold[0]), corners["tip"]) < 1e-6
    assert distance(segment_end(fold[-1]), corners["upper"]) < 1e-6
    assert all(isinstance(segment, Cubic) for segment in fold)


def test_holes_keep_their_size():
    """A hole moves with the foam around it and keeps its size."""
    piece = good_piece(LEAF)
    moved = move_corners(piece, {"upper": (30.0, 0.0), "lower": (30.0, 0.0)})
    (hole,) = moved.holes[0]
    assert isinstance(hole, Arc)
    assert hole.radius == pytest.approx(6)
    assert 95 < hole.centre[0] < 115


def test_straight_edges_stay_straight():
    """Lines stay lines, whatever their corners do."""
    moved = move_corners(good_piece(ROUND), {"left": (-9.0, 4.0)})
    index = moved.corners.index("left")
    assert isinstance(moved.stretches[index][0], Line)


def mean_value_square() -> Inside:
    """The field inside a square whose outline is moved by a linear map, x += 0.1 x + 0.2 y."""
    outline = [(10 * n / 8, 0.0) for n in range(8)] + [(10.0, 10 * n / 8) for n in range(8)]
    outline += [(10 - 10 * n / 8, 10.0) for n in range(8)] + [
        (0.0, 10 - n * 10 / 8) for n in range(8)
    ]
    return Inside([((x, y), (0.1 * x + 0.2 * y, -0.3 * y)) for x, y in outline])


@pytest.mark.parametrize(
    "point", [(5, 5), (1, 9), (0.01, 3), (9.99, 9.99), (10, 4), (0, 0), (2.5, 10)]
)
def test_linear_movements_are_followed_exactly_inside(point):
    """Mean value coordinates reproduce linear maps (Hormann and Floater 2006, section 2)."""
    x, y = point
    assert mean_value_square().displacement(point) == pytest.approx(
        (0.1 * x + 0.2 * y, -0.3 * y), abs=1e-9
    )


def test_the_middle_of_a_disc_moves_by_the_mean():
    """Mean value coordinates at the middle of a regular polygon are all equal."""
    outline = [(cos(2 * pi * n / 36), sin(2 * pi * n / 36)) for n in range(36)]
    field = Inside([(point, (float(n), 0.0)) for n, point in enumerate(outline)])
    assert field.displacement((0.0, 0.0)) == pytest.approx((17.5, 0.0))


def test_inner_points_do_not_leave_the_range_of_the_outline():
    """Inside a convex outline no point moves farther than some point of the outline."""
    outline = [(10 * cos(2 * pi * n / 24), 10 * sin(2 * pi * n / 24)) for n in range(24)]
    field = Inside([(point, (abs(point[0]), -5.0)) for point in outline])
    for x in (-8, -3, 0, 4, 7):
        dx, dy = field.displacement((x, 1.5))
        assert 0 <= dx <= 10
        assert dy == pytest.approx(-5)


def test_lengths_follow_the_corners():
    """An edge whose far corner moves along it grows by that much."""
    moved = move_corners(good_piece(ROUND), {"right": (20.0, 0.0)})
    bottom = moved.stretches[moved.corners.index("left")]
    assert run_length(bottom) == pytest.approx(180)
    assert bounds((flatten_run(bottom),))[2] == pytest.approx(200)


def flatten_run(run: Run) -> Run:
    """A run as straight lines."""
    return tuple(Line(p, q) for p, q in pairwise(flatten(run)))
