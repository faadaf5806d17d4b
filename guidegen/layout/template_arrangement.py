"""Templates and a paper in → the fullest sheets that several tries found out."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import product

from guidegen.errors import UsageError
from guidegen.layout.paper_frame import Margins, PaperFrame, paper_frames
from guidegen.layout.paper_packing import Sheet, angles_for, length_used, pack_pages
from guidegen.layout.template_items import Item
from guidegen.layout.template_tiles import Tiler, TooLarge, fill_gaps
from guidegen.layout.tiling import cells_up
from guidegen.problems import did_you_mean
from guidegen.units import PAPERS, ROLLS

MANY = 60
"""Templates above which only one way is tried: the time grows with the square of their number."""


def arrange(
    items: Sequence[Item], paper: str, margins: Margins, overlap: float, size: str
) -> list[Sheet]:
    """Sheets for all templates.

    Raises UsageError, which names `size`, for an unknown paper and for a template that would
    need more pages than one sheet can have.
    """
    if paper not in PAPERS and paper not in ROLLS:
        hint = did_you_mean(paper, [*PAPERS, *ROLLS])
        raise UsageError(f'no paper "{paper}"{hint}')
    frames, deep = paper_frames(paper, margins), paper_frames(paper, margins, deep=True)
    try:
        return _arrange(items, Tiler(frames, deep, cells_up(overlap)))
    except TooLarge as error:
        raise UsageError(
            f'"{error.item.piece.name}" of size {size} is too large for {paper} pages; '
            "choose a larger paper"
        ) from None


def _arrange(items: Sequence[Item], tiler: Tiler) -> list[Sheet]:
    """The arrangement with the fewest pages, then with the fewest joins, of several tries."""
    frames = tiler.frames
    angles = {id(item): angles_for(item, frames) for item in items}
    large = [item for item in items if not angles[id(item)]]
    small = [item for item in items if angles[id(item)]]

    def fill(sheets: Sequence[Sheet], order: Sequence[Item]) -> list[Sheet]:
        tiled = [sheet.copy() for sheet in sheets]
        pages, stuck = pack_pages(frames, fill_gaps(tiled, order, angles), angles)
        return [*tiled, *pages, *tiler.lay_out_deep(stuck)]

    choices = _frame_choices(frames) if large and len(items) <= MANY else [frames]
    orders = 2 if len(items) <= MANY else 1
    found: list[tuple[tuple[float, ...], int, Tiler, list[Item], list[Item]]] = []
    best: list[Sheet] = []
    for chosen, order in product(choices, _orders(large)[:orders]):
        way = replace(tiler, frames=chosen)
        sheets = way.lay_out(order, shift=False)
        for small_order in _orders(small)[:orders]:
            filled = fill(sheets, small_order)
            found.append((_effort(filled), len(found), way, order, small_order))
            if found[-1] == min(found, key=lambda one: one[:2]):
                best = filled
    if not large:
        return best
    # Shifting takes time, so only the best way is tried with it.
    effort, _, way, order, small_order = min(found, key=lambda one: one[:2])
    shifted = fill(way.lay_out(order, shift=True), small_order)
    return shifted if _effort(shifted) <= effort else best


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
