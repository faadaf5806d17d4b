"""Plan of a class in → what its leader, its stations and its people read."""

from dataclasses import dataclass

from markupsafe import Markup

from guidegen.buildfile.derive.caution_places import caution_places, for_builders
from guidegen.buildfile.derive.cautions import GRAVITY, step_tools, step_young
from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.records.guide import Step
from guidegen.layout.times.class_records import ClassPlan, table_of
from guidegen.quantities import duration_words, work_words
from guidegen.render.classes.means import CountView, count_views
from guidegen.render.text.class_names import (
    hand_name,
    span_words,
)
from guidegen.render.views.cautions import CautionView, caution_view, young_words
from guidegen.render.views.scene import Scene, size_title, step_numbers
from guidegen.render.views.steps import StepView, stage_words, step_view

ROOMY, CROWDED, DENSE = 15, 17, 26
"""Weights of a station card up to which it is set in large type, to be read standing, and from
which it is set more tightly."""


@dataclass(frozen=True, slots=True)
class PersonView:
    """One row of the list of people."""

    number: int
    name: str
    size: str
    table: int
    young: bool = False
    brings: str = ""
    """In words; empty for nothing."""


@dataclass(frozen=True, slots=True)
class TakenView:
    """A step that somebody else does for a young person."""

    clock: str
    number: int
    title: str
    whose: str
    who: str


@dataclass(frozen=True, slots=True)
class HourView:
    """One row of the time table."""

    id: str
    number: int
    title: str
    clock: str
    """'0:15 to 0:40' over everybody."""
    work: str
    wait: str
    queue: str
    """Tools that people take turns with; else empty."""
    young: str
    word: str
    """Gravest signal word; else empty."""
    station: str = ""
    """Number of the card; empty on the card itself."""


@dataclass(frozen=True, slots=True)
class StationView:
    """One card."""

    id: str
    name: str
    cautions: tuple[CautionView, ...]
    protection: tuple[CountView, ...]
    tools: tuple[CountView, ...]
    materials: tuple[str, ...]
    how: Markup
    hours: tuple[HourView, ...]
    young: str

    @property
    def density(self) -> str:
        """How tightly the card is set, so that it takes one page. Measured on our theme."""
        lists = max(len(self.protection), len(self.tools) + len(self.materials))
        weight = 5 * len(self.cautions) + lists + 2 * len(self.hours)
        if weight <= ROOMY:
            return "roomy"
        return "dense" if weight > DENSE else "crowded" if weight > CROWDED else ""


def person_views(scene: Scene, plan: ClassPlan) -> tuple[PersonView, ...]:
    """Everybody, numbered as the pieces are."""
    own = scene.words.say("made to measure")
    return tuple(
        PersonView(
            number,
            person.name,
            size_title(person.size, scene.words) if person.size else own,
            table_of(number - 1),
            person.young,
            ", ".join(person.brings),
        )
        for number, person in enumerate(plan.people, 1)
    )


def hour_view(scene: Scene, plan: ClassPlan, step: Step, station: str = "") -> HourView:
    """A step of the class in one line; on the card of a station without what is the leader's."""
    stock, words = scene.content.stock, scene.words
    first, last = plan.times.span(step.id)
    wait = step_wait(step, stock)
    turns = plan.times.kept(step.id)
    found = next(one for one in scene.plan.cautions if one.step == step.id)
    gravest = min(
        (
            stock.cautions[name].word
            for name in found.cautions
            if station or for_builders(stock.cautions[name])
        ),
        key=GRAVITY.__getitem__,
        default=None,
    )
    return HourView(
        step.id,
        step_numbers(scene.guide)[step.id],
        step.title,
        span_words(plan, first, last, words),
        work_words(step.time, words),
        duration_words(wait, words) if wait else "",
        words.listed(stock.tools[name].name for name in turns),
        young_words(step_young(step, stock), words),
        words.say(str(gravest)) if gravest else "",
        station,
    )


def hour_views(scene: Scene, plan: ClassPlan) -> tuple[HourView, ...]:
    """The time table: steps of the class by their first start, with where people stand."""
    steps = _inside(scene, plan)
    steps.sort(key=lambda step: plan.times.span(step.id)[0])
    stations = list(_stations(scene, plan))
    return tuple(
        hour_view(scene, plan, step, f"{stations.index(_station_of(step)) + 1}") for step in steps
    )


def _inside(scene: Scene, plan: ClassPlan) -> list[Step]:
    return [step for step in scene.guide.steps if step.id not in plan.times.beforehand]


def before_views(scene: Scene, plan: ClassPlan) -> tuple[StepView, ...]:
    """Steps that the leader does before the class, in full."""
    steps = [step for step in scene.guide.steps if step.id in plan.times.beforehand]
    placed = zip(steps, caution_places(steps, scene.content.stock), strict=True)
    return tuple(step_view(scene, step, places) for step, places in placed)


def taken_views(scene: Scene, plan: ClassPlan) -> tuple[TakenView, ...]:
    """What adults do in the class for those who are too young for it, in the order of time."""
    numbers = step_numbers(scene.guide)
    titles = {step.id: step.title for step in scene.guide.steps}
    return tuple(
        TakenView(
            span_words(plan, slot.start, slot.end, scene.words),
            numbers[slot.step],
            titles[slot.step],
            plan.people[slot.kit].name,
            scene.words.listed(hand_name(plan, hand, scene.words) for hand in slot.hands),
        )
        for slot in plan.times.slots
        if slot.taken_over and not plan.is_left(slot.start, slot.hands)
    )


def station_views(scene: Scene, plan: ClassPlan) -> tuple[StationView, ...]:
    """A card for each kind of work that is done in the class, in the order of its steps."""
    return tuple(_station(scene, plan, *one) for one in _stations(scene, plan).items())


def _stations(scene: Scene, plan: ClassPlan) -> dict[str, list[Step]]:
    """Steps of the class by where they are done."""
    stations: dict[str, list[Step]] = {}
    for step in _inside(scene, plan):
        stations.setdefault(_station_of(step), []).append(step)
    return stations


def _station_of(step: Step) -> str:
    return step.process or str(step.stage)


def _station(scene: Scene, plan: ClassPlan, name: str, steps: list[Step]) -> StationView:
    stock = scene.content.stock
    process = stock.processes.get(name) if steps[0].process else None
    brought: dict[str, list[str]] = {}
    where: dict[str, list[str]] = {}
    for found in scene.plan.cautions:
        if any(found.step == step.id for step in steps):
            for caution, sources in zip(found.cautions, found.sources, strict=True):
                if not for_builders(stock.cautions[caution]):
                    continue  # the card lies where the people of the class work
                brought.setdefault(caution, []).extend(sources)
                where.setdefault(caution, []).append(found.step)
    order = sorted(brought, key=lambda caution: GRAVITY[stock.cautions[caution].word])
    tools = frozenset(tool for step in steps for tool in step_tools(step, stock))
    used = dict.fromkeys(
        stock.materials[use.material].name
        for step in steps
        for use in step.uses
        if use.material in stock.materials
    )
    strict = {young_words(step_young(step, stock), scene.words): None for step in steps}
    return StationView(
        name,
        process.name if process else stage_words(scene, steps[0].stage),
        tuple(
            caution_view(scene, one, tuple(dict.fromkeys(brought[one])), tuple(where[one]))
            for one in order
        ),
        count_views(scene, plan, protective=True, only=tools),
        count_views(scene, plan, protective=False, only=tools),
        tuple(used),
        scene.prose(process.how, heading=3) if process else Markup(),
        tuple(hour_view(scene, plan, step) for step in steps),
        ", ".join(words for words in strict if words),
    )
