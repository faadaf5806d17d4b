"""The teeth of a floor mat around what is cut from it."""

from math import ceil

from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.frames import polygon
from guidegen.pictures.pen.tints import FINE

MOST = 2.8
"""mm; a deeper rim is drawn no deeper than this, so that it keeps to the margin of a drawing."""
PITCH = 5.0
"""mm from tooth to tooth on the drawing, about. Our choice: mats have their own."""


def interlocks(stock: Stock | None, material: str) -> dict[str, float]:
    """mm that the teeth take on each side, by the name of the sheet; sheets without them left out.

    Teeth that cannot be worked out are left out too: the check of the stock tells of them.
    """
    found = {}
    known = stock.materials.get(material) if stock else None
    for sheet in known.sheets if known else ():
        try:
            teeth = sheet.interlock.value({})
        except ExpressionError:
            continue
        if teeth > 0:
            found[sheet.name] = teeth
    return found


def draw_interlock(canvas: Canvas, origin: Point, size: Point, depth: float) -> float:
    """Teeth around a rectangle of `size` mm at `origin`, `depth` mm deep on the drawing.

    Returns how deep they were drawn, 0 without teeth.
    """
    if depth <= 0:
        return 0.0
    depth = min(depth, MOST)
    (x, y), (width, height) = origin, size
    corners = [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
    points: list[Point] = []
    for number, start in enumerate(corners):
        points += _side(start, corners[(number + 1) % 4], depth)
    canvas.path([polygon(points)], FINE, css="hatch", closed=True)
    return depth


def _side(start: Point, end: Point, depth: float) -> list[Point]:
    """Dovetails along one side, to its right, counter-clockwise around the mat.

    They are wider at the tip than at the root, as on mats, which is what holds them together.
    """
    length = abs(end[0] - start[0]) + abs(end[1] - start[1])
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    # To the right of the way round, which is outside of a counter-clockwise rectangle.
    out = (along[1], -along[0])
    # A whole number on each side, so that corners come out alike.
    teeth = max(1, ceil(length / PITCH))
    pitch = length / teeth
    profile = ((0.3, 0.0), (0.2, 1.0), (0.8, 1.0), (0.7, 0.0))
    return [
        (
            start[0] + along[0] * (number + at) * pitch + out[0] * depth * up,
            start[1] + along[1] * (number + at) * pitch + out[1] * depth * up,
        )
        for number in range(teeth)
        for at, up in profile
    ]
