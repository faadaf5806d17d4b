"""Steps in → how long they take one person, and who does what when in a team or a class."""

from collections.abc import Iterable, Mapping

from guidegen.buildfile.derive.cautions import step_tools
from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.records.guide import Guide, Step
from guidegen.buildfile.records.stock import Stock
from guidegen.checks.steps.order import step_kinds
from guidegen.layout.hours import SLACK, Hours
from guidegen.layout.schedules import Schedule
from guidegen.layout.times.class_plan import tool_count
from guidegen.layout.times.class_records import HoursAdvice
from guidegen.layout.times.scheduler import Work, schedule
from guidegen.layout.times.step_graph import depends_on

MOST = 4
"""People of a team: more get in each other's way at one bench. Our choice."""

WORTH = 0.95
"""A team is told of where its bench hours are at most this share of the next smaller one's."""


def plan_time(guide: Guide, stock: Stock) -> Schedule:
    """One person at one kit, day and night: the next step in order that may start does.

    Waits run beside other work. What never shares a room is not kept apart: that is for the
    author's order to see to, and for the audit to find. Steps must be in an order that works (the
    checks see to that).
    """
    return Schedule(1, schedule(_work(guide.steps, guide, stock, 1, apart=False), 1))


def plan_team(guide: Guide, stock: Stock, people: int, hours: Hours | None = None) -> Schedule:
    """Several people at one kit, side by side where the steps allow it.

    A step takes as many people as it asks for, or the whole team where that is smaller. Steps that
    the stock's rules keep apart stay in the author's order, and follow each other as late as the
    rules ask. A team has as many tools as it needs. Hands are at work in the `hours`, without them
    day and night; what cures and dries goes on at night.
    """
    work = _work(guide.steps, guide, stock, people)
    return Schedule(people, schedule(work, people, hours=hours), hours=hours)


def plan_teams(guide: Guide, stock: Stock, hours: Hours | None = None) -> tuple[Schedule, ...]:
    """Plans for one person, and for every larger team that is clearly less long at the bench."""
    plans = [plan_team(guide, stock, 1, hours)]
    # Compared with the last plan that was worth telling: small gains of two further people add up.
    for people in range(2, MOST + 1):
        plan = plan_team(guide, stock, people, hours)
        if plan.busy <= WORTH * plans[-1].busy:
            plans.append(plan)
    return tuple(plans)


def marked_beforehand(guide: Guide) -> tuple[str, ...]:
    """Steps that the author has the leader do before the class."""
    return tuple(step.id for step in guide.steps if step.beforehand)


def plan_class_times(
    guide: Guide, stock: Stock, people: int, beforehand: Iterable[str] | None = None
) -> Schedule:
    """A time table for `people`, each with a kit to build, sharing tools.

    Whoever is free starts the next step in the author's order for which the own pieces are ready,
    the tools that one person keeps through a step are free (`turns` in stock; as many as
    `tool_count` says) and enough hands are. What a rule of the stock keeps apart is done by the
    class together: nobody begins the later work before all have ended the earlier one, and the
    room is aired. `beforehand` are steps done before; by default those that the author marks.
    Steps must be in an order that works (the checks see to that).
    """
    before = set(marked_beforehand(guide) if beforehand is None else beforehand)
    steps = [step for step in guide.steps if step.id not in before]
    work = _work(steps, guide, stock, people, tools=True)
    names = sorted({tool for one in work for tool in one.tools})
    counts = {name: tool_count(stock.tools[name], people) for name in names}
    done = tuple(step.id for step in guide.steps if step.id in before)
    # As many kits as people: everybody builds their own.
    return Schedule(people, schedule(work, people, people, counts), done)


def advise_hours(guide: Guide, stock: Stock, times: Schedule, hours: float) -> HoursAdvice:
    """Whether the `times` of a class fit in `hours`; if not, what to prepare, and what is left."""
    limit = hours * 60
    if times.end <= limit + SLACK:
        return HoursAdvice(0.0)
    rest = [step.id for step in guide.steps if step.id not in times.beforehand]
    # Halving, as more steps done before never make a class longer.
    low, high = 1, len(rest)
    while low < high:
        middle = (low + high) // 2
        more = [*times.beforehand, *rest[:middle]]
        if plan_class_times(guide, stock, times.people, more).end <= limit + SLACK:
            high = middle
        else:
            low = middle + 1
    prepare = rest[:low] if low < len(rest) else []
    undone = {slot.step for slot in times.slots if slot.end > limit + SLACK}
    return HoursAdvice(
        times.end - limit, tuple(prepare), tuple(name for name in rest if name in undone)
    )


def _work(
    steps: Iterable[Step],
    guide: Guide,
    stock: Stock,
    people: int,
    *,
    apart: bool = True,
    tools: bool = False,
) -> list[Work]:
    """The `steps` of a guide in the author's order, as a bench sees them."""
    number = {step.id: n for n, step in enumerate(steps)}
    kept = _kept_apart(guide, stock, number) if apart else {}
    needed = depends_on(guide)
    return [
        Work(
            step.id,
            step.time,
            step_wait(step, stock),
            # What takes more people than there are is done by all of them: it cannot wait for
            # ever.
            min(step.hands, people),
            tuple(number[name] for name in needed[step.id] if name in number),
            tuple(sorted(kept.get(n, {}).items())),
            tuple(
                tool
                for tool in step_tools(step, stock)
                if tools and tool in stock.tools and stock.tools[tool].turns
            ),
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
        if not rule.apart or rule.level == "none":
            continue
        thens = inside(kinds.steps(rule, rule.then))
        for first in inside(kinds.steps(rule, rule.first)):
            for then in thens:
                if first != then:
                    early, late = min(first, then), max(first, then)
                    # The other way round nothing has to air: what was done later is the one that
                    # harms.
                    airing = rule.wait if first < then else 0.0
                    known = found.setdefault(late, {})
                    known[early] = max(known.get(early, 0.0), airing)
    return found
