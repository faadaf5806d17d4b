"""Cautions in → safety messages ready to print, gravest first, each with where it applies."""

from dataclasses import dataclass

from guidegen.buildfile.derive.caution_places import CautionPlaces, for_builders
from guidegen.buildfile.derive.cautions import GRAVITY, step_young
from guidegen.buildfile.records.safety.cautions import Caution, SignalWord, Young
from guidegen.render.text.links import sign_file
from guidegen.render.views.scene import LinkView, Scene, step_links
from guidegen.render.views.statements import statement_text
from guidegen.words import Words, msg


@dataclass(frozen=True, slots=True)
class SignView:
    """An ISO 7010 sign."""

    code: str
    src: str
    alt: str


@dataclass(frozen=True, slots=True)
class StatementView:
    """An official hazard or precaution statement."""

    code: str
    text: str


@dataclass(frozen=True, slots=True)
class CautionView:
    """One safety message."""

    id: str
    word: str
    """Signal word."""
    css: str
    """Signal word in lower case."""
    alert: bool
    """False for NOTICE, which has no safety alert symbol (ANSI Z535.6)."""
    title: str
    short: str
    """What to do, in one line; empty where the author has written none."""
    hazard: str
    consequence: str
    avoid: str
    first_aid: str
    signs: tuple[SignView, ...]
    statements: tuple[StatementView, ...]
    protection: tuple[LinkView, ...]
    brought_by: str
    """Names of the tools, materials and processes that bring it."""
    steps: tuple[LinkView, ...]
    """Steps that it belongs to."""
    href: str
    """Where it stands in full."""
    leader: bool = False
    """True where it addresses the leader of a group."""


@dataclass(frozen=True, slots=True)
class WaivedView:
    """A caution that the author leaves out, with the reason."""

    title: str
    step: LinkView
    reason: str


YOUNG = {
    Young.MAY: "",
    Young.WATCHED: msg("Young people with an adult"),
    Young.ADULTS: msg("Adults only"),
}
"""Words for who may do a step."""


@dataclass(frozen=True, slots=True)
class YoungView:
    """Steps that young people may do only so."""

    words: str
    steps: tuple[LinkView, ...]


@dataclass(frozen=True, slots=True)
class StepCautionsView:
    """The cautions of one step, each list gravest first."""

    panels: tuple[CautionView, ...]
    """In full before the step: at the head of a stage, and where hazard or place changes."""
    full: tuple[CautionView, ...]
    """In full before its action."""
    lines: tuple[CautionView, ...]
    """In one line before its action."""


def step_cautions_view(scene: Scene, places: CautionPlaces) -> StepCautionsView:
    """The cautions of one step where they stand."""

    def views(names: tuple[str, ...]) -> tuple[CautionView, ...]:
        return tuple(caution_view(scene, name, (), ()) for name in names)

    return StepCautionsView(views(places.panels), views(places.full), views(places.lines))


def all_cautions(scene: Scene) -> tuple[CautionView, ...]:
    """Every caution of the guide once, gravest first, with its steps and what brings it."""
    steps: dict[str, list[str]] = {}
    sources: dict[str, list[str]] = {}
    for found in scene.plan.cautions:
        for name, brought in zip(found.cautions, found.sources, strict=True):
            steps.setdefault(name, []).append(found.step)
            sources.setdefault(name, []).extend(brought)
    known = scene.content.stock.cautions
    order = sorted(steps, key=lambda name: (GRAVITY[known[name].word], -len(steps[name])))
    return tuple(
        caution_view(scene, name, tuple(dict.fromkeys(sources[name])), tuple(steps[name]))
        for name in order
    )


def caution_view(
    scene: Scene, name: str, sources: tuple[str, ...], steps: tuple[str, ...]
) -> CautionView:
    """One caution of the stock."""
    caution = scene.content.stock.cautions[name]
    brought = [source for source in sources if source != "this step"]
    return CautionView(
        id=name,
        word=scene.words.say(str(caution.word)),
        css=str(caution.word).lower(),
        alert=caution.word is not SignalWord.NOTICE,
        title=caution.title,
        short=caution.short or "",
        hazard=caution.hazard,
        consequence=caution.consequence,
        avoid=caution.avoid,
        first_aid=caution.first_aid or "",
        signs=_signs(scene, caution),
        statements=tuple(
            StatementView(code, statement_text(code, scene.words.language))
            for code in caution.statements
        ),
        protection=_protection(scene, caution),
        brought_by=", ".join(brought),
        steps=step_links(scene, steps),
        href=scene.links.to("caution", name),
        leader=not for_builders(caution),
    )


def _signs(scene: Scene, caution: Caution) -> tuple[SignView, ...]:
    return tuple(sign for code in caution.signs if (sign := sign_view(scene, code)))


def sign_view(scene: Scene, code: str) -> SignView | None:
    """A sign that was drawn; None for any other code."""
    drawn = scene.pictures.signs.get(code)
    if drawn is None:
        return None
    return SignView(code, scene.links.file(sign_file(scene.plan.file.id, code)), drawn.title)


def _protection(scene: Scene, caution: Caution) -> tuple[LinkView, ...]:
    tools = scene.content.stock.tools
    return tuple(
        LinkView(tools[name].name, scene.links.to("tool", name))
        for name in caution.protection
        if name in tools
    )


def waived_cautions(scene: Scene) -> tuple[WaivedView, ...]:
    """Cautions that the author leaves out, in the order of steps."""
    known = scene.content.stock.cautions
    return tuple(
        WaivedView(known[waiver.caution].title, step_links(scene, (step.id,))[0], waiver.reason)
        for step in scene.guide.steps
        for waiver in step.waive
        if waiver.caution in known
    )


def young_words(young: Young, words: Words) -> str:
    """Who may do a step; empty for everybody."""
    return words.say(YOUNG[young]) if YOUNG[young] else ""


def young_views(scene: Scene) -> tuple[YoungView, ...]:
    """Who may do which steps, strictest first, each step once; none where anybody may do all."""
    steps: dict[Young, list[str]] = {}
    for step in scene.guide.steps:
        steps.setdefault(step_young(step, scene.content.stock), []).append(step.id)
    if steps.keys() <= {Young.MAY}:
        return ()
    # A step in no row would leave a leader to guess.
    return tuple(
        YoungView(
            young_words(young, scene.words) or scene.words.say("Young people too"),
            step_links(scene, tuple(steps[young])),
        )
        for young in reversed(Young)
        if young in steps
    )
