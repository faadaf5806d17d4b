"""Sheets of several pages and whole templates → the templates in what is free on the sheets out."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from guidegen.layout.paper.filling import Filling
from guidegen.layout.paper.items import PaperItem
from guidegen.layout.paper.raster import CellField, span
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
            self._open[id(sheet)] = sheet, Filling(_open_field(sheet), self.angles)
        return self._open[id(sheet)][1]


def _open_field(sheet: Sheet) -> CellField:
    """Cells that are free on exactly one printed page: elsewhere a template would be cut."""
    filled, shared = SheetCells.of(sheet).filled, sheet.grid.shared()
    rows = [row | blocked for row, blocked in zip(filled, shared, strict=True)]
    for tile in sheet.grid.tiles():
        if tile not in sheet.tiles:
            # Pages that are not printed have no paper for a template to lie on.
            left, bottom, right, top = sheet.grid.window(tile)
            for y in range(bottom, top):
                rows[y] |= span(left, right)
    return CellField(rows, sheet.grid.width)
