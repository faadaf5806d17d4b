"""Start and breaks of a class by the clock, in → minutes."""

import re
from collections.abc import Iterable
from itertools import pairwise

from guidegen.errors import UsageError
from guidegen.layout.hours import Span

CLOCK = re.compile(r"([01]?[0-9]|2[0-3]):([0-5][0-9])", re.ASCII)
DAY = 1440.0


USUAL_HOURS, MOST_HOURS = 3.0, 100.0
"""Length of a class of which nothing is said, and at most: a course of weeks. Our choice."""


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
    clock = CLOCK.fullmatch(written)
    if clock is None:
        raise UsageError(expected)
    return int(clock[1]) * 60.0 + int(clock[2])
