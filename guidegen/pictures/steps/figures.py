"""Motions of the hands → small figures of the tool that does each, all in one style.

A figure stands on its working point, which is the origin, and works to the right; mm. Outlines
are continuous narrow lines (ISO 128-2, 01.1), what moves is told by an arrow of the accent colour.
The figures are our own.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import cos, radians, sin

from guidegen.buildfile.records.motions import Motion
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Arc, Line, Point, Run
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.dimensions import ARROW, arrow
from guidegen.pictures.pen.frames import Frame, polygon, polyline
from guidegen.pictures.pen.records import INK
from guidegen.pictures.pen.tints import ACCENT, PAPER

TOOL = Stroke(0.25)
"""Outline of a tool."""
WAY = Stroke(0.5, colour=ACCENT)
"""The way that something goes."""


@dataclass(frozen=True, slots=True)
class FigurePart:
    """A shape of a figure."""

    run: Run
    fill: str = ""
    """'paper' or 'ink' for a closed shape; empty for a line."""
    way: bool = False
    """True for a way, which ends in an arrowhead."""


type Figure = tuple[FigurePart, ...]


def _shape(*points: Point, fill: str = "paper") -> FigurePart:
    return FigurePart(polygon(list(points)), fill)


def _line(*points: Point) -> FigurePart:
    return FigurePart(polyline(list(points)))


def _way(*points: Point) -> FigurePart:
    return FigurePart(polyline(list(points)), way=True)


def _round(centre: Point, radius: float, fill: str = "paper") -> FigurePart:
    return FigurePart((Arc(centre, radius, 0, 360),), fill)


def _turn(centre: Point, radius: float, start: float, sweep: float) -> FigurePart:
    return FigurePart((Arc(centre, radius, start, sweep),), way=True)


_AHEAD = _way((1.2, -1.6), (8.2, -1.6))
"""Along the edge, to the right."""
_DOWN = _way((0, 8.4), (0, 3.6))

_KNIFE: Figure = (
    _shape((0, 0), (0.5, 2.9), (1.9, 2.2)),
    _shape((0.1, 3.3), (2.5, 2.1), (5.4, 7.2), (3.6, 8.2)),
)
_BRUSH: Figure = (
    _shape((0, 0), (2.7, 0.3), (2.9, 2.6), (0.9, 2.9), fill="ink"),
    _shape((0.8, 2.9), (3.0, 2.6), (3.2, 4.0), (1.3, 4.4)),
    _shape((1.8, 4.3), (2.8, 4.1), (4.8, 8.4), (4.1, 8.7)),
)
_NOZZLE: Figure = (
    _shape((1.4, 3.4), (3.4, 3.4), (3.8, 6.0), (8.0, 6.0), (8.0, 8.2), (1.0, 8.2), (1.0, 6.0)),
    _line((1.2, 2.8), (0.8, 2.1), (1.4, 1.4), (1.0, 0.6)),
    _line((2.4, 2.8), (2.0, 2.1), (2.6, 1.4), (2.2, 0.6)),
    _line((3.6, 2.8), (3.2, 2.1), (3.8, 1.4), (3.4, 0.6)),
)
_PUNCH: Figure = (
    _shape((-1, -1), (1, -1), (1, 3), (-1, 3)),
    _shape((-1.7, 3), (1.7, 3), (1.7, 6.4), (-1.7, 6.4)),
    _way((3.4, 6.6), (3.4, 1.2)),
)
_STAMP: Figure = (
    _shape((-3.4, 0), (3.4, 0), (3.4, 1.4), (-3.4, 1.4), fill="ink"),
    _DOWN,
    _way((-2.4, 7.4), (-2.4, 3.6)),
    _way((2.4, 7.4), (2.4, 3.6)),
)
_HEAD: Figure = (
    _shape((-1.8, 0), (1.8, 0), (1.0, 1.2), (-1.0, 1.2), fill="ink"),
    _way((0, 6.6), (0, 2.0)),
)

FIGURES: Mapping[Motion, Figure] = {
    Motion.CUT: (*_KNIFE, _AHEAD),
    # A blade that stops half way through the foam.
    Motion.SCORE: (*_KNIFE, _line((-1.6, 0), (7.4, 0)), _line((-1.6, -0.8), (7.4, -0.8)), _AHEAD),
    Motion.GROOVE: (
        _line((-4, 0), (-1.6, 0), (0, -2.2), (1.6, 0), (4, 0)),
        *_KNIFE,
        _way((-4.6, 5.8), (-1.0, 0.8)),
    ),
    Motion.BEVEL: (
        _shape((-5, -2.4), (2.2, -2.4), (-0.4, 0), (-5, 0)),
        _shape((2.6, -2.8), (-0.9, 0.5), (-0.1, 1.3), (3.2, -1.8)),
        _shape((-0.6, 1.1), (-2.9, 4.9), (-1.7, 5.6), (0.3, 1.7)),
        _turn((2.2, -2.4), 5.4, 90, 38),
    ),
    Motion.PUNCH: (
        _shape((-5, -1.6), (-1, -1.6), (-1, 0), (-5, 0)),
        _shape((1, -1.6), (5, -1.6), (5, 0), (1, 0)),
        *_PUNCH,
        # The mallet that strikes it.
        _shape((-3.2, 6.8), (3.2, 6.8), (3.2, 9.2), (-3.2, 9.2), fill="ink"),
    ),
    Motion.BRUSH: (
        *_BRUSH,
        _line((-6, 0), (5, 0)),
        _way((-5.4, 1.2), (-0.6, 1.2)),
        _way((-0.6, 2.6), (-5.4, 2.6)),
    ),
    Motion.SPREAD: (
        _shape((0, 0), (3.4, 0.8), (3.0, 3.4), (1.6, 3.2), fill="ink"),
        _shape((1.7, 3.3), (3.0, 3.5), (4.4, 8.0), (3.4, 8.4)),
        _line((-6, 0.4), (-5, -0.3), (-4, 0.4), (-3, -0.3), (-2, 0.4), (-1, -0.3), (0, 0.2)),
        _way((-5.6, 2.2), (-0.8, 2.2)),
    ),
    Motion.JOIN: (
        _shape((-7, -1.6), (-0.5, -1.6), (-0.5, 1.6), (-7, 1.6)),
        _shape((0.5, -1.6), (7, -1.6), (7, 1.6), (0.5, 1.6)),
        _way((-6.4, 3.2), (-0.8, 3.2)),
        _way((6.4, 3.2), (0.8, 3.2)),
    ),
    Motion.PRESS: (_shape((-5, -1.8), (5, -1.8), (5, 0), (-5, 0)), *_STAMP),
    Motion.HEAT: (
        _shape((-3, -1.6), (8, -1.6), (8, -0.2), (-3, -0.2)),
        *_NOZZLE,
        _way((-5.0, 4.6), (-0.4, 4.6)),
    ),
    Motion.BEND: (
        # Before, and after: flat, then with its ends raised.
        _shape((-9, -0.6), (-2, -0.6), (-2, 0.6), (-9, 0.6)),
        _way((-1.4, 0), (2.0, 0)),
        _shape((2.6, 3.2), (6.0, -0.6), (9.4, 3.2), (8.5, 4.0), (6.0, 1.2), (3.5, 4.0)),
        _turn((-5.5, -1.5), 4.2, 35, 55),
        _turn((-5.5, -1.5), 4.2, 145, -55),
    ),
    Motion.ROLL: (
        _round((0, 1.7), 1.7),
        _round((0, 1.7), 0.4, "ink"),
        _line((0, 1.7), (3.4, 4.2), (2.6, 5.2)),
        _shape((2.0, 5.0), (3.0, 5.5), (5.2, 8.2), (4.2, 8.8)),
        _AHEAD,
    ),
    Motion.SAND: (
        _shape((-3, 0.5), (3, 0.5), (3, 2.8), (-3, 2.8)),
        _line((-3, 0), (-2, 0.5), (-1, 0), (0, 0.5), (1, 0), (2, 0.5), (3, 0)),
        _way((-0.3, 4.2), (-4.6, 4.2)),
        _way((0.3, 4.2), (4.6, 4.2)),
    ),
    Motion.FILL: (
        _shape((0, 0), (0.6, 1.6), (-0.1, 1.9), fill="ink"),
        _shape((-0.8, 2.2), (1.2, 1.4), (3.4, 6.6), (1.2, 7.6)),
        _line((2.3, 7.1), (3.2, 9.0)),
        _line((2.2, 9.4), (4.2, 8.6)),
        _AHEAD,
    ),
    Motion.PAINT: (
        _shape((-2.6, 0), (2.6, 0), (2.6, 2.0), (-2.6, 2.0), fill="ink"),
        _shape((-2.9, 2.0), (2.9, 2.0), (2.9, 3.4), (-2.9, 3.4)),
        _shape((-0.7, 3.4), (0.7, 3.4), (0.9, 8.4), (-0.9, 8.4)),
        _way((3.8, 1.0), (7.8, 1.0)),
    ),
    Motion.SPRAY: (
        _shape((4.2, 0.4), (7.4, 0.4), (7.4, 6.4), (4.2, 6.4)),
        _shape((5.0, 6.4), (6.6, 6.4), (6.6, 7.6), (5.0, 7.6), fill="ink"),
        *(
            _round(
                (4.0 - reach * cos(radians(turn)), 7.0 - reach * sin(radians(turn))), 0.22, "ink"
            )
            for reach in (1.4, 3.0, 4.6)
            for turn in (12, 30, 48, 66)
        ),
        _way((-3.0, 8.6), (3.2, 8.6)),
    ),
    Motion.STITCH: (
        _line((-8, 0), (-6.4, 0)),
        _line((-5.4, 0), (-3.8, 0)),
        _line((-2.8, 0), (-1.2, 0)),
        _shape((0, 0), (4.6, 2.9), (5.4, 3.9), (4.2, 3.5)),
        _line((4.8, 3.4), (3.4, 5.4), (0.2, 4.6), (-2.0, 5.8)),
        _AHEAD,
    ),
    Motion.RIVET: (
        _shape((-4.6, -1.2), (4.6, -1.2), (4.6, 0), (-4.6, 0)),
        _shape((-4.6, 0), (4.6, 0), (4.6, 1.2), (-4.6, 1.2)),
        _shape((-1.8, 1.2), (1.8, 1.2), (1.0, 2.2), (-1.0, 2.2), fill="ink"),
        _shape((-1.8, -1.2), (1.8, -1.2), (1.0, -2.2), (-1.0, -2.2), fill="ink"),
        _way((0, 7.6), (0, 3.0)),
        _way((0, -7.0), (0, -2.8)),
    ),
    Motion.MEASURE: (
        _shape((-7, 0), (7, 0), (7, 2.6), (-7, 2.6)),
        *(_line((x, 0), (x, 1.4 if x % 2 else 0.8)) for x in range(-6, 7)),
        _way((-0.4, 4.2), (-7, 4.2)),
        _way((0.4, 4.2), (7, 4.2)),
    ),
    Motion.MARK: (
        _shape((0, 0), (0.4, 1.6), (1.5, 1.0), fill="ink"),
        _shape((0.4, 1.6), (1.5, 1.0), (5.2, 7.2), (4.0, 7.9)),
        _AHEAD,
    ),
    Motion.DRY: (
        _round((0, 4.2), 3.6),
        _line((0, 6.6), (0, 4.2), (1.7, 3.2)),
        _turn((0, 4.2), 4.8, 100, -150),
    ),
}
"""What each motion looks like by itself, beside its words."""

ON_PIECES: Mapping[Motion, Figure] = {
    **FIGURES,
    Motion.PUNCH: _PUNCH,
    Motion.PRESS: _STAMP,
    Motion.HEAT: (*_NOZZLE, _way((-5.0, 4.6), (-0.4, 4.6))),
    # Hot air on the zone that bends, and the way that its sides go.
    Motion.BEND: (*_NOZZLE, _turn((1.6, -1.0), 4.6, 70, 70), _turn((1.6, 1.0), 4.6, -70, -70)),
    Motion.RIVET: _HEAD,
    # Which edges meet is told by arrows between them, or by nothing.
    Motion.JOIN: (),
}
"""The same on a piece, which is the foam itself."""


def extent(figure: Figure, frame: Frame) -> tuple[float, float, float, float]:
    """Left, low, right and high of a figure on a drawing, arrowheads with it; mm."""
    left, low, right, high = bounds(tuple(frame.run(part.run) for part in figure))
    # Over half of an arrowhead's width: heads lie on the runs, and their sides reach past them.
    return (left - 0.5, low - 0.5, right + 0.5, high + 0.5)


def draw_figure(canvas: Canvas, figure: Figure, frame: Frame) -> None:
    """Draw a figure where a frame puts it."""
    for part in figure:
        run = frame.run(part.run)
        if part.way:
            _draw_way(canvas, run)
        elif part.fill == "ink":
            canvas.path([run], None, fill=INK, css="arrow", closed=True)
        elif part.fill:
            canvas.path([run], TOOL, fill=PAPER, css="ink paper", closed=True)
        else:
            canvas.path([run], TOOL, css="ink")


def _draw_way(canvas: Canvas, run: Run) -> None:
    """A line, or an arc, with an arrowhead at its end, which the line stops short of."""
    last = run[-1]
    match last:
        case Line(start=start, end=end):
            length = ((end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2) ** 0.5 or 1.0
            way = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
            # The line ends inside the arrowhead, or its square end would show at the tip.
            tail = (end[0] - way[0] * ARROW * 0.8, end[1] - way[1] * ARROW * 0.8)
            canvas.path([(*run[:-1], Line(start, tail))], WAY, css="accent")
            arrow(canvas, end, way)
        case Arc(centre=centre, radius=radius, start_angle=start_angle, sweep=sweep):
            sign = 1.0 if sweep > 0 else -1.0
            turn = radians(start_angle + sweep)
            # The head is a chord of the arc: it leans inward by half the angle that it spans.
            lean = turn - sign * ARROW / radius / 2
            canvas.path([run], WAY, css="accent")
            tip = (centre[0] + radius * cos(turn), centre[1] + radius * sin(turn))
            arrow(canvas, tip, (-sin(lean) * sign, cos(lean) * sign))
