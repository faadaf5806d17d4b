"""Time table of a class in → what of it one drawing shows: all, or a day of several."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import inf

from guidegen.layout.class_hours import ClassDay
from guidegen.layout.schedules import Schedule
from guidegen.layout.times.class_records import STAYS
from guidegen.pictures.times.axis import TimeSpan


@dataclass(frozen=True, slots=True)
class ClassWindow:
    """What of a class is drawn: all of it, or one of its days."""

    first: float
    last: float
    """minutes of the class."""
    close: float
    """minutes from the first; when its hours end."""
    busy: tuple[TimeSpan, ...]
    """When anybody works, in minutes from the first."""
    breaks: tuple[TimeSpan, ...]
    start: float | None
    """By the clock, of the first minute."""
    name: str

    def cut(self, spans: Iterable[TimeSpan]) -> tuple[TimeSpan, ...]:
        """What of some spans is in it."""
        return _cut(spans, self.first, self.last)

    @property
    def end(self) -> float:
        """minutes from the first; when the last hand is taken off."""
        return max((span[1] for span in self.busy), default=0.0)


def _cut(spans: Iterable[TimeSpan], first: float, last: float) -> tuple[TimeSpan, ...]:
    return tuple(
        (max(start, first) - first, min(end, last) - first)
        for start, end in spans
        if end > first and start < last
    )


def class_window(
    times: Schedule, hours: float, start: float | None, day: ClassDay | None
) -> ClassWindow:
    """All of a class of so many `hours`, or one of its days; `start` is its first by the clock."""
    first, last, close, name = 0.0, inf, hours * 60, ""
    if day is not None:
        first, name = day.start, day.name
        # Work a little after the end of the last day is drawn on it.
        last = inf if day.start == times.class_days[-1].start else day.end
        close = day.end - day.start
        start = None if start is None else (start + first) % 1440
    if last == inf and times.end > hours * 60 + STAYS:
        # What is left when people have gone home has no time to be drawn at.
        last = first + close
    spans = [span for slot in times.slots for span in slot.spans]
    return ClassWindow(
        first, last, close, _cut(spans, first, last), _cut(times.breaks, first, last), start, name
    )
