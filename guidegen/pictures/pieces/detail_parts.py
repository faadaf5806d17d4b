"""What sections of edges and grooves share: hatched foam, break lines, words for both faces."""

from math import cos, radians, sin

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.frames import polygon, polyline
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.lettering import wrap
from guidegen.pictures.pen.tints import FINE, NARROW, SOFT, WIDE, Tint

WIDTH = 112.0
"""mm; a column of a page: lettering is 7.5 pt there, and larger wherever there is more room."""
FOAM = Tint("fill-foam-1", "#f1ede3")
"""Cut foam; the hatch is drawn apart, so that it can turn with a leg."""


def draw_cut_foam(canvas: Canvas, corners: list[Point], angle: float = 45.0) -> None:
    """Foam cut through: corners counter-clockwise, the side at the break line last."""
    ring = polygon(corners)
    canvas.path([ring], None, fill=FOAM.fill, css=FOAM.css, closed=True)
    canvas.path(hatch_lines((ring,), angle, 2.4), FINE, css="hatch")
    # Without the last side: foam goes on behind the break line.
    canvas.path([ring[:-1]], WIDE, css="ink")
    draw_break(canvas, corners[-1], corners[0])


def draw_break(canvas: Canvas, start: Point, end: Point) -> None:
    """A break line with one zigzag from start to end, 2 mm longer at both."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = (dx * dx + dy * dy) ** 0.5
    ux, uy = dx / length, dy / length

    def at(along: float, across: float) -> Point:
        return (start[0] + ux * along - uy * across, start[1] + uy * along + ux * across)

    half = length / 2
    points = [at(-2, 0), at(half - 2, 0), at(half - 0.8, 1.4), at(half + 0.8, -1.4),
              at(half + 2, 0), at(length + 2, 0)]  # fmt: skip
    canvas.path([polyline(points)], NARROW, css="thin")


def turned(points: list[Point], centre: Point, angle: float) -> list[Point]:
    """Points turned about a centre by degrees, counter-clockwise."""
    c, s = cos(radians(angle)), sin(radians(angle))
    return [
        (
            centre[0] + (x - centre[0]) * c - (y - centre[1]) * s,
            centre[1] + (x - centre[0]) * s + (y - centre[1]) * c,
        )
        for x, y in points
    ]


def write_face(canvas: Canvas, at: Point, words: str, anchor: str = "middle") -> None:
    """Words that name a face of the foam."""
    canvas.text(at, words, 3.6, anchor=anchor, colour=SOFT, css="label soft")


def write_lines(canvas: Canvas, x: float, y: float, lines: list[tuple[str, bool]]) -> None:
    """Short statements below one another from (x, y) downward, as wide as there is room; True
    makes one strong."""
    for words, strong in lines:
        size = 4.4 if strong else 3.6
        for line in wrap(words, WIDTH - x - 1, size, most=3):
            if strong:
                canvas.text((x, y), line, size, weight=600, css="label strong")
            else:
                canvas.text((x, y), line, size, css="label")
            y -= 5.0
