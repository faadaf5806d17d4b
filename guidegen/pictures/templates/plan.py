"""A template sheet in → what stands on each of its pages out: joints, labels, words by lines."""

from collections.abc import Mapping, Sequence

from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Point
from guidegen.layout.paper.frame import LARGE
from guidegen.layout.records import Drawn, TemplatePage, TemplateSet, TemplateSheet
from guidegen.pictures.pen.frames import Room
from guidegen.pictures.pen.label_fields import LabelField
from guidegen.pictures.templates.checks import CheckLine, check_lines
from guidegen.pictures.templates.joints import (
    FIGURE,
    Joint,
    find_joints,
)
from guidegen.pictures.templates.labels import (
    DrawnTemplate,
    label_blocks,
    outside_blocks,
    place_inside,
    place_outside,
    short_block,
)
from guidegen.pictures.templates.line_notes import label_lines, label_shared_lines
from guidegen.pictures.templates.line_words import place_tag
from guidegen.pictures.templates.lines import all_runs, frame_of
from guidegen.pictures.templates.marks import check_line_words, square_rooms
from guidegen.pictures.templates.notes import LEAST, KeyNote, WordLine, block_of, turned_box
from guidegen.pictures.templates.page_plan import PagePlan, SheetPlan, add_note, spots_of
from guidegen.pictures.templates.words import label_text
from guidegen.units import TEST_SQUARE_IN, TEST_SQUARE_MM
from guidegen.words import Words as Language

type Polylines = list[list[Point]]

BESIDE = 5.0
"""mm; farther from a line no cell is taken for it."""


def plan_sheet(  # noqa: PLR0917 - a sheet and its words
    templates: TemplateSet,
    sheet: TemplateSheet,
    materials: Mapping[str, str],
    foot: str,
    lang: Language,
    letters: Mapping[str, str] | None = None,
) -> SheetPlan:
    """All pages of a sheet. `materials` names them by id; `foot` ends every full label.

    `letters` are short names of seams by id, for match marks; without them ids stand there.
    """
    plan = _plan(templates, (sheet,), lang)
    # In the order of need: labels of all templates first, which have to stand on the paper; then
    # words beside lines, which the key can tell where no page has room.
    plan.lang, plan.letters = lang, letters or {}
    _place_labels(plan, materials, foot)
    for key in _keys(plan):
        label_lines(plan, key)
    return plan


def plan_nest(  # noqa: PLR0917 - a sheet, its sizes and their words
    templates: TemplateSet,
    sheets: Sequence[TemplateSheet],
    names: Sequence[str],
    materials: Mapping[str, str],
    foot: str,
    lang: Language,
) -> SheetPlan:
    """All pages of a sheet on which several sizes lie nested; `names` are those of the sizes.

    Labels serve all sizes; each outline has a tag that names its size.
    """
    plan = _plan(templates, tuple(sheets), lang)
    _place_labels(plan, materials, foot)
    for one in plan.pages:
        for placed in one.placed:
            # Between labels and words of lines: an outline without the name of its size could not
            # be told from the others, whatever else is said beside it.
            _tag_sizes(one, placed, names)
    for key in _keys(plan):
        label_shared_lines(plan, key)
    return plan


def _plan(templates: TemplateSet, sheets: tuple[TemplateSheet, ...], lang: Language) -> SheetPlan:
    sheet = sheets[0]
    pages = [page for page in templates.pages if page.sheet == sheet.number]
    joints: list[Joint] = []
    checks: list[CheckLine] = []
    # A single home page has neither joints nor check lines, so its lines need not be measured
    # twice.
    reaches: dict[int, Room] = {}
    if len(pages) > 1 or max(sheet.width, sheet.height) >= LARGE:
        ink = LabelField(sheet.width, sheet.height)
        for one in sheets:
            for drawn in one.drawn:
                lines = _lines(drawn, 0, 0)
                ink.add_lines(lines)
                reaches[id(drawn)] = _reach(lines)
        for page in pages:
            # Figures of joints and check lines keep off the squares, which are measured line to
            # line.
            for x, y, wide, tall in _squares(page):
                ink.reserve((page.x + x, page.y + y, wide, tall))
        joints = find_joints(pages, templates.overlap, ink)
        squares = [
            (page.x + x, page.y + y)
            for page in pages
            for x, y in (page.mm_square, page.inch_square)
        ]
        checks = list(check_lines(pages, ink, squares, TEST_SQUARE_IN))
    plan = SheetPlan(sheets, joints, checks, [], lang)
    for page in pages:
        plan.pages.append(_plan_page(plan, page, templates.overlap, reaches))
    return plan


def _reach(lines: Polylines) -> Room:
    """The level rectangle around lines, with air for what words keep off them."""
    xs, ys = [x for line in lines for x, _ in line], [y for line in lines for _, y in line]
    left, low = min(xs) - BESIDE, min(ys) - BESIDE
    return left, low, max(xs) + BESIDE - left, max(ys) + BESIDE - low


def _keys(plan: SheetPlan) -> list[str]:
    """Keys of the templates of a sheet, each once."""
    found = (drawn.piece.key for sheet in plan.sheets for drawn in sheet.drawn)
    return list(dict.fromkeys(found))


def _lines(drawn: Drawn, dx: float, dy: float) -> Polylines:
    """All lines of a template on its sheet, moved; the outline first, then holes."""
    frame = frame_of(drawn, dx, dy)
    return [flatten(frame.run(run), 0.1) for run in all_runs(drawn.piece)]


def _plan_page(
    plan: SheetPlan, page: TemplatePage, overlap: float, reaches: Mapping[int, Room]
) -> PagePlan:
    """The page with everything on it that words must keep off.

    `reaches` tell what a template may touch on its sheet, by its identity, where that was measured.
    """
    room = LabelField(page.width, page.height)
    one = PagePlan(page, room)
    for box in _squares(page):
        room.reserve(box)
    # Before labels are placed: what is covered by a neighbour, or cut off, must hold no word.
    covered = _reserve_joints(plan.joints, page, room, overlap)
    for check in plan.checks:
        ends = [(x - page.x, y - page.y) for x, y in (check.start, check.end)]
        room.add_lines([ends], 1.0)
    for key in _keys(plan):
        sizes = [
            [drawn for drawn in sheet.drawn if drawn.piece.key == key] for sheet in plan.sheets
        ]
        all_of_it = (reaches.get(id(drawn)) for each in sizes for drawn in each)
        shown = any(reach is None or _meets(page, reach) for reach in all_of_it)
        placed = _placed(one, sizes, covered) if shown else None
        if placed:
            one.placed.append(placed)
    return one


def _meets(page: TemplatePage, reach: Room) -> bool:
    """Whether any of a rectangle on the sheet is on a page."""
    left, low, wide, tall = reach
    return (
        left < page.x + page.width
        and left + wide > page.x
        and low < page.y + page.height
        and low + tall > page.y
    )


def _placed(
    one: PagePlan, sizes: Sequence[Sequence[Drawn]], covered: Sequence[int]
) -> DrawnTemplate | None:
    """A template on a page; its area is what all sizes share. None where the page shows none."""
    shared: list[int] | None = None
    shown = False
    rings: list[list[Point]] = []
    for each in sizes:
        if not each:
            continue
        area = [0] * len(one.room.ink)
        rings = []
        for drawn in each:
            moved = _lines(drawn, -one.page.x, -one.page.y)
            # Outline and holes come first in `moved`; the rest are lines, which have no inside.
            cells = one.room.add_area(moved[: 1 + len(drawn.piece.template.holes)])
            area = [old | new for old, new in zip(area, cells, strict=True)]
            one.room.add_lines(moved)
            rings.append(moved[0])
        # What a neighbour covers does not count: a page with no more of a template than that shows
        # nothing of it once the pages are joined.
        kept = [cells & ~row for cells, row in zip(area, covered, strict=True)]
        shown = shown or any(kept)
        # What all nested sizes cover: a label there lies on every one of them.
        shared = kept if shared is None else [a & b for a, b in zip(shared, kept, strict=True)]
    if shared is None or not shown:
        return None
    largest = max(sizes, key=len)
    # Sizes rise: the last one that has the template is the largest.
    last = next(each for each in reversed(sizes) if each)
    nested = tuple(sizes) if len(sizes) > 1 else ()
    return DrawnTemplate(last[0], len(largest), shared, rings, nested)


def _squares(page: TemplatePage) -> list[Room]:
    return square_rooms([(page.mm_square, TEST_SQUARE_MM), (page.inch_square, TEST_SQUARE_IN)])


def _reserve_joints(
    joints: Sequence[Joint], page: TemplatePage, room: LabelField, overlap: float
) -> list[int]:
    """Keep words off the page's overlaps; returns those cells."""
    probe = LabelField(page.width, page.height)
    for joint in joints:
        if page not in (joint.first, joint.second):
            continue
        (x0, y0), (x1, y1) = joint.ends()
        # Figures may reach farther than a small overlap.
        half = max(overlap / 2, FIGURE + 0.4)
        if joint.upright:
            box = (x0 - half - page.x, y0 - page.y, 2 * half, y1 - y0)
        else:
            box = (x0 - page.x, y0 - half - page.y, x1 - x0, 2 * half)
        room.reserve(box)
        probe.reserve(box)
    return probe.ink


def _place_labels(plan: SheetPlan, materials: Mapping[str, str], foot: str) -> None:
    for key in _keys(plan):
        spots = spots_of(plan, key)
        if not _label_template(spots, materials, foot, plan.lang) and spots:
            drawn = spots[0][1].drawn
            plan.untold.append((label_text(drawn.serves), drawn.piece.name))
    for check in plan.checks:
        if not sum(_label_check(one, check, plan.lang) for one in plan.pages):
            sheet = plan.lang.say("sheet {sheet}", sheet=plan.sheets[0].number)
            plan.untold.append((sheet, check_line_words(check, plan.lang)))


def _tag_sizes(one: PagePlan, placed: DrawnTemplate, names: Sequence[str]) -> None:
    """The name of each size beside its own outline, at a different place for each."""
    for number, each in enumerate(placed.sizes):
        if not each:
            continue
        run = frame_of(each[0], -one.page.x, -one.page.y).run(each[0].piece.template.ring())
        note = place_tag(one.room, run, names[number], (number + 0.5) / len(names))
        if note:
            one.size_notes.setdefault(number, []).append(note)
            one.room.reserve_ring(note.ring())


def _label_template(
    spots: Sequence[tuple[PagePlan, DrawnTemplate]],
    materials: Mapping[str, str],
    foot: str,
    lang: Language,
) -> bool:
    """One full label on the page with most room for it, short ones on the others; False: none."""
    tries = []
    for number, (one, placed) in enumerate(spots):
        blocks = label_blocks(placed, materials, foot, lang)
        found = place_inside(one.room, placed, blocks)
        # Inside with little more than the code is worse than beside with all of it.
        if found is None or found[0] > 2:
            blocks = outside_blocks(placed, materials, lang)
            beside = place_outside(one.room, placed, blocks)
            found = min((f for f in (found, beside) if f), key=lambda f: f[0], default=None)
        if found:
            largest = max(line.size for line in found[1].block.lines)
            # The fullest label, then the largest letters, then the first page.
            tries.append(((found[0], -largest, number), one, placed, found[1]))
    if not tries:
        return False
    tries.sort(key=lambda entry: entry[0])
    _, best, chosen, note = tries[0]
    add_note(best, note)
    for one, placed in spots:
        if placed is not chosen:
            # Every page tells which templates it is a part of: it may lie alone on the table.
            blocks = iter([(0, short_block(placed.drawn, size)) for size in (6.0, 5.0, LEAST)])
            short = place_inside(one.room, placed, blocks)
            if short:
                add_note(one, short[1])
    return True


def _label_check(one: PagePlan, check: CheckLine, lang: Language) -> bool:
    """The length beside a check line, on a page that shows enough of it; False: none there."""
    page = one.page
    level = abs(check.end[1] - check.start[1]) < 1e-9
    block = block_of(WordLine(check_line_words(check, lang), LEAST))
    for side in (1, -1):
        # From the middle outward: there joints, which cover or cut off what stands at them, are
        # farthest away.
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
                add_note(one, KeyNote(block, centre, angle))
                return True
    return False
