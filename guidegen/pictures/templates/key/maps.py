"""Template sheets in → their page maps, row by row on key pages."""

from collections.abc import Sequence
from math import sqrt

from guidegen.layout.records import TemplateSet, TemplateSheet
from guidegen.pictures.pen.lettering import text_width
from guidegen.pictures.templates.key.flow import SIDE, KeyFlow
from guidegen.pictures.templates.page_map import draw_map, map_scale, number_ranges, pages_of
from guidegen.words import Words

MAP_ROW = 54.0
MAP_ROW_ONE = 40.0
"""mm; height of a row of page maps with sheets of several pages, and with single pages only."""

MAP_PAGE = 23.0
MAP_MOST = 120.0
"""mm; least height of a page on a map of many rows, and the most of such a map."""

MAP_TEMPLATE = 17.0
"""mm; a map is at least so high times the square root of how many templates lie on it, so that
each has room for its name. Our choice: the least at which no name of the demo lacks it."""


def draw_maps(flow: KeyFlow, templates: TemplateSet) -> None:
    """The page map of every sheet."""
    # A heading stays with the first row of what it heads, here and below: alone at the foot of a
    # page it would be overlooked.
    flow.need(MAP_ROW + 10)
    flow.heading(flow.lang.say("Page map"))
    words = flow.lang.say(
        "The number in a corner is the page number; beside a join stands that of the other page."
    )
    flow.paragraph(words, below=2)
    joined = [sheet for sheet in templates.sheets if len(pages_of(templates, sheet)) > 1]
    single = [sheet for sheet in templates.sheets if len(pages_of(templates, sheet)) == 1]
    for sheets in (joined, single):
        row: list[TemplateSheet] = []
        for sheet in sheets:
            # A sheet alone is never refused: its map is scaled to fit.
            if row and _row_width(templates, [*row, sheet], flow.lang) > flow.width:
                draw_map_row(flow, templates, row)
                row = []
            row.append(sheet)
        if row:
            draw_map_row(flow, templates, row)
    flow.y -= 3


def key_scale(sheet: TemplateSheet) -> float:
    """How much smaller a sheet is on its map: mm there for each mm of it."""
    tall = MAP_ROW if sheet.columns * sheet.rows > 1 else MAP_ROW_ONE
    # 8 mm of a row are its title and the gap below it. A sheet of many rows may take more, or the
    # numbers of its pages could not be read; so may one with many templates.
    wanted = max(sheet.rows * MAP_PAGE, MAP_TEMPLATE * sqrt(len(sheet.drawn)))
    return map_scale(sheet, 120.0, max(tall - 8, min(wanted, MAP_MOST)))


def _map_width(sheet: TemplateSheet, title: str) -> float:
    return max(sheet.width * key_scale(sheet), text_width(title, 3.6, 600))


def _map_title(templates: TemplateSet, sheet: TemplateSheet, lang: Words) -> str:
    numbers = [page.number for page in pages_of(templates, sheet)]
    values = {"sheet": sheet.number, "pages": number_ranges(numbers)}
    if len(numbers) > 1:
        return lang.say("Sheet {sheet}: pages {pages}", **values)
    return lang.say("Sheet {sheet}: page {pages}", **values)


def _row_width(templates: TemplateSet, sheets: Sequence[TemplateSheet], lang: Words) -> float:
    widths = (_map_width(sheet, _map_title(templates, sheet, lang)) for sheet in sheets)
    return sum(widths) + 6 * (len(sheets) - 1)


def draw_map_row(flow: KeyFlow, templates: TemplateSet, sheets: Sequence[TemplateSheet]) -> None:
    """Maps side by side."""
    tall = max(sheet.height * key_scale(sheet) for sheet in sheets) + 6
    flow.need(tall)
    x = SIDE
    for sheet in sheets:
        scale = key_scale(sheet)
        title = _map_title(templates, sheet, flow.lang)
        flow.canvas.text((x, flow.y - 3.4), title, 3.6, weight=600)
        draw_map(flow.canvas, templates, sheet, (x, flow.y - 5 - sheet.height * scale), scale)
        x += _map_width(sheet, title) + 6
    flow.y -= tall + 2
