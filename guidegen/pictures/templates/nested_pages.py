"""Template sheets on which several sizes lie nested → whole pages, key pages first.

What belongs to one size lies in groups of the layers "size-0", "size-1", …, so that a PDF can
switch it; check squares, joins, labels and title strips serve all sizes.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import TemplateSet
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.lettering import wrap
from guidegen.pictures.pen.linestyles import FINE, SIZE_CUTS
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.templates.key.flow import SIDE, KeyFlow
from guidegen.pictures.templates.key.maps import draw_maps
from guidegen.pictures.templates.key.pages import (
    draw_foot,
    draw_head,
    draw_joining,
    draw_line_key,
    draw_printing,
    draw_table,
    draw_tracing,
    draw_untold,
    key_paper,
    table_rows,
)
from guidegen.pictures.templates.key.table import TableRow, served
from guidegen.pictures.templates.notes import draw_note
from guidegen.pictures.templates.page_map import number_ranges, pages_by_piece
from guidegen.pictures.templates.page_plan import PagePlan, SheetPlan
from guidegen.pictures.templates.pages import draw_page, draw_pieces, window_corner
from guidegen.pictures.templates.plan import plan_nest
from guidegen.pictures.templates.strip import SheetHead, page_count
from guidegen.words import Words

ALL = "all"
"""What a switch shows that shows every size."""


def layer_name(number: int) -> str:
    """Name of the layer of the size with `number`, from 0."""
    return f"size-{number}"


def draw_nested_pages(
    sets: Sequence[TemplateSet],
    kits: Sequence[Kit],
    head: SheetHead,
    materials: Mapping[str, str] | None = None,
) -> tuple[Drawing, ...]:
    """Every page in true size; `sets` and `kits` are those of the sizes, in the same order."""
    names = materials or {}
    sizes = [kit.size for kit in kits]
    lang = head.lang
    # The last size is the largest: what its pages and strips say holds room for every other.
    whole = replace(kits[-1], size=lang.say("all"))
    foot = lang.say(
        "{guide} · sizes {first} to {last} · version {version}",
        guide=head.title,
        first=sizes[0],
        last=sizes[-1],
        version=head.version,
    )
    plans = [
        # All sets have the same sheets and pages: those of the first serve every size.
        plan_nest(sets[0], [one.sheets[number] for one in sets], sizes, names, foot, lang)
        for number in range(len(sets[0].sheets))
    ]
    untold = [words for plan in plans for words in plan.untold]
    pages = [*_key_pages(sets, kits, head, names, untold)]
    for plan in plans:
        pages.extend(_draw(sets[0], plan, one, whole, head) for one in plan.pages)
    return tuple(pages)


def _draw(
    templates: TemplateSet, plan: SheetPlan, one: PagePlan, kit: Kit, head: SheetHead
) -> Drawing:
    def draw_templates(canvas: Canvas, dx: float, dy: float) -> None:
        left, low = window_corner(templates, one.page)
        for number, sheet in enumerate(plan.sheets):
            with canvas.group(layer=layer_name(number)):
                cut = SIZE_CUTS[number % len(SIZE_CUTS)]
                draw_pieces(canvas, one, sheet.drawn, (dx, dy), cut)
                for note in one.size_notes.get(number, ()):
                    draw_note(canvas, note, left, low)

    return draw_page(templates, plan, one, draw_templates, kit=kit, head=head)


def _key_pages(
    sets: Sequence[TemplateSet],
    kits: Sequence[Kit],
    head: SheetHead,
    materials: Mapping[str, str],
    untold: Sequence[tuple[str, str]],
) -> Iterator[Drawing]:
    lang = head.lang
    first, whole = sets[0], replace(kits[-1], size=lang.say("all"))
    sizes = [kit.size for kit in kits]
    flow = KeyFlow(key_paper(first.paper), lang.say("{guide}, all sizes", guide=head.title), lang)
    span = lang.say("sizes {first} to {last}", first=sizes[0], last=sizes[-1])
    draw_head(flow, first, span, head)
    _draw_switches(flow, sets, sizes)
    printing = draw_printing(flow)
    joints = len(first.pages) > len(first.sheets)
    if joints:
        draw_joining(flow, butt=not first.overlap)
    draw_tracing(flow)
    draw_line_key(flow, sets[-1], kits[-1], joints=joints)
    draw_maps(flow, sets[-1])
    draw_table(flow, _rows(sets, kits, materials, lang))
    draw_untold(flow, untold)
    for number, canvas in enumerate(flow.canvases, 1):
        count = page_count(number, len(flow.canvases), lang)
        draw_foot(canvas, first, whole, head, count, squares=number == printing)
        yield canvas.drawing()


def _draw_switches(flow: KeyFlow, sets: Sequence[TemplateSet], sizes: Sequence[str]) -> None:
    """One row for each size: its cut line, its pages, and a field that shows it alone."""
    flow.heading(flow.lang.say("Choose a size"))
    words = flow.lang.say(
        "Each size is a layer of this file. Click a field, or use the list of layers of your "
        "viewer, then print. Where a viewer has no layers, follow the line of your size: each "
        "has its own dashes and its name beside it."
    )
    flow.paragraph(words, below=2)
    for number, size in enumerate(sizes):
        needed = sorted({page for pages in pages_by_piece(sets[number]).values() for page in pages})
        y = flow.y - 5
        flow.canvas.text((SIDE, y), size, 4.6, weight=700)
        stroke = SIZE_CUTS[number % len(SIZE_CUTS)]
        flow.canvas.line((SIDE + 20, y + 1.5), (SIDE + 64, y + 1.5), stroke)
        flow.canvas.text(
            (SIDE + 70, y), flow.lang.say("pages {pages}", pages=number_ranges(needed)), 3.8
        )
        _draw_switch(flow, y, flow.lang.say("show only {size}", size=size), str(number))
        flow.y -= 7.5
    _draw_switch(flow, flow.y - 5, flow.lang.say("show all sizes"), ALL)
    flow.y -= 12


def _draw_switch(flow: KeyFlow, y: float, words: str, shows: str) -> None:
    left = SIDE + flow.width - 46
    with flow.canvas.group(css="switch", shows=shows):
        flow.canvas.rectangle(left, y - 1.4, 46, 6, FINE)
        flow.canvas.text((left + 23, y), words, 3.8, anchor="middle", weight=600)


def _rows(
    sets: Sequence[TemplateSet], kits: Sequence[Kit], materials: Mapping[str, str], lang: Words
) -> Iterator[TableRow]:
    """The largest size's rows, and those of templates that it has not; counts of all sizes."""
    seen: set[str] = set()
    # From the largest down: its row shows the template as drawn; smaller ones add only what it
    # lacks.
    for number in reversed(range(len(kits))):
        for row in table_rows(sets[number], kits[number], materials, lang):
            key = row.drawn.piece.key
            if key in seen:
                continue
            seen.add(key)
            words = _counts(key, sets, kits, lang)
            yield replace(row, cut=tuple(wrap(words, 42, 3.6, most=2))) if words else row


def _counts(key: str, sets: Sequence[TemplateSet], kits: Sequence[Kit], lang: Words) -> str:
    """How many of a template to cut at each size; empty where that is the same at all."""
    counts: dict[int, list[str]] = {}
    for templates, kit in zip(sets, kits, strict=True):
        for drawn in served(templates, kit):
            if drawn.piece.key == key:
                total = sum(piece.copies for piece in drawn.serves)
                counts.setdefault(total, []).append(kit.size)
    if len(counts) < 2:
        return ""
    each = (f"{' '.join(sizes)} {count}" for count, sizes in counts.items())
    return lang.say("cut {count}", count=", ".join(each))
