"""Areas and perimeters of outlines against published examples and Shapely.

Sources: the surveyor's example (1,6) (3,1) (7,2) (4,4) (8,5) with area 16.5 is that of the
encyclopedia article on the shoelace formula (from memory, recomputed); the two puzzle pieces are
pieces of the SHAPES data set of the ESICUP working group (2d_irregular/shapes/shapes.txt, CC0).
"""

from math import cos, sin, tau

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from guidegen.geometry.outline.areas import polygon_area, shape_area
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import run_area, run_length
from guidegen.geometry.outline.records import Edge, Shape
from guidegen.geometry.outline.transforms import RigidMotion, mirror_shape, transform_shape

PUBLISHED = [
    ([(1, 6), (3, 1), (7, 2), (4, 4), (8, 5)], 16.5),
    ([(0, 0), (6, -6), (12, 0), (6, 6)], 72),
    (
        [
            (0, 0), (6, 0), (6, -2), (7, -2), (11, 2), (11, 4),
            (8, 4), (8, 1), (2, 1), (2, 4), (0, 4),
        ],
        28,
    ),
]  # fmt: skip


@pytest.mark.parametrize(("points", "area"), PUBLISHED)
def test_published_areas(points, area):
    """The surveyor's formula gives the published areas exactly, and so do our outlines."""
    ring = lines_through(*points, points[0])
    assert abs(run_area(ring)) == pytest.approx(area, abs=1e-12)
    assert polygon_area(points) == pytest.approx(area, abs=1e-12)


@st.composite
def star_polygons(draw):
    """Polygons around the origin that do not cross themselves."""
    count = draw(st.integers(3, 12))
    reach = draw(st.lists(st.floats(20, 200), min_size=count, max_size=count))
    return [(r * cos(tau * n / count), r * sin(tau * n / count)) for n, r in enumerate(reach)]


@given(star_polygons(), st.floats(-360, 360))
def test_area_and_perimeter_agree_with_shapely(points, angle):
    """For any polygon our area and perimeter are Shapely's, also turned and mirrored."""
    expected = shapely.Polygon(points)
    shape = Shape((Edge("rim", lines_through(*points, points[0])),))
    for moved in (shape, transform_shape(shape, RigidMotion(angle=angle)), mirror_shape(shape)):
        assert run_area(moved.ring()) == pytest.approx(expected.area)
        assert shape_area(moved) == pytest.approx(expected.area)
        assert run_length(moved.ring()) == pytest.approx(expected.length)
