"""Steps in → the parts that each works on, and the steps that cut each part."""

from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.records.guide import Guide, Stage, Step, Use
from guidegen.buildfile.records.stock import Stock

STAGES = list(Stage)
"""In their usual order."""


def joint_parts(guide: Guide, name: str) -> tuple[str, ...]:
    """Parts of a seam or layer stack, each once."""
    if name in guide.seams:
        ends = (end.partition(".")[0] for end in guide.seams[name].join)
        return tuple(dict.fromkeys(ends))
    if name in guide.stacks:
        return tuple(dict.fromkeys(layer.part for layer in guide.stacks[name].layers))
    return ()


def linked_parts(guide: Guide, name: str) -> tuple[str, ...]:
    """Plates of a linkage, each once, in their order."""
    linkage = guide.linkages.get(name)
    joints = linkage.joints if linkage is not None else ()
    rows = (end.row for joint in joints for end in (joint.first, joint.second))
    return tuple(dict.fromkeys(row.partition(".")[0] for row in rows))


def used_on(guide: Guide, use: Use) -> tuple[str, ...]:
    """Parts on which things of a use sit, a bead is laid, or a circuit is built."""
    refs = [*use.at, *(use.bead.edges if use.bead is not None else ())]
    parts = [ref.partition(".")[0] for ref in refs]
    if use.circuit in guide.circuits:
        parts.append(guide.circuits[use.circuit].on)
    return tuple(dict.fromkeys(part for part in parts if part in guide.parts))


def worked_parts(step: Step, guide: Guide) -> tuple[str, ...]:
    """Parts of a step: those that it lists, and those of what it joins or puts on them."""
    joined = [part for name in (*step.seams, *step.stacks) for part in joint_parts(guide, name)]
    joined += [part for name in step.linkages for part in linked_parts(guide, name)]
    worn = [guide.harnesses[name] for name in step.harnesses if name in guide.harnesses]
    rows = (place.row for one in worn for place in one.places.values() if place.row is not None)
    joined += [row.partition(".")[0] for row in rows]
    casings = [guide.casings[name] for name in step.casings if name in guide.casings]
    joined += [ref.partition(".")[0] for one in casings for ref in one.along]
    joined += [part for use in step.uses for part in used_on(guide, use)]
    return tuple(dict.fromkeys([*step.parts, *joined]))


def is_cutting(step: Step, stock: Stock) -> bool:
    """Whether pieces come into being here.

    The process says so; in a stock where none does, the stage decides.
    """
    if any(process.cuts for process in stock.processes.values()):
        process = stock.processes.get(step.process or "")
        return process is not None and process.cuts
    return step.stage is Stage.CUTTING


def cutting_steps(guide: Guide, stock: Stock) -> dict[str, list[int]]:
    """For each part the numbers of the steps that cut it."""
    found: dict[str, list[int]] = {part: [] for part in guide.parts}
    for number, step in enumerate(guide.steps):
        if is_cutting(step, stock):
            for part in step.parts:
                if part in found:
                    found[part].append(number)
    return found


def minutes_between(guide: Guide, stock: Stock, part: str, first: int, then: int) -> float:
    """Least minutes from the end of one step to the start of a later one on the same part.

    Waits, and all work on the part or on everything in between: helpers cannot shorten that.
    """
    minutes = step_wait(guide.steps[first], stock)
    for number in range(first + 1, then):
        step = guide.steps[number]
        if not step.parts or part in worked_parts(step, guide):
            minutes += step.time + step_wait(step, stock)
    return minutes
