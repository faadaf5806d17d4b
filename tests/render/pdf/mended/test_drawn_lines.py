"""Lines that are shaped once and drawn in many places, beside those that the library draws."""

import io
from importlib import import_module

import pikepdf
import pytest

from guidegen.render.fonts.fonts import font_css
from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.pdf.mended import drawn_lines

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 90 20" width="90" height="20">'
    '<text x="45" y="9" font-size="8" text-anchor="middle">Coat 12 mm</text>'
    '<text x="1 9" y="18" font-size="8">AV</text></svg>'
)
BODY = (
    "<p>Coat both faces, wait, then AVAV join; office fifty.</p><p class=wide>Coat both faces, wait"
    " until the glue is dry to the touch, then join them and press from the middle outward.</p>"
    "<p class=small>Coat both faces, 0123456789</p><h1>Coat both faces, 0123456789</h1>"
    "<p class=other>Coat <b>both</b> <i>faces</i> ½ × 3 – Ω→≥</p><p><u>under</u> <s>through</s></p>"
    "<p dir=rtl>שלום 12 mm</p><p class=cut>Coat both faces, wait until the glue is dry</p>"
    "<p class=clamp>Coat both faces, wait until the glue is dry to the touch, then join them.</p>"
    "<p>\U0001f9f5 thread, \ue999 without a glyph</p><img src=d.svg>"
)
STYLE = (
    "html { font: 10pt 'Atkinson Hyperlegible'; width: 60mm } .wide { text-align: justify }"
    " .small { font-size: 7.3pt } .other { font-family: 'Barlow Condensed' }"
    " .cut { overflow: hidden; white-space: nowrap; text-overflow: ellipsis }"
    " .clamp { max-lines: 1; block-ellipsis: auto; continue: discard } i { letter-spacing: 1pt }"
)


def page(body: str) -> bytes:
    """A document with a drawing."""
    html = f"<html lang=en><title>t</title><style>{font_css()}{STYLE}</style><body>{body}</html>"
    return write_pdf(html, files={"d.svg": SVG.encode()}, variant="pdf/ua-1", messages=[])


def library(body: str, monkeypatch: pytest.MonkeyPatch) -> bytes:
    """The document, all of its lines drawn by the library."""
    with monkeypatch.context() as patch:
        patch.setattr(drawn_lines.DrawnLines, "find", lambda *_: None)
        return page(body)


@pytest.mark.parametrize("body", [BODY, f"<h2>AVAV</h2>{BODY}{BODY}"])
def test_lines_are_drawn_as_the_library_draws_them(
    body: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Sizes, fonts, spread and cut lines, both directions, pictures as letters: the same file."""
    theirs = library(body, monkeypatch)
    assert page(body) == theirs
    assert page(body) == theirs


def test_widths_are_those_of_the_size_that_comes_first(monkeypatch: pytest.MonkeyPatch) -> None:
    """A line kept from another document is shifted by the widths that its new document tells."""
    lines = [f"<p style='font-size: {size}pt'>Wavy 0123456789 fjord</p>" for size in (5.3, 9.7, 21)]
    for first in range(3):
        body = "".join(lines[first:] + lines[:first])
        assert page(body) == library(body, monkeypatch)


def test_a_line_is_shaped_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Words that stand in three places of two documents are asked of Pango once to be drawn."""
    body = "<table><tr><td>Rivet once<td>Rivet once<tr><td>a longer one<td>Rivet once</table>"
    page("<p>Rivet</p>")
    read: list[str] = []
    ask = drawn_lines._Lines._read

    def noted(own: drawn_lines._Lines, layout: object, *rest: object) -> object:
        read.append(layout.text)
        return ask(own, layout, *rest)

    monkeypatch.setattr(drawn_lines._Lines, "_read", noted)
    page(body)
    page(body)
    assert read.count("Rivet once") == 1


def test_what_is_kept_is_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of many lines the last ones are kept, and files stay the same."""
    body = "".join(f"<p>Line {number}</p>" for number in range(30))
    whole = page(body)
    monkeypatch.setattr(drawn_lines, "MOST", 4)
    assert page(body) == whole


def test_layouts_hold_nothing_of_pango_when_all_is_drawn(monkeypatch: pytest.MonkeyPatch) -> None:
    """A layout that is told to end has no more than it had before, whether it was asked or not."""
    library_layout = import_module("weasyprint.text.line_break").Layout
    ended: list[object] = []
    end = library_layout.deactivate
    monkeypatch.setattr(library_layout, "deactivate", lambda own: ended.append(own) or end(own))
    page(BODY)
    assert ended
    assert not any({*drawn_lines.LAID, "guidegen_style"} & own.__dict__.keys() for own in ended)
    with pytest.raises(AttributeError):
        _ = ended[0].layout


def test_letters_can_be_copied() -> None:
    """Each glyph says what it stands for, in the file of a document whose lines were kept."""
    for _ in range(2):
        with pikepdf.open(io.BytesIO(page("<p>Keep me</p>"))) as pdf:
            maps = [font.ToUnicode.read_bytes() for font in pdf.pages[0].Resources.Font.values()]
        assert all(f"{ord(letter):04x}".encode() in maps[0] for letter in "Kepm")
