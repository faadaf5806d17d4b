"""What is asked about lines again and again."""

from importlib import import_module

import pytest

from guidegen.render.pdf.html_pdf import write_pdf

HTML = (
    "<html lang=en><head><title>t</title><style>"
    "@page { size: 90mm 60mm; margin: 5mm } html { font: 9pt 'Barlow'; hyphens: auto }"
    " .beside { float: left; width: 20mm; height: 12mm; border: 1pt solid } .end { float: right }"
    " .holds { overflow: hidden } .back { direction: rtl } b { line-height: 2 } i { font-size: 120% }"
    "</style></head><body>"
    + (
        "<div class=holds><div class=beside>At hand</div><div class='beside end'></div><p>Coat both"
        " faces, wait until the <b>glue</b> is dry to the touch,<i>then</i><b>join</b>.<p>Press the"
        " edges together and hold them for a while, and then <span>look</span><span>again</span>.<p>"
        "Superextraordinarilylongwordsthatfitnowhere and others.</div>"
        "<div class='holds back'><div class=beside>At hand</div><p>Coat both faces, wait until the"
        " glue is dry to the touch, then join.<p>Press the edges together and hold them.</div>"
    )
    * 3
    + "</body></html>"
)


def test_answers_from_memory_change_no_byte(monkeypatch: pytest.MonkeyPatch) -> None:
    """Lines beside floats, below them and from right to left, of several heights: the same file."""
    mended = write_pdf(HTML, files={})
    inline = import_module("weasyprint.layout.inline")
    for name, long_way in inline.guidegen.items():
        monkeypatch.setattr(inline, name, long_way)
    preferred = import_module("weasyprint.layout.preferred")
    monkeypatch.setattr(preferred, "can_break_text", inline.can_break_text)
    assert write_pdf(HTML, files={}) == mended


def test_lines_below_floats_are_not_measured(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only lines that a float reaches are measured for the room beside it."""
    inline = import_module("weasyprint.layout.inline")
    answers: list[float] = []
    mended = inline.inline_min_content_width
    monkeypatch.setattr(
        inline,
        "inline_min_content_width",
        lambda *given, **named: answers.append(mended(*given, **named)) or answers[-1],
    )
    write_pdf(HTML, files={})
    assert answers.count(0) > 10
    assert sum(answer > 0 for answer in answers) > 10
