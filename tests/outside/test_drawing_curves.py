"""Lengths and points of drawn curves against svgpathtools and numerical quadrature.

Both references are general libraries: svgpathtools 1.8 reads path data and measures arc lengths on
its own; scipy.integrate.quad integrates the speed of a Bézier curve adaptively (QUADPACK).
"""

from math import ceil

import pytest
from geometry.drawing_samples import svg
from scipy.integrate import quad
from svgpathtools import CubicBezier, parse_path

from guidegen.geometry.drawing.paths import read_drawing
from guidegen.geometry.drawing.records import DrawnPath
from guidegen.geometry.outline.curves import point_at, velocity
from guidegen.geometry.outline.measures import run_length, segment_length
from guidegen.geometry.outline.records import Cubic, Run

PATHS = {
    "cubic": "M20,230 C60,10 150,290 190,60",
    "loop": "M20,200 C260,20 -60,20 180,200",
    "nearly cusped": "M20,200 C180.4,20 19.6,20 180,200",
    "flat": "M20,200 C60,200 100,200 180,200",
    "handles on ends": "M20,200 C20,200 180,100 180,100",
    "quadratic": "M20,230 Q100,-60 180,210",
    "smooth": "M20,100 C20,60 60,60 60,100 S100,140 100,100 140,60 140,100",
    "smooth quadratics": "M20,100 Q40,60 60,100 T100,100 140,100 180,100",
    "circular arcs": "M20,100 A40 40 0 0 1 100,100 A30 30 0 1 0 160,100",
    "elliptical arcs": "M20,100 A60 25 30 0 1 100,140 A60 25 -20 1 1 150,120",
    "arc enlarged": "M20,100 A10 10 0 0 0 120,60",
    "relative": "m20 20h60v-5l20 0 0 5c0 10 10 10 20 10v40s-5 5-10 5q-5 10-10 0t-10 0h-70z",
    "compact": "M20-5.5l1e1.5-3-4.25a25 25 0 0 125 25",
    "several": "M20,20h50v50zM100,100q20,30 40,0z",
}


def drawn(data: str) -> DrawnPath:
    """A path read from a drawing in mm."""
    drawing, problems = read_drawing(svg(f'<path d="{data}"/>'), "a.svg")
    assert problems == ()
    assert drawing is not None
    return drawing.paths[0]


def strokes(data: str) -> list[Run]:
    """The strokes of a path read from a drawing."""
    return [subpath.run for subpath in drawn(data).subpaths]


@pytest.mark.parametrize("name", PATHS)
def test_lengths_agree_with_another_library(name):
    """The length of each path agrees with svgpathtools to a micron."""
    reference = parse_path(PATHS[name]).length(error=1e-9)
    assert sum(map(run_length, strokes(PATHS[name]))) == pytest.approx(reference, abs=1e-3)


@pytest.mark.parametrize("name", PATHS)
def test_points_agree_with_another_library(name):
    """Points at equal arc length lie where svgpathtools puts them, within a hundredth of a mm."""
    for run, reference in zip(
        strokes(PATHS[name]), parse_path(PATHS[name]).continuous_subpaths(), strict=True
    ):
        whole = run_length(run)
        for step in range(ceil(whole / 10) + 1):
            share = min(1.0, step * 10 / whole)
            point, _ = point_at(run, share * whole)
            other = reference.point(
                reference.ilength(min(share * whole, reference.length()), error=1e-6)
            )
            assert point == pytest.approx((other.real, 300 - other.imag), abs=0.01)


CURVES = [
    Cubic((0, 0), (0, 100), (100, 100), (100, 0)),
    Cubic((0, 0), (200, 80), (-120, 80), (80, 0)),
    Cubic((0, 0), (100.2, 100), (-0.2, 100), (100, 0)),
    Cubic((0, 0), (1, 0), (2, 0), (300, 0)),
    Cubic((0, 0), (0, 0), (50, 80), (90, 10)),
    Cubic((0, 0), (0.001, 0.002), (0.002, 0.001), (0.003, 0)),
]


@pytest.mark.parametrize("curve", CURVES)
def test_bezier_lengths_agree_with_quadrature(curve):
    """Arc length is the integral of the speed; both references agree with ours."""

    def speed(t: float) -> float:
        x, y = velocity(curve, t)
        return (x * x + y * y) ** 0.5

    integral, error = quad(speed, 0, 1, limit=400, epsabs=1e-10, epsrel=1e-10)
    ours = segment_length(curve)
    assert ours == pytest.approx(integral, abs=max(1e-6, 2 * error))
    points = (curve.start, curve.control1, curve.control2, curve.end)
    assert ours == pytest.approx(CubicBezier(*(complex(*p) for p in points)).length(), rel=1e-6)
