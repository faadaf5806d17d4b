"""One layout on papers of several sizes, read back with PDFium and pikepdf."""

import io

import pikepdf
import pypdfium2
import pytest

from guidegen.render.pdf.html_pdf import lay_out
from guidegen.units import POINTS_PER_MM

PAGE = """<html lang="en"><head><title>Two pages</title><style>
@page { size: 210mm 279.4mm; margin: 20mm }
@page lying { size: 279.4mm 210mm }
#two { page: lying }
</style></head><body><p><a href="#two">Forward</a></p><p id="two">Arrived</p></body></html>"""


@pytest.fixture(scope="module")
def laid_out():
    """A page that stands and one that lies, with a link from the one to the other."""
    return lay_out(PAGE, files={}).draw()


@pytest.mark.parametrize("paper", [(210, 297), (215.9, 279.4)])
def test_pages_are_as_large_as_the_paper(laid_out, paper):
    """Each sheet is A4 or Letter (ISO 216, ANSI/ASME Y14.1), turned where its page lies."""
    wide, high = paper
    document = pypdfium2.PdfDocument(laid_out.on_paper(wide, high))
    sizes = [page.get_size() for page in document]
    expected = [wide * POINTS_PER_MM, high * POINTS_PER_MM]
    assert sizes[0] == pytest.approx(expected, abs=0.01)
    assert sizes[1] == pytest.approx(expected[::-1], abs=0.01)


def test_words_stay_in_the_middle(laid_out):
    """The same words lie half of the added height further from the lower edge of A4."""
    boxes = []
    for wide, high in ((210, 279.4), (210, 297)):
        page = pypdfium2.PdfDocument(laid_out.on_paper(wide, high))[0]
        bottom = page.get_mediabox()[1]
        text = page.get_textpage()
        boxes.append(text.get_charbox(0)[1] - bottom)
    assert boxes[1] - boxes[0] == pytest.approx((297 - 279.4) / 2 * POINTS_PER_MM, abs=0.02)


def test_links_lead_where_they_led(laid_out):
    """Links and their targets are in the space of the content, which does not move."""
    before, after = (
        pikepdf.open(io.BytesIO(data)) for data in (laid_out.data, laid_out.on_paper(215.9, 279.4))
    )
    rectangles = [
        [[float(v) for v in note.Rect] for note in pdf.pages[0].Annots] for pdf in (before, after)
    ]
    assert rectangles[0] == rectangles[1]
