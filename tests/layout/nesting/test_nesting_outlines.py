"""Simpler outlines for the solver: foam is only added, and little of it."""

from math import cos, hypot, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from layout.nest_samples import disc, fan, make_piece, polygon, rectangle, shield

from guidegen.geometry.outline.areas import is_sound, lies_within, polygon_area
from guidegen.geometry.outline.records import Shape
from guidegen.layout.nesting.outlines import GROWTH, grow_ring, simple_outline
from guidegen.layout.nesting.pieces import NestPiece, nest_pieces


def nest(shape: Shape) -> NestPiece:
    """The piece to nest of a shape."""
    (piece,) = nest_pieces([make_piece("a", shape)], "foam")
    return piece


@pytest.mark.parametrize("shape", [disc(60), disc(110, 80), fan(400, 180, 50), shield(180, 240)])
def test_few_corners_around_curves(shape: Shape) -> None:
    """A curve of hundreds of corners keeps a third of them at most, within the growth allowed."""
    piece = nest(shape)
    outline, holes = simple_outline(piece, 10)
    assert len(outline) <= len(piece.outline) / 3
    assert len(holes) == len(piece.holes)
    assert is_sound(outline, holes)
    assert lies_within(piece.outline, piece.holes, outline, holes)
    around = sum(
        hypot(b[0] - a[0], b[1] - a[1])
        for ring in (piece.outline, *piece.holes)
        for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)
    )
    assert polygon_area(outline, holes) - piece.area <= GROWTH * around


def test_straight_edges_stay() -> None:
    """A rectangle stays what it is, but for corners in the middle of its sides."""
    ring = ((0.0, 0.0), (5.0, 0.0), (10.0, 0.0), (10.0, 10.0), (5.0, 10.0), (0.0, 10.0))
    assert set(grow_ring(ring)) == {(0, 0), (10, 0), (10, 10), (0, 10)}


def test_wide_notches_stay() -> None:
    """A notch of more than the growth is kept; a shallower one is filled."""
    for depth, corners in ((1.0, 5), (0.2, 4)):
        ring = ((0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (50.0, 50.0 - depth), (0.0, 50.0))
        assert len(grow_ring(ring)) == corners


@pytest.mark.parametrize("first", range(5))
def test_a_notch_is_filled_wherever_the_outline_begins(first: int) -> None:
    """The shallow notch as the first corner, the last, and each between: the same four stay."""
    ring = [(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (50.0, 49.8), (0.0, 50.0)]
    assert set(grow_ring((*ring[first:], *ring[:first]))) == {*ring[:3], ring[4]}


def test_small_holes_are_closed() -> None:
    """A hole too narrow for any piece is left out of the problem; a wide one stays."""
    square = [(40, 40), (40, 80), (80, 80), (80, 40)]
    slot = [(10, 10), (10, 14), (60, 14), (60, 10)]
    piece = nest(polygon([(0, 0), (100, 0), (100, 100), (0, 100)], [square, slot]))
    assert len(simple_outline(piece, 20)[1]) == 1


def test_slit_stays_open() -> None:
    """A slit narrower than the growth does not close into a crossing: the outline stays sound."""
    slit = polygon([(0, 0), (50, 0), (50, 40), (50.1, 40), (50.1, 0), (100, 0), (100, 60), (0, 60)])
    piece = nest(slit)
    outline, holes = simple_outline(piece, 10)
    assert is_sound(outline, holes)
    assert lies_within(piece.outline, (), outline, holes)


@settings(max_examples=80, deadline=None)
@given(
    st.lists(st.floats(20, 60), min_size=5, max_size=60),
    st.floats(-300, 300),
)
def test_foam_is_only_added(radii: list[float], x: float) -> None:
    """Whatever the outline, the simple one holds it."""
    count = len(radii)
    ring = tuple(
        (x + r * cos(2 * pi * n / count), r * sin(2 * pi * n / count)) for n, r in enumerate(radii)
    )
    piece = NestPiece("a", "a", "a", 1, ring)
    outline, _ = simple_outline(piece, 10)
    assert lies_within(ring, (), outline, ())


def test_pieces_of_one_material() -> None:
    """Only pieces of the material are nested, outline counter-clockwise, holes clockwise."""
    pieces = [make_piece("a", disc(50, 20), 2), make_piece("b", rectangle(5, 5), 1, "other")]
    (piece,) = nest_pieces(pieces, "foam")
    assert (piece.key, piece.copies) == ("a", 2)
    assert piece.area == pytest.approx(pi * (50**2 - 20**2), rel=1e-3)
    for ring, sign in ((piece.outline, 1), (piece.holes[0], -1)):
        twice = sum(
            a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, [*ring[1:], ring[0]], strict=True)
        )
        assert twice * sign > 0
