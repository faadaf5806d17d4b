"""Folded booklets read back by pdfium, against the published order of pages in a signature.

Order: psutils 2.2, psbook.c (A. J. C. Duggan), which rearranges pages "for printing in signatures":
at place p of a signature of n pages stands, counted from 0, page n − 1 − p/2 where p mod 4 is 0
or 3, and page p/2 where it is 1 or 2, halves rounded down. Sizes: ISO 216:2007 (A4 210 × 297 mm),
ANSI/ASME Y14.1 (8.5 × 11 in).
"""

import io
from functools import cache

import pikepdf
import pypdfium2
import pytest

from guidegen.render.booklets.imposition import HALVES, impose
from guidegen.render.fonts.fonts import font_css
from guidegen.render.pdf.finish import place_pages
from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.units import MM_PER_INCH, PAPERS

SHEETS = {"a4": (297, 210), "letter": (11 * MM_PER_INCH, 8.5 * MM_PER_INCH)}
"""Width and height of a lying sheet in mm."""


def psbook(pages):
    """Page numbers from 1 in the order in which psbook lays them, two and two on a side."""
    full = -(-pages // 4) * 4
    order = [full - 1 - p // 2 if p % 4 in {0, 3} else p // 2 for p in range(full)]
    return [n + 1 if n < pages else None for n in order]


@cache
def booklet(pages, page):
    """A booklet whose pages have nothing but their number, in the middle."""
    paper = PAPERS[page]
    style = (
        f"{font_css()} @page {{ size: {paper.width}mm {paper.height}mm; margin: 0 }}"
        "p { margin: 0; padding-top: 80mm; text-align: center; font: 60pt 'Barlow Condensed';"
        " break-after: page }"
    )
    body = "".join(f"<p>{number}</p>" for number in range(1, pages + 1))
    html = f'<html lang="en"><head><title>T</title><style>{style}</style></head>{body}</html>'
    return write_pdf(html, files={}, variant="pdf/ua-1")


@cache
def folded(pages, paper):
    """Its sheets."""
    imposed = impose(pages, paper)
    return place_pages(
        [booklet(pages, HALVES[paper])], imposed.sides, title="Folded", language="en"
    )


def halves(data):
    """The words on the left and right half of every side, in the order of the PDF."""
    found = []
    with pypdfium2.PdfDocument(data) as document:
        for page in document:
            text = page.get_textpage()
            width, height = page.get_size()
            for left, right in ((0, width / 2), (width / 2, width)):
                words = text.get_text_bounded(left=left, right=right, bottom=0, top=height).strip()
                found.append(int(words) if words else None)
    return found


@pytest.mark.parametrize("paper", SHEETS)
@pytest.mark.parametrize("pages", [16, 20, 17, 1])
def test_pages_stand_in_the_order_of_a_signature(pages, paper):
    """What stands on the halves of the sheets is what psbook would print there."""
    assert halves(folded(pages, paper)) == psbook(pages)


@pytest.mark.parametrize("paper", SHEETS)
def test_sheets_have_the_size_of_the_paper(paper):
    """Sheets lie, in the size that the standards give, within 0.1 mm."""
    with pypdfium2.PdfDocument(folded(16, paper)) as document:
        for page in document:
            sides = tuple(side / 72 * MM_PER_INCH for side in page.get_size())
            assert sides == pytest.approx(SHEETS[paper], abs=0.1)


def test_pages_are_not_scaled():
    """A page has on the sheet the height of digits that it has in the booklet."""

    def height(data, index):
        with pypdfium2.PdfDocument(data) as document:
            text = document[index].get_textpage()
            _, bottom, _, top = text.get_charbox(0)
            return top - bottom

    assert height(folded(16, "a4"), 0) == pytest.approx(height(booklet(16, "a5"), 15), abs=0.01)


def test_viewers_are_asked_for_two_sides():
    """ISO 32000-1:2008, table 150: no scaling, both sides, turned over the short edge."""
    with pikepdf.open(io.BytesIO(folded(16, "a4"))) as pdf:
        wishes = pdf.Root.ViewerPreferences
        assert (wishes.PrintScaling, wishes.Duplex) == ("/None", "/DuplexFlipShortEdge")


def test_same_sheets_same_bytes():
    """Imposing again gives the same bytes."""
    imposed = impose(16, "a4")
    again = place_pages([booklet(16, "a5")], imposed.sides, title="Folded", language="en")
    assert again == folded(16, "a4")
