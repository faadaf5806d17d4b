"""A grid of overlapping pages, and where a mask must lie on it to touch the fewest of them.

All positions of a row are counted at once: a set of positions is an integer, a bit for each x.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from guidegen.layout.paper.frame import CELL, PaperFrame
from guidegen.layout.paper.raster import CellField, Mask, runs_of, span

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


def _touching(grid: TileGrid, mask: Mask) -> Iterator[list[tuple[Tile, int]]]:
    """For each y of a mask, the tiles that alone can show a part of it, each with the x positions
    at which they do, as bits."""
    across = span(0, grid.width - mask.width + 1)
    rows = _Rows(mask)
    boxes = [(tile, grid.alone(tile)) for tile in grid.tiles()]
    for y in range(grid.height - mask.height + 1):
        found = []
        for tile, (left, bottom, right, top) in boxes:
            reach = rows.reach(max(0, bottom - y), min(mask.height, top - y), right - left)
            # Bit i of a reach stands for the position x = left + i - (width of the mask - 1).
            places = reach << left >> mask.width - 1 & across
            if places:
                found.append((tile, places))
        yield found


class _Rows:
    """The rows of a mask, mirrored: joined over stretches, and spread to the left and right."""

    def __init__(self, mask: Mask) -> None:
        self._mask = mask
        mirrored = [_mirrored(row, mask.width) for row in mask.rows]
        # Joined over 1, 2, 4 … rows: any stretch is two of these, which may share rows.
        self._joined = [mirrored]
        while 2 ** len(self._joined) <= mask.height:
            half, before = 2 ** (len(self._joined) - 1), self._joined[-1]
            pairs = zip(before, before[half:], strict=False)
            self._joined.append([low | high for low, high in pairs])
        self._reaches: dict[tuple[int, int, int], int] = {}

    def reach(self, low: int, high: int, wide: int) -> int:
        """Where a window of `wide` cells sees a cell of the rows from `low` up to `high`."""
        if high <= low:
            return 0
        key = (low, high, wide)
        if key not in self._reaches:
            level = (high - low).bit_length() - 1
            joined = self._joined[level]
            reach, spread = joined[low] | joined[high - 2**level], 1
            while spread < wide:
                step = min(spread, wide - spread)
                reach |= reach << step
                spread += step
            self._reaches[key] = reach
        return self._reaches[key]


def _mirrored(row: int, width: int) -> int:
    return int(format(row, f"0{width}b")[::-1], 2)


def _add_up(sets: Iterable[int]) -> list[int]:
    """How many of the sets hold each position, as bits: planes of ones, twos, fours …

    All positions are counted at once, as a row of adders does it.
    """
    planes: list[int] = []
    for carry in sets:
        for number, plane in enumerate(planes):
            planes[number], carry = plane ^ carry, plane & carry  # noqa: PLW2901 - the sum goes on
            if not carry:
                break
        else:
            planes.append(carry)
    return planes


def _fewest(places: int, planes: Sequence[int]) -> tuple[int, int]:
    """The least count of any of `places`, and those that have it."""
    least = 0
    for number in range(len(planes) - 1, -1, -1):
        without = places & ~planes[number]
        if without:
            places = without
        else:
            least += 1 << number
    return least, places


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
    best: MaskSpot | None = None
    seen = set(inked)
    for y, (free, hits) in enumerate(zip(field.rows(mask), _touching(grid, mask), strict=True)):
        # A lower bound of the further pages: tiles that alone can show a part. Cells in an overlap
        # are shown by one of two, which needed_tiles decides once the place is known.
        new, places = _fewest(free, _add_up(at for tile, at in hits if tile not in seen))
        if not free or new > most or (best and new > best.new):
            continue
        cut, places = _fewest(places, _add_up(at for _, at in hits))
        # In one row the leftmost is the nearest of equals.
        x = (places & -places).bit_length() - 1
        spot = MaskSpot(new, cut, x + y, x, y)
        best = spot if best is None else min(best, spot)
    return best


def same_pages(grid: TileGrid, mask: Mask, count: int) -> set[tuple[int, int]]:
    """Positions (x, y) at which a mask touches at most `count` tiles."""
    if mask.width > grid.width or mask.height > grid.height:
        return set()
    across = span(0, grid.width - mask.width + 1)
    found: set[tuple[int, int]] = set()
    for y, hits in enumerate(_touching(grid, mask)):
        few = _at_most(count, across, _add_up(places for _, places in hits))
        found |= {(x, y) for first, last in runs_of(few) for x in range(first, last)}
    return found


def _at_most(count: int, places: int, planes: Sequence[int]) -> int:
    """Those of `places` with a count of `count` or less."""
    if count >> len(planes):
        return places
    # From the highest plane down: places that are below the count already, and those that equal
    # it so far.
    below, equal = 0, places
    for number in range(len(planes) - 1, -1, -1):
        if count >> number & 1:
            below |= equal & ~planes[number]
            equal &= planes[number]
        else:
            equal &= ~planes[number]
    return below | equal


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
