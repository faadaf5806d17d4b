"""Words in Greek and Cyrillic letters on paper, read back by PDFium and looked at by poppler."""

import io
import subprocess
from dataclasses import replace
from functools import cache

import numpy as np
import pytest
from layout.template_samples import sample_kit
from PIL import Image
from render.edition_samples import long_sample
from render.page_samples import theme
from render.pdf_reader import read_pages

from guidegen.layout.paper.templates import lay_out_templates
from guidegen.pictures.pen.records import Drawing, Lettering
from guidegen.pictures.templates.pages import draw_template_pages
from guidegen.render.booklets.booklet import booklet_files, booklet_html
from guidegen.render.pdf.drawn_pdf import write_drawings
from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.pdf.template_pdf import render_template_pdf
from guidegen.words import ENGLISH

from .test_true_scale import HEAD

GREEK, CYRILLIC = "Επικάρπιο", "Наручи"


@cache
def booklet():
    """The long sample with its title in two alphabets."""
    content, plan, pictures = long_sample()
    guide = plan.file.guide.model_copy(
        update={"title": f"{GREEK} {CYRILLIC}", "overview": f"Text: *{GREEK}* **{CYRILLIC}**."}
    )
    plan = replace(plan, file=replace(plan.file, guide=guide))
    html = booklet_html(content, plan, "M", ("a4",), pictures=pictures, theme=theme())
    return write_pdf(html, files=booklet_files(plan, pictures), variant="pdf/ua-1")


@cache
def templates():
    """Template pages under a title in two alphabets."""
    kit = sample_kit()
    made = lay_out_templates(kit, "a4")
    pages = draw_template_pages(made, kit, replace(HEAD, title=f"{GREEK} {CYRILLIC}"))
    return render_template_pdf(pages, made, "Templates", ENGLISH)


@pytest.mark.parametrize("make", [booklet, templates])
def test_words_are_set_in_fonts_that_come_along(make, tmp_path):
    """The words are found in the text, and every font of the file is ours and embedded."""
    words = read_pages(make())[0].text
    assert GREEK in words
    assert CYRILLIC in words
    path = tmp_path / "document.pdf"
    path.write_bytes(make())
    command = ["pdffonts", str(path)]
    rows = subprocess.run(command, check=True, capture_output=True, text=True).stdout.splitlines()
    names = {row.split()[0] for row in rows[2:]}
    families = ("Barlow", "Atkinson", "Noto")
    assert {family for family in families for name in names if family in name} >= {"Noto"}
    assert all(any(family in name for family in families) for name in names), names
    assert all(row.split()[-5] == "yes" for row in rows[2:])


@pytest.mark.parametrize("letters", ["ΔΘΛΞΠΣΦΨΩ", "БГДЖИЛЦЧШЩ", "ΘЖΛЩΞБ"])
def test_no_two_letters_look_alike(letters, tmp_path):
    """Rendered large, each letter has a shape of its own: none is the box of a missing one.

    One process makes documents in several alphabets, one after another.
    """
    shapes = set()
    for letter in letters:
        page = Drawing(20, 20, "L", "", (Lettering((3, 4), letter, 16),))
        path = tmp_path / "letter.pdf"
        path.write_bytes(write_drawings([page], [], title="L", language="el", packet=b""))
        command = ["pdftoppm", "-r", "40", "-gray", str(path)]
        image = subprocess.run(command, check=True, capture_output=True).stdout
        dark = np.asarray(Image.open(io.BytesIO(image))) < 128
        assert dark.any()
        shapes.add(dark.tobytes())
    assert len(shapes) == len(letters)


def test_a_letter_without_a_font_stops_nothing():
    """Whatever this machine has for it, the document is made, with its other words."""
    data = write_pdf("<html><head></head><body>Glue 鎧 \U0001f6e1 now</body></html>", files={})
    assert "now" in read_pages(data)[0].text
