"""Check squares, page joins and check lines → strokes and words on a page."""

from collections.abc import Sequence

from guidegen.geometry.outline.records import Line, Point, Run
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.dimensions import arrow
from guidegen.pictures.pen.frames import polyline
from guidegen.pictures.pen.lettering import shorten, wrap
from guidegen.pictures.pen.linestyles import CHECK, TRIM
from guidegen.pictures.templates.checks import CheckLine
from guidegen.pictures.templates.joints import FIGURE, Joint, half_figure
from guidegen.pictures.templates.words import page_name
from guidegen.units import MM_PER_INCH, TEST_SQUARE_IN, TEST_SQUARE_MM, inch_text, mm_text
from guidegen.words import Words

FIGURE_STROKE = Stroke(0.35)
TICKS = Stroke(0.18)

GRADUATION = 2.0
"""mm; length of the strokes inside a check square."""


def draw_squares(canvas: Canvas, mm_square: Point, inch_square: Point) -> None:
    """The two check squares, each with words inside; corners are lower left, on the page."""
    for (x, y), side, step, head, words in (
        (
            mm_square,
            TEST_SQUARE_MM,
            10.0,
            "50 mm",
            canvas.lang.say(
                "Measure this square, line to line. If a side is not 50 mm, print again at 100 %."
            ),
        ),
        (
            inch_square,
            TEST_SQUARE_IN,
            MM_PER_INCH / 2,
            "2 in",
            canvas.lang.say(
                "Measure this square, line to line. If a side is not 2 in, print again at 100 %."
            ),
        ),
    ):
        canvas.rectangle(x, y, side, side, CHECK, css="check-square")
        canvas.path(_graduations(x, y, side, step), TICKS, css="check-square")
        middle = x + side / 2
        canvas.text((middle, y + side / 2 + 2), head, 9, anchor="middle", weight=600)
        for number, line in enumerate(wrap(words, side - 10, 3.4)):
            canvas.text((middle, y + side / 2 - 5 - 4.2 * number), line, 3.4, anchor="middle")
        warning = canvas.lang.say("check square: not a piece, do not cut")
        canvas.text((middle, y + 3.2), shorten(warning, side - 6, 3), 3, anchor="middle")


def _graduations(x: float, y: float, side: float, step: float) -> list[Run]:
    """Short strokes inside a check square, as on a ruler: it cannot be taken for a piece."""
    runs: list[Run] = []
    for number in range(1, round(side / step)):
        along = step * number
        for start, end in (
            ((x + along, y), (x + along, y + GRADUATION)),
            ((x + along, y + side), (x + along, y + side - GRADUATION)),
            ((x, y + along), (x + GRADUATION, y + along)),
            ((x + side, y + along), (x + side - GRADUATION, y + along)),
        ):
            runs.append((Line(start, end),))
    return runs


def draw_joint(canvas: Canvas, joint: Joint, dx: float, dy: float, *, second: bool) -> None:
    """One page's side of a joint; (dx, dy) is where the sheet's origin lies on the page."""

    def at(point: Point) -> Point:
        return (point[0] + dx, point[1] + dy)

    start, end = joint.ends()
    canvas.line(at(start), at(end), TRIM.stroke, css="line-trim")
    partner = f"{(joint.first if second else joint.second).number}"
    for along in joint.marks:
        lines = [
            line
            for scale in (FIGURE, FIGURE * 0.5)
            for line in half_figure(joint, along, second=second, scale=scale)
        ]
        canvas.path(
            [polyline([at(point) for point in line]) for line in lines],
            FIGURE_STROKE,
            css="register",
        )
        # The partner's number stands beside the half figure, on the same side of the match line.
        # 2.4 mm lie within the half of the overlap, which is 5.
        across = 2.4 if second else -2.4
        if joint.upright:
            canvas.text(
                at(joint.point(along + FIGURE + 1.0, across)),
                partner,
                3.6,
                anchor="middle",
                weight=700,
            )
        else:
            x, y = joint.point(along + FIGURE + 1.0, across)
            canvas.text(at((x, y - 1.26)), partner, 3.6, weight=700)
    if joint.words is not None:
        _draw_joint_words(canvas, joint, at(joint.point(joint.words, 0)), second)


def _draw_joint_words(canvas: Canvas, joint: Joint, middle: Point, second: bool) -> None:
    """What to do at the match line, in the part of the page that is covered or cut off."""
    if joint.butt:
        partner = page_name(joint.first if second else joint.second, canvas.lang)
        words = canvas.lang.say("meets {page}: cut along this line", page=partner)
        across = 3.4 if second else -1.0
    elif second:
        below = page_name(joint.first, canvas.lang)
        words = canvas.lang.say("cut the paper along this line, lay it on {page}", page=below)
        across = -1.0
    else:
        words = canvas.lang.say(
            "{page} is laid on here, up to this line", page=page_name(joint.second, canvas.lang)
        )
        across = 3.4
    # Words that read upward stand left of their base line: 3.4 mm to the right, letters of 3 mm
    # lie past the match line, where the other page covers them; 1 mm to the left they lie before
    # it, on the strip that is cut off. Edge to edge nothing is covered: each page has them on its
    # own side.
    x, y = middle
    if joint.upright:
        canvas.text((x + across, y), words, 3.0, anchor="middle", angle=90)
    else:
        canvas.text((x, y - across), words, 3.0, anchor="middle")


def draw_check_line(canvas: Canvas, line: CheckLine, dx: float, dy: float) -> None:
    """A long line with its true length."""
    start, end = ((x + dx, y + dy) for x, y in (line.start, line.end))
    level = abs(end[1] - start[1]) < 1e-9
    canvas.line(start, end, CHECK, css="check-line")
    for point, sign in ((start, -1.0), (end, 1.0)):
        arrow(canvas, point, (sign, 0.0) if level else (0.0, sign))
        if level:
            canvas.line((point[0], point[1] - 4), (point[0], point[1] + 4), CHECK)
        else:
            canvas.line((point[0] - 4, point[1]), (point[0] + 4, point[1]), CHECK)


def check_line_words(line: CheckLine, lang: Words) -> str:
    """Its length for both rulers."""
    lengths = {"mm": mm_text(line.length), "inches": inch_text(line.length)}
    if line.joined:
        return lang.say(
            "check line: {mm} mm ({inches} in) from end to end, once the pages are joined",
            **lengths,
        )
    return lang.say("check line: {mm} mm ({inches} in) from end to end", **lengths)


def square_rooms(corners: Sequence[tuple[Point, float]]) -> list[tuple[float, float, float, float]]:
    """Rectangles that words keep off: the squares with some air."""
    return [(x - 1.5, y - 1.5, side + 3, side + 3) for (x, y), side in corners]
