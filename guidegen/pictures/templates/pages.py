"""Template sheets in → whole pages out, in true size, key pages first."""

from collections.abc import Callable, Mapping, Sequence

from guidegen.geometry.outline.records import Point
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import Drawn, TemplatePage, TemplateSet
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.linestyles import CUT
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.tints import PAPER
from guidegen.pictures.pieces.seam_words import seam_letters
from guidegen.pictures.templates.key.pages import draw_key_pages, on_own_paper
from guidegen.pictures.templates.lines import draw_template, frame_of
from guidegen.pictures.templates.marks import draw_check_line, draw_joint, draw_squares
from guidegen.pictures.templates.notes import draw_note
from guidegen.pictures.templates.page_plan import PagePlan, SheetPlan
from guidegen.pictures.templates.plan import plan_sheet
from guidegen.pictures.templates.strip import SheetHead, draw_strip, strip_fields
from guidegen.pictures.templates.words import label_text

__all__ = ["SheetHead", "draw_template_pages"]


def draw_template_pages(
    templates: TemplateSet,
    kit: Kit,
    head: SheetHead,
    materials: Mapping[str, str] | None = None,
) -> tuple[Drawing, ...]:
    """Every page in true size.

    `materials` gives names of sheet materials by id, for labels.
    """
    names = materials or {}
    foot = head.lang.say(
        "{guide} · size {size} · version {version}",
        guide=head.title,
        size=kit.size,
        version=head.version,
    )
    letters = seam_letters(kit)
    plans = [
        plan_sheet(templates, sheet, names, foot, head.lang, letters) for sheet in templates.sheets
    ]
    # All sheets are planned before the key is drawn: only then is it known which words found no
    # room.
    untold = [words for plan in plans for words in plan.untold]
    keys = [*draw_key_pages(templates, kit, head, names, untold)]
    pages = on_own_paper(keys, templates.paper)
    for plan in plans:
        pages.extend(_draw_page(templates, plan, one, kit=kit, head=head) for one in plan.pages)
    return tuple(pages)


def _draw_page(
    templates: TemplateSet, plan: SheetPlan, one: PagePlan, *, kit: Kit, head: SheetHead
) -> Drawing:
    def draw_templates(canvas: Canvas, dx: float, dy: float) -> None:
        draw_pieces(canvas, one, plan.sheets[0].drawn, (dx, dy))

    return draw_page(templates, plan, one, draw_templates, kit=kit, head=head)


def draw_pieces(
    canvas: Canvas,
    one: PagePlan,
    drawn: Sequence[Drawn],
    origin: Point,
    cut: Stroke = CUT.stroke,
) -> None:
    """The templates that a page shows; the sheet's origin lies at `origin` on it."""
    shown = {placed.drawn.piece.key for placed in one.placed}
    for each in drawn:
        if each.piece.key in shown:
            with canvas.group(title=each.piece.name, css=f"piece piece-{each.piece.key}"):
                draw_template(canvas, each.piece, frame_of(each, *origin), cut)


def draw_page(
    templates: TemplateSet,
    plan: SheetPlan,
    one: PagePlan,
    draw_templates: Callable[[Canvas, float, float], None],
    *,
    kit: Kit,
    head: SheetHead,
) -> Drawing:
    """A whole page: templates as `draw_templates` draws them, joints, words, squares, strip."""
    page = one.page
    names = " · ".join(
        f"{label_text(placed.drawn.serves)} {placed.drawn.piece.name}" for placed in one.placed
    )
    canvas = Canvas(
        page.paper_width,
        page.paper_height,
        head.lang.say(
            "Template page {number}: sheet {sheet}",
            number=page.number,
            sheet=page.sheet,
        ),
        names,
        head.lang,
    )
    canvas.rectangle(0, 0, page.paper_width, page.paper_height, None, fill=PAPER)
    left, low = window_corner(templates, page)
    dx, dy = left - page.x, low - page.y
    # Lines are drawn whole and cut off at the window: pieces of one line on two pages then meet
    # exactly. Words are placed inside it and need no clip.
    with canvas.clipped(left, low, page.width, page.height, f"window-{page.number}"):
        draw_templates(canvas, dx, dy)
        for joint in plan.joints:
            if page in (joint.first, joint.second):
                draw_joint(canvas, joint, dx, dy, second=page is joint.second)
        for check in plan.checks:
            draw_check_line(canvas, check, dx, dy)
    for note in one.notes:
        draw_note(canvas, note, left, low)
    mm_at, inch_at = ((left + x, low + y) for x, y in (page.mm_square, page.inch_square))
    draw_squares(canvas, mm_at, inch_at)
    _draw_strip(canvas, templates, page, kit=kit, head=head, names=names)
    return canvas.drawing()


def window_corner(templates: TemplateSet, page: TemplatePage) -> Point:
    """Lower left of the window on the page, in mm; the window is centred between the margins."""
    # The margins are those of the paper held upright; a printer turns sideways pages.
    low = templates.margin_side if page.landscape else templates.margin_end
    return ((page.paper_width - page.width) / 2, low + page.strip)


def _draw_strip(
    canvas: Canvas,
    templates: TemplateSet,
    page: TemplatePage,
    *,
    kit: Kit,
    head: SheetHead,
    names: str,
) -> None:
    rows = strip_fields(page, templates, head, kit, names)
    left, low = window_corner(templates, page)
    # Squares below the window lie in the strip: it is a deep one, and its words stand beside them.
    deep = page.mm_square[1] < 0
    width = page.width - 112 if deep else page.width
    draw_strip(canvas, (left, low - page.strip), width, rows, deep=deep)
