"""Colours, strokes and lengths that are read once, beside what the library reads each time."""

import inspect
import re
from collections.abc import Callable
from importlib import import_module

import pytest

from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.render.pdf.mended import quick_drawings

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20" width="{0}" height="20mm">'
    '<linearGradient id="g"><stop stop-color="red"/><stop offset="1"/></linearGradient>'
    '<marker id="m" viewBox="0 0 2 2"><path d="M0 0h2v2z" fill="context-stroke"/></marker>'
    '<g stroke="#123" stroke-width=".4"><path d="M1 1h9"/><path d="M1 2h9" stroke="#abc"/>'
    '<rect x="1" y="3" width="25%" height="2" fill="hsl(20 50% 50%)" stroke-dasharray="1 .5"/>'
    '<rect x="1" y="6" width="1em" height="2" stroke-width="5%" stroke-dasharray="1em 2%"/>'
    '<circle cx="20" cy="5" r="3" fill="url(#g)" stroke-opacity=".5" stroke-linecap="round"/>'
    '<line x1="1" y1="12" x2="9" y2="14" marker-end="url(#m)" stroke-linejoin="bevel"/>'
    '<text x="9" y="18" font-size="4" fill="lab(50 20 20)" stroke="none">12 mm</text>'
    '<path d="M30 1h5v5z" fill="rgba(10 20 30 / 50%)" stroke-dashoffset="-1" stroke-dasharray="2"/>'
    '<polygon points="30,9 35,9 35,14" fill="#123" stroke-miterlimit="-2"/></g></svg>'
)
STYLE = (
    "h1 { outline: 1pt dashed red; border-bottom: 2pt solid green } .two { columns: 2;"
    " column-rule: 1pt dotted blue } td { border: 1pt solid } .box { border: 3pt double #123 }"
    " .image { border: 4pt solid; border-image: url(0.svg) 3 } b { color: hwb(20 30% 10%) }"
)
BODY = (
    "<h1>Tides <b>high</b></h1><div class=two><p>One two three</p><p>Four five six</p></div>"
    "<table><tr><td>Low<td>High</table><p class=box>Box <span style='outline: 1pt solid'>out"
    " <b>in</b></span></p><p class=image>Image</p><img src=0.svg><img src=1.svg><img src=0.svg>"
)


def page() -> bytes:
    """A document with drawings of two widths, borders and outlines."""
    files = {f"{n}.svg": SVG.format(width).encode() for n, width in enumerate(("40mm", "6em"))}
    html = f"<html lang=en><title>t</title><style>{STYLE}</style><body>{BODY}</body></html>"
    return write_pdf(html, files=files, variant="pdf/ua-1", messages=[])


def library_way(function: object) -> Callable[..., object]:
    """What a mended function asks in the library."""
    held = [cell.cell_contents for cell in function.__closure__]
    found = (one for one in held if callable(one) and "weasyprint" in one.__module__)
    return inspect.unwrap(next(found))


def test_pages_are_painted_as_the_library_paints_them(monkeypatch: pytest.MonkeyPatch) -> None:
    """Gradients, marks, shares of two sizes, spaces of colours, borders and outlines: one file."""
    ours = [page() for _ in range(2)]
    names = (
        "weasyprint.draw",
        "weasyprint.draw.border",
        "weasyprint.svg.utils",
        "weasyprint.svg.path",
        "weasyprint.svg.shapes",
        "weasyprint.svg.text",
        "weasyprint.svg",
    )
    mended = 0
    for holder in (
        *map(import_module, names),
        import_module("weasyprint.svg").SVG,
        import_module("weasyprint.pdf.stream").Stream,
    ):
        for name, function in list(vars(holder).items()):
            if getattr(function, "__module__", "") == quick_drawings.__name__:
                monkeypatch.setattr(holder, name, library_way(function))
                mended += 1
    assert mended >= 10
    assert [page(), page()] == ours


def test_all_that_the_library_asks_of_paint_is_in_the_key() -> None:
    """Fill and stroke are kept under every attribute that can change them, in this version."""
    kept = import_module("weasyprint.svg").SVG.set_graphical_state
    source = inspect.getsource(library_way(kept))
    asked = set(re.findall(r"(?:get|get_paint)\('([\w-]+)'", source))
    assert {"fill", "stroke", "stroke-width"} <= asked <= set(quick_drawings.PAINT)


def test_paint_is_worked_out_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Three paths of one colour ask the library once to read it."""
    library = import_module("weasyprint.svg")
    read: list[str] = []
    colour = library.color
    monkeypatch.setattr(library, "color", lambda text: read.append(text) or colour(text))
    paths = '<path d="M1 1h9v9z" fill="#314159" stroke="#271828"/>' * 3
    svg = f'<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9">{paths}</svg>'
    write_pdf("<html lang=en><title>t</title><img src=a.svg>", files={"a.svg": svg.encode()})
    assert sorted(read) == ["#271828", "#314159"]


def test_what_is_kept_is_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of many colours the last ones are kept, and files stay the same."""
    whole = page()
    monkeypatch.setattr(quick_drawings, "MOST", 2)
    assert page() == whole
