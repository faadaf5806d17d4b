"""Steps in → what comes before each, what nobody can speed up, and which cautions each has."""

from guidegen.buildfile.derive.cautions import step_cautions
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.records import StepCautions


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
            # All that came before waits behind this one step now; each part begins anew after it.
            barrier, since, last_on = step.id, [], {}
        before[step.id] = tuple(dict.fromkeys([*found, *step.needs]))
    return before


def gather_cautions(guide: Guide, stock: Stock) -> tuple[StepCautions, ...]:
    """The cautions of every step, gravest first."""
    return tuple(
        StepCautions(step.id, tuple(found), tuple(found.values()))
        for step in guide.steps
        for found in [step_cautions(step, stock)]
    )
