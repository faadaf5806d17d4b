"""Sheets of several pages and whole templates → the templates in what is free on the sheets out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Self

from guidegen.layout.paper.filling import Filling
from guidegen.layout.paper.items import PaperItem
from guidegen.layout.paper.raster import CellField, Mask, span
from guidegen.layout.paper.sheets import Sheet, SheetCells


@dataclass(frozen=True, slots=True)
class Gaps:
    """What is free on sheets, kept for further orders as long as sheets and templates live."""

    angles: Mapping[int, tuple[float, ...]]
    """degrees; at which an item may lie, by its identity."""
    _open: dict[int, tuple[Sheet, Filling]] = field(default_factory=dict)

    def fill(
        self, sheets: Sequence[Sheet], items: Sequence[PaperItem]
    ) -> tuple[list[Sheet], list[PaperItem]]:
        """The sheets with the items that go into their free space, in their order; and the rest."""
        filled: list[Sheet] = []
        waiting = list(items)
        for sheet in sheets:
            filling, waiting = self._start(sheet).add_all(waiting)
            filled.append(replace(sheet, laid=(*sheet.laid, *filling.laid)))
        return filled, waiting

    def _start(self, sheet: Sheet) -> Filling:
        if id(sheet) not in self._open:
            self._open[id(sheet)] = sheet, Filling(OpenPages.of(sheet), self.angles)
        return self._open[id(sheet)][1]


class OpenPages:
    """What each printed page of a sheet shows alone, for templates that lie whole on one of them.

    Page by page, since most have hardly any room left, and a template that is laid on one leaves
    the others as they are.
    """

    __slots__ = ("_pages",)

    def __init__(self, pages: Sequence["_OpenPage"]) -> None:
        self._pages = pages

    @classmethod
    def of(cls, sheet: Sheet) -> Self:
        """The pages of a sheet, the lowest first, then from the left."""
        grid, filled = sheet.grid, SheetCells.of(sheet).filled
        pages = []
        for tile in sorted(sheet.tiles, key=lambda tile: (tile[1], tile[0])):
            left, low, right, high = grid.alone(tile)
            if not grid.overlap:
                # Edge to edge no cell is shared, and a template could lie across the join: the
                # last cells before it are kept free.
                right -= tile[0] < grid.columns - 1
                high -= tile[1] < grid.rows - 1
            window = span(0, right - left)
            rows = [row >> left & window for row in filled[low:high]]
            pages.append(_OpenPage(left, low, CellField(rows, right - left)))
        return cls(pages)

    @property
    def most_free(self) -> int:
        """Free cells of the page that has most of them."""
        return max((page.cells.most_free for page in self._pages), default=0)

    def lowest(self, mask: Mask) -> tuple[int, int] | None:
        """The lowest, then leftmost position (x, y) on the sheet where a mask has room."""
        best: tuple[int, int] | None = None
        for page in self._pages:
            # Pages of a row higher up have nothing lower.
            if best and page.low > best[1]:
                break
            spot = page.lowest(mask)
            if spot and (best is None or (spot[1], spot[0]) < (best[1], best[0])):
                best = spot
        return best

    def with_mask(self, mask: Mask, x: int, y: int) -> "OpenPages":
        """The same with the mask's cells covered as well."""
        return OpenPages(
            [page.with_mask(mask, x, y) if page.holds(x, y) else page for page in self._pages]
        )


class _OpenPage:
    """What a page shows alone, its lower left on the sheet, and places that were found on it."""

    __slots__ = ("_lowest", "cells", "left", "low")

    def __init__(self, left: int, low: int, cells: CellField) -> None:
        self.left, self.low, self.cells = left, low, cells
        self._lowest: dict[int, tuple[int, int] | None] = {}

    def holds(self, x: int, y: int) -> bool:
        """Whether a cell of the sheet is one of its."""
        across, up = x - self.left, y - self.low
        return 0 <= across < self.cells.width and 0 <= up < self.cells.height

    def lowest(self, mask: Mask) -> tuple[int, int] | None:
        """As OpenPages has it. Masks are known by identity: they live as long as their items."""
        key = id(mask)
        if key not in self._lowest:
            spot = self.cells.lowest(mask) if mask.count <= self.cells.most_free else None
            self._lowest[key] = (spot[0] + self.left, spot[1] + self.low) if spot else None
        return self._lowest[key]

    def with_mask(self, mask: Mask, x: int, y: int) -> "_OpenPage":
        """The same with the mask's cells covered as well."""
        cells = self.cells.with_mask(mask, x - self.left, y - self.low)
        return _OpenPage(self.left, self.low, cells)
