"""Templates too large for a page in → virtual sheets of several pages out."""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import NamedTuple

from guidegen.layout.paper.frame import PaperFrame
from guidegen.layout.paper.items import PaperItem, Turned
from guidegen.layout.paper.packing import (
    UPRIGHT,
    Sheet,
    different_angles,
    place_item,
    place_squares,
)
from guidegen.layout.paper.raster import CellField, Mask, put, span
from guidegen.layout.paper.tiling import MaskSpot, TileGrid, best_spot, needed_tiles, same_pages

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


class _Found(NamedTuple):
    """A place for a template; the least is the best."""

    spot: MaskSpot
    number: int
    sheet: Sheet
    turned: Turned


@dataclass(frozen=True, slots=True)
class Tiler:
    """How large templates are laid out."""

    frames: tuple[PaperFrame, ...]
    """Ways to hold the paper that may be used."""
    deep_frames: tuple[PaperFrame, ...]
    """The same with a title strip that holds the check squares."""
    overlap: int
    """cells."""
    known: dict[tuple[PaperFrame, int, float], tuple[TileGrid | None, MaskSpot | None]] = field(
        default_factory=dict, compare=False, repr=False
    )
    """Where an item (by its identity) lies on a sheet of its own: the same in whatever order, so
    that it is found once for all tries. Holds as long as the items live."""

    def lay_out(self, items: Sequence[PaperItem], *, shift: bool) -> list[Sheet]:
        """Sheets for all items, in the given order, with check squares on every page.

        `shift` moves the templates of a sheet together where that leaves more room for check
        squares outside of them. A sheet without room for them gets deep title strips. Raises
        TooLarge.
        """
        finished: list[Sheet] = []
        for sheet in self._tile(items):
            done = _add_squares(sheet, shift=shift)
            # Deep title strips cost room on every page, so only sheets that need them have them.
            finished += [done] if done else self.lay_out_deep([one.item for one in sheet.laid])
        return finished

    def lay_out_deep(self, items: Sequence[PaperItem]) -> list[Sheet]:
        """Sheets for all items whose check squares stand in the title strips. Raises TooLarge."""
        return replace(self, frames=self.deep_frames)._tile(items)

    def _tile(self, items: Sequence[PaperItem]) -> list[Sheet]:
        sheets: list[Sheet] = []
        for item in items:
            own = self._on_new_sheet(item)
            # Beside others only if that saves a page: a sheet of its own is easier to join.
            found = self._on_old_sheet(item, sheets, own.spot.new - 1) or own
            if found.sheet not in sheets:
                sheets.append(found.sheet)
            _lay(found, item)
        return [_crop(sheet) for sheet in sheets]

    def _on_new_sheet(self, item: PaperItem) -> _Found:
        found: list[_Found] = []
        for number, (frame, angle) in enumerate(
            (frame, angle) for frame in self.frames for angle in UPRIGHT[:2]
        ):
            grid, spot = self._alone(item, frame, angle)
            if grid and spot:
                found.append(_Found(spot, number, Sheet(grid), item.turned(angle)))
        if not found:
            raise TooLarge(item)
        return min(found, key=lambda one: (one.spot.new, one.number))

    def _alone(
        self, item: PaperItem, frame: PaperFrame, angle: float
    ) -> tuple[TileGrid | None, MaskSpot | None]:
        """The grid for an item by itself and the best spot on it; none where it is too large."""
        key = (frame, id(item), angle)
        if key not in self.known:
            turned = item.turned(angle)
            grid = self._grid_for(turned, frame)
            spot = _on_empty(grid, turned.mask) if grid else None
            self.known[key] = (grid, spot)
        return self.known[key]

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

    def _on_old_sheet(self, item: PaperItem, sheets: Sequence[Sheet], fewer: int) -> _Found | None:
        """The best place beside other templates that needs at most `fewer` further pages."""
        found: list[_Found] = []
        for number, sheet in enumerate(sheets):
            # Bounded by what a sheet may have in all: more pages are hard to join flat.
            most = min(fewer, max(0, MOST_TOGETHER - len(sheet.tiles)))
            cells = CellField(sheet.filled, sheet.grid.width)
            frame = sheet.grid.frame
            # What lies on a sheet lies on its pages, so more than this cannot be free on them and
            # the further ones: most templates that find no place are told by that alone.
            room = (len(sheet.tiles) + most) * frame.columns * frame.rows - cells.taken
            for angle in different_angles(item):
                turned = item.turned(angle)
                if turned.mask.count > room:
                    continue
                spot = best_spot(sheet.grid, turned.mask, cells, sheet.tiles, most)
                if spot:
                    # Sheet and angle in one number, so that of equal spots the first tried is
                    # taken.
                    found.append(_Found(spot, number * 4 + int(angle) // 90, sheet, turned))
        return min(found, key=lambda one: (one.spot, one.number)) if found else None


def _on_empty(grid: TileGrid, mask: Mask) -> MaskSpot | None:
    return best_spot(grid, mask, CellField([0] * grid.height, grid.width), (), MOST_TILES)


def _lay(found: _Found, item: PaperItem) -> None:
    sheet, spot, turned = found.sheet, found.spot, found.turned
    sheet.lay(item, turned, spot.x, spot.y)
    sheet.tiles |= needed_tiles(sheet.grid, turned.mask, spot.x, spot.y, sheet.tiles)


def _crop(sheet: Sheet) -> Sheet:
    """The sheet without empty columns and rows at its sides."""
    left = min(column for column, _ in sheet.tiles)
    right = max(column for column, _ in sheet.tiles)
    low, high = min(row for _, row in sheet.tiles), max(row for _, row in sheet.tiles)
    old = sheet.grid
    grid = TileGrid(old.frame, right - left + 1, high - low + 1, old.overlap)
    # Whole pages are cut off, so that every template keeps its place within its page.
    dx, dy = left * old.pitch[0], low * old.pitch[1]
    # Inner pages that nothing touches stay out of `tiles`: they are not printed.
    new = Sheet(grid, tiles={(column - left, row - low) for column, row in sheet.tiles})
    for laid in sheet.laid:
        new.lay(laid.item, laid.turned, laid.x - dx, laid.y - dy)
    return new


def _add_squares(sheet: Sheet, *, shift: bool) -> Sheet | None:
    """The sheet with check squares on every page; None where a page has no room for them.

    Where squares would stand inside templates, `shift` moves all templates together, as far as
    the same number of pages shows them, to leave more room outside.
    """
    best: Sheet | None = None
    for dx, dy in [(0, 0), *(_shifts(sheet) if shift else ())]:
        moved = _moved(sheet, dx, dy) if dx or dy else sheet
        found = {tile: place_squares(moved, tile) for tile in sorted(moved.tiles)}
        squares = {tile: one for tile, one in found.items() if one}
        if len(squares) < len(found):
            continue
        moved.squares = squares
        if best is None or _inside(moved) < _inside(best):
            best = moved
        if not _inside(best):
            break
    return best


def _inside(sheet: Sheet) -> int:
    return sum(one.inside for one in sheet.squares.values())


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
    new = Sheet(sheet.grid)
    for one in sheet.laid:
        new.lay(one.item, one.turned, one.x + dx, one.y + dy)
        new.tiles |= needed_tiles(new.grid, one.turned.mask, one.x + dx, one.y + dy, new.tiles)
    return new


def fill_gaps(
    sheets: Sequence[Sheet], items: Sequence[PaperItem], angles: dict[int, tuple[float, ...]]
) -> list[PaperItem]:
    """Lay whole templates, in their order, into the free space of sheets; returns the rest."""
    waiting = list(items)
    for sheet in sheets:
        cells = CellField(_open_field(sheet), sheet.grid.width)
        rest: list[PaperItem] = []
        for item in waiting:
            place = place_item(item, angles[id(item)], cells)
            if place is None:
                rest.append(item)
                continue
            sheet.lay(item, *place)
            turned, x, y = place
            cells.put(turned.mask, x, y)
        waiting = rest
    return waiting


def _open_field(sheet: Sheet) -> list[int]:
    """Cells that are free on exactly one printed page: elsewhere a template would be cut."""
    shared = sheet.grid.shared()
    field = [row | blocked for row, blocked in zip(sheet.filled, shared, strict=True)]
    for tile in sheet.grid.tiles():
        if tile not in sheet.tiles:
            # Pages that are not printed have no paper for a template to lie on.
            left, bottom, right, top = sheet.grid.window(tile)
            for y in range(bottom, top):
                field[y] |= span(left, right)
    return field
