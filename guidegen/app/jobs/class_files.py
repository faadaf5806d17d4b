"""Plan of a class in → all its files as bytes, by name. Pure, as jobs.py is for a press."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from math import ceil

from guidegen.app.jobs.class_templates import (
    KitOfSome,
    class_templates,
    kits_of_some,
    template_name,
)
from guidegen.app.jobs.finished import look_once
from guidegen.app.workers.local import Pool
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.class_hours import ClassDay
from guidegen.layout.hours import site_hours
from guidegen.layout.records import GuidePlan, SizePlan
from guidegen.layout.times.class_records import ClassPlan
from guidegen.layout.times.plans import plan_team
from guidegen.layout.times.step_graph import gather_cautions
from guidegen.pictures.bodies.finished import draw_finished
from guidegen.pictures.compose import draw_guide
from guidegen.pictures.cutting.cut_sheets import draw_cut_sheets
from guidegen.pictures.pieces.kit import draw_kit
from guidegen.pictures.records import GuidePictures, SizePictures
from guidegen.pictures.times.class_line import draw_class_lines, draw_tool_lines
from guidegen.progress import Reporter
from guidegen.render.booklets.booklet import booklet_files
from guidegen.render.classes.before import PrintView, print_view
from guidegen.render.classes.names import HANDOUT, handout_name
from guidegen.render.classes.pages import (
    HANDOUT_PAGES,
    ClassDrawings,
    HandoutDensity,
    before_html,
    consent_html,
    handout_html,
    leader_html,
    stations_html,
)
from guidegen.render.lists.class_csv import class_csv
from guidegen.render.lists.class_xlsx import class_xlsx
from guidegen.render.pdf.finish import page_count
from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.text.class_names import all_hands, day_words, hand_name
from guidegen.render.text.living import guide_in_size
from guidegen.render.text.svg import svg_file
from guidegen.render.text.templates_engine import Theme

HOPELESS = 8
"""Pages of a roomy handout beyond which only the tightest setting is tried: each try of a long
guide takes as long as a booklet. Our choice; of the demo's workshop guide three become two."""


@dataclass(frozen=True)
class ClassWork:
    """All that the files of a class are made from."""

    content: Content
    file: GuideFile
    plan: ClassPlan
    kits: tuple[Kit, ...]
    """One for each person; the same object for people of one size."""
    joined: Kit
    """The pieces of all, as they are nested."""
    paper: str
    theme: Theme


def make_class_files(work: ClassWork, pool: Pool, progress: Reporter) -> dict[str, bytes]:
    """Everything for a class: lists, papers for its leader, its stations and its people, templates.

    Workers of the `pool` make what people take, kit by kit; the rest is made here meanwhile.
    """
    content, plan = work.content, work.plan
    guide, stock = work.file.guide, content.stock
    progress.stage("documents", 4 + len(plan.people))
    several = kits_of_some(work.kits, plan.people)
    first, pictures = _draw_kit(work, work.kits[0])
    # What is too roomy for the first is so for the others: they differ by a line or two.
    _, found = _handout(work, 0, first, pictures, tuple(HandoutDensity))
    densities = tuple(HandoutDensity)[list(HandoutDensity).index(found) :]
    waiting = [pool.submit(make_for_kit, work, some, densities) for some in several]
    drawn = _draw_class(work)
    files: dict[str, bytes] = {}
    files["class.csv"] = class_csv(plan, guide, stock, content.site.currency, content.words)
    files["class.xlsx"] = class_xlsx(plan, guide, content)
    for material, sheets in drawn.sheets.items():
        for number, sheet in enumerate(sheets, 1):
            files[f"cut-{material}-{number}.svg"] = svg_file(sheet).encode()
    for number, line in enumerate(drawn.people, 1):
        files[f"time-table-{number}.svg"] = svg_file(line).encode()
    shown = booklet_files(first, pictures) | drawn.files()
    html = leader_html(content, first, plan, work.paper, pictures, drawn, work.theme)
    files["leader.pdf"] = _tagged(html, shown)
    progress.step("leader")
    html = stations_html(content, first, plan, work.paper, pictures, work.theme)
    files["stations.pdf"] = _tagged(html, shown)
    progress.step("stations")
    html = consent_html(content, first, plan, work.paper, pictures, work.theme)
    files["consent.pdf"] = _tagged(html, shown)
    progress.step("consent")
    own: dict[str, bytes] = {}
    prints: list[PrintView] = []
    for some, made in zip(several, waiting, strict=True):
        result = made.result()
        for name, data in result.items():
            own[name] = data
        name = template_name(some, plan.people, work.paper)
        pages = page_count(result[name])
        prints.append(print_view(content.words, plan, some.people, name, pages, some.copies))
        for number in some.people:
            progress.step(handout_name(number, plan.people[number].name))
    handouts = [page_count(data) for name, data in own.items() if name.startswith(HANDOUT)]
    html = before_html(
        content,
        first,
        plan,
        work.paper,
        pictures,
        prints,
        work.theme,
        handout_sheets=ceil(max(handouts) / 2),
    )
    files["beforehand.pdf"] = _tagged(html, shown)
    progress.step("beforehand")
    return files | dict(sorted(own.items()))


def make_for_kit(
    work: ClassWork, some: KitOfSome, densities: tuple[HandoutDensity, ...]
) -> dict[str, bytes]:
    """The templates of a kit, and the handouts of all who build it, the first density that does."""
    people = work.plan.people
    name = template_name(some, people, work.paper)
    files = {name: class_templates(work.content, work.file, some, people, work.paper)}
    own, pictures = _draw_kit(work, some.kit)
    for number in some.people:
        data, _ = _handout(work, number, own, pictures, densities)
        files[handout_name(number, people[number].name)] = data
    return files


def _handout(
    work: ClassWork,
    number: int,
    own: GuidePlan,
    pictures: GuidePictures,
    densities: tuple[HandoutDensity, ...],
) -> tuple[bytes, HandoutDensity]:
    """One sheet with its density: the first that holds it, else the last, the tightest."""
    shown = booklet_files(own, pictures)
    at = (work.content, own, work.plan, number, work.kits[number], work.paper, pictures, work.theme)
    data, density, left = b"", densities[-1], list(densities)
    while left:
        density = left.pop(0)
        data = _tagged(handout_html(*at, density), shown)
        pages = page_count(data)
        if pages <= HANDOUT_PAGES:
            break
        if pages > HOPELESS:
            left = left[-1:]
    return data, density


def _tagged(html: str, files: Mapping[str, bytes]) -> bytes:
    return write_pdf(html, files=files, variant="pdf/ua-1")


def _draw_class(work: ClassWork) -> ClassDrawings:
    plan, words = work.plan, work.content.words
    numbers = {step.id: number for number, step in enumerate(work.file.guide.steps, 1)}
    materials = {key: entry.name for key, entry in work.content.stock.materials.items()}
    kept = plan.times.kept()
    turns = {key: tool.name for key, tool in work.content.stock.tools.items() if key in kept}
    names = {hand: hand_name(plan, hand, words) for hand in all_hands(plan)}
    # A drawing for each day of several; one of all where there is one.
    named = [replace(day, name=day_words(day, words)) for day in plan.times.class_days]
    days: list[ClassDay | None] = [*named] or [None]
    at = (plan.hours, words)
    return ClassDrawings(
        tuple(
            line
            for day in days
            for line in draw_class_lines(plan.times, names, numbers, *at, start=plan.start, day=day)
        ),
        tuple(
            line
            for day in days
            for line in draw_tool_lines(plan.times, turns, *at, start=plan.start, day=day)
        ),
        {
            cut.material: draw_cut_sheets(
                cut, work.joined, "class", materials, words, stock=work.content.stock
            )
            for cut in plan.cut_plans
        },
    )


def _draw_kit(work: ClassWork, kit: Kit) -> tuple[GuidePlan, GuidePictures]:
    """The guide as it is for one kit, with the drawings of its steps."""
    content, guide = work.content, work.file.guide
    filled = guide_in_size(guide, kit, content.words)
    plan = GuidePlan(
        replace(work.file, guide=filled),
        (SizePlan(kit),),
        gather_cautions(guide, content.stock),
        plan_team(guide, content.stock, 1, site_hours(content.site.working_hours)),
    )
    seen, words = look_once(guide, kit, content.stock), content.words
    names = {name: entry.name for name, entry in content.stock.materials.items()}
    pictures = SizePictures(
        draw_kit(kit, names, lang=words),
        finished=(draw_finished(seen, guide, kit, words),) if seen else (),
    )
    return plan, draw_guide(plan, {kit.size: pictures}, content.stock, words)
