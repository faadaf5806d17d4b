"""Placed outlines → the largest rectangle of a sheet that stays free."""

from itertools import pairwise
from math import ceil, floor

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.frames import Room
from guidegen.pictures.pen.hatches import crossings

LEAST_SIDE = 60.0
"""mm; a narrower offcut is not worth a note. Our choice: the length of a small ornament."""
CELLS = 160
"""Cells along the longer side: the answer is short by less than two cells a side."""
CLEAR = 3.0
"""mm kept between an offcut and the pieces, for the knife."""


def largest_offcut(outlines: list[list[Point]], width: float, height: float) -> Room | None:
    """The largest free level rectangle of a sheet of `width` by `height` mm.

    None where its shorter side is under `LEAST_SIDE`. It never reaches into an outline: every
    cell of a grid that an outline touches counts as taken.
    """
    cell = max(width, height) / CELLS
    # Rounded down: a cell that is cut off by the rim is no offcut.
    columns, rows = int(width / cell), int(height / cell)
    taken = [[False] * columns for _ in range(rows)]
    for points in outlines:
        _mark(taken, points, cell)
    best, found = 0, None
    heights = [0] * columns
    for row in range(rows):
        # How far each column is free downward from this row: every free rectangle has its top in
        # some row, and is then found as the widest under these heights.
        heights = [0 if taken[row][column] else heights[column] + 1 for column in range(columns)]
        for area, left, right, tall in _widest(heights):
            if area > best and min(right - left, tall) * cell >= LEAST_SIDE:
                best, found = area, (left, row + 1 - tall, right - left, tall)
    if found is None:
        return None
    column, row, across, up = found
    return (column * cell, row * cell, across * cell, up * cell)


def _mark(taken: list[list[bool]], points: list[Point], cell: float) -> None:
    """Mark every cell that an outline touches, or that lies within `CLEAR` of it.

    In a band between two levels, an outline covers the spans that its edges pass over there and
    the spans in which it meets the upper level; nothing else.
    """
    rows, columns = len(taken), len(taken[0])
    low, high = min(y for _, y in points) - CLEAR, max(y for _, y in points) + CLEAR
    for row in range(max(0, floor(low / cell)), min(rows, ceil(high / cell))):
        # The band is wider than the row by the knife's room, so that outlines just above or below
        # count.
        bottom, top = row * cell - CLEAR, (row + 1) * cell + CLEAR
        cuts = crossings([points], top)
        spans = list(zip(cuts[::2], cuts[1::2], strict=False))
        spans += _edge_spans(points, bottom, top)
        for left, right in spans:
            first = max(0, floor((left - CLEAR) / cell))
            last = min(columns, ceil((right + CLEAR) / cell))
            for column in range(first, last):
                taken[row][column] = True


def _edge_spans(points: list[Point], bottom: float, top: float) -> list[tuple[float, float]]:
    """For every edge, the x that it passes over between two levels."""
    spans = []
    for (x0, y0), (x1, y1) in pairwise([*points, points[0]]):
        if max(y0, y1) < bottom or min(y0, y1) > top:
            continue
        if y0 == y1:
            spans.append((min(x0, x1), max(x0, x1)))
            continue
        ends = [
            x0 + (x1 - x0) * min(1.0, max(0.0, (level - y0) / (y1 - y0))) for level in (bottom, top)
        ]
        spans.append((min(ends), max(ends)))
    return spans


def _widest(heights: list[int]) -> list[tuple[int, int, int, int]]:
    """All maximal rectangles under a row of columns: area, left, right, height (a stack scan)."""
    found = []
    stack: list[tuple[int, int]] = []
    for column, tall in enumerate([*heights, 0]):
        start = column
        # A column lower than those before it ends their rectangles; the new one begins where the
        # last of these began. The 0 at the end closes all.
        while stack and stack[-1][1] >= tall:
            start, height = stack.pop()
            found.append(((column - start) * height, start, column, height))
        stack.append((start, tall))
    return found
