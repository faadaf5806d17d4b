"""A file of the days of a class in → when each begins and ends, with its breaks and who is away.

Saturday: 9:30-16:00
Sunday: {hours: 10:00-13:00, breaks: 11:30-11:45, away: Kim}
"""

import re
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from guidegen.buildfile.read.mapping_file import read_mapping
from guidegen.buildfile.read.people.listed import name_of
from guidegen.buildfile.yaml.tree import Source, Trail, Value, trail_text
from guidegen.problems import Checked, Place, did_you_mean

MOST_DAYS = 14
"""Our choice: two weeks, or a term of Saturdays."""
MOST_LETTERS = 20
"""Letters of a day's name. Our choice: what a column of times takes."""
CLOCK = re.compile(r"([01]?[0-9]|2[0-3]):([0-5][0-9])", re.ASCII)
KEYS = ("hours", "breaks", "away", "date")
EXPECTED = "days with their hours, such as Saturday: 9:30-16:00"

type ClockSpan = tuple[float, float]
"""Minutes from midnight; the second may be smaller, on the next day then."""


@dataclass(frozen=True, slots=True)
class ToldAway:
    """Somebody who is away on a day, as the file tells it."""

    name: str
    place: Place
    path: str
    """Where in the file, dotted: 'Sunday.away[0]'."""


@dataclass(frozen=True, slots=True)
class ToldDay:
    """A day of a class as it is told."""

    name: str
    hours: ClockSpan
    breaks: tuple[ClockSpan, ...] = ()
    away: tuple[ToldAway, ...] = ()
    date: int | None = None
    """Number of the day in the calendar; None where each day follows the one before."""
    place: Place | None = None
    """In a file; None for an option."""


def clock_minutes(written: str) -> float | None:
    """Minutes from midnight of a time such as 9:30; None where it is none."""
    clock = CLOCK.fullmatch(written.strip())
    return None if clock is None else int(clock[1]) * 60.0 + int(clock[2])


def clock_span(written: str) -> ClockSpan | None:
    """Minutes of two times such as 12:30-13:30; None where it is none, or they are the same."""
    first, _, last = written.partition("-")
    start, end = clock_minutes(first), clock_minutes(last)
    return None if start is None or end is None or start == end else (start, end)


def day_name(written: str) -> str:
    """A day's name with single spaces; empty where it is none, or too long."""
    shown = name_of(written)
    return "" if len(shown) > MOST_LETTERS else shown


def read_class_days(path: Path) -> Checked[list[ToldDay]]:
    """A YAML file of days by name, in their order."""
    value, source = yield from read_mapping(path, EXPECTED)
    if len(value) > MOST_DAYS:
        message = f"{len(value)} days are too many for one class; at most {MOST_DAYS}"
        yield source.problem("out-of-range", (), message)
        return []
    days: list[ToldDay] = []
    for name, given in value.items():
        day = yield from _read_day(name, given, source)
        if day is not None:
            days.append(day)
    dated = [day for day in days if day.date is not None]
    if dated and len(dated) < len(days):
        message = "some days have a date and some have none: give all a date, or none"
        yield source.problem("not-a-mapping", (), message)
    return days


def _read_day(name: str, given: Value, source: Source) -> Checked[ToldDay | None]:
    shown = day_name(name)
    if not shown:
        message = f"expected a name of at most {MOST_LETTERS} letters"
        yield source.problem("out-of-range", (name,), message, key=True)
        return None
    fields = given if isinstance(given, dict) else {"hours": given}
    for key in fields:
        if key not in KEYS:
            message = f'a day has no "{key[:40]}"{did_you_mean(key, KEYS)}'
            yield source.problem("unknown-name", (name, key), message, key=True)
    hours = clock_span(_written(fields.get("hours", "")))
    if hours is None:
        message = f"{shown}: expected two times such as 9:30-16:00"
        yield source.problem("out-of-range", (name,), message)
        return None
    breaks = []
    for written, trail in _list(fields.get("breaks"), (name, "breaks")):
        span = clock_span(written)
        if span is None:
            message = f"{shown}: expected breaks such as 12:30-13:30"
            yield source.problem("out-of-range", trail, message)
        else:
            breaks.append(span)
    on = None
    if "date" in fields:
        try:
            on = date.fromisoformat(_written(fields["date"])).toordinal()
        except ValueError:
            message = f"{shown}: expected a date such as 2026-12-05"
            yield source.problem("out-of-range", (name, "date"), message)
    away = tuple(
        ToldAway(" ".join(one.split()), source.place(trail), trail_text(trail))
        for one, trail in _list(fields.get("away"), (name, "away"))
    )
    return ToldDay(shown, hours, tuple(breaks), away, on, source.place((name,)))


def _list(value: Value, trail: Trail) -> list[tuple[str, Trail]]:
    """The texts of a list, each with its own trail; one text stands for a list of one."""
    if value is None:
        return []
    if isinstance(value, list):
        return [(_written(one), (*trail, number)) for number, one in enumerate(value)]
    return [(_written(value), trail)]


def _written(value: Value) -> str:
    return str(getattr(value, "written", value))
