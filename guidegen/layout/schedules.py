"""What planning time puts out: who works on what when, for one person, a team or a class."""

from collections.abc import Iterator
from dataclasses import dataclass

from guidegen.layout.class_hours import ClassDay, ClassHours
from guidegen.layout.hours import SLACK, Hours, Span


@dataclass(frozen=True, slots=True)
class Slot:
    """When a step of one kit is worked on, and by whom."""

    step: str
    spans: tuple[Span, ...]
    """In order; one, unless the work is laid down overnight and taken up again."""
    ready: float
    """minutes; when the wait after it is over."""
    hands: tuple[int, ...]
    """Numbers from 0 of those who are busy with it; in a class whose kit it is comes first, if
    that one may do it. Numbers above those of the people are helpers, then the leader."""
    kit: int = 0
    """Number from 0."""
    tools: tuple[tuple[str, int], ...] = ()
    """Tools that are kept through the step, and which one of each, from 0."""

    @property
    def start(self) -> float:
        """minutes; when the work begins."""
        return self.spans[0][0]

    @property
    def end(self) -> float:
        """minutes; when the last hand is taken off."""
        return self.spans[-1][1]

    @property
    def helpers(self) -> tuple[int, ...]:
        """In a class: numbers of those who lend a hand."""
        return tuple(hand for hand in self.hands if hand != self.kit)

    @property
    def taken_over(self) -> bool:
        """In a class: whether others do it for the one whose kit it is."""
        return self.kit not in self.hands


@dataclass(frozen=True, slots=True)
class Idle:
    """A time in which somebody waits."""

    start: float
    end: float
    """minutes."""
    drying: bool
    """True where the own work is left to dry or cool; else a tool, a hand or the room is waited
    for."""


@dataclass(frozen=True, slots=True)
class Schedule:
    """Who does what when: one kit for all together, or a kit for each."""

    people: int
    """With a kit, or at one kit."""
    slots: tuple[Slot, ...]
    """In the order in which they start."""
    beforehand: tuple[str, ...] = ()
    """Steps that are done before, in the guide's order."""
    hours: Hours | None = None
    """When hands are at work; None where they go on day and night, as in a class."""
    class_hours: ClassHours | None = None
    """Of a class: its days and breaks."""

    @property
    def days(self) -> int:
        """Days from the first hand laid on to the end of the last wait, both days counted."""
        return self.hours.day(self.elapsed) if self.hours else 1

    @property
    def work_days(self) -> tuple[int, int]:
        """Evenings, and free days, on which anybody works."""
        if self.hours is None:
            return 0, 0
        hours = self.hours
        starts = [start for slot in self.slots for start, _ in slot.spans]
        free = {hours.day(start) for start in starts if hours.is_free(start)}
        evenings = {hours.day(start) for start in starts if not hours.is_free(start)}
        return len(evenings), len(free)

    @property
    def hands_on(self) -> float:
        """minutes of work, a step that takes two people counted once."""
        return sum(end - start for slot in self.slots for start, end in slot.spans)

    @property
    def end(self) -> float:
        """minutes; when the last hand is taken off."""
        return max((slot.end for slot in self.slots), default=0.0)

    @property
    def elapsed(self) -> float:
        """minutes; when the last wait is over."""
        return max((slot.ready for slot in self.slots), default=0.0)

    @property
    def busy(self) -> float:
        """minutes in which anybody works."""
        total, until = 0.0, 0.0
        for start, end in sorted(span for slot in self.slots for span in slot.spans):
            total += max(0.0, end - max(start, until))
            until = max(until, end)
        return total

    def of(self, person: int) -> tuple[Slot, ...]:
        """All slots that a person is busy with, in order of time."""
        return tuple(slot for slot in self.slots if person in slot.hands)

    def idle(self, person: int) -> tuple[Idle, ...]:
        """Waits of a person with an own kit between two slots, drying and queues apart."""
        found: list[Idle] = []
        now = 0.0
        own_ready = 0.0
        # While others do a step for somebody young, that one neither dries nor queues.
        # Nor does who has an own kit done and lends a hand now and then.
        mine = [slot for slot in self.slots if person in slot.hands or person == slot.kit]
        own = max((slot.start for slot in mine if slot.kit == person), default=0.0)
        mine = [slot for slot in mine if slot.start <= own]
        for slot in mine:
            if slot.start > now + SLACK:
                dry = min(max(own_ready, now), slot.start)
                if dry > now + SLACK:
                    found.append(Idle(now, dry, drying=True))
                if slot.start > dry + SLACK:
                    found.append(Idle(dry, slot.start, drying=False))
            now = max(now, slot.end)
            if slot.kit == person:
                own_ready = max(own_ready, slot.ready)
        closed = self.class_hours.closed(person) if self.class_hours else ()
        return tuple(rest for one in found for rest in self._outside(closed, one))

    @staticmethod
    def _outside(closed: tuple[Span, ...], idle: Idle) -> Iterator[Idle]:
        """What is left of a wait without breaks and nights, in which nobody waits."""
        now = idle.start
        for start, end in (*closed, (idle.end, idle.end)):
            until = min(start, idle.end)
            if until > now + SLACK:
                yield Idle(now, until, idle.drying)
            now = max(now, end)

    @property
    def breaks(self) -> tuple[Span, ...]:
        """Of a class: minutes in which nobody works, nights apart."""
        return self.class_hours.breaks if self.class_hours else ()

    @property
    def class_days(self) -> tuple[ClassDay, ...]:
        """Of a class over several days: its days; else nothing."""
        days = self.class_hours.days if self.class_hours else ()
        return days if len(days) > 1 else ()

    def on(self, day: ClassDay, step: str = "") -> tuple[Span, ...]:
        """When anybody works on a day of a class, at one step or at all, in the order of slots.

        What goes on after the last day belongs to it.
        """
        last = not self.class_days or day.start == self.class_days[-1].start
        return tuple(
            (start, end)
            for slot in self.slots
            if step in {"", slot.step}
            for start, end in slot.spans
            if start >= day.start - SLACK and (last or start < day.end - SLACK)
        )

    def ends_on(self, day: ClassDay, step: str) -> bool:
        """Whether anybody ends a step on a day of a class."""
        ends = {slot.end for slot in self.slots if slot.step == step}
        return any(end in ends for _, end in self.on(day, step))

    def drying_after(self, day: ClassDay) -> tuple[Slot, ...]:
        """What is done by the evening of a day and dries on."""
        return tuple(
            slot for slot in self.slots if slot.end <= day.end + SLACK and slot.ready > day.end
        )

    def cut_by(self, day: ClassDay) -> tuple[Slot, ...]:
        """What is begun by the evening of a day and is taken up again."""
        return tuple(
            slot
            for slot in self.slots
            if slot.start < day.end - SLACK and slot.end > day.end + SLACK
        )

    def kept(self, step: str = "") -> tuple[str, ...]:
        """Tools that people wait for, in a step or in all of them, each once."""
        names = (tool for slot in self.slots if step in {"", slot.step} for tool, _ in slot.tools)
        return tuple(dict.fromkeys(names))

    def span(self, step: str) -> Span:
        """First start and last end of a step over all kits, in minutes. Raises ValueError."""
        slots = [slot for slot in self.slots if slot.step == step]
        return min(s.start for s in slots), max(s.end for s in slots)
