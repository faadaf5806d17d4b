"""The title strip of a template page: which page of how many sheets, in words that have room."""

from itertools import combinations

import pytest
from layout.paper.test_templates import kit_of
from layout.template_samples import piece, rectangle
from outside.test_true_scale import HEAD
from pictures.drawing_lint import lettering
from shapely import box

from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.lettering import text_width
from guidegen.pictures.templates.strip import draw_strip, strip_fields
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH


def fields(width: float, height: float) -> list[list[str]]:
    """Name and value of the sheet's field on every page of a rectangle's templates on A4."""
    kit = kit_of(piece("plate", "A", "Plate", rectangle(width, height)))
    templates = lay_out_templates(kit, "a4")
    found = []
    for page in templates.pages:
        upper, _ = strip_fields(page, templates, HEAD, kit, "A Plate")
        found += [[one.name, one.value] for one in upper if one.name.startswith("Sheet")]
    return found


def test_a_sheet_of_one_page_is_whole():
    """Nothing has to be joined to it, and it says so."""
    assert fields(100, 80) == [["Sheet, whole", "1"]]


def test_a_sheet_of_several_pages_says_its_place():
    """Pages that are joined are not whole, each has a place of its own and the sheet's extent."""
    found = fields(300, 150)
    assert len(found) == 2
    assert not any("whole" in name for name, _ in found)
    assert len({(name, value) for name, value in found}) == 2


@pytest.mark.parametrize("deep", [False, True])
def test_no_word_of_the_strip_lies_on_another(deep: bool) -> None:
    """Names above their values in a strip along the page, before them in one that is narrow."""
    kit = kit_of(piece("plate", "A", "Plate", rectangle(300, 150)))
    templates = lay_out_templates(kit, "a4")
    rows = strip_fields(templates.pages[0], templates, HEAD, kit, "A Plate")
    canvas = Canvas(210, 90, "x", "", ENGLISH)
    draw_strip(canvas, (5, 5), 90 if deep else 200, rows, deep=deep)
    drawn = lettering(svg_file(canvas.drawing()))
    assert len(drawn) >= 2 * sum(len(row) for row in rows)
    boxes = [box(one.left, one.top, one.right, one.bottom) for one in drawn]
    for one, other in combinations(range(len(boxes)), 2):
        shared = boxes[one].intersection(boxes[other]).area
        assert shared < 0.05, (drawn[one], drawn[other])


def test_every_field_has_room_for_its_words():
    """A field is as wide as the longer of its name and value, each in its own size and weight."""
    kit = kit_of(piece("plate", "A", "Plate", rectangle(300, 150)))
    templates = lay_out_templates(kit, "a4")
    for row in strip_fields(templates.pages[0], templates, HEAD, kit, "A Plate"):
        for field in row:
            longest = max(
                text_width(field.name, 2.5, 400), text_width(field.value, field.size, field.weight)
            )
            assert longest + 1.6 <= field.width == pytest.approx(longest + 3), field
