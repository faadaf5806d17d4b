"""A grid of overlapping pages, and where a mask must lie on it to touch the fewest of them.

The only module that imports NumPy: it counts for all positions of a mask at once.
"""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from guidegen.layout.paper.frame import CELL, PaperFrame
from guidegen.layout.paper.raster import CellField, Mask, span

type Tile = tuple[int, int]
"""Column from the left and row from the bottom, both from 0."""

type CellBox = tuple[int, int, int, int]
"""Left, bottom, right, top in cells; right and top are not part of it."""


@dataclass(frozen=True, slots=True)
class TileGrid:
    """Windows of pages, side by side with an overlap."""

    frame: PaperFrame
    columns: int
    rows: int
    overlap: int
    """cells."""

    @property
    def pitch(self) -> tuple[int, int]:
        """Cells from one window to the next, across and up."""
        return (self.frame.columns - self.overlap, self.frame.rows - self.overlap)

    @property
    def width(self) -> int:
        """Cells across the whole sheet."""
        return self.columns * self.pitch[0] + self.overlap

    @property
    def height(self) -> int:
        """Cells up the whole sheet."""
        return self.rows * self.pitch[1] + self.overlap

    def tiles(self) -> list[Tile]:
        """All tiles, row by row from the bottom."""
        return [(column, row) for row in range(self.rows) for column in range(self.columns)]

    def window(self, tile: Tile) -> CellBox:
        """What the page shows."""
        x, y = tile[0] * self.pitch[0], tile[1] * self.pitch[1]
        return (x, y, x + self.frame.columns, y + self.frame.rows)

    def alone(self, tile: Tile) -> CellBox:
        """The part of the window that no other page shows."""
        left, bottom, right, top = self.window(tile)
        return (
            left + (self.overlap if tile[0] > 0 else 0),
            bottom + (self.overlap if tile[1] > 0 else 0),
            right - (self.overlap if tile[0] < self.columns - 1 else 0),
            top - (self.overlap if tile[1] < self.rows - 1 else 0),
        )

    def shared(self) -> list[int]:
        """Cells that several pages show, as rows of bits; the last before an edge to edge join.

        What covers none of these lies on one page.
        """
        rows = [span(0, self.width)] * self.height
        for tile in self.tiles():
            left, bottom, right, top = self.alone(tile)
            for y in range(bottom, top):
                rows[y] &= ~span(left, right)
        if not self.overlap:
            for column in range(1, self.columns):
                at = column * self.pitch[0]
                # Edge to edge no cell is shared, and a template could lie across the join
                # unnoticed: the last cell before it is blocked.
                rows = [row | span(at - 1, at) for row in rows]
            for number in range(1, self.rows):
                rows[number * self.pitch[1] - 1] = span(0, self.width)
        return rows


def _sums(mask: Mask) -> NDArray[np.int32]:
    """Covered cells below and left of each corner."""
    grid = np.zeros((mask.height + 1, mask.width + 1), dtype=np.int32)
    for y, row in enumerate(mask.rows):
        grid[y + 1, 1:] = _bits(row, mask.width)
    return grid.cumsum(axis=0).cumsum(axis=1).astype(np.int32)


def _bits(row: int, width: int) -> NDArray[np.uint8]:
    data = row.to_bytes((width + 7) // 8, "little")
    return np.unpackbits(np.frombuffer(data, dtype=np.uint8), bitorder="little")[:width]


def tile_hits(grid: TileGrid, mask: Mask) -> NDArray[np.int64]:
    """For each position (y, x) of a mask, the tiles that alone can show a part of it, as bits.

    Bit row * columns + column; a grid has at most 62 tiles.
    """
    sums = _sums(mask)
    xs = np.arange(grid.width - mask.width + 1)
    ys = np.arange(grid.height - mask.height + 1)
    hits = np.zeros((len(ys), len(xs)), dtype=np.int64)
    for number, tile in enumerate(grid.tiles()):
        left, bottom, right, top = grid.alone(tile)
        # For every position, the part of the mask within the tile; its covered cells are the sum
        # at the upper right corner less those at the three others (a summed-area table).
        x0, x1 = np.clip(left - xs, 0, mask.width), np.clip(right - xs, 0, mask.width)
        y0, y1 = np.clip(bottom - ys, 0, mask.height), np.clip(top - ys, 0, mask.height)
        # Only positions at which the mask reaches the tile at all.
        some_x, some_y = np.flatnonzero(x1 > x0), np.flatnonzero(y1 > y0)
        if not len(some_x) or not len(some_y):
            continue
        rows = slice(some_y[0], some_y[-1] + 1)
        columns = slice(some_x[0], some_x[-1] + 1)
        band = sums[y1[rows]] - sums[y0[rows]]
        inside = band.take(x1[columns], axis=1) > band.take(x0[columns], axis=1)
        hits[rows, columns] |= inside * np.int64(1 << number)
    return hits


@dataclass(frozen=True, slots=True, order=True)
class MaskSpot:
    """A position of a mask on a grid; the least is the best."""

    new: int
    """Tiles that nothing else has touched yet."""
    cut: int
    """All tiles that it touches."""
    away: int
    """Cells from the lower left, added."""
    x: int
    y: int


def best_spot(
    grid: TileGrid, mask: Mask, field: CellField, inked: Iterable[Tile], most: int
) -> MaskSpot | None:
    """Where a mask lies on a field's free cells so that the fewest further pages are needed.

    None where it does not fit with at most `most` of them.
    """
    if mask.width > grid.width or mask.height > grid.height:
        return None
    joined = np.frombuffer(field.free_bytes(mask), dtype=np.uint8)
    rows = joined.reshape(grid.height - mask.height + 1, -1)
    free = np.unpackbits(rows, axis=1, bitorder="little")[:, : grid.width - mask.width + 1]
    if not free.any():
        return None
    hits = tile_hits(grid, mask)
    seen = sum(1 << (row * grid.columns + column) for column, row in inked)
    # A lower bound of the further pages: tiles that alone can show a part. Cells in an overlap are
    # shown by one of two, which needed_tiles decides once the place is known.
    new = np.bitwise_count(hits & ~np.int64(seen)).astype(np.int64)
    cut = np.bitwise_count(hits).astype(np.int64)
    height, width = hits.shape
    away = np.arange(height)[:, None] + np.arange(width)[None, :]
    # One number for the four keys of MaskSpot, so that argmin finds the least at once: tiles fit
    # in 64, cells across and up in 4,096 each (10 m), and the sum in 63 bits.
    score = (new * 64 + cut) * (1 << 24) + away * (1 << 12) + np.arange(width)[None, :]
    # Any spot that needs one page too many scores at least this; taken cells are given it.
    limit = (most + 1) * 64 * (1 << 24)
    score[free == 0] = limit
    y, x = divmod(int(score.argmin()), width)
    if score[y, x] >= limit:
        return None
    return MaskSpot(int(new[y, x]), int(cut[y, x]), x + y, x, y)


def same_pages(grid: TileGrid, mask: Mask, count: int) -> set[tuple[int, int]]:
    """Positions (x, y) at which a mask touches at most `count` tiles."""
    if mask.width > grid.width or mask.height > grid.height:
        return set()
    touched = np.bitwise_count(tile_hits(grid, mask))
    return {(int(x), int(y)) for y, x in np.argwhere(touched <= count)}


def needed_tiles(grid: TileGrid, mask: Mask, x: int, y: int, have: Iterable[Tile]) -> set[Tile]:
    """The fewest pages that show all of a mask at a position, those in `have` used first."""
    left_over = {y + offset: row << x for offset, row in enumerate(mask.rows)}
    chosen: set[Tile] = set()

    def take(tile: Tile) -> None:
        left, bottom, right, top = grid.window(tile)
        window = span(left, right)
        touched = False
        for row in range(bottom, top):
            if left_over.get(row, 0) & window:
                touched = True
                left_over[row] &= ~window
        if touched:
            chosen.add(tile)

    def amount(box: CellBox) -> int:
        window = span(box[0], box[2])
        return sum((left_over.get(row, 0) & window).bit_count() for row in range(box[1], box[3]))

    # First those that alone show some of it, then those that are printed anyway; only then is it a
    # question of choice, which is made greedily, the fullest first.
    for tile in [tile for tile in grid.tiles() if amount(grid.alone(tile))]:
        take(tile)
    for tile in sorted(have):
        take(tile)
    while any(left_over.values()):
        take(max(grid.tiles(), key=lambda tile: (amount(grid.window(tile)), -tile[1], -tile[0])))
    return chosen


def cells_up(length: float) -> int:
    """Whole cells that hold `length` mm."""
    return -int(-(length - 1e-6) // CELL)
