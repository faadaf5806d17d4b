"""Template PDFs read back: fonts, words, bookmarks, ink, and the same bytes each time."""

import io
import subprocess
import time
from itertools import pairwise

import numpy as np
import pikepdf
import pypdfium2
import pytest
from layout.template_samples import sample_kit
from outside.test_true_scale import HEAD

from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import Arc
from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.templates.pages import draw_template_pages
from guidegen.render.pdf.curves import ARC_ERROR, arc_curves
from guidegen.render.pdf.drawn_pdf import Bookmark, write_drawings
from guidegen.render.pdf.template_pdf import render_template_pdf
from guidegen.words import ENGLISH


@pytest.fixture(scope="module")
def made():
    """Template set, pages and PDF of the sample kit on A4."""
    kit = sample_kit()
    templates = lay_out_templates(kit, "a4")
    pages = draw_template_pages(templates, kit, HEAD, {"foam-5": "Craft foam, 5 mm"})
    return templates, pages, render_template_pdf(pages, templates, "Templates", ENGLISH)


@pytest.fixture(scope="module")
def file(made, tmp_path_factory):
    """The PDF on disk, for other programs."""
    path = tmp_path_factory.mktemp("pdf") / "templates.pdf"
    path.write_bytes(made[2])
    return path


def output(*command: object) -> str:
    """What a program prints."""
    return subprocess.run(
        [str(word) for word in command], check=True, capture_output=True, text=True
    ).stdout


def test_all_fonts_are_embedded_with_their_letters(file):
    """Every font is embedded as a subset and maps back to Unicode."""
    rows = output("pdffonts", file).splitlines()[2:]
    assert rows
    for row in rows:
        assert "BarlowCondensed" in row
        assert row.split()[-5:-2] == ["yes", "yes", "yes"]


def test_words_can_be_taken_out_in_reading_order(file, made):
    """Each page says what it is, in text that other programs find."""
    templates, pages, _ = made
    keys = len(pages) - len(templates.pages)
    for page in templates.pages:
        number = str(page.number + keys)
        words = output("pdftotext", "-f", number, "-l", number, "-raw", file, "-")
        for expected in (
            "Harbour Lantern Walk kit",
            "Print at 100 %, not “fit to page”",
            "50 mm",
            "2 in",
            f"{page.number} of {len(templates.pages)}",
            "harbour-lantern-M",
            "1.2",
        ):
            assert expected in words
    whole = output("pdftotext", "-raw", file, "-")
    assert whole.index("Print in true size") < whole.index("Page map") < whole.index("Templates\n")
    assert "Craft foam, 5 mm" in whole


def test_no_page_is_blank(made):
    """Every page has ink above its title strip."""
    templates, pages, data = made
    keys = len(pages) - len(templates.pages)
    with pypdfium2.PdfDocument(data) as pdf:
        for number in range(len(pdf)):
            image = np.asarray(pdf[number].render(scale=0.5, grayscale=True).to_numpy())
            part = image[: int(image.shape[0] * 0.86)]
            assert (part < 128).sum() > (100 if number >= keys else 500)


def test_bookmarks_lead_to_sheets_and_templates(made):
    """The outline has the key, each sheet, and under it each template."""
    templates, _, data = made
    with pikepdf.open(io.BytesIO(data)) as pdf, pdf.open_outline() as outline:
        assert next(item.title for item in outline.root).startswith("Key")
        sheets = outline.root[1:]
        assert len(sheets) == len(templates.sheets)
        names = {child.title for item in sheets for child in item.children}
        assert "CL CR Lamp-cuff" in names and "N Net stud" in names


def test_the_same_pages_give_the_same_bytes(made):
    """Nothing in the file depends on the hour."""
    templates, pages, data = made
    assert render_template_pdf(pages, templates, "Templates", ENGLISH) == data


def test_fifty_pages_take_less_than_a_second(made):
    """Writing is fast: at least fifty pages a second of processor time."""
    _, pages, _ = made
    page = pages[-1]
    started = time.process_time()
    write_drawings([page] * 50, [Bookmark("first", 0)], title="t", language="en", packet=b"")
    assert time.process_time() - started < 1


@pytest.mark.parametrize("arc", [Arc((0, 0), 2000, 0, 90), Arc((5, -3), 40, 200, -360)])
def test_arcs_stay_within_the_promise(arc):
    """Curves that stand for an arc leave it by at most 0.002 mm, meet, and end where it ends."""
    curves = list(arc_curves(arc))
    assert curves[0].start == pytest.approx(segment_start(arc))
    assert curves[-1].end == pytest.approx(segment_end(arc), abs=1e-9)
    for before, after in pairwise(curves):
        assert before.end == pytest.approx(after.start)
    for curve in curves:
        corners = (curve.start, curve.control1, curve.control2, curve.end)
        p0, p1, p2, p3 = (np.array(point) - arc.centre for point in corners)
        for t in np.linspace(0, 1, 50):
            s = 1 - t
            at = s**3 * p0 + 3 * s * s * t * p1 + 3 * s * t * t * p2 + t**3 * p3
            assert abs(np.hypot(*at) - arc.radius) < ARC_ERROR
