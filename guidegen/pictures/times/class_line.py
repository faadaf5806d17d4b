"""Time table of a class in → who works, dries and queues when, one row a person or a tool, out."""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.layout.class_hours import ClassDay
from guidegen.layout.schedules import Schedule
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import polygon
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.lettering import CAP_HEIGHT, LEAST, shorten, text_width
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE, PAPER, SOFT, WIDE
from guidegen.pictures.times.axis import Axis, TimeSpan, make_axis
from guidegen.pictures.times.class_window import ClassWindow, class_window
from guidegen.pictures.times.parts import FOOT, HEAD, IDLE_FILL, LEFT, RIGHT, WIDTH, WORK, draw_grid
from guidegen.quantities import duration_words, work_words
from guidegen.words import Words

MOST_ROWS = 22
"""People on one drawing. Our choice: it fits a page with its heading."""
ROW = 6.4
"""mm from one row to the next."""
BAR = 4.6
"""mm; height of a bar."""
EVEN = 600.0
"""minutes up to which the clock runs evenly. Our choice: ten hours, the longest day."""
HELP = "#c9cfcd"
"""Fill of a hand that is lent: lighter than own work in any print."""


@dataclass(frozen=True, slots=True)
class _Bar:
    """Work, or a hand lent."""

    span: TimeSpan
    words: str
    own: bool


@dataclass(frozen=True, slots=True)
class _Row:
    """One person or tool."""

    name: str
    bars: tuple[_Bar, ...]
    drying: tuple[TimeSpan, ...] = ()
    queues: tuple[TimeSpan, ...] = ()

    def within(self, window: ClassWindow) -> "_Row":
        """What of it is in a window, in minutes from its first."""
        return _Row(
            self.name,
            tuple(
                _Bar(span, bar.words, own=bar.own)
                for bar in self.bars
                for span in window.cut((bar.span,))
            ),
            window.cut(self.drying),
            window.cut(self.queues),
        )

    @property
    def waited(self) -> float:
        """minutes of queueing."""
        return sum(end - start for start, end in self.queues)


def draw_class_lines(
    times: Schedule,
    names: Mapping[int, str],
    numbers: Mapping[str, int],
    hours: float,
    lang: Words,
    *,
    start: float | None = None,
    day: ClassDay | None = None,
) -> tuple[Drawing, ...]:
    """Drawings of at most `MOST_ROWS` people each: solid work with the number of its step, lighter
    a hand that is lent, and waits in two hatches: the own work dries, or a tool, a hand or the
    room is not free. `names` are the people by number, and after them adults without a kit,
    `numbers` the steps, `hours` those of the class; `start` is its first minute by the clock. With
    a `day` of several it is drawn alone.
    """
    rows = [_person_row(times, person, name, numbers) for person, name in names.items()]
    window = class_window(times, hours, start, day)
    return tuple(
        _draw(rows[first : first + MOST_ROWS], window, lang)
        for first in range(0, len(rows), MOST_ROWS)
    )


def draw_tool_lines(
    times: Schedule,
    tools: Mapping[str, str],
    hours: float,
    lang: Words,
    *,
    start: float | None = None,
    day: ClassDay | None = None,
) -> tuple[Drawing, ...]:
    """Who has which of the tools that people take turns with; `tools` are their names by id."""
    units: dict[tuple[str, int], list[_Bar]] = {}
    for slot in times.slots:
        for unit in slot.tools:
            bars = (_Bar(span, str(slot.kit + 1), own=True) for span in slot.spans)
            units.setdefault(unit, []).extend(bars)
    rows = [
        _Row(f"{number + 1}  {tools[tool]}", tuple(units[tool, number]))
        # In the order in which the tools are listed, so that drawing and list are read side by
        # side.
        for tool, number in sorted(units, key=lambda unit: (list(tools).index(unit[0]), unit[1]))
    ]
    window = class_window(times, hours, start, day)
    rows = [row for row in rows if row.within(window).bars]
    return tuple(
        _draw(rows[first : first + MOST_ROWS], window, lang, tool=True)
        for first in range(0, len(rows), MOST_ROWS)
    )


def _person_row(times: Schedule, person: int, name: str, numbers: Mapping[str, int]) -> _Row:
    bars = tuple(
        _Bar(span, str(numbers[slot.step]), own=slot.kit == person)
        for slot in times.of(person)
        for span in slot.spans
    )
    # Who has no kit neither dries nor queues: helpers wait until they are needed.
    idle = times.idle(person) if person < times.people else ()
    return _Row(
        f"{person + 1}  {name}" if person < times.people else name,
        bars,
        tuple((one.start, one.end) for one in idle if one.drying),
        tuple((one.start, one.end) for one in idle if not one.drying),
    )


def _draw(rows: list[_Row], window: ClassWindow, lang: Words, *, tool: bool = False) -> Drawing:
    rows = [row.within(window) for row in rows]
    # Up to the end of the class, so that one sees what is left of it; not over a whole weekend.
    until = max(window.end, min(window.close, window.end * 2)) or window.close
    # Within a day the clock runs evenly; over several days nights are squeezed.
    spans = list(window.busy) if until > EVEN else [(0.0, until)]
    axis = make_axis(spans, until, LEFT, WIDTH - LEFT - RIGHT)
    base = STRIP + FOOT + (0.0 if tool else 5.0)
    top = base + ROW * len(rows)
    title = lang.say("Who has which tool when") if tool else lang.say("Who does what when")
    if window.name:
        title = f"{window.name}: {title}"
    canvas = Canvas(WIDTH, top + HEAD, title, _describe(rows, window, lang), lang)
    for begins, ends in window.breaks:
        left, right = axis.x(begins), axis.x(ends)
        canvas.rectangle(left, base, right - left, top - base, None, fill=IDLE_FILL, css="idle")
        _write_break(canvas, (left + right) / 2, right - left, top + 1.4)
    draw_grid(canvas, axis, base, top, start=window.start)
    for number, row in enumerate(rows):
        _draw_row(canvas, row, axis, top - ROW * (number + 1), tool=tool)
    _draw_close(canvas, axis, window.close, base, top, window.end)
    if not tool:
        _draw_key(canvas, STRIP + 1.2)
    else:
        words = lang.say("Numbers in the bars are those of people.")
        canvas.text((LEFT, STRIP + 2), words, 3.4, css="label")
    end = lang.say("{elapsed} from start to end", elapsed=duration_words(window.end, lang))
    title_strip(canvas, f"{title}: {end}", "", None)
    return canvas.drawing()


def _write_break(canvas: Canvas, middle: float, width: float, y: float) -> None:
    words = canvas.lang.say("break")
    if text_width(words, LEAST) <= width:
        canvas.text((middle, y), words, LEAST, anchor="middle", colour=SOFT, css="label soft")


def _draw_row(canvas: Canvas, row: _Row, axis: Axis, y: float, *, tool: bool) -> None:
    canvas.line((0, y), (WIDTH, y), FINE, css="thin")
    middle = y + ROW / 2
    drop = 3.4 * CAP_HEIGHT / 2
    canvas.text((1, middle - drop), shorten(row.name, LEFT - 3, 3.4), 3.4, weight=600, css="label")
    for span in row.drying:
        _draw_hatched(canvas, axis, span, middle, 60, 1.1)
    for span in row.queues:
        _draw_hatched(canvas, axis, span, middle, 135, 2.2)
    # Waits first, bars over them: work that begins while glue dries hides the hatch, as it should.
    for bar in row.bars:
        left, right = axis.x(bar.span[0]), axis.x(bar.span[1])
        fill = WORK if bar.own else HELP
        edge = Stroke(0.25, colour=PAPER)
        width = max(0.5, right - left)
        canvas.rectangle(left, middle - BAR / 2, width, BAR, edge, fill=fill, css="work")
        if text_width(bar.words, LEAST) + 0.6 <= right - left:
            at = ((left + right) / 2, middle - LEAST * CAP_HEIGHT / 2)
            colour = PAPER if bar.own else "#1d2327"
            canvas.text(at, bar.words, LEAST, anchor="middle", colour=colour, css="label")
    if tool:
        busy = sum(bar.span[1] - bar.span[0] for bar in row.bars)
        words = work_words(busy, canvas.lang)
    elif row.waited >= 1:
        words = canvas.lang.say("queues {time}", time=work_words(row.waited, canvas.lang))
    else:
        words = ""
    if words:
        at = (WIDTH - 1, middle - LEAST * CAP_HEIGHT / 2)
        canvas.text(at, words, LEAST, anchor="end", css="dimension")


def _draw_hatched(  # noqa: PLR0917 - a bar and its hatch
    canvas: Canvas, axis: Axis, span: TimeSpan, middle: float, angle: float, spacing: float
) -> None:
    left, right = axis.x(span[0]), axis.x(span[1])
    if right - left >= 0.2:
        _draw_hatched_box(canvas, left, right, middle, angle, spacing)


def _draw_hatched_box(  # noqa: PLR0917 - a box and its hatch
    canvas: Canvas, left: float, right: float, middle: float, angle: float, spacing: float
) -> None:
    low, high = middle - BAR * 0.36, middle + BAR * 0.36
    ring = polygon([(left, low), (right, low), (right, high), (left, high)])
    canvas.path([ring], None, fill=PAPER, css="paper", closed=True)
    canvas.path(hatch_lines((ring,), angle, spacing), FINE, css="hatch")
    canvas.path([ring], Stroke(0.18, colour=SOFT), css="thin", closed=True)


def _draw_close(  # noqa: PLR0917 - where the hours end
    canvas: Canvas, axis: Axis, close: float, base: float, top: float, end: float
) -> None:
    """A strong line where the class's hours end, if work goes on after it or reaches it."""
    # Times are sums of parts of hours: a class that ends with its last work must not lose its line
    # to rounding.
    if close <= end + 1e-9 or axis.stretches[-1].end >= close:
        x = axis.x(close)
        canvas.line((x, base - 2), (x, top + 1.2), WIDE, css="outline")
        words = canvas.lang.say("end of the class")
        # To the left of it, so that it stays on the drawing.
        canvas.text((x + 1, top + 5.6), words, LEAST, anchor="middle", css="label strong")


def _draw_key(canvas: Canvas, y: float) -> None:
    """What the bars mean."""
    lang = canvas.lang
    upper = y + 5.2
    canvas.rectangle(LEFT, upper, 9, 3.4, None, fill=WORK, css="work")
    canvas.text((LEFT + 11, upper + 0.6), lang.say("work, with its step"), 3.4, css="label")
    canvas.rectangle(LEFT + 57, upper, 9, 3.4, None, fill=HELP, css="work")
    canvas.text((LEFT + 68, upper + 0.6), lang.say("lends a hand"), 3.4, css="label")
    _draw_hatched_box(canvas, LEFT, LEFT + 9, y + 1.7, 60, 1.1)
    canvas.text((LEFT + 11, y + 0.6), lang.say("the work dries or cools"), 3.4, css="label")
    _draw_hatched_box(canvas, LEFT + 57, LEFT + 66, y + 1.7, 135, 2.2)
    words = lang.say("queues for a tool, a hand or the room")
    canvas.text((LEFT + 68, y + 0.6), words, 3.4, css="label")


def _describe(rows: list[_Row], window: ClassWindow, lang: Words) -> str:
    queues = max((row.waited for row in rows), default=0.0)
    said = lang.say("Over after {elapsed}.", elapsed=duration_words(window.end, lang))
    if queues >= 1:
        more = lang.say("The longest queueing of a person: {time}.", time=work_words(queues, lang))
        said = f"{said} {more}"
    return said
