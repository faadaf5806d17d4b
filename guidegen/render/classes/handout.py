"""Plan of a class in → what one of its people reads: pieces, times, steps and hands to lend."""

from dataclasses import dataclass, replace
from itertools import groupby

from guidegen.buildfile.derive.caution_places import sheet_places
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.layout.class_hours import ClassDay
from guidegen.layout.schedules import Slot
from guidegen.layout.times.class_records import ClassPlan
from guidegen.quantities import length_words, work_words
from guidegen.render.text.class_names import (
    DAY,
    day_line,
    day_of,
    hand_name,
    hours_words,
    span_words,
)
from guidegen.render.views.scene import Scene, step_numbers
from guidegen.render.views.step_space import HandPlace
from guidegen.render.views.steps import StepView, step_view
from guidegen.words import Words, msg


@dataclass(frozen=True, slots=True)
class SlotStepView:
    """A step of one person, with when."""

    clock: str
    helped: str
    """Who lends a hand; else empty."""
    step: StepView
    day: str = ""
    """Of the first one on each day of a class of several: the day with its hours."""
    left: bool = False
    """Whether it is the first of those that are left when the class is over."""


@dataclass(frozen=True, slots=True)
class HelpView:
    """A time at which somebody lends a hand to another."""

    clock: str
    words: str


@dataclass(frozen=True, slots=True)
class CutView:
    """Pieces of one part, for a handout."""

    labels: str
    name: str
    count: str
    material: str
    size: str
    """Width and height of the piece."""


@dataclass(frozen=True, slots=True)
class PersonMeasureView:
    """A measurement that a kit was made to."""

    name: str
    length: str


def slot_views(
    scene: Scene, plan: ClassPlan, person: int, *, drawn: bool = True
) -> tuple[SlotStepView, ...]:
    """The steps of one person in the order of time, for slim columns; `drawn`: with drawings."""
    known = {step.id: step for step in scene.guide.steps}
    slots = [slot for slot in plan.times.slots if slot.kit == person]
    steps = [known[slot.step] for slot in slots]
    placed = zip(slots, steps, sheet_places(steps, scene.content.stock), strict=True)
    found = []
    told: ClassDay | None = None
    over = False
    for slot, step, places in placed:
        is_left = plan.is_left(slot.start, (person,))
        day = None if is_left else day_of(plan, slot.start)
        found.append(
            SlotStepView(
                work_words(step.time, scene.words)
                if is_left
                else _slot_words(plan, slot, scene.words),
                "" if is_left else _helped(plan, slot, scene.words),
                _in_column(step_view(scene, step, places), drawn=drawn),
                day_line(plan, day, scene.words) if day and day != told else "",
                left=is_left and not over,
            )
        )
        told, over = day or told, over or is_left
    return tuple(found)


def _slot_words(plan: ClassPlan, slot: Slot, words: Words) -> str:
    """From when to when, under the line that tells the day where there are several."""
    if slot.end <= slot.start + DAY / 2:
        return hours_words(plan, slot.start, slot.end, words)
    return span_words(plan, slot.start, slot.end, words)


def _in_column(step: StepView, *, drawn: bool) -> StepView:
    """A step whose list stands under its words, without the kind of work: its card tells that."""
    hand = step.hand if step.hand is HandPlace.NONE else HandPlace.WORDS
    if drawn:
        return replace(step, hand=hand, process=None)
    return replace(step, hand=hand, process=None, drawing=None, picture=None)


def young_once(slots: tuple[SlotStepView, ...]) -> tuple[str, tuple[SlotStepView, ...]]:
    """What holds of young people in every step, and the steps without it; empty where they differ.

    Told at the head of the sheet it takes a line, not one with each step.
    """
    said = {slot.step.young for slot in slots}
    if len(said) != 1:
        return "", slots
    return said.pop(), tuple(replace(slot, step=replace(slot.step, young="")) for slot in slots)


def _helped(plan: ClassPlan, slot: Slot, words: Words) -> str:
    if not slot.helpers:
        return ""
    names = words.listed(hand_name(plan, helper, words) for helper in slot.helpers)
    if slot.taken_over:
        return words.say("done for you, hands off: {names}", names=names)
    return words.say("with {names}", names=names)


LEND, DO_FOR = msg("Lend {name} a hand with step {number}"), msg("Do step {number} for {name}")


def help_views(scene: Scene, plan: ClassPlan, person: int) -> tuple[HelpView, ...]:
    """When somebody lends a hand, to whom and for which step."""
    numbers = step_numbers(scene.guide)
    return tuple(
        HelpView(
            span_words(plan, slot.start, slot.end, scene.words),
            scene.words.say(
                DO_FOR if slot.taken_over else LEND,
                name=plan.people[slot.kit].name,
                number=numbers[slot.step],
            ),
        )
        for slot in plan.times.of(person)
        if slot.kit != person and not plan.is_left(slot.start, slot.hands)
    )


def cut_views(scene: Scene, kit: Kit) -> tuple[CutView, ...]:
    """The pieces of one person, part by part, spares counted; left and right of their own apart."""
    materials = scene.content.stock.materials
    views = []
    for (_, size), group in groupby(
        kit.pieces, key=lambda piece: (piece.part, _piece_size(piece, scene.words))
    ):
        pieces = list(group)
        views.append(
            CutView(
                ", ".join(piece.label for piece in pieces),
                pieces[0].name,
                f"{sum(piece.copies for piece in pieces)}",
                materials[pieces[0].material].name,
                size,
            )
        )
    return tuple(views)


def _piece_size(piece: Piece, words: Words) -> str:
    left, bottom, right, top = bounds((piece.shape.ring(),))
    return f"{length_words(right - left, words)} × {length_words(top - bottom, words)}"


def measure_views(scene: Scene, kit: Kit) -> tuple[PersonMeasureView, ...]:
    """What a kit was made to."""
    known = scene.guide.measurements
    return tuple(
        PersonMeasureView(known[name].name, length_words(value, scene.words))
        for name, value in kit.measurements
        if name in known
    )
