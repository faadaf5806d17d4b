"""Positions of a mask on overlapping pages, counted all at once, against counting one by one."""

import random

import pytest

from guidegen.layout.paper.frame import CELL, PaperFrame
from guidegen.layout.paper.raster import CellField, Mask, put
from guidegen.layout.paper.tiling import MaskSpot, Tile, TileGrid, best_spot, same_pages

FRAME = PaperFrame(7 * CELL, 9 * CELL, left=0.0, bottom=0.0, strip=0.0, landscape=False)


def _random_mask(random_: random.Random, width: int, height: int) -> Mask:
    return Mask(width, tuple(random_.getrandbits(width) for _ in range(height)))


def _touched(grid: TileGrid, mask: Mask, x: int, y: int) -> set[Tile]:
    """The tiles that alone show a cell of the mask, cell by cell."""
    found = set()
    for tile in grid.tiles():
        left, bottom, right, top = grid.alone(tile)
        cells = (
            (x + cx, y + cy)
            for cy, row in enumerate(mask.rows)
            for cx in range(mask.width)
            if row >> cx & 1
        )
        if any(left <= cx < right and bottom <= cy < top for cx, cy in cells):
            found.add(tile)
    return found


@pytest.mark.parametrize("seed", range(12))
def test_positions_counted_at_once_are_those_counted_one_by_one(seed: int) -> None:
    """The best spot, and all that need few pages, are what trying each position finds."""
    random_ = random.Random(seed)
    grid = TileGrid(FRAME, random_.randint(1, 3), random_.randint(1, 3), random_.randint(0, 2))
    mask = _random_mask(random_, random_.randint(1, 9), random_.randint(1, 8))
    rows = [0] * grid.height
    put(rows, Mask(3, (5, 2)), random_.randrange(grid.width - 3), random_.randrange(4))
    inked = set(random_.sample(grid.tiles(), 1))
    field = CellField(rows, grid.width)
    spots, few = [], set()
    most = random_.randint(1, 4)
    for y in range(grid.height - mask.height + 1):
        for x in range(grid.width - mask.width + 1):
            tiles = _touched(grid, mask, x, y)
            new = len(tiles - inked)
            if len(tiles) <= most:
                few.add((x, y))
            free = not any(rows[y + at] & row << x for at, row in enumerate(mask.rows))
            if free and new <= most:
                spots.append(MaskSpot(new, len(tiles), x + y, x, y))
    assert best_spot(grid, mask, field, inked, most) == min(spots, default=None)
    assert same_pages(grid, mask, most) == few


@pytest.mark.parametrize("overlap", [0, 2])
def test_what_a_page_shows_alone_no_other_page_shows(overlap: int) -> None:
    """Cell by cell on three by three pages: shown by one page alone, or by several."""
    grid = TileGrid(FRAME, 3, 3, overlap)

    def cells(box: tuple[int, int, int, int]) -> set[tuple[int, int]]:
        left, bottom, right, top = box
        return {(x, y) for x in range(left, right) for y in range(bottom, top)}

    windows = {tile: cells(grid.window(tile)) for tile in grid.tiles()}
    for tile, window in windows.items():
        others = set().union(*(seen for other, seen in windows.items() if other != tile))
        assert cells(grid.alone(tile)) == window - others
