"""Strokes whose ends meet become rings; what is short or far apart stays open."""

from itertools import pairwise

from guidegen.geometry.drawing.joins import GAP, join_strokes
from guidegen.geometry.drawing.records import Subpath
from guidegen.geometry.outline.records import Line


def stroke(*points: tuple[float, float]) -> Subpath:
    """An open stroke through points."""
    lines = tuple(Line(start, end) for start, end in pairwise(points))
    return Subpath(lines, closed=False)


def test_a_small_hole_with_a_gap_is_a_ring():
    """A hole of 1 mm, drawn with ends 0.3 mm apart: 3.7 mm long, so it did come back."""
    joined = join_strokes([stroke((0, 0), (1, 0), (1, 1), (0, 1), (0, 0.3))])
    assert len(joined.rings) == 1
    assert not joined.opens


def test_a_dash_no_longer_than_the_gap_is_no_ring():
    """Both ends of a dash of 0.4 mm lie within the gap, and so do those of a hook of 1 mm."""
    for dash in (stroke((0, 0), (0.4, 0)), stroke((0, 0), (0.5, 0), (0.1, 0))):
        joined = join_strokes([dash])
        assert not joined.rings
        assert len(joined.opens) == 1
    assert GAP == 0.5
