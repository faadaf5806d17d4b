"""Lines with corners that are points of curves → smooth runs, and how they are written."""

import re
from itertools import pairwise
from math import cos, hypot, pi, sin

import pytest

from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.parabolas import parabola, parabola_control
from guidegen.geometry.outline.records import Cubic, Line
from guidegen.pictures.pen.rounding import rounded_run
from guidegen.render.text.svg_paths import path_data


def circle(radius: float, count: int) -> list[tuple[float, float]]:
    """Corners on a circle, rounded as views round theirs."""
    turns = (2 * pi * k / count for k in range(count))
    return [
        (round(radius * cos(t) / 0.02) * 0.02, round(radius * sin(t) / 0.02) * 0.02) for t in turns
    ]


def test_a_thinned_circle_is_round_again():
    """Through 24 corners of a circle of 20 mm, thinned to 0.18 mm, goes a smooth ring within that."""
    run = rounded_run(circle(20, 24), 0.18, closed=True)
    assert all(isinstance(segment, Cubic) for segment in run)
    assert all(abs(hypot(x, y) - 20) < 0.2 for x, y in flatten(run))


def test_true_corners_stay():
    """A square has four straight lines; an open line ends where it ended."""
    square = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)]
    run = rounded_run(square, 0.07, closed=True)
    assert len(run) == 4 and all(isinstance(segment, Line) for segment in run)
    line = rounded_run([(0, 0), (5, 0.1), (10, 0)], 0.07)
    assert flatten(line)[0] == (0, 0) and flatten(line)[-1] == (10, 0)


def test_a_parabola_is_a_cubic_with_its_control():
    """Degree elevation and back gives the control point; a true cubic has none."""
    assert parabola_control(parabola((0, 0), (3, 5), (9, 1))) == pytest.approx((3, 5))
    assert parabola_control(Cubic((0, 0), (1, 5), (2, -5), (3, 0))) is None


def test_smooth_lines_take_no_more_room_than_their_corners():
    """Written, a ring of parabolas has one control point; read back as SVG says, each mirrored
    control is the next corner, so that roundings do not add up."""
    corners = circle(20, 24)
    text = path_data(rounded_run(corners, 0.18, closed=True), 100, closed=True)
    assert text.count("q") == 1 and "C" not in text
    polygon = path_data(tuple(Line(a, b) for a, b in pairwise(corners)), 100, closed=True)
    assert len(text) < 1.2 * len(polygon)
    numbers = [float(one) for one in re.findall(r"-?\d*\.?\d+", text)]
    x, y = numbers[0], numbers[1]
    control, found = (x + numbers[2], y + numbers[3]), []
    x, y = x + numbers[4], y + numbers[5]
    found.append(control)
    for dx, dy in zip(numbers[6::2], numbers[7::2], strict=True):
        control = (2 * x - control[0], 2 * y - control[1])
        found.append(control)
        x, y = x + dx, y + dy
    assert [(a, 100 - b) for a, b in found] == [pytest.approx(one, abs=1e-9) for one in corners]
