"""What is drawn on a page in → where words can stand without touching a line out."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import ceil, floor

from guidegen.geometry.outline.records import Point
from guidegen.layout.paper.raster import (
    CellField,
    cover_convex,
    cover_lines,
    cover_rings,
    nearest,
    runs_of,
    span,
)
from guidegen.pictures.pen.frames import Room

CELL = 1.25
"""mm; side of a cell for lettering. Our choice: half the least height of capitals."""

CLEAR = 0.8
"""mm kept free between words and lines."""


@dataclass
class LabelField:
    """Cells of a page's window that hold lines, templates or words."""

    width: float
    height: float
    """mm of the window."""
    ink: list[int] = field(default_factory=list)
    """Cells that no word may cover."""
    solid: list[int] = field(default_factory=list)
    """Cells of templates, edges included."""

    def __post_init__(self) -> None:
        self.columns = ceil(self.width / CELL)
        self.ink = self.ink or [0] * ceil(self.height / CELL)
        self.solid = self.solid or [0] * ceil(self.height / CELL)

    def add_lines(self, lines: Iterable[Sequence[Point]], grow: float = CLEAR) -> None:
        """Lines in window coordinates that words must keep off."""
        rows = cover_lines(lines, CELL, grow, self.columns, len(self.ink))
        self.ink = [old | new for old, new in zip(self.ink, rows, strict=True)]

    def add_area(self, rings: Sequence[Sequence[Point]]) -> list[int]:
        """The area of a template; returns its cells."""
        rows = cover_rings(rings, CELL, 0.0, self.columns, len(self.ink))
        self.solid = [old | new for old, new in zip(self.solid, rows, strict=True)]
        return rows

    def reserve(self, box: Room) -> None:
        """Keep a level rectangle free of words."""
        left, low, right, high = self._cells_of(box)
        for y in range(low, high):
            self.ink[y] |= span(left, right)

    def reserve_ring(self, ring: Sequence[Point]) -> None:
        """Keep a turned rectangle free of words."""
        for number, row in cover_convex(ring, CELL, self.columns, len(self.ink)):
            self.ink[number] |= row

    def is_free(self, ring: Sequence[Point], area: Sequence[int] | None = None) -> bool:
        """Whether a turned rectangle lies on the window, off all lines, and inside `area`."""
        xs, ys = [x for x, _ in ring], [y for _, y in ring]
        if min(xs) < 0 or min(ys) < 0 or max(xs) > self.width or max(ys) > self.height:
            return False
        for number, row in cover_convex(ring, CELL, self.columns, len(self.ink)):
            # One cell is enough: cells are covered where words touch them at all, so what is free
            # on the grid is free on paper.
            if row & self.ink[number] or (area is not None and row & ~area[number]):
                return False
        return True

    def off_templates(self) -> list[int]:
        """Cells that are on no template."""
        every = span(0, self.columns)
        return [every & ~row for row in self.solid]

    def crossings(self, start: Point, end: Point) -> int:
        """Marked cells that a level or an upright line runs over."""
        (left, right), (low, high) = (sorted(ends) for ends in zip(start, end, strict=True))
        stretch = span(max(0, floor(left / CELL)), min(self.columns, floor(right / CELL) + 1))
        rows = self.ink[max(0, floor(low / CELL)) : max(0, floor(high / CELL) + 1)]
        return sum((row & stretch).bit_count() for row in rows)

    def inside(self, area: Sequence[int]) -> "FreeRoom | None":
        """Free room inside `area`; None where there are no cells."""
        used = [number for number, row in enumerate(area) if row]
        if not used:
            return None
        # Only the box around the area is searched: a page has tens of thousands of cells, a
        # template some hundred.
        low, high = used[0], used[-1] + 1
        every = 0
        for row in area[low:high]:
            every |= row
        left, right = (every & -every).bit_length() - 1, every.bit_length()
        window = span(0, right - left)
        # Outside of the area counts as blocked.
        blocked = [
            (ink | ~cells) >> left & window
            for ink, cells in zip(self.ink[low:high], area[low:high], strict=True)
        ]
        return FreeRoom(left, low, CellField(blocked, right - left))

    def outside(self, region: Room) -> "FreeRoom | None":
        """Free room in `region` that is on no template; None where that is off the page."""
        left, low, right, high = self._cells_of(region)
        if left >= right or low >= high:
            return None
        window = span(0, right - left)
        blocked = [
            (ink | solid) >> left & window
            for ink, solid in zip(self.ink[low:high], self.solid[low:high], strict=True)
        ]
        return FreeRoom(left, low, CellField(blocked, right - left))

    def _cells_of(self, box: Room) -> tuple[int, int, int, int]:
        """Left, low, right and high end of the cells that a level rectangle touches."""
        left, bottom, width, height = box
        return (
            max(0, floor(left / CELL)),
            max(0, floor(bottom / CELL)),
            min(self.columns, ceil((left + width) / CELL)),
            min(len(self.ink), ceil((bottom + height) / CELL)),
        )


@dataclass(slots=True)
class FreeRoom:
    """The cells of a part of a page, for words of several sizes that may stand there."""

    left: int
    low: int
    """cells; its lower left on the page."""
    cells: CellField
    """What no word may cover in it."""
    _free: dict[tuple[int, int], list[int]] = field(default_factory=dict)

    def nearest(self, width: float, height: float, near: Point) -> Point | None:
        """Centre of free room of this size nearest to a point; None: no room."""
        across, up = ceil(width / CELL), ceil(height / CELL)
        # From the wish for the middle of the room to that for its lower left, in cells of the box.
        x = near[0] / CELL - across / 2 - self.left
        y = near[1] / CELL - up / 2 - self.low
        if (across, up) not in self._free:
            places = self.cells.free_rectangle(across, up)
            self._free[across, up] = self.cells.by_rows(places)
        spot = nearest(self._free[across, up], x, y)
        if spot is None:
            return None
        return (
            (spot[0] + self.left + across / 2) * CELL,
            (spot[1] + self.low + up / 2) * CELL,
        )


def middle_of(area: Sequence[int]) -> Point | None:
    """Centre of mass of cells in mm; None where there are none."""
    total, sum_x, sum_y = 0, 0.0, 0.0
    for y, row in enumerate(area):
        for first, last in runs_of(row):
            count = last - first
            total += count
            # Middle of a stretch of cells: its first and its last-plus-one, so the half cell is in
            # it.
            sum_x += count * (first + last) / 2
            sum_y += count * (y + 0.5)
    return (sum_x / total * CELL, sum_y / total * CELL) if total else None
