"""Measurements in → a body from front and back out, with a numbered tape line for each."""

from collections.abc import Mapping
from math import hypot

from guidegen.buildfile.records.guide import Measurement
from guidegen.geometry.outline.measures import nearest_share
from guidegen.geometry.outline.records import Cubic, Line, Point, Run
from guidegen.pictures.bodies.body_outline import CROTCH, HALF, Tape, find_tape
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.lettering import CAP_HEIGHT, wrap
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.splines import smooth
from guidegen.pictures.pen.tints import ACCENT, FINE, PAPER, SOFT
from guidegen.words import Words

WIDTH = 160.0
"""mm."""
HEIGHT = 112.0
"""mm; a longer list makes the drawing higher."""
FRONT = Frame(1.0, 28, 6)
BACK = Frame(1.0, 86, 6)
ALONE = Frame(1.0, 56, 6)
"""Where the figures stand, 100 mm high; the front alone stands between."""
LIST = 114.0
"""mm; x of the list."""
BODY = "#eceeee"
"""Fill of the figure."""
TAPE = Stroke(0.6, colour=ACCENT, cap="round")
"""A tape line."""
BADGE = 2.4
"""mm; radius of a number's ring."""


def draw_body(measurements: Mapping[str, Measurement], prefix: str, lang: Words) -> Drawing | None:
    """Where each measurement is taken: numbered lines on a body, and the list of their names.

    Names that the figure does not know are listed without a line. The back is drawn only where
    something is measured there. Empty without measurements.
    """
    if not measurements:
        return None
    rows = [wrap(item.name, WIDTH - LIST - 9, 4, most=2) for item in measurements.values()]
    # The list decides how high the drawing is; the figures stand at its foot in their own size.
    list_height = sum(4.6 * len(row) + 2.4 for row in rows)
    height = max(HEIGHT, list_height + 10)
    tapes = {name: find_tape(name) for name in measurements}
    canvas = Canvas(
        WIDTH, height, lang.say("Where to measure"), _describe(measurements, tapes, lang), lang
    )
    both = any(tape and tape.view == "back" for tape in tapes.values())
    for view, frame in {"front": FRONT, "back": BACK}.items() if both else [("front", ALONE)]:
        with canvas.group(
            css=f"body body-{view}", id=f"{prefix}-body-{view}", title=_view(view, lang)
        ):
            _draw_figure(canvas, frame, view)
            for number, tape in enumerate(tapes.values(), 1):
                if tape and tape.view == view:
                    _draw_tape(canvas, tape, frame, number)
    _draw_list(canvas, rows, list(tapes.values()), height - 8)
    return canvas.drawing()


def _view(view: str, lang: Words) -> str:
    return lang.say("front") if view == "front" else lang.say("back")


def _draw_figure(canvas: Canvas, frame: Frame, view: str) -> None:
    """The outline, closed at the crotch, and a few strokes that tell front from back."""
    half = list(HALF)
    # The right half down, over the crotch, and its mirror image up; the crown stands in both.
    points = [*half, CROTCH, *((-x, y) for x, y in reversed(half[1:]))]
    outline = frame.run(smooth(points, tension=0.9))
    canvas.path([outline], Stroke(0.35, colour=SOFT), fill=BODY, css="body-outline", closed=True)
    strokes: list[list[Point]]
    if view == "front":
        strokes = [[(-2.2, 93.6), (-1.2, 93.6)], [(2.2, 93.6), (1.2, 93.6)],
                   [(-1.4, 89.6), (1.4, 89.6)],
                   [(-5.6, 81.6), (-1, 80.6)], [(5.6, 81.6), (1, 80.6)]]  # fmt: skip
    else:
        strokes = [[(-3.4, 78), (-4.4, 74.4), (-3.4, 71.6)], [(3.4, 78), (4.4, 74.4), (3.4, 71.6)],
                   [(0, 52), (0, 47.2)]]  # fmt: skip
    runs = [frame.run(smooth(points, closed=False)) for points in strokes]
    canvas.path(runs, FINE, css="thin")
    canvas.text(
        (frame.x, frame.y - 5),
        _view(view, canvas.lang),
        3.4,
        anchor="middle",
        colour=SOFT,
        css="label soft",
    )


def _draw_tape(canvas: Canvas, tape: Tape, frame: Frame, number: int) -> None:
    """A girth sags a little, like a tape seen from the front; a length has ticks at its ends."""
    start, end = frame.point(tape.start), frame.point(tape.end)
    canvas.path(_tape_runs(start, end, girth=tape.girth), TAPE, css="accent")
    x, y = frame.point(tape.badge)
    gap = _gap((x, y), start, end)
    if gap is not None:
        canvas.path([(Line((x, y), gap),)], Stroke(0.18, colour=ACCENT), css="accent")
    canvas.circle((x, y), BADGE, Stroke(0.3, colour=ACCENT), fill=PAPER, css="accent paper")
    canvas.text(
        (x, y - 3.6 * CAP_HEIGHT / 2), str(number), 3.6, anchor="middle", weight=600,
        css="label strong",
    )  # fmt: skip


def _tape_runs(start: Point, end: Point, *, girth: bool) -> list[Run]:
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy) or 1.0
    nx, ny = -dy / length, dx / length
    if girth:
        # Of the handles: a cubic goes three quarters of the way to them in its middle.
        sag = -min(1.1, length * 0.12) * 4 / 3
        return [
            (
                Cubic(
                    start,
                    (start[0] + dx / 4 + nx * sag, start[1] + dy / 4 + ny * sag),
                    (end[0] - dx / 4 + nx * sag, end[1] - dy / 4 + ny * sag),
                    end,
                ),
            )
        ]
    ticks: list[Run] = [
        (Line((x - nx * 1.3, y - ny * 1.3), (x + nx * 1.3, y + ny * 1.3)),) for x, y in (start, end)
    ]
    return [(Line(start, end),), *ticks]


def _gap(badge: Point, start: Point, end: Point) -> Point | None:
    """The nearest end of a tape, where its number stands away from it."""
    near = min((start, end), key=lambda point: hypot(point[0] - badge[0], point[1] - badge[1]))
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    # A number in the middle of its tape, or on it, needs no line that leads there.
    away = min(hypot(point[0] - badge[0], point[1] - badge[1]) for point in (near, middle))
    return near if away > BADGE * 1.2 and nearest_share(start, end, badge)[0] > BADGE else None


def _draw_list(canvas: Canvas, rows: list[list[str]], tapes: list[Tape | None], top: float) -> None:
    y = top
    for number, (row, tape) in enumerate(zip(rows, tapes, strict=True), 1):
        ring = Stroke(0.3, colour=ACCENT) if tape else None
        css = "accent paper" if tape else "paper"
        canvas.circle((LIST + 2.6, y + 1.3), BADGE, ring, fill=PAPER, css=css)
        canvas.text(
            (LIST + 2.6, y + 1.3 - 3.6 * CAP_HEIGHT / 2), str(number), 3.6, anchor="middle",
            weight=600, css="label strong",
        )  # fmt: skip
        for line in row:
            canvas.text((LIST + 7.4, y), line, 4, css="label")
            y -= 4.6
        y -= 2.4


def _describe(
    measurements: Mapping[str, Measurement], tapes: Mapping[str, Tape | None], lang: Words
) -> str:
    listed = []
    for number, (name, item) in enumerate(measurements.items(), 1):
        tape = tapes[name]
        if tape is None:
            where = lang.say("without a line")
        elif tape.girth:
            where = lang.say("around the body, {view}", view=_view(tape.view, lang))
        else:
            where = lang.say("along the body, {view}", view=_view(tape.view, lang))
        listed.append(f"{number} {item.name} ({where})")
    return lang.say("A body with numbered measurements: {list}.", list=", ".join(listed))
