"""Values of styles that are looked up at once."""

from importlib import import_module

import pytest

from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.pdf.mended.plain_values import NOTES, without_notes

HTML = (
    "<html lang=en><head><title>t</title><style>"
    "html { font: 9pt 'Barlow'; line-height: calc(1em + 2pt) } b { font-size: 150% }"
    " p { margin-inline-start: 4mm; padding-block: 1mm; border-inline-end: 1pt solid }"
    " div { text-decoration: underline } u { text-decoration: line-through; float: right }"
    " .all { font-size: initial } .in { margin: inherit; color: inherit }"
    "</style></head><body><div>Coat <b>both</b> <u>faces</u></div><p class=in>Wait.</p>"
    "<p>Join<b class=all>!</b></p></body></html>"
)


def test_values_that_are_looked_up_change_no_byte(monkeypatch: pytest.MonkeyPatch) -> None:
    """Formulas, logical sides, inheritance and decorations: the same file the long way."""
    kept = write_pdf(HTML, files={})
    style = import_module("weasyprint.css").ComputedStyle
    at_once = style.__missing__
    (long_way,) = (
        cell.cell_contents
        for cell in at_once.__closure__
        if getattr(cell.cell_contents, "__module__", "") == "weasyprint.css"
        and getattr(cell.cell_contents, "__name__", "") == "__missing__"
    )
    monkeypatch.setattr(style, "__missing__", long_way)
    assert write_pdf(HTML, files={}) == kept


def test_only_documents_with_notes_have_styles_for_them() -> None:
    """The library's sheet gives each element a mark of a list, and marks of notes if it has any."""
    (sheet,) = import_module("weasyprint").HTML(string="<p>")._ua_stylesheets()
    assert without_notes(sheet, "<style>q { float: footnote }</style>") is sheet
    plain = without_notes(sheet, HTML)
    kinds = {one[3] for one in plain.matcher.other_selectors}
    assert "marker" in kinds
    assert not NOTES & kinds
    assert {one[3] for one in sheet.matcher.other_selectors} >= NOTES
