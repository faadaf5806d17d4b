"""Templates and one way to hold the paper in → filled pages out.

Whole templates are laid as low and as far left as they go, the largest first; the check squares
have their place on every page before anything else.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from guidegen.layout.paper.filling import Filling
from guidegen.layout.paper.frame import PaperFrame
from guidegen.layout.paper.items import PaperItem
from guidegen.layout.paper.raster import CellField, block
from guidegen.layout.paper.sheets import SQUARE_ROOM, Sheet, SheetCells, Squares
from guidegen.layout.paper.squares import corner_squares, place_squares
from guidegen.layout.paper.tiling import TileGrid

UPRIGHT = (0.0, 90.0, 180.0, 270.0)
ASLANT = tuple(float(angle) for angle in range(5, 180, 5) if angle != 90)
"""degrees, for strips that fit a page only from corner to corner."""


def different_angles(item: PaperItem) -> tuple[float, ...]:
    """Quarter turns that look different: one for a disc, two for a rectangle."""
    different: list[float] = []
    for angle in UPRIGHT:
        rows = item.turned(angle).mask.rows
        if all(item.turned(other).mask.rows != rows for other in different):
            different.append(angle)
    return tuple(different)


def angles_for(item: PaperItem, frames: Sequence[PaperFrame]) -> tuple[float, ...]:
    """The angles at which an item lies whole on one page; empty where it is too large."""

    def fits(angle: float) -> bool:
        wide, tall = item.extent(angle)
        return any(wide <= one.columns - one.lane and tall <= one.rows - one.lane for one in frames)

    upright = tuple(angle for angle in different_angles(item) if fits(angle))
    # Chosen: only strips are tried askew. What covers half of a page and does not fit upright is
    # hardly ever saved by another angle, and each angle costs a turn of its cells.
    if upright or item.area > 0.5 * frames[0].columns * frames[0].rows:
        return upright
    aslant = next((angle for angle in ASLANT if fits(angle)), None)
    return () if aslant is None else (aslant,)


@dataclass(frozen=True, slots=True)
class Pages:
    """Pages of their own, filled with as many templates as go on each.

    What was found is kept for further tries: rows of templates that begin unlike often end alike.
    Templates are known by identity, as two may be equal in every value; so it holds as long as
    they live.
    """

    frames: tuple[PaperFrame, ...]
    angles: Mapping[int, tuple[float, ...]]
    """degrees; at which an item may lie, by its identity."""
    _empty: dict[tuple[PaperFrame, Squares | None], Filling] = field(default_factory=dict)
    _around: dict[tuple[PaperFrame, int], tuple[Squares, Filling] | None] = field(
        default_factory=dict
    )
    _fullest: dict[tuple[int, ...], Sheet | None] = field(default_factory=dict)

    def pack(self, items: Sequence[PaperItem]) -> tuple[list[Sheet], list[PaperItem]]:
        """Few pages that hold all items whole, filled in their order.

        Also those items beside or inside which a page has no room for check squares.
        """
        waiting = list(items)
        pages: list[Sheet] = []
        stuck: list[PaperItem] = []
        while waiting:
            page = self._next_page(waiting)
            if page is None:
                stuck.append(waiting.pop(0))
                continue
            pages.append(page)
            gone = {id(laid.item) for laid in page.laid}
            waiting = [item for item in waiting if id(item) not in gone]
        return pages, stuck

    def fill(
        self, frame: PaperFrame, items: Sequence[PaperItem], squares: Squares | None
    ) -> tuple[Squares, Filling] | None:
        """A page with the first item and as many of the others, in their order, as go on it.

        Without `squares`, the usual ones, they stand where the first item leaves room for them.
        None where the page has no room for the first item, or for its squares.
        """
        if squares:
            first = self._start(frame, squares).add(items[0])
        else:
            found = self._room_around(frame, items[0])
            squares, first = found or (None, None)
        return (squares, first.add_all(items[1:])[0]) if squares and first else None

    def _next_page(self, items: Sequence[PaperItem]) -> Sheet | None:
        """The page with the first item on which most is covered; None where that has no room."""
        row = tuple(id(item) for item in items)
        if row not in self._fullest:
            self._fullest[row] = self._fullest_page(items)
        return self._fullest[row]

    def _fullest_page(self, items: Sequence[PaperItem]) -> Sheet | None:
        best: Sheet | None = None
        most = -1
        for frame in self.frames:
            for squares, filling in self._tries(frame, items):
                if filling.covered > most:
                    tile = (0, 0)
                    grid = TileGrid(frame, 1, 1, 0)
                    best = Sheet(grid, filling.laid, frozenset((tile,)), {tile: squares})
                    most = filling.covered
                # All that waits lies on it: no other page could hold more.
                if len(filling.laid) == len(items):
                    return best
        return best

    def _tries(
        self, frame: PaperFrame, items: Sequence[PaperItem]
    ) -> Iterator[tuple[Squares, Filling]]:
        """Pages with the first item: with the usual squares, else where it leaves room for them."""
        usual = False
        for squares in (*corner_squares(frame), None):
            # Looking for free places takes longer, so only where the usual ones are in the way.
            page = None if usual and squares is None else self.fill(frame, items, squares)
            if page:
                usual = True
                yield page

    def _start(self, frame: PaperFrame, squares: Squares | None) -> Filling:
        """A page with nothing on it but its check squares, or nothing at all."""
        key = (frame, squares)
        if key not in self._empty:
            field = CellField(_empty_page(frame, squares).filled, frame.columns)
            self._empty[key] = Filling(field, self.angles)
        return self._empty[key]

    def _room_around(self, frame: PaperFrame, item: PaperItem) -> tuple[Squares, Filling] | None:
        """A page with an item that leaves no room for squares at the usual places."""
        key = (frame, id(item))
        if key not in self._around:
            self._around[key] = self._squares_around(frame, item)
        return self._around[key]

    def _squares_around(self, frame: PaperFrame, item: PaperItem) -> tuple[Squares, Filling] | None:
        alone = self._start(frame, None).add(item)
        if alone is None:
            return None
        cells = _empty_page(frame, None)
        cells.lay(alone.laid[0])
        # Without check squares a page must not be printed, so this try is lost then.
        squares = place_squares(cells, (0, 0, frame.columns, frame.rows))
        if squares is None:
            return None
        field = CellField(cells.filled, frame.columns)
        return squares, Filling(field, self.angles, alone.laid)


def _empty_page(frame: PaperFrame, squares: Squares | None) -> SheetCells:
    cells = SheetCells([0] * frame.rows, [0] * frame.rows)
    if frame.lane:
        cells.block(block(frame.columns, frame.lane), (0, 0))
        cells.block(block(frame.lane, frame.rows), (0, 0))
    for spot in (squares.mm, squares.inch) if squares else ():
        cells.block(SQUARE_ROOM, spot)
    return cells
