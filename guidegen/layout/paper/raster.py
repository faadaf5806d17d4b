"""Outlines in → rows of bits out: coarse, safe arithmetic of what lies on what.

Paper is packed and labels are placed on a grid of cells. A cell counts as covered where the
shape touches it at all, so that what is apart on the grid is apart on paper. A row is a Python
integer: bit 0 is the leftmost cell, and a row of any width is tested with one `&`. Where a mask is
tried at all places of a field, the whole field is one integer, its rows end to end (Field).
"""

from collections.abc import Iterable, Iterator, Sequence
from copy import copy
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import ceil, floor

from guidegen.geometry.outline.records import Point

LARGE_FIELD = 1 << 15
"""cells; larger fields than this keep no spread copies once a mask was laid on them: those of a
roll take half a megabyte. Our choice: three pages of a home printer."""


@dataclass(frozen=True)
class Mask:
    """Covered cells of a shape, its own lower left at the origin."""

    width: int
    rows: tuple[int, ...]
    """From the bottom."""

    @property
    def height(self) -> int:
        """Rows of cells."""
        return len(self.rows)

    @cached_property
    def count(self) -> int:
        """Covered cells."""
        return sum(row.bit_count() for row in self.rows)

    @cached_property
    def turned_about(self) -> tuple[int, ...]:
        """Its rows after half a turn."""
        return tuple(int(format(row, f"0{self.width}b")[::-1], 2) for row in reversed(self.rows))

    @cached_property
    def blocks(self) -> tuple[tuple[int, int, int, int], ...]:
        """Its cells as rectangles: left, low, width and height; the largest first."""
        found: list[tuple[int, int, int, int]] = []
        growing: dict[tuple[int, int], int] = {}
        for y, runs in enumerate((*self.runs, ())):
            # A rectangle ends at the first row that lacks its run; the empty last row ends all of
            # them.
            for run in [run for run in growing if run not in runs]:
                low = growing.pop(run)
                found.append((run[0], low, run[1], y - low))
            for run in runs:
                growing.setdefault(run, y)
        return tuple(sorted(found, key=lambda one: (-one[2] * one[3], one)))

    @cached_property
    def runs(self) -> tuple[tuple[tuple[int, int], ...], ...]:
        """For each row, start and length of its unbroken stretches."""
        return tuple(
            tuple((first, last - first) for first, last in runs_of(row)) for row in self.rows
        )


def span(first: int, last: int) -> int:
    """Bits from `first` up to and without `last`."""
    return ((1 << (last - first)) - 1) << first if last > first else 0


def block(width: int, height: int) -> Mask:
    """A full rectangle."""
    return Mask(width, (span(0, width),) * height)


def cover_rings(
    rings: Sequence[Sequence[Point]],
    cell: float,
    grow: float,
    width: int,
    height: int,
) -> list[int]:
    """Cells touched by the area inside closed rings (even-odd), grown by `grow` mm all round.

    The grid has its lower left at the origin of the rings' coordinates; what lies outside is
    left off. `grow` works along the axes, so a corner grows by up to 1.41 times as much.
    """
    # Lines first, then the inside: a sliver thinner than a cell may miss every row's middle line
    # and is still covered by its outline.
    rows = cover_lines(rings, cell, grow, width, height)
    for number, spans in _inside_spans(rings, cell, height):
        for x0, x1 in spans:
            first = max(0, floor((x0 - grow) / cell))
            last = min(width, ceil((x1 + grow) / cell))
            rows[number] |= span(first, last)
    return rows


def cover_lines(
    lines: Iterable[Sequence[Point]], cell: float, grow: float, width: int, height: int
) -> list[int]:
    """Cells touched by polylines, grown by `grow` mm along the axes."""
    rows = [0] * height
    tall = grow * 2 + cell
    for points in lines:
        for (x0, y0), (x1, y1) in pairwise(points):
            if y0 > y1:
                x0, y0, x1, y1 = x1, y1, x0, y0  # noqa: PLW2901 - the same line upward
            # Each row asks for the stretch of the line within grow of it, so that ends are grown
            # too. As `_clip_to_band` finds it, written out: half of all paper's arithmetic is here.
            first = max(0, floor((y0 - grow) / cell))
            last = min(height - 1, floor((y1 + grow) / cell))
            run, rise = x1 - x0, y1 - y0
            if not run:
                # Upright, and alike in all rows: frames of pages, ticks and rulers are such lines.
                left, right = floor((x0 - grow) / cell), floor((x0 + grow) / cell) + 1
                stretch = span(max(left, 0), min(right, width))
                for number in range(first, last + 1):
                    rows[number] |= stretch
                continue
            for number in range(first, last + 1):
                a, b, low = x0, x1, number * cell - grow
                if rise > 0:
                    if y0 < low:
                        a = x0 + run * (low - y0) / rise
                    if y1 > low + tall:
                        b = x0 + run * (low + tall - y0) / rise
                if a > b:
                    a, b = b, a
                left, right = floor((a - grow) / cell), floor((b + grow) / cell) + 1
                left, right = left if left > 0 else 0, right if right < width else width
                if right > left:
                    rows[number] |= ((1 << (right - left)) - 1) << left
    return rows


def cover_convex(
    ring: Sequence[Point], cell: float, width: int, height: int
) -> Iterator[tuple[int, int]]:
    """Cells touched by a convex area, as `cover_rings` has them: row number and bits, from below.

    A row of such an area is one stretch, from the leftmost to the rightmost point of its edges
    there. Rows come one by one, for those who stop at the first that is taken.
    """
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    first = max(0, floor(min(ys) / cell))
    last = min(height - 1, floor(max(ys) / cell))
    if len({*xs}) == len({*ys}) == 2 and len({*ring}) == 4:
        # Level, as most words are: alike in all rows.
        stretch = span(max(0, floor(min(xs) / cell)), min(width, floor(max(xs) / cell) + 1))
        for number in range(first, last + 1):
            yield number, stretch
        return
    edges = [(start, end) if start[1] <= end[1] else (end, start)
             for start, end in pairwise([*ring, ring[0]])]  # fmt: skip
    for number in range(first, last + 1):
        low = number * cell
        ends = [
            x
            for edge in edges
            if edge[0][1] <= low + cell and edge[1][1] >= low
            for x in _clip_to_band(*edge, low, cell)
        ]
        if ends:
            left = max(0, floor(min(ends) / cell))
            yield number, span(left, min(width, floor(max(ends) / cell) + 1))


def _clip_to_band(start: Point, end: Point, low: float, tall: float) -> tuple[float, float]:
    """Two x of the part of a rising segment that lies between `low` and `low + tall`."""
    (a, y0), (b, y1) = start, end
    run, rise = b - a, y1 - y0
    if rise > 0:
        x = a
        if y0 < low:
            a = x + run * (low - y0) / rise
        if y1 > low + tall:
            b = x + run * (low + tall - y0) / rise
    return (a, b)


def _inside_spans(
    rings: Sequence[Sequence[Point]], cell: float, height: int
) -> Iterator[tuple[int, list[tuple[float, float]]]]:
    """For each row, where its middle line runs inside the rings."""
    ys = [y for points in rings for _, y in points]
    if not ys:
        return
    # Rows of the rings alone: words are small, and a page has hundreds of rows.
    lowest = max(0, ceil(min(ys) / cell - 0.5))
    crossings: list[list[float]] = [[] for _ in range(lowest, min(height, ceil(max(ys) / cell)))]
    for points in rings:
        for (x0, y0), (x1, y1) in zip(points, [*points[1:], points[0]], strict=True):
            # Level edges cross no middle line; both their neighbours do or do not.
            if y0 == y1:
                continue
            low, high = min(y0, y1), max(y0, y1)
            # Half open, low end in and high end out: a corner on a middle line counts once.
            first = max(0, ceil(low / cell - 0.5))
            last = min(height - 1, ceil(high / cell - 0.5) - 1)
            for number in range(first, last + 1):
                y = (number + 0.5) * cell
                crossings[number - lowest].append(x0 + (x1 - x0) * (y - y0) / (y1 - y0))
    for number, xs in enumerate(crossings, lowest):
        if xs:
            xs.sort()
            yield number, list(zip(xs[::2], xs[1::2], strict=False))


def runs_of(row: int) -> list[tuple[int, int]]:
    """First and last-plus-one of each unbroken stretch of bits."""
    found: list[tuple[int, int]] = []
    at = 0
    while row:
        # The lowest set bit; below it the row is empty.
        gap = (row & -row).bit_length() - 1
        row >>= gap
        # Adding one carries through the run of ones and stops at the first free cell.
        length = (~row & (row + 1)).bit_length() - 1
        found.append((at + gap, at + gap + length))
        row >>= length
        at += gap + length
    return found


class CellField:
    """Cells as one integer: the cell at (x, y) is bit y * width + x, so that one shift moves all.

    A mask collides at a place where any of its rectangles does. Where a rectangle collides is told
    by four copies of the field in which each set cell is spread over a rectangle of powers of two:
    such copies are made once for all masks, each by one more shift of the one before.

    Spread cells run on into the row before; only places where a mask would stand out of the field
    at its right see them, and those are none.
    """

    def __init__(self, rows: Sequence[int], width: int) -> None:
        self.width, self.height = width, len(rows)
        self.stride = self.stride_of(width)
        """Bits from one row of places to the next."""
        # Rows are joined as bytes, which takes a fraction of the time of shifting each.
        joined = b"".join(row.to_bytes(self.stride // 8, "little") for row in rows)
        self._spread: dict[tuple[int, int], int] = {(0, 0): int.from_bytes(joined, "little")}

    @staticmethod
    def stride_of(width: int) -> int:
        """Bits from one row of places to the next: whole bytes, cut out without shifting."""
        return -(-width // 8) * 8

    @property
    def taken(self) -> int:
        """How many cells are set."""
        return self._spread[0, 0].bit_count()

    @property
    def most_free(self) -> int:
        """How many cells are not set."""
        return self.width * self.height - self.taken

    def with_mask(self, mask: Mask, x: int, y: int) -> "CellField":
        """The same field with the mask's cells covered as well."""
        size = self.stride // 8
        joined = b"".join(row.to_bytes(size, "little") for row in mask.rows)
        bits = int.from_bytes(joined, "little") << (y * self.stride + x)
        field = copy(self)
        field._spread = {(0, 0): self._spread[0, 0] | bits}
        if self.stride * self.height > LARGE_FIELD:
            # Who lays a mask goes on with the new field, and seldom asks this one again.
            self._spread = {(0, 0): self._spread[0, 0]}
        return field

    def places(self, width: int, height: int) -> int:
        """Where a rectangle lies inside the field: bit y * stride + x for its lower left."""
        across, up = self.width - width + 1, self.height - height + 1
        if across <= 0 or up <= 0:
            return 0
        return int.from_bytes(span(0, across).to_bytes(self.stride // 8, "little") * up, "little")

    def free(self, mask: Mask, places: int | None = None) -> int:
        """Those of `places`, of all inside the field, where a mask covers no set cell."""
        # Positions from which the mask stands out of the field see spread cells of the next row:
        # they are no places.
        places = self.places(mask.width, mask.height) if places is None else places
        for block in mask.blocks:
            if not places:
                return 0
            # As two steps on what is left: a complement would be as long as the whole field.
            places ^= places & self._blocked(*block)
        return places

    def free_rectangle(self, width: int, height: int) -> int:
        """Where a full rectangle covers no set cell, as `free` has it."""
        places = self.places(width, height)
        return places ^ (places & self._blocked(0, 0, width, height)) if places else 0

    def _blocked(self, left: int, low: int, wide: int, tall: int) -> int:
        """Places of a mask at which a rectangle of it covers a set cell."""
        shift = low * self.stride + left
        right, above = wide.bit_length() - 1, tall.bit_length() - 1
        spread = self._spread_over(right, above)
        # The last rectangle of powers of two ends where the block ends, whatever they share.
        more_right, more_up = wide - (1 << right), (tall - (1 << above)) * self.stride
        blocked = spread >> shift
        if more_right:
            blocked |= spread >> (shift + more_right)
        if more_up:
            blocked |= spread >> (shift + more_up)
            if more_right:
                blocked |= spread >> (shift + more_up + more_right)
        return blocked

    def lowest(self, mask: Mask) -> tuple[int, int] | None:
        """The lowest, then leftmost position (x, y) where `mask` covers no set cell."""
        free = self.free(mask)
        if not free:
            return None
        y, x = divmod((free & -free).bit_length() - 1, self.stride)
        return (x, y)

    def by_rows(self, places: int) -> list[int]:
        """What `free` gives, as the x positions of each y up to the last that has one."""
        size = self.stride // 8
        # As bytes, which takes a fraction of the time of shifting each row out.
        joined = places.to_bytes(-(-places.bit_length() // self.stride) * size, "little")
        return [
            int.from_bytes(joined[at : at + size], "little") for at in range(0, len(joined), size)
        ]

    def _spread_over(self, right: int, above: int) -> int:
        """Cell (x, y) is set where any cell of 2**right by 2**above ones, it lower left, is."""
        key = (right, above)
        if key not in self._spread:
            if right:
                before, step = self._spread_over(right - 1, above), 1 << (right - 1)
            else:
                before, step = self._spread_over(0, above - 1), self.stride << (above - 1)
            self._spread[key] = before | before >> step
        return self._spread[key]


def put(field: list[int], mask: Mask, x: int, y: int) -> None:
    """Cover the mask's cells on the field."""
    for offset, row in enumerate(mask.rows):
        field[y + offset] |= row << x


def nearest(places: Sequence[int], x: float, y: float) -> tuple[int, int] | None:
    """The free position nearest to (x, y); ties go to the lowest, then leftmost."""
    best: tuple[float, int, int] | None = None
    first = min(max(0, round(y)), len(places))
    # From the row of the wish upward, then downward.
    for rows in (range(first, len(places)), range(first - 1, -1, -1)):
        for py in rows:
            # Farther up or down than the best is away in all: no x from here on can be nearer.
            if best is not None and (py - y) ** 2 > best[0]:
                break
            if places[py]:
                px = _nearest_bit(places[py], round(x))
                key = ((px - x) ** 2 + (py - y) ** 2, py, px)
                best = min(best or key, key)
    return (best[2], best[1]) if best else None


def _nearest_bit(row: int, x: int) -> int:
    """Position of the set bit nearest to x; the left one of two equally near."""
    x = max(0, x)
    above = row >> x
    below = row & span(0, x)
    up = x + (above & -above).bit_length() - 1 if above else None
    down = below.bit_length() - 1 if below else None
    if up is None or (down is not None and x - down <= up - x):
        return down if down is not None else 0
    return up
