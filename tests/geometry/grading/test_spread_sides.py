"""Spread lines: which side stays, what moves along, and which arm opens."""

from dataclasses import replace

import pytest
from geometry.drawing_samples import LEG, PLATE, corner_points, good_piece
from geometry.spread_samples import LEVEL, UPRIGHT, opened, sound

from guidegen.geometry.grading.spread import left_stays, spread_piece
from guidegen.geometry.outline.measures import (
    bounds,
    run_area,
    run_length,
)
from guidegen.geometry.outline.records import (
    InnerLine,
    Line,
    LineKind,
)


def test_corners_on_the_line_stay_with_the_side_that_stays():
    """A line through corners opens at them; the corners stay and the new edge part joins on."""
    line = '<line id="spread-w" x1="70" y1="10" x2="70" y2="90"/>'
    marks = (
        '<circle id="corner-p" cx="70" cy="20" r="1"/><circle id="corner-q" cx="70" cy="80" r="1"/>'
    )
    piece = good_piece('<path id="outline" d="M20,20 H120 V80 H20 Z"/>' + marks + line)
    for left in (True, False):
        changed = opened(piece, 10, left=left)
        starts = {
            name: corner_points(run)[0]
            for name, run in zip(changed.corners, changed.stretches, strict=True)
        }
        assert starts == {"p": (70.0, 280.0), "q": (70.0, 220.0)}
        assert sound(changed)
        assert run_area(changed.ring()) == pytest.approx(6600)


def test_both_sides_may_stay():
    """Which side stays changes where the result lies, not its form."""
    piece = good_piece(LEG)
    for hinge in ("none", "start", "end"):
        for width in (-10, 14):
            one = opened(piece, width, hinge, "length", left=True)
            two = opened(piece, width, hinge, "length", left=False)
            assert run_area(one.ring()) == pytest.approx(run_area(two.ring()), rel=1e-9)
            assert [run_length(run) for run in one.stretches] == pytest.approx(
                [run_length(run) for run in two.stretches], rel=1e-9
            )


def test_the_larger_side_stays():
    """Lines on both sides of the middle leave the middle where it is."""
    piece = good_piece(LEG)
    wide = opened(opened(piece, 10, "none", "left"), 10, "none", "right")
    left, _, right, _ = bounds((wide.ring(),))
    before = bounds((piece.ring(),))
    assert (left, right) == pytest.approx((before[0] - 10, before[2] + 10))


def test_of_equal_sides_the_left_or_lower_one_stays():
    """Through the middle, the right or the upper side moves, however the line is directed."""
    for line, box in (
        (UPRIGHT, (20, 220, 130, 280)),
        ('<path id="spread-w" d="M70 90 V10"/>', (20, 220, 130, 280)),
        (LEVEL, (20, 220, 120, 290)),
        ('<path id="spread-w" d="M10 50 H130"/>', (20, 220, 120, 290)),
    ):
        changed = opened(good_piece(PLATE + line), 10)
        assert bounds((changed.ring(),)) == pytest.approx(box)


def test_the_side_on_the_fold_stays():
    """The side that holds the whole edge on the fold stays, though it is the smaller one."""
    piece = good_piece(PLATE + '<path id="spread-w" d="M30 10 V90"/>')
    (spread,) = piece.spreads
    fold = frozenset({piece.corners.index("a")})
    assert left_stays(piece, spread, frozenset()) != left_stays(piece, spread, fold)
    changed = spread_piece(piece, spread, 10, "none", left_stays(piece, spread, fold))
    assert bounds((changed.ring(),)) == pytest.approx((20, 220, 130, 280))


def test_later_lines_move_along():
    """A line on the side that moved opens where it now lies, and crossing lines both open."""
    piece = good_piece(PLATE + UPRIGHT + LEVEL + '<path id="spread-x" d="M100 10 V90"/>')
    for name, width in (("w", 10), ("l", 5), ("x", 20)):
        piece = opened(piece, width, "none", name)
    assert bounds((piece.ring(),)) == pytest.approx((20, 220, 150, 285))
    assert all(len(run) == 1 for run in piece.stretches)


def test_the_order_of_square_lines_does_not_matter():
    """Two lines at right angles give one result in either order."""
    piece = good_piece(PLATE + UPRIGHT + LEVEL)
    one = opened(opened(piece, 10, "none", "w"), 5, "none", "l")
    two = opened(opened(piece, 5, "none", "l"), 10, "none", "w")
    assert bounds((one.ring(),)) == pytest.approx(bounds((two.ring(),)))
    assert run_area(one.ring()) == pytest.approx(run_area(two.ring()))


def test_only_the_arm_that_the_line_crosses_opens():
    """In a piece like a U the other arm keeps its place, though the line points at it."""
    body = (
        '<path id="outline" d="M20,20 H60 V120 H100 V20 H140 V160 H20 Z"/>'
        '<path id="spread-w" d="M10 60 H70"/><circle class="hole" cx="120" cy="40" r="4"/>'
    )
    for width in (15, -10):
        piece = good_piece(body)
        changed = opened(piece, width)
        assert bounds((changed.ring(),)) == pytest.approx((20, 140, 140, 280 + max(width, 0)))
        assert run_area(changed.ring()) == pytest.approx(run_area(piece.ring()) + 40 * width)
        assert bounds((changed.holes[0],)) == pytest.approx(bounds((piece.holes[0],)))


def test_a_line_may_cross_both_arms():
    """A line through two arms opens both; what hangs between them moves with its side."""
    body = (
        '<path id="outline" d="M20,20 H60 V120 H100 V20 H140 V160 H20 Z"/>'
        '<path id="spread-w" d="M10 60 H150"/>'
    )
    changed = opened(good_piece(body), 15)
    assert bounds((changed.ring(),)) == pytest.approx((20, 140, 140, 295))
    assert run_area(changed.ring()) == pytest.approx(120 * 140 - 40 * 100 + 2 * 40 * 15)


def test_a_free_line_outside_moves_with_the_nearest_edge():
    """A line drawn beside the piece moves with the side that it lies next to."""
    piece = good_piece(PLATE + UPRIGHT)
    outside = InnerLine(LineKind.ENGRAVE, (Line((130, 240), (140, 240)),))
    changed = opened(replace(piece, lines=(outside,)), 10)
    assert changed.lines[0].run == (Line((140, 240), (150, 240)),)
