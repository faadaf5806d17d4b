"""Hours in which a site's readers work → when work may begin, and into which evenings it falls.

A plan begins on the first free day of a week: two free days, then five evenings. Minutes count from
that first hour of work on, through the nights.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.buildfile.records.site import WorkingHours

type Span = tuple[float, float]
"""Start and end, in minutes."""

SLACK = 1e-9
"""minutes by which sums of floats may seem to differ."""

DAY = 1440.0
WEEK = 7
FREE_DAYS = 2
"""A week begins with its free days."""

FREE_FROM, EVENING_FROM = 10 * 60.0, 18 * 60.0
"""minutes from midnight at which hands begin. Our choice; the site chooses how long they go on."""

WHOLE = 60.0
"""minutes. Work up to this is done in one go: nobody lays down a brush or a fold half done. Longer
work is many like pieces one after the other; it is begun where at least this much is left of the
day, and taken up again on the next. Our choice."""


@dataclass(frozen=True, slots=True)
class Hours:
    """When hands are at work."""

    evening: float
    free_day: float
    """minutes; one of them is above zero."""

    @property
    def _offset(self) -> float:
        """minutes from the first midnight to the first hour of work."""
        return next(start for start, _ in self._shifts(0))

    def _shifts(self, day: int) -> Iterator[Span]:
        """Evenings and free days from a day on, in minutes from the first midnight."""
        while True:
            free = day % WEEK < FREE_DAYS
            start = day * DAY + (FREE_FROM if free else EVENING_FROM)
            length = self.free_day if free else self.evening
            if length > 0:
                yield start, start + length
            day += 1

    def _from(self, minute: float) -> Iterator[Span]:
        """What is left of the shift at a minute of a plan, and the shifts after it."""
        offset = self._offset
        for start, end in self._shifts(int((minute + offset) // DAY)):
            if end - offset > minute + SLACK:
                yield max(minute, start - offset), end - offset

    def begin(self, minute: float, time: float) -> float:
        """The first minute, not before `minute`, at which work of `time` minutes may begin."""
        for start, end in self._from(minute):
            # No day of a site may be as long as an hour.
            if end - start + SLACK >= min(time, WHOLE, max(self.evening, self.free_day)):
                return start
        raise AssertionError("shifts never end")

    def spans(self, start: float, time: float) -> tuple[Span, ...]:
        """When work of `time` minutes that begins at `start` is done, over as many days as needed.

        `start` is one that `begin` gave.
        """
        return filled(self._from(start), time)

    def day(self, minute: float) -> int:
        """The day of a minute of the plan, from 1."""
        return int((minute + self._offset - SLACK) // DAY) - int(self._offset // DAY) + 1

    def is_free(self, minute: float) -> bool:
        """Whether a minute of the plan lies on a free day."""
        return int((minute + self._offset) // DAY) % WEEK < FREE_DAYS


def filled(stretches: Iterator[Span], time: float) -> tuple[Span, ...]:
    """Work of `time` minutes laid into stretches from the first on."""
    found: list[Span] = []
    left = time
    for begins, ends in stretches:
        until = min(ends, begins + left)
        found.append((begins, until))
        left -= until - begins
        if left <= SLACK:
            break
    return tuple(found)


def site_hours(hours: WorkingHours) -> Hours:
    """The working hours of a site, for planning."""
    return Hours(hours.evening * 60, hours.free_day * 60)
