"""Steps in → an order that works, and how long it takes one person, waits used for other work."""

from guidegen.buildfile.derive.cautions import step_cautions
from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.records import StepCautions, TimeLine

__all__ = ["depends_on", "gather_cautions", "longest_path", "plan_time", "step_wait"]


def depends_on(guide: Guide) -> dict[str, tuple[str, ...]]:
    """For each step, the earlier steps that must be finished first.

    Those are the last step on each of its parts, what it `needs`, and the last step without
    parts; a step without parts (printing, a dry fit of everything) waits for all before it.
    """
    last_on: dict[str, str] = {}
    barrier: str | None = None
    since: list[str] = []
    before: dict[str, tuple[str, ...]] = {}
    for step in guide.steps:
        if step.parts:
            found = [last_on[part] for part in step.parts if part in last_on]
            found += [barrier] if barrier else []
            since.append(step.id)
            last_on.update(dict.fromkeys(step.parts, step.id))
        else:
            found = since or ([barrier] if barrier else [])
            barrier, since, last_on = step.id, [], {}
        before[step.id] = tuple(dict.fromkeys([*found, *step.needs]))
    return before


def plan_time(guide: Guide, stock: Stock) -> TimeLine:
    """A time line for one person: the next step in the author's order that may start does.

    List scheduling with one worker: hands-on times never overlap, waits run beside other work.
    Steps must be in an order that works (the checks see to that).
    """
    before = depends_on(guide)
    steps = {step.id: step for step in guide.steps}
    ready_at: dict[str, float] = {}
    order: list[str] = []
    starts: list[float] = []
    now = 0.0
    waiting = list(steps)
    while waiting:
        earliest = {
            name: max((ready_at[other] for other in before[name]), default=0.0)
            for name in waiting
            if all(other in ready_at for other in before[name])
        }
        now = max(now, min(earliest.values()))
        name = next(name for name in waiting if name in earliest and earliest[name] <= now)
        order.append(name)
        starts.append(now)
        now += steps[name].time
        ready_at[name] = now + step_wait(steps[name], stock)
        waiting.remove(name)
    return TimeLine(
        tuple(order),
        sum(step.time for step in guide.steps),
        max(ready_at.values(), default=0.0),
        tuple(starts),
    )


def longest_path(guide: Guide, stock: Stock) -> tuple[tuple[str, ...], float]:
    """The steps that nobody can speed up by helping, and the minutes from start to end then.

    With as many people as one likes every step starts as soon as all that it needs is ready; the
    chain that is ready last decides (the critical path method).
    """
    before = depends_on(guide)
    ready: dict[str, float] = {}
    because: dict[str, str | None] = {}
    for step in guide.steps:
        last = max(before[step.id], key=lambda name: ready[name], default=None)
        because[step.id] = last
        start = ready[last] if last is not None else 0.0
        ready[step.id] = start + step.time + step_wait(step, stock)
    end = max(ready, key=lambda name: ready[name])
    chain: list[str] = []
    at: str | None = end
    while at is not None:
        chain.append(at)
        at = because[at]
    return tuple(reversed(chain)), ready[end]


def gather_cautions(guide: Guide, stock: Stock) -> tuple[StepCautions, ...]:
    """The cautions of every step, gravest first."""
    return tuple(
        StepCautions(step.id, tuple(found), tuple(found.values()))
        for step in guide.steps
        for found in [step_cautions(step, stock)]
    )
