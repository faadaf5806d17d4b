"""What drawings of time share: an axis that squeezes long waits, bars, hatches, a key."""

from collections.abc import Sequence

from guidegen.layout.schedules import Schedule
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import Room, polygon, polyline
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.lettering import LEAST, text_width
from guidegen.pictures.pen.tints import FINE, NARROW, PAPER, SOFT
from guidegen.pictures.times.axis import Axis
from guidegen.quantities import clock_words, duration_words, tick_words

type DayTick = tuple[float, int]
"""Minute of a plan, and the number of its day from 1."""

WIDTH = 160.0
"""mm."""
LEFT, RIGHT = 27.0, 25.0
"""mm for the stages' names and for their hours."""
ROW = 7.2
"""mm from one stage to the next."""
BAR = 5.0
"""mm; height of a bar of work; a wait is drawn lower."""
HEAD, FOOT = 9.0, 15.0
"""mm above the rows for lengths of waits, below for hours and key."""
TICK_ROOM = 10.0
"""mm from one time below the axis to the next."""
IDLE_FILL = "#eef0f0"
"""Fill of a squeezed wait."""
WORK = "#37474d"
"""Fill of work: dark, so that it differs from a hatched wait in any print."""


def draw_grid(
    canvas: Canvas,
    axis: Axis,
    base: float,
    top: float,
    days: Sequence[DayTick] = (),
    *,
    start: float | None = None,
) -> None:
    """The axis with its hours, and squeezed waits with their length above; or with its days.

    `days` are minutes and numbers of the days of work, where the plan has days; `start` are minutes
    from midnight at which it begins, where hours are told by the clock.
    """
    canvas.line((LEFT, base), (WIDTH - RIGHT, base), NARROW, css="thin")
    _draw_squeezed(canvas, axis, base, top, tell=not days)
    if days:
        _draw_days(canvas, axis, base, days)
    else:
        _draw_hours(canvas, axis, base, start)


def day_ticks(plan: Schedule) -> tuple[DayTick, ...]:
    """The first work of each day, with the day's number; nothing for plans within one day."""
    if plan.hours is None or plan.days < 2:
        return ()
    first: dict[int, float] = {}
    for start in sorted(start for slot in plan.slots for start, _ in slot.spans):
        first.setdefault(plan.hours.day(start), start)
    return tuple((start, day) for day, start in first.items())


def _draw_days(canvas: Canvas, axis: Axis, base: float, days: Sequence[DayTick]) -> None:
    """Numbers of days where their work begins, as far as there is room."""
    free = -99.0
    for minute, day in days:
        x = axis.x(minute)
        canvas.line((x, base - 1.2), (x, base), NARROW, css="thin")
        half = text_width(str(day), LEAST) / 2
        if x - half > free:
            canvas.text((x, base - 4.4), str(day), LEAST, anchor="middle", css="label")
            free = x + half + 1.6
    words = canvas.lang.within("time", "day")
    canvas.text((1, base - 4.4), words, LEAST, colour=SOFT, css="label soft")


def _draw_squeezed(canvas: Canvas, axis: Axis, base: float, top: float, *, tell: bool) -> None:
    """Waits that are drawn shorter, with their length where it is to be told."""
    free = -99.0
    for stretch in axis.stretches:
        if not stretch.squeezed:
            continue
        # As wide as it is drawn, not as it lasts.
        width = stretch.x1 - stretch.x0
        canvas.rectangle(stretch.x0, base, width, top - base, None, fill=IDLE_FILL, css="idle")
        words = duration_words(stretch.end - stretch.start, canvas.lang)
        # Lengths of neighbours must not overlap: from the left, the first to fit wins.
        middle, half = (stretch.x0 + stretch.x1) / 2, text_width(words, LEAST) / 2
        if tell and middle - half > free:
            _write_soft(canvas, middle, top + 2.4, words)
            free = middle + half + 0.8
        _draw_gap(canvas, middle, base)
    if axis.squeezed and tell:
        canvas.text(
            (1, top + 2.4), canvas.lang.say("long waits"), LEAST, colour=SOFT, css="label soft"
        )


def _draw_hours(canvas: Canvas, axis: Axis, base: float, start: float | None) -> None:
    for minute in axis.ticks(TICK_ROOM):
        x = axis.x(minute)
        canvas.line((x, base - 1.2), (x, base), NARROW, css="thin")
        words = "0" if minute == 0 else tick_words(minute, canvas.lang)
        if start is not None:
            words = clock_words((start + minute) % 1440)
        canvas.text((x, base - 4.4), words, LEAST, anchor="middle", css="label")
    lang = canvas.lang
    said = lang.say("time since start") if start is None else lang.say("by the clock")
    canvas.text((1, base - 4.4), said, LEAST, colour=SOFT, css="label soft")


def _write_soft(canvas: Canvas, x: float, y: float, words: str) -> None:
    canvas.text((x, y), words, LEAST, anchor="middle", colour=SOFT, css="label soft")


def _corners(room: Room) -> list[tuple[float, float]]:
    x, y, width, height = room
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]


def _draw_gap(canvas: Canvas, x: float, base: float) -> None:
    """Two slanted strokes through the axis: time runs faster here."""
    # White first: between the strokes the axis itself is broken.
    canvas.rectangle(x - 0.7, base - 0.4, 1.4, 0.8, None, fill=PAPER, css="paper")
    for shift in (-0.7, 0.7):
        canvas.path(
            [polyline([(x + shift - 0.5, base - 1.2), (x + shift + 0.5, base + 1.2)])],
            NARROW,
            css="thin",
        )


def draw_wait(canvas: Canvas, left: float, right: float, middle: float) -> None:
    """A hatched bar of waiting, lower than one of work."""
    # Narrower than its own outline: it would be a dark stroke, as work is.
    if right - left < 0.2:
        return
    ring = polygon(_corners((left, middle - BAR * 0.3, right - left, BAR * 0.6)))
    # Paper under the hatch, or the grey of a squeezed stretch would show through.
    canvas.path([ring], None, fill=PAPER, css="paper", closed=True)
    canvas.path(hatch_lines((ring,), 60, 1.1), FINE, css="hatch")
    canvas.path([ring], Stroke(0.18, colour=SOFT), css="thin", closed=True)


def draw_key(canvas: Canvas, y: float, *, squeezed: bool, days: bool = False) -> None:
    """What the bars mean."""
    canvas.rectangle(LEFT, y, 9, 3.4, None, fill=WORK, css="work")
    canvas.text((LEFT + 11, y + 0.6), canvas.lang.within("time", "work"), 3.4, css="label")
    draw_wait(canvas, LEFT + 25, LEFT + 34, y + 1.7)
    canvas.text((LEFT + 36, y + 0.6), canvas.lang.within("time", "waiting"), 3.4, css="label")
    if squeezed:
        canvas.rectangle(LEFT + 54, y, 9, 3.4, None, fill=IDLE_FILL, css="idle")
        lang = canvas.lang
        words = lang.say("long wait, drawn shorter")
        if days:
            words = lang.say("night or long wait, drawn shorter")
        canvas.text((LEFT + 65, y + 0.6), words, 3.4, css="label")


def draw_work(canvas: Canvas, left: float, right: float, middle: float) -> None:
    """A bar of work; the shortest ones are still seen."""
    canvas.rectangle(
        left,
        middle - BAR / 2,
        max(0.5, right - left),
        BAR,
        Stroke(0.18, colour=PAPER),
        fill=WORK,
        css="work",
    )
