"""Lengths, angles and notes → dimension lines, leaders and bars in the manner of ISO 129-1.

Dimension lines are narrow with filled arrowheads; numbers stand above the line and read from the
bottom or from the right; where there is no room between, arrows and number go outside.
"""

from math import atan2, cos, degrees, hypot, radians, sin

from guidegen.geometry.outline.records import Arc, Line, Point
from guidegen.pictures.pen.canvas import INK, Canvas
from guidegen.pictures.pen.frames import polygon
from guidegen.pictures.pen.lettering import CAP_HEIGHT, LEAST, text_width
from guidegen.pictures.pen.tints import NARROW, PAPER, Tint
from guidegen.units import mm_text

ARROW = 2.4
"""mm; length of an arrowhead. About the height of the numbers, as usual on workshop drawings."""
GAP = 0.8
"""mm between a figure and its extension line."""
BEYOND = 1.2
"""mm by which an extension line runs past the dimension line."""
NUMBER = 3.6
"""mm; letter size of dimension numbers."""


def arrow(canvas: Canvas, tip: Point, direction: Point) -> None:
    """A filled arrowhead at `tip` that points in `direction` (a unit vector)."""
    dx, dy = direction
    base = (tip[0] - dx * ARROW, tip[1] - dy * ARROW)
    half = ARROW * 0.16
    points = [
        tip,
        (base[0] - dy * half, base[1] + dx * half),
        (base[0] + dy * half, base[1] - dx * half),
    ]
    canvas.path([polygon(points)], None, fill=INK, css="arrow", closed=True)


def dimension(
    canvas: Canvas,
    start: Point,
    end: Point,
    offset: float,
    value: float,
    *,
    digits: int = 0,
    size: float = NUMBER,
) -> None:
    """Dimension from `start` to `end`, its line `offset` mm to the left of that direction.

    A negative offset puts it to the right. `value` is the length in mm that it states, with up to
    `digits` decimals; `size` is that of its number, in mm.
    """
    length = hypot(end[0] - start[0], end[1] - start[1])
    # Both ends in one place: nothing to measure, and no direction to write along.
    if length < 1e-6:
        return
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    left = (-along[1], along[0])
    # Extension lines run on beyond the dimension line, away from the figure on either side.
    side = 1.0 if offset >= 0 else -1.0
    a = (start[0] + left[0] * offset, start[1] + left[1] * offset)
    b = (end[0] + left[0] * offset, end[1] + left[1] * offset)
    for foot, head in ((start, a), (end, b)):
        canvas.line(
            (foot[0] + left[0] * GAP * side, foot[1] + left[1] * GAP * side),
            (head[0] + left[0] * BEYOND * side, head[1] + left[1] * BEYOND * side),
            NARROW,
            css="thin",
        )
    # Two arrowheads and as much between them; less, and they would meet.
    _dimension_line(canvas, a, b, along, outside=length < 3 * ARROW)
    _write_number(canvas, (a, b), (left[0] * side, left[1] * side), value, digits=digits, size=size)


def _write_number(
    canvas: Canvas,
    line: tuple[Point, Point],
    away: Point,
    value: float,
    *,
    digits: int,
    size: float,
) -> None:
    """The number of a dimension line; `away` is the unit vector from the figure to the line."""
    a, b = line
    length = hypot(b[0] - a[0], b[1] - a[1])
    along = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
    centre = ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
    width = text_width(canvas.lang.number(value, digits), size, 600)
    # The number stands between the arrowheads, with half a mm of air at each.
    inside = width <= length - 2 * ARROW - 1
    if not inside and abs(along[1]) > abs(along[0]):
        # Beside an upright line there is room for a level number.
        way = 1.0 if away[0] > 0 else -1.0
        at = (centre[0] + way * 1.2, centre[1] - size * CAP_HEIGHT / 2)
        anchor = "start" if way > 0 else "end"
        canvas.length(at, value, size, digits=digits, anchor=anchor)
        return
    angle = _readable(degrees(atan2(along[1], along[0])))
    up = 0.9
    if not inside:
        # Past the arrowhead that points in from outside and its tail.
        reach = length / 2 + ARROW * 2 + 1 + width / 2
        centre = (centre[0] + along[0] * reach, centre[1] + along[1] * reach)
        up = -size * CAP_HEIGHT / 2
    turned = radians(angle)
    # Above the line as one reads it, whichever way the line itself runs.
    at = (centre[0] - sin(turned) * up, centre[1] + cos(turned) * up)
    canvas.length(at, value, size, digits=digits, angle=angle)


def _dimension_line(canvas: Canvas, a: Point, b: Point, along: Point, *, outside: bool) -> None:
    """The line with its two arrowheads, inside or pointing in from outside."""
    dx, dy = along
    if outside:
        tail = ARROW * 2
        canvas.line(
            (a[0] - dx * tail, a[1] - dy * tail),
            (b[0] + dx * tail, b[1] + dy * tail),
            NARROW,
            css="thin",
        )
        arrow(canvas, a, along)
        arrow(canvas, b, (-dx, -dy))
    else:
        canvas.line(a, b, NARROW, css="thin")
        arrow(canvas, a, (-dx, -dy))
        arrow(canvas, b, along)


def _readable(angle: float) -> float:
    """An angle at which words read from the bottom or from the right: over -90 to 90 degrees."""
    # The hair of 1e-6 keeps upright words reading from the right on every machine: 90 itself
    # stays, -90 is turned.
    angle = (angle + 180) % 360 - 180
    if angle > 90 + 1e-6:
        return angle - 180
    if angle <= -90 + 1e-6:
        return angle + 180
    return angle


def angle_dimension(
    canvas: Canvas,
    centre: Point,
    radius: float,
    span: tuple[float, float],
    words: str,
    *,
    size: float = NUMBER,
    aside: float = 1.0,
    ground: Tint | None = None,
) -> None:
    """Dimension arc of `radius` mm over `span` degrees around `centre`, `words` beyond the arc.

    A number that is wider than the arc stands beside it: after the end, or before the start
    where `aside` is negative; `ground` is laid under it there.
    """
    start, end = span
    canvas.path([(Arc(centre, radius, start, end - start),)], NARROW, css="thin")
    width = text_width(words, size, 600)
    length = radians(end - start) * radius
    # A shorter arc has no room for two arrowheads; the number beside it says enough.
    if length > 2.5 * ARROW:
        _arc_arrows(canvas, centre, radius, span)
    if length > width + 1:
        middle = radians((start + end) / 2)
        # Level words reach farther from an arc at its sides than at its top.
        reach = radius + 1.2 + abs(cos(middle)) * width / 2 + abs(sin(middle)) * size / 3
    else:
        middle = radians(end if aside > 0 else start) + aside * (width / 2 + 1.2) / radius
        reach = radius
    x, y = centre[0] + reach * cos(middle), centre[1] + reach * sin(middle)
    if ground is not None and length <= width + 1:
        high = size * CAP_HEIGHT + 1
        canvas.rectangle(
            x - width / 2 - 0.5, y - high / 2, width + 1, high, None,
            fill=ground.fill, css=ground.css,
        )  # fmt: skip
    at_point = (x, y - size * CAP_HEIGHT / 2)
    canvas.text(at_point, words, size, anchor="middle", weight=600, css="dimension")


def _arc_arrows(canvas: Canvas, centre: Point, radius: float, span: tuple[float, float]) -> None:
    """Arrowheads at both ends of a dimension arc."""
    for at, sign in zip(span, (-1.0, 1.0), strict=True):
        turn = radians(at)
        tip = (centre[0] + radius * cos(turn), centre[1] + radius * sin(turn))
        # The chord of an arrowhead leans inward by half the angle that it spans.
        lean = turn - sign * ARROW / radius / 2
        arrow(canvas, tip, (-sin(lean) * sign, cos(lean) * sign))


def leader(
    canvas: Canvas, tip: Point, shelf: Point, *, length: float = 3.0, dot: bool = True
) -> Point:
    """Leader line from `tip` to a level shelf; returns where words go, at mid-height.

    It ends in a dot on a face (ISO 128-22), in an arrow on an edge.
    """
    way = 1.0 if shelf[0] >= tip[0] else -1.0
    end = (shelf[0] + way * length, shelf[1])
    canvas.path([(Line(tip, shelf), Line(shelf, end))], NARROW, css="thin")
    if dot:
        canvas.circle(tip, 0.6, None, fill=INK, css="arrow")
    else:
        reach = hypot(tip[0] - shelf[0], tip[1] - shelf[1]) or 1.0
        arrow(canvas, tip, ((tip[0] - shelf[0]) / reach, (tip[1] - shelf[1]) / reach))
    return (end[0] + way * 1.0, end[1])


def scale_bar(
    canvas: Canvas,
    x: float,
    y: float,
    scale: float,
    length: float = 100.0,
    *,
    size: float = LEAST,
) -> None:
    """A bar that shows `length` mm of foam, in five fields; its left end at (x, y)."""
    field = length * scale / 5
    for number in range(5):
        fill = INK if number % 2 == 0 else PAPER
        css = "bar" if number % 2 == 0 else "bar-empty"
        canvas.rectangle(x + number * field, y, field, 1.4, NARROW, fill=fill, css=css)
    canvas.text((x, y + 2.4), "0", size, anchor="middle", css="label")
    canvas.text(
        (x + length * scale, y + 2.4), f"{mm_text(length)} mm", size, anchor="middle", css="label"
    )
