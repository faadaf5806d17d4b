"""People in two measurements, and what sizes serve in them → a chart of dots and boxes."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import ceil, floor

from guidegen.geometry.fit.records import SizeReach
from guidegen.geometry.outline.records import Line, Point, Run
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.lettering import CAP_HEIGHT, shorten, text_width
from guidegen.pictures.pen.linestyles import SIZE_CUTS
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE, PAPER, SOFT
from guidegen.words import Words

WIDTH = 160.0
PLOT = 104.0
"""mm; height of the field."""
LEFT, RIGHT, TOP = 16.0, 4.0, 4.0
BELOW = 22.0
"""mm for numbers, the name of the axis, and the key."""
LETTER = 3.6
MOST_DOTS = 1500
"""People that are drawn; of more an even choice. Our choice: more dots only blacken the field."""
DOT = Stroke(0.9, cap="round", colour="#8a9499")
CROSS = Stroke(0.25)
ARM = 0.7
"""mm; half the width of a cross."""
STEPS = (5, 10, 20, 25, 50, 100, 200, 250, 500, 1000)
"""mm between the numbers of an axis."""
GRID = Stroke(0.13, colour="#c4cbce")


@dataclass(frozen=True, slots=True)
class BodyDot:
    """One person in two measurements."""

    x: float
    y: float
    """mm."""
    served: bool
    """By all measurements that were compared, not by these two alone."""


@dataclass(frozen=True, slots=True)
class _Axis:
    """From mm of body to mm on the drawing."""

    least: float
    most: float
    start: float
    length: float

    def at(self, value: float) -> float:
        share = (value - self.least) / (self.most - self.least)
        return self.start + self.length * min(1.0, max(0.0, share))

    def ticks(self) -> list[float]:
        """Round values, at most nine."""
        span = self.most - self.least
        # Chosen: nine numbers of four digits have air between them on both axes.
        step = next((step for step in STEPS if span / step <= 9), ceil(span / 9))
        first = ceil(self.least / step)
        return [number * step for number in range(first, floor(self.most / step) + 1)]


def draw_reach(
    people: Sequence[BodyDot],
    sizes: Sequence[SizeReach],
    names: tuple[str, str],
    title: str,
    lang: Words,
) -> Drawing:
    """Dots for people who are served, crosses for others; a dashed box for each size.

    `names` are the two measurements, across and upward. The boxes have the dashes of the sizes in
    other drawings, and their names.
    """
    # Every so many-th, not a sample by chance: the same picture each time.
    shown = people[:: max(1, ceil(len(people) / MOST_DOTS))]
    height = STRIP + BELOW + PLOT + TOP
    canvas = Canvas(WIDTH, height, title, _describe(people, sizes, names, lang), lang)
    x, y = _axes(shown, sizes)
    _draw_grid(canvas, x, y, names)
    at = [(x.at(dot.x), y.at(dot.y)) for dot in shown]
    served = [point for point, dot in zip(at, shown, strict=True) if dot.served]
    others = [point for point, dot in zip(at, shown, strict=True) if not dot.served]
    canvas.path([_dot(point) for point in served], DOT, css="dot soft")
    canvas.path([run for point in others for run in _cross(point)], CROSS, css="ink")
    for number, size in enumerate(sizes):
        _draw_box(canvas, size, SIZE_CUTS[number % len(SIZE_CUTS)], x, y)
    # All boxes, then all names: each name has white behind it, which keeps lines off.
    for size in sizes:
        _name_box(canvas, size, x, y)
    _draw_key(canvas)
    words = lang.say("{across} across, {upward} upward", across=names[0], upward=names[1])
    if len(shown) < len(people):
        drawn = lang.say("{shown} of {all} people drawn", shown=len(shown), all=len(people))
        words += f"; {drawn}"
    title_strip(canvas, lang.say("Reach of the sizes"), words, None)
    return canvas.drawing()


def _axes(people: Sequence[BodyDot], sizes: Sequence[SizeReach]) -> tuple[_Axis, _Axis]:
    xs = [dot.x for dot in people] + [v for s in sizes for v in (s.least[0], s.most[0])]
    ys = [dot.y for dot in people] + [v for s in sizes for v in (s.least[1], s.most[1])]
    foot = STRIP + BELOW
    return _axis(xs, LEFT, WIDTH - LEFT - RIGHT), _axis(ys, foot, PLOT)


def _axis(values: list[float], start: float, length: float) -> _Axis:
    least, most = min(values), max(values)
    # Everybody at one value: an axis needs some length, or it would divide by nothing.
    margin = (most - least) * 0.03 or 10.0
    return _Axis(least - margin, most + margin, start, length)


def _draw_grid(canvas: Canvas, x: _Axis, y: _Axis, names: tuple[str, str]) -> None:
    foot, right = y.start, x.start + x.length
    for value in x.ticks():
        canvas.line((x.at(value), foot), (x.at(value), foot + y.length), GRID, css="grid")
        canvas.text((x.at(value), foot - 4.2), f"{value:g}", LETTER, anchor="middle", css="label")
    for value in y.ticks():
        canvas.line((x.start, y.at(value)), (right, y.at(value)), GRID, css="grid")
        level = y.at(value) - LETTER * CAP_HEIGHT / 2
        canvas.text((x.start - 1.6, level), f"{value:g}", LETTER, anchor="end", css="label")
    canvas.rectangle(x.start, foot, x.length, y.length, FINE, css="thin")
    canvas.text(
        (x.start + x.length / 2, foot - 9), f"{names[0]}, mm", LETTER, anchor="middle", weight=600,
        css="label",
    )  # fmt: skip
    canvas.text(
        (4, foot + y.length / 2), f"{names[1]}, mm", LETTER, anchor="middle", angle=90, weight=600,
        css="label",
    )  # fmt: skip


def _draw_box(canvas: Canvas, size: SizeReach, plain: Stroke, x: _Axis, y: _Axis) -> None:
    left, right = x.at(size.least[0]), x.at(size.most[0])
    low, high = y.at(size.least[1]), y.at(size.most[1])
    # Heavier than the dots, which boxes have to stand out from.
    stroke = Stroke(0.4, plain.dash)
    canvas.rectangle(left, low, right - left, high - low, stroke, css="ink")


def _name_box(canvas: Canvas, size: SizeReach, x: _Axis, y: _Axis) -> None:
    """The name in the box's upper left corner: the corner that no larger size's box covers."""
    width = text_width(size.size, LETTER, 600)
    left, high = x.at(size.least[0]) + 1, y.at(size.most[1]) - LETTER
    canvas.rectangle(left - 0.5, high - 0.6, width + 1, LETTER + 0.6, None, fill=PAPER, css="paper")
    canvas.text((left, high), size.size, LETTER, weight=600, css="label")


def _dot(point: Point) -> Run:
    # A line of no length has no round cap in some viewers, a thousandth of a mm has.
    return (Line(point, (point[0] + 0.001, point[1])),)


def _cross(point: Point) -> Iterator[Run]:
    x, y = point
    yield (Line((x - ARM, y - ARM), (x + ARM, y + ARM)),)
    yield (Line((x - ARM, y + ARM), (x + ARM, y - ARM)),)


def _draw_key(canvas: Canvas) -> None:
    y = STRIP + 4.0
    canvas.path([_dot((LEFT + 1, y + 1.2))], DOT, css="dot soft")
    served = canvas.lang.say("served")
    canvas.text((LEFT + 4, y), served, LETTER, css="label")
    x = LEFT + 10 + text_width(served, LETTER)
    canvas.path(list(_cross((x, y + 1.2))), CROSS, css="ink")
    words = canvas.lang.say("not served; inside a box, because another measurement is too far off")
    canvas.text((x + 3, y), shorten(words, WIDTH - x - 4, LETTER), LETTER, css="label", colour=SOFT)


def _describe(
    people: Sequence[BodyDot], sizes: Sequence[SizeReach], names: tuple[str, str], lang: Words
) -> str:
    boxes = "; ".join(
        lang.say(
            "size {size} from {left} to {right} mm across and from {low} to {high} mm upward",
            size=s.size,
            left=lang.number(s.least[0]),
            right=lang.number(s.most[0]),
            low=lang.number(s.least[1]),
            high=lang.number(s.most[1]),
        )
        for s in sizes
    )
    return lang.say(
        "{across} across and {upward} upward of {all} people, of whom {served} are served. "
        "Boxes: {boxes}.",
        across=names[0],
        upward=names[1],
        all=len(people),
        served=sum(dot.served for dot in people),
        boxes=boxes,
    )
