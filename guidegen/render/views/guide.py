"""One guide in → its facts, sizes, measurements, techniques, versions and questions, in words."""

import json
from dataclasses import dataclass

from markupsafe import Markup

from guidegen.buildfile.read.content import ONE_SIZE, Content
from guidegen.buildfile.records.guide import Guide
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.schedules import Schedule
from guidegen.quantities import (
    calendar_words,
    capital,
    hours_words,
    inch_words,
    length_words,
    money_range,
    with_unpriced,
    work_days_words,
    work_words,
)
from guidegen.render.text.links import size_page
from guidegen.render.views.counts import piece_words
from guidegen.render.views.photos import PhotoView
from guidegen.render.views.scene import (
    DrawingView,
    LinkView,
    Scene,
    drawing,
    size_title,
    step_links,
)
from guidegen.words import Words, alphabetical


@dataclass(frozen=True, slots=True)
class FactsView:
    """What a reader wants to know before beginning."""

    summary: str
    hands_on: str
    elapsed: str
    """From start to end, waits included."""
    pace: str
    """Which days that takes, and how long one works on each; empty where a day is enough."""
    cost: str
    level: str
    sizes: tuple[str, ...]
    pieces: str
    steps: str
    assumes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class MeasurementView:
    """A measurement and how to take it."""

    number: int
    """Its number on the drawing of the body."""
    id: str
    name: str
    take: Markup
    leads: bool
    """True where the size is chosen by it."""
    least_mm: str
    most_mm: str
    """Plausible limits for the size finder; empty where there is none."""


@dataclass(frozen=True, slots=True)
class LengthView:
    """A length in both systems."""

    mm: str
    inches: str


@dataclass(frozen=True, slots=True)
class SizeView:
    """One row of the size table."""

    name: str
    href: str
    values: tuple[LengthView, ...]
    """In the order of the measurements."""


@dataclass(frozen=True, slots=True)
class ProcessView:
    """A kind of work and the way to do it."""

    id: str
    name: str
    how: Markup
    steps: tuple[LinkView, ...]
    also: tuple[str, ...] = ()
    """Other words for it."""


@dataclass(frozen=True, slots=True)
class ChangeView:
    """One entry of the change log."""

    version: str
    date: str
    text: Markup
    reprint: tuple[LinkView, ...]
    """Templates that older prints must replace."""


@dataclass(frozen=True, slots=True)
class QuestionView:
    """A question and its answer."""

    ask: str
    answer: Markup


@dataclass(frozen=True, slots=True)
class TermView:
    """A word of the trade."""

    id: str
    term: str
    meaning: str


def facts_view(scene: Scene) -> FactsView:
    """Facts of the guide over all its sizes."""
    plan, guide, words = scene.plan, scene.guide, scene.words
    costs = [size.materials.cost for size in plan.sizes]
    unpriced = max(size.materials.unpriced for size in plan.sizes)
    return FactsView(
        summary=guide.summary,
        hands_on=work_words(plan.time_line.hands_on, scene.words),
        elapsed=calendar_words(plan.time_line.days, plan.time_line.elapsed, words),
        pace=pace_words(plan.time_line, words),
        cost=with_unpriced(
            money_range(min(costs), max(costs), scene.content.site.currency, words)
            if max(costs) or not unpriced
            else "",
            unpriced,
            words,
        ),
        level=capital(words.say(guide.level)),
        sizes=tuple(size_title(size.size, words) for size in plan.sizes),
        pieces=piece_words(scene),
        steps=words.many("{n} step", "{n} steps", len(guide.steps)),
        assumes=guide.assumes,
    )


def pace_words(plan: Schedule, words: Words) -> str:
    """Days from start to end, and the working hours that they are counted with."""
    if plan.hours is None or plan.days < 2:
        return ""
    return words.say(
        "{days} from start to end: {work_days}, counted with {hours}, from a first free day on. "
        "What cures and dries goes on at night.",
        days=calendar_words(plan.days, plan.elapsed, words),
        work_days=work_days_words(*plan.work_days, words),
        hours=hours_words(plan.hours.evening, plan.hours.free_day, words),
    )


def measurement_views(scene: Scene) -> tuple[MeasurementView, ...]:
    """The measurements of the guide."""
    views = []
    for number, (name, measurement) in enumerate(scene.guide.measurements.items(), 1):
        least, most = ("" if mm is None else f"{mm:g}" for mm in measurement.limits())
        take = scene.prose(measurement.take, heading=4)
        views.append(
            MeasurementView(number, name, measurement.name, take, measurement.leads, least, most)
        )
    return tuple(views)


def size_views(scene: Scene) -> tuple[SizeView, ...]:
    """The size table, smallest first."""
    return tuple(size_view(scene, kit) for kit in scene.plan.kits)


def size_view(scene: Scene, kit: Kit) -> SizeView:
    """A size with the measurements that it is for."""
    values = dict(kit.measurements)
    lengths = tuple(
        LengthView(length_words(values[name], scene.words), inch_words(values[name], scene.words))
        for name in scene.guide.measurements
        if name in values
    )
    page = scene.links.file(size_page(scene.plan.file.id, kit.size))
    return SizeView(size_title(kit.size, scene.words), page, lengths)


def sizes_json(scene: Scene) -> str:
    """The size table for the size finder: name, address and measurements in mm, smallest first."""
    rows = [
        {
            "name": size_title(kit.size, scene.words),
            "href": scene.links.file(size_page(scene.plan.file.id, kit.size)),
            "values": {
                name: mm for name, mm in kit.measurements if name in scene.guide.measurements
            },
        }
        for kit in scene.plan.kits
    ]
    return json.dumps(rows, ensure_ascii=False, separators=(",", ":"))


def has_sizes(guide: Guide) -> bool:
    """Is there a size table?"""
    return bool(guide.sizes) and tuple(guide.sizes) != (ONE_SIZE,)


def process_views(scene: Scene) -> tuple[ProcessView, ...]:
    """The techniques of the guide in the order in which steps use them."""
    uses: dict[str, list[str]] = {}
    for step in scene.guide.steps:
        if step.process in scene.content.stock.processes:
            uses.setdefault(step.process, []).append(step.id)
    known = scene.content.stock.processes
    return tuple(
        ProcessView(
            name,
            known[name].name,
            scene.prose(known[name].how),
            step_links(scene, tuple(steps)),
            known[name].also,
        )
        for name, steps in uses.items()
    )


def change_views(scene: Scene) -> tuple[ChangeView, ...]:
    """The change log, newest first."""
    parts = scene.guide.parts
    changes = sorted(scene.guide.changes, key=lambda change: change.date, reverse=True)
    return tuple(
        ChangeView(
            change.version,
            change.date,
            scene.line(change.text),
            tuple(
                LinkView(parts[name].label, scene.links.to("piece", name), parts[name].name)
                for name in change.parts
                if name in parts
            ),
        )
        for change in changes
    )


def question_views(scene: Scene) -> tuple[QuestionView, ...]:
    """Questions and answers."""
    return tuple(
        QuestionView(question.ask, scene.prose(question.answer, heading=4))
        for question in scene.guide.questions
    )


def term_views(content: Content) -> tuple[TermView, ...]:
    """The glossary in alphabetical order."""
    terms = content.stock.terms
    ordered = sorted(terms, key=lambda name: (alphabetical(terms[name].term), name))
    return tuple(TermView(name, terms[name].term, terms[name].meaning) for name in ordered)


def kit_drawing(scene: Scene, size: str = "") -> DrawingView | None:
    """The kit drawing of `size`, of the middle size where none is given."""
    chosen = size or scene.plan.usual.size
    pictures = scene.pictures.sizes.get(chosen)
    if pictures is None:
        return None
    words = scene.words
    caption = (
        words.say("All pieces at one scale")
        if chosen == ONE_SIZE
        else words.say("All pieces at one scale, size {size}", size=chosen)
    )
    return drawing(scene, pictures.kit, caption)


def finished_drawings(scene: Scene, size: str = "") -> tuple[DrawingView, ...]:
    """The finished thing in `size` from all sides, front, three quarters and back; of the middle
    size where none is given. Empty where nothing says how its parts sit."""
    pictures = scene.pictures.sizes.get(size or scene.plan.usual.size)
    if pictures is None:
        return ()
    return tuple(drawing(scene, one, one.title) for one in pictures.finished)


def cover_drawing(scene: Scene, size: str = "") -> DrawingView | None:
    """The finished thing at three quarters, or all pieces where it cannot be shown."""
    finished = finished_drawings(scene, size)
    return finished[len(finished) // 2] if finished else kit_drawing(scene, size)


def cover_photo(scene: Scene) -> PhotoView | None:
    """The author's picture of the whole build."""
    picture = scene.guide.picture
    return scene.photo(picture.file, picture.alt, picture.caption or "") if picture else None
