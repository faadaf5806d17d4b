"""Plan of a class in → what is printed, done and packed before it, and what is said in it."""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.buildfile.records.materials import MaterialKind
from guidegen.buildfile.records.safety.cautions import SignalWord
from guidegen.layout.times.class_records import BeforeWork, ClassPlan, table_of
from guidegen.quantities import duration_words
from guidegen.render.text.class_names import minute_words
from guidegen.render.views.cautions import CautionView, all_cautions
from guidegen.render.views.material_rows import bought_rows
from guidegen.render.views.scene import LinkView, Scene, size_title, step_links, step_numbers
from guidegen.render.views.steps import stage_words
from guidegen.words import Words


@dataclass(frozen=True, slots=True)
class PrintView:
    """A file of templates to print."""

    file: str
    copies: str
    """'6, one of them spare'."""
    pages: str
    whose: str


@dataclass(frozen=True, slots=True)
class BeforeView:
    """A step before the class, for all kits."""

    number: int
    title: str
    kits: str
    time: str
    """Of all kits."""


@dataclass(frozen=True, slots=True)
class PackingView:
    """Something to buy and to bring."""

    name: str
    packs: str


def touched_names(scene: Scene, plan: ClassPlan) -> tuple[str, ...]:
    """Names of what people of the class touch or breathe: liquids, and all that has a caution."""
    stock, before = scene.content.stock.materials, set(plan.times.beforehand)
    return tuple(
        line.name
        for line in plan.materials.lines
        if not (line.steps and set(line.steps) <= before)
        if stock[line.material].kind is MaterialKind.LIQUID or stock[line.material].cautions
    )


def hazard_views(scene: Scene, plan: ClassPlan) -> tuple[CautionView, ...]:
    """What can hurt people of the class: nothing of the steps before it, no mere notice."""
    stock = scene.content.stock.cautions
    met = {
        name
        for found in scene.plan.cautions
        if found.step not in plan.times.beforehand
        for name in found.cautions
        if stock[name].word is not SignalWord.NOTICE
    }
    return tuple(item for item in all_cautions(scene) if not item.leader and item.id in met)


def done_words(scene: Scene, plan: ClassPlan) -> str:
    """Kinds of work of the class, each once."""
    steps = [step for step in scene.guide.steps if step.id not in plan.times.beforehand]
    known = scene.content.stock.processes
    names = (
        known[step.process].name if step.process in known else stage_words(scene, step.stage)
        for step in steps
    )
    return "; ".join(dict.fromkeys(names))


@dataclass(frozen=True, slots=True)
class MissingView:
    """How the class goes without some of its people."""

    words: str
    steps: tuple[LinkView, ...]
    """For which adults lack then."""


def print_view(  # noqa: PLR0917 - a row of a list
    words: Words, plan: ClassPlan, people: Sequence[int], file: str, pages: int, copies: int
) -> PrintView:
    """A row of the list of templates to print."""
    person = plan.people[people[0]]
    spare = copies - len(people)
    told = words.many("{n} copy", "{n} copies", copies)
    if spare:
        told = words.say("{copies}, {spare} of them spare", copies=told, spare=spare)
    tables = sorted({table_of(number) for number in people})
    named = words.listed(f"{table}" for table in tables)
    at = words.say("at table {tables}", tables=named)
    who = size_title(person.size, words) if person.size else person.name
    return PrintView(file, told, words.many("{n} page", "{n} pages", pages), f"{who}, {at}")


def work_views(scene: Scene, plan: ClassPlan) -> tuple[BeforeView, ...]:
    """The steps before the class with how long they take for all kits."""
    numbers, words = step_numbers(scene.guide), scene.words
    titles = {step.id: step.title for step in scene.guide.steps}
    return tuple(
        BeforeView(
            numbers[one.step],
            titles[one.step],
            _often(one, words),
            duration_words(one.minutes, words),
        )
        for one in plan.before
    )


def work_words(scene: Scene, plan: ClassPlan) -> str:
    """How long all of it takes; empty where nothing is done before."""
    words = scene.words
    if not plan.before:
        return ""
    return words.say(
        "About {time} of work for {adults}, waits apart: the times of the guide, as often as told.",
        time=duration_words(sum(one.minutes for one in plan.before), words),
        adults=words.many("{n} adult", "{n} adults", max(one.adults for one in plan.before)),
    )


def _often(one: BeforeWork, words: Words) -> str:
    if one.sets:
        return words.many("{n} set", "{n} sets", one.kits)
    return words.many("{n} kit", "{n} kits", one.kits) if one.kits > 1 else words.say("once")


def packing_views(scene: Scene, plan: ClassPlan, *, room: bool) -> tuple[PackingView, ...]:
    """What is bought, pack by pack: for the `room`, or what steps before the class use up."""
    before = set(plan.times.beforehand)
    numbers = step_numbers(scene.guide)
    currency = scene.content.site.currency
    return tuple(
        PackingView(row.name, f"{row.buy} × {row.pack}" if row.pack else f"{row.buy}")
        for line in plan.materials.lines
        # Of a sheet from which both cut, the rest goes into the room.
        if room is not bool(line.steps and set(line.steps) <= before)
        for row in bought_rows(line, numbers, currency)
        if row.buy
    )


def missing_view(scene: Scene, plan: ClassPlan) -> MissingView | None:
    """What to do when people stay away; None for a class too small for it."""
    missing, words = plan.missing, scene.words
    if missing is None:
        return None
    who = words.many("{n} person", "{n} people", missing.people)
    if missing.lacking:
        said = words.say(
            "Without {who} who are adults there are too few for these steps: ask one more to help, "
            "or leave them out.",
            who=who,
        )
        return MissingView(said, step_links(scene, missing.lacking))
    end = duration_words(missing.end, words)
    if plan.times.class_days:
        end = words.say("until {when}", when=minute_words(plan, missing.end, words))
    fits = words.say("it fits its hours") if missing.fits else words.say("it is still too long")
    said = words.say(
        "Without {who} the class takes {end}: {fits}. All others keep the times of their sheets. "
        "Leave the pieces with the missing numbers uncut; who counts on one of them for a hand "
        "takes the next who is free at the same table.",
        who=who,
        end=end,
        fits=fits,
    )
    return MissingView(said, ())
