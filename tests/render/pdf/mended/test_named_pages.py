"""Kinds of page that a box begins and ends on."""

from importlib import import_module

import pytest

from guidegen.render.pdf.html_pdf import page_count, write_pdf

HTML = (
    "<html lang=en><head><title>t</title><style>"
    "@page { size: 60mm 40mm; margin: 2mm } @page wide { size: 90mm 40mm; margin: 2mm } .wide { page: wide }"
    " .aside { float: right } .mark { position: absolute; page: wide }"
    "</style></head><body>{}</body></html>"
)
BODIES = (
    "<section><p>Trace.</p></section><section><p class=wide>Cut plan.</p></section>",
    "<section><p class=mark>!</p><p>Trace.</p></section><section><p>Cut.</p></section>",
    "<section><p class=wide>Plan.</p><p class=wide>Cut.</p></section><p>Glue.</p>",
    "<section><div><div class=wide>Plan</div></div></section><p class='aside wide'>Note</p>",
    "<section></section><p>Glue.</p>",
)


@pytest.mark.parametrize("body", BODIES)
def test_pages_break_where_kinds_of_page_meet(monkeypatch: pytest.MonkeyPatch, body: str) -> None:
    """Named pages of first and last children, floats and marks out of the flow: the same file."""
    html = HTML.replace("{}", body)
    mended = write_pdf(html, files={})
    assert page_count(mended) == (2 if body == BODIES[0] else 1)
    parent = import_module("weasyprint.formatting_structure.boxes").ParentBox
    monkeypatch.setattr(parent, "page_values", parent.page_values.guidegen)
    assert write_pdf(html, files={}) == mended
