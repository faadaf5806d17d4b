"""Steps and a number of people in → who does what when, each on a kit of their own, sharing tools.

A job shop with as many units of each tool as the class has of it: list scheduling in the author's
order. Times are minutes from the start of the class.
"""

import heapq
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from guidegen.buildfile.derive.cautions import step_tools
from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.checks.steps.order import step_kinds
from guidegen.layout.times.class_plan import tool_count
from guidegen.layout.times.class_records import SLACK, ClassSlot, ClassTimes, HoursAdvice
from guidegen.layout.times.schedule import depends_on


def marked_beforehand(guide: Guide) -> tuple[str, ...]:
    """Steps that the author has the leader do before the class."""
    return tuple(step.id for step in guide.steps if step.beforehand)


def plan_class_times(
    guide: Guide, stock: Stock, people: int, beforehand: Iterable[str] | None = None
) -> ClassTimes:
    """A time table for `people`, each with a kit to build.

    Whoever is free starts the next step in the author's order for which the own pieces are ready,
    the tools that one person keeps through a step are free (`turns` in stock; as many as
    `tool_count` says) and enough hands are. What a rule of the stock keeps apart is done by the
    class together: nobody begins the later work before all have ended the earlier one, and the
    room is aired. `beforehand` are steps done before; by default those that the author marks.
    Steps must be in an order that works (the checks see to that).
    """
    before = set(marked_beforehand(guide) if beforehand is None else beforehand)
    return _Workshop(guide, stock, people, before).run()


def advise_hours(guide: Guide, stock: Stock, times: ClassTimes, hours: float) -> HoursAdvice:
    """Whether `times` fit in `hours`; if not, what to prepare, and what stays undone."""
    limit = hours * 60
    if times.end <= limit + SLACK:
        return HoursAdvice(0.0)
    rest = [step.id for step in guide.steps if step.id not in times.beforehand]
    low, high = 1, len(rest)
    while low < high:
        middle = (low + high) // 2
        if _end_without(guide, stock, times, rest[:middle]) <= limit + SLACK:
            high = middle
        else:
            low = middle + 1
    prepare = rest[:low] if low < len(rest) else []
    undone = {slot.step for slot in times.slots if slot.end > limit + SLACK}
    return HoursAdvice(
        times.end - limit, tuple(prepare), tuple(name for name in rest if name in undone)
    )


def _end_without(guide: Guide, stock: Stock, times: ClassTimes, more: list[str]) -> float:
    return plan_class_times(guide, stock, times.people, [*times.beforehand, *more]).end


@dataclass(frozen=True, slots=True)
class _Job:
    """A step, as the workshop sees it."""

    name: str
    time: float
    wait: float
    hands: int
    tools: tuple[str, ...]
    before: tuple[int, ...]
    """Numbers of the own steps that must be over, waits included."""
    after_all: tuple[tuple[int, float], ...]
    """Numbers of the steps that everybody must have ended, and minutes of airing then."""


class _Workshop:
    """The state of a room while a plan is made."""

    def __init__(self, guide: Guide, stock: Stock, people: int, beforehand: set[str]) -> None:
        self.people = people
        self.beforehand = tuple(step.id for step in guide.steps if step.id in beforehand)
        self.jobs = _jobs(guide, stock, people, beforehand)
        names = {tool for job in self.jobs for tool in job.tools}
        self.units = {name: [0.0] * tool_count(stock.tools[name], people) for name in sorted(names)}
        """When each unit of a tool is free."""
        self.free = [0.0] * people
        self.ready: dict[tuple[int, int], float] = {}
        self.left = [people] * len(self.jobs)
        """How many have not started a step."""
        self.last_end = [0.0] * len(self.jobs)
        self.open = [list(range(len(self.jobs))) for _ in range(people)]
        """Numbers of the steps that each has still to start."""
        self.events: list[float] = []
        self.slots: list[ClassSlot] = []

    def run(self) -> ClassTimes:
        """Start steps until all are started."""
        now = 0.0
        while any(self.open):
            while self._start_all(now):
                pass  # steps that take no time let others start at once
            while self.events and self.events[0] <= now + SLACK:
                heapq.heappop(self.events)
            if not self.events:
                break
            now = heapq.heappop(self.events)
        ready = {(person, self.jobs[n].name): at for (person, n), at in self.ready.items()}
        return ClassTimes(self.people, tuple(self.slots), ready, self.beforehand)

    def _start_all(self, now: float) -> bool:
        """Start what may start now, earlier steps and lower numbers first; whether any did."""
        known = len(self.slots)
        wanted = sorted(
            (number, person)
            for person in range(self.people)
            if self.free[person] <= now + SLACK
            for number in self.open[person]
            if self._may(person, number, now)
        )
        for number, person in wanted:
            if self.free[person] <= now + SLACK and self._tools_free(number, now):
                helpers = self._helpers(person, self.jobs[number].hands - 1, now)
                if helpers is not None:
                    self._start(person, number, helpers, now)
        return len(self.slots) > known

    def _may(self, person: int, number: int, now: float) -> bool:
        job = self.jobs[number]
        own = (self.ready.get((person, other)) for other in job.before)
        return all(at is not None and at <= now + SLACK for at in own) and all(
            not self.left[other] and self.last_end[other] + airing <= now + SLACK
            for other, airing in job.after_all
        )

    def _tools_free(self, number: int, now: float) -> bool:
        return all(min(self.units[tool]) <= now + SLACK for tool in self.jobs[number].tools)

    def _helpers(self, person: int, count: int, now: float) -> tuple[int, ...] | None:
        """Those nearest in number who are free, the neighbour of a pair first."""
        free = [
            other
            for other in range(self.people)
            if other != person and self.free[other] <= now + SLACK
        ]
        if len(free) < count:
            return None
        free.sort(key=lambda other: (other // 2 != person // 2, abs(other - person), other))
        return tuple(sorted(free[:count]))

    def _start(self, person: int, number: int, helpers: tuple[int, ...], now: float) -> None:
        job = self.jobs[number]
        end = now + job.time
        tools = []
        for tool in job.tools:
            units = self.units[tool]
            # The one that became free last, so that nobody seems to have waited for another.
            idle = [n for n, at in enumerate(units) if at <= now + SLACK]
            unit = max(idle, key=lambda n: (units[n], -n))
            units[unit] = end
            tools.append((tool, unit))
        for busy in (person, *helpers):
            self.free[busy] = end
        self.ready[person, number] = end + job.wait
        self.open[person].remove(number)
        self.left[number] -= 1
        self.last_end[number] = max(self.last_end[number], end)
        airings = {airing for other in self.jobs for n, airing in other.after_all if n == number}
        for at in {end, end + job.wait, *(end + airing for airing in airings)}:
            heapq.heappush(self.events, at)
        self.slots.append(ClassSlot(person, job.name, now, end, helpers, tuple(tools)))


def _jobs(guide: Guide, stock: Stock, people: int, beforehand: set[str]) -> list[_Job]:
    """The steps of the class in the author's order."""
    steps = [step for step in guide.steps if step.id not in beforehand]
    number = {step.id: n for n, step in enumerate(steps)}
    after_all = _kept_apart(guide, stock, number)
    needed = depends_on(guide)
    return [
        _Job(
            step.id,
            step.time,
            step_wait(step, stock),
            min(step.hands, people),
            tuple(
                tool
                for tool in step_tools(step, stock)
                if tool in stock.tools and stock.tools[tool].turns
            ),
            tuple(number[name] for name in needed[step.id] if name in number),
            tuple(sorted(after_all.get(n, {}).items())),
        )
        for n, step in enumerate(steps)
    ]


def _kept_apart(
    guide: Guide, stock: Stock, number: Mapping[str, int]
) -> dict[int, dict[int, float]]:
    """For the later of two steps that may not share a room: the earlier, and minutes of airing."""
    found: dict[int, dict[int, float]] = {}
    kinds = step_kinds(guide, stock)
    ids = [step.id for step in guide.steps]

    def inside(numbers: Iterable[int]) -> list[int]:
        return [number[ids[n]] for n in numbers if ids[n] in number]

    for rule in stock.rules:
        if not rule.apart:
            continue
        thens = inside(kinds.steps(rule, rule.then))
        for first in inside(kinds.steps(rule, rule.first)):
            for then in thens:
                if first != then:
                    early, late = min(first, then), max(first, then)
                    airing = rule.wait if first < then else 0.0
                    known = found.setdefault(late, {})
                    known[early] = max(known.get(early, 0.0), airing)
    return found
