"""Template pages: words keep off lines, every template is named, joints fit only each other."""

from itertools import combinations, pairwise

import numpy as np
import pytest
from layout.template_samples import pair, piece, rectangle, sample_kit
from outside.test_true_scale import HEAD
from pictures.drawing_lint import elements, words
from pictures.english import draw_template_pages, plan_sheet
from shapely.geometry import LineString, MultiLineString, Polygon

from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import LineKind
from guidegen.geometry.pieces.records import Kit
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.pen.linestyles import CREASE, CUT, FAR_FACE, INNER, NEAR_FACE, TRIM
from guidegen.pictures.templates.joints import FIGURE, FIGURES, find_joints, half_figure
from guidegen.pictures.templates.lines import all_runs, frame_of
from guidegen.pictures.templates.notes import LEAST

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


def test_figures_of_joints_have_a_name_each_and_the_same_room():
    """None reaches beyond the square of its radius, where words and templates begin."""
    names = [name for name, _ in FIGURES]
    assert all(names) and len(set(names)) == len(names)
    for name, ring in FIGURES:
        assert max(abs(value) for point in ring for value in point) <= 1.0 + 1e-9, name
