"""Pages that fill → where both check squares stand on each out."""

from collections.abc import Sequence

from guidegen.layout.paper.frame import PaperFrame
from guidegen.layout.paper.raster import free_places, nearest, put, span
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
    outside, inside = _cut_out(cells.filled, box), _cut_out(cells.ink, box)
    width = box[2] - box[0]
    # From the lower right, where the squares stand on all other pages; if both cannot, from the
    # lower left, and then also in clear space inside a template.
    for corner in (width, 0):
        found: list[tuple[int, int]] = []
        count = 0
        beside, within = list(outside), list(inside)
        for _ in range(2):
            spot = nearest(free_places(beside, width, SQUARE_ROOM), corner, 0)
            if spot is None and corner == 0:
                spot = nearest(free_places(within, width, SQUARE_ROOM), width, 0)
                count += 1
            if spot is None:
                break
            put(beside, SQUARE_ROOM, *spot)
            put(within, SQUARE_ROOM, *spot)
            found.append((spot[0] + box[0], spot[1] + box[1]))
        if len(found) == 2:
            inch, millimetre = found
            for spot in found:
                cells.block(SQUARE_ROOM, spot)
            return Squares(millimetre, inch, count)
    return None


def _cut_out(rows: Sequence[int], box: CellBox) -> list[int]:
    left, bottom, right, top = box
    window = span(0, right - left)
    return [(row >> left) & window for row in rows[bottom:top]]
