"""Steps in → who does what when, if several people build one thing together."""

from dataclasses import dataclass
from math import inf

from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.checks.steps.order import step_kinds
from guidegen.layout.records import TeamPlan, TeamSlot
from guidegen.layout.times.schedule import depends_on

MOST = 4
"""People: more get in each other's way at one bench. Our choice."""

WORTH = 0.95
"""A team is told of where its bench hours are at most this share of the next smaller one's."""


def plan_teams(guide: Guide, stock: Stock) -> tuple[TeamPlan, ...]:
    """Plans for one person, and for every larger team that is clearly less long at the bench."""
    plans = [plan_team(guide, stock, 1)]
    for people in range(2, MOST + 1):
        plan = plan_team(guide, stock, people)
        if plan.busy <= WORTH * plans[-1].busy:
            plans.append(plan)
    return tuple(plans)


def plan_team(guide: Guide, stock: Stock, people: int) -> TeamPlan:
    """List scheduling: whenever somebody is free, the next step in the author's order that may
    start does. Steps must be in an order that works (the checks see to that).

    A step takes as many people as it asks for, or the whole team where that is smaller. Steps that
    the stock's rules keep apart never run side by side, and follow each other as late as the rules
    ask. For a single person that is the author's order, waits used for other steps.
    """
    return _Workshop(guide, stock, people).run()


@dataclass(slots=True)
class _Apart:
    """A rule about the room: numbers of steps on both sides, and when the last of each ended."""

    firsts: frozenset[int]
    thens: frozenset[int]
    wait: float
    """minutes of airing after the first."""
    first_end: float = -inf
    then_end: float = -inf


class _Workshop:
    """The state of a bench while a plan is made."""

    def __init__(self, guide: Guide, stock: Stock, people: int) -> None:
        self.steps = guide.steps
        self.people = people
        number = {step.id: index for index, step in enumerate(guide.steps)}
        self.before = [
            [number[name] for name in depends_on(guide)[step.id] if name in number]
            for step in guide.steps
        ]
        self.waits = [step_wait(step, stock) for step in guide.steps]
        kinds = step_kinds(guide, stock)
        self.apart = [
            _Apart(
                frozenset(kinds.steps(rule, rule.first)),
                frozenset(kinds.steps(rule, rule.then)),
                rule.wait,
            )
            for rule in stock.rules
            if rule.apart
        ]
        self.free = [0.0] * people
        """When each person is free."""
        self.slots: dict[int, TeamSlot] = {}

    def run(self) -> TeamPlan:
        """Start steps until all are started."""
        while len(self.slots) < len(self.steps):
            starts = {
                number: self._earliest(number)
                for number in range(len(self.steps))
                if number not in self.slots
                and all(one in self.slots for one in self.before[number])
            }
            now = min(starts.values())
            self._start(next(number for number, at in starts.items() if at <= now), now)
        ends = [self._ready(number) for number in self.slots]
        return TeamPlan(self.people, tuple(self.slots.values()), max(ends, default=0.0))

    def _hands(self, number: int) -> int:
        return min(self.steps[number].hands, self.people)

    def _ready(self, number: int) -> float:
        """When a started step is over, its wait included."""
        return self.slots[number].end + self.waits[number]

    def _earliest(self, number: int) -> float:
        """When a step may start: parts ready, hands free, room clear.

        Steps start in the order of time, so the last ends of a rule's two sides are enough.
        """
        at = max((self._ready(one) for one in self.before[number]), default=0.0)
        at = max(at, sorted(self.free)[self._hands(number) - 1])
        for rule in self.apart:
            if number in rule.thens:
                at = max(at, rule.first_end + rule.wait)
            if number in rule.firsts:
                at = max(at, rule.then_end)
        return at

    def _start(self, number: int, now: float) -> None:
        """Give a step to those who have been free longest."""
        order = sorted(range(self.people), key=lambda person: (self.free[person], person))
        chosen = tuple(sorted(order[: self._hands(number)]))
        step = self.steps[number]
        end = now + step.time
        for person in chosen:
            self.free[person] = end
        for rule in self.apart:
            if number in rule.firsts:
                rule.first_end = max(rule.first_end, end)
            if number in rule.thens:
                rule.then_end = max(rule.then_end, end)
        self.slots[number] = TeamSlot(step.id, now, end, chosen)
