"""Templates too large for a page in → virtual sheets of several pages out."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from guidegen.layout.paper.frame import PaperFrame
from guidegen.layout.paper.items import PaperItem, Turned
from guidegen.layout.paper.packing import UPRIGHT, different_angles
from guidegen.layout.paper.raster import CellField, Mask, put
from guidegen.layout.paper.sheets import PackedItem, Sheet, SheetCells, Squares
from guidegen.layout.paper.squares import place_squares
from guidegen.layout.paper.tiling import (
    MaskSpot,
    Tile,
    TileGrid,
    best_spot,
    needed_tiles,
    same_pages,
)

MOST_TOGETHER = 12
"""Pages in one sheet that holds several large templates. Our choice: more are hard to join flat;
one template alone may need more."""

MOST_TILES = 60
"""Pages that one sheet can have: what the counting of positions holds."""


class TooLarge(ValueError):
    """A template needs more pages than one sheet can have."""

    def __init__(self, item: PaperItem) -> None:
        self.item = item
        super().__init__(item.key)


class _Tiling:
    """Large templates on a grid of pages, and what follows from laying one more.

    What follows is found once for all orders and choices of frames that come by here.
    """

    __slots__ = ("_after", "_cropped", "_field", "_finished", "_spots", "grid", "laid", "tiles")

    def __init__(
        self,
        grid: TileGrid,
        field: CellField,
        laid: tuple[PackedItem, ...] = (),
        tiles: frozenset[Tile] = frozenset(),
    ) -> None:
        self.grid, self.laid, self.tiles, self._field = grid, laid, tiles, field
        self._spots: dict[tuple[int, float, int], MaskSpot | None] = {}
        self._after: dict[tuple[int, float, int, int], _Tiling] = {}
        self._cropped: Sheet | None = None
        self._finished: dict[bool, Sheet | None] = {}

    def best_spot(self, item: PaperItem, angle: float, most: int) -> MaskSpot | None:
        """Where an item needs the fewest further pages; None where that is more than `most`."""
        key = (id(item), angle, most)
        if key not in self._spots:
            mask = item.turned(angle).mask
            self._spots[key] = best_spot(self.grid, mask, self._field, self.tiles, most)
        return self._spots[key]

    def most_covered(self, further: int) -> int:
        """Cells that are free at most on the pages of this sheet and `further` ones."""
        # What lies on a sheet lies on its pages, so more than this cannot be free on them.
        frame = self.grid.frame
        pages = len(self.tiles) + further
        return pages * frame.columns * frame.rows - self._field.taken

    def add(self, item: PaperItem, turned: Turned, spot: MaskSpot) -> "_Tiling":
        """This with one more item at its place."""
        key = (id(item), turned.angle, spot.x, spot.y)
        if key not in self._after:
            mask, x, y = turned.mask, spot.x, spot.y
            self._after[key] = _Tiling(
                self.grid,
                self._field.with_mask(mask, x, y),
                (*self.laid, PackedItem(item, turned, x, y)),
                self.tiles | needed_tiles(self.grid, mask, x, y, self.tiles),
            )
        return self._after[key]

    def cropped(self) -> Sheet:
        """The sheet without empty columns and rows at its sides; always the same object."""
        if self._cropped is None:
            self._cropped = _crop(Sheet(self.grid, self.laid, self.tiles))
        return self._cropped

    def finished(self, *, shift: bool) -> Sheet | None:
        """The same with check squares; None where a page has no room for them."""
        if shift not in self._finished:
            self._finished[shift] = _add_squares(self.cropped(), shift=shift)
        return self._finished[shift]


class _Found(NamedTuple):
    """A place for a template; the least is the best."""

    spot: MaskSpot
    number: int
    tiling: _Tiling
    turned: Turned


@dataclass(frozen=True, slots=True)
class Tiler:
    """How large templates are laid out.

    What was found is kept by the identity of items, so it holds as long as they live.
    """

    frames: tuple[PaperFrame, ...]
    """Ways to hold the paper that may be used."""
    deep_frames: tuple[PaperFrame, ...]
    """The same with a title strip that holds the check squares."""
    overlap: int
    """cells."""
    _alone: dict[tuple[PaperFrame, int, float], tuple[_Tiling, MaskSpot] | None] = field(
        default_factory=dict, compare=False, repr=False
    )
    """Where an item lies on a sheet of its own: the same in whatever order."""
    _empty: dict[TileGrid, _Tiling] = field(default_factory=dict, compare=False, repr=False)

    def lay_out(self, items: Sequence[PaperItem], *, shift: bool) -> list[Sheet]:
        """Sheets for all items, in the given order, with check squares on every page.

        `shift` moves the templates of a sheet together where that leaves more room for check
        squares outside of them. A sheet without room for them gets deep title strips. Raises
        TooLarge.
        """
        finished: list[Sheet] = []
        for tiling in self._tile(items):
            done = tiling.finished(shift=shift)
            # Deep title strips cost room on every page, so only sheets that need them have them.
            finished += [done] if done else self.lay_out_deep([one.item for one in tiling.laid])
        return finished

    def lay_out_deep(self, items: Sequence[PaperItem]) -> list[Sheet]:
        """Sheets for all items whose check squares stand in the title strips. Raises TooLarge."""
        deep = replace(self, frames=self.deep_frames)
        return [tiling.cropped() for tiling in deep._tile(items)]

    def _tile(self, items: Sequence[PaperItem]) -> list[_Tiling]:
        tilings: list[_Tiling] = []
        for item in items:
            own = self._on_new_sheet(item)
            # Beside others only if that saves a page: a sheet of its own is easier to join.
            found = self._on_old_sheet(item, tilings, own.spot.new - 1) or own
            more = found.tiling.add(item, found.turned, found.spot)
            if found.tiling in tilings:
                tilings[tilings.index(found.tiling)] = more
            else:
                tilings.append(more)
        return tilings

    def _on_new_sheet(self, item: PaperItem) -> _Found:
        found: list[_Found] = []
        for number, (frame, angle) in enumerate(
            (frame, angle) for frame in self.frames for angle in UPRIGHT[:2]
        ):
            alone = self._by_itself(item, frame, angle)
            if alone:
                found.append(_Found(alone[1], number, alone[0], item.turned(angle)))
        if not found:
            raise TooLarge(item)
        return min(found, key=lambda one: (one.spot.new, one.number))

    def _by_itself(
        self, item: PaperItem, frame: PaperFrame, angle: float
    ) -> tuple[_Tiling, MaskSpot] | None:
        """An empty sheet for an item and the best spot on it; None where it is too large."""
        key = (frame, id(item), angle)
        if key not in self._alone:
            grid = self._grid_for(item.turned(angle), frame)
            empty = self._empty_sheet(grid) if grid else None
            spot = empty.best_spot(item, angle, MOST_TILES) if empty else None
            self._alone[key] = (empty, spot) if empty and spot else None
        return self._alone[key]

    def _empty_sheet(self, grid: TileGrid) -> _Tiling:
        if grid not in self._empty:
            self._empty[grid] = _Tiling(grid, CellField([0] * grid.height, grid.width))
        return self._empty[grid]

    def _grid_for(self, turned: Turned, frame: PaperFrame) -> TileGrid | None:
        """A grid with room to shift the template by up to one page each way."""
        # Pages advance by their window less the overlap; the last one shows the overlap again.
        across, up = frame.columns - self.overlap, frame.rows - self.overlap
        columns = max(1, -(-(turned.mask.width - self.overlap) // across))
        rows = max(1, -(-(turned.mask.height - self.overlap) // up))
        if columns * rows > MOST_TILES:
            return None
        # Room to shift: the largest grid that counting can hold, since a template laid half a page
        # farther may touch one page less.
        for more_columns, more_rows in ((2, 2), (1, 1), (1, 0), (0, 1)):
            wide, tall = columns + more_columns, rows + more_rows
            if frame.roll:
                wide, tall = columns, 1
            if wide * tall <= MOST_TILES and (wide * tall <= MOST_TOGETHER * 2 or not more_rows):
                return TileGrid(frame, wide, tall, self.overlap)
        return TileGrid(frame, columns, rows, self.overlap)

    def _on_old_sheet(
        self, item: PaperItem, tilings: Sequence[_Tiling], fewer: int
    ) -> _Found | None:
        """The best place beside other templates that needs at most `fewer` further pages."""
        found: list[_Found] = []
        for number, tiling in enumerate(tilings):
            # Bounded by what a sheet may have in all: more pages are hard to join flat.
            most = min(fewer, max(0, MOST_TOGETHER - len(tiling.tiles)))
            # Most templates that find no place are told by the room alone.
            room = tiling.most_covered(most)
            for angle in different_angles(item):
                turned = item.turned(angle)
                if turned.mask.count > room:
                    continue
                spot = tiling.best_spot(item, angle, most)
                if spot:
                    # Sheet and angle in one number, so that of equal spots the first tried is
                    # taken.
                    found.append(_Found(spot, number * 4 + int(angle) // 90, tiling, turned))
        return min(found, key=lambda one: (one.spot, one.number)) if found else None


def _crop(sheet: Sheet) -> Sheet:
    """The sheet without empty columns and rows at its sides."""
    left = min(column for column, _ in sheet.tiles)
    right = max(column for column, _ in sheet.tiles)
    low, high = min(row for _, row in sheet.tiles), max(row for _, row in sheet.tiles)
    old = sheet.grid
    # Whole pages are cut off, so that every template keeps its place within its page.
    dx, dy = left * old.pitch[0], low * old.pitch[1]
    return Sheet(
        TileGrid(old.frame, right - left + 1, high - low + 1, old.overlap),
        tuple(laid.moved(-dx, -dy) for laid in sheet.laid),
        # Inner pages that nothing touches stay out of `tiles`: they are not printed.
        frozenset((column - left, row - low) for column, row in sheet.tiles),
    )


def _add_squares(sheet: Sheet, *, shift: bool) -> Sheet | None:
    """The sheet with check squares on every page; None where a page has no room for them.

    Where squares would stand inside templates, `shift` moves all templates together, as far as
    the same number of pages shows them, to leave more room outside.
    """
    best: Sheet | None = None
    for dx, dy in [(0, 0), *(_shifts(sheet) if shift else ())]:
        moved = _moved(sheet, dx, dy) if dx or dy else sheet
        cells = SheetCells.of(moved)
        found = {tile: place_squares(cells, moved.grid.alone(tile)) for tile in sorted(moved.tiles)}
        squares = {tile: one for tile, one in found.items() if one}
        if len(squares) < len(found):
            continue
        if best is None or _inside(squares.values()) < _inside(best.squares.values()):
            best = replace(moved, squares=squares)
        if not _inside(best.squares.values()):
            break
    return best


def _inside(squares: Iterable[Squares]) -> int:
    return sum(one.inside for one in squares)


def _shifts(sheet: Sheet) -> list[tuple[int, int]]:
    """Shifts of everything on a sheet that need no more pages: to the sides and between."""
    left, low = min(one.x for one in sheet.laid), min(one.y for one in sheet.laid)
    right = max(one.x + one.turned.mask.width for one in sheet.laid)
    high = max(one.y + one.turned.mask.height for one in sheet.laid)
    rows = [0] * (high - low)
    for one in sheet.laid:
        put(rows, one.turned.mask, one.x - left, one.y - low)
    whole = Mask(right - left, tuple(rows))
    places = same_pages(sheet.grid, whole, len(sheet.tiles))
    if not places:
        return []
    # Of hundreds of shifts nine are tried, at both ends and between: each places all squares anew.
    xs, ys = sorted({x for x, _ in places}), sorted({y for _, y in places})
    wishes = [
        (xs[(len(xs) - 1) * across // 2], ys[(len(ys) - 1) * up // 2])
        for up in range(3)
        for across in range(3)
    ]
    chosen = [wish for wish in dict.fromkeys(wishes) if wish in places]
    return [(x - left, y - low) for x, y in chosen if (x, y) != (left, low)]


def _moved(sheet: Sheet, dx: int, dy: int) -> Sheet:
    """The same templates elsewhere on the same grid."""
    laid = tuple(one.moved(dx, dy) for one in sheet.laid)
    tiles: frozenset[Tile] = frozenset()
    for one in laid:
        tiles |= needed_tiles(sheet.grid, one.turned.mask, one.x, one.y, tiles)
    return Sheet(sheet.grid, laid, tiles)
