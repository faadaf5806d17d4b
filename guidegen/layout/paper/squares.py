"""Pages that fill → where both check squares stand on each out."""

from collections.abc import Sequence

from guidegen.layout.paper.frame import PaperFrame
from guidegen.layout.paper.raster import CellField, nearest, span
from guidegen.layout.paper.sheets import SQUARE, SQUARE_ROOM, SheetCells, Squares
from guidegen.layout.paper.tiling import CellBox


def corner_squares(frame: PaperFrame) -> list[Squares]:
    """Usual places on an empty page: side by side at the foot, or one above the other."""
    right, foot = frame.columns - SQUARE, frame.lane
    places = [
        Squares((right - SQUARE, foot), (right, foot)),
        Squares((right, foot + SQUARE), (right, foot)),
    ]
    return [one for one in places if one.mm[0] >= 0 and one.mm[1] + SQUARE <= frame.rows]


def place_squares(cells: SheetCells, box: CellBox) -> Squares | None:
    """Room for both check squares on one page: beside the templates, else in clear space inside.

    They lie in `box`, the part of the page that no neighbour covers: a square that is cut by a
    join cannot be measured. Their room is then taken.
    """
    width = box[2] - box[0]
    outside = CellField(_cut_out(cells.filled, box), width)
    # From the lower right, where the squares stand on all other pages; if both cannot, from the
    # lower left, and then also in clear space inside a template.
    for corner in (width, 0):
        found: list[tuple[int, int]] = []
        count = 0
        beside, within = outside, None if corner else CellField(_cut_out(cells.ink, box), width)
        for _ in range(2):
            spot = _nearest_room(beside, corner)
            if spot is None and within:
                spot = _nearest_room(within, width)
                count += 1
            if spot is None:
                break
            beside = beside.with_mask(SQUARE_ROOM, *spot)
            within = within and within.with_mask(SQUARE_ROOM, *spot)
            found.append((spot[0] + box[0], spot[1] + box[1]))
        if len(found) == 2:
            inch, millimetre = found
            for spot in found:
                cells.block(SQUARE_ROOM, spot)
            return Squares(millimetre, inch, count)
    return None


def _nearest_room(field: CellField, corner: int) -> tuple[int, int] | None:
    """Room for a square on a page, nearest to a place at its foot."""
    return nearest(field.by_rows(field.free_rectangle(SQUARE, SQUARE)), corner, 0)


def _cut_out(rows: Sequence[int], box: CellBox) -> list[int]:
    left, bottom, right, top = box
    window = span(0, right - left)
    return [(row >> left) & window for row in rows[bottom:top]]
