"""A template sheet in → what stands on each of its pages out: joints, labels, words by lines."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from guidegen.geometry.measures import flatten
from guidegen.geometry.records import LineKind, Point
from guidegen.layout.records import Drawn, TemplatePage, TemplateSet, TemplateSheet
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
from guidegen.pictures.template_line_words import line_words, place_line_words
from guidegen.pictures.template_lines import all_runs, frame_of
from guidegen.pictures.template_marks import check_line_words, square_rooms
from guidegen.pictures.template_notes import LEAST, Note, Words, block_of, turned_box
from guidegen.units import TEST_SQUARE_IN, TEST_SQUARE_MM

type Lines = list[list[Point]]


@dataclass
class PagePlan:
    """What stands on a page besides lines."""

    page: TemplatePage
    room: LabelField
    placed: list[Placed] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)


@dataclass
class SheetPlan:
    """A sheet with its joints and pages."""

    sheet: TemplateSheet
    joints: list[Joint]
    checks: list[CheckLine]
    pages: list[PagePlan]


def plan_sheet(
    templates: TemplateSet, sheet: TemplateSheet, materials: Mapping[str, str], foot: str
) -> SheetPlan:
    """All pages of a sheet. `materials` names them by id; `foot` ends every full label."""
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
    plan = SheetPlan(sheet, joints, checks, [])
    for page in pages:
        plan.pages.append(_plan_page(plan, page, lines, templates.overlap))
    _place_labels(plan, materials, foot)
    return plan


def _sheet_lines(drawn: Drawn) -> Lines:
    """All lines of a template in sheet coordinates; the outline first."""
    frame = frame_of(drawn, 0, 0)
    return [flatten(frame.run(run), 0.1) for run in all_runs(drawn.piece)]


def _plan_page(
    plan: SheetPlan, page: TemplatePage, lines: Sequence[Lines], overlap: float
) -> PagePlan:
    """The page with everything on it that words must keep off."""
    room = LabelField(page.width, page.height)
    one = PagePlan(page, room)
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


def _place_labels(plan: SheetPlan, materials: Mapping[str, str], foot: str) -> None:
    keys = dict.fromkeys(drawn.piece.key for drawn in plan.sheet.drawn)
    for key in keys:
        spots = [
            (one, placed)
            for one in plan.pages
            for placed in one.placed
            if placed.drawn.piece.key == key
        ]
        _label_template(spots, materials, foot)
    for key in keys:
        _label_lines(plan, key)
    for one in plan.pages:
        for check in plan.checks:
            _label_check(one, check)


def _label_template(
    spots: Sequence[tuple[PagePlan, Placed]], materials: Mapping[str, str], foot: str
) -> None:
    """One full label on the page with most room for it, short ones on the others."""
    tries = []
    for number, (one, placed) in enumerate(spots):
        blocks = label_blocks(placed.drawn, placed.count, materials, foot)
        found = place_inside(one.room, placed, blocks)
        if found is None or found[0] > 2:
            blocks = outside_blocks(placed.drawn, placed.count, materials)
            beside = place_outside(one.room, placed, blocks)
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
            short = place_inside(one.room, placed, blocks)
            if short:
                _add_note(one, short[1])


def _label_lines(plan: SheetPlan, key: str) -> None:
    """Words beside the lines of a template, each once, on the first page with room for them."""
    spots = [
        (one, placed)
        for one in plan.pages
        for placed in one.placed
        if placed.drawn.piece.key == key and placed.count == 1
    ]
    if not spots:
        return
    for words in line_words(spots[0][1].drawn.piece):
        for one, placed in spots:
            frame = frame_of(placed.drawn, -one.page.x, -one.page.y)
            note = place_line_words(one.room, placed.area, frame, words)
            if note:
                lines = placed.drawn.piece.template.lines
                hatched = any(line.kind is LineKind.TEXTURE for line in lines)
                note = replace(note, backed=hatched)
                _add_note(one, note)
                break


def _add_note(one: PagePlan, note: Note) -> None:
    one.notes.append(note)
    one.room.reserve_ring(note.ring())
    if note.leader:
        one.room.add_lines([list(note.leader)])


def _label_check(one: PagePlan, check: CheckLine) -> None:
    """The length beside a check line, on each page that shows enough of it."""
    page = one.page
    level = abs(check.end[1] - check.start[1]) < 1e-9
    block = block_of(Words(check_line_words(check), LEAST))
    for side in (1, -1):
        for share in (0.5, 0.4, 0.6, 0.3, 0.7):
            if level:
                x = page.width * share
                centre = (x, check.start[1] - page.y + side * 4.0)
                inside = check.start[0] < page.x + x < check.end[0]
            else:
                y = page.height * share
                centre = (check.start[0] - page.x - side * 4.0, y)
                inside = check.start[1] < page.y + y < check.end[1]
            angle = 0.0 if level else 90.0
            ring = turned_box(centre, block.width + 1, block.height + 0.4, angle)
            if inside and one.room.is_free(ring):
                _add_note(one, Note(block, centre, angle))
                return
