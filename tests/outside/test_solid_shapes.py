"""Gores, arcs, mitres and ovals against published values and reference libraries.

Sources: gores are the sinusoidal projection cut along n meridians: J. P. Snyder, Map Projections: A
Working Manual, USGS Professional Paper 1395 (1987), equations 30-1 and 30-2 (numbers from memory),
x = R*longitude*cos(latitude), y = R*latitude, at the longitude pi/n. The chord form
R*sin(pi/n)*cos(latitude) is half the chord of the angle 2*pi/n in the parallel's circle. Mitre and bevel angles of rings
are 180/n, those of leaning rings the compound mitre of woodworkers' tables (31.6 and 33.9 degrees
are marked on mitre saws for crown moulding at 38 degrees: from memory). Sagitta: Euclid, III.35.
Perimeters of ellipses: the complete elliptic integral of SciPy.
"""

from math import asin, cos, degrees, pi, radians, sin, tau

import numpy as np
import pytest
from scipy.special import ellipe, ellipeinc

from guidegen.buildfile.records.vocabulary import SHAPES
from guidegen.geometry.outline.areas import shape_area
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import Arc
from guidegen.geometry.shapes.fitting import arc_through, sagitta_radius
from guidegen.geometry.shapes.ovals import oval_arc, oval_turn
from guidegen.geometry.shapes.registry import BUILDERS
from guidegen.geometry.shapes.solids import segment_bevel, segment_mitre


def build(name, **changes: float):
    """A shape with defaults filled in, of foam without a neutral layer's addition."""
    dimensions = {d.name: d.default for d in SHAPES[name].dimensions}
    dimensions |= {key.replace("_", "-"): value for key, value in changes.items()}
    return BUILDERS[name].whole(dimensions, 5)


def gore(count, **changes: float):
    """A gore of a ball of 100 mm radius."""
    return build("gore", gores=float(count), radius=100.0, neutral=0.0, **changes)


def half_width(shape, height):
    """Half width of a gore `height` mm above its rim, by bisection on its right edge."""
    _, low, _, _ = shape_bounds(shape)
    for segment in shape.edge("right").run:
        (_, y0), (_, y1) = segment.start, segment.end
        if y0 - 1e-9 <= low + height <= y1 + 1e-9:
            first, last = 0.0, 1.0
            for _ in range(60):
                middle = (first + last) / 2
                x, y = bezier(segment, middle)
                first, last = (middle, last) if y < low + height else (first, middle)
            return x
    raise AssertionError(height)


def bezier(curve, t):
    """Point of a cubic by its Bernstein form."""
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3)
    points = (curve.start, curve.control1, curve.control2, curve.end)
    return tuple(sum(w * p[k] for w, p in zip(weights, points, strict=True)) for k in (0, 1))


def shape_bounds(shape):
    """Bounds of the ends of all segments."""
    points = [p for s in shape.ring() for p in (s.start, s.end)]
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


@pytest.mark.parametrize(
    ("latitude", "width"),
    [(0, 39.269908), (15, 37.931818), (30, 34.008738), (60, 19.634954), (75, 10.163800)],
)
def test_gore_half_widths(latitude, width):
    """Eight gores of R = 100: half widths pi*R*cos(latitude)/8, Snyder's x at the longitude pi/8."""
    found = half_width(gore(8), tau * 100 * latitude / 360)
    assert found == pytest.approx(width, abs=0.005)
    assert found == pytest.approx(pi * 100 * cos(radians(latitude)) / 8, abs=0.005)


def test_gore_length():
    """From the equator to the pole a gore is pi*R/2 long: 157.08 mm."""
    _, low, _, high = shape_bounds(gore(8))
    assert high - low == pytest.approx(157.079633, abs=1e-6)


@pytest.mark.parametrize("count", [8, 12, 24])
def test_gores_have_the_surface_of_the_ball(count):
    """All gores of a hemisphere together have the area 2*pi*R**2, whatever their number: strips
    of latitude keep length and width (the sinusoidal projection keeps areas)."""
    assert count * shape_area(gore(count)) == pytest.approx(tau * 100**2, rel=5e-5)


def test_more_gores_come_nearer_to_the_ball():
    """What a flat gore cannot follow shrinks with their number: its side, longer than the
    meridian that it becomes, and the ball with flat panels between chords, whose area
    n*R**2*sin(pi/n)*2 comes up to 2*pi*R**2."""
    counts = (8, 12, 24)
    meridian = 100 * pi / 2
    excess = [run_length(gore(n).edge("right").run) / meridian - 1 for n in counts]
    assert excess[0] > excess[1] > excess[2] > 0
    # The error falls with the square of the number, as the chord form's does.
    assert excess[0] / excess[2] == pytest.approx((24 / 8) ** 2, rel=0.1)
    chords = [n * shape_area(gore(n)) * (sin(pi / n) / (pi / n)) for n in counts]
    lack = [1 - area / (tau * 100**2) for area in chords]
    assert lack[0] > lack[1] > lack[2] > 0
    assert lack[2] < 0.003


def test_spheroid_gores_have_its_surface():
    """Gores of a flattened dome have the area of the half spheroid, by quadrature."""
    a, c = 100.0, 60.0
    turns = np.linspace(0, pi / 2, 20001)
    speed = np.hypot(a * np.cos(turns), c * np.sin(turns))
    surface = np.trapezoid(tau * a * np.sin(turns) * speed, turns)
    shape = build("gore", gores=12.0, radius=a, rise=c, neutral=0.0)
    assert 12 * shape_area(shape) == pytest.approx(surface, rel=1e-5)


@pytest.mark.parametrize(
    ("length", "width", "rise"),
    [(200.0, 160.0, 130.0), (200.0, 200.0, 100.0), (240.0, 150.0, 60.0), (100.0, 100.0, 300.0)],
)
def test_cap_halves_have_the_rim_of_the_ellipsoid(length, width, rise):
    """Both rims together are as long as the ellipse around the head, in the middle of 5 mm foam.

    Its perimeter by Ramanujan, Modular equations and approximations to pi, Quarterly Journal of
    Mathematics 45 (1914), section 16: pi*(a + b)*(1 + 3h/(10 + sqrt(4 - 3h))), h = ((a-b)/(a+b))**2.
    """
    shape = build("cap-half", length=length, width=width, rise=rise)
    expected = _ramanujan(length / 2 + 2.5, width / 2 + 2.5)
    assert 2 * run_length(shape.edge("rim").run) == pytest.approx(expected, abs=0.05)


def test_the_crown_told_is_that_of_the_ellipsoid():
    """What the crown seam measures once formed is half of the ellipse over the head."""
    told = {m.name: m.value for m in BUILDERS["cap-half"].measures(_head(), 5.0)}
    found = 2 * told["crown seam, once formed with heat"]
    assert found == pytest.approx(_ramanujan(102.5, 132.5), abs=0.05)


def test_quarter_ellipses_agree_with_the_tables():
    """E(sin(45°)) = 1.3506438810 and E(sin(60°)) = 1.2110560276.

    Abramowitz and Stegun, Handbook of Mathematical Functions, table 17.1 (m = 0.50 and 0.75).
    """
    assert oval_arc(1.0, 0.5**0.5, pi / 2) == pytest.approx(1.3506438810, abs=1e-9)
    assert oval_arc(1.0, 0.5, pi / 2) == pytest.approx(1.2110560276, abs=1e-9)


def _ramanujan(a: float, b: float) -> float:
    h = ((a - b) / (a + b)) ** 2
    return pi * (a + b) * (1 + 3 * h / (10 + (4 - 3 * h) ** 0.5))


def _head() -> dict[str, float]:
    given = {"length": 200.0, "width": 160.0, "rise": 130.0}
    return {d.name: given.get(d.name, d.default) for d in SHAPES["cap-half"].dimensions}


def test_a_closed_dome_has_the_length_of_its_parallel():
    """R = 100, arc = 120, three darts of 56 mm: common practice, no source; by the formula
    2*pi*(s - R*sin(s/R)) for what a disc has too much."""
    shape = build("dome", radius=100.0, arc=120.0, darts=3.0, neutral=0.0)
    rims = [edge.run[0] for edge in shape.edges if edge.name.startswith("rim")]
    gaps = tau * 120 - sum(run_length((rim,)) for rim in rims)
    assert gaps / 3 == pytest.approx(56, abs=0.2)


# Arcs over chords.


def test_sagitta():
    """Chord 120 mm, sagitta 20 mm: radius 100 mm exactly, and arc 128.700222 mm."""
    assert sagitta_radius(120, 20) == pytest.approx(100, abs=1e-9)
    arc = arc_through((-60, 0), (0, 20), (60, 0))
    assert isinstance(arc, Arc)
    assert arc.radius == pytest.approx(100)
    assert run_length((arc,)) == pytest.approx(128.700222, abs=1e-6)


def test_leaf_sides_are_those_arcs():
    """A leaf 120 mm long and 40 mm wide has two such arcs; its area is two circular segments."""
    shape = build("leaf", length=120.0, width=40.0)
    assert run_length(shape.edge("left").run) == pytest.approx(128.700222, abs=1e-6)
    half = asin(0.6)
    segment = 100**2 * (half - sin(half) * cos(half))
    assert shape_area(shape) == pytest.approx(2 * segment)


def test_crescents_are_the_difference_of_two_circles():
    """The area left by the bite is that of the disc less the lens of both circles, by the
    formula for two circles at a distance d (law of cosines)."""
    big, small, apart = 60.0, 55.0, 55.0 - 60.0 + 40.0
    first = np.arccos((apart**2 + big**2 - small**2) / (2 * apart * big))
    second = np.arccos((apart**2 + small**2 - big**2) / (2 * apart * small))
    lens = big**2 * (first - np.sin(2 * first) / 2) + small**2 * (second - np.sin(2 * second) / 2)
    shape = build("crescent", diameter=120.0, bite=110.0, thickness=40.0)
    assert shape_area(shape) == pytest.approx(pi * big**2 - lens)


# Rings and mitres.


@pytest.mark.parametrize(
    ("count", "angle"), [(3, 60), (5, 36), (6, 30), (8, 22.5), (10, 18), (12, 15)]
)
def test_mitres_of_flat_and_upright_rings(count, angle):
    """The ends of n plates are cut by 180/n: as a mitre lying flat, as a bevel standing."""
    assert segment_mitre(count, 90) == pytest.approx(angle)
    assert segment_bevel(count, 0) == pytest.approx(angle)
    assert segment_mitre(count, 0) == pytest.approx(0)
    assert segment_bevel(count, 90) == pytest.approx(0, abs=1e-9)


@pytest.mark.parametrize(
    ("count", "lean", "mitre", "bevel"),
    [
        (4, 38, 31.619007, 33.862914),
        (4, 52, 38.23849, 25.806829),
        (6, 20, 11.170229, 28.024321),
        (8, 15, 6.119101, 21.693652),
    ],
)
def test_compound_mitres(count, lean, mitre, bevel):
    """Leaning plates need both: the woodworkers' table, to 1e-5 degrees."""
    assert segment_mitre(count, lean) == pytest.approx(mitre, abs=1e-5)
    assert segment_bevel(count, lean) == pytest.approx(bevel, abs=1e-5)


@pytest.mark.parametrize(("count", "lean"), [(4, 38), (6, 20), (8, 15), (5, 70)])
def test_bevels_from_the_normals_of_the_plates(count, lean):
    """The bevel is half of the angle between the normals of two neighbouring plates."""
    t = radians(lean)
    one = np.array([cos(t), 0, sin(t)])
    turn = tau / count
    two = np.array([cos(t) * cos(turn), cos(t) * sin(turn), sin(t)])
    assert segment_bevel(count, lean) == pytest.approx(degrees(np.arccos(one @ two)) / 2)


# Ovals.


@pytest.mark.parametrize(
    ("a", "b", "around"),
    [
        (10, 5, 48.442241102738),
        (100, 80, 567.23335777949),
        (100, 50, 484.42241102738),
        (5, 3, 25.526998863398),
    ],
)
def test_perimeters_of_ellipses(a, b, around):
    """The length around an ellipse is 4*a*E(e): to nine digits for the formula, and to five
    thousandths of a millimetre for the drawn outline."""
    assert 4 * oval_arc(a, b, pi / 2) == pytest.approx(around, rel=1e-9)
    assert 4 * a * ellipe(1 - b * b / (a * a)) == pytest.approx(around, rel=1e-9)
    shape = build("ellipse", width=2.0 * a, height=2.0 * b)
    assert run_length(shape.ring()) == pytest.approx(around, abs=0.005)
    assert shape_area(shape) == pytest.approx(pi * a * b, rel=2e-4)


@pytest.mark.parametrize("turn", [0.3, 1.0, 1.5, 2.5])
def test_arcs_of_ellipses(turn):
    """Part of the way around it is the incomplete integral of SciPy, forward and back."""
    for a, b in ((100.0, 60.0), (60.0, 100.0)):
        # SciPy counts from the other axis: hypot(a*cos v, b*sin v) = a*sqrt(1 - m*sin(v)**2).
        expected = a * ellipeinc(turn, 1 - b * b / (a * a))
        assert oval_arc(a, b, turn) == pytest.approx(expected, rel=1e-10)
        assert oval_turn(a, b, expected) == pytest.approx(turn, abs=1e-9)


def test_ramanujan_agrees():
    """Ramanujan's second approximation, 48.4422410807 for 10 and 5, agrees to nine digits."""
    a, b = 10.0, 5.0
    h = ((a - b) / (a + b)) ** 2
    ramanujan = pi * (a + b) * (1 + 3 * h / (10 + (4 - 3 * h) ** 0.5))
    assert ramanujan == pytest.approx(48.4422410807, abs=1e-9)
    assert 4 * oval_arc(a, b, pi / 2) == pytest.approx(ramanujan, rel=1e-9)
