"""Steps in → how long they take one person, and who does what when in a team."""

from collections.abc import Collection, Iterable, Mapping

from guidegen.buildfile.derive.cautions import step_tools, step_young
from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.records.guide import Guide, Step
from guidegen.buildfile.records.materials import MaterialKind
from guidegen.buildfile.records.safety.cautions import Young
from guidegen.buildfile.records.stock import Stock
from guidegen.checks.steps.order import step_kinds
from guidegen.layout.hours import WHOLE, Hours
from guidegen.layout.schedules import Schedule
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
    return Schedule(1, schedule(bench_work(guide.steps, guide, stock, 1, apart=False), 1))


def plan_team(guide: Guide, stock: Stock, people: int, hours: Hours | None = None) -> Schedule:
    """Several people at one kit, side by side where the steps allow it.

    A step takes as many people as it asks for, or the whole team where that is smaller. Steps that
    the stock's rules keep apart stay in the author's order, and follow each other as late as the
    rules ask. A team has as many tools as it needs. Hands are at work in the `hours`, without them
    day and night; what cures and dries goes on at night.
    """
    work = bench_work(guide.steps, guide, stock, people)
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


def bench_work(
    steps: Iterable[Step],
    guide: Guide,
    stock: Stock,
    people: int,
    *,
    apart: bool = True,
    kept: Collection[str] = (),
) -> list[Work]:
    """The `steps` of a guide in the author's order, as a bench sees them.

    `apart`: with the rules of what never shares a room; `kept` are tools that people wait for.
    """
    number = {step.id: n for n, step in enumerate(steps)}
    rules = kept_apart(guide, stock, number) if apart else {}
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
            tuple(sorted(rules.get(n, {}).items())),
            tuple(tool for tool in step_tools(step, stock) if tool in kept),
            step_young(step, stock) is Young.ADULTS,
            _rests(step, stock),
        )
        for n, step in enumerate(steps)
    ]


def _rests(step: Step, stock: Stock) -> bool:
    """Whether work may be laid down overnight: nothing wet, hot or drying is left half done.

    Work of up to an hour never is, as nobody lays a fold half done down.
    """
    wet = any(
        stock.materials[use.material].kind is MaterialKind.LIQUID
        for use in step.uses
        if use.material in stock.materials
    )
    return step.time > WHOLE and not wet and not step_wait(step, stock)


def kept_apart(
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
