"""A virtual sheet: the pages it is printed on, what lies on it, and the cells that takes."""

from dataclasses import dataclass, field
from typing import Self

from guidegen.layout.paper.frame import CELL
from guidegen.layout.paper.items import PaperItem, Turned
from guidegen.layout.paper.raster import Mask, block, put
from guidegen.layout.paper.tiling import Tile, TileGrid

SQUARE = 22
"""cells; side of the room for a check square: 50.8 mm and a little air."""

SQUARE_ROOM = block(SQUARE, SQUARE)


@dataclass(frozen=True, slots=True)
class PackedItem:
    """A template at its place: its mask's lower left in cells."""

    item: PaperItem
    turned: Turned
    x: int
    y: int

    def moved(self, dx: int, dy: int) -> "PackedItem":
        """The same template elsewhere."""
        return PackedItem(self.item, self.turned, self.x + dx, self.y + dy)


@dataclass(frozen=True, slots=True)
class Squares:
    """Lower left of the room for each check square, in cells on the sheet."""

    mm: tuple[int, int]
    inch: tuple[int, int]
    inside: int = 0
    """How many of them stand inside a template."""


@dataclass(frozen=True, slots=True, eq=False)
class Sheet:
    """A virtual sheet; one is the same as another only where it is the same object."""

    grid: TileGrid
    laid: tuple[PackedItem, ...] = ()
    tiles: frozenset[Tile] = frozenset()
    """Pages that are printed."""
    squares: dict[Tile, Squares] = field(default_factory=dict)
    length: float = 0.0
    """mm of a roll that are used, where that is known already."""


@dataclass(slots=True)
class SheetCells:
    """The cells of a sheet, as rows of bits from below."""

    filled: list[int]
    """Cells that nothing more may cover."""
    ink: list[int]
    """Cells with lines."""

    @classmethod
    def of(cls, sheet: Sheet) -> Self:
        """With all that lies on a sheet, its check squares too."""
        cells = cls([0] * sheet.grid.height, [0] * sheet.grid.height)
        for one in sheet.laid:
            cells.lay(one)
        for squares in sheet.squares.values():
            cells.block(SQUARE_ROOM, squares.mm)
            cells.block(SQUARE_ROOM, squares.inch)
        return cells

    def lay(self, laid: PackedItem) -> None:
        """Cover what a template takes."""
        mask = laid.turned.mask
        put(self.filled, mask, laid.x, laid.y)
        put(self.ink, Mask(mask.width, laid.turned.ink), laid.x, laid.y)

    def block(self, mask: Mask, at: tuple[int, int]) -> None:
        """Keep lines and templates off."""
        put(self.filled, mask, *at)
        put(self.ink, mask, *at)


def length_used(sheet: Sheet) -> float:
    """mm from the foot of the window to the top of what lies on it."""
    tops = [laid.y + laid.turned.mask.height for laid in sheet.laid]
    tops += [max(one.mm[1], one.inch[1]) + SQUARE for one in sheet.squares.values()]
    return max(tops, default=0) * CELL
