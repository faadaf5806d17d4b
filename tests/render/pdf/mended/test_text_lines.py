"""Lines of text that are measured once, and words of drawings that are set whole."""

import inspect
import re
from importlib import import_module

import pypdfium2
import pytest

from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.pdf.mended import text_lines

HEAD = (
    "<html lang=en><head><title>t</title><style>"
    "html { font: 10pt 'Barlow'; hyphens: auto } .columns { columns: 2 }"
    " .fit { display: inline-block } b { letter-spacing: 1pt } i { white-space: nowrap }"
    "</style></head><body>"
)
FLOW = (
    "<div class=columns><p>Coat both faces, wait until the glue is dry to the touch, then join."
    " <b>Coat both faces</b>, <i>wait until the glue is dry</i>.</p><div class=fit><span class=fit>"
    "Coat both faces, wait until the glue is dry to the touch</span> <b>Coat both faces</b></div></div>"
)
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 40" width="200" height="40">{}</svg>'
)


def drawing(text: str) -> bytes:
    """A document with one drawing."""
    html = f"{HEAD}<img src=d.svg></body></html>"
    return write_pdf(html, files={"d.svg": SVG.format(text).encode()})


def width(data: bytes) -> float:
    """pt, from the left of the first letter of a document to the right of the last."""
    page = pypdfium2.PdfDocument(data)[0].get_textpage()
    last = page.get_text_range().rstrip()
    return float(page.get_charbox(len(last) - 1)[2] - page.get_charbox(0)[0])


def test_all_that_the_library_asks_of_a_style_is_in_the_key():
    """A line is kept under every value of its style that can change it, in this version."""
    asked = set()
    for name in ("weasyprint.text.line_break", "weasyprint.text.fonts"):
        asked |= set(re.findall(r"style\['(\w+)'\]", inspect.getsource(import_module(name))))
    assert asked - set(text_lines.KEYS) == set()


def test_kept_lines_change_no_byte(monkeypatch: pytest.MonkeyPatch):
    """Columns, boxes that fit their words, and styles that differ: the same file without keeping."""
    html = f"{HEAD}{FLOW * 3}</body></html>"
    kept = write_pdf(html, files={})
    monkeypatch.setattr(text_lines._Kept, "find", lambda self, key: None)
    assert write_pdf(html, files={}) == kept


def test_a_line_is_measured_once(monkeypatch: pytest.MonkeyPatch):
    """Words that stand in many boxes ask the library once for each width, in all documents."""
    library = import_module("weasyprint.text.line_break")
    asked: list[object] = []
    make = library.create_layout
    monkeypatch.setattr(
        library, "create_layout", lambda *given: asked.append(given[0]) or make(*given)
    )
    flow = FLOW.replace("wait", "stay")
    write_pdf(f"{HEAD}{flow}</body></html>", files={})
    once = len(asked)
    asked.clear()
    write_pdf(f"{HEAD}{flow * 4}</body></html>", files={})
    assert len(asked) < once


def test_words_of_drawings_are_kerned():
    """AVAVAV is narrower as a word than as letters with places of their own."""
    text = '<text x="5" y="20" {} font-family="Barlow" font-size="20">AVAVAV</text>'
    whole, letters = drawing(text.format("")), drawing(text.format('dx="0"'))
    assert width(whole) < width(letters) - 2


def test_letters_with_places_of_their_own_keep_them():
    """Letters that an author spreads stay spread."""
    spread = drawing('<text x="5 45 85" y="20" font-family="Barlow" font-size="10">abc</text>')
    spaced = drawing(
        '<text x="5" y="20" letter-spacing="20" font-family="Barlow" font-size="10">abc</text>'
    )
    assert 58 < width(spread) < 70
    assert 35 < width(spaced) < 50
