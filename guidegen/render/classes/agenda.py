"""Plan of a class in → what its leader says and looks at, day by day, and what stays at night."""

from collections.abc import Iterable
from dataclasses import dataclass

from guidegen.buildfile.derive.caution_places import for_builders
from guidegen.buildfile.derive.cautions import step_tools
from guidegen.buildfile.records.guide import Step
from guidegen.layout.class_hours import ClassDay
from guidegen.layout.times.class_records import ClassPlan
from guidegen.render.text.class_names import day_line, day_words, hours_words, minute_words
from guidegen.render.views.scene import Scene, step_numbers
from guidegen.words import Words


@dataclass(frozen=True, slots=True)
class AgendaView:
    """What is said when a step begins, and looked at before people go on."""

    clock: str
    number: int
    title: str
    say: tuple[str, ...]
    check: str
    """Empty where the guide says nothing, and on a day on which nobody ends it."""


@dataclass(frozen=True, slots=True)
class NightView:
    """What is left in the evening of a day."""

    dries: tuple[str, ...]
    """Steps whose glue or paint dries on, with the kits and until when."""
    goes_on: tuple[str, ...]
    """Steps that somebody has begun and takes up again."""
    stays: tuple[str, ...]
    """Tools that are used again on a later day."""
    done: tuple[str, ...]
    """Tools that are not."""


@dataclass(frozen=True, slots=True)
class AgendaDayView:
    """A day of the class."""

    name: str
    """With its hours; empty where there is one day."""
    away: str
    """Who is not there; empty for nobody."""
    rows: tuple[AgendaView, ...]
    night: NightView | None
    """None after the last day."""


def agenda_views(scene: Scene, plan: ClassPlan) -> tuple[AgendaDayView, ...]:
    """What is said and looked at, day by day; a day without a name where there is one alone."""
    days = plan.times.class_days
    if not days:
        return (AgendaDayView("", "", _agenda(scene, plan, None), None),)
    return tuple(
        AgendaDayView(
            day_line(plan, day, scene.words),
            _away_words(plan, day, scene.words),
            _agenda(scene, plan, day),
            None if day is days[-1] else _night(scene, plan, day),
        )
        for day in days
    )


def steps_of_day(scene: Scene, plan: ClassPlan, day: ClassDay) -> tuple[Step, ...]:
    """Steps that anybody works at on a day, in the guide's order."""
    return tuple(step for step in scene.guide.steps if plan.times.on(day, step.id))


def used_on(scene: Scene, plan: ClassPlan, tool: str) -> str:
    """The days on which a tool is used, or that it is used after the class alone; empty for all of
    them, and in a class of one day."""
    days = plan.times.class_days
    stock = scene.content.stock
    starts = [
        plan.times.span(step.id)[0]
        for step in scene.guide.steps
        if step.id not in plan.times.beforehand and tool in step_tools(step, stock)
    ]
    if starts and all(plan.is_left(start) for start in starts):
        return scene.words.say("after the class")
    used = [
        day
        for day in days
        if any(tool in step_tools(step, stock) for step in steps_of_day(scene, plan, day))
    ]
    if not used or len(used) == len(days):
        return ""
    return scene.words.listed(day_words(day, scene.words) for day in used)


def _agenda(scene: Scene, plan: ClassPlan, day: ClassDay | None) -> tuple[AgendaView, ...]:
    """Steps of the class, or of a day of it, by their first start: cautions that are new with each
    in one line, said anew on each day, and what the guide has people check at its end."""
    stock, numbers, times = scene.content.stock, step_numbers(scene.guide), plan.times
    brought = {found.step: found.cautions for found in scene.plan.cautions}
    rows: list[tuple[tuple[tuple[float, float], ...], Step]] = []
    for step in scene.guide.steps:
        if step.id in times.beforehand:
            continue
        spans = (times.span(step.id),) if day is None else times.on(day, step.id)
        # Nobody is there to be told of what is left when the class is over.
        if spans and not plan.is_left(min(spans)[0]):
            rows.append((spans, step))
    rows.sort(key=lambda row: min(row[0]))
    said: set[str] = set()
    found = []
    for spans, step in rows:
        first, last = min(one[0] for one in spans), max(one[1] for one in spans)
        new = [
            stock.cautions[name]
            for name in brought[step.id]
            if name not in said and for_builders(stock.cautions[name])
        ]
        said.update(brought[step.id])
        ended = day is None or times.ends_on(day, step.id)
        found.append(
            AgendaView(
                hours_words(plan, first, last, scene.words),
                numbers[step.id],
                step.title,
                tuple(f"{scene.words.say(one.word)}: {one.short or one.title}" for one in new),
                (step.check or "") if ended else "",
            )
        )
    return tuple(found)


def _away_words(plan: ClassPlan, day: ClassDay, words: Words) -> str:
    if not day.away:
        return ""
    names = words.listed(plan.people[number].name for number in sorted(day.away))
    return words.say("Not there: {names}.", names=names)


def _night(scene: Scene, plan: ClassPlan, day: ClassDay) -> NightView:
    """What dries, what goes on, what stays set up after a day."""
    stock, numbers, words = scene.content.stock, step_numbers(scene.guide), scene.words
    drying, cut = plan.times.drying_after(day), plan.times.cut_by(day)
    dries, goes_on = [], []
    for step in scene.guide.steps:
        wet = [slot for slot in drying if slot.step == step.id]
        halves = [slot.kit for slot in cut if slot.step == step.id]
        named = words.say("step {number}, {title}", number=numbers[step.id], title=step.title)
        if wet:
            kits = _kits(plan, (slot.kit for slot in wet), words)
            until = minute_words(plan, max(slot.ready for slot in wet), words)
            said = words.say("{step}: {kits}, until {time}", step=named, kits=kits, time=until)
            dries.append(said)
        if halves:
            kits = _kits(plan, halves, words)
            goes_on.append(words.say("{step}: {kits}", step=named, kits=kits))
    days = plan.times.class_days
    later = [one for one in days if one.start > day.start]
    here = {tool for step in steps_of_day(scene, plan, day) for tool in step_tools(step, stock)}
    again = {
        tool
        for one in later
        for step in steps_of_day(scene, plan, one)
        for tool in step_tools(step, stock)
    }
    return NightView(
        tuple(dries),
        tuple(goes_on),
        tuple(stock.tools[key].name for key in stock.tools if key in here & again),
        tuple(stock.tools[key].name for key in stock.tools if key in here - again),
    )


def _kits(plan: ClassPlan, kits: Iterable[int], words: Words) -> str:
    """'all kits', or the names of those whose they are."""
    found = sorted(set(kits))
    if len(found) == len(plan.people):
        return words.say("all kits")
    return words.listed(plan.people[kit].name for kit in found)
