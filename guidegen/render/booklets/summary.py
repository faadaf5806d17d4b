"""Plan and drawings of one size in → the one-page summary and the checklist as HTML for paper."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from itertools import count, groupby

from markupsafe import Markup

from guidegen.buildfile.derive.caution_places import builder_cautions
from guidegen.buildfile.derive.cautions import step_young
from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.records.guide import Step
from guidegen.buildfile.records.safety.cautions import SignalWord
from guidegen.documents import Document
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import GuidePlan
from guidegen.pictures.records import GuidePictures
from guidegen.quantities import duration_words, work_words
from guidegen.render.booklets.booklet import STYLES, sheet_view
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.render.views.cautions import all_cautions, young_words
from guidegen.render.views.guide import (
    LengthView,
    cover_photo,
    facts_view,
    kit_drawing,
    measurement_views,
    size_view,
)
from guidegen.render.views.materials import materials_view
from guidegen.render.views.pieces import piece_views
from guidegen.render.views.report import report_code
from guidegen.render.views.scene import Scene, size_title, step_numbers, title_block
from guidegen.render.views.steps import stage_words
from guidegen.words import Words, msg

WORST = {"roomy": 5, "wide": 5, "dense": 4, "stages": 7, "few": 3}
"""Cautions on a summary by density at the least: a roomier setting is not chosen at their cost. Our
choice: what a reader takes in at a glance; the booklet has all."""

CAUTION = "caution"
"""Class of an element of a page that is one caution."""

TRUSTED = 3
"""Tries beside a guess of how many cautions fit. Our choice: the guess, its neighbours."""

GRAVE = (SignalWord.DANGER, SignalWord.WARNING)
"""Signal words of cautions that a summary names, where there are any."""


class Density(StrEnum):
    """How tightly a summary is set, for guides with ever more steps."""

    ROOMY = "roomy"
    """In larger type, for guides with few steps."""
    WIDE = "wide"
    DENSE = "dense"
    STAGES = "stages"
    """As DENSE, with stages in the place of steps."""
    FEW = "few"
    """As STAGES, with fewer cautions."""


ROOM = {Density.ROOMY: 17, Density.WIDE: 34}
"""Lines that a column of these settings takes on A4. Measured on our theme."""


@dataclass(frozen=True, slots=True)
class PageFit:
    """How a page that is to be one page is set."""

    tight: str = ""
    """Classes of its body: 'dense' small type, 'brief' short texts, 'least' no first aid."""
    most: int = 0
    """Hazards that it names, the gravest; 0 for all."""


AS_IS = PageFit()
CARD_FITS = (
    AS_IS,
    PageFit("dense"),
    PageFit("dense brief"),
    PageFit("dense brief least"),
    *(PageFit("dense brief least", most) for most in (32, 24, 16, 8, 4)),
)
"""Of a bench card, in the order of trial. What goes first is what the booklet says as well: what
the hazard is, then first aid, then the lightest hazards. Our choice."""


def densities(plan: GuidePlan, size: str) -> tuple[Density, ...]:
    """Settings to try, the roomiest first that may fit: none is laid out in vain."""
    guide = plan.file.guide
    left = len(guide.measurements) // 2 + len(plan.of_size(size).materials.lines)
    lines = max(left, len(guide.steps))
    return tuple(density for density in Density if lines <= ROOM.get(density, lines))


def caution_count(plan: GuidePlan) -> int:
    """How many cautions a guide has."""
    return len({name for step in plan.cautions for name in step.cautions})


def last_that_fits(least: int, whole: int, fits: Callable[[int], bool], guess: int) -> int:
    """The most cautions that a page has room for, at least `least`, fewer than `whole`.

    Each try is a page that is laid out: the guess and its neighbour are tried first, then what is
    still open is halved.
    """
    low, high, near = least, whole, min(max(guess, least + 1), whole - 1)
    for tries in count():
        if high - low <= 1:
            break
        middle = near if tries < TRUSTED and low < near < high else (low + high) // 2
        if fits(middle):
            low, near = middle, middle + 1
        else:
            high, near = middle, middle - 1
    return low


@dataclass(frozen=True)
class NoLinks:
    """Links of a document that describes nothing: words stand alone, files have their names."""

    def to(self, scheme: str, name: str) -> str:
        """Nothing is described here."""
        return ""

    def file(self, path: str) -> str:
        """Name under which the maker of the document is given a file."""
        return path


@dataclass(frozen=True, slots=True)
class StepLine:
    """A step in one line."""

    number: int
    title: str
    time: str
    wait: str
    """Empty where nothing need be left."""
    word: str
    """Gravest signal word of its cautions; empty for none."""
    check: Markup
    """How to know that it is right; empty where the author does not say."""
    young: str
    """Who may do it in a workshop; empty for everybody."""
    again: str
    """Name of a second pass; else empty."""


@dataclass(frozen=True, slots=True)
class StageLines:
    """Steps of one stage in a row."""

    name: str
    steps: tuple[StepLine, ...]
    time: str
    wait: str

    @property
    def numbers(self) -> str:
        """'4–9'."""
        first, last = self.steps[0].number, self.steps[-1].number
        return str(first) if first == last else f"{first}–{last}"


@dataclass(frozen=True, slots=True)
class OwnMeasure:
    """A measurement of the document's size."""

    name: str
    length: LengthView


def summary_html(
    content: Content,
    plan: GuidePlan,
    size: str,
    papers: tuple[str, ...],
    *,
    pictures: GuidePictures,
    theme: Theme,
    density: Density = Density.WIDE,
    most: int = 0,
) -> str:
    """What it is, what to buy, what to do and what can hurt, for one page of each of `papers`.

    `most` cautions stand on it, the gravest first; as few as the density has for 0.
    """
    scene = Scene(content, plan, pictures, NoLinks(), paper=True, size=size)
    size_plan = plan.of_size(size)
    cautions = all_cautions(scene)
    grave = tuple(view for view in cautions if view.css.upper() in GRAVE) or cautions
    lighter = tuple(view for view in cautions if view not in grave)
    worst = (*grave, *lighter)[:most] if most else grave[: WORST[density]]
    materials = materials_view(scene, size_plan.materials)
    return Engine(theme, content.words).render(
        "summary.html.j2",
        sheet=sheet_view(theme, papers, styles=(*STYLES, "summary.css"), words=content.words),
        language=content.language,
        block=title_block(scene, msg("Summary"), size),
        guide=scene.guide,
        size=size_title(size, content.words),
        facts=facts_view(scene),
        photo=cover_photo(scene),
        kit=kit_drawing(scene, size),
        measures=own_measures(scene, size_plan.kit),
        materials=materials,
        stages=stage_lines(scene),
        worst=worst,
        more=len(cautions) - len(worst),
        density=str(density),
        report=report_code(scene, size, msg("Summary")),
    )


def one_page_html(
    content: Content,
    plan: GuidePlan,
    size: str,
    papers: tuple[str, ...],
    *,
    pictures: GuidePictures,
    theme: Theme,
    document: Document,
    fit: PageFit = AS_IS,
) -> str:
    """A document of one template, '<edition>.html.j2': what every such page may show of a size.

    `fit` says how tightly it is set. Its rules are those of the checklist, then '<edition>.css'
    where the theme has one.
    """
    scene = Scene(content, plan, pictures, NoLinks(), paper=True, size=size)
    size_plan = plan.of_size(size)
    own = f"{document.edition}.css"
    styles = dict.fromkeys((*STYLES, "checklist.css", *([own] if own in theme.files else [])))
    return Engine(theme, content.words).render(
        f"{document.edition}.html.j2",
        sheet=sheet_view(theme, papers, styles=tuple(styles), words=content.words),
        language=content.language,
        block=title_block(scene, document.heading, size),
        guide=scene.guide,
        size=size_title(size, content.words),
        facts=facts_view(scene),
        measures=own_measures(scene, size_plan.kit),
        materials=materials_view(scene, size_plan.materials),
        pieces=piece_views(scene, size_plan.kit, size_plan, pictures.sizes[size], papers),
        stages=stage_lines(scene),
        cautions=all_cautions(scene),
        report=report_code(scene, size, document.heading),
        tight=fit.tight,
        most=fit.most,
    )


def own_measures(scene: Scene, kit: Kit) -> tuple[OwnMeasure, ...]:
    """Measurements of one size."""
    names = [view.name for view in measurement_views(scene)]
    values = size_view(scene, kit).values
    return tuple(OwnMeasure(name, value) for name, value in zip(names, values, strict=True))


def stage_lines(scene: Scene) -> tuple[StageLines, ...]:
    """All steps in the author's order, by stage."""
    stock, words = scene.content.stock, _gravest_words(scene)
    numbers = step_numbers(scene.guide)
    stages = []
    for stage, group in groupby(scene.guide.steps, key=lambda step: step.stage):
        steps = list(group)
        waits = {step.id: step_wait(step, stock) for step in steps}
        lines = tuple(
            StepLine(
                numbers[step.id],
                step.title,
                work_words(step.time, scene.words),
                _wait_words(waits[step.id], scene.words),
                words.get(step.id, ""),
                scene.line(step.check),
                young_words(step_young(step, stock), scene.words),
                second_pass(step),
            )
            for step in steps
        )
        time = work_words(sum(step.time for step in steps), scene.words)
        name = stage_words(scene, stage)
        stages.append(StageLines(name, lines, time, _wait_words(max(waits.values()), scene.words)))
    return tuple(stages)


def second_pass(step: Step) -> str:
    """Name of a second pass beside its title; empty where the title has it, or for a first one."""
    again = step.again or ""
    return "" if again.casefold() in step.title.casefold() else again


def _wait_words(minutes: float, words: Words) -> str:
    return duration_words(minutes, words) if minutes else ""


def _gravest_words(scene: Scene) -> dict[str, str]:
    """The gravest signal word of every step that has cautions for whoever does it."""
    stock = scene.content.stock
    return {
        step.id: scene.words.say(str(stock.cautions[names[0]].word))
        for step in scene.guide.steps
        if (names := builder_cautions(step, stock))
    }
