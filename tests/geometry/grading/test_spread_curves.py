"""Spread lines: edges, curves and discs keep their form where they are cut."""

from itertools import pairwise
from math import hypot, pi

import pytest
from geometry.drawing_samples import LEG, PLATE, good_piece
from geometry.spread_samples import UPRIGHT, opened, sharpest, sound

from guidegen.geometry.outline.measures import (
    flatten,
    run_area,
    run_length,
    tangent,
)
from guidegen.geometry.outline.records import (
    Cubic,
    Line,
)


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
