"""Plan of a class in → the leader's sheets, station cards and handouts as HTML texts for paper."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from guidegen.buildfile.read.content import Content
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import GuidePlan
from guidegen.layout.times.class_records import ClassPlan
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.records import GuidePictures
from guidegen.quantities import money_words
from guidegen.render.booklets.booklet import STYLES, sheet_view
from guidegen.render.booklets.summary import NoLinks
from guidegen.render.classes.agenda import agenda_views
from guidegen.render.classes.before import (
    PrintView,
    done_words,
    hazard_views,
    missing_view,
    packing_views,
    touched_names,
    work_views,
    work_words,
)
from guidegen.render.classes.handout import (
    cut_views,
    help_views,
    measure_views,
    slot_views,
    young_once,
)
from guidegen.render.classes.means import advice_view, before_count_views, count_views
from guidegen.render.classes.room import room_views
from guidegen.render.classes.views import (
    before_views,
    hour_views,
    person_views,
    station_views,
    taken_views,
)
from guidegen.render.text.class_names import break_words
from guidegen.render.text.links import BookletLinks, drawing_file
from guidegen.render.text.svg import svg_file
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.render.views.cautions import all_cautions, young_views
from guidegen.render.views.guide import finished_drawings
from guidegen.render.views.materials import materials_view
from guidegen.render.views.report import report_code
from guidegen.render.views.scene import Scene, drawing, title_block
from guidegen.words import msg

CLASS_STYLES = (*STYLES, "class.css")


class HandoutDensity(StrEnum):
    """How tightly a handout is set, the roomiest first: it is to take one sheet, both sides."""

    ROOMY = "roomy"
    SMALL = "small"
    """In smaller type."""
    WORDS = "undrawn"
    """Without drawings, which the booklet has."""
    TIGHT = "undrawn small"
    """Without drawings and in smaller type."""
    FLOWING = "undrawn small flowing"
    """So too, and what lies at hand for a step may stand in the next column."""

    @property
    def drawn(self) -> bool:
        """Whether steps have their drawings."""
        return self in {HandoutDensity.ROOMY, HandoutDensity.SMALL}


HANDOUT_PAGES = 2
"""One sheet, both sides."""


@dataclass(frozen=True)
class ClassDrawings:
    """What the leader's sheets show beside the guide's own drawings."""

    people: tuple[Drawing, ...]
    """Who does what when."""
    tools: tuple[Drawing, ...]
    """Who has which tool when; empty where nobody takes turns."""
    sheets: Mapping[str, tuple[Drawing, ...]]
    """Every foam sheet, by material."""

    def files(self) -> dict[str, bytes]:
        """The drawings under the names by which the documents ask for them."""
        several = (self.people, self.tools, *self.sheets.values())
        texts = [svg_file(drawn) for drawings in several for drawn in drawings]
        return {drawing_file(text): text.encode() for text in texts}


def _set(template: str, scene: Scene, paper: str, theme: Theme, title: str, **views: object) -> str:
    """A paper of the class as HTML: its head and styles, and what is its own in `views`."""
    content = scene.content
    return Engine(theme, content.words).render(
        template,
        sheet=sheet_view(theme, (paper,), styles=CLASS_STYLES, words=content.words),
        language=content.language,
        block=title_block(scene, title),
        guide=scene.guide,
        **views,
    )


def leader_html(  # noqa: PLR0917 - a class, its plan and how it is drawn
    content: Content,
    guide: GuidePlan,
    plan: ClassPlan,
    paper: str,
    pictures: GuidePictures,
    drawn: ClassDrawings,
    theme: Theme,
) -> str:
    """Hazards, room, people, time table, what to prepare and buy, and cut plans, for the leader."""
    # Only of these there is a row or a step to lead to.
    inside = [step for step in guide.file.guide.steps if step.id not in plan.times.beforehand]
    things = frozenset(("step", step.id) for step in inside)
    scene = Scene(content, guide, pictures, BookletLinks(things), paper=True)
    names = {key: material.name for key, material in content.stock.materials.items()}
    currency = content.site.currency
    return _set(
        "class-leader.html.j2",
        scene,
        paper,
        theme,
        msg("Leader's sheets"),
        people=person_views(scene, plan),
        helpers=plan.helpers,
        taken=taken_views(scene, plan),
        advice=advice_view(scene, plan),
        cautions=all_cautions(scene),
        young=young_views(scene),
        room=room_views(scene, plan),
        protection=count_views(scene, plan, protective=True),
        tools=count_views(scene, plan, protective=False),
        hours=hour_views(scene, plan),
        agenda=agenda_views(scene, plan),
        missing=missing_view(scene, plan),
        breaks=break_words(plan, content.words),
        by_clock=plan.start is not None,
        runs_on=plan.runs_on,
        lines=[drawing(scene, svg) for svg in drawn.people],
        tool_lines=[drawing(scene, svg) for svg in drawn.tools],
        materials=materials_view(scene, plan.materials),
        report=report_code(scene, "", msg("Leader's sheets")),
        per_head=money_words(plan.per_head, currency, content.words),
        cut_plans=[
            (names[material], [drawing(scene, svg) for svg in drawings])
            for material, drawings in drawn.sheets.items()
        ],
    )


def before_html(  # noqa: PLR0917 - the same
    content: Content,
    guide: GuidePlan,
    plan: ClassPlan,
    paper: str,
    pictures: GuidePictures,
    prints: Sequence[PrintView],
    theme: Theme,
    *,
    handout_sheets: int,
) -> str:
    """What is printed, done for all kits and packed before the class, for those who do it.

    `handout_sheets` are those of the longest handout, printed on both sides.
    """
    things = frozenset(("step", one.step) for one in plan.before)
    scene = Scene(content, guide, pictures, BookletLinks(things), paper=True)
    return _set(
        "class-before.html.j2",
        scene,
        paper,
        theme,
        msg("Before the class"),
        people=len(plan.people),
        prints=prints,
        handout_sheets=handout_sheets,
        work=work_views(scene, plan),
        work_words=work_words(scene, plan),
        tools=before_count_views(scene, plan),
        steps=before_views(scene, plan),
        room_tools=(
            *count_views(scene, plan, protective=True),
            *count_views(scene, plan, protective=False),
        ),
        packing=packing_views(scene, plan, room=True),
        used_before=packing_views(scene, plan, room=False),
        stations=len(station_views(scene, plan)),
        report=report_code(scene, "", msg("Before the class")),
    )


def consent_html(  # noqa: PLR0917 - the same
    content: Content,
    guide: GuidePlan,
    plan: ClassPlan,
    paper: str,
    pictures: GuidePictures,
    theme: Theme,
) -> str:
    """A form for what a leader must know of each person before the class."""
    scene = Scene(content, guide, pictures, NoLinks(), paper=True)
    return _set(
        "class-consent.html.j2",
        scene,
        paper,
        theme,
        msg("Consent"),
        done=done_words(scene, plan),
        hazards=hazard_views(scene, plan),
        materials=touched_names(scene, plan),
        report=report_code(scene, "", msg("Consent")),
    )


def stations_html(  # noqa: PLR0917 - the same
    content: Content,
    guide: GuidePlan,
    plan: ClassPlan,
    paper: str,
    pictures: GuidePictures,
    theme: Theme,
) -> str:
    """A card for each kind of work, its cautions first, to lie where the work is done."""
    scene = Scene(content, guide, pictures, NoLinks(), paper=True)
    return _set(
        "class-stations.html.j2",
        scene,
        paper,
        theme,
        msg("Station cards"),
        stations=station_views(scene, plan),
        several=bool(plan.times.class_days),
        report=report_code(scene, "", msg("Station cards")),
    )


def handout_html(  # noqa: PLR0917 - the same
    content: Content,
    guide: GuidePlan,
    plan: ClassPlan,
    person: int,
    kit: Kit,
    paper: str,
    pictures: GuidePictures,
    theme: Theme,
    density: HandoutDensity = HandoutDensity.ROOMY,
) -> str:
    """What one person of the class (a number from 0) takes to the table.

    `guide` and `pictures` are those of the person's `kit`; each caution stands before its action.
    """
    scene = Scene(content, guide, pictures, NoLinks(), paper=True)
    seen = person_views(scene, plan)[person]
    young, slots = young_once(slot_views(scene, plan, person, drawn=density.drawn))
    return _set(
        "class-handout.html.j2",
        scene,
        paper,
        theme,
        msg("Handout"),
        person=seen,
        look=finished_drawings(scene),
        density=density,
        report=report_code(scene, seen.size, msg("Handout")),
        measures=measure_views(scene, kit),
        pieces=cut_views(scene, kit),
        # Of several days each tells its own, above its steps.
        breaks="" if plan.times.class_days else break_words(plan, content.words),
        helps=help_views(scene, plan, person),
        young=young,
        slots=slots,
        before=before_views(scene, plan),
    )
