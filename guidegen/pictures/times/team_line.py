"""Plan of a team in → who works on which step when, and what dries meanwhile, out."""

from guidegen.buildfile.records.guide import Guide
from guidegen.layout.schedules import Schedule
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.lettering import CAP_HEIGHT, LEAST, text_width
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE, PAPER
from guidegen.pictures.times.axis import Axis, TimeSpan, make_axis
from guidegen.pictures.times.parts import (
    FOOT,
    HEAD,
    LEFT,
    RIGHT,
    ROW,
    WIDTH,
    day_ticks,
    draw_grid,
    draw_key,
    draw_wait,
    draw_work,
)
from guidegen.quantities import calendar_words, work_words
from guidegen.words import Words

SIZE = 3.8
"""mm; size of the names of rows."""


def draw_team_line(plan: Schedule, guide: Guide, lang: Words) -> Drawing:
    """A row for each person with the numbers of the steps, and one for what is left to dry.

    A step that takes two people stands in both rows. Long waits in which nobody works are squeezed.
    """
    spans = [span for slot in plan.slots for span in slot.spans]
    axis = make_axis(spans, plan.elapsed, LEFT, WIDTH - LEFT - RIGHT)
    base = STRIP + FOOT
    # One row more than people, at the foot, for what is left to dry.
    top = base + ROW * (plan.people + 1)
    canvas = Canvas(
        WIDTH,
        top + HEAD,
        lang.say("Time line for {count} people", count=plan.people),
        _describe(plan, guide, lang),
        lang,
    )
    days = day_ticks(plan)
    draw_grid(canvas, axis, base, top, days)
    numbers = {step.id: number for number, step in enumerate(guide.steps, 1)}
    for person in range(plan.people):
        slots = [slot for slot in plan.slots if person in slot.hands]
        y = top - ROW * (person + 1)
        name = lang.say("person {number}", number=person + 1)
        with canvas.group(css=f"person person-{person + 1}", title=name):
            _draw_head(canvas, y, name, sum(end - start for s in slots for start, end in s.spans))
            for slot in slots:
                # A step that a night parts has a bar on each day, and its number on both.
                for span in slot.spans:
                    _draw_span(canvas, axis, span, numbers[slot.step], y + ROW / 2)
    _draw_head(canvas, base, lang.say("drying"), 0)
    for start, end in _waits(plan):
        draw_wait(canvas, axis.x(start), axis.x(end), base + ROW / 2)
    draw_key(canvas, STRIP + 1.2, squeezed=axis.squeezed, days=bool(days))
    title_strip(canvas, _people(plan, lang), _times(plan, lang), None)
    return canvas.drawing()


def _draw_head(canvas: Canvas, y: float, name: str, minutes: float) -> None:
    canvas.line((0, y), (WIDTH, y), FINE, css="thin")
    base = y + ROW / 2 - SIZE * CAP_HEIGHT / 2
    canvas.text((1, base), name, SIZE, weight=600, css="label strong")
    if minutes:
        canvas.text(
            (WIDTH - 1, base),
            work_words(minutes, canvas.lang),
            SIZE,
            anchor="end",
            weight=600,
            css="dimension",
        )


def _draw_span(canvas: Canvas, axis: Axis, span: TimeSpan, number: int, middle: float) -> None:
    """A bar with the step's number, where it has room for it."""
    left, right = axis.x(span[0]), axis.x(span[1])
    draw_work(canvas, left, right, middle)
    words = str(number)
    # 0.4 mm at each side: figures that touch the rim of a dark bar are hard to read.
    if text_width(words, LEAST, 600) + 0.8 <= right - left:
        canvas.text(
            ((left + right) / 2, middle - LEAST * CAP_HEIGHT / 2),
            words,
            LEAST,
            anchor="middle",
            weight=600,
            colour=PAPER,
            css="on-work",
        )


def _waits(plan: Schedule) -> list[TimeSpan]:
    """Stretches in which something dries, those that touch made one."""
    spans = sorted((slot.end, slot.ready) for slot in plan.slots if slot.ready > slot.end)
    merged: list[TimeSpan] = []
    for start, end in spans:
        # Several things dry at once: one bar says that something does.
        if merged and start <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((start, end))
    return merged


def _people(plan: Schedule, lang: Words) -> str:
    return lang.many("{n} person", "{n} people", plan.people)


def _times(plan: Schedule, lang: Words) -> str:
    return lang.say(
        "{work} at the bench, {elapsed} from start to end",
        work=work_words(plan.busy, lang),
        elapsed=calendar_words(plan.days, plan.elapsed, lang),
    )


def _describe(plan: Schedule, guide: Guide, lang: Words) -> str:
    numbers = {step.id: number for number, step in enumerate(guide.steps, 1)}
    rows = "; ".join(
        lang.say(
            "person {number}: steps {list}",
            number=person + 1,
            list=", ".join(str(numbers[s.step]) for s in plan.slots if person in s.hands),
        )
        for person in range(plan.people)
    )
    return f"{_people(plan, lang)}, {_times(plan, lang)}; {rows}."
