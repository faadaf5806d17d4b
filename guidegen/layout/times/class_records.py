"""Records of a class: its people, their tools, and who does what when. Times in minutes."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guidegen.layout.records import CutPlan, MaterialsList, ToolLine

SLACK = 1e-9
"""minutes by which sums of floats may seem to differ."""


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody of the class."""

    name: str
    """A name, or a size with a number."""
    size: str
    """Of the guide; empty where the own measurements are made to."""


@dataclass(frozen=True, slots=True)
class ToolCount:
    """A tool and how many of it the class needs."""

    tool: ToolLine
    count: int
    shared_by: int
    """People to one of it."""


@dataclass(frozen=True, slots=True)
class ClassSlot:
    """When somebody works on a step of the own kit."""

    person: int
    """Number from 0: whose kit it is."""
    step: str
    start: float
    end: float
    """minutes."""
    helpers: tuple[int, ...] = ()
    """Numbers of those who lend a hand."""
    tools: tuple[tuple[str, int], ...] = ()
    """Tools that are kept through the step, and which one of each, from 0."""

    @property
    def hands(self) -> tuple[int, ...]:
        """All who are busy with it."""
        return (self.person, *self.helpers)


@dataclass(frozen=True, slots=True)
class Idle:
    """A time in which somebody waits."""

    start: float
    end: float
    """minutes."""
    drying: bool
    """True where the own work is left to dry or cool; else a tool, a hand or the room is waited
    for."""


@dataclass(frozen=True)
class ClassTimes:
    """The hours of a class."""

    people: int
    slots: tuple[ClassSlot, ...]
    """In the order in which they start."""
    ready: Mapping[tuple[int, str], float]
    """When the work of a person on a step is over, its wait included."""
    beforehand: tuple[str, ...] = ()
    """Steps that are done before the class, in the guide's order."""

    @property
    def end(self) -> float:
        """When the last hand is taken off, in minutes."""
        return max((slot.end for slot in self.slots), default=0.0)

    @property
    def elapsed(self) -> float:
        """When the last wait is over, in minutes."""
        return max(self.ready.values(), default=0.0)

    def of(self, person: int) -> tuple[ClassSlot, ...]:
        """All slots that a person is busy with, in order of time."""
        return tuple(slot for slot in self.slots if person in slot.hands)

    def idle(self, person: int) -> tuple[Idle, ...]:
        """Waits of a person between two slots, drying and queues apart."""
        found: list[Idle] = []
        now = 0.0
        own_ready = 0.0
        for slot in self.of(person):
            if slot.start > now + SLACK:
                dry = min(max(own_ready, now), slot.start)
                if dry > now + SLACK:
                    found.append(Idle(now, dry, drying=True))
                if slot.start > dry + SLACK:
                    found.append(Idle(dry, slot.start, drying=False))
            now = max(now, slot.end)
            if slot.person == person:
                own_ready = max(own_ready, self.ready[person, slot.step])
        return tuple(found)

    def span(self, step: str) -> tuple[float, float]:
        """First start and last end of a step over everybody."""
        slots = [slot for slot in self.slots if slot.step == step]
        return min(s.start for s in slots), max(s.end for s in slots)


@dataclass(frozen=True, slots=True)
class HoursAdvice:
    """What to do about a class that is longer than its hours."""

    over: float
    """minutes too many; 0 where all fits."""
    prepare: tuple[str, ...] = ()
    """Further steps which, done before the class, let the rest fit; empty where nothing helps."""
    left: tuple[str, ...] = ()
    """Steps that somebody has not finished when the hours are over: to skip, or to do at home."""


@dataclass(frozen=True)
class ClassPlan:
    """All that was worked out for one class."""

    people: tuple[Person, ...]
    """Numbered from 1 on pieces and in time tables."""
    materials: MaterialsList
    tools: tuple[ToolCount, ...]
    times: ClassTimes
    hours: float
    """Of the workshop."""
    advice: HoursAdvice
    cut_plans: tuple[CutPlan, ...] = field(default=())
    """Of all together; labels of pieces begin with the person's number."""

    @property
    def per_head(self) -> float:
        """Cost of everything that is bought, shared by all, in the site's currency."""
        return self.materials.cost / len(self.people)
