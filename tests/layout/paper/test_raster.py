"""Cells against an independent library: what is apart on the grid is apart on paper."""

from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon, box

from guidegen.layout.paper.raster import (
    CellField,
    Mask,
    block,
    cover_convex,
    cover_lines,
    cover_rings,
    nearest,
    put,
    runs_of,
    span,
)
from guidegen.pictures.templates.notes import turned_box

SIDE = 12
CELL = 5.0

coordinates = st.integers(-20, 140).map(lambda number: number / 2)
points = st.tuples(coordinates, coordinates)


def rows_of(field, width, mask):
    """The free x positions of a mask on rows of cells, as bits, for each y."""
    cells = CellField(field, width)
    return cells.by_rows(cells.free(mask))


def cells(rows, width):
    """Set cells as (x, y)."""
    return {(x, y) for y, row in enumerate(rows) for x in range(width) if row >> x & 1}


@settings(max_examples=50, deadline=None)
@given(st.lists(points, min_size=2, max_size=5), st.sampled_from([0.0, 1.5]))
def test_every_cell_that_a_line_touches_is_covered(line, grow):
    """A cell that a polyline crosses is set, and none farther away than the growth reaches."""
    covered = cells(cover_lines([line], CELL, grow, SIDE, SIDE), SIDE)
    shape = LineString(line)
    for x in range(SIDE):
        for y in range(SIDE):
            cell = box(x * CELL, y * CELL, x * CELL + CELL, y * CELL + CELL)
            if cell.buffer(-0.01).intersects(shape):
                assert (x, y) in covered
            if (x, y) in covered:
                assert cell.distance(shape) <= (grow + 0.01) * 2**0.5


@settings(max_examples=50, deadline=None)
@given(st.lists(points, min_size=3, max_size=6))
def test_an_area_covers_all_its_cells(ring):
    """Each cell that a polygon overlaps is set."""
    shape = Polygon(ring)
    covered = cells(cover_rings([[*ring, ring[0]]], CELL, 0.0, SIDE, SIDE), SIDE)
    if shape.is_valid:
        for x in range(SIDE):
            for y in range(SIDE):
                cell = box(x * CELL, y * CELL, x * CELL + CELL, y * CELL + CELL)
                if cell.intersection(shape).area > 1e-6:
                    assert (x, y) in covered


@settings(max_examples=100, deadline=None)
@given(points, st.floats(0, 360), st.floats(0.5, 60), st.floats(0.5, 60))
def test_a_convex_area_covers_the_same_cells_in_one_sweep(middle, angle, wide, tall):
    """A turned rectangle has the cells that rings of any form have, where it leaves the grid too."""
    ring = turned_box(middle, wide, tall, angle)
    rows = [0] * SIDE
    for number, row in cover_convex(ring, CELL, SIDE, SIDE):
        rows[number] = row
    assert rows == cover_rings([ring], CELL, 0.0, SIDE, SIDE)


def test_a_hole_stays_free():
    """The middle of a ring is free under the even-odd rule, its rim is not."""
    outer = [(0, 0), (50, 0), (50, 50), (0, 50), (0, 0)]
    hole = [(10, 10), (10, 40), (40, 40), (40, 10), (10, 10)]
    rows = cover_rings([outer, hole], 2.5, 1.0, 20, 20)
    assert rows[10] == span(0, 5) | span(15, 20)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.integers(0, 2**14 - 1), min_size=1, max_size=9),
    st.lists(st.integers(1, 2**4 - 1), min_size=1, max_size=3),
)
def test_free_places_agree_with_trying_each(field, rows):
    """The bit tricks find exactly the positions that a plain search finds."""
    mask = Mask(4, tuple(rows))
    places = rows_of(field, 14, mask)
    by_row = dict(enumerate(places))
    assert len(places) <= max(0, len(field) - len(rows) + 1)
    for y in range(len(field) - len(rows) + 1):
        for x in range(14 - 4 + 1):
            clear = all(not (field[y + n] >> x & row) for n, row in enumerate(rows))
            assert bool(by_row.get(y, 0) >> x & 1) is clear
    first = next(((x, y) for y, row in enumerate(places) for x in range(14) if row >> x & 1), None)
    cells = CellField(field, 14)
    assert cells.lowest(mask) == first
    full = Mask(mask.width, (span(0, mask.width),) * len(rows))
    assert cells.free_rectangle(mask.width, len(rows)) == cells.free(full)
    assert cells.taken == sum(row.bit_count() for row in field)
    if first:
        before = cells.by_rows(cells.free(mask))
        more = cells.with_mask(mask, *first)
        assert cells.by_rows(cells.free(mask)) == before
        again = [row.bit_count() for row in field]
        put(field, mask, *first)
        assert [row.bit_count() for row in field] != again
        assert more.by_rows(more.free(mask)) == rows_of(field, 14, mask)
        some = sum(1 << y * cells.stride + x for y in range(0, 9, 2) for x in range(11))
        some &= cells.places(4, len(rows))
        assert cells.free(mask, some) == cells.free(mask) & some


@given(st.lists(st.integers(0, 2**9 - 1), max_size=12))
def test_blocks_rebuild_their_mask(rows):
    """The rectangles of a mask cover its cells, each once, and no other."""
    mask = Mask(9, tuple(rows))
    again = [0] * len(rows)
    for left, low, wide, tall in mask.blocks:
        for y in range(low, low + tall):
            assert not again[y] & span(left, left + wide)
            again[y] |= span(left, left + wide)
    assert again == rows


@given(st.integers(0, 2**40 - 1))
def test_runs_rebuild_their_row(row):
    """A row is the sum of its runs, which do not touch."""
    runs = runs_of(row)
    assert sum(span(first, last) for first, last in runs) == row
    assert all(a[1] < b[0] for a, b in pairwise(runs))


@given(st.floats(-3, 14), st.floats(-3, 12))
def test_nearest_place_is_the_nearest(x, y):
    """Of all free positions the one with the least distance is taken, the lowest of equal ones."""
    field = [0] * 10
    put(field, block(6, 6), 2, 2)
    places = rows_of(field, 12, block(2, 2))
    free = [(px, py) for py, row in enumerate(places) for px in range(12) if row >> px & 1]
    assert nearest(places, x, y) in free
    whole = nearest(places, round(x), round(y))
    assert whole == min(
        free,
        key=lambda at: ((at[0] - round(x)) ** 2 + (at[1] - round(y)) ** 2, at[1], at[0]),
    )


def test_a_mask_larger_than_the_field_has_no_place():
    """Too wide or too tall gives no positions, not an error."""
    assert rows_of([0] * 4, 5, block(6, 2)) == []
    assert rows_of([0] * 4, 5, block(2, 5)) == []
    assert CellField([0] * 4, 5).lowest(block(6, 2)) is None
