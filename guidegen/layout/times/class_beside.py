"""A class in → what is done before it, for all kits, and how it goes without some of its people."""

from collections.abc import Collection
from dataclasses import replace
from math import ceil

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.hours import SLACK
from guidegen.layout.times.class_records import BeforeWork, Means, Missing
from guidegen.layout.times.class_times import plan_class_times, too_few_adults
from guidegen.layout.times.plans import kept_apart

MISSING = 2
"""People who may stay away without a word. Common practice, no source."""
LEAST_LEFT = 2
"""People of a class that is held without them. Our choice."""


def plan_before(
    guide: Guide, people: int, before: Collection[str], means: Means, sets: int | None = None
) -> tuple[BeforeWork, ...]:
    """The steps before a class with how long they take the leader and the helpers.

    A step that concerns pieces is done once for each of `people`, or once for each of the `sets`
    of templates (by default as many) where the guide says so; where it takes more hands than there
    are adults, all of them do it. Its time is that of the guide each time: who does the same twelve
    times is quicker at the end, and slower where tools are shared.
    """
    adults = 1 + means.helpers
    found = []
    for step in guide.steps:
        if step.id in before:
            by_size = step.for_each == "size" and sets is not None
            each = sets if by_size and sets else people
            kits = each if step.parts else 1
            crews = max(1, adults // step.hands)
            found.append(
                BeforeWork(
                    step.id,
                    kits,
                    min(adults, kits * step.hands),
                    step.time * ceil(kits / crews),
                    by_size,
                )
            )
    return tuple(found)


def plan_own_room(
    guide: Guide, stock: Stock, before: Collection[str], means: Means
) -> tuple[str, ...]:
    """Steps that get a second room for themselves: the later of those that never share one."""
    if means.rooms < 2:
        return ()
    steps = [step.id for step in guide.steps if step.id not in before]
    rules = kept_apart(guide, stock, {step: number for number, step in enumerate(steps)})
    return tuple(steps[number] for number in sorted(rules))


def plan_missing(  # noqa: PLR0917 - a class and what it has
    guide: Guide, stock: Stock, people: int, before: Collection[str], means: Means, hours: float
) -> Missing | None:
    """A class without `MISSING` people, of whom as many as possible are adults: the worst case.

    None where too few would be left. `hours` are those of the class.
    """
    left = people - MISSING
    if left < LEAST_LEFT:
        return None
    adults = [number for number in range(people) if number not in means.young]
    young = sorted(means.young)
    gone = {*adults[-MISSING:], *young[len(young) - max(0, MISSING - len(adults)) :]}
    numbers = [number for number in range(people) if number not in gone]
    still_young = frozenset(n for n, number in enumerate(numbers) if number in means.young)
    days = tuple(
        replace(day, away=frozenset(n for n, one in enumerate(numbers) if one in day.away))
        for day in means.days
    )
    less = replace(means, young=still_young, days=days)
    lacking = too_few_adults(guide, stock, left, less)
    if lacking:
        return Missing(MISSING, 0.0, False, tuple(lacking))
    end = plan_class_times(guide, stock, left, before, less).end
    return Missing(MISSING, end, end <= hours * 60 + SLACK)
