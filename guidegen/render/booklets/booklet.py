"""Plan and drawings of one size in → the build booklet as an HTML text for paper out.

The text holds its style sheet; pictures of the guide are served beside it (`booklet_files`), fonts
by the adapter that sets it.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from json import dumps

from markupsafe import Markup

from guidegen.buildfile.read.content import Content
from guidegen.layout.records import GuidePlan
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.records import GuidePictures
from guidegen.render.booklets.kinds import kind_views
from guidegen.render.fonts.fallback_fonts import with_fallbacks
from guidegen.render.fonts.fonts import font_css
from guidegen.render.text.links import (
    BookletLinks,
    described_things,
    drawing_file,
    sign_file,
)
from guidegen.render.text.svg import svg_file
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.render.views.cautions import all_cautions, waived_cautions, young_views
from guidegen.render.views.guide import (
    change_views,
    cover_photo,
    facts_view,
    finished_drawings,
    has_sizes,
    kit_drawing,
    measurement_views,
    process_views,
    question_views,
    size_views,
    term_views,
)
from guidegen.render.views.materials import materials_view
from guidegen.render.views.photos import paper_photos
from guidegen.render.views.pieces import cut_plan_views, piece_views, stack_views
from guidegen.render.views.report import report_code, since_code
from guidegen.render.views.scene import Scene, drawing, size_title, title_block
from guidegen.render.views.steps import drawn_stacks, stage_views, video_view
from guidegen.render.views.teams import team_views
from guidegen.render.views.templates import template_views
from guidegen.units import PAPERS, Paper, common_page
from guidegen.words import Words, msg

TEMPLATE = "booklet.html.j2"
STYLES = ("booklet.css", "booklet-lists.css", "booklet-cautions.css", "booklet-steps.css")
"""Files of a theme that make up the rules of every document, in this order."""


@dataclass(frozen=True, slots=True)
class Form:
    """How a booklet is set where it is not as wide as its paper, or not in the usual type."""

    name: str = ""
    """Class of the body, and 'booklet-<name>.css' over the theme's rules; empty for the usual."""
    pages: tuple[str, ...] = ()
    """Names in PAPERS of pages that it serves all; empty for the papers themselves."""
    lying: bool = False
    """The long side of the page lies below."""
    linear: bool = False
    """In type too large for columns: one thing stands under the other."""


USUAL = Form()


@dataclass(frozen=True, slots=True)
class SheetView:
    """The paper of a booklet."""

    name: str
    """Classes: the page's paper and the form."""
    title: str
    css: Markup
    """Fonts, page size and the theme's rules."""
    linear: bool = False
    """Type is too large for columns: one thing stands under the other."""


def booklet_html(
    content: Content,
    plan: GuidePlan,
    size: str,
    papers: tuple[str, ...],
    *,
    pictures: GuidePictures,
    theme: Theme,
    form: Form = USUAL,
) -> str:
    """The booklet of `size` for those who print on one of `papers`, laid out for what all have.

    Raises KeyError for a size or paper that is not there.
    """
    links = BookletLinks(described_things(content, plan))
    scene = Scene(content, plan, pictures, links, paper=True, size=size)
    size_plan, drawn = plan.of_size(size), pictures.sizes[size]
    kit = size_plan.kit
    guide = scene.guide
    return Engine(theme, content.words).render(
        TEMPLATE,
        sheet=sheet_view(theme, papers, form, words=content.words),
        language=content.language,
        block=title_block(scene, msg("Build booklet"), size),
        contact=scene.line(content.site.contact),
        report=report_code(scene, size),
        guide=guide,
        size=size_title(size, content.words),
        facts=facts_view(scene),
        photo=cover_photo(scene),
        kit=kit_drawing(scene, size),
        finished=finished_drawings(scene, size),
        overview=scene.prose(guide.overview, heading=3),
        has_sizes=has_sizes(guide),
        measurements=measurement_views(scene),
        body=drawing(scene, pictures.body) if pictures.body else None,
        sizes=size_views(scene),
        own_size=[one.size for one in plan.sizes].index(size),
        cautions=all_cautions(scene),
        waived=waived_cautions(scene),
        young=young_views(scene),
        materials=materials_view(scene, size_plan.materials),
        cut_plans=cut_plan_views(scene, size_plan, drawn),
        kinds=kind_views(
            piece_views(scene, kit, size_plan, drawn, papers),
            {name: part.shape for name, part in guide.parts.items()},
        ),
        joins=tuple(drawing(scene, svg) for svg in drawn.joins),
        templates=template_views(scene, size_plan, drawn, papers),
        stacks=tuple(
            stack for stack in stack_views(scene, kit, drawn) if stack.id not in drawn_stacks(scene)
        ),
        processes=process_views(scene),
        stages=stage_views(scene),
        time_line=drawing(scene, pictures.time_line),
        teams=team_views(scene),
        video=video_view(scene, guide.video),
        wearing=scene.prose(guide.wearing, heading=3),
        care=scene.prose(guide.care, heading=3),
        questions=question_views(scene),
        terms=term_views(content),
        changes=change_views(scene),
        since=since_code(scene),
        licence=scene.prose(guide.licence_words, heading=3),
    )


def booklet_files(plan: GuidePlan, pictures: GuidePictures) -> dict[str, bytes]:
    """Pictures, signs and drawings under the names by which the guide's booklets ask for them."""
    return guide_files(plan, pictures) | {
        drawing_file(svg): svg.encode() for svg in map(svg_file, _drawings(pictures))
    }


def guide_files(plan: GuidePlan, pictures: GuidePictures) -> dict[str, bytes]:
    """Pictures as they are printed, and signs, by path from out/."""
    return paper_photos(plan.file) | sign_files(plan, pictures)


def sign_files(plan: GuidePlan, pictures: GuidePictures) -> dict[str, bytes]:
    """ISO 7010 signs by path from out/."""
    guide = plan.file.id
    return {
        sign_file(guide, code): svg_file(drawn).encode() for code, drawn in pictures.signs.items()
    }


def _drawings(pictures: GuidePictures) -> Iterator[Drawing]:
    """Every drawing that a booklet may show."""
    yield pictures.time_line
    if pictures.body:
        yield pictures.body
    yield from pictures.teams.values()
    yield from pictures.steps.values()
    for size in pictures.sizes.values():
        yield from (size.kit, *size.finished, *size.joins)
        yield from size.pieces.values()
        yield from size.sections.values()
        yield from size.exploded.values()
        for several in (size.cut_sheets, size.details):
            for drawings in several.values():
                yield from drawings


def sheet_view(
    theme: Theme,
    papers: tuple[str, ...],
    form: Form = USUAL,
    styles: tuple[str, ...] = STYLES,
    *,
    words: Words,
) -> SheetView:
    """Page size and rules of a document: fonts, page, the theme's `styles`, then the form's.

    One document serves all of `papers`: its page is what they have in common.

    `words` are those of the document's language, for what the rules say.
    """
    pages = form.pages or papers
    known = common_page(pages)
    sides = (known.height, known.width) if form.lying else (known.width, known.height)
    page = f"@page {{ size: {sides[0]:g}mm {sides[1]:g}mm }}"
    more = (f"booklet-{form.name}.css",) if form.name else ()
    rules = with_fallbacks("\n".join(theme.text(style) for style in (*styles, *more)))
    if not (form.name or form.lying):  # forms of other pages and types have lengths of their own
        rules = enlarged(rules, page_scale(known))
    css = "\n".join([font_css(), page, _said(words), rules])
    # A style element ends at its end tag wherever that stands, even in a comment of the theme.
    css = css.replace("</", "<\\/")
    shared = "shared" if len(pages) > 1 else ""
    classes = " ".join(filter(None, (*pages, shared, form.name)))
    return SheetView(classes, known.title, Markup(css), form.linear)  # noqa: S704 - made safe above


def page_scale(page: Paper) -> float:
    """By how much a booklet for a page is set larger than for A4, for which the theme is made.

    A page that is hardly larger takes more lines instead. A3 is read from twice as far as A4, or by
    two: its type is larger as its sides are.
    """
    usual = PAPERS["a4"]
    scale = min(page.width / usual.width, page.height / usual.height)
    return round(scale, 2) if scale > LARGER else 1.0


LARGER = 1.2
"""Our choice: between US Legal, which is no wider than A4, and Tabloid."""
_LENGTH = re.compile(r"(?<![\w#.])(\d+(?:\.\d+)?|\.\d+)(mm|pt)\b")


def enlarged(rules: str, scale: float) -> str:
    """Rules with all lengths of type and space made larger; drawings keep their own."""
    if scale == 1:
        return rules
    return _LENGTH.sub(lambda found: f"{float(found[1]) * scale:.4g}{found[2]}", rules)


def _said(words: Words) -> str:
    """What rules print, as custom properties that they read."""
    said = {
        "page": words.say("page"),
        "summary-foot": words.say("Summary: the booklet has the instructions and all cautions"),
    }
    # Texts of a catalogue: a quotation mark or a backslash would end the rule.
    lines = (f"--{name}: {dumps(text, ensure_ascii=False)};" for name, text in said.items())
    return f":root {{ {' '.join(lines)} }}"
