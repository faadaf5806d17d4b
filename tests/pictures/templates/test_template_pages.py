"""Template pages: words keep off lines, every template is named, joints fit only each other."""

import re
from dataclasses import replace
from itertools import combinations, pairwise

import numpy as np
import pytest
import shapely
from layout.paper.test_templates import kit_of, outline
from layout.template_samples import disc, pair, piece, rectangle, sample_kit
from outside.test_true_scale import HEAD
from pictures.drawing_lint import check_drawing, elements, lettering, parse, words
from pictures.english import cut_words, draw_page_maps, draw_template_pages, plan_sheet, stack_words
from shapely.geometry import LineString, MultiLineString, Point, Polygon

from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import LineKind
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.pen.linestyles import CREASE, CUT, FAR_FACE, INNER, NEAR_FACE, TRIM
from guidegen.pictures.templates.joints import FIGURE, FIGURES, find_joints, half_figure
from guidegen.pictures.templates.lines import all_runs, frame_of
from guidegen.pictures.templates.notes import LEAST
from guidegen.pictures.templates.page_map import map_scale, number_ranges, pages_by_piece

PAPERS = ("a4", "letter", "a3", "roll-24in")
MATERIALS = {"foam-5": "Craft foam, 5 mm", "foam-10": "Floor mat, 10 mm"}


@pytest.fixture(scope="module", params=PAPERS)
def planned(request):
    """The sample kit on a paper, with what stands on each page."""
    templates = lay_out_templates(sample_kit(), request.param)
    plans = [
        plan_sheet(templates, sheet, MATERIALS, "Harbour Lantern Walk kit · size M")
        for sheet in templates.sheets
    ]
    return templates, plans


def sheet_lines(sheet):
    """Every line of every template of a sheet."""
    return [
        LineString(flatten(frame_of(drawn, 0, 0).run(run), 0.05))
        for drawn in sheet.drawn
        for run in all_runs(drawn.piece)
    ]


def note_boxes(one):
    """The rectangles that words take on a page, on the sheet."""
    for note in one.notes:
        ring = [(x + one.page.x, y + one.page.y) for x, y in note.ring(0)]
        yield note, Polygon(ring)


def test_no_word_crosses_a_line(planned):
    """The rectangle of every note keeps off all lines of all templates."""
    _, plans = planned
    for plan in plans:
        lines = MultiLineString(sheet_lines(plan.sheets[0]))
        for one in plan.pages:
            for note, box in note_boxes(one):
                assert not box.intersects(lines), note


def test_no_two_notes_lie_on_each_other(planned):
    """Words on a page do not overlap, and keep off check squares and the window's rim."""
    _, plans = planned
    for plan in plans:
        for one in plan.pages:
            boxes = [box for _, box in note_boxes(one)]
            page = one.page
            for x, y, side in ((*page.mm_square, 50.0), (*page.inch_square, 50.8)):
                left, low = page.x + x, page.y + y
                boxes.append(
                    Polygon(
                        [
                            (left, low),
                            (left + side, low),
                            (left + side, low + side),
                            (left, low + side),
                        ]
                    )
                )
            for first, second in combinations(boxes, 2):
                assert not first.intersects(second)
            for box in boxes:
                left, low, right, high = box.bounds
                assert left >= page.x and low >= page.y
                assert right <= page.x + page.width and high <= page.y + page.height


def test_every_template_has_a_label_with_its_code(planned):
    """Code, name and how many to cut stand on one of the template's pages; code on the others."""
    _, plans = planned
    for plan in plans:
        for drawn in plan.sheets[0].drawn:
            code = " ".join(one.label for one in drawn.serves)
            texts = [
                " / ".join(line.text for line in note.block.lines)
                for one in plan.pages
                for note in one.notes
            ]
            own = [text for text in texts if text.startswith(code)]
            assert own
            assert any(drawn.piece.name in text and "cut" in text for text in own)


def test_lettering_is_never_small(planned):
    """All notes have capitals of at least 2.5 mm."""
    _, plans = planned
    sizes = [
        line.size
        for plan in plans
        for one in plan.pages
        for note in one.notes
        for line in note.block.lines
    ]
    assert min(sizes) >= LEAST
    assert LEAST * 0.7 >= 2.5


def test_labels_stand_in_their_own_template(planned):
    """A note without a leader that begins with a code lies in the template of that code."""
    _, plans = planned
    for plan in plans:
        areas = {}
        for drawn in plan.sheets[0].drawn:
            code = " ".join(one.label for one in drawn.serves)
            ring = flatten(frame_of(drawn, 0, 0).run(drawn.piece.template.ring()), 0.05)
            areas.setdefault(code, []).append(Polygon(ring))
        for one in plan.pages:
            for note, box in note_boxes(one):
                first = note.block.lines[0].text.split("  ")[0]
                if first in areas and note.leader is None and len(areas[first]) == 1:
                    area = areas[first][0]
                    assert area.covers(box) or area.distance(box) < 4


def test_joints_show_halves_that_make_whole_figures():
    """The two halves of a joint are the whole figure, and no half fits another joint."""
    templates = lay_out_templates(
        Kit("k", "M", (), (), (piece("plate", "P", "Plate", rectangle(500, 600)),), (), ()), "a4"
    )
    joints = find_joints(templates.pages, templates.overlap)
    assert len(joints) > 6
    for joint in joints:
        halves = [
            LineString(line)
            for second in (False, True)
            for line in half_figure(joint, joint.start + 40, second=second, scale=FIGURE)
        ]
        ring = FIGURES[joint.number % len(FIGURES)][1]
        whole = LineString(
            [joint.point(joint.start + 40 + y * FIGURE, x * FIGURE) for x, y in (*ring, ring[0])]
        )
        drawn = MultiLineString(halves)
        assert drawn.hausdorff_distance(whole) < 0.05
        assert sum(half.length for half in halves) == pytest.approx(whole.length)
    halves = [half_points(ring, sign) for _, ring in FIGURES for sign in (1,)]
    for first, second in combinations(halves, 2):
        assert first.hausdorff_distance(second) > 0.1


def half_points(ring, sign):
    """The half of a figure on one side, as points along its line."""
    line = LineString((*ring, ring[0]))
    points = [line.interpolate(along) for along in np.linspace(0, line.length, 400)]
    return MultiLineString(
        [LineString([(p.x, p.y), (p.x + 1e-6, p.y)]) for p in points if p.x * sign >= 0]
    )


def test_pages_name_their_neighbours():
    """At each joint both pages name the other, and say which is laid on top."""
    templates = lay_out_templates(sample_kit(), "a4")
    pages = draw_template_pages(templates, sample_kit(), HEAD)
    keys = len(pages) - len(templates.pages)
    told = 0
    for sheet in templates.sheets:
        for joint in plan_sheet(templates, sheet, {}, "").joints:
            first = words(pages[joint.first.number - 1 + keys])
            second = words(pages[joint.second.number - 1 + keys])
            numbers = [page.number for page in (joint.first, joint.second)]
            assert first.count(f"{numbers[1]}") >= 2 and second.count(f"{numbers[0]}") >= 2
            if joint.words is not None:
                told += 1
                assert f"page {numbers[1]} is laid on here, up to this line" in first
                assert f"cut the paper along this line, lay it on page {numbers[0]}" in second
    assert told > 2


def test_check_lines_run_over_all_pages_and_say_their_length():
    """A sheet of several pages has a long line whose words give its true length."""
    templates = lay_out_templates(sample_kit(), "a4")
    for sheet in templates.sheets:
        plan = plan_sheet(templates, sheet, {}, "")
        if len(plan.pages) == 1:
            assert not plan.checks
            continue
        assert all(check.joined for check in plan.checks)
        assert plan.checks
        for check in plan.checks:
            ends = [Point(check.start), Point(check.end)]
            assert ends[0].distance(ends[1]) == pytest.approx(check.length)
            assert check.length % 50 == 0
            middle = [
                one
                for one in plan.pages
                if Polygon(
                    [
                        (one.page.x, one.page.y),
                        (one.page.x + one.page.width, one.page.y),
                        (one.page.x + one.page.width, one.page.y + one.page.height),
                        (one.page.x, one.page.y + one.page.height),
                    ]
                ).intersects(LineString([check.start, check.end]))
            ]
            assert len(middle) >= 2
            text = f"check line: {check.length:.0f} mm"
            assert any(
                line.text.startswith(text)
                for one in plan.pages
                for note in one.notes
                for line in note.block.lines
            )


def test_line_types_differ_without_colour():
    """Every line type has its own dashes or width, so that a grey print keeps them apart."""
    styles = [CUT, CREASE, FAR_FACE, TRIM, *INNER.values()]
    seen = {}
    for style in styles:
        key = (style.stroke.width, style.stroke.dash)
        assert key not in seen or style.stroke == INNER[LineKind.CENTRE].stroke
        seen[key] = style
        assert style.word and style.meaning.endswith(".")
    # A bevel whose near face is smaller ends in the same line as a fold; both are named.
    assert NEAR_FACE.stroke == INNER[LineKind.FOLD].stroke


def test_dashes_follow_the_standard():
    """ISO 128-2 counts dashes in line widths: 12 d and gaps of 3 d, long dashes of 24 d."""
    for style, wanted in (
        (FAR_FACE, (12, 3)),
        (INNER[LineKind.GROOVE], (12, 3)),
        (INNER[LineKind.RIM], (12, 3, 0.5, 3)),
        (CREASE, (24, 3, 0.5, 3)),
        (INNER[LineKind.PLACEMENT], (24, 3, 0.5, 3, 0.5, 3)),
    ):
        counted = [length / style.stroke.width for length in style.stroke.dash]
        assert counted == pytest.approx(wanted)


def test_cut_words_say_which_way_round():
    """Counts by hand, flipped ones apart, spares named."""
    left, right = pair("cuff", "C", "Cuff", rectangle(10, 10), copies=3)
    assert cut_words((left, right)) == "cut 3 as drawn + 3 flipped"
    assert cut_words((right,), flipped=True) == "cut 3"
    stud = piece("stud", "N", "Stud", rectangle(10, 10), copies=71, spares=7)
    assert cut_words((stud,)) == "cut 71 (7 spare)"


def test_no_page_is_called_like_a_piece_or_a_paper():
    """Neither pages nor their map say A4 or B1 but for labels of pieces: pages go by number."""
    templates = lay_out_templates(sample_kit(), "a4")
    labels = {piece.label for piece in sample_kit().pieces}
    labels |= {label.rstrip("LR") for label in labels}
    drawings = [
        *draw_template_pages(templates, sample_kit(), HEAD),
        *draw_page_maps(templates, sample_kit()),
    ]
    addresses = re.compile(r"\b[A-Z]\d+\b")
    found = {code for one in drawings for text in words(one) for code in addresses.findall(text)}
    assert found <= {*labels, "A4"}  # the paper itself, on the key page
    assert len(templates.pages) > len(templates.sheets)


def test_pages_for_one_piece_are_written_as_a_print_dialogue_takes_them():
    """Runs are joined, single pages stand alone."""
    assert number_ranges([1, 2, 3, 5, 8, 9]) == "1-3, 5, 8-9"
    assert number_ranges([4]) == "4"
    assert number_ranges([]) == ""
    templates = lay_out_templates(sample_kit(), "a4")
    for key, numbers in pages_by_piece(templates).items():
        assert all(key in templates.pages[number - 1].pieces for number in numbers)


def test_page_maps_show_pages_names_and_joints():
    """Each sheet has a map with its page numbers, and a description in words."""
    kit = sample_kit()
    templates = lay_out_templates(kit, "a4")
    maps = draw_page_maps(templates, kit)
    assert len(maps) == len(templates.sheets)
    for sheet, svg in zip(templates.sheets, maps, strict=True):
        own = [page for page in templates.pages if page.sheet == sheet.number]
        check_drawing(svg)
        assert len(elements(svg, "rect", "page")) == len(own)
        assert {str(page.number) for page in own} <= set(words(svg))
        assert len(elements(svg, "path", "line-trim")) == len(find_joints(own, templates.overlap))


def test_a_template_too_small_for_its_label_has_it_beside_it_on_the_map():
    """A stud of 8 mm: a leader joins it to its code, which stands on the sheet."""
    kit = kit_of(piece("stud", "S", "Stud", disc(4)))
    (drawn,) = draw_page_maps(lay_out_templates(kit, "a4"), kit)
    assert len(elements(drawn, "path", "leader")) == 1
    (sheet,) = elements(drawn, "rect", "page")
    left, top = float(sheet.get("x")), float(sheet.get("y"))
    sheet_box = shapely.box(
        left, top, left + float(sheet.get("width")), top + float(sheet.get("height"))
    )
    (label,) = [one for one in lettering(drawn) if one.words == "S"]
    assert sheet_box.contains(shapely.box(label.left, label.top, label.right, label.bottom))


def test_the_key_names_every_template_and_used_line():
    """The key pages hold the table of templates, the line types in use and the page map."""
    kit = sample_kit()
    templates = lay_out_templates(kit, "a4")
    pages = draw_template_pages(templates, kit, HEAD, MATERIALS)
    keys = pages[: len(pages) - len(templates.pages)]
    text = " ".join(word for page in keys for word in words(page))
    for one in kit.pieces:
        assert one.name in text
        assert one.label in text
    assert "cut 5 as drawn + 5 flipped" in text
    assert "half: flip over the centre line" in text
    assert "Craft foam, 5 mm" in text
    assert "may be cut in a stack of 3" in text
    for part in ("Print in true size", "Join pages", "Trace and cut", "Lines", "Page map"):
        assert part in text
    assert "engrave" not in text.lower()


def test_large_papers_have_keys_as_wide_as_they():
    """Keys of A0 are A4 pages side by side, those of an inch roll US Letter; A3 keeps its own."""
    kit = sample_kit()
    for paper, size in (
        ("a0", ("841mm", "297mm")),
        ("roll-36in", ("914.4mm", "279.4mm")),
        ("a3", ("297mm", "420mm")),
    ):
        pages = draw_template_pages(lay_out_templates(kit, paper), kit, HEAD)
        root = parse(pages[0])
        assert (root.get("width"), root.get("height")) == size


def test_mirrored_templates_say_so():
    """A right-hand template that is printed mirrored is marked as the right side."""
    kit = Kit("k", "M", (), (), pair("cuff", "C", "Cuff", rectangle(100, 80)), (), ())
    templates = lay_out_templates(kit, "a4", both_sides=True)
    pages = draw_template_pages(templates, kit, HEAD)
    text = words(pages[-1])
    assert "mirrored: right side" in text
    assert "CL" in text and "CR" in text


def test_hostile_names_stay_words():
    """Markup in a title is text, not markup, and control characters are left out."""
    kit = Kit("k", "M", (), (), (piece("p", "P", "<b>&\x07 plate", rectangle(90, 90)),), (), ())
    pages = draw_template_pages(lay_out_templates(kit, "a4"), kit, HEAD)
    assert "<b>& plate" in " ".join(words(pages[-1]))


def test_windows_of_neighbours_agree_in_the_overlap():
    """What two pages both show is drawn on both: the same templates at the same place."""
    templates = lay_out_templates(sample_kit(), "a4")
    pages = draw_template_pages(templates, sample_kit(), HEAD)
    keys = len(pages) - len(templates.pages)
    several = [p for p in templates.pages if sum(q.sheet == p.sheet for q in templates.pages) > 1]
    for first, second in pairwise(several):
        if first.sheet != second.sheet:
            continue
        shared = set(first.pieces) & set(second.pieces)
        for key in shared:
            css = f"piece-{key}"
            assert elements(pages[first.number - 1 + keys], "g", css)
            assert elements(pages[second.number - 1 + keys], "g", css)


def test_edge_to_edge_joints_are_cut_on_both_pages():
    """For card both pages are cut where they meet, and the key says so."""
    kit = sample_kit()
    templates = lay_out_templates(kit, "a4", overlap=0.0)
    pages = draw_template_pages(templates, kit, HEAD)
    text = [word for page in pages for word in words(page)]
    joints = [
        joint
        for sheet in templates.sheets
        for joint in plan_sheet(templates, sheet, {}, "").joints
        if joint.words is not None
    ]
    assert joints and all(joint.butt for joint in joints)
    assert sum(word.endswith("cut along this line") for word in text) == 2 * len(joints)
    assert not any("is laid on here, up to" in word for word in text)


@pytest.mark.parametrize("paper", ["roll-24in", "roll-914mm", "a1", "a0"])
def test_check_lines_of_a_large_page_keep_off_its_templates(paper):
    """The arrows and strokes of both lines come nowhere near a template or a check square."""
    templates = lay_out_templates(sample_kit(), paper)
    for sheet in templates.sheets:
        plan = plan_sheet(templates, sheet, {}, "")
        assert [check.start[0] == check.end[0] for check in plan.checks] == [False, True]
        (page,) = [one.page for one in plan.pages]
        squares = [
            shapely.box(page.x + x, page.y + y, page.x + x + side, page.y + y + side)
            for (x, y), side in ((page.mm_square, 50.0), (page.inch_square, 50.8))
        ]
        window = shapely.box(page.x, page.y, page.x + page.width, page.y + page.height)
        shapes = [*squares, *(outline(drawn) for drawn in sheet.drawn)]
        for check in plan.checks:
            drawn_line = LineString([check.start, check.end]).buffer(4.2)
            assert window.covers(drawn_line)
            assert all(not drawn_line.intersects(shape) for shape in shapes)


def test_a_large_page_without_a_free_lane_has_check_lines_that_cross_nothing():
    """A plate nearly as large as the sheet: where a check line would cross it, it is shorter."""
    kit = kit_of(piece("plate", "P", "Plate", rectangle(575, 780)))
    templates = lay_out_templates(kit, "a1")
    (sheet,) = templates.sheets
    plan = plan_sheet(templates, sheet, {}, "")
    ring = outline(sheet.drawn[0]).boundary
    assert plan.checks
    assert all(not ring.intersects(LineString([c.start, c.end])) for c in plan.checks)


def test_a_large_single_page_has_check_lines_too():
    """A plotter may drift: a roll has a level and an upright line, A4 pages have none."""
    templates = lay_out_templates(sample_kit(), "roll-24in")
    plan = plan_sheet(templates, templates.sheets[0], {}, "")
    assert [check.joined for check in plan.checks] == [False, False]
    text = [line.text for note in plan.pages[0].notes for line in note.block.lines]
    assert any(word.startswith("check line: 550 mm") for word in text)
    # Each has its length beside it, written along it.
    turns = [
        note.angle
        for note in plan.pages[0].notes
        if any(line.text.startswith("check line") for line in note.block.lines)
    ]
    assert sorted(turns) == [0.0, 90.0]
    assert not any("once the pages are joined" in word for word in text)


def test_thin_equal_pieces_may_be_cut_in_a_stack():
    """Up to 6 mm of foam, at least two layers, and only where several are needed."""
    panes = piece("p", "P", "Pane", rectangle(40, 70), copies=6, thickness=2.0)
    assert stack_words((panes,)) == "may be cut in a stack of 3"
    assert stack_words((piece("p", "P", "P", rectangle(9, 9), copies=6, thickness=5.0),)) == ""
    assert stack_words((piece("p", "P", "P", rectangle(9, 9), copies=2, thickness=2.0),)) == ""


def test_a_page_asks_to_measure_only_what_it_has():
    """Pages that ask to measure the check squares have both; a second key page has none."""
    kit = sample_kit()
    pages = draw_template_pages(lay_out_templates(kit, "a4"), kit, HEAD, MATERIALS)
    without = 0
    for page in pages:
        said = words(page)
        asks = any("Measure both check squares" in text for text in said)
        assert asks == ("50 mm" in said and "2 in" in said)
        without += not asks
    assert without > 0


def test_a_map_fits_its_room_both_ways():
    """A wide sheet fills the room's width, a high one its height, and neither leaves it."""
    kit = kit_of(piece("plate", "P", "Plate", rectangle(50, 50)))
    (one,) = lay_out_templates(kit, "a4").sheets
    for wide, high, scale in ((400, 100, 0.25), (100, 800, 0.1), (100, 80, 1.0)):
        sheet = replace(one, width=wide, height=high)
        assert map_scale(sheet, 100, 80) == pytest.approx(scale)


def test_figures_of_joints_have_a_name_each_and_the_same_room():
    """None reaches beyond the square of its radius, where words and templates begin."""
    names = [name for name, _ in FIGURES]
    assert all(names) and len(set(names)) == len(names)
    for name, ring in FIGURES:
        assert max(abs(value) for point in ring for value in point) <= 1.0 + 1e-9, name
