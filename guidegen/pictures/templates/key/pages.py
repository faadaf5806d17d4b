"""Template sheets in → the key pages that stand before them out."""

from collections.abc import Iterable, Iterator, Mapping, Sequence

from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import TemplateSet
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.lettering import text_width
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.side_by_side import side_by_side
from guidegen.pictures.pieces.seam_words import seam_letters, seam_line
from guidegen.pictures.templates.key.flow import SIDE, KeyFlow, paragraph, steps
from guidegen.pictures.templates.key.maps import draw_maps
from guidegen.pictures.templates.key.parts import (
    draw_join_picture,
    draw_key_entry,
    join_words,
    key_entries,
    print_words,
    trace_words,
)
from guidegen.pictures.templates.key.table import (
    ROW,
    TableRow,
    draw_table_head,
    draw_table_row,
    served,
)
from guidegen.pictures.templates.marks import draw_squares
from guidegen.pictures.templates.page_map import pages_by_piece
from guidegen.pictures.templates.strip import (
    SheetHead,
    StripField,
    draw_strip,
    lower_fields,
    page_count,
)
from guidegen.pictures.templates.words import cut_words, foam_words, stack_words
from guidegen.units import PAPERS, ROLLS, TEST_SQUARE_IN, Paper
from guidegen.words import Words

HOME_PAPERS = ("a4", "letter", "legal", "a3", "tabloid")
"""Papers whose key pages are as large as they. On larger ones pages of A4 or US Letter lie side by
side, so that a print shop gets one file of one paper; who cuts them apart has pages to file."""


def key_paper(paper: str) -> Paper:
    """The paper of the key pages."""
    if paper in HOME_PAPERS:
        return PAPERS[paper]
    # Rolls end in the unit of their width: who buys them by the inch has US Letter at home.
    return PAPERS["letter" if paper.endswith("in") else "a4"]


def on_own_paper(pages: Sequence[Drawing], paper: str) -> list[Drawing]:
    """Key pages as the paper of the templates takes them: side by side where it is a large one.

    They are as wide as it, and no higher than they have to be: large papers come from rolls.
    """
    if paper in HOME_PAPERS or not pages:
        return [*pages]
    return [*side_by_side(pages, ROLLS[paper] if paper in ROLLS else PAPERS[paper].width)]


def draw_key_pages(
    templates: TemplateSet,
    kit: Kit,
    head: SheetHead,
    materials: Mapping[str, str],
    untold: Sequence[tuple[str, str]] = (),
) -> Iterator[Drawing]:
    """How to print, join and cut; line types; page map; table of templates; match marks.

    `untold` are words for which no page has room, each with what they belong to.
    """
    lang = head.lang
    size = lang.say("size {size}", size=kit.size)
    flow = KeyFlow(key_paper(templates.paper), f"{head.title}, {size}", lang)
    draw_head(flow, templates, size, head)
    # In the order of the work: print, join, trace. What one needs while cutting comes after it.
    printing = draw_printing(flow)
    joints = len(templates.pages) > len(templates.sheets)
    if joints:
        draw_joining(flow, butt=not templates.overlap)
    draw_tracing(flow)
    draw_line_key(flow, templates, kit, joints=joints)
    draw_maps(flow, templates)
    draw_table(flow, table_rows(templates, kit, materials, lang))
    draw_marks(flow, templates, kit)
    draw_untold(flow, untold)
    # After everything is placed: only now is it known how many key pages there are, and which of
    # them has the squares and may ask to have them measured.
    for number, canvas in enumerate(flow.canvases, 1):
        count = page_count(number, len(flow.canvases), lang)
        draw_foot(canvas, templates, kit, head, count, squares=number == printing)
        yield canvas.drawing()


def draw_head(flow: KeyFlow, templates: TemplateSet, size: str, head: SheetHead) -> None:
    """Guide, size, paper and version in large letters."""
    paper = PAPERS[templates.paper].title if templates.paper in PAPERS else templates.paper
    canvas = flow.canvas
    canvas.text((SIDE, flow.y - 7), head.title, 9, weight=700)
    lang, count = flow.lang, len(templates.pages)
    words = (
        lang.many(
            "Templates, {size}, for {paper}, left and right drawn: {n} page",
            "Templates, {size}, for {paper}, left and right drawn: {n} pages",
            count,
            size=size,
            paper=paper,
        )
        if templates.both_sides
        else lang.many(
            "Templates, {size}, for {paper}: {n} page",
            "Templates, {size}, for {paper}: {n} pages",
            count,
            size=size,
            paper=paper,
        )
    )
    canvas.text((SIDE, flow.y - 14), words, 5.4, weight=600)
    version = lang.say("Version {version} of {date}", version=head.version, date=head.date)
    line = f"{version} · {head.licence}"
    if head.address:
        line += f" · {head.address}"
    canvas.text((SIDE, flow.y - 19.5), line, 3.8)
    flow.y -= 25


def draw_printing(flow: KeyFlow) -> int:
    """How to print, with both check squares; the number of the page that they stand on."""
    flow.heading(flow.lang.say("Print in true size"))
    squares = 2 * TEST_SQUARE_IN + 6
    # Both places are as wide as the larger square, that of 2 in, so that they stand alike.
    beside = flow.width - squares - 6
    top = y = flow.y
    y = steps(flow.canvas, (SIDE, y), beside, print_words(flow.lang))
    left = SIDE + flow.width - squares
    low = top - TEST_SQUARE_IN - 1
    draw_squares(flow.canvas, (left, low), (left + TEST_SQUARE_IN + 6, low))
    # Below the longer of both columns.
    flow.y = min(y, low) - 5
    return len(flow.canvases)


def draw_tracing(flow: KeyFlow) -> None:
    """How to use a template."""
    flow.need(40)
    flow.heading(flow.lang.say("Trace and cut"))
    for words in trace_words(flow.lang):
        flow.paragraph(words, below=1)
    flow.y -= 3


def draw_joining(flow: KeyFlow, *, butt: bool) -> None:
    """How to join pages, with a picture."""
    flow.need(58)
    flow.heading(flow.lang.say("Join pages"))
    picture = flow.width * 0.46
    top = y = flow.y
    y = steps(flow.canvas, (SIDE, y), flow.width - picture - 6, join_words(flow.lang, butt=butt))
    draw_join_picture(flow.canvas, (SIDE + flow.width - picture, top - 32), picture, butt=butt)
    flow.y = min(y, top - 34) - 4


def draw_line_key(flow: KeyFlow, templates: TemplateSet, kit: Kit, *, joints: bool) -> None:
    """The line types in use."""
    pieces = [drawn.piece for drawn in served(templates, kit)]
    entries = list(key_entries(pieces, joints=joints))
    rows = -(-len(entries) // 2)
    flow.need(9 + rows * 10)
    flow.heading(flow.lang.say("Lines"))
    column = flow.width / 2
    for row in range(rows):
        low = flow.y
        for side in range(2):
            # Down the first column, then down the second.
            number = row + side * rows
            if number < len(entries):
                corner = (SIDE + side * column, flow.y)
                low = min(low, draw_key_entry(flow.canvas, corner, column - 5, entries[number]))
        flow.y = low
    flow.y -= 4


def table_rows(
    templates: TemplateSet, kit: Kit, materials: Mapping[str, str], lang: Words
) -> Iterator[TableRow]:
    """A row for each template, in the order of the kit."""
    pages = pages_by_piece(templates)
    for drawn in served(templates, kit):
        cut = [cut_words(drawn.serves, lang, flipped=drawn.flipped)]
        if drawn.piece.fold:
            cut.append(lang.say("half: flip over the centre line"))
        elif stack := stack_words(drawn.serves, lang):
            cut.append(stack)
        foam = foam_words(drawn.piece, materials, lang)
        yield TableRow(drawn, pages.get(drawn.piece.key, []), foam, tuple(cut))


def draw_table(flow: KeyFlow, rows: Iterable[TableRow]) -> None:
    """The table of templates."""
    flow.need(22 + ROW * 2)
    flow.heading(flow.lang.say("Templates"))
    words = flow.lang.say("For one piece alone, print only its pages.")
    flow.paragraph(words, below=1)
    flow.y = draw_table_head(flow.canvas, (SIDE, flow.y), flow.width)
    for row in rows:
        # Columns are named again on each page, since pages get parted.
        if flow.need(ROW):
            flow.y = draw_table_head(flow.canvas, (SIDE, flow.y), flow.width)
        flow.y = draw_table_row(flow.canvas, (SIDE, flow.y), flow.width, row)
    flow.y -= 4


def draw_marks(flow: KeyFlow, templates: TemplateSet, kit: Kit) -> None:
    """Which edges the letters beside match marks belong to."""
    marked = {mark.seam for drawn in served(templates, kit) for mark in drawn.piece.template.marks}
    # Letters of all seams and not of the marked ones alone: a seam keeps its letter in every
    # drawing of a size.
    letters = seam_letters(kit)
    rows = [
        (letters[seam.id], seam_line(seam, kit, flow.lang))
        for seam in kit.seams
        if seam.id in marked
    ]
    if rows:
        words = flow.lang.say("Marks with the same letter meet when the pieces are joined.")
        _draw_words(flow, flow.lang.say("Match marks"), words, rows)


def draw_untold(flow: KeyFlow, untold: Sequence[tuple[str, str]]) -> None:
    """Words for which there is no room beside their lines."""
    if untold:
        words = flow.lang.say("These words belong to lines that have no free paper beside them.")
        _draw_words(flow, flow.lang.say("Words without room"), words, untold)


def _draw_words(flow: KeyFlow, title: str, words: str, rows: Sequence[tuple[str, str]]) -> None:
    """A heading, what the rows are, and the rows: what words belong to, and the words."""
    wide = max(text_width(strong, 4.0, 700) for strong, _ in rows) + 4
    flow.need(24)
    flow.heading(title)
    flow.paragraph(words, below=1)
    for strong, line in rows:
        flow.need(7)
        flow.canvas.text((SIDE, flow.y - 4), strong, 4.0, weight=700)
        flow.y = paragraph(flow.canvas, (SIDE + wide, flow.y), flow.width - wide, line)
    flow.y -= 4


def draw_foot(
    canvas: Canvas,
    templates: TemplateSet,
    kit: Kit,
    head: SheetHead,
    number: str,
    *,
    squares: bool,
) -> None:
    """The title strip of a key page; `squares`: whether the check squares stand on it."""
    lang = head.lang
    upper = [
        StripField(lang.say("Title"), head.title, 600, 4.4),
        StripField(lang.say("Size"), kit.size, 700, 4.4),
        StripField(lang.say("On this page"), lang.say("How to print, join and cut"), share=1.0),
        StripField(lang.say("Key page"), number, 700, 4.4),
    ]
    lower = lower_fields(head, kit, lang.say("Key to templates"))
    width = canvas.width - 2 * templates.margin_side
    corner = (templates.margin_side, templates.margin_end)
    draw_strip(canvas, corner, width, [upper, lower], squares=squares)
