"""Templates and a paper in → the fullest sheets that several tries found out."""

from collections.abc import Sequence
from itertools import product

from guidegen.errors import UsageError
from guidegen.layout.paper_frame import Margins, PaperFrame, paper_frames
from guidegen.layout.paper_packing import Sheet, angles_for, length_used, pack_pages
from guidegen.layout.template_items import Item
from guidegen.layout.template_tiles import Tiler, TooLarge, fill_gaps
from guidegen.layout.tiling import cells_up
from guidegen.problems import did_you_mean
from guidegen.units import PAPERS, ROLLS


def arrange(
    items: Sequence[Item], paper: str, margins: Margins, overlap: float, size: str
) -> tuple[list[Sheet], float]:
    """Sheets for all templates, and the height of their title strip in mm.

    Raises UsageError, which names `size`, for an unknown paper and for a template that would
    need more pages than one sheet can have.
    """
    if paper not in PAPERS and paper not in ROLLS:
        hint = did_you_mean(paper, [*PAPERS, *ROLLS])
        raise UsageError(f'no paper "{paper}"{hint}')
    for deep in (False, True):
        frames = paper_frames(paper, margins, deep=deep)
        try:
            sheets = _arrange(items, frames, cells_up(overlap), deep=deep)
        except TooLarge as error:
            raise UsageError(
                f'"{error.item.piece.name}" of size {size} is too large for {paper} pages; '
                "choose a larger paper"
            ) from None
        if sheets is not None:
            return sheets, frames[0].strip
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
