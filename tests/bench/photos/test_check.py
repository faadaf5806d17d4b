"""Edges on benches that are worked out, not photographed: outlines lie on them, or are refused."""

from types import SimpleNamespace

import numpy as np
import pytest
from benchmarks import photo_scenes as scenes
from scipy.spatial import cKDTree

from guidegen.bench.photos.check import astray, outline_problems
from guidegen.bench.photos.edges import SPACING, Sort, Traced, trace_edge
from guidegen.bench.photos.fitting.joined import join_parts
from guidegen.bench.photos.fitting.split import PartKind, Parts
from guidegen.bench.photos.fitting.whole import Fitted, dense, distances
from guidegen.geometry.outline.records import Arc, Cubic, Line

RADIUS = 50.0


def bench(circle=0.0, dark=0.5, wide=0.4):
    """A bench of light paper with a drawn circle about the origin, softened as a lens does."""

    def light(points, _owners):
        far = np.linalg.norm(points, axis=1)
        ink = np.exp(-(((far - circle) / wide) ** 2))
        return np.repeat((0.8 * (1 - dark * ink))[:, None], 3, axis=1)

    return SimpleNamespace(
        light=light, flat=SimpleNamespace(owners=lambda points: np.zeros(len(points), int))
    )


def ring(radius):
    """A ring about the origin, and its run."""
    run = (Arc((0.0, 0.0), radius, 0.0, 360.0),)
    return scenes.along(run, SPACING), run


def traced(points):
    """Places that were all measured."""
    return Traced(points, np.ones(len(points), bool), 0.5, 0.5)


@pytest.mark.parametrize("beside", [-2.0, -1.4, 0.0, 1.4, 2.0])
def test_middle_of_a_line_is_found_from_beside_it(beside):
    """The coarse ring runs up to 2 mm beside a drawn line; its middle comes out all the same."""
    found = trace_edge(bench(RADIUS), ring(RADIUS + beside)[0], sort=Sort.DARK)
    assert np.abs(np.linalg.norm(found.points, axis=1) - RADIUS).max() < 0.05
    assert found.good.all()


def test_paper_beside_a_line_is_no_line():
    """An outline 1.4 mm beside the line that it stands for is refused; on the line it is not."""
    sight = bench(RADIUS)
    codes = {}
    for radius in (RADIUS, RADIUS + 1.4):
        points, run = ring(radius)
        fitted = Fitted(run, (), distances(points, run))
        found = outline_problems(sight, fitted, traced(points), Sort.DARK, "a.jpg")
        codes[radius] = [one.code for one in found]
    assert codes == {RADIUS: [], RADIUS + 1.4: ["trace-astray"]}


def test_outline_that_runs_past_its_edge_is_refused():
    """A curve that shoots 50 mm beyond its end goes through all places, and is refused nonetheless."""
    square = ((0.0, 0.0), (80.0, 0.0), (80.0, 60.0), (0.0, 60.0))
    sides = [Line(a, b) for a, b in zip(square, (*square[1:], square[0]), strict=True)]
    points = scenes.along(sides, SPACING)
    spike = Cubic((0.0, 60.0), (0.0, 50.0), (0.0, -150.0), (0.0, 0.0))
    for run, most in (((*sides,), 0.3), ((*sides[:3], spike), np.inf)):
        fitted = Fitted(run, square, distances(points, run))
        assert fitted.left_over.max() < 0.3
        assert astray(dense(run), fitted, traced(points)) < most
    found = outline_problems(bench(), fitted, traced(points), Sort.EDGE, "a.jpg")
    assert [one.code for one in found] == ["trace-astray"]


def test_outline_that_crosses_itself_is_refused():
    """A loop no larger than what is measured is told by its crossing."""
    corners = (
        (0.0, 0.0),
        (80.0, 0.0),
        (79.6, 0.5),
        (80.2, 0.5),
        (79.6, -0.2),
        (80.0, 60.0),
        (0.0, 60.0),
    )
    run = tuple(Line(a, b) for a, b in zip(corners, (*corners[1:], corners[0]), strict=True))
    points = scenes.along(run, SPACING)
    fitted = Fitted(run, corners, distances(points, run))
    (found,) = outline_problems(bench(), fitted, traced(points), Sort.EDGE, "a.jpg")
    assert "crosses itself" in found.message


def test_curve_does_not_run_past_its_end():
    """A curve along a nearly straight, noisy edge stays on it: places alone would let it run 7 mm past."""
    rng = np.random.default_rng(15)
    x = np.arange(0, 200.0, SPACING)
    points = np.column_stack((x, 0.3 * np.sin(x / 30)))
    points[:, 1] += np.repeat(rng.normal(0, 0.14, len(points) // 4), 4)
    weights = np.ones(len(points))
    weights[294:306] = 0
    parts = Parts((0, 40, 300, len(points) - 1), (PartKind.LINE, PartKind.CUBIC, PartKind.LINE))
    run = join_parts(points, weights, parts, 0.14, closed=False)
    assert cKDTree(points).query(dense(tuple(run)))[0].max() < 0.6
