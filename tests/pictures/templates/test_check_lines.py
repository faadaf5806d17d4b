"""Check lines and squares: what a reader measures on template pages, and where it stands."""

import pytest
import shapely
from layout.paper.test_templates import kit_of, outline
from layout.template_samples import piece, rectangle, sample_kit
from outside.test_true_scale import HEAD
from pictures.drawing_lint import words
from pictures.english import draw_template_pages, plan_sheet
from pictures.templates.test_template_pages import MATERIALS
from shapely.geometry import LineString, Point, Polygon

from guidegen.layout.paper.templates import lay_out_templates


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
