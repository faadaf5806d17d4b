"""Days of a class with their breaks in → when work may begin, when it is done, and who is there.

Minutes count from the first minute of the first day on, through the nights.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import inf

from guidegen.layout.hours import SLACK, WHOLE, Span, filled


@dataclass(frozen=True, slots=True)
class ClassDay:
    """A day of a class."""

    start: float
    end: float
    """minutes; work that does not fit any day goes on after the end of the last one."""
    name: str = ""
    """As the leader calls it; empty for the only day."""
    away: frozenset[int] = frozenset()
    """Numbers from 0 of people who are not there."""


@dataclass(frozen=True, slots=True)
class ClassHours:
    """When the people of a class are at work."""

    days: tuple[ClassDay, ...]
    """In order, at least one; none begins before the last one has ended."""
    breaks: tuple[Span, ...] = ()
    """In which nobody works, in order; each lies in a day, none reaches into the next."""

    def begin(self, minute: float, time: float, *, rests: bool = True) -> float:
        """The first minute, not before `minute`, at which work of `time` minutes may begin.

        It is begun where an hour of it, or all where it is shorter, comes before the next break.
        What never `rests` ends on the day of its start.
        """
        for start, end, day in self._stretches(minute):
            if end - start + SLACK < min(time, WHOLE):
                continue
            if rests or self.day(self.spans(start, time)[-1][1], ends=True) == day:
                return start
        raise AssertionError("the last stretch never ends")

    def spans(self, start: float, time: float) -> tuple[Span, ...]:
        """When work of `time` minutes is done that begins at `start`, a minute `begin` gave."""
        return filled(((begins, ends) for begins, ends, _ in self._stretches(start)), time)

    def day(self, minute: float, *, ends: bool = False) -> int:
        """Number from 0 of the day of a minute; a night belongs to the day before it.

        `ends`: something ends then, so the first minute of a day is none of it.
        """
        reached = minute - SLACK if ends else minute + SLACK
        started = (number for number, day in enumerate(self.days) if day.start < reached)
        return max(started, default=0)

    @property
    def all_there(self) -> bool:
        """Whether nobody is away on any day."""
        return not any(day.away for day in self.days)

    def gone(self, start: float, end: float) -> frozenset[int]:
        """Who is away on a day that work between two minutes touches; after the last day nobody."""
        return frozenset(
            person
            for day in self.days
            if start < day.end - SLACK and end > day.start + SLACK
            for person in day.away
        )

    def next_day(self, minute: float) -> float:
        """The start of the day after that of a minute, or the end of the last one."""
        later = (day.start for day in self.days if day.start > minute + SLACK)
        return next(later, max(minute, self.days[-1].end))

    def closed(self, person: int | None = None) -> tuple[Span, ...]:
        """Nights, breaks, and days on which a person is away, in the order of their starts."""
        nights = [
            (one.end, after.start) for one, after in zip(self.days, self.days[1:], strict=False)
        ]
        away = [(day.start, day.end) for day in self.days if person in day.away]
        return tuple(sorted([*nights, *away, *self.breaks]))

    def _stretches(self, minute: float) -> Iterator[tuple[float, float, int]]:
        """What is left of the stretch of work at a minute, and those after it, with their days."""
        for number, day in enumerate(self.days):
            last = number == len(self.days) - 1
            close = inf if last else day.end
            now = day.start
            inside = [span for span in self.breaks if day.start <= span[0] < close]
            for start, end in (*inside, (close, close)):
                if start > max(now, minute) + SLACK:
                    yield max(now, minute), start, number
                now = end
