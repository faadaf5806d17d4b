"""Arcs in the place of curves: how near they lie, and that they meet without a corner."""

from itertools import pairwise

import pytest
from shapely.geometry import LineString

from guidegen.geometry.outline.biarcs import arcs_along
from guidegen.geometry.outline.measures import (
    flatten,
    segment_end,
    segment_start,
    tangent,
)
from guidegen.geometry.outline.records import Arc, Cubic

CURVES = {
    "bow": Cubic((0, 0), (10, 40), (60, 40), (70, 0)),
    "s": Cubic((0, 0), (50, 0), (0, 30), (50, 30)),
    "loop": Cubic((0, 0), (90, 60), (-40, 60), (50, 0)),
    "straight": Cubic((0, 0), (10, 0), (20, 0), (30, 0)),
    "no handle": Cubic((0, 0), (0, 0), (30, 40), (60, 0)),
    "hook": Cubic((0, 0), (100, 0), (0, 1), (80, 0)),
}


@pytest.mark.parametrize("curve", CURVES.values(), ids=CURVES)
@pytest.mark.parametrize("tolerance", [0.01, 0.5])
def test_arcs_lie_near_the_curve(curve: Cubic, tolerance: float) -> None:
    """No point of the arcs is farther from the curve than asked, nor the other way round."""
    arcs = arcs_along(curve, tolerance)
    made, drawn = LineString(flatten(arcs, 0.0005)), LineString(flatten((curve,), 0.0005))
    assert made.hausdorff_distance(drawn) < tolerance * 2
    assert segment_start(arcs[0]) == pytest.approx(curve.start, abs=1e-6)
    assert segment_end(arcs[-1]) == pytest.approx(curve.end, abs=1e-6)


@pytest.mark.parametrize("name", ["bow", "s", "loop", "straight", "no handle"])
def test_arcs_meet_without_a_corner(name: str) -> None:
    """Each begins where the last one ends, in its direction: nothing is seen of the change."""
    for first, second in pairwise(arcs_along(CURVES[name], 0.01)):
        assert segment_end(first) == pytest.approx(segment_start(second), abs=1e-6)
        assert tangent(first, 1) == pytest.approx(tangent(second, 0), abs=1e-4)


def test_few_arcs_do() -> None:
    """A bow of 70 mm takes some tens of arcs at most, where chords would take twice as many."""
    arcs = arcs_along(CURVES["bow"], 0.01)
    assert all(isinstance(one, Arc) for one in arcs)
    assert len(arcs) < len(flatten((CURVES["bow"],), 0.01)) / 2
