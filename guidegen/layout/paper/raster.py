"""Outlines in → rows of bits out: coarse, safe arithmetic of what lies on what.

Paper is packed and labels are placed on a grid of cells. A cell counts as covered where the
shape touches it at all, so that what is apart on the grid is apart on paper. A row is a Python
integer: bit 0 is the leftmost cell, and a row of any width is tested with one `&`.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from math import ceil, floor

from guidegen.geometry.outline.records import Point


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
    for points in lines:
        for (x0, y0), (x1, y1) in pairwise(points):
            low, high = min(y0, y1) - grow, max(y0, y1) + grow
            first = max(0, floor(low / cell))
            last = min(height - 1, floor(high / cell))
            for number in range(first, last + 1):
                a, b = _clip_to_band((x0, y0), (x1, y1), number * cell - grow, grow * 2 + cell)
                left = max(0, floor((a - grow) / cell))
                right = min(width, floor((b + grow) / cell) + 1)
                rows[number] |= span(left, right)
    return rows


def _clip_to_band(start: Point, end: Point, low: float, tall: float) -> tuple[float, float]:
    """Least and greatest x of the part of a segment that lies between `low` and `low + tall`."""
    (x0, y0), (x1, y1) = start, end
    if y0 > y1:
        x0, y0, x1, y1 = x1, y1, x0, y0
    rise = y1 - y0
    a, b = x0, x1
    if rise > 0:
        if y0 < low:
            a = x0 + (x1 - x0) * (low - y0) / rise
        if y1 > low + tall:
            b = x0 + (x1 - x0) * (low + tall - y0) / rise
    return (a, b) if a <= b else (b, a)


def _inside_spans(
    rings: Sequence[Sequence[Point]], cell: float, height: int
) -> Iterator[tuple[int, list[tuple[float, float]]]]:
    """For each row, where its middle line runs inside the rings."""
    crossings: list[list[float]] = [[] for _ in range(height)]
    for points in rings:
        for (x0, y0), (x1, y1) in zip(points, [*points[1:], points[0]], strict=True):
            if y0 == y1:
                continue
            low, high = min(y0, y1), max(y0, y1)
            first = max(0, ceil(low / cell - 0.5))
            last = min(height - 1, ceil(high / cell - 0.5) - 1)
            for number in range(first, last + 1):
                y = (number + 0.5) * cell
                crossings[number].append(x0 + (x1 - x0) * (y - y0) / (y1 - y0))
    for number, xs in enumerate(crossings):
        if xs:
            xs.sort()
            yield number, list(zip(xs[::2], xs[1::2], strict=False))


def runs_of(row: int) -> list[tuple[int, int]]:
    """First and last-plus-one of each unbroken stretch of bits."""
    found: list[tuple[int, int]] = []
    at = 0
    while row:
        gap = (row & -row).bit_length() - 1
        row >>= gap
        length = (~row & (row + 1)).bit_length() - 1
        found.append((at + gap, at + gap + length))
        row >>= length
        at += gap + length
    return found


def _spread_left(row: int, length: int) -> int:
    """Bit x is set where any of the bits x … x + length - 1 of `row` is."""
    done = 1
    while done * 2 <= length:
        row |= row >> done
        done *= 2
    return row | row >> (length - done)


class Fit:
    """Where a mask lies on a field and covers no set cell, row by row as it is asked for."""

    def __init__(self, field: Sequence[int], width: int, mask: Mask) -> None:
        self._field, self._mask = field, mask
        inside = width - mask.width + 1
        self.height = max(0, len(field) - mask.height + 1) if inside > 0 else 0
        """Rows of positions; none or fewer where the mask is too large."""
        self._whole = span(0, inside) if inside > 0 else 0
        self._spread: dict[tuple[int, int], int] = {}

    def row(self, y: int) -> int:
        """The free x positions at y, as bits."""
        blocked, whole, spread = 0, self._whole, self._spread
        for offset, runs in enumerate(self._mask.runs, y):
            row = self._field[offset]
            if not row:
                continue
            for first, length in runs:
                key = (offset, length)
                wide = spread.get(key)
                if wide is None:
                    wide = spread[key] = _spread_left(row, length)
                blocked |= wide >> first
            if blocked & whole == whole:
                return 0
        return whole & ~blocked


def free_places(field: Sequence[int], width: int, mask: Mask) -> list[int]:
    """All rows of a fit."""
    fit = Fit(field, width, mask)
    return [fit.row(y) for y in range(fit.height)]


def lowest_place(field: Sequence[int], width: int, mask: Mask) -> tuple[int, int] | None:
    """The lowest, then leftmost position (x, y) where `mask` covers no set cell."""
    fit = Fit(field, width, mask)
    for y in range(fit.height):
        row = fit.row(y)
        if row:
            return ((row & -row).bit_length() - 1, y)
    return None


def put(field: list[int], mask: Mask, x: int, y: int) -> None:
    """Cover the mask's cells on the field."""
    for offset, row in enumerate(mask.rows):
        field[y + offset] |= row << x


def nearest(places: Sequence[int], x: float, y: float) -> tuple[int, int] | None:
    """The free position nearest to (x, y); ties go to the lowest, then leftmost."""
    best: tuple[float, int, int] | None = None
    for py, row in enumerate(places):
        if not row or (best is not None and (py - y) ** 2 > best[0]):
            continue
        px = _nearest_bit(row, round(x))
        key = ((px - x) ** 2 + (py - y) ** 2, py, px)
        if best is None or key < best:
            best = key
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
