"""Template sheets in → whole pages as SVG texts out, in true size, key pages first."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from guidegen.geometry.measures import flatten
from guidegen.geometry.records import Kit, Point
from guidegen.layout.records import Drawn, TemplatePage, TemplateSet, TemplateSheet
from guidegen.pictures.canvas import Canvas
from guidegen.pictures.label_fields import LabelField
from guidegen.pictures.template_joints import CheckLine, Joint, check_lines, find_joints
from guidegen.pictures.template_labels import (
    Placed,
    label_blocks,
    outside_blocks,
    place_inside,
    place_outside,
    short_block,
)
from guidegen.pictures.template_lines import all_runs, draw_template, frame_of
from guidegen.pictures.template_marks import (
    check_line_words,
    draw_check_line,
    draw_joint,
    draw_squares,
    square_rooms,
)
from guidegen.pictures.template_notes import LEAST, Note, Words, block_of, draw_note, turned_box
from guidegen.pictures.template_strip import SheetHead, draw_strip, strip_fields
from guidegen.pictures.template_words import code_of, join_names, label_text
from guidegen.units import TEST_SQUARE_IN, TEST_SQUARE_MM

__all__ = ["SheetHead", "draw_template_pages"]

type Lines = list[list[Point]]


@dataclass
class _PagePlan:
    """What stands on a page besides lines."""

    page: TemplatePage
    field: LabelField
    placed: list[Placed] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)


@dataclass
class _SheetPlan:
    """A sheet with its joints and pages."""

    sheet: TemplateSheet
    joints: list[Joint]
    checks: list[CheckLine]
    pages: list[_PagePlan]


def draw_template_pages(
    templates: TemplateSet,
    kit: Kit,
    head: SheetHead,
    materials: Mapping[str, str] | None = None,
) -> tuple[str, ...]:
    """Every page in true size, one SVG each.

    `materials` gives names of sheet materials by id, for labels.
    """
    names = materials or {}
    foot = f"{head.title} · size {kit.size} · version {head.version}"
    pages: list[str] = []
    for sheet in templates.sheets:
        plan = _plan_sheet(templates, sheet, names, foot)
        pages.extend(_draw_page(templates, plan, one, kit=kit, head=head) for one in plan.pages)
    return tuple(pages)


def _plan_sheet(
    templates: TemplateSet, sheet: TemplateSheet, materials: Mapping[str, str], foot: str
) -> _SheetPlan:
    pages = [page for page in templates.pages if page.sheet == sheet.number]
    lines = [_sheet_lines(drawn) for drawn in sheet.drawn]
    joints: list[Joint] = []
    checks: list[CheckLine] = []
    if len(pages) > 1:
        ink = LabelField(sheet.width, sheet.height)
        for one in lines:
            ink.add_lines(one)
        joints = find_joints(pages, templates.overlap, ink)
        squares = [
            (page.x + x, page.y + y)
            for page in pages
            for x, y in (page.mm_square, page.inch_square)
        ]
        checks = list(check_lines(pages, ink, squares, TEST_SQUARE_IN))
    plan = _SheetPlan(sheet, joints, checks, [])
    for page in pages:
        plan.pages.append(_plan_page(plan, page, lines, templates.overlap))
    _place_labels(plan, materials, foot)
    return plan


def _sheet_lines(drawn: Drawn) -> Lines:
    """All lines of a template in sheet coordinates; the outline first."""
    frame = frame_of(drawn, 0, 0)
    return [flatten(frame.run(run), 0.1) for run in all_runs(drawn.piece)]


def _plan_page(
    plan: _SheetPlan, page: TemplatePage, lines: Sequence[Lines], overlap: float
) -> _PagePlan:
    """The page with everything on it that words must keep off."""
    room = LabelField(page.width, page.height)
    one = _PagePlan(page, room)
    for box in square_rooms([(page.mm_square, TEST_SQUARE_MM), (page.inch_square, TEST_SQUARE_IN)]):
        room.reserve(box)
    covered = _reserve_joints(plan.joints, page, room, overlap)
    for check in plan.checks:
        ends = [(x - page.x, y - page.y) for x, y in (check.start, check.end)]
        room.add_lines([ends], 1.0)
    counted: dict[str, list[int]] = {}
    for number, drawn in enumerate(plan.sheet.drawn):
        counted.setdefault(drawn.piece.key, []).append(number)
    for numbers in counted.values():
        shifted = [
            [[(x - page.x, y - page.y) for x, y in line] for line in lines[number]]
            for number in numbers
        ]
        area = [0] * len(room.ink)
        for number, moved in zip(numbers, shifted, strict=True):
            holes = len(plan.sheet.drawn[number].piece.template.holes)
            cells = room.add_area(moved[: 1 + holes])
            area = [old | new for old, new in zip(area, cells, strict=True)]
            room.add_lines(moved)
        kept = [cells & ~row for cells, row in zip(area, covered, strict=True)]
        if any(kept):
            one.placed.append(
                Placed(
                    plan.sheet.drawn[numbers[0]],
                    len(numbers),
                    kept,
                    [moved[0] for moved in shifted],
                )
            )
    return one


def _reserve_joints(
    joints: Sequence[Joint], page: TemplatePage, room: LabelField, overlap: float
) -> list[int]:
    """Keep words off the page's overlaps; returns those cells."""
    probe = LabelField(page.width, page.height)
    for joint in joints:
        if page not in (joint.first, joint.second):
            continue
        (x0, y0), (x1, y1) = joint.ends()
        half = overlap / 2
        if joint.upright:
            box = (x0 - half - page.x, y0 - page.y, overlap, y1 - y0)
        else:
            box = (x0 - page.x, y0 - half - page.y, x1 - x0, overlap)
        room.reserve(box)
        probe.reserve(box)
    return probe.ink


def _place_labels(plan: _SheetPlan, materials: Mapping[str, str], foot: str) -> None:
    keys = dict.fromkeys(drawn.piece.key for drawn in plan.sheet.drawn)
    for key in keys:
        spots = [
            (one, placed)
            for one in plan.pages
            for placed in one.placed
            if placed.drawn.piece.key == key
        ]
        _label_template(spots, materials, foot)
    for one in plan.pages:
        for check in plan.checks:
            _label_check(one, check)


def _label_template(
    spots: Sequence[tuple[_PagePlan, Placed]], materials: Mapping[str, str], foot: str
) -> None:
    """One full label on the page with most room for it, short ones on the others."""
    tries = []
    for number, (one, placed) in enumerate(spots):
        blocks = label_blocks(placed.drawn, placed.count, materials, foot)
        found = place_inside(one.field, placed, blocks)
        if found is None or found[0] > 2:
            blocks = outside_blocks(placed.drawn, placed.count, materials)
            beside = place_outside(one.field, placed, blocks)
            found = min((f for f in (found, beside) if f), key=lambda f: f[0], default=None)
        if found:
            largest = max(line.size for line in found[1].block.lines)
            tries.append(((found[0], -largest, number), one, placed, found[1]))
    if not tries:
        return
    tries.sort(key=lambda entry: entry[0])
    _, best, chosen, note = tries[0]
    _add_note(best, note)
    for one, placed in spots:
        if placed is not chosen:
            blocks = iter([(0, short_block(placed.drawn, size)) for size in (6.0, 5.0, LEAST)])
            short = place_inside(one.field, placed, blocks)
            if short:
                _add_note(one, short[1])


def _add_note(one: _PagePlan, note: Note) -> None:
    one.notes.append(note)
    one.field.reserve_ring(note.ring())
    if note.leader:
        one.field.add_lines([list(note.leader)])


def _label_check(one: _PagePlan, check: CheckLine) -> None:
    """The length beside a check line, on each page that shows enough of it."""
    page = one.page
    level = abs(check.end[1] - check.start[1]) < 1e-9
    block = block_of(Words(check_line_words(check), LEAST))
    for side in (1, -1):
        for share in (0.5, 0.4, 0.6, 0.3, 0.7):
            if level:
                x = page.width * share
                centre = (x, check.start[1] - page.y + side * 2.6)
                inside = check.start[0] < page.x + x < check.end[0]
            else:
                y = page.height * share
                centre = (check.start[0] - page.x - side * 2.6, y)
                inside = check.start[1] < page.y + y < check.end[1]
            angle = 0.0 if level else 90.0
            ring = turned_box(centre, block.width + 1, block.height + 0.4, angle)
            if inside and one.field.is_free(ring):
                _add_note(one, Note(block, centre, angle))
                return


def _draw_page(
    templates: TemplateSet, plan: _SheetPlan, one: _PagePlan, *, kit: Kit, head: SheetHead
) -> str:
    page = one.page
    names = join_names(
        [f"{label_text(placed.drawn.serves)} {placed.drawn.piece.name}" for placed in one.placed]
    )
    canvas = Canvas(
        page.paper_width,
        page.paper_height,
        f"Template page {page.number}: sheet {page.sheet}, {code_of(page)}",
        names,
    )
    canvas.rectangle(0, 0, page.paper_width, page.paper_height, None, fill="#ffffff")
    left, low = window_corner(templates, page)
    dx, dy = left - page.x, low - page.y
    with canvas.clipped(left, low, page.width, page.height, f"window-{page.number}"):
        for drawn in plan.sheet.drawn:
            if drawn.piece.key in {placed.drawn.piece.key for placed in one.placed}:
                with canvas.group(title=drawn.piece.name, css=f"piece piece-{drawn.piece.key}"):
                    draw_template(canvas, drawn.piece, frame_of(drawn, dx, dy))
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
    return canvas.svg()


def window_corner(templates: TemplateSet, page: TemplatePage) -> Point:
    """Lower left of the window on the page, in mm; the window is centred between the margins."""
    low = templates.margin_side if page.landscape else templates.margin_end
    return ((page.paper_width - page.width) / 2, low + templates.strip)


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
    deep = page.mm_square[1] < 0
    width = page.width - 112 if deep else page.width
    draw_strip(canvas, (left, low - templates.strip), width, rows, deep=deep)
