"""Curves become chords no farther away than the tolerance."""

from itertools import pairwise

import pytest

from guidegen.geometry.outline.measures import flatten_segment
from guidegen.geometry.outline.records import Cubic


@pytest.mark.parametrize("tolerance", [0.02, 0.1, 0.5])
@pytest.mark.parametrize("chords", range(3, 40, 3))
def test_chords_of_a_parabola_keep_the_tolerance(chords, tolerance):
    """The second derivative of a parabola is constant, so that the published bound is exact.

    Filip, Magedson, Markot: Surface algorithms using bounds on derivatives, Computer Aided
    Geometric Design 3 (1986): the error is at most |f''| / (8 n^2) with n chords. With handles
    `rise` high it is 6 rise, and the parabola is 3 rise x (1000 - x) / 1000^2 high at x.
    """
    rise = 8 * tolerance * (chords - 0.001) ** 2 / 6
    curve = Cubic((0, 0), (1000 / 3, rise), (2000 / 3, rise), (1000, 0))
    points = flatten_segment(curve, tolerance)
    assert len(points) == chords + 1
    worst = 0.0
    for (x0, y0), (x1, y1) in pairwise(points):
        x = (x0 + x1) / 2
        worst = max(worst, 3 * rise * x * (1000 - x) / 1e6 - (y0 + y1) / 2)
    assert 0.9 * tolerance < worst <= tolerance
