"""A grid of overlapping pages, and where a mask must lie on it to touch the fewest of them.

All positions are counted at once: a set of positions is one integer, as cells are (raster.py).
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

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


@dataclass(frozen=True, slots=True)
class _Touched:
    """Of a mask on a grid: at which of its places which tiles alone can show a part of it.

    Places as CellField.free has them, a bit for each; some may be set where no place is.
    """

    tiles: tuple[tuple[Tile, int], ...]
    planes: tuple[int, ...]
    """How many of the tiles touch it at each place."""


@lru_cache(maxsize=256)
def _touched(grid: TileGrid, mask: Mask) -> _Touched:
    """Kept: the same template is tried on sheets of the same grid in each order of the others."""
    stride = CellField.stride_of(grid.width)
    turned = _turned_about(mask, stride // 8)
    inside = (1 << stride * (grid.height - mask.height + 1)) - 1
    dilated: dict[tuple[int, int], int] = {}
    tiles: list[tuple[Tile, int]] = []
    for tile in grid.tiles():
        left, bottom, right, top = grid.alone(tile)
        size = (right - left, top - bottom)
        if size not in dilated:
            dilated[size] = _dilate(turned, *size, stride)
        # A cell (i, j) of the mask meets a cell (u, v) of the tile where the mask lies at
        # (left + u - i, bottom + v - j): the mask turned about, spread over the tile, and moved.
        # Where it would stand out at the left, it runs on into the end of the row before, where no
        # place is: there the mask would stand out at the right.
        move = (bottom - mask.height + 1) * stride + left - mask.width + 1
        at = dilated[size] << move if move >= 0 else dilated[size] >> -move
        tiles.append((tile, at & inside))
    return _Touched(tuple(tiles), tuple(_add_up(places for _, places in tiles)))


def _turned_about(mask: Mask, stride: int) -> int:
    """The mask turned by half a turn, in rows of `stride` bytes, its lower left at bit 0."""
    rows = (row.to_bytes(stride, "little") for row in mask.turned_about)
    return int.from_bytes(b"".join(rows), "little")


def _dilate(cells: int, width: int, height: int, stride: int) -> int:
    """Each cell spread over a rectangle, it lower left; rows of `stride` bits, wide enough."""
    for count, unit in ((width, 1), (height, stride)):
        spread = 1
        while spread < count:
            step = min(spread, count - spread)
            cells |= cells << step * unit
            spread += step
    return cells


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
    places = field.places(mask.width, mask.height)
    if not places:
        return None
    seen, touched = set(inked), _touched(grid, mask)
    # A lower bound of the further pages: tiles that alone can show a part. Cells in an overlap
    # are shown by one of two, which needed_tiles decides once the place is known.
    others = _add_up(at for tile, at in touched.tiles if tile not in seen)
    places = field.free(mask, _at_most(most, places, others))
    if not places:
        return None
    new, places = _fewest(places, others)
    cut, places = _fewest(places, touched.planes)
    away, x, y = _nearest_corner(field.by_rows(places))
    return MaskSpot(new, cut, away, x, y)


def _nearest_corner(rows: Sequence[int]) -> tuple[int, int, int]:
    """The place with the least x + y, of equal ones with the least x: x + y, x and y."""
    best: tuple[int, int, int] | None = None
    for y, row in enumerate(rows):
        if best and y > best[0]:
            break
        if row:
            # Of the places in one row the leftmost is the nearest.
            x = (row & -row).bit_length() - 1
            best = min(best or (x + y, x, y), (x + y, x, y))
    return best or (0, 0, 0)


def same_pages(grid: TileGrid, mask: Mask, count: int) -> set[tuple[int, int]]:
    """Positions (x, y) at which a mask touches at most `count` tiles."""
    empty = CellField([0] * grid.height, grid.width)
    places = empty.free(mask)
    if places:
        places = _at_most(count, places, _touched(grid, mask).planes)
    return {
        (x, y)
        for y, row in enumerate(empty.by_rows(places))
        for first, last in runs_of(row)
        for x in range(first, last)
    }


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
    left_over = list(mask.rows)

    def part(box: CellBox) -> tuple[range, int]:
        """Which rows of the mask lie in a box, and the bits of each that do."""
        left, bottom, right, top = box
        rows = range(max(0, bottom - y), min(len(left_over), top - y))
        return rows, span(max(0, left - x), min(mask.width, right - x))

    def take(tile: Tile) -> None:
        rows, window = part(grid.window(tile))
        if window and any(left_over[row] & window for row in rows):
            chosen.add(tile)
            for row in rows:
                left_over[row] &= ~window

    def amount(tile: Tile) -> int:
        rows, window = part(grid.window(tile))
        return sum((left_over[row] & window).bit_count() for row in rows) if window else 0

    # First those that alone show some of it, then those that are printed anyway; only then is it a
    # question of choice, which is made greedily, the fullest first.
    chosen: set[Tile] = set()
    alone = ((tile, *part(grid.alone(tile))) for tile in grid.tiles())
    for tile in [tile for tile, rows, w in alone if w and any(mask.rows[row] & w for row in rows)]:
        take(tile)
    for tile in sorted(have):
        take(tile)
    while any(left_over):
        take(max(grid.tiles(), key=lambda tile: (amount(tile), -tile[1], -tile[0])))
    return chosen


def cells_up(length: float) -> int:
    """Whole cells that hold `length` mm."""
    return -int(-(length - 1e-6) // CELL)
