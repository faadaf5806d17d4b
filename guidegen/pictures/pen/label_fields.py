"""What is drawn on a page in → where words can stand without touching a line out."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from math import ceil, floor

from guidegen.geometry.outline.records import Point
from guidegen.layout.paper.raster import (
    block,
    cover_convex,
    cover_lines,
    cover_rings,
    free_places,
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
        left, bottom, width, height = box
        x0, y0 = max(0, floor(left / CELL)), max(0, floor(bottom / CELL))
        x1 = min(self.columns, ceil((left + width) / CELL))
        y1 = min(len(self.ink), ceil((bottom + height) / CELL))
        for y in range(y0, y1):
            self.ink[y] |= span(x0, x1)

    def reserve_ring(self, ring: Sequence[Point]) -> None:
        """Keep a turned rectangle free of words."""
        rows = cover_rings([ring], CELL, 0.0, self.columns, len(self.ink))
        self.ink = [old | new for old, new in zip(self.ink, rows, strict=True)]

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
        """Marked cells that a straight line runs over."""
        rows = cover_lines([(start, end)], CELL, 0.0, self.columns, len(self.ink))
        return sum((row & marked).bit_count() for row, marked in zip(rows, self.ink, strict=True))

    def inside(self, area: Sequence[int], width: float, height: float, near: Point) -> Point | None:
        """Centre of free room of this size inside `area`, nearest to a point; None: no room."""
        # Outside of the area counts as blocked; its complement is endless to the left, which the
        # window below cuts off.
        blocked = [ink | ~cells for ink, cells in zip(self.ink, area, strict=True)]
        return self._room(blocked, area, width, height, near)

    def outside(self, region: Room, width: float, height: float, near: Point) -> Point | None:
        """Centre of free room in `region` that is on no template, nearest to a point."""
        blocked = [ink | solid for ink, solid in zip(self.ink, self.solid, strict=True)]
        probe = LabelField(self.width, self.height)
        probe.reserve(region)
        return self._room(blocked, probe.ink, width, height, near)

    def _room(
        self,
        blocked: Sequence[int],
        area: Sequence[int],
        width: float,
        height: float,
        near: Point,
    ) -> Point | None:
        used = [number for number, row in enumerate(area) if row]
        if not used:
            return None
        # Only the box around the area is searched: a page has tens of thousands of cells, a
        # template some hundred.
        low, high = used[0], used[-1] + 1
        every = 0
        for row in area:
            every |= row
        left, right = (every & -every).bit_length() - 1, every.bit_length()
        room = block(ceil(width / CELL), ceil(height / CELL))
        if room.width > right - left or room.height > high - low:
            return None
        window = span(0, right - left)
        part = [(row >> left) & window for row in blocked[low:high]]
        # From the wish for the middle of the room to that for its lower left, in cells of the box.
        x = near[0] / CELL - room.width / 2 - left
        y = near[1] / CELL - room.height / 2 - low
        spot = nearest(free_places(part, right - left, room), x, y)
        if spot is None:
            return None
        return (
            (spot[0] + left + room.width / 2) * CELL,
            (spot[1] + low + room.height / 2) * CELL,
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
