"""Start, end, breaks and days of a class by the clock, in → minutes."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from guidegen.app.commands.people.when import WhenTold
from guidegen.app.measured.bodies import stop_on_errors
from guidegen.buildfile.read.people.class_days import (
    MOST_DAYS,
    MOST_LETTERS,
    ClockSpan,
    ToldDay,
    clock_minutes,
    clock_span,
    day_name,
    read_class_days,
)
from guidegen.errors import UsageError
from guidegen.layout.class_hours import ClassDay
from guidegen.layout.hours import DAY, Span
from guidegen.problems import Problem, collect, did_you_mean

USUAL_HOURS, MOST_HOURS = 3.0, 100.0
"""Length of a class of which nothing is said, and at most: a course of weeks. Our choice."""


@dataclass(frozen=True, slots=True)
class When:
    """When a class is; minutes from its start."""

    hours: float
    """From the first minute to the last, breaks and nights included."""
    start: float | None = None
    """Minutes from midnight; None where nobody has said."""
    breaks: tuple[Span, ...] = ()
    days: tuple[ClassDay, ...] = ()
    """Of a class of several days."""


def when_told(told: WhenTold, names: Sequence[str]) -> When:
    """When a class is, from its options; `names` are those of its people, in their order.

    Raises UsageError for what is no time or contradicts itself, ContentError for a file of days
    that is wrong.
    """
    if not told.days and told.file is None:
        hours = class_hours(told.hours, told.start, told.end)
        start, breaks = class_clock(told.start, told.breaks, hours)
        return When(hours, start, breaks)
    if told.hours is not None or told.start or told.end:
        raise UsageError(
            "--day and --days say when the class is: leave --hours, --start, --end out"
        )
    if told.days and told.file is not None:
        raise UsageError("--day and --days both say when the class is: leave one of them out")
    if told.file is not None:
        if told.breaks:
            raise UsageError("--break: with --days FILE breaks stand in the file")
        found, problems = collect(read_class_days(told.file))
        stop_on_errors([*problems, *_unknown_away(found, names)])
    else:
        found = _days_of_options(told.days, told.breaks)
    return _placed(found, names)


def _days_of_options(days: Sequence[str], breaks: Iterable[str]) -> list[ToldDay]:
    """Days of options such as 'Saturday 9:30-16:00', each with the breaks that lie in it."""
    if len(days) > MOST_DAYS:
        raise UsageError(f"--day: {len(days)} days are too many for one class; at most {MOST_DAYS}")
    pauses: dict[str, ClockSpan] = {}
    for one in breaks:
        span = clock_span(one)
        if span is None:
            raise UsageError(f"--break {one}: expected two times such as 12:30-13:30")
        pauses[one] = span
    found = []
    used: set[str] = set()
    for number, written in enumerate(days, 1):
        name, _, clock = written.strip().rpartition(" ")
        hours = clock_span(clock)
        if hours is None:
            raise UsageError(f'--day {written}: expected a day such as "Saturday 9:30-16:00"')
        shown = day_name(name) if name.strip() else f"{number}"
        if not shown:
            raise UsageError(f"--day {written}: expected a name of at most {MOST_LETTERS} letters")
        inside = {one: span for one, span in pauses.items() if _lies_in(span, hours)}
        used |= set(inside)
        found.append(ToldDay(shown, hours, tuple(inside.values())))
    for one in pauses:
        if one not in used:
            raise UsageError(f"--break {one}: expected a break inside one of the days")
    return found


def _lies_in(span: ClockSpan, hours: ClockSpan) -> bool:
    first, last = ((minute - hours[0]) % DAY for minute in span)
    return 0 < first < last < (hours[1] - hours[0]) % DAY


def _placed(told: Sequence[ToldDay], names: Sequence[str]) -> When:
    """Days as minutes from the first start on."""
    begins = told[0].hours[0]
    days: list[ClassDay] = []
    breaks: list[Span] = []
    for number, one in enumerate(told):
        where = f"{one.place}: " if one.place else "--day: "
        first = told[0].date
        midnight = DAY * (number if one.date is None or first is None else one.date - first)
        start = midnight + one.hours[0] - begins
        end = start + (one.hours[1] - one.hours[0]) % DAY
        if any(one.name == other.name for other in days):
            raise UsageError(f"{where}two days are called {one.name}")
        if days and start < days[-1].end:
            raise UsageError(f"{where}{one.name} begins before {days[-1].name} has ended")
        inside = []
        for span in one.breaks:
            if not _lies_in(span, one.hours):
                raise UsageError(f"{where}{one.name}: a break lies outside the day")
            since = [start + (minute - one.hours[0]) % DAY for minute in span]
            inside.append((since[0], since[1]))
        inside.sort()
        if any(before[1] > after[0] for before, after in pairwise(inside)):
            raise UsageError(f"{where}{one.name}: two breaks overlap")
        breaks += inside
        gone = {away.name for away in one.away}
        numbers = frozenset(number for number, name in enumerate(names) if name in gone)
        days.append(ClassDay(start, end, one.name, numbers))
    for number, name in enumerate(names):
        if all(number in day.away for day in days):
            raise UsageError(f"{name} is away on all days: leave that name out")
    return When(days[-1].end / 60, begins, tuple(breaks), tuple(days) if len(days) > 1 else ())


def _unknown_away(told: Iterable[ToldDay], names: Sequence[str]) -> Iterator[Problem]:
    """Names of those away whom the class lacks, each with its own place."""
    for day in told:
        for away in day.away:
            if away.name not in names:
                message = f'nobody is called "{away.name[:40]}"{did_you_mean(away.name, names)}'
                yield Problem("unknown-name", away.place, away.path, message)


def class_hours(hours: float | None, start: str, end: str) -> float:
    """How many hours a class lasts: as told, or from its start to its end by the clock.

    An end before the start is on the next day. Raises UsageError for what is no length.
    """
    if not end:
        hours = USUAL_HOURS if hours is None else hours
        if not 0 < hours <= MOST_HOURS:
            raise UsageError(f"--hours {hours:g}: expected more than 0, at most {MOST_HOURS:g}")
        return hours
    if hours is not None:
        raise UsageError("--end and --hours both say how long the class is: leave one of them out")
    if not start:
        raise UsageError(f"--end {end}: tell when the class begins, such as --start 9:30")
    ends = _minutes(end, f"--end {end}: expected a time such as 17:00")
    begins = _minutes(start, f"--start {start}: expected a time such as 9:30")
    lasts = (ends - begins) % DAY
    if not lasts:
        raise UsageError(f"--end {end}: expected another time than that of --start")
    return lasts / 60


def class_clock(
    start: str, breaks: Iterable[str], hours: float
) -> tuple[float | None, tuple[Span, ...]]:
    """Minutes from midnight at which a class begins, and its breaks in minutes from then on.

    Raises UsageError for what is no time, and for breaks that overlap or lie outside the hours.
    """
    begins = _minutes(start, f"--start {start}: expected a time such as 9:30") if start else None
    found: list[Span] = []
    for written in breaks:
        expected = f"--break {written}: expected two times such as 12:30-13:30"
        first, _, last = written.partition("-")
        span = _minutes(first.strip(), expected), _minutes(last.strip(), expected)
        if begins is None:
            raise UsageError(f"--break {written}: tell when the class begins, such as --start 9:30")
        # What lies before the start by the clock is on the next day.
        since = [(minute - begins) % DAY for minute in span]
        if not 0 < since[0] < since[1] < hours * 60:
            raise UsageError(
                f"--break {written}: expected a break inside the class, which begins at {start} "
                f"and lasts {hours:g} h"
            )
        found.append((since[0], since[1]))
    found.sort()
    if any(one[1] > after[0] for one, after in pairwise(found)):
        raise UsageError("--break: two breaks overlap")
    return begins, tuple(found)


def _minutes(written: str, expected: str) -> float:
    minutes = clock_minutes(written) if written == written.strip() else None
    if minutes is None:
        raise UsageError(expected)
    return minutes
