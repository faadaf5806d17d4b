"""Lengths of boxes that are worked out once for each set of values."""

import inspect
import re
from importlib import import_module

import pytest

from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.pdf.mended import used_lengths

HTML = (
    "<html lang=en><head><title>t</title><style>"
    "html { font: 10pt 'Barlow' } div { box-sizing: border-box; padding: 2% 1em; border: 1pt solid }"
    " .half { width: 50%; min-height: 3% } .sum { width: calc(50% - 2em) } b { font-size: 20pt }"
    " table { border-collapse: collapse } td { border: 1pt solid; padding: 1mm 2% }"
    " .flow { columns: 2 } .row { display: flex } .grid { display: grid; grid-template-columns: 1fr 2fr }"
    " .flow p::first-line { font-size: 12pt } .flow p::first-letter { padding: 1pt }"
    "</style></head><body>"
    + (
        "<div class=half>Coat both faces.<div class=half>Wait.</div></div>"
        "<div class=sum>Join.</div><b><div class=sum>Press.</div></b>"
        "<table><tr><td>Foam<td>10 mm<tr><td>Glue<td>25 ml</table>"
        "<div class=flow><p>Trace.<p>Cut.<div class=half>Sand.</div></div>"
        "<div class=row><p class=half>One<p>Two</div><div class=grid><p class=half>Three<p>Four</div>"
    )
    * 3
    + "</body></html>"
)


def test_all_that_the_library_reads_of_a_style_is_in_the_key() -> None:
    """Lengths are kept under every value of a style that they follow from, in this version."""
    percent = import_module("weasyprint.layout.percent")
    source = inspect.getsource(percent.adjust_box_sizing)
    asked = set(re.findall(r"style\['(\w+)'\]", source))
    source = inspect.getsource(import_module("weasyprint.layout.percent"))
    body = source[source.index("def resolve_percentages") : source.index("def resolve_radii")]
    asked |= set(re.findall(r"style\['(\w+)'\]", body))
    asked |= set(re.findall(r"resolve_one_percentage\(box, '(\w+)'", body))
    asked |= {f"border_{side}_width" for side in used_lengths.SIDES}
    assert asked == {*used_lengths.READ, "border_collapse"}


def test_kept_lengths_change_no_byte(monkeypatch: pytest.MonkeyPatch) -> None:
    """Shares, formulas, collapsed borders, columns, flexible rows, grids and first lines, whose
    styles the library changes while it lays out: the same file without keeping.
    """
    kept = write_pdf(HTML, files={})
    names = ("percent", "absolute", "block", "column", "float", "grid", "inline", "page", "table")
    for name in names:
        module = import_module(f"weasyprint.layout.{name}")
        monkeypatch.setattr(
            module, "resolve_percentages", module.resolve_percentages.guidegen, raising=True
        )
    assert write_pdf(HTML, files={}) == kept


def test_most_boxes_share_their_lengths(monkeypatch: pytest.MonkeyPatch) -> None:
    """The library works out the lengths of a fraction of the boxes that ask for them."""
    percent = import_module("weasyprint.layout.percent")
    worked_out: list[object] = []
    adjust = percent.adjust_box_sizing
    monkeypatch.setattr(
        percent, "adjust_box_sizing", lambda *given: worked_out.append(given) or adjust(*given)
    )
    plain = "".join(f"<div class=half>Part {number}</div>" for number in range(40))
    head = HTML.partition("<body>")[0].replace("width: 50%", "width: 37%")
    write_pdf(f"{head}<body>{plain}</body></html>", files={})
    # Forty boxes of one kind, on a page of their own: no more than a few are worked out.
    assert 0 < len(worked_out) < 40
