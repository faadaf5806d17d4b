"""Booklets: set without warnings, in order, cautions with their action, pages as the contents say."""

import io
import re
from functools import cache

import pikepdf
import pypdfium2
import pytest
from render.html_reader import Page
from render.page_samples import sample, theme

from guidegen.render.booklets.booklet import booklet_files, booklet_html, sheet_view
from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.units import MM_PER_INCH, PAPERS
from guidegen.words import ENGLISH, read_words


@cache
def html(paper="a4"):
    """The booklet of size M."""
    content, plan, pictures = sample()
    return booklet_html(content, plan, "M", (paper,), pictures=pictures, theme=theme())


@cache
def pdf(paper="a4"):
    """The booklet as PDF bytes; a warning of the typesetter is an error."""
    _, plan, pictures = sample()
    return write_pdf(html(paper), files=booklet_files(plan, pictures), variant="pdf/ua-1")


@cache
def pages(paper="a4"):
    """The words of every page, read back by pdfium."""
    document = pypdfium2.PdfDocument(pdf(paper))
    found = []
    for page in document:
        text = page.get_textpage()
        found.append(" ".join(text.get_text_range().replace("\ufffe", "-").split()))
        text.close()
        page.close()
    document.close()
    return tuple(found)


def test_links_lead_into_the_document():
    """Every reference of the booklet leads to an element of the booklet, ids are unique."""
    page = Page(html())
    assert len(page.ids) == len(set(page.ids))
    targets = [a["href"] for a in page.all("a")]
    assert targets
    assert [target for target in targets if target[1:] not in page.ids] == []


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_pages_have_the_size_of_the_paper(paper):
    """Every page has the size of its paper (ISO 216; ANSI/ASME Y14.1), within 0.1 mm."""
    document = pypdfium2.PdfDocument(pdf(paper))
    for number in range(len(document)):
        width, height = (side / 72 * MM_PER_INCH for side in document.get_page_size(number))
        assert width == pytest.approx(PAPERS[paper].width, abs=0.1)
        assert height == pytest.approx(PAPERS[paper].height, abs=0.1)
    document.close()


def test_chapters_come_in_the_order_of_work():
    """Cover, contents, then making, measuring, safety, materials, cutting, steps and the rest."""
    text = " ".join(pages()[2:])
    order = [
        "What you will make", "Sizes and measuring", "Safety first", "Materials and tools",
        "Cut plans", "Badge on cuff", "Techniques", "Cut all pieces", "Wearing it",
        "Care and repair", "May I sell it?", "Glossary", "Versions and corrections",
        "Licence and credits",
    ]  # fmt: skip
    places = [text.index(words) for words in order]
    assert places == sorted(places)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_contents_give_true_pages(paper):
    """The page that the contents name is the page on which the chapter stands."""
    contents = pages(paper)[1]
    for title in ("Safety first", "Cut plans", "Techniques", "Glossary", "Licence and credits"):
        number = int(re.search(rf"{title} (\d+)", contents)[1])
        assert title in pages(paper)[number - 1]
        assert f"{number} / {len(pages(paper))}" in pages(paper)[number - 1]


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_cautions_stand_on_the_page_of_their_action(paper):
    """A step's cautions and its action share a page, cautions first."""
    for hazard, action in (
        ("The blade cuts skin", "Cut with the knife"),
        ("The vapour catches fire.", "Coat both faces. Wait. Press."),
    ):
        (page,) = [text for text in pages(paper) if action in text]
        assert page.index(hazard) < page.index(action)


def test_references_name_their_page():
    """A reference to a piece or step says on which page it is."""
    (page,) = [text for text in pages() if "It is made of the" in text]
    number = int(re.search(r"cementing \(page (\d+)\)", page)[1])
    assert "Glue the cuff" in pages()[number - 1]


def test_bookmarks_lead_to_chapters_and_steps():
    """The outline has the chapters, below them the stages, below them the numbered steps."""
    document = pypdfium2.PdfDocument(pdf())
    outline = [(item.level, item.get_title()) for item in document.get_toc()]
    document.close()
    assert (0, "Safety first") in outline
    assert (2, "2 Glue the cuff") in outline
    assert outline.index((0, "Steps")) < outline.index((2, "1 Cut all pieces"))


def test_cover_and_running_heads_name_guide_and_version():
    """The cover has the title block, every later page the guide and its version."""
    for words in ("Mooring cuff & strap", "The sample loft", "cuff-M", "2026-03-04", "B. Tester"):
        assert words in pages()[0]
    for page in pages()[1:]:
        assert "Mooring cuff & strap" in page
        assert "cuff-M, version 1.1, 2026-03-04" in page


def test_no_page_is_empty():
    """No page has its running heads alone."""
    assert min(len(page) for page in pages()) > 100


def test_same_booklet_same_bytes():
    """The same plan gives the same bytes."""
    _, plan, pictures = sample()
    again = write_pdf(html(), files=booklet_files(plan, pictures), variant="pdf/ua-1")
    assert again == pdf()


def elements(root):
    """Every structure element below `root`, each with its parent's kind."""
    waiting = [(root, "")]
    while waiting:
        element, parent = waiting.pop()
        kind = str(element.get("/S", ""))
        if kind:
            yield element, kind, parent
        kids = element.get("/K", [])
        kids = kids if isinstance(kids, pikepdf.Array) else [kids]
        waiting += [(kid, kind) for kid in kids if isinstance(kid, pikepdf.Dictionary)]


def test_tags_are_those_of_an_accessible_document():
    """Headings in order, names for pictures, scopes for header cells, items in lists, links that
    print.

    ISO 14289-1 (PDF/UA-1) as the public veraPDF profile states its rules: 7.3, 7.4.2, 7.5, 7.6,
    7.18.1.
    """
    with pikepdf.open(io.BytesIO(pdf())) as document:
        found = list(elements(document.Root.StructTreeRoot))
        kinds = {kind for _, kind, _ in found}
        assert {"/H1", "/H2", "/Table", "/TH", "/L", "/LI", "/Link", "/Figure"} <= kinds
        assert all("/Alt" in element for element, kind, _ in found if kind == "/Figure")
        assert all("/Scope" in element.A for element, kind, _ in found if kind == "/TH")
        assert all(parent == "/L" for _, kind, parent in found if kind == "/LI")
        assert all(kind in {"/LI", "/L", "/Caption"} for _, kind, parent in found if parent == "/L")
        for page in document.pages:
            assert all(int(note.F) & 4 for note in page.get("/Annots", []))
        assert document.Root.Lang == "en"
        assert document.Root.MarkInfo.Marked


def test_fonts_are_embedded_and_of_the_theme():
    """All text is set in the two families, embedded."""
    assert not re.search(rb"/BaseFont /(?!\w{6}\+(Barlow|Atkinson))", pdf())


def test_rules_speak_the_language_of_the_document():
    """Page references and the foot of the summary are in words of the document's language."""
    view = sheet_view(theme(), ("a4",), words=read_words("de"))
    assert '--page: "Seite"' in view.css
    assert "Kurzfassung: Anleitung" in view.css
    assert '--page: "page"' in sheet_view(theme(), ("a4",), words=ENGLISH).css
