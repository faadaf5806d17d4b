"""Filled sheets in → records of template sheets and pages out, in mm."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import cos, radians, sin

from guidegen.layout.paper.frame import CELL, Margins, page_size
from guidegen.layout.paper.sheets import SQUARE, Sheet, length_used
from guidegen.layout.paper.tiling import Tile, cells_up, needed_tiles
from guidegen.layout.records import Drawn, TemplatePage, TemplateSet, TemplateSheet
from guidegen.units import PAPERS, TEST_SQUARE_IN


def record_sheets(
    sheets: Sequence[Sheet],
    paper: str,
    margins: Margins,
    overlap: float,
    *,
    both_sides: bool = False,
) -> TemplateSet:
    """The sheets as records, their pages numbered row by row from the upper left."""
    return TemplateSet(
        paper=paper,
        margin_side=margins.side,
        margin_end=margins.end if paper in PAPERS else margins.side,
        overlap=cells_up(overlap) * CELL,
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
        pages=tuple(_pages(sheets, paper, margins)),
        both_sides=both_sides,
    )


def _pages(sheets: Sequence[Sheet], paper: str, margins: Margins) -> list[TemplatePage]:
    pages: list[TemplatePage] = []
    for number, sheet in enumerate(sheets, 1):
        pieces = _pieces_by_page(sheet)
        # From the upper left, as one lays pages out on a table; tiles count from the foot.
        for tile in sorted(sheet.tiles, key=lambda tile: (-tile[1], tile[0])):
            page = _page(sheet, tile, pieces[tile])
            width, height = page_size(
                paper,
                landscape=page.landscape,
                window_height=page.height,
                margins=margins,
                strip=page.strip,
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
    return pages


def _height(sheet: Sheet) -> float:
    if not sheet.grid.frame.roll:
        return sheet.grid.height * CELL
    return sheet.length or length_used(sheet)


def _page(sheet: Sheet, tile: Tile, pieces: Sequence[str]) -> TemplatePage:
    """A page whose number and paper are still to be filled in."""
    grid = sheet.grid
    left, bottom, right, top = (edge * CELL for edge in grid.window(tile))
    squares, strip = sheet.squares.get(tile), grid.frame.strip
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
        # A roll is cut off above its drawing.
        height=min(top - bottom, _height(sheet)),
        pieces=tuple(dict.fromkeys(pieces)),
        strip=strip,
        mm_square=(rooms[0][0] + air, rooms[0][1] + air),
        inch_square=(rooms[1][0] + air, rooms[1][1] + air),
        lane=_lane(sheet),
    )


def _lane(sheet: Sheet) -> float:
    """mm at the left and the foot that are free on a large page by itself; 0 on all others."""
    lane = sheet.grid.frame.lane
    alone = sheet.grid.columns * sheet.grid.rows == 1
    free = all(laid.x >= lane and laid.y >= lane for laid in sheet.laid)
    return lane * CELL if alone and free else 0.0


def _pieces_by_page(sheet: Sheet) -> dict[Tile, list[str]]:
    """For each page, keys of the pieces that cannot be put together without it."""
    found: dict[Tile, list[str]] = {tile: [] for tile in sheet.tiles}
    for laid in sheet.laid:
        # Not every page that shows a bit of it: what its neighbours show as well is not needed to
        # trace it.
        for tile in needed_tiles(sheet.grid, laid.turned.mask, laid.x, laid.y, sheet.tiles):
            if tile in found:
                found[tile].append(laid.item.key)
    return found


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
