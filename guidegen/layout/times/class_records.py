"""Records of a class: its people, their tools and hours."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum

from guidegen.layout.class_hours import ClassDay
from guidegen.layout.hours import SLACK, Span
from guidegen.layout.records import CutPlan, MaterialsList, ToolLine
from guidegen.layout.schedules import Schedule


@dataclass(frozen=True, slots=True)
class Person:
    """Somebody of the class."""

    name: str
    """A name, or a size with a number."""
    size: str
    """Of the guide; empty where the own measurements are made to."""
    young: bool = False
    """Whether steps for adults are done by somebody else. No age is kept: no paper needs it."""
    brings: tuple[str, ...] = ()
    """Things, in words."""


@dataclass(frozen=True, slots=True)
class ToolCount:
    """A tool and how many of it the class needs."""

    tool: ToolLine
    count: int
    shared_by: int
    """People to one of it."""
    there: int | None = None
    """How many there are; None where nobody has said."""

    @property
    def missing(self) -> int:
        """How many fewer there are than the class would use."""
        return 0 if self.there is None else max(0, self.count - self.there)


@dataclass(frozen=True, slots=True)
class Means:
    """What a class has to work with, beyond what guide and stock say."""

    tools: Mapping[str, int] = field(default_factory=dict)
    """How many there are of some tools; of others as many as the class would use."""
    young: frozenset[int] = frozenset()
    """Numbers from 0 of those who do no step for adults."""
    helpers: int = 0
    """Adults who help and build nothing, the leader not counted."""
    breaks: tuple[Span, ...] = ()
    """Minutes from the start in which nobody works, in order; none reaches into the next."""
    start: float | None = None
    """Minutes from midnight at which the class begins; None where nobody has said."""
    rooms: int = 1
    """In two, what never shares a room goes on side by side."""
    days: tuple[ClassDay, ...] = ()
    """Several of them, where the class has more than one."""
    end: float | None = None
    """Minutes from the start at which it is to be over; None where nobody has said."""


SHORTER = 15.0
"""minutes by which a break is tried shorter, where as much is left of it. Our choice; local rules
say how long a break must be."""


class GainKind(StrEnum):
    """What may make a class shorter."""

    TOOL = "tool"
    """One more of a tool."""
    STEP = "step"
    """A step done before the class."""
    HELPER = "helper"
    """One more adult who helps."""
    BREAK = "break"
    """A break that is `SHORTER` by some minutes."""


@dataclass(frozen=True, slots=True)
class Gain:
    """A change that makes a class shorter."""

    kind: GainKind
    name: str
    """Of the tool or the step; number of the break from 1; empty for a helper."""
    minutes: float
    """that it saves; always above zero."""
    fits: bool
    """Whether the class then fits its hours by this alone."""


@dataclass(frozen=True, slots=True)
class HoursAdvice:
    """What to do about a class that is longer than its hours."""

    over: float
    """minutes too many; 0 where all fits."""
    prepare: tuple[str, ...] = ()
    """Further steps which, done before the class, let the rest fit; empty where nothing helps."""
    left: tuple[str, ...] = ()
    """Steps that somebody has not finished when the hours are over: to skip, or to do at home."""
    gains: tuple[Gain, ...] = ()
    """Single changes that save time, the largest gain first."""
    days: int | None = None
    """Days of the same hours that it would fit; 0 where it fits none of as many as a class may
    have, None where that was not asked: it fits one, or is on several."""


STAYS = 120.0
"""minutes over its hours up to which people stay and times are told. Our choice: what would go on
for longer is left when they go home, and nobody is told to work at midnight."""

AT_TABLE = 6
"""People at one table with an adult. Common practice, no source: local rules decide."""


def table_of(number: int) -> int:
    """The table, from 1, of the person of a number from 0: neighbours lend each other a hand."""
    return number // AT_TABLE + 1


@dataclass(frozen=True, slots=True)
class BeforeWork:
    """A step that is done before the class, for all kits."""

    step: str
    kits: int
    """On how many it is done; 1 where it concerns no pieces."""
    adults: int
    """Who do it side by side."""
    minutes: float
    """until all are done, waits apart."""
    sets: bool = False
    """Whether it is done for each set of templates, not for each kit."""


@dataclass(frozen=True, slots=True)
class Missing:
    """The class without some of its people."""

    people: int
    """How many are missing."""
    end: float
    """minutes from the start; 0 where it cannot be held."""
    fits: bool
    lacking: tuple[str, ...] = ()
    """Steps for which adults lack then."""


@dataclass(frozen=True)
class ClassPlan:
    """All that was worked out for one class."""

    people: tuple[Person, ...]
    """Numbered from 1 on pieces and in time tables."""
    materials: MaterialsList
    tools: tuple[ToolCount, ...]
    """Of the steps in the room."""
    times: Schedule
    hours: float
    """Of the workshop."""
    advice: HoursAdvice
    cut_plans: tuple[CutPlan, ...] = field(default=())
    """Of all together; labels of pieces begin with the person's number."""
    before_tools: tuple[ToolCount, ...] = ()
    """Of the steps that the leader does beforehand."""
    start: float | None = None
    """Minutes from midnight; None where times are told from the start."""
    helpers: int = 0
    """Adults who help and build nothing. Their numbers follow those of the people, and the
    leader's follows theirs."""
    own_room: tuple[str, ...] = ()
    """Steps that have a second room for themselves, where there is one."""
    before: tuple[BeforeWork, ...] = ()
    """What is done before the class, in the order of its steps."""
    missing: Missing | None = None
    """Two people missing; None for a class of three or fewer."""

    def is_left(self, start: float, hands: Iterable[int] = ()) -> bool:
        """Whether work that would begin then is left when the class is over.

        Of a class that runs over by no more than `STAYS` nothing is, but for `hands` that are not
        there on its last day.
        """
        limit = self.hours * 60
        if start < limit - SLACK:
            return False
        days = self.times.class_days
        return self.runs_on or bool(days and days[-1].away.intersection(hands))

    def ends_late(self, end: float) -> bool:
        """Whether something would end when everybody has gone home."""
        return self.runs_on and end > self.hours * 60 + SLACK

    @property
    def runs_on(self) -> bool:
        """Whether it would go on for longer after its hours than people stay."""
        return self.times.end > self.hours * 60 + STAYS + SLACK

    @property
    def per_head(self) -> float:
        """Cost of everything that is bought, shared by all, in the site's currency."""
        return self.materials.cost / len(self.people)

    @property
    def busy_adults(self) -> tuple[int, ...]:
        """Numbers of helpers, and of the leader, who have work of the class to do."""
        first = len(self.people)
        busy = {hand for slot in self.times.slots for hand in slot.hands}
        return tuple(number for number in range(first, first + self.helpers + 1) if number in busy)
