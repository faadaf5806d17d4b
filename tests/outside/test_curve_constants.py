"""Cubic curves and bevels against constants that others found.

Sources: the quarter circle with control points at k = 4/3*(sqrt(2) - 1) = 0.552284749831, farthest
off by 0.027253 % of its radius (widely published; from memory); the roots of that error by
elementary calculus; Gravesen: Adaptive subdivision and the length and energy of Bézier curves,
Computational Geometry 8(1), 1997, for the bounds of a length by chord and control polygon (from
memory); dihedral angles of the truncated icosahedron, 138.189685 and 142.622632 degrees (from
memory), worked out here once more from the corners of the solid.
"""

from itertools import combinations
from math import acos, degrees, dist, hypot, pi, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.spatial import ConvexHull

from guidegen.geometry.outline.measures import dihedral, run_area, segment_length, segment_point
from guidegen.geometry.outline.records import Cubic

K = 4 / 3 * (sqrt(2) - 1)
QUARTER = Cubic((1, 0), (1, K), (K, 1), (0, 1))

points = st.tuples(st.floats(-200, 200), st.floats(-200, 200))


def test_a_quarter_circle_of_one_cubic():
    """Its radius is 1 at both ends and in the middle, at most 1.000273, and its length 0.014 %
    more than pi/2."""
    assert pytest.approx(0.552284749831, abs=1e-12) == K
    radii = [hypot(*segment_point(QUARTER, n / 2000)) for n in range(2001)]
    assert radii[1000] == pytest.approx(1, abs=1e-12)
    assert min(radii) >= 1 - 1e-12
    assert max(radii) == pytest.approx(1.00027253, abs=1e-8)
    assert segment_length(QUARTER) == pytest.approx(1.57101669807, abs=1e-10)
    assert segment_length(QUARTER) / (pi / 2) == pytest.approx(1.00014, abs=1e-5)


@pytest.mark.parametrize(
    ("curve", "length"),
    [
        (Cubic((0, 0), (25, 100), (75, 100), (100, 0)), 190.833315125119),
        (Cubic((0, 0), (50, 0), (100, 50), (100, 100)), 154.886798803186),
    ],
)
def test_lengths_by_quadrature(curve, length):
    """Two curves whose lengths were integrated to twelve digits; a five-point approximation, as
    drawing programs use, gives 190.0433 for the first."""
    assert segment_length(curve) == pytest.approx(length, abs=1e-8)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(points, points, points, points)
def test_a_length_lies_between_chord_and_polygon(a, b, c, d):
    """No curve is shorter than its chord or longer than its control polygon."""
    length = segment_length(Cubic(a, b, c, d))
    assert dist(a, d) - 1e-9 <= length <= dist(a, b) + dist(b, c) + dist(c, d) + 1e-9


def test_area_of_a_circle_of_four_cubics():
    """Four quarters of one cubic each enclose pi and 0.028 % more (the area integral in full)."""
    corners = [(1, 0), (0, 1), (-1, 0), (0, -1)]
    ring = []
    for start, end in zip(corners, corners[1:] + corners[:1], strict=True):
        first = (start[0] + K * end[0], start[1] + K * end[1])
        second = (end[0] + K * start[0], end[1] + K * start[1])
        ring.append(Cubic(start, first, second, end))
    expected = 4 * (0.5 + 3 / 5 * K - 3 / 20 * K**2)
    assert run_area(tuple(ring)) == pytest.approx(expected, abs=1e-12)
    assert run_area(tuple(ring)) == pytest.approx(pi, rel=3e-4)


def truncated_icosahedron():
    """Corners of a football: thirds of the edges of an icosahedron."""
    g = (1 + sqrt(5)) / 2
    corners = [(0, a, b * g) for a in (1, -1) for b in (1, -1)]
    corners += [(z, x, y) for x, y, z in corners] + [(y, z, x) for x, y, z in corners]
    edge = min(dist(p, q) for p, q in combinations(corners, 2))
    return [
        tuple(u + (v - u) / 3 for u, v in zip(p, q, strict=True))
        for p in corners
        for q in corners
        if p != q and dist(p, q) < edge * 1.001
    ]


def test_bevels_of_a_football():
    """Twelve pentagons and twenty hexagons: bevels of 18.689 and 20.905 degrees, by the angles
    between faces that a convex hull finds."""
    hull = ConvexHull(truncated_icosahedron())
    found = set()
    for face, neighbours in enumerate(hull.neighbors):
        for other in neighbours:
            pair = zip(hull.equations[face][:3], hull.equations[other][:3], strict=True)
            cosine = sum(a * b for a, b in pair)
            if cosine < 1 - 1e-9:
                found.add(round(180 - degrees(acos(cosine)), 3))
    assert len(truncated_icosahedron()) == 60
    assert found == {round(dihedral(bevel, bevel), 3) for bevel in (18.68868, 20.90516)}
