"""Steps, people and tools in → who does what when in a class, and what would make it shorter."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace
from math import inf

from guidegen.buildfile.derive.cautions import step_tools
from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.read.people.class_days import MOST_DAYS
from guidegen.buildfile.records.guide import Guide, Step
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.class_hours import ClassDay, ClassHours
from guidegen.layout.hours import DAY, SLACK
from guidegen.layout.schedules import Schedule, Slot
from guidegen.layout.times.class_plan import seats, tool_count
from guidegen.layout.times.class_records import (
    SHORTER,
    Gain,
    GainKind,
    HoursAdvice,
    Means,
)
from guidegen.layout.times.plans import bench_work, marked_beforehand
from guidegen.layout.times.scheduler import Crew, StepOrder, Work, schedule
from guidegen.layout.times.step_graph import depends_on

MOST_GAINS = 5
"""Changes that are told. Our choice: a leader decides on one or two."""
LEAST_GAIN = 1.0
"""minutes; less is not worth a change. Our choice."""


def plan_class_times(
    guide: Guide,
    stock: Stock,
    people: int,
    beforehand: Iterable[str] | None = None,
    means: Means | None = None,
) -> Schedule:
    """A time table for `people`, each with a kit to build, sharing tools.

    Whoever is free starts the next step in the author's order for which the own pieces are ready,
    the tools that people wait for are free and enough hands are. Those are tools that one person
    keeps through a step (`turns` in stock), as many as the `means` or else `tool_count` say, and
    others of which the `means` have too few for all at once. What a rule of the stock keeps apart
    is done by the class together: nobody begins the later work before all have ended the earlier
    one, and the room is aired; with two rooms each has one of its own. `beforehand` are steps done
    before; by default those that the author marks. Work for adults on the kit of somebody young is
    taken over. Where the author's order is not over by the end of the `means`, steps with the
    longest path behind them go first, or those with a tool that people wait for, if that is
    shorter.

    Steps must be in an order that works (the checks see to that); raises ValueError
    where `too_few_adults` finds any.
    """
    means = means or Means()
    before = set(marked_beforehand(guide) if beforehand is None else beforehand)
    steps = [step for step in guide.steps if step.id not in before]
    counts = kept_tools(guide, stock, people, means)
    crew = Crew(people, means.helpers, means.young)
    work = bench_work(steps, guide, stock, crew.leader, kept=counts, apart=means.rooms < 2)
    if any(_lacks(one, crew, means) for one in work):
        raise ValueError("a step takes more adults than there are")
    done = tuple(step.id for step in guide.steps if step.id in before)
    # Work that does not fit goes on after the end: whether it fits is for the advice to say.
    days = means.days or (ClassDay(0.0, inf),)
    hours = ClassHours(days, means.breaks) if means.breaks or means.days else None
    # As many kits as people: everybody builds their own.
    slots = schedule(work, people, people, counts, hours, crew=crew)
    if means.end is not None and _over(slots) > means.end + SLACK:
        tries = (
            schedule(work, people, people, counts, hours, crew=crew, order=order)
            for order in (StepOrder.LONGEST_PATH, StepOrder.SHARED_TOOLS)
        )
        # Of equally long ones the author's.
        slots = min((slots, *tries), key=_over)
    return Schedule(people, slots, done, class_hours=hours)


def _over(slots: tuple[Slot, ...]) -> float:
    return max((slot.end for slot in slots), default=0.0)


def too_few_adults(guide: Guide, stock: Stock, people: int, means: Means) -> dict[str, int]:
    """Steps of the class that take more adults than there are, with how many they take.

    The leader is one. Where nobody is young, nothing is asked.
    """
    before = marked_beforehand(guide)
    steps = [step for step in guide.steps if step.id not in before]
    crew = Crew(people, means.helpers, means.young)
    work = bench_work(steps, guide, stock, crew.leader)
    return {one.step: one.hands for one in work if _lacks(one, crew, means)}


def adults_there(crew: Crew, means: Means) -> int:
    """How many adults are there on the day with most of them, the leader counted."""
    days = [day.away for day in means.days] or [frozenset()]
    return max(len(set(crew.adults) - away) for away in days)


def _lacks(work: Work, crew: Crew, means: Means) -> bool:
    return work.adults and bool(crew.young) and work.hands > adults_there(crew, means)


def kept_tools(guide: Guide, stock: Stock, people: int, means: Means) -> dict[str, int]:
    """Tools of a guide that people may wait for, with how many can use them at once."""
    used = dict.fromkeys(tool for step in guide.steps for tool in step_tools(step, stock))
    found: dict[str, int] = {}
    for name in used:
        tool = stock.tools.get(name)
        if tool is None:
            continue
        there = means.tools.get(name, tool_count(tool, people))
        if tool.turns or seats(tool, there) < people:
            found[name] = seats(tool, there)
    return found


def advise_hours(
    guide: Guide, stock: Stock, times: Schedule, hours: float, means: Means | None = None
) -> HoursAdvice:
    """Whether the `times` of a class fit in `hours`; if not, what to change, and what is left."""
    limit = hours * 60
    if times.end <= limit + SLACK:
        return HoursAdvice(0.0)
    rest = [step.id for step in guide.steps if step.id not in times.beforehand]
    # Halving, as more steps done before never make a class longer.
    low, high = 1, len(rest)
    while low < high:
        middle = (low + high) // 2
        more = [*times.beforehand, *rest[:middle]]
        if plan_class_times(guide, stock, times.people, more, means).end <= limit + SLACK:
            high = middle
        else:
            low = middle + 1
    prepare = rest[:low] if low < len(rest) else []
    undone = {slot.step for slot in times.slots if slot.end > limit + SLACK}
    return HoursAdvice(
        times.end - limit,
        tuple(prepare),
        tuple(name for name in rest if name in undone),
        _gains(guide, stock, times, limit, means or Means()),
        _days_needed(guide, stock, times, limit, means or Means()),
    )


def _days_needed(
    guide: Guide, stock: Stock, times: Schedule, limit: float, means: Means
) -> int | None:
    """Days of the same hours and breaks, one after the other, that a class would fit; 0 where it
    fits none of `MOST_DAYS`, None where it has several already.
    """
    if means.days or limit > DAY:
        return None

    def fits(count: int) -> bool:
        starts = [number * DAY for number in range(count)]
        more = replace(
            means,
            days=tuple(ClassDay(start, start + limit) for start in starts),
            breaks=tuple((start + a, start + b) for start in starts for a, b in means.breaks),
            end=starts[-1] + limit,
        )
        planned = plan_class_times(guide, stock, times.people, times.beforehand, more)
        return planned.end <= starts[-1] + limit + SLACK

    low, high = 2, MOST_DAYS
    if not fits(high):
        return 0
    # Halving; `high` always fits, even where one more day once happens to be one too few.
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if fits(middle) else (middle + 1, high)
    return low


def _gains(
    guide: Guide, stock: Stock, times: Schedule, limit: float, means: Means
) -> tuple[Gain, ...]:
    """What single changes save: each is planned anew with that change alone."""
    found = []
    for kind, name, changed in _changed(guide, stock, times, means):
        saved = times.end - changed.end
        if saved >= LEAST_GAIN:
            found.append(Gain(kind, name, saved, changed.end <= limit + SLACK))
    # The sort is stable: of equal gains the tool comes first, as it is the smaller change.
    return tuple(sorted(found, key=lambda gain: -gain.minutes)[:MOST_GAINS])


def _changed(
    guide: Guide, stock: Stock, times: Schedule, means: Means
) -> Iterator[tuple[GainKind, str, Schedule]]:
    """Plans with one change each: one more of a tool, a shorter break, a helper, a step before."""
    people, before = times.people, times.beforehand
    inside = {tool for slot in times.slots for tool, _ in slot.tools}
    for name in kept_tools(guide, stock, people, means):
        if name in inside:
            there = means.tools.get(name, tool_count(stock.tools[name], people))
            more = replace(means, tools={**means.tools, name: there + 1})
            yield GainKind.TOOL, name, plan_class_times(guide, stock, people, before, more)
    for number, (start, end) in enumerate(means.breaks):
        if end - start >= 2 * SHORTER:
            spans = [*means.breaks]
            spans[number] = (start, end - SHORTER)
            shorter = replace(means, breaks=tuple(spans))
            found = plan_class_times(guide, stock, people, before, shorter)
            yield GainKind.BREAK, f"{number + 1}", found
    if any(slot.taken_over for slot in times.slots):
        more = replace(means, helpers=means.helpers + 1)
        yield GainKind.HELPER, "", plan_class_times(guide, stock, people, before, more)
    for step in guide.steps:
        # What is let air or dry for a day is worth as much before the class as what is made.
        makes = step.parts or step_wait(step, stock)
        if makes and step.id not in before and not lacking_before(guide, step, before):
            done = [*before, step.id]
            yield GainKind.STEP, step.id, plan_class_times(guide, stock, people, done, means)


def lacking_before(guide: Guide, step: Step, before: Collection[str]) -> tuple[str, ...]:
    """Steps that must be done before the class too if a step is.

    Steps without parts do not count: a welcome is for the class, and nothing is made in it.
    """
    needed = depends_on(guide)
    found: set[str] = set()
    ahead = [step.id]
    while ahead:
        more = {name for name in needed[ahead.pop()] if name not in before} - found
        found |= more
        ahead += more
    return tuple(one.id for one in guide.steps if one.parts and one.id in found)
