"""A PDF of all sizes: each size is a layer, and fields on the key switch them."""

import io
from functools import cache

import numpy as np
import pikepdf
import pypdfium2
import pytest
from layout.template_samples import disc, piece, sample_kit
from outside.test_true_scale import HEAD
from pictures.drawing_lint import words

from guidegen.geometry.pieces.records import Kit
from guidegen.layout.paper.nested_templates import lay_out_nested
from guidegen.pictures.pen.linestyles import SIZE_CUTS
from guidegen.pictures.templates.nested_pages import draw_nested_pages
from guidegen.render.pdf.nested_pdf import render_nested_pdf
from guidegen.render.text.svg import svg_file
from guidegen.words import ENGLISH

SIZES = ("S", "M", "L")


@cache
def nested_sample():
    """Pages, sets and PDF of three sizes of the sample kit."""
    kits = [sample_kit(size, factor) for size, factor in zip(SIZES, (0.9, 1.0, 1.1), strict=True)]
    sets = lay_out_nested(kits, "a4")
    pages = draw_nested_pages(sets, kits, HEAD)
    return pages, sets, render_nested_pdf(pages, sets[0], SIZES, "All sizes", ENGLISH)


@pytest.fixture(scope="module")
def made():
    """The nested sample."""
    return nested_sample()


def ink(data):
    """Dark pixels of each page."""
    with pypdfium2.PdfDocument(data) as pdf:
        return [
            int((np.asarray(page.render(scale=1, grayscale=True).to_numpy()) < 160).sum())
            for page in pdf
        ]


def switched(data, off):
    """The same file with some layers off."""
    with pikepdf.open(io.BytesIO(data)) as pdf:
        groups = list(pdf.Root.OCProperties.OCGs)
        pdf.Root.OCProperties.D.OFF = pikepdf.Array([groups[number] for number in off])
        out = io.BytesIO()
        pdf.save(out)
        return out.getvalue()


def test_each_size_is_a_layer_that_takes_its_ink_along(made):
    """Layers are named for readers; switching one off leaves less ink, all off leaves frames."""
    pages, sets, data = made
    keys = len(pages) - len(sets[0].pages)
    with pikepdf.open(io.BytesIO(data)) as pdf:
        names = [str(group.Name) for group in pdf.Root.OCProperties.OCGs]
        assert names == ["Size S", "Size M", "Size L"]
        assert len(pdf.Root.OCProperties.D.ON) == 3
    whole, without_large = ink(data), ink(switched(data, [2]))
    none = ink(switched(data, [0, 1, 2]))
    assert whole[:keys] == without_large[:keys] == none[:keys]
    for page in range(keys, len(pages)):
        assert none[page] < without_large[page] <= whole[page]
        assert none[page] > 500
    assert sum(without_large) < sum(whole)


def test_the_key_switches_sizes(made):
    """For each size there is a field that shows it alone, and one that shows all."""
    _, _, data = made
    with pikepdf.open(io.BytesIO(data)) as pdf:
        links = [link for page in pdf.pages for link in page.obj.get("/Annots", [])]
        assert len(links) == 4
        states = []
        for link in links:
            assert link.A.S == "/SetOCGState"
            assert link.Rect[2] - link.Rect[0] > 100
            states.append(
                [str(x) if isinstance(x, pikepdf.Name) else "group" for x in link.A.State]
            )
        assert states[0] == ["/OFF", "group", "group", "/ON", "group"]
        assert states[3] == ["/ON", "group", "group", "group"]


def test_the_legend_names_line_and_pages_of_each_size(made):
    """The first page has each size with its own dashes and its pages."""
    pages, _, _ = made
    text = words(svg_file(pages[0]))
    for size in SIZES:
        assert size in text and f"show only {size}" in text
    assert "show all sizes" in text
    assert sum(word.startswith("pages ") for word in text) >= 3
    dashes = [stroke.dash for stroke in SIZE_CUTS]
    assert len(set(dashes)) == len(dashes)
    assert {stroke.width for stroke in SIZE_CUTS} == {0.5}


def test_every_outline_of_a_changing_template_is_tagged(made):
    """The cuff, which differs from size to size, carries all three names."""
    pages, sets, _ = made
    keys = len(pages) - len(sets[0].pages)
    own = [p.number for p in sets[0].pages if "cuff-left" in p.pieces]
    text = [word for number in own for word in words(svg_file(pages[number - 1 + keys]))]
    assert set(SIZES) <= set(text)


def test_the_same_input_gives_the_same_bytes(made):
    """Layers and switches are made alike each time."""
    pages, sets, data = made
    assert render_nested_pdf(pages, sets[0], SIZES, "All sizes", ENGLISH) == data


def test_counts_that_differ_are_listed_by_size():
    """Where sizes need different numbers, the table has each and the label points to it."""
    kits = [
        Kit("k", size, (), (), (piece("stud", "N", "Stud", disc(30), copies=count),), (), ())
        for size, count in zip(SIZES, (60, 60, 71), strict=True)
    ]
    sets = lay_out_nested(kits, "a4")
    text = [word for page in draw_nested_pages(sets, kits, HEAD) for word in words(svg_file(page))]
    assert "cut S M 60, L 71" in text
    assert any("see the table" in word for word in text)
