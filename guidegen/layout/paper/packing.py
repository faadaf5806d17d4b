"""Templates and one way to hold the paper in → filled pages out.

Whole templates are laid as low and as far left as they go, the largest first; the check squares
have their place on every page before anything else.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field

from guidegen.layout.paper.frame import CELL, PaperFrame
from guidegen.layout.paper.items import PaperItem, Turned
from guidegen.layout.paper.raster import CellField, Mask, block, free_places, nearest, put, span
from guidegen.layout.paper.tiling import CellBox, Tile, TileGrid

SQUARE = 22
"""cells; side of the room for a check square: 50.8 mm and a little air."""

UPRIGHT = (0.0, 90.0, 180.0, 270.0)
ASLANT = tuple(float(angle) for angle in range(5, 180, 5) if angle != 90)
"""degrees, for strips that fit a page only from corner to corner."""


@dataclass(frozen=True, slots=True)
class PackedItem:
    """A template at its place: its mask's lower left in cells."""

    item: PaperItem
    turned: Turned
    x: int
    y: int


@dataclass(frozen=True, slots=True)
class Squares:
    """Lower left of the room for each check square, in cells on the sheet."""

    mm: tuple[int, int]
    inch: tuple[int, int]
    inside: int = 0
    """How many of them stand inside a template."""


@dataclass
class Sheet:
    """A virtual sheet while it is filled."""

    grid: TileGrid
    laid: list[PackedItem] = field(default_factory=list)
    tiles: set[Tile] = field(default_factory=set)
    """Pages that are printed."""
    squares: dict[Tile, Squares] = field(default_factory=dict)
    filled: list[int] = field(default_factory=list)
    """Cells that nothing more may cover."""
    ink: list[int] = field(default_factory=list)
    """Cells with lines."""
    length: float = 0.0
    """mm of a roll that are used, where that is known already."""

    def __post_init__(self) -> None:
        self.filled = self.filled or [0] * self.grid.height
        self.ink = self.ink or [0] * self.grid.height

    def copy(self) -> "Sheet":
        """A sheet that can be filled further without changing this one."""
        return Sheet(
            self.grid,
            list(self.laid),
            set(self.tiles),
            dict(self.squares),
            list(self.filled),
            list(self.ink),
        )

    def lay(self, item: PaperItem, turned: Turned, x: int, y: int) -> None:
        """Put a template at its place."""
        self.laid.append(PackedItem(item, turned, x, y))
        put(self.filled, turned.mask, x, y)
        put(self.ink, Mask(turned.mask.width, turned.ink), x, y)


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


def place_item(
    item: PaperItem, angles: Sequence[float], field: CellField
) -> tuple[Turned, int, int] | None:
    """The lowest place for an item on a field, at the angle that keeps its top lowest."""
    best: tuple[int, int, int, Turned] | None = None
    room = field.width * field.height - field.taken
    for angle in angles:
        turned = item.turned(angle)
        # Every angle covers about as many cells, so one that has too many ends the search.
        if turned.mask.count > room:
            return None
        spot = field.lowest(turned.mask)
        if spot is None:
            continue
        x, y = spot
        # By its top, not its foot: pages fill from below, and a low top leaves the most in one
        # piece.
        if best is None or (y + turned.mask.height, x) < (best[0], best[1]):
            best = (y + turned.mask.height, x, y, turned)
    return (best[3], best[1], best[2]) if best else None


def place_squares(sheet: Sheet, tile: Tile) -> Squares | None:
    """Room for both check squares on one page: beside the templates, else in clear space inside.

    Squares lie on the part of the page that no neighbour covers.
    """
    box = sheet.grid.alone(tile)
    outside, inside = _cut_out(sheet.filled, box), _cut_out(sheet.ink, box)
    width = box[2] - box[0]
    # On the part that no neighbour covers: a square that is cut by a join cannot be measured.
    room = block(SQUARE, SQUARE)
    # From the lower right, where the squares stand on all other pages; if both cannot, from the
    # lower left, and then also in clear space inside a template.
    for corner in (width, 0):
        found: list[tuple[int, int]] = []
        count = 0
        beside, within = list(outside), list(inside)
        for _ in range(2):
            spot = nearest(free_places(beside, width, room), corner, 0)
            if spot is None and corner == 0:
                spot = nearest(free_places(within, width, room), width, 0)
                count += 1
            if spot is None:
                break
            put(beside, room, *spot)
            put(within, room, *spot)
            found.append((spot[0] + box[0], spot[1] + box[1]))
        if len(found) == 2:
            inch, millimetre = found
            for spot in found:
                put(sheet.filled, room, *spot)
                put(sheet.ink, room, *spot)
            return Squares(millimetre, inch, count)
    return None


def _cut_out(rows: Sequence[int], box: CellBox) -> list[int]:
    left, bottom, right, top = box
    window = span(0, right - left)
    return [(row >> left) & window for row in rows[bottom:top]]


def _corner_squares(frame: PaperFrame) -> list[Squares]:
    """Usual places on an empty page: side by side at the foot, or one above the other."""
    right, foot = frame.columns - SQUARE, frame.lane
    places = [
        Squares((right - SQUARE, foot), (right, foot)),
        Squares((right, foot + SQUARE), (right, foot)),
    ]
    return [one for one in places if one.mm[0] >= 0 and one.mm[1] + SQUARE <= frame.rows]


def fill_page(
    frame: PaperFrame,
    items: Sequence[PaperItem],
    angles: dict[int, tuple[float, ...]],
    squares: Squares | None,
) -> Sheet:
    """One page with as many of the items, in their order, as go on it."""
    sheet = Sheet(TileGrid(frame, 1, 1, 0), tiles={(0, 0)})
    if frame.lane:
        for lane in (block(frame.columns, frame.lane), block(frame.lane, frame.rows)):
            put(sheet.filled, lane, 0, 0)
            put(sheet.ink, lane, 0, 0)
    if squares:
        for spot in (squares.mm, squares.inch):
            put(sheet.filled, block(SQUARE, SQUARE), *spot)
            put(sheet.ink, block(SQUARE, SQUARE), *spot)
        sheet.squares[0, 0] = squares
    field = CellField(sheet.filled, sheet.grid.width)
    for item in items:
        place = place_item(item, angles[id(item)], field)
        if place is None:
            continue
        sheet.lay(item, *place)
        turned, x, y = place
        field.put(turned.mask, x, y)
        if squares is None:
            # The first is too large to leave the usual room: find some around or inside it.
            found = place_squares(sheet, (0, 0))
            if found is None:
                # An empty sheet: without check squares a page must not be printed, so this try is
                # lost.
                return Sheet(sheet.grid)
            squares = sheet.squares[0, 0] = found
            field = CellField(sheet.filled, sheet.grid.width)
    return sheet


def pack_pages(
    frames: Sequence[PaperFrame],
    items: Sequence[PaperItem],
    angles: dict[int, tuple[float, ...]],
    known: dict[tuple[int, ...], Sheet | None],
) -> tuple[list[Sheet], list[PaperItem]]:
    """Few pages that hold all items whole, filled in their order.

    Also those items beside or inside which a page has no room for check squares. `known` keeps
    the fullest page of each row of waiting items, by their identities, for further tries with the
    same frames and angles: rows that begin unlike often end alike.
    """
    waiting = list(items)
    pages: list[Sheet] = []
    stuck: list[PaperItem] = []
    while waiting:
        row = tuple(id(item) for item in waiting)
        if row not in known:
            known[row] = _fullest_page(frames, waiting, angles)
        page = known[row]
        if page is None:
            stuck.append(waiting.pop(0))
            continue
        pages.append(page)
        gone = {id(laid.item) for laid in page.laid}
        # By identity, as two templates may be equal in every value.
        waiting = [item for item in waiting if id(item) not in gone]
    return pages, stuck


def _fullest_page(
    frames: Sequence[PaperFrame], items: Sequence[PaperItem], angles: dict[int, tuple[float, ...]]
) -> Sheet | None:
    """The page with the first item on which most is covered; None where that has no room."""
    best: Sheet | None = None
    for frame in frames:
        tries = [fill_page(frame, items, angles, one) for one in _corner_squares(frame)]
        if not any(_holds(one, items[0]) for one in tries):
            # Only if the usual places are in the way of the first: looking for free ones takes
            # longer.
            tries.append(fill_page(frame, items, angles, None))
        for page in tries:
            if _holds(page, items[0]) and (best is None or _filled(page) > _filled(best)):
                best = page
    return best


def _holds(page: Sheet, item: PaperItem) -> bool:
    return any(laid.item is item for laid in page.laid)


def _filled(page: Sheet) -> int:
    return sum(laid.turned.mask.count for laid in page.laid)


def length_used(sheet: Sheet) -> float:
    """mm from the foot of the window to the top of what lies on it."""
    tops = [laid.y + laid.turned.mask.height for laid in sheet.laid]
    tops += [max(one.mm[1], one.inch[1]) + SQUARE for one in sheet.squares.values()]
    return max(tops, default=0) * CELL
