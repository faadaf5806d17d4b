"""Where a label fits."""

from math import cos, radians, sin

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guidegen.geometry.outline.areas import widest_spot
from guidegen.pictures.pen.label_places import box_fits, inside, label_spot

SQUARE = [(0.0, 0.0), (40.0, 0.0), (40.0, 40.0), (0.0, 40.0)]
HOLE = [(10.0, 10.0), (10.0, 30.0), (30.0, 30.0), (30.0, 10.0)]


def ring(radius, count=72):
    """A circle of straight steps."""
    return [
        (radius * cos(radians(360 * n / count)), radius * sin(radians(360 * n / count)))
        for n in range(count)
    ]


def test_the_spot_farthest_from_the_rims_of_a_square_is_its_middle():
    """A 40 mm square has room for a circle of 20 mm radius."""
    (x, y), distance = widest_spot([SQUARE], 0.01)
    assert (x, y) == pytest.approx((20, 20), abs=0.1)
    assert distance == pytest.approx(20, abs=0.02)


def test_a_frame_has_its_spot_in_the_web():
    """In a frame of 10 mm web the best spot is half a web from both rims, or in a corner."""
    (x, y), distance = widest_spot([SQUARE, HOLE], 0.01)
    assert inside([SQUARE, HOLE], (x, y))
    # In the corner, a circle touches two rims and the inner corner: r = 10 * sqrt(2) / (1 + sqrt(2)).
    assert distance == pytest.approx(10 * 2**0.5 / (1 + 2**0.5), abs=0.02)


def test_a_label_is_not_put_into_a_hole():
    """A frame's middle is air: the label goes into the web."""
    spot = label_spot([SQUARE, HOLE], 8, 4)
    assert spot is not None
    assert box_fits([SQUARE, HOLE], spot, 8, 4)
    assert not box_fits([SQUARE, HOLE], (20, 20), 8, 4)


def test_no_spot_where_there_is_no_room():
    """A label wider than the piece finds no place."""
    assert label_spot([SQUARE], 50, 4) is None
    assert label_spot([SQUARE, HOLE], 15, 12) is None


def test_lines_to_avoid_move_the_label_aside():
    """A line through the middle drives the label from it."""
    line = [(0.0, 20.0), (40.0, 20.0)]
    spot = label_spot([SQUARE], 10, 5, [line])
    assert spot is not None
    assert abs(spot[1] - 20) > 2.5


@given(st.floats(3, 60), st.floats(2, 100), st.floats(1, 40))
def test_a_label_that_is_placed_lies_inside_the_circle(radius, width, height):
    """All four corners of the box lie within the circle."""
    spot = label_spot([ring(radius)], width, height)
    if spot is None:
        # The middle is tried first, so a box that fits there is always found.
        assert (width / 2) ** 2 + (height / 2) ** 2 > (radius * 0.99) ** 2
        return
    for dx in (-width / 2, width / 2):
        for dy in (-height / 2, height / 2):
            assert (spot[0] + dx) ** 2 + (spot[1] + dy) ** 2 <= radius**2 + 1e-6
