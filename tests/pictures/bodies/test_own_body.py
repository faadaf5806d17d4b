"""A reader's body over that of the nearest size."""

from itertools import pairwise
from math import cos, hypot, pi, sin

import pytest
from pictures.size_figures import people

from guidegen.assembly.body.proportions import find_body
from guidegen.pictures.bodies.own_body import FOOT, HIGH, draw_own_body, half_breadth
from guidegen.pictures.pen.records import Group, Path
from guidegen.words import ENGLISH


@pytest.mark.parametrize("ratio", [0.7, 1.0, 1.29])
def test_breadths_are_those_of_ellipses(ratio: float) -> None:
    """The half breadth of an ellipse gives back its girth, measured by 3,600 chords."""
    half = half_breadth(900, ratio)
    points = [
        (half * cos(2 * pi * k / 3600), half * ratio * sin(2 * pi * k / 3600)) for k in range(3601)
    ]
    pairs = pairwise(points)
    girth = sum(hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairs)
    assert girth == pytest.approx(900, rel=1e-3)


def test_the_taller_of_both_fills_the_drawing_and_both_stand_on_one_line() -> None:
    """For people of a survey: feet of both bodies at one height, the taller head at the top."""
    for person in people()[::100]:
        own, size = find_body(person), find_body({"stature": 1700.0, "waist": 800.0})
        drawing = draw_own_body(own, size, "M", ENGLISH)
        groups = [item for item in drawing.items if isinstance(item, Group)]
        bodies = [item for group in groups for item in group.items if isinstance(item, Path)]
        assert len(bodies) == 6
        heights = [[at.start[1] for run in body.runs for at in run] for body in bodies]  # type: ignore[union-attr] # cubics have a start
        lows = [min(ys) for ys in (heights[2], heights[5])]
        assert lows[0] == pytest.approx(lows[1], abs=1.0)
        assert max(map(max, heights)) == pytest.approx(HIGH + FOOT, abs=0.5)
