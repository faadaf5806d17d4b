"""Shapes on a field of 100 by 100 → a safety sign of true proportions.

Colours are those of ISO 3864-4, in the screen approximation of their RAL numbers; they stay the
same in every theme, since they mean something.
"""

from dataclasses import dataclass, field
from math import cos, radians, sin

from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import Arc, Line, Point, Run
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import Frame, polygon, polyline

YELLOW = "#F9A800"
"""Signal yellow, RAL 1003."""
RED = "#9B2423"
"""Signal red, RAL 3001."""
BLUE = "#005387"
"""Signal blue, RAL 5005."""
BLACK = "#2B2B2C"
"""Signal black, RAL 9004."""
WHITE = "#FFFFFF"
"""White of the paper; RAL 9003 would print as a grey dot pattern."""

FIELD = 100.0
"""Units across a sign; symbols are drawn in these."""
SIDE = 24.0
"""mm; side of a sign's drawing. Themes show it at other sizes."""

CSS = {
    YELLOW: "sign-yellow",
    RED: "sign-red",
    BLUE: "sign-blue",
    BLACK: "sign-black",
    WHITE: "sign-white",
}
"""Class of each colour; a theme should leave them alone."""


@dataclass(frozen=True)
class SignPen:
    """Draws on a sign, y upward, in units of a hundredth of its side."""

    canvas: Canvas
    frame: Frame = field(default_factory=lambda: Frame(SIDE / FIELD))

    def fill(self, runs: list[Run], colour: str) -> None:
        """Fill closed runs; runs inside others make holes."""
        drawn = self.frame.runs(tuple(runs))
        self.canvas.path(drawn, None, fill=colour, css=CSS[colour], closed=True)

    def corners(self, points: list[Point], colour: str) -> None:
        """Fill a polygon."""
        self.fill([polygon(points)], colour)

    def disc(self, centre: Point, radius: float, colour: str) -> None:
        """Fill a circle."""
        self.canvas.circle(
            self.frame.point(centre),
            radius * abs(self.frame.scale),
            None,
            fill=colour,
            css=CSS[colour],
        )

    def limb(self, points: list[Point], width: float, colour: str) -> None:
        """A thick line with round ends through points."""
        self.stroke(polyline(points), width, colour)

    def stroke(self, run: Run, width: float, colour: str, *, cap: str = "round") -> None:
        """A thick line along a run."""
        stroke = Stroke(width * abs(self.frame.scale), colour=colour, cap=cap)
        self.canvas.path([self.frame.run(run)], stroke, css=f"{CSS[colour]}-line")

    def at(self, x: float, y: float, scale: float = 1.0, angle: float = 0.0) -> "SignPen":
        """A pen whose origin lies at (x, y), turned by `angle` degrees and scaled."""
        place = self.frame.point((x, y))
        return SignPen(self.canvas, Frame(self.frame.scale * scale, *place, angle))

    def mirrored(self, x: float, y: float, scale: float = 1.0, angle: float = 0.0) -> "SignPen":
        """Like `at`, mirrored across its y axis first."""
        place = self.frame.point((x, y))
        return SignPen(self.canvas, Frame(self.frame.scale * scale, *place, angle, flipped=True))


def ring(centre: Point, radius: float) -> Run:
    """A circle."""
    return (Arc(centre, radius, 0, 360),)


def oval(centre: Point, across: float, up: float) -> Run:
    """An ellipse of straight steps of 6 degrees: fine enough at the size of a sign."""
    return polygon(
        [
            (centre[0] + across * cos(radians(a)), centre[1] + up * sin(radians(a)))
            for a in range(0, 360, 6)
        ]
    )


def rounded(x: float, y: float, width: float, height: float, radius: float) -> Run:
    """A rectangle with round corners, its lower left corner at (x, y)."""
    r = radius
    right, top = x + width, y + height
    return (
        Line((x + r, y), (right - r, y)),
        Arc((right - r, y + r), r, -90, 90),
        Line((right, y + r), (right, top - r)),
        Arc((right - r, top - r), r, 0, 90),
        Line((right - r, top), (x + r, top)),
        Arc((x + r, top - r), r, 90, 90),
        Line((x, top - r), (x, y + r)),
        Arc((x + r, y + r), r, 180, 90),
    )


def rounded_triangle(inset: float, radius: float) -> Run:
    """The triangle of a warning sign, `inset` units inside the field, with round corners."""
    # An equilateral triangle loses 2 * sqrt(3) of its side for each unit that its sides move
    # inward.
    side = FIELD - 2 * inset * 3**0.5
    height = side * 3**0.5 / 2
    low = (FIELD - FIELD * 3**0.5 / 2) / 2 + inset
    # From a corner of 60 degrees the circle of a radius r has its middle 2 r away: r up and r *
    # sqrt(3) along.
    reach = radius * 3**0.5
    centres = [
        (50 - side / 2 + reach, low + radius),
        (50 + side / 2 - reach, low + radius),
        (50, low + height - 2 * radius),
    ]
    arcs = [Arc(centre, radius, 150 + 120 * n, 120) for n, centre in enumerate(centres)]
    run: list[Line | Arc] = []
    for arc, following in zip(arcs, arcs[1:] + arcs[:1], strict=True):
        run += [arc, Line(segment_end(arc), segment_start(following))]
    return tuple(run)
