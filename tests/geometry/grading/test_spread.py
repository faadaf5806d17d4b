"""Spread lines: the piece is cut, one side moves, what was cut stays smooth, all else moves along."""

from itertools import pairwise
from math import asin, degrees, pi

import pytest
from geometry.drawing_samples import LEG, PLATE, good_piece
from geometry.spread_samples import UPRIGHT, opened, sharpest, sound

from guidegen.geometry.grading.spread_cut import SpreadError
from guidegen.geometry.outline.curves import distance, turn_between
from guidegen.geometry.outline.measures import (
    bounds,
    run_area,
    run_length,
    segment_end,
    segment_start,
    tangent,
)
from guidegen.geometry.outline.records import (
    Arc,
    Line,
    LineKind,
)


def test_a_plate_is_widened():
    """Opening a rectangle gives the wider rectangle, its sides single straight lines."""
    piece = opened(good_piece(PLATE + UPRIGHT), 12)
    assert all(len(run) == 1 and isinstance(run[0], Line) for run in piece.stretches)
    assert bounds((piece.ring(),)) == pytest.approx((20, 220, 132, 280))


def test_a_plate_is_narrowed():
    """Closing a rectangle gives the narrower one, its sides single straight lines."""
    piece = opened(good_piece(PLATE + UPRIGHT), -12)
    assert all(len(run) == 1 and isinstance(run[0], Line) for run in piece.stretches)
    assert bounds((piece.ring(),)) == pytest.approx((20, 220, 108, 280))


@pytest.mark.parametrize("hinge", ["none", "start", "end"])
def test_no_change_is_the_same_piece(hinge):
    """Opening by nothing returns the piece itself."""
    piece = good_piece(LEG)
    assert opened(piece, 0.0, hinge) is piece


def test_the_hinged_end_stays_shut_and_the_other_opens():
    """The straight distance of the cut ends is the width at one end and nothing at the other."""
    piece = good_piece(PLATE + UPRIGHT)
    turned = opened(piece, 10, "start")
    # The line starts at the top: the lower side opens by 10, the side of 60 mm turns.
    top = next(r for c, r in zip(turned.corners, turned.stretches, strict=True) if c == "d")
    bottom = next(r for c, r in zip(turned.corners, turned.stretches, strict=True) if c == "b")
    angle = degrees(2 * asin(10 / 120))
    assert run_length(top) == pytest.approx(100, abs=0.05)
    bridge = bottom[1]
    assert distance(segment_start(bridge), segment_end(bridge)) == pytest.approx(10)
    assert abs(turn_between(tangent(bottom[0], 0), tangent(bottom[-1], 1))) == pytest.approx(angle)
    assert sound(turned)


def test_the_moving_side_keeps_its_form():
    """On the side that moves, distances between points are as they were."""
    piece = good_piece(LEG)
    turned = opened(piece, 15, "start", "left")
    before = [segment_start(hole[0]) for hole in piece.holes]
    after = [segment_start(hole[0]) for hole in turned.holes]
    right = piece.corners.index("right-top")
    moved = segment_start(turned.stretches[turned.corners.index("right-top")][0])
    was = segment_start(piece.stretches[right][0])
    gaps = sorted(distance(was, point) for point in before)
    assert min(distance(moved, point) for point in after) == pytest.approx(gaps[0], abs=1e-9)


def test_edges_grow_by_the_opening():
    """An edge that the line passes squarely grows or shrinks by the width, exactly."""
    piece = good_piece(PLATE + UPRIGHT)
    for width in (-15.0, -1.0, 0.5, 30.0):
        changed = opened(piece, width)
        lengths = sorted(run_length(run) for run in changed.stretches)
        assert lengths == pytest.approx(sorted([60, 60, 100 + width, 100 + width]), abs=1e-9)


def test_inner_lines_are_bridged():
    """A fold across the piece goes on unbroken and without a kink."""
    piece = good_piece(LEG)
    changed = opened(opened(piece, 10, "none", "left"), 10, "none", "right")
    (fold,) = [line.run for line in changed.lines if line.kind is LineKind.FOLD]
    for before, after in pairwise(fold):
        assert distance(segment_end(before), segment_start(after)) < 1e-6
    assert sharpest(fold) < 0.01
    (old,) = [line.run for line in piece.lines if line.kind is LineKind.FOLD]
    width = segment_end(old[-1])[0] - segment_start(old[0])[0]
    assert segment_end(fold[-1])[0] - segment_start(fold[0])[0] == pytest.approx(width + 20)


def test_holes_beside_the_line_keep_size_and_kind():
    """Round holes stay round arcs, only moved."""
    piece = good_piece(LEG)
    changed = opened(opened(piece, 10, "none", "left"), -8, "start", "right")
    for hole in changed.holes:
        (arc,) = hole
        assert isinstance(arc, Arc)
        assert (arc.radius, arc.sweep) == (pytest.approx(4), pytest.approx(-360))


def test_a_hole_on_the_line_becomes_a_slot():
    """A round hole that is cut becomes a slot as long as the opening."""
    piece = good_piece(PLATE + UPRIGHT + '<circle class="hole" cx="70" cy="50" r="5"/>')
    (slot,) = opened(piece, 12).holes
    assert -run_area(slot) == pytest.approx(pi * 25 + 12 * 10, abs=0.05)
    assert run_length(slot) == pytest.approx(pi * 10 + 24, abs=1e-6)
    assert sorted(type(segment).__name__ for segment in slot if isinstance(segment, Line)) == [
        "Line",
        "Line",
    ]
    assert run_area(slot) < 0


def test_a_hole_on_a_closing_line_narrows():
    """A hole across a line that closes is drawn together with the foam around it."""
    piece = good_piece(PLATE + UPRIGHT + '<circle class="hole" cx="70" cy="50" r="8"/>')
    changed = opened(piece, -6)
    (hole,) = changed.holes
    left, low, right, high = bounds((hole,))
    assert high - low == pytest.approx(16, abs=0.01)
    assert 10 < right - left < 16
    assert sound(changed)


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('<path id="spread-w" d="M70 25 V90"/>', "stops inside"),
        ('<path id="spread-w" d="M70 30 V60"/>', "does not cross"),
        ('<path id="spread-w" d="M150 10 V90"/>', "does not cross"),
    ],
)
def test_a_line_has_to_cut_the_piece_in_two(line, words):
    """A line that ends inside, or misses the piece, is refused."""
    piece = good_piece(PLATE + line)
    with pytest.raises(SpreadError, match=words):
        opened(piece, 10, left=True)


def test_a_line_that_ends_just_short_is_lengthened():
    """Two millimetres short of the outline count as reaching it."""
    piece = good_piece(PLATE + '<path id="spread-w" d="M70 21.5 V78.5"/>')
    assert run_area(opened(piece, 10).ring()) == pytest.approx(6600)


@pytest.mark.parametrize(
    ("width", "hinge", "words"),
    [
        (-70, "none", "more than there is room"),
        (-70, "start", "more than the cut"),
        (70, "end", "more than the cut"),
    ],
)
def test_too_much_is_refused(width, hinge, words):
    """Closing by more than there is beside the line, or turning too far, is refused."""
    with pytest.raises(SpreadError, match=words):
        opened(good_piece(PLATE + UPRIGHT), width, hinge)


def test_a_corner_near_the_closing_line_does_not_take_from_the_width():
    """An edge becomes shorter by the whole width, although its corner is near the line."""
    piece = good_piece(PLATE + '<path id="spread-w" d="M40 10 V90"/>')
    changed = opened(piece, -24)
    assert bounds((changed.ring(),)) == pytest.approx((44, 220, 120, 280))
    assert all(len(run) == 1 for run in changed.stretches)


def test_a_corner_at_a_closing_hinge_keeps_the_other_edges():
    """Closing like a fan turns one side by the angle that the width and the line's length give."""
    piece = good_piece(PLATE + UPRIGHT)
    changed = opened(piece, -10, "start")
    left, right = (changed.stretches[changed.corners.index(name)] for name in ("a", "c"))
    turn = abs(turn_between(tangent(left[0], 0.0), tangent(right[0], 0.0)))
    assert 180 - turn == pytest.approx(degrees(2 * asin(10 / 120)))
    assert run_length(left) == pytest.approx(60)
    assert run_length(right) == pytest.approx(60)
