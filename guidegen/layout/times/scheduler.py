"""Work, hands and tools in → when each is done: one scheduler for a person, a team and a class.

List scheduling (Graham, Bell System Technical Journal 45, 1966): whenever hands are free, the next
step in the author's order that may start does.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from guidegen.layout.class_hours import ClassHours
from guidegen.layout.hours import SLACK, Hours
from guidegen.layout.schedules import Slot

type Job = tuple[int, int]
"""Number of a step, and number of the kit that it is done on. Their order is the order of trial:
earlier steps before later ones, and of one step the lower kit first."""


@dataclass(frozen=True, slots=True)
class Work:
    """A step, as a bench sees it."""

    step: str
    time: float
    wait: float
    """minutes."""
    hands: int
    """People that it takes, at most as many as there are."""
    after: tuple[int, ...]
    """Numbers of the steps that must be over on the same kit, waits included."""
    apart: tuple[tuple[int, float], ...] = ()
    """Numbers of the steps that must be ended on all kits, since they never share a room with this
    one, and minutes of airing then."""
    tools: tuple[str, ...] = ()
    """Tools that are kept through the step."""
    adults: bool = False
    """Whether only adults may do it."""
    rests: bool = True
    """Whether it may be laid down in the evening of a class and taken up again on another day."""


@dataclass(frozen=True, slots=True)
class Crew:
    """Who has a kit of their own in a class, and who helps. The leader comes last."""

    people: int
    helpers: int = 0
    young: frozenset[int] = frozenset()
    """Numbers from 0 of people who do no work for adults."""

    @property
    def leader(self) -> int:
        """Number of the leader, who takes over work for adults and nothing else."""
        return self.people + self.helpers

    @property
    def adults(self) -> tuple[int, ...]:
        """Numbers of those who may do work for adults; the leader where somebody young is there."""
        last = self.leader + (1 if self.young else 0)
        return tuple(number for number in range(last) if number not in self.young)


class StepOrder(StrEnum):
    """Which of the steps that may start does."""

    AUTHOR = "author"
    """The first one of the guide."""
    LONGEST_PATH = "longest path"
    """The one behind which the longest path of work and waits lies."""
    SHARED_TOOLS = "shared tools"
    """One with a tool that is kept, as queues grow while it lies idle; then by the longest path."""


def schedule(
    work: Sequence[Work],
    people: int,
    kits: int = 1,
    tools: Mapping[str, int] | None = None,
    hours: Hours | ClassHours | None = None,
    *,
    crew: Crew | None = None,
    order: StepOrder = StepOrder.AUTHOR,
) -> tuple[Slot, ...]:
    """When each step of each kit is done, by whom, with which of the `tools`.

    Of the steps that may start the first in the `order` does.

    One kit is built by all together; of several kits each has the person of its number, who calls
    neighbours for steps that take more hands. `tools` says how many there are of each.
    Hands are at work in the `hours`, without them day and night; waits always run on.
    A `crew` makes it a class: its `people` have a kit each, and work for adults on the kit of
    somebody young is done by helpers, the leader or adults of the class, in this order.
    """
    crew = crew or (Crew(people) if kits > 1 else None)
    bench = _Bench(work, people, kits, tools or {}, hours, crew)
    bench.rank = _ranks(work, order)
    return bench.run()


def _ranks(work: Sequence[Work], order: StepOrder) -> dict[int, int]:
    """The rank of each step in an order: the lower one first."""
    ahead = paths_ahead(work)

    def before(number: int) -> tuple[bool, float]:
        if order is StepOrder.AUTHOR:
            return False, 0.0
        idle = order is StepOrder.SHARED_TOOLS and not work[number].tools
        return idle, -ahead[number]

    # Equal ones in the author's order, as the sort is stable.
    return {number: rank for rank, number in enumerate(sorted(range(len(work)), key=before))}


def paths_ahead(work: Sequence[Work]) -> dict[int, float]:
    """Minutes from the start of each step to the end of all that needs it, on one kit.

    The levels of Hu (Operations Research 9, 1961), waits included.
    """
    ahead = {number: one.time for number, one in enumerate(work)}
    for number in reversed(range(len(work))):
        for other in work[number].after:
            first = work[other]
            ahead[other] = max(ahead[other], first.time + first.wait + ahead[number])
    return ahead


class _Bench:
    """The state of a room while a plan is made; all times are minutes."""

    def __init__(  # noqa: PLR0917 - all that a room has
        self,
        work: Sequence[Work],
        people: int,
        kits: int,
        tools: Mapping[str, int],
        hours: Hours | ClassHours | None,
        crew: Crew | None,
    ) -> None:
        self.work = work
        self.hours = hours
        self.crew = crew
        self.free = [0.0] * (crew.leader + 1 if crew else people)
        self.adults = crew.adults if crew else ()
        self.units = {tool: [0.0] * count for tool, count in tools.items()}
        self.ready: dict[Job, float] = {}
        """When the wait after a job is over, for all that have been started."""
        self.left = [kits] * len(work)
        """On how many kits a step has not been started."""
        self.last_end = [0.0] * len(work)
        self.then: list[list[int]] = [[] for _ in work]
        """For each step the steps that come after it."""
        for number, one in enumerate(work):
            for other in one.after:
                self.then[other].append(number)
        firsts = [number for number, one in enumerate(work) if not one.after]
        self.open = {(number, kit) for number in firsts for kit in range(kits)}
        """Jobs whose steps before them have all been started: only these have a time to start."""
        self.slots: list[Slot] = []
        self.rank = {number: number for number in range(len(work))}
        """Of the steps: the lower one first."""

    def run(self) -> tuple[Slot, ...]:
        """Start jobs until all are started."""
        while self.open:
            # All that could start, and the earliest time at which anything can: time jumps there.
            # Never empty: the first step that some kit still lacks waits for earlier ones alone,
            # and those are started on every kit.
            starts = {job: at for job in self.open if (at := self._earliest(job)) is not None}
            now = min(starts.values())
            # In their order among all that may start now.
            jobs = [job for job, at in starts.items() if at <= now + SLACK]
            for job in sorted(jobs, key=lambda job: (self.rank[job[0]], job[1])):
                # Those before it may have taken its hands, its tool or its room.
                at = self._earliest(job)
                if at is not None and at <= now + SLACK:
                    self._start(job, now)
        return tuple(self.slots)

    def _earliest(self, job: Job) -> float | None:
        """When a job may start in the hours of work.

        None while a step that never shares its room has still to be started on some kit.
        """
        at = self._free_from(job)
        if at is None or self.hours is None:
            return at
        if isinstance(self.hours, ClassHours):
            if not self.hours.all_there:
                return self._there_from(job, at, self.hours)
            work = self.work[job[0]]
            return self.hours.begin(at, work.time, rests=work.rests)
        return self.hours.begin(at, self.work[job[0]].time)

    def _there_from(self, job: Job, at: float, hours: ClassHours) -> float:
        """When all hands that a job takes are there on every day that it touches."""
        work = self.work[job[0]]
        while True:
            at = hours.begin(at, work.time, rests=work.rests)
            gone = hours.gone(at, hours.spans(at, work.time)[-1][1])
            if not gone:
                return at
            free = self._free_from(job, gone)
            if free is not None and free <= at + SLACK:
                return at
            # Later each time round; after the last day nobody is away.
            at = hours.next_day(at) if free is None else free

    def _free_from(self, job: Job, gone: frozenset[int] = frozenset()) -> float | None:
        """The same by day and night: parts ready, hands and tools free, room clear.

        None too where too few are left without those who are `gone`.
        """
        number, kit = job
        work = self.work[number]
        at = max((self.ready[other, kit] for other in work.after), default=0.0)
        for other, airing in work.apart:
            # The earlier work must be over on all kits, and is not even begun on some.
            if self.left[other]:
                return None
            at = max(at, self.last_end[other] + airing)
        for tool in work.tools:
            at = max(at, min(self.units[tool]))
        if self.crew is None:
            # One kit: any hands will do, so as many as needed are free when the last of the first
            # few is.
            return max(at, sorted(self.free)[work.hands - 1])
        # An own kit: its person, who may be too young for it, and those who are free soonest.
        more = work.hands
        if self._does(self.crew, work, kit):
            if kit in gone:
                return None
            at = max(at, self.free[kit])
            more -= 1
        if more:
            others = self._others(self.crew, work, kit)
            free = sorted(self.free[other] for other in others if other not in gone)
            if len(free) < more:
                return None
            at = max(at, free[more - 1])
        return at

    @staticmethod
    def _does(crew: Crew, work: Work, kit: int) -> bool:
        """Whether the one whose kit it is takes part."""
        return not (work.adults and kit in crew.young)

    def _others(self, crew: Crew, work: Work, kit: int) -> list[int]:
        """Who else may take part."""
        # The leader has the room to watch: no work but what nobody young may do.
        anyone = self.adults if work.adults else range(crew.leader)
        return [other for other in anyone if other != kit]

    def _hands(self, job: Job, now: float, gone: frozenset[int]) -> tuple[int, ...]:
        """Who does it: of one kit those free longest; of an own kit its person, helpers, and those
        nearest in number who are free and not `gone`, the neighbour of a pair first.
        """
        number, kit = job
        work, crew = self.work[number], self.crew
        if crew is None:
            free = [person for person, at in enumerate(self.free) if at <= now + SLACK]
            free.sort(key=lambda person: (self.free[person], person))
            return tuple(sorted(free[: work.hands]))
        does = self._does(crew, work, kit)
        others = (one for one in self._others(crew, work, kit) if one not in gone)
        free = [one for one in others if self.free[one] <= now + SLACK]

        def order(other: int) -> tuple[int, bool, int, int]:
            # Helpers have nothing else to do. The leader takes over before an adult of the class
            # leaves the own kit, but lends no hand where one of the class can.
            if other < crew.people:
                rank = 1 if does else 2
            elif other < crew.leader:
                rank = 0
            else:
                rank = 2 if does else 1
            return rank, other // 2 != kit // 2, abs(other - kit), other

        free.sort(key=order)
        own = (kit,) if does else ()
        return (*own, *sorted(free[: work.hands - len(own)]))

    def _take_tools(self, names: tuple[str, ...], now: float, end: float) -> list[tuple[str, int]]:
        """Keep one of each tool until `end`."""
        taken = []
        for name in names:
            units = self.units[name]
            # The one that became free last, so that nobody seems to have waited for another.
            idle = [n for n, at in enumerate(units) if at <= now + SLACK]
            unit = max(idle, key=lambda n: (units[n], -n))
            units[unit] = end
            taken.append((name, unit))
        return taken

    def _start(self, job: Job, now: float) -> None:
        number, kit = job
        work = self.work[number]
        spans = self.hours.spans(now, work.time) if self.hours else ((now, now + work.time),)
        end = spans[-1][1]
        gone: frozenset[int] = frozenset()
        if isinstance(self.hours, ClassHours):
            gone = self.hours.gone(now, end)
        hands = self._hands(job, now, gone)
        tools = self._take_tools(work.tools, now, end)
        # Hands are kept for all spans of a step, over night too: who begins a step ends it.
        for person in hands:
            self.free[person] = end
        self.ready[job] = end + work.wait
        self.left[number] -= 1
        self.last_end[number] = max(self.last_end[number], end)
        self.open.remove(job)
        for later in self.then[number]:
            if all((other, kit) in self.ready for other in self.work[later].after):
                self.open.add((later, kit))
        self.slots.append(Slot(work.step, spans, end + work.wait, hands, kit, tuple(tools)))
