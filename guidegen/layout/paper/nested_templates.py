"""Kits of several sizes and a paper in → template sheets on which all sizes lie nested.

Each template is drawn at every size in one place, folds or lower left corners together, so that
one file serves all sizes: its pages are the same, and what belongs to a size can be switched.
"""

from collections.abc import Sequence
from dataclasses import replace

from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.paper.arrangement import arrange
from guidegen.layout.paper.frame import OVERLAP, Margins
from guidegen.layout.paper.items import PaperItem, collect_items, turn_within
from guidegen.layout.paper.recording import record_sheets
from guidegen.layout.paper.sheets import PackedItem, Sheet, length_used
from guidegen.layout.records import TemplateSet


def lay_out_nested(
    kits: Sequence[Kit],
    paper: str,
    *,
    margins: Margins | None = None,
    overlap: float = OVERLAP,
) -> tuple[TemplateSet, ...]:
    """One template set for each kit, in the same order; all have the same sheets and pages.

    A page names the pieces that its size needs from it: none where only larger sizes reach it.
    Raises UsageError as lay_out_templates does.
    """
    nests = _nests(kits)
    # Arranged once for all sizes, so that switching a size off in the file moves nothing.
    sheets = arrange(nests, paper, margins or Margins(), overlap, kits[-1].size)
    return tuple(
        record_sheets(
            [_of_size(sheet, number) for sheet in sheets],
            paper,
            margins or Margins(),
            overlap,
        )
        for number in range(len(kits))
    )


def _nests(kits: Sequence[Kit]) -> list[PaperItem]:
    """For each template of any kit, all its sizes in one item; their place in it tells the size."""
    by_key: dict[str, list[PaperItem | None]] = {}
    for number, kit in enumerate(kits):
        for item in collect_items(kit):
            sizes = by_key.setdefault(item.key, [None] * len(kits))
            sizes[number] = _at_corner(item, number)
    nests: list[PaperItem] = []
    for sizes in by_key.values():
        members = tuple(item for item in sizes if item)
        # The largest stands for all where one is asked for; holes are no free paper here, since
        # they differ from size to size.
        largest = max(members, key=lambda item: item.area)
        solid = tuple(replace(item, holes=(), lines=item.holes + item.lines) for item in members)
        nests.append(replace(largest, holes=(), members=solid))
    return nests


def _at_corner(item: PaperItem, number: int) -> PaperItem:
    """The item with its anchor at the origin: the end of its fold, else its lower left corner."""
    left, low = min(x for x, _ in item.outline), min(y for _, y in item.outline)
    if item.piece.fold:
        run = item.piece.template.edge(item.piece.fold).run
        # The lower end of the fold: whoever folds the paper there finds all sizes in register.
        left, low = min((segment_start(run[0]), segment_end(run[-1])), key=lambda at: at[1])
        left = -left if item.flipped else left
    offsets = tuple((x - left, y - low) for x, y in item.offsets)
    return replace(item, offsets=offsets, size=number)


def _of_size(sheet: Sheet, number: int) -> Sheet:
    """The sheet with what one size draws on it, at the same places."""
    sizes = (
        (next((item for item in laid.item.members if item.size == number), None), laid)
        for laid in sheet.laid
    )
    own = tuple(
        PackedItem(size, turn_within(size, laid.turned), laid.x, laid.y)
        for size, laid in sizes
        if size
    )
    return replace(sheet, laid=own, length=length_used(sheet))
