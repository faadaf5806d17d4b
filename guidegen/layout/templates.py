"""A kit and a paper in → template sheets out: every template in true size on few pages.

Templates that fit are whole on one page. Larger ones lie on virtual sheets that are printed as
overlapping pages, turned and shifted so that they touch the fewest; small ones fill the gaps.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product
from math import cos, radians, sin

from guidegen.errors import UsageError
from guidegen.geometry.records import Kit
from guidegen.layout.paper_frame import (
    CELL,
    OVERLAP,
    Margins,
    PaperFrame,
    page_size,
    paper_frames,
)
from guidegen.layout.paper_packing import SQUARE, Sheet, angles_for, length_used, pack_pages
from guidegen.layout.records import Drawn, TemplatePage, TemplateSet, TemplateSheet
from guidegen.layout.template_items import Item, collect_items
from guidegen.layout.template_tiles import Tiler, TooLarge, fill_gaps
from guidegen.layout.tiling import Tile, cells_up, needed_tiles
from guidegen.problems import did_you_mean
from guidegen.units import PAPERS, ROLLS, TEST_SQUARE_IN


def lay_out_templates(
    kit: Kit,
    paper: str,
    *,
    both_sides: bool = False,
    margins: Margins | None = None,
    overlap: float = OVERLAP,
) -> TemplateSet:
    """Template sheets of a kit for one paper or roll.

    A pair is drawn once, as its left, unless `both_sides`. `overlap` is rounded up to whole
    cells of 2.5 mm. Raises UsageError for an unknown paper, and for a piece that would need
    more pages than one sheet can have.
    """
    if paper not in PAPERS and paper not in ROLLS:
        hint = did_you_mean(paper, [*PAPERS, *ROLLS])
        raise UsageError(f'no paper "{paper}"{hint}')
    margins = margins or Margins()
    items = collect_items(kit, both_sides=both_sides)
    for deep in (False, True):
        frames = paper_frames(paper, margins, deep=deep)
        try:
            sheets = _arrange(items, frames, cells_up(overlap), deep=deep)
        except TooLarge as error:
            raise UsageError(
                f'"{error.item.piece.name}" of size {kit.size} is too large for {paper} pages; '
                "choose a larger paper"
            ) from None
        if sheets is not None:
            return _record(sheets, paper, margins, frames[0].strip, both_sides=both_sides)
    raise UsageError(f'paper "{paper}" is too small for template sheets; choose a larger one')


def _arrange(
    items: Sequence[Item], frames: tuple[PaperFrame, ...], overlap: int, *, deep: bool
) -> list[Sheet] | None:
    """The arrangement with the fewest pages, then with the fewest joins, of several tries."""
    angles = {id(item): angles_for(item, frames) for item in items}
    large = [item for item in items if not angles[id(item)]]
    small = [item for item in items if angles[id(item)]]

    def attempt(
        chosen: tuple[PaperFrame, ...], order: Sequence[Item], *, shift: bool
    ) -> list[Sheet] | None:
        sheets = Tiler(chosen, overlap, deep).lay_out(order, shift=shift)
        if sheets is None:
            return None
        rest = fill_gaps(sheets, small, angles)
        pages = pack_pages(frames, rest, angles, deep=deep)
        return None if pages is None else sheets + pages

    ways = [*product(_frame_choices(frames), _orders(large))]
    found = [(attempt(*way, shift=False), way) for way in (ways if large else ways[:1])]
    tries = [(_effort(sheets), number) for number, (sheets, _) in enumerate(found) if sheets]
    if not tries:
        return attempt(*ways[0], shift=True)
    effort, number = min(tries)
    sheets, way = found[number]
    # Shifting takes time, so only the best way is tried with it.
    shifted = attempt(*way, shift=True) if large else None
    return shifted if shifted and _effort(shifted) <= effort else sheets


def _frame_choices(frames: tuple[PaperFrame, ...]) -> list[tuple[PaperFrame, ...]]:
    return [frames] if len(frames) == 1 else [frames, frames[:1], frames[1:]]


def _orders(large: Sequence[Item]) -> list[list[Item]]:
    by_area = sorted(large, key=lambda item: -item.area)
    by_length = sorted(large, key=_longest_first)
    return [by_area] if by_length == by_area else [by_area, by_length]


def _longest_first(item: Item) -> int:
    mask = item.turned(0.0).mask
    return -max(mask.width, mask.height)


def _effort(sheets: Sequence[Sheet]) -> tuple[int, float, int]:
    pages = sum(len(sheet.tiles) for sheet in sheets)
    length = sum(length_used(sheet) for sheet in sheets if sheet.grid.frame.roll)
    return (pages, length, pages - len(sheets))


def _record(
    sheets: Sequence[Sheet],
    paper: str,
    margins: Margins,
    strip: float,
    *,
    both_sides: bool,
) -> TemplateSet:
    pages: list[TemplatePage] = []
    for number, sheet in enumerate(sheets, 1):
        for tile in sorted(sheet.tiles, key=lambda tile: (-tile[1], tile[0])):
            page = _page(sheet, tile, strip)
            width, height = page_size(
                paper,
                landscape=page.landscape,
                window_height=page.height,
                margins=margins,
                strip=strip,
            )
            pages.append(
                replace(
                    page,
                    number=len(pages) + 1,
                    sheet=number,
                    paper_width=width,
                    paper_height=height,
                )
            )
    overlaps = [sheet.grid.overlap * CELL for sheet in sheets if sheet.grid.overlap]
    return TemplateSet(
        paper=paper,
        margin_side=margins.side,
        margin_end=margins.end if paper in PAPERS else margins.side,
        overlap=max(overlaps, default=OVERLAP),
        sheets=tuple(
            TemplateSheet(
                number=number,
                width=sheet.grid.width * CELL,
                height=_height(sheet),
                drawn=tuple(_drawn(sheet)),
                columns=sheet.grid.columns,
                rows=sheet.grid.rows,
            )
            for number, sheet in enumerate(sheets, 1)
        ),
        pages=tuple(pages),
        strip=strip,
        both_sides=both_sides,
    )


def _height(sheet: Sheet) -> float:
    return length_used(sheet) if sheet.grid.frame.roll else sheet.grid.height * CELL


def _page(sheet: Sheet, tile: Tile, strip: float) -> TemplatePage:
    """A page whose number and paper are still to be filled in."""
    grid = sheet.grid
    left, bottom, right, top = (edge * CELL for edge in grid.window(tile))
    squares = sheet.squares.get(tile)
    if squares:
        rooms = [(x * CELL - left, y * CELL - bottom) for x, y in (squares.mm, squares.inch)]
    else:
        # A deep title strip: both squares stand in it, at the right.
        low = (strip - SQUARE * CELL) / 2 - strip
        wide = SQUARE * CELL
        rooms = [(right - left - 2 * wide, low), (right - left - wide, low)]
    # Both keep the same distance from the foot of their room, so that they stand in line.
    air = (SQUARE * CELL - TEST_SQUARE_IN) / 2
    return TemplatePage(
        number=0,
        sheet=0,
        column=tile[0],
        row=grid.rows - 1 - tile[1],
        landscape=grid.frame.landscape,
        x=left,
        y=bottom,
        width=right - left,
        height=min(top - bottom, _height(sheet)),
        pieces=_pieces_on(sheet, tile),
        mm_square=(rooms[0][0] + air, rooms[0][1] + air),
        inch_square=(rooms[1][0] + air, rooms[1][1] + air),
    )


def _pieces_on(sheet: Sheet, tile: Tile) -> tuple[str, ...]:
    """Keys of the pieces that cannot be put together without this page."""
    keys = [
        laid.item.key
        for laid in sheet.laid
        if tile in needed_tiles(sheet.grid, laid.turned.mask, laid.x, laid.y, sheet.tiles)
    ]
    return tuple(dict.fromkeys(keys))


def _drawn(sheet: Sheet) -> Iterator[Drawn]:
    for laid in sheet.laid:
        turned = laid.turned
        x, y = laid.x * CELL - turned.left, laid.y * CELL - turned.bottom
        c, s = cos(radians(turned.angle)), sin(radians(turned.angle))
        for dx, dy in laid.item.offsets:
            yield Drawn(
                piece=laid.item.piece,
                serves=laid.item.serves,
                x=x + dx * c - dy * s,
                y=y + dx * s + dy * c,
                angle=turned.angle,
                flipped=laid.item.flipped,
            )
