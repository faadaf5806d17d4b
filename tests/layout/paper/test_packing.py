"""What is kept of one order of templates for the next, against finding it anew."""

import random
from collections.abc import Sequence

import pytest
from layout.paper.test_templates import kit_of
from layout.template_samples import disc, frame, piece, rectangle, sample_kit

from guidegen.geometry.pieces.records import Kit
from guidegen.layout.paper.filling import place_item
from guidegen.layout.paper.frame import OVERLAP, paper_frames
from guidegen.layout.paper.gaps import Gaps
from guidegen.layout.paper.items import PaperItem, collect_items
from guidegen.layout.paper.packing import Pages, angles_for
from guidegen.layout.paper.raster import CellField, put
from guidegen.layout.paper.sheets import Sheet, SheetCells
from guidegen.layout.paper.tiles import Tiler
from guidegen.layout.paper.tiling import cells_up

FRAMES = paper_frames("a4")


def many_kit() -> Kit:
    """Pieces of many shapes that fit a page, some of which must share one; and two large ones."""
    shapes = [rectangle(30 + 17 * number % 130, 25 + 29 * number % 90) for number in range(9)]
    # Two are too large for a page.
    shapes += [rectangle(620, 90), rectangle(330, 240), disc(70), frame()]
    return kit_of(
        *(piece(f"part-{number}", str(number), "Part", one) for number, one in enumerate(shapes))
    )


def split(items: Sequence[PaperItem]) -> tuple[list[PaperItem], list[PaperItem], dict]:
    """Items that fit a page, those that do not, and the angles of all."""
    angles = {id(item): angles_for(item, FRAMES) for item in items}
    return (
        [item for item in items if angles[id(item)]],
        [item for item in items if not angles[id(item)]],
        angles,
    )


def said(sheets: Sequence[Sheet]) -> list:
    """All that is on sheets, as values that can be compared."""
    return [
        (
            one.grid,
            [(laid.item.key, laid.turned.angle, laid.x, laid.y) for laid in one.laid],
            one.tiles,
            one.squares,
        )
        for one in sheets
    ]


@pytest.mark.parametrize("kit", [many_kit(), sample_kit()], ids=["many", "sample"])
def test_what_is_kept_changes_no_order(kit):
    """Sheets, gaps and pages of ten orders are those that each order gives by itself."""
    items = collect_items(kit)
    small, large, angles = split(items)
    deep = paper_frames("a4", deep=True)
    pages, gaps = Pages(FRAMES, angles), Gaps(angles)
    tiler = Tiler(FRAMES, deep, cells_up(OVERLAP))
    random_ = random.Random(4)
    for _ in range(10):
        random_.shuffle(small)
        random_.shuffle(large)
        for shift in (False, True):
            sheets = tiler.lay_out(large, shift=shift)
            anew = Tiler(FRAMES, deep, cells_up(OVERLAP)).lay_out(large, shift=shift)
            assert said(sheets) == said(anew)
            filled, rest = gaps.fill(sheets, small)
            afresh, others = Gaps(angles).fill(sheets, small)
            assert (said(filled), rest) == (said(afresh), others)
        packed, stuck = pages.pack(small)
        again, alike = Pages(FRAMES, angles).pack(small)
        assert (said(packed), stuck) == (said(again), alike)


def test_a_page_holds_what_goes_on_it_one_after_the_other():
    """Each template of a page lies at its lowest place beside those before it and the squares."""
    small, _, angles = split(collect_items(many_kit()))
    for page in Pages(FRAMES, angles).pack(small)[0]:
        rows = SheetCells.of(Sheet(page.grid, (), page.tiles, page.squares)).filled
        for laid in page.laid:
            field = CellField(rows, page.grid.width)
            place = place_item(laid.item, angles[id(laid.item)], field)
            assert place == (laid.turned, laid.x, laid.y)
            put(rows, laid.turned.mask, laid.x, laid.y)
