"""Key pages and page maps: every template, line and page is on them, by names of its own."""

import re
from dataclasses import replace

import pytest
import shapely
from layout.paper.test_templates import kit_of
from layout.template_samples import disc, pair, piece, rectangle, sample_kit
from outside.test_true_scale import HEAD
from pictures.drawing_lint import check_drawing, elements, lettering, parse, words
from pictures.english import cut_words, draw_page_maps, draw_template_pages, stack_words
from pictures.templates.test_template_pages import MATERIALS

from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.templates.joints import find_joints
from guidegen.pictures.templates.page_map import map_scale, number_ranges, pages_by_piece


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


def test_thin_equal_pieces_may_be_cut_in_a_stack():
    """Up to 6 mm of foam, at least two layers, and only where several are needed."""
    panes = piece("p", "P", "Pane", rectangle(40, 70), copies=6, thickness=2.0)
    assert stack_words((panes,)) == "may be cut in a stack of 3"
    assert stack_words((piece("p", "P", "P", rectangle(9, 9), copies=6, thickness=5.0),)) == ""
    assert stack_words((piece("p", "P", "P", rectangle(9, 9), copies=2, thickness=2.0),)) == ""


def test_a_map_fits_its_room_both_ways():
    """A wide sheet fills the room's width, a high one its height, and neither leaves it."""
    kit = kit_of(piece("plate", "P", "Plate", rectangle(50, 50)))
    (one,) = lay_out_templates(kit, "a4").sheets
    for wide, high, scale in ((400, 100, 0.25), (100, 800, 0.1), (100, 80, 1.0)):
        sheet = replace(one, width=wide, height=high)
        assert map_scale(sheet, 100, 80) == pytest.approx(scale)
