"""Folded booklets read back by pdfium, against the order that folding itself gives.

Order: sheets that lie in one another are folded once and read leaf by leaf, which `read_through`
does with nothing but the four faces of each sheet. Sizes: ISO 216:2007 (A4 210 × 297 mm),
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


def read_through(sheets):
    """Faces of folded sheets, outermost first, in the order in which their leaves are turned.

    A face is (sheet, outside or inside, left or right), as the sheet lies open with that side up.
    The first leaf of a sheet lies before all that it wraps, the second one behind them.
    """
    if not sheets:
        return []
    sheet, *wrapped = sheets
    front = [(sheet, "outside", "right"), (sheet, "inside", "left")]
    back = [(sheet, "inside", "right"), (sheet, "outside", "left")]
    return [*front, *read_through(wrapped), *back]


def unfolded(pages):
    """Page numbers from 1 on the sides of all sheets, left and right, each sheet's outside first."""
    sheets = range(-(-pages // 4))
    number = {face: n for n, face in enumerate(read_through([*sheets]), 1)}
    faces = [
        number[sheet, side, half]
        for sheet in sheets
        for side in ("outside", "inside")
        for half in ("left", "right")
    ]
    return [n if n <= pages else None for n in faces]


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
    imposed = impose(pages, paper, PAPERS[HALVES[paper]])
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
    """Whoever folds the sheets and turns the leaves reads the pages in their order."""
    assert halves(folded(pages, paper)) == unfolded(pages)


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
    imposed = impose(16, "a4", PAPERS["a5"])
    again = place_pages([booklet(16, "a5")], imposed.sides, title="Folded", language="en")
    assert again == folded(16, "a4")
