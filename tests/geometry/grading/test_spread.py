"""Spread lines: the piece is cut, one side moves, what was cut stays smooth, all else moves along."""

from dataclasses import replace
from itertools import pairwise
from math import asin, degrees, hypot, pi

import pytest
from geometry.drawing_samples import LEG, PLATE, corner_points, good_piece

from guidegen.geometry.drawing.records import DrawnPiece
from guidegen.geometry.grading.spread import left_stays, spread_piece
from guidegen.geometry.grading.spread_cut import SpreadError
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.curves import distance, turn_between
from guidegen.geometry.outline.measures import (
    bounds,
    flatten,
    run_area,
    run_length,
    segment_end,
    segment_start,
    tangent,
)
from guidegen.geometry.outline.records import (
    Arc,
    Cubic,
    Edge,
    InnerLine,
    Line,
    LineKind,
    Run,
    Shape,
)

UPRIGHT = '<line id="spread-w" x1="70" y1="10" x2="70" y2="90"/>'
LEVEL = '<line id="spread-l" x1="130" y1="50" x2="10" y2="50"/>'


def opened(
    piece: DrawnPiece, width: float, hinge: str = "none", line: str = "", left: bool | None = None
) -> DrawnPiece:
    """A piece opened at a line (its first), the side that stays chosen by the rule."""
    spread = next(s for s in piece.spreads if line in {"", s.name})
    stays = left_stays(piece, spread, frozenset()) if left is None else left
    return spread_piece(piece, spread, width, hinge, stays)


def sound(piece: DrawnPiece) -> bool:
    """True where no line of a piece crosses another and the outline is closed."""
    ring = piece.ring()
    closed = all(
        distance(segment_end(before), segment_start(after)) < 1e-6
        for before, after in zip(ring, ring[1:] + ring[:1], strict=True)
    )
    return closed and fault_of(Shape((Edge("outline", ring),), piece.holes)) is None


def sharpest(run: Run) -> float:
    """The largest turn in degrees between neighbouring segments of a run."""
    return max(
        (
            abs(turn_between(tangent(before, 1.0), tangent(after, 0.0)))
            for before, after in pairwise(run)
        ),
        default=0.0,
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


def test_curves_stay_smooth_where_they_are_cut():
    """No kink appears in an edge that was smooth, whether it opens, closes or turns."""
    piece = good_piece(LEG)
    assert max(map(sharpest, piece.stretches)) < 1e-6
    for line in ("left", "right", "length"):
        for hinge in ("none", "start", "end"):
            for width in (-12, -3, 4, 18):
                changed = opened(piece, width, hinge, line)
                for run in changed.stretches:
                    assert sharpest(run) < 0.01, (line, hinge, width)
                assert sound(changed), (line, hinge, width)


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


def test_a_disc_becomes_a_stadium():
    """A round piece without corners opens into two half circles and two straight lines."""
    body = '<circle cx="70" cy="60" r="40"/><path id="spread-w" d="M70 10 V110"/>'
    changed = opened(good_piece(body), 30)
    assert run_area(changed.ring()) == pytest.approx(pi * 1600 + 80 * 30, abs=0.5)
    assert run_length(changed.ring()) == pytest.approx(pi * 80 + 60)
    assert sorted({type(s).__name__ for s in changed.ring()}) == ["Arc", "Line"]


def test_a_hinged_disc_stays_smooth_at_its_hinge():
    """A round piece opened like a fan has no kink at the end that stays shut."""
    body = '<circle cx="70" cy="60" r="40"/><path id="spread-w" d="M70 10 V110"/>'
    for width in (-12, 20):
        changed = opened(good_piece(body), width, "end")
        ring = changed.ring()
        assert sharpest((*ring, ring[0])) < 0.01
        assert sound(changed)


def test_a_line_along_the_cut_stays_whole():
    """A centre line that runs along the spread line stays with one side, unbroken."""
    piece = good_piece(PLATE + UPRIGHT + '<path class="centre" d="M70 20 V80"/>')
    changed = opened(piece, 10)
    (centre,) = changed.lines
    assert len(centre.run) == 1
    assert run_length(centre.run) == pytest.approx(60)


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


def test_a_free_line_outside_moves_with_the_nearest_edge():
    """A line drawn beside the piece moves with the side that it lies next to."""
    piece = good_piece(PLATE + UPRIGHT)
    outside = InnerLine(LineKind.ENGRAVE, (Line((130, 240), (140, 240)),))
    changed = opened(replace(piece, lines=(outside,)), 10)
    assert changed.lines[0].run == (Line((140, 240), (150, 240)),)


def test_a_straight_edge_between_corners_stays_straight():
    """A slanted straight edge is one straight line again, from corner to corner."""
    body = '<path id="outline" d="M20,20 L120,60 V120 H20 Z"/><path id="spread-w" d="M70 10 V130"/>'
    for width in (12, -12):
        changed = opened(good_piece(body), width)
        ring = changed.ring()
        assert [type(segment) for segment in ring] == [Line] * 4
        lengths = sorted(run_length((segment,)) for segment in ring)
        slanted = hypot(100 + width, 40)
        assert lengths == pytest.approx(sorted([60, 100, 100 + width, slanted]))


def test_a_hinge_bends_a_straight_edge():
    """Where one side turns, a straight edge that is cut becomes a smooth bow, not a straight line."""
    piece = good_piece(PLATE + UPRIGHT)
    for width in (10, -10):
        changed = opened(piece, width, "start")
        bottom = changed.stretches[changed.corners.index("b")]
        assert len(bottom) > 1
        assert sharpest(bottom) < 0.01


SLANTED = """\
<path id="outline" d="M20,20 C50,20 90,60 120,60 V120 H20 Z"/>
<circle id="corner-a" cx="20" cy="20" r="1"/><circle id="corner-b" cx="120" cy="60" r="1"/>
<path id="spread-w" d="M70 10 V130"/>
"""


@pytest.mark.parametrize("width", [3, 10, -3, -8])
def test_a_slanted_curve_keeps_its_ends_and_turns_gently(width):
    """A curve that is cut at a slant keeps the direction of its ends and gets no bump."""
    piece = good_piece(SLANTED)
    changed = opened(piece, width)
    old, new = (p.stretches[p.corners.index("b")] for p in (piece, changed))
    for t, end in ((0.0, 0), (1.0, -1)):
        assert tangent(new[end], t) == pytest.approx(tangent(old[end], t), abs=1e-9)
    assert sharpest(new) < 0.01
    # The drawn curve descends to 45 degrees and never more; the graded one by little more.
    steepest = max(abs(tangent(segment, t / 20)[1]) for segment in new for t in range(21))
    assert steepest < 0.85
    xs = [x for segment in new for x, _ in flatten((segment,))]
    assert all(a >= b - 1e-9 for a, b in pairwise(xs))


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


def test_edges_that_the_line_does_not_pass_keep_their_form():
    """Closing leaves the edges beyond the next corners as they were, curve for curve."""
    body = (
        '<path id="outline" d="M20,20 L120,50 C100,80 100,90 120,120 H20 Z"/>'
        '<circle id="corner-a" cx="120" cy="50" r="1"/><circle id="corner-b" cx="120" cy="120" r="1"/>'
        '<circle id="corner-c" cx="20" cy="20" r="1"/><path id="spread-w" d="M90 10 V130"/>'
    )
    piece = good_piece(body)
    changed = opened(piece, -8)
    old, new = (p.stretches[p.corners.index("b")] for p in (piece, changed))
    assert [type(segment) for segment in new] == [Cubic]
    assert run_length(new) == pytest.approx(run_length(old), abs=1e-9)
