"""Rings → hatch lines inside them, worked out as plain lines.

SVG patterns are left out on purpose: not every PDF writer and cutter knows them.
"""

from math import ceil, cos, floor, radians, sin

from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Line, Point, Run
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.tints import Tint

MOST_LINES = 4000
"""Hatch lines in one region; a finer hatch is made coarser, so that no drawing grows for ever."""


def hatch_lines(
    rings: tuple[Run, ...], angle: float, spacing: float, shift: float = 0.0
) -> list[Run]:
    """Lines at `angle` degrees every `spacing` mm, cut to `rings` (even-odd rule).

    The lines of equal angle, spacing and `shift` meet across regions: they count from the origin.
    """
    turn = radians(angle)
    along, across = (cos(turn), sin(turn)), (-sin(turn), cos(turn))
    polygons = [
        [
            (x * along[0] + y * along[1], x * across[0] + y * across[1])
            for x, y in flatten(ring, 0.1)
        ]
        for ring in rings
    ]
    heights = [v for points in polygons for _, v in points]
    if not heights or spacing <= 0:
        return []
    # Turned so that hatch lines are level, each is one cut through the rings at its height.
    spacing = max(spacing, (max(heights) - min(heights)) / MOST_LINES)
    first = ceil((min(heights) - shift) / spacing)
    last = floor((max(heights) - shift) / spacing)

    def back(u: float, v: float) -> Point:
        return (u * along[0] + v * across[0], u * along[1] + v * across[1])

    lines: list[Run] = []
    for number in range(first, last + 1):
        # A hair off whole steps, so that no line runs along an edge.
        v = number * spacing + shift + 1e-6
        cuts = crossings(polygons, v)
        lines.extend(
            (Line(back(start, v), back(end, v)),)
            for start, end in zip(cuts[::2], cuts[1::2], strict=False)
            if end - start > 1e-3
        )
    return lines


def crossings(polygons: list[list[Point]], level: float) -> list[float]:
    """Sorted x where closed polygons cross the horizontal `level`; pairs bound the inside."""
    found: list[float] = []
    for points in polygons:
        for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
            # Half open: a corner on the level counts with the edge below it alone, so that cuts
            # come in pairs.
            if (y0 > level) != (y1 > level):
                found.append(x0 + (x1 - x0) * (level - y0) / (y1 - y0))
    return sorted(found)


def fill_tint(canvas: Canvas, rings: tuple[Run, ...], tint: Tint) -> None:
    """Fill `rings` with a tint and its hatch."""
    canvas.path(rings, None, fill=tint.fill, css=tint.css, closed=True)
    if tint.spacing:
        canvas.path(hatch_lines(rings, tint.angle, tint.spacing), tint.stroke, css="hatch")
