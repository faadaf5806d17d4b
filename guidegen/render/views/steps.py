"""Steps in → what a reader sees of each: cautions first, things at hand, action, check, trouble."""

import hashlib
from dataclasses import dataclass, replace
from itertools import groupby

from markupsafe import Markup

from guidegen.buildfile.derive.caution_places import CautionPlaces, caution_places
from guidegen.buildfile.derive.cautions import step_tools, step_young
from guidegen.buildfile.derive.waits import step_wait
from guidegen.buildfile.records.guide import Stage, Step, Use, Video
from guidegen.layout.buying.held import held_uses
from guidegen.pictures.pen.records import Drawing
from guidegen.quantities import (
    capital,
    duration_words,
    length_words,
    ohm_words,
    work_words,
)
from guidegen.render.text.links import anchor, steps_page
from guidegen.render.text.qr import CodeView, code_view
from guidegen.render.text.report_address import ReportView
from guidegen.render.views.cautions import StepCautionsView, step_cautions_view, young_words
from guidegen.render.views.counts import PartView, part_views, whole_kit
from guidegen.render.views.photos import PhotoView
from guidegen.render.views.report import step_report
from guidegen.render.views.scene import (
    DrawingView,
    LinkView,
    Scene,
    drawing,
    former_steps,
    step_numbers,
)
from guidegen.render.views.step_space import HandPlace, hand_place, may_run_on, plain_letters


@dataclass(frozen=True, slots=True)
class TroubleView:
    """What often goes wrong, and its cure."""

    sign: Markup
    cure: Markup


@dataclass(frozen=True, slots=True)
class VideoView:
    """A place in the author's video."""

    href: str
    at: str
    """Where it begins, '3:20'; empty for the beginning."""
    code: CodeView | None
    """On paper."""


@dataclass(frozen=True, slots=True)
class StepView:
    """One step."""

    number: int
    id: str
    title: str
    stage: str
    cautions: StepCautionsView
    process: LinkView | None
    tools: tuple[LinkView, ...]
    protection: tuple[LinkView, ...]
    materials: tuple[LinkView, ...]
    pieces: tuple[PartView, ...]
    all_pieces: str
    """Words for the whole kit, instead of `pieces`; else empty."""
    joins: tuple[str, ...]
    """Seams and layer stacks that are joined here, in words."""
    text: Markup
    time: str
    wait: str
    """Empty where nothing need be left."""
    hands: str
    """Empty for one person."""
    difficulty: str
    check: Markup
    trouble: tuple[TroubleView, ...]
    mark: str
    """Language and hash of the step: by it a reader's tick knows that the step has changed."""
    picture: PhotoView | None
    drawing: DrawingView | None
    after: tuple[LinkView, ...]
    """Steps that must be finished before, where the author says so."""
    video: VideoView | None = None
    hand: HandPlace = HandPlace.NONE
    """On paper, where what lies at hand stands."""
    long: bool = False
    """On paper, it may go on over the page: its list stands at its head."""
    young: str = ""
    """Who may do it in a workshop; empty for everybody."""
    sections: tuple[str, ...] = ()
    """Pieces whose sections are joined here in some sizes, in words."""
    dries: str = ""
    """How long coated faces are left before they are joined; empty where nothing need dry."""
    again: str = ""
    """Name of a second pass, such as 'second coat'."""
    place: CodeView | None = None
    """On paper, the step's place on the site, where the site knows its own address."""
    formerly: tuple[str, ...] = ()
    """On a page, ids under which it was published once."""
    report: ReportView | None = None
    """On a page, where a mistake in it is reported; None where the site has no address for it."""


@dataclass(frozen=True, slots=True)
class StageView:
    """Steps of one stage in a row."""

    id: str
    name: str
    steps: tuple[StepView, ...]
    time: str
    wait: str
    """The longest wait of its steps; empty where there is none."""


def stage_words(scene: Scene, stage: Stage) -> str:
    """What a stage is called: as the site says, or by its own name."""
    return scene.content.stock.stages.get(stage) or capital(scene.words.say(str(stage)))


def stage_views(scene: Scene) -> tuple[StageView, ...]:
    """All steps in the author's order, under a heading wherever the stage changes."""
    stages: list[StageView] = []
    seen: dict[str, int] = {}
    steps, stock = scene.guide.steps, scene.content.stock
    placed = zip(steps, caution_places(steps, stock), strict=True)
    for stage, group in groupby(placed, key=lambda pair: pair[0].stage):
        pairs = list(group)
        seen[stage] = seen.get(stage, 0) + 1
        again = f"-{seen[stage]}" if seen[stage] > 1 else ""
        wait = max(step_wait(step, stock) for step, _ in pairs)
        stages.append(
            StageView(
                id=f"stage-{stage}{again}",
                name=stage_words(scene, stage),
                steps=tuple(step_view(scene, step, places) for step, places in pairs),
                time=work_words(sum(step.time for step, _ in pairs), scene.words),
                wait=duration_words(wait, scene.words) if wait else "",
            )
        )
    return tuple(stages)


def step_view(scene: Scene, step: Step, places: CautionPlaces) -> StepView:
    """One step, its cautions where `places` says."""
    stock = scene.content.stock
    process = stock.processes.get(step.process or "")
    tools = [name for name in step_tools(step, stock) if name in stock.tools]
    wait = step_wait(step, stock)
    whole = whole_kit(scene, step)
    drawn = scene.pictures.steps.get(step.id)
    view = StepView(
        number=step_numbers(scene.guide)[step.id],
        id=step.id,
        title=step.title,
        stage=str(step.stage),
        cautions=step_cautions_view(scene, places),
        process=LinkView(process.name, scene.links.to("process", step.process or ""))
        if process
        else None,
        tools=_tool_links(scene, tools, protective=False),
        protection=_tool_links(scene, tools, protective=True),
        materials=_materials(scene, step),
        pieces=() if whole else part_views(scene, step),
        all_pieces=whole,
        joins=_joins(scene, step),
        text=scene.prose(step.text, heading=4),
        time=work_words(step.time, scene.words),
        wait=duration_words(wait, scene.words) if wait else "",
        hands=scene.words.many("{n} person", "{n} people", step.hands) if step.hands > 1 else "",
        difficulty=step.difficulty,
        check=scene.line(step.check),
        trouble=tuple(
            TroubleView(scene.line(trouble.sign), scene.line(trouble.cure))
            for trouble in step.trouble
        ),
        mark=_mark(scene, step),
        picture=photo(scene, step),
        drawing=drawing(scene, drawn) if drawn else None,
        after=_needs(scene, step),
        video=video_view(scene, step.video),
        young=young_words(step_young(step, stock), scene.words),
        sections=_sections(scene, step),
        dries=_dries(scene, step),
        # A title that names the pass says it once.
        again="" if (step.again or "").lower() in step.title.lower() else step.again or "",
        place=step_place(scene, step),
        formerly=former_steps(scene, step.id),
        report=step_report(scene, step),
    )
    return _with_hand(step, view, drawn)


def drawn_stacks(scene: Scene) -> frozenset[str]:
    """Layer stacks whose layers the drawing of some step shows."""
    return frozenset(
        stack
        for step in scene.guide.steps
        if step.id in scene.pictures.steps
        for stack in step.stacks
    )


def _with_hand(step: Step, view: StepView, drawn: Drawing | None) -> StepView:
    """The view with the place of its list on paper."""
    trouble = (f"{one.sign} {one.cure}" for one in step.trouble)
    action = plain_letters(view.text)
    words = [action, *view.sections, view.dries, view.wait, step.check or "", *trouble]
    listed = [
        [view.all_pieces] if view.all_pieces else [_part_letters(part) for part in view.pieces],
        view.joins,
        *([f"{one.words} {one.note}" for one in some] for some in (view.materials, view.tools)),
        [view.process.words] if view.process else [],
    ]
    photo = 0.75 if view.picture else 0.0
    high = photo + (drawn.height / drawn.width if drawn else 0.0)
    place = hand_place(words, [items for items in listed if items], high or None)
    return replace(view, hand=place, long=may_run_on(words, place))


def _part_letters(part: PartView) -> str:
    """As many letters as a part takes in a list: a label stands in a frame."""
    labels = "".join(f"[{label.words}] " for label in part.labels)
    return f"{labels}{part.name}{part.count}"


def video_view(scene: Scene, video: Video | None) -> VideoView | None:
    """A place in a video; its code on paper."""
    if video is None:
        return None
    return VideoView(video.link, video.at or "", code_view(video.link) if scene.paper else None)


def step_place(scene: Scene, step: Step) -> CodeView | None:
    """The code of a step's place on the site, on paper."""
    address = scene.content.site.address
    if not scene.paper or address is None:
        return None
    guide = scene.plan.file.id
    return code_view(f"{address}{steps_page(guide)}#{anchor('step', step.id)}")


def _mark(scene: Scene, step: Step) -> str:
    words = hashlib.sha256(step.model_dump_json().encode()).hexdigest()[:8]
    return f"{scene.content.language}:{words}"


def photo(scene: Scene, step: Step) -> PhotoView | None:
    """The author's picture of a step."""
    picture = step.picture
    return scene.photo(picture.file, picture.alt, picture.caption or "") if picture else None


def _needs(scene: Scene, step: Step) -> tuple[LinkView, ...]:
    numbers = step_numbers(scene.guide)
    return tuple(
        LinkView(str(numbers[name]), scene.links.to("step", name))
        for name in step.needs
        if name in numbers
    )


def _tool_links(scene: Scene, names: list[str], *, protective: bool) -> tuple[LinkView, ...]:
    tools = scene.content.stock.tools
    return tuple(
        LinkView(tools[name].name, scene.links.to("tool", name))
        for name in names
        if tools[name].protective is protective
    )


def _materials(scene: Scene, step: Step) -> tuple[LinkView, ...]:
    """What is used up, each material once, with the notes of its uses."""
    known = scene.content.stock.materials
    notes: dict[str, list[str]] = {}
    counted = {use.material for use in step.uses if use.counted}
    for use in step.uses:
        if use.material in known:
            words = _use_words(scene, use) if use.counted or use.material not in counted else []
            notes.setdefault(use.material, []).extend(words)
    for kit in scene.kits:
        for use in held_uses(step, kit, scene.words):
            notes.setdefault(use.material, []).extend([use.note] if use.note else [])
    return tuple(
        LinkView(
            known[name].name,
            scene.links.to("material", name),
            "; ".join(dict.fromkeys(words)),
        )
        for name, words in notes.items()
    )


def _sections(scene: Scene, step: Step) -> tuple[str, ...]:
    """For each part that comes in sections, what to do with them and in which sizes."""
    sizes: dict[str, list[str]] = {}
    for kit in scene.plan.kits:
        for part in dict.fromkeys(s.first.part for s in kit.seams if s.step == step.id):
            sizes.setdefault(part, []).append(kit.size)
    said = []
    for part, names in sizes.items():
        label = scene.guide.parts[part].label
        if len(names) == len(scene.plan.kits):
            words = scene.words.say(
                "{label} is larger than a sheet and cut in sections: first glue them edge to edge, "
                "match mark to match mark.",
                label=label,
            )
        else:
            words = scene.words.say(
                "In size {sizes}, {label} is larger than a sheet and cut in sections: first glue "
                "them edge to edge, match mark to match mark.",
                label=label,
                sizes=scene.words.listed(names),
            )
        said.append(words)
    return tuple(said)


def _dries(scene: Scene, step: Step) -> str:
    """The longest time that a glue of this step dries on both faces before they are joined."""
    known = scene.content.stock.materials
    glues = (known[use.material] for use in step.uses if use.glue and use.material in known)
    minutes = max((glue.dries for glue in glues), default=0.0)
    return duration_words(minutes, scene.words) if minutes else ""


def _use_words(scene: Scene, use: Use) -> list[str]:
    """What a use says beside its material."""
    if use.note:
        return [use.note]
    if not use.counted:
        return [scene.words.say("counted before")]
    if use.circuit is not None:
        made = [one for kit in scene.kits for one in kit.circuits if one.id == use.circuit]
        counts = {one.count(use.material) for one in made}
        values = {one.ohms for one in made if one.resistor == use.material}
        # Of an exact number in every size, not of what is bought more against slips.
        number = [f"{count}" for count in counts] if len(counts) == 1 else []
        return [*number, *(ohm_words(ohms, scene.words) for ohms in sorted(values))]
    if use.cover and use.coats > 1:
        return [scene.words.many("{n} coat", "{n} coats", use.coats)]
    if use.length is not None and not use.length.names:
        pieces = use.pieces.value({}) if use.pieces and not use.pieces.names else 1
        many = f"{pieces:.0f} × " if pieces > 1 else ""
        return [many + length_words(use.length.value({}), scene.words)]
    if use.count is not None and not use.count.names:
        return [f"{use.count.value({}):.0f}"]
    return []


def _joins(scene: Scene, step: Step) -> tuple[str, ...]:
    """Seams as 'A1 side to A2 top', stacks by name."""
    guide = scene.guide
    said = []
    for name in step.seams:
        seam = guide.seams.get(name)
        if seam is not None:
            first, second = (_edge_words(scene, edge) for edge in seam.join)
            said.append(scene.words.say("Seam: {first} to {second}", first=first, second=second))
    said += [
        scene.words.say("Layers: {stack}", stack=guide.stacks[name].name)
        for name in step.stacks
        if name in guide.stacks
    ]
    return tuple(said)


def _edge_words(scene: Scene, edge: str) -> str:
    part, _, name = edge.partition(".")
    known = scene.guide.parts.get(part)
    return f"{known.label if known else part} {scene.words.say(name.replace('-', ' '))}"
