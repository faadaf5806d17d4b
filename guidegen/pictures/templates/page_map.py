"""Template sheets in → small drawings of how their pages lie, with page numbers and names."""

from collections.abc import Sequence

from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Point
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.records import Drawn, TemplatePage, TemplateSet, TemplateSheet
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.label_room import LabelBox, MapRoom, bounds
from guidegen.pictures.pen.lettering import text_width
from guidegen.pictures.pen.map_names import Nameable, draw_name, place_names
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.tints import NARROW, PAPER, SOFT
from guidegen.pictures.templates.joints import find_joints
from guidegen.pictures.templates.lines import cut_runs
from guidegen.pictures.templates.words import join_names, label_text
from guidegen.words import Words

MAP_WIDTH = 84.0
MAP_HEIGHT = 84.0
"""mm; room for one map."""

BLANK = "#e3e6e7"
"""Places without a page."""

PIECE = "#f1ede3"
"""Templates on the map; the line around them is what counts."""

OUTLINE = Stroke(0.35)
PAGE_EDGE = Stroke(0.35, colour=SOFT)
MATCH_LINE = Stroke(0.25, dash=(1.2, 0.8), colour=SOFT)


def draw_page_maps(templates: TemplateSet, kit: Kit, lang: Words) -> tuple[Drawing, ...]:
    """One drawing for each template sheet: its pages by number, what is on them, blank places."""
    return tuple(_draw_one(templates, sheet, kit, lang) for sheet in templates.sheets)


def _draw_one(templates: TemplateSet, sheet: TemplateSheet, kit: Kit, lang: Words) -> Drawing:
    scale = map_scale(sheet, MAP_WIDTH, MAP_HEIGHT)
    pages = pages_of(templates, sheet)
    numbers = ", ".join(str(page.number) for page in pages)
    names = join_names(list(dict.fromkeys(drawn.piece.name for drawn in sheet.drawn)), lang)
    canvas = Canvas(
        sheet.width * scale + 2,
        sheet.height * scale + 2,
        lang.say(
            "Page map of template sheet {number}, size {size}", number=sheet.number, size=kit.size
        ),
        lang.say(
            "Pages {numbers}; {columns} across, {rows} down: {pieces}.",
            numbers=numbers,
            columns=sheet.columns,
            rows=sheet.rows,
            pieces=names,
        ),
        lang,
    )
    corner = (1.0, 1.0)
    draw_map(canvas, templates, sheet, corner, scale)
    for drawn in sheet.drawn:
        _draw_edges(canvas, drawn, _frame(drawn, corner, scale))
    return canvas.drawing()


def _draw_edges(canvas: Canvas, drawn: Drawn, frame: Frame) -> None:
    """Each edge to be cut, seen once a reader points at it: pages say its length beside."""
    piece = drawn.piece
    for edge in piece.template.edges:
        if edge.name != piece.fold:
            # The mirrored copy of an edge is as long, and readers know both by one name.
            data = {"edge": edge.name.removesuffix("-2"), "piece": piece.family}
            with canvas.group(css="edge", data=data):
                canvas.path((frame.run(edge.run),), None, css="edge-line")


def pages_of(templates: TemplateSet, sheet: TemplateSheet) -> list[TemplatePage]:
    """The printed pages of a sheet."""
    return [page for page in templates.pages if page.sheet == sheet.number]


def map_scale(sheet: TemplateSheet, width: float, height: float) -> float:
    """How much smaller a sheet's map is, to fit a room in mm."""
    return min(width / sheet.width, height / sheet.height)


def draw_map(
    canvas: Canvas, templates: TemplateSet, sheet: TemplateSheet, corner: Point, scale: float
) -> None:
    """Draw a sheet's map with its lower left at `corner`."""
    pages = pages_of(templates, sheet)
    x0, y0 = corner
    if len(pages) < sheet.columns * sheet.rows:
        canvas.rectangle(
            x0, y0, sheet.width * scale, sheet.height * scale, None, fill=BLANK, css="blank"
        )
    for page in pages:
        canvas.rectangle(
            x0 + page.x * scale,
            y0 + page.y * scale,
            page.width * scale,
            page.height * scale,
            PAGE_EDGE,
            fill=PAPER,
            css="page",
        )
    for drawn in sheet.drawn:
        _draw_piece(canvas, drawn, corner, scale)
    for joint in find_joints(pages, templates.overlap):
        start, end = ((x0 + x * scale, y0 + y * scale) for x, y in joint.ends())
        canvas.line(start, end, MATCH_LINE, css="line-trim")
    # After outlines and match lines, which would run through the numbers.
    things = name_things(sheet, corner, scale)
    numbers: list[LabelBox] = []
    for page in pages:
        numbers.append(_draw_number(canvas, page, corner, scale, things, numbers))
    width, height = sheet.width * scale, sheet.height * scale
    room = MapRoom(LabelBox((x0 + width / 2, y0 + height / 2), width, height), numbers)
    for name in place_names(things, room):
        draw_name(canvas, name)


def _draw_piece(canvas: Canvas, drawn: Drawn, corner: Point, scale: float) -> None:
    frame = _frame(drawn, corner, scale)
    rings = [frame.run(run) for run in cut_runs(drawn.piece)]
    # Borders of pages shine through: one sees on which page each part of a template lies.
    canvas.path(rings, OUTLINE, fill=PIECE, opacity=0.8, css=f"piece piece-{drawn.piece.key}")


def _frame(drawn: Drawn, corner: Point, scale: float) -> Frame:
    return Frame(
        scale,
        corner[0] + drawn.x * scale,
        corner[1] + drawn.y * scale,
        drawn.angle,
        drawn.flipped,
    )


def _draw_number(  # noqa: PLR0917 - a page and what lies about it
    canvas: Canvas,
    page: TemplatePage,
    corner: Point,
    scale: float,
    things: Sequence[Nameable],
    others: Sequence[LabelBox],
) -> LabelBox:
    """The page's number in a corner: pages name their neighbours by it.

    In the upper left one unless it would hide a small template, or stand over the number of
    another page; then in the first that does not.
    """
    x, y = corner[0] + page.x * scale, corner[1] + (page.y + page.height) * scale
    # Chosen: a fifth of the page leaves what lies on it to be seen, under 3 mm nobody reads a
    # number, and over 5 mm it says no more.
    size = max(3.0, min(5.0, page.height * scale / 5))
    words = f"{page.number}"
    wide = text_width(words, size, 700) + 2
    right, low = x + page.width * scale - wide, y - page.height * scale + size
    places = [
        LabelBox((left + wide / 2, top - size / 2), wide, size)
        for left, top in ((x, y), (right, y), (x, low), (right, low))
    ]
    box = next((one for one in places if not _hides(one, things, others)), places[0])
    left, top = box.centre[0] - wide / 2, box.centre[1] + size / 2
    canvas.rectangle(left, top - size, wide, size, NARROW, fill=PAPER, css="page-number")
    canvas.text((left + 1, top - size * 0.85), words, size, weight=700, css="label strong")
    return box


def _hides(box: LabelBox, things: Sequence[Nameable], others: Sequence[LabelBox]) -> bool:
    """Whether a box covers another, or the middle of a template, to which no leader could lead."""
    middles = (LabelBox(bounds(thing.rings[0]).centre, 0.5, 0.5) for thing in things)
    return any(one.meets(box) for one in (*others, *middles))


def name_things(sheet: TemplateSheet, corner: Point, scale: float) -> list[Nameable]:
    """Each template of a sheet once, on its map with the lower left at `corner`."""
    found: dict[str, Nameable] = {}
    for drawn in sheet.drawn:
        if drawn.piece.key not in found:
            frame, template = _frame(drawn, corner, scale), drawn.piece.template
            rings = [flatten(frame.run(run), 0.1) for run in (template.ring(), *template.holes)]
            found[drawn.piece.key] = Nameable(drawn.piece.name, label_text(drawn.serves), rings)
    return list(found.values())


def pages_by_piece(templates: TemplateSet) -> dict[str, list[int]]:
    """For each template, by its piece's key, the numbers of the pages that it needs."""
    found: dict[str, list[int]] = {}
    for page in templates.pages:
        for key in page.pieces:
            found.setdefault(key, []).append(page.number)
    return found


def number_ranges(numbers: Sequence[int]) -> str:
    """Page numbers as a print dialogue takes them: '1-3, 5'."""
    parts: list[str] = []
    first = last = None
    # None at the end closes the last range.
    for number in [*sorted(numbers), None]:
        if first is not None and last is not None and number == last + 1:
            last = number
            continue
        if first is not None:
            parts.append(f"{first}" if first == last else f"{first}-{last}")
        first = last = number
    return ", ".join(parts)
