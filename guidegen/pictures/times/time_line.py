"""Time line in → work and waiting of every stage out, in different hatches."""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.buildfile.records.guide import Guide, Stage
from guidegen.layout.schedules import Schedule
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.lettering import CAP_HEIGHT
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE
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
from guidegen.quantities import calendar_words, duration_words, work_words
from guidegen.words import Words


@dataclass(frozen=True, slots=True)
class _Row:
    """One stage."""

    name: str
    work: tuple[TimeSpan, ...]
    waits: tuple[TimeSpan, ...]
    called: str = ""
    """What the site calls it; empty where it keeps its own name."""

    def said(self, lang: Words) -> str:
        """Its name for readers."""
        return self.called or lang.say(self.name)

    @property
    def minutes(self) -> float:
        """Hands-on time."""
        return sum(end - start for start, end in self.work)


def draw_time_line(
    time_line: Schedule, guide: Guide, lang: Words, called: Mapping[Stage, str] | None = None
) -> Drawing:
    """Stages over time: solid bars for work, hatched ones for waits; hours of work at the right.

    Long waits in which nobody works are squeezed and say their length above. `called` is what the
    site calls stages, where it has names of its own.
    """
    rows = _rows(time_line, guide, called or {})
    axis = make_axis(
        [span for row in rows for span in row.work],
        time_line.elapsed,
        LEFT,
        WIDTH - LEFT - RIGHT,
    )
    base = STRIP + FOOT
    top = base + ROW * len(rows)
    canvas = Canvas(
        WIDTH, top + HEAD, lang.say("Time line"), _describe(rows, time_line, lang), lang
    )
    days = day_ticks(time_line)
    draw_grid(canvas, axis, base, top, days)
    for number, row in enumerate(rows):
        _draw_row(canvas, row, axis, top - ROW * (number + 1))
    draw_key(canvas, STRIP + 1.2, squeezed=axis.squeezed, days=bool(days))
    total = lang.say("{elapsed} from start to end", elapsed=_elapsed(time_line, lang))
    work = lang.say("{time} of work", time=work_words(time_line.hands_on, lang))
    title_strip(canvas, work, total, None)
    return canvas.drawing()


def _rows(time_line: Schedule, guide: Guide, called: Mapping[Stage, str]) -> list[_Row]:
    """Stages in the order in which they begin."""
    stages = {step.id: step.stage.value for step in guide.steps}
    work: dict[str, list[TimeSpan]] = {}
    waits: dict[str, list[TimeSpan]] = {}
    for slot in time_line.slots:
        stage = stages[slot.step]
        work.setdefault(stage, []).extend(slot.spans)
        if slot.ready > slot.end:
            waits.setdefault(stage, []).append((slot.end, slot.ready))
    return [
        _Row(stage, tuple(spans), tuple(waits.get(stage, ())), called.get(Stage(stage), ""))
        for stage, spans in work.items()
    ]


def _draw_row(canvas: Canvas, row: _Row, axis: Axis, y: float) -> None:
    canvas.line((0, y), (WIDTH, y), FINE, css="thin")
    middle = y + ROW / 2
    size = 3.8
    drop = size * CAP_HEIGHT / 2
    said = row.said(canvas.lang)
    canvas.text((1, middle - drop), said, size, weight=600, css="label strong")
    with canvas.group(css=f"stage stage-{row.name}", title=said):
        # Waits first, so that work of the same stage lies over them.
        for start, end in row.waits:
            draw_wait(canvas, axis.x(start), axis.x(end), middle)
        for start, end in row.work:
            left, right = axis.x(start), axis.x(end)
            draw_work(canvas, left, right, middle)
    canvas.text(
        (WIDTH - 1, middle - drop),
        work_words(row.minutes, canvas.lang),
        size,
        anchor="end",
        weight=600,
        css="dimension",
    )


def _elapsed(time_line: Schedule, lang: Words) -> str:
    return calendar_words(time_line.days, time_line.elapsed, lang)


def _describe(rows: list[_Row], time_line: Schedule, lang: Words) -> str:
    stages = "; ".join(
        lang.say(
            "{stage} {work} of work, {wait} of waiting",
            stage=row.said(lang),
            work=work_words(row.minutes, lang),
            wait=duration_words(sum(b - a for a, b in row.waits), lang),
        )
        if row.waits
        else lang.say(
            "{stage} {work} of work",
            stage=row.said(lang),
            work=work_words(row.minutes, lang),
        )
        for row in rows
    )
    return lang.say(
        "{work} of work in all, {elapsed} from start to end. By stage: {list}.",
        work=work_words(time_line.hands_on, lang),
        elapsed=_elapsed(time_line, lang),
        list=stages,
    )
