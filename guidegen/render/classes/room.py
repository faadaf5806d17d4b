"""Steps and tools of a class in → what the room must have, in words.

Sockets, water, air and heatproof places come from the stock (`room` of tools and cautions); places
at tables are common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from guidegen.buildfile.derive.cautions import step_cautions, step_tools
from guidegen.buildfile.records.guide import Step
from guidegen.buildfile.records.safety.cautions import RoomNeed
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.times.class_records import AT_TABLE, ClassPlan, ToolCount
from guidegen.render.views.scene import LinkView, Scene, step_links
from guidegen.words import Words, msg

PLACE = (80, 60)
"""cm of table for each person. Common practice, no source."""


@dataclass(frozen=True, slots=True)
class RoomView:
    """One thing that the room must have."""

    name: str
    words: str
    steps: tuple[LinkView, ...] = ()
    """Steps that ask for it; empty for all."""
    why: str = ""
    """Tools and cautions that ask for it."""


NAMES = {
    RoomNeed.AIR: msg("Fresh air"),
    RoomNeed.SOCKET: msg("Sockets"),
    RoomNeed.WATER: msg("Water"),
    RoomNeed.HEATPROOF: msg("Heatproof places"),
}

SAYINGS = {
    RoomNeed.AIR: msg(
        "Outdoors, extraction, or windows open on two sides, as the data sheet of the product asks."
    ),
    RoomNeed.WATER: msg("Running water and soap in the room or next door."),
}


def room_views(scene: Scene, plan: ClassPlan) -> tuple[RoomView, ...]:
    """Tables first, then what tools and cautions of the steps in the room ask for, then help."""
    stock, words = scene.content.stock, scene.words
    steps = [step for step in scene.guide.steps if step.id not in plan.times.beforehand]
    found = [_tables(len(plan.people), words), *_two_rooms(scene, plan)]
    for need in RoomNeed:
        reasons = {step.id: _asking(step, stock, need) for step in steps}
        ids = tuple(name for name, why in reasons.items() if why)
        if ids:
            why = dict.fromkeys(one for names in reasons.values() for one in names)
            found.append(
                RoomView(
                    words.say(NAMES[need]),
                    _saying(need, steps, plan, stock, words),
                    step_links(scene, ids),
                    words.listed(why),
                )
            )
    return (*found, _help(words))


def _tables(people: int, words: Words) -> RoomView:
    said = words.say(
        "{places} of about {width} × {depth} cm each with good light, {tables}, and room to pass "
        "behind every chair.",
        places=words.many("{n} place", "{n} places", people),
        width=PLACE[0],
        depth=PLACE[1],
        tables=words.many("at {n} table", "at {n} tables", ceil(people / AT_TABLE)),
    )
    return RoomView(words.say("Tables"), said)


def _two_rooms(scene: Scene, plan: ClassPlan) -> Iterator[RoomView]:
    """Which work goes into a room of its own, where there are two."""
    words = scene.words
    if plan.own_room:
        said = words.say(
            "Two, with a door that stays shut and an adult in each: these steps have one for "
            "themselves, all others the other one."
        )
        yield RoomView(
            words.say("Rooms"), said, step_links(scene, plan.own_room), words.say("fumes or heat")
        )


def _help(words: Words) -> RoomView:
    said = words.say(
        "Shown to all at the start: the way out, the first-aid kit, the tap, the extinguisher and "
        "a telephone with the local emergency number beside it."
    )
    return RoomView(words.say("In an emergency"), said)


def _asking(step: Step, stock: Stock, need: RoomNeed) -> list[str]:
    """Names of the tools and cautions of a step that ask for something."""
    tools = [stock.tools[name] for name in step_tools(step, stock) if name in stock.tools]
    cautions = [stock.cautions[name] for name in step_cautions(step, stock)]
    names = [tool.name for tool in tools if need in tool.room]
    return names + [caution.title for caution in cautions if need in caution.room]


def _at_once(one: ToolCount, plan: ClassPlan) -> int:
    """How many of a tool are used at once: more than the usual count where more are there."""
    units = {unit for slot in plan.times.slots for unit in slot.tools if unit[0] == one.tool.tool}
    return len(units) or one.count


def _saying(need: RoomNeed, steps: list[Step], plan: ClassPlan, stock: Stock, words: Words) -> str:
    if need in SAYINGS:
        return words.say(SAYINGS[need])
    here = {name for step in steps for name in step_tools(step, stock)}
    count = sum(
        _at_once(one, plan)
        for one in plan.tools
        if one.tool.tool in here and need in stock.tools[one.tool.tool].room
    )
    if need is RoomNeed.SOCKET:
        return words.many(
            "{n} socket, with its cord where nobody walks.",
            "{n} sockets, with cords where nobody walks; not all on one circuit.",
            count,
        )
    return words.many(
        "{n} place to put down what is hot, clear of everything that burns.",
        "{n} places to put down what is hot, clear of everything that burns.",
        max(1, count),
    )
