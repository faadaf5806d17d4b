"""Templates and a paper in → the fullest sheets that several tries found out."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from guidegen.errors import UsageError
from guidegen.layout.paper.frame import Margins, PaperFrame, paper_frames
from guidegen.layout.paper.gaps import Gaps
from guidegen.layout.paper.items import PaperItem
from guidegen.layout.paper.packing import Pages, angles_for
from guidegen.layout.paper.sheets import Sheet, length_used
from guidegen.layout.paper.tiles import Tiler, TooLarge
from guidegen.layout.paper.tiling import cells_up
from guidegen.problems import did_you_mean
from guidegen.units import PAPERS, ROLLS

MANY = 60
"""Templates above which only one way is tried: the time grows with the square of their number."""

FURTHER = 700
"""Over the square of the number of whole templates: further orders that are tried, 28 of five
templates and one of 20. Our choice: small kits gain most from a page less, and cost least."""

UNEVEN = 0.4
"""By how much a further order takes a template to be larger or smaller than it is."""

GOLDEN = (5**0.5 - 1) / 2
"""Whose multiples are spread evenly over 0 to 1: orders that differ, without chance."""


def arrange(
    items: Sequence[PaperItem], paper: str, margins: Margins, overlap: float, size: str
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


def _arrange(items: Sequence[PaperItem], tiler: Tiler) -> list[Sheet]:
    """The arrangement with the fewest pages, then with the fewest joins, of several tries."""
    frames = tiler.frames
    angles = {id(item): angles_for(item, frames) for item in items}
    # Large ones first, on sheets of several pages; what fits a page fills the gaps they leave.
    large = [item for item in items if not angles[id(item)]]
    small = [item for item in items if angles[id(item)]]
    pages, gaps = Pages(frames, angles), Gaps(angles)

    def fill(sheets: Sequence[Sheet], order: Sequence[PaperItem]) -> list[Sheet]:
        tiled, rest = gaps.fill(sheets, order)
        whole, stuck = pages.pack(rest)
        return [*tiled, *whole, *tiler.lay_out_deep(stuck)]

    choices = _frame_choices(frames) if large and len(items) <= MANY else [frames]
    orders = 2 if len(items) <= MANY else 1
    ways: dict[tuple[int, ...], tuple[Tiler, list[PaperItem], list[Sheet]]] = {}
    for own in (replace(tiler, frames=chosen) for chosen in choices):
        for order in _orders(large)[:orders]:
            sheets = own.lay_out(order, shift=False)
            # Often two come to the very same sheets, which the first then stands for.
            ways.setdefault(tuple(id(sheet) for sheet in sheets), (own, order, sheets))
    tries = [
        (_effort(filled), way, small_order, filled)
        for small_order in _orders(small)[:orders]
        for way in ways.values()
        for filled in [fill(way[2], small_order)]
    ]
    # min keeps the first of equals: the order of tries decides, never chance.
    best = min(tries, key=lambda one: one[0])
    for small_order in _further_orders(small):
        for way in ways.values():
            # Only while a page can still be saved: below what the large ones need or the area
            # demands nothing is found.
            if _pages(way[2]) < best[0][0] and best[0][0] > _least_pages(items, frames):
                filled = fill(way[2], small_order)
                one = (_effort(filled), way, small_order, filled)
                best = min(best, one, key=lambda found: found[0])
    if not large:
        return best[3]
    # Shifting takes time, so only the best way is tried with it.
    effort, (chosen_way, order, _), small_order, filled = best
    shifted = fill(chosen_way.lay_out(order, shift=True), small_order)
    # Equal effort goes to the shifted one: more check squares stand outside of templates.
    return shifted if _effort(shifted) <= effort else filled


def _frame_choices(frames: tuple[PaperFrame, ...]) -> list[tuple[PaperFrame, ...]]:
    return [frames] if len(frames) == 1 else [frames, frames[:1], frames[1:]]


def _orders(large: Sequence[PaperItem]) -> list[list[PaperItem]]:
    by_area = sorted(large, key=lambda item: -item.area)
    by_length = sorted(large, key=_longest_first)
    return [by_area] if by_length == by_area else [by_area, by_length]


def _longest_first(item: PaperItem) -> int:
    mask = item.turned(0.0).mask
    return -max(mask.width, mask.height)


def _further_orders(items: Sequence[PaperItem]) -> Iterator[list[PaperItem]]:
    """Largest first, but each item takes its turn as if it were a little larger or smaller."""
    if len(items) < 2 or len(items) > MANY:
        return
    for number in range(1, FURTHER // len(items) ** 2 + 1):
        sizes = {
            id(item): item.area * (1 + UNEVEN * (2 * (number * place * GOLDEN % 1) - 1))
            for place, item in enumerate(items, 1)
        }
        yield sorted(items, key=lambda item: -sizes[id(item)])


def _least_pages(items: Sequence[PaperItem], frames: Sequence[PaperFrame]) -> int:
    """Pages that no arrangement can do with less than: all cells, were nothing wasted."""
    return -(-sum(item.area for item in items) // max(one.columns * one.rows for one in frames))


def _pages(sheets: Sequence[Sheet]) -> int:
    return sum(len(sheet.tiles) for sheet in sheets)


def _effort(sheets: Sequence[Sheet]) -> tuple[int, float, int]:
    pages = _pages(sheets)
    length = sum(length_used(sheet) for sheet in sheets if sheet.grid.frame.roll)
    return (pages, length, pages - len(sheets))
