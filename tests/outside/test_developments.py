"""Flat outlines against worked examples and against the surfaces that they wrap.

Sources: the frustum net of 5 in and 8 in diameter, 4 in high, is the worked example at
ceemrr.com/Geometry2/DrawingsNets/DrawingsNets6.html (7.12 in, 11.39 in, 126.4 degrees); the
formulas s = sqrt(h**2 + (R - r)**2) and theta = 360*(R - r)/s follow from the cone that a frustum is
cut from: its rims are arcs of radius R*s/(R - r) and r*s/(R - r) about the apex, each as long as its
circle. The cone with an apex of 90 degrees: R/s = sin(45 degrees), so 360*sin(45) = 254.6 degrees.
"""

from dataclasses import dataclass
from math import cos, degrees, hypot, pi, radians, sin, tau

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.integrate import dblquad, quad

from guidegen.geometry.outline.areas import shape_area
from guidegen.geometry.outline.measures import flatten, run_length, segment_end, segment_start
from guidegen.geometry.shapes.building import wrap_length
from guidegen.geometry.shapes.tapered_tube import TAPERED_TUBE

IN = 25.4


def tube(top, bottom, slope):
    """A tube that adds nothing for foam, so that it is the bare frustum."""
    dimensions = {"girth-top": top, "girth-bottom": bottom, "length": slope, "ease": 0.0}
    dimensions |= {"backing": 0.0, "neutral": 0.0, "gap": 0.0, "overlap": 0.0}
    for end in ("top", "bottom"):
        dimensions |= {f"flare-{end}": 0.0, f"slant-{end}": 0.0, f"scallops-{end}": 0.0}
    dimensions["scallop-depth"] = 0.0
    return TAPERED_TUBE.whole(dimensions, 5)


@dataclass(frozen=True)
class Sector:
    """What is measured on the flat outline of a tube."""

    outer: float
    inner: float
    angle: float


def sector_of(long_rim, short_rim, slope):
    """Radii in mm and angle in radians of the arcs that a tapered tube is drawn with."""
    shape = tube(long_rim, short_rim, slope)
    (top,), (bottom,) = shape.edge("top").run, shape.edge("bottom").run
    assert top.centre == pytest.approx(bottom.centre)
    return Sector(top.radius, bottom.radius, radians(abs(top.sweep)))


def net(small, large, height):
    """Sector of a frustum from its two diameters and its height."""
    slope = hypot(height, (large - small) / 2)
    return sector_of(pi * large, pi * small, slope)


def test_frustum_of_a_published_example():
    """Diameters 5 in and 8 in, height 4 in: radii 7.12 in and 11.39 in, angle 126.4 degrees."""
    sector = net(5 * IN, 8 * IN, 4 * IN)
    assert sector.inner / IN == pytest.approx(7.12, abs=0.005)
    assert sector.outer / IN == pytest.approx(11.39, abs=0.005)
    assert degrees(sector.angle) == pytest.approx(126.4, abs=0.05)


def test_frustum_in_millimetres():
    """Diameters 100 and 200, height 150: recomputed with the published formulas to 1e-5."""
    sector = net(100, 200, 150)
    assert sector.inner == pytest.approx(158.113883, abs=1e-5)
    assert sector.outer == pytest.approx(316.227766, abs=1e-5)
    assert degrees(sector.angle) == pytest.approx(113.841996, abs=1e-5)
    shape = tube(pi * 200, pi * 100, hypot(150, 50))
    (top,) = shape.edge("top").run
    start, end = segment_start(top), segment_end(top)
    assert hypot(end[0] - start[0], end[1] - start[1]) == pytest.approx(529.946379, abs=1e-5)
    assert shape_area(shape) == pytest.approx(74509.412, abs=1e-3)


def test_cone_of_a_published_example():
    """A cone with an apex angle of 90 degrees unrolls to 254.6 degrees (cut off near its tip)."""
    # Cut off at a fiftieth of its length, the cone keeps its angle and its outer radius.
    slope = 100 * (1 - 0.02)
    radius = 100 * sin(pi / 4)
    sector = sector_of(tau * radius, tau * radius * 0.02, slope)
    assert degrees(sector.angle) == pytest.approx(254.6, abs=0.05)
    assert sector.outer == pytest.approx(100)


@given(st.floats(20, 150), st.floats(1, 100), st.floats(60, 400))
def test_area_is_that_of_the_frustum(small, more, height):
    """The flat outline has the lateral area pi*(r + R)*s of the frustum (school geometry)."""
    large = small + more
    slope = hypot(height, more)
    shape = tube(tau * large, tau * small, slope)
    assert shape_area(shape) == pytest.approx(pi * (small + large) * slope)


def test_area_by_integrating_over_the_cone():
    """The surface integral over the cone, worked out by numerical quadrature, is the flat area."""
    small, large, height = 40.0, 70.0, 180.0

    def element(z, turn):
        radius = small + (large - small) * z / height
        along = np.array(
            [cos(turn) * (large - small) / height, sin(turn) * (large - small) / height, 1]
        )
        around = np.array([-radius * sin(turn), radius * cos(turn), 0])
        return float(np.linalg.norm(np.cross(along, around)))

    surface, _ = dblquad(element, 0, tau, 0, height)
    shape = tube(tau * large, tau * small, hypot(height, large - small))
    assert shape_area(shape) == pytest.approx(surface, rel=1e-6)


def test_rolling_up_keeps_distances():
    """Every point of the flat rim, rolled onto the cone, lies on the cone's rim; angles close."""
    small, large, height = 40.0, 70.0, 180.0
    slope = hypot(height, large - small)
    sector = sector_of(tau * large, tau * small, slope)
    shape = tube(tau * large, tau * small, slope)
    (top,), (bottom,) = shape.edge("top").run, shape.edge("bottom").run
    centre = top.centre
    for run, rim in ((top, large), (bottom, small)):
        turned = []
        for x, y in flatten((run,)):
            # On the flat sector the distance from the apex is the slope distance on the cone.
            reach = hypot(x - centre[0], y - centre[1])
            assert reach * (large - small) / slope == pytest.approx(rim, rel=1e-9)
            turned.append(np.arctan2(x - centre[0], y - centre[1]) * tau / sector.angle)
        assert max(turned) - min(turned) == pytest.approx(tau, rel=1e-9)


def test_demo_cuff_of_the_trade_notes():
    """Rims 340 and 245, slope 210: radii 751 and 541, angle 25.9 (hand-computed example)."""
    sector = sector_of(340, 245, 210)
    assert (round(sector.outer), round(sector.inner)) == (752, 542)
    exact = sector_of(280 + 25 + 11 * pi, 185 + 25 + 11 * pi, 210)
    assert (round(exact.outer), round(exact.inner)) == (751, 541)
    assert degrees(exact.angle) == pytest.approx(25.9, abs=0.05)


# The wrap around a body.


def test_tube_wall():
    """Outer minus inner girth of a closed tube of wall t is 2*pi*t: 62.83 mm for 10 mm."""
    none = {"backing": 0.0, "ease": 0.0}
    inner = wrap_length(300, none | {"neutral": 0.0}, 10)
    outer = wrap_length(300, none | {"neutral": 1.0}, 10)
    middle = wrap_length(300, none | {"neutral": 0.5}, 10)
    assert outer - inner == pytest.approx(62.831853, abs=1e-6)
    assert middle - inner == pytest.approx(31.415927, abs=1e-6)


@pytest.mark.parametrize(("a", "b"), [(60.0, 60.0), (70.0, 40.0), (100.0, 25.0)])
def test_wrap_of_an_oval_limb(a, b):
    """The parallel curve at distance d around an ellipse is 2*pi*d longer (Steiner's formula),
    checked by integrating along the curve."""
    distance = 3 + 0.5 * 5

    def speed(turn):
        return hypot(a * sin(turn), b * cos(turn))

    def parallel_speed(turn):
        bend = a * b / speed(turn) ** 3
        return speed(turn) * (1 + bend * distance)

    girth = quad(speed, 0, tau)[0]
    around = quad(parallel_speed, 0, tau)[0]
    wrapped = wrap_length(girth, {"backing": 3.0, "neutral": 0.5, "ease": 0.0}, 5)
    assert wrapped == pytest.approx(around, rel=1e-9)


def test_partial_wrap_is_the_bend_allowance():
    """The length of a quarter turn follows the sheet-metal bend allowance A*pi/180*(r + K*t):
    19.634954 for 90 degrees, r = 10, t = 5, K = 0.5; 5.75 for r = 3, t = 2, K = 0.33
    (machinecalcs.com, worked example)."""
    for radius, thickness, neutral, expected, close in (
        (10.0, 5.0, 0.5, 19.634954, 1e-5),
        (3.0, 2.0, 0.33, 5.75, 0.005),
    ):
        values = {"backing": 0.0, "neutral": neutral, "ease": 0.0}
        full = wrap_length(tau * radius, values, thickness)
        assert full / 4 == pytest.approx(expected, abs=close)


def test_flat_rims_have_the_length_of_their_circles():
    """Arc lengths on paper are the girths of the cone, to nine digits."""
    shape = tube(tau * 70, tau * 40, 180)
    assert run_length(shape.edge("top").run) == pytest.approx(tau * 70, rel=1e-9)
    assert run_length(shape.edge("bottom").run) == pytest.approx(tau * 40, rel=1e-9)
