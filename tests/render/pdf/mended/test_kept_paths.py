"""Paths of drawings that are read once, and numbers that are written at once."""

from importlib import import_module

import pydyf
import pytest

from guidegen.render.pdf.html_pdf import write_pdf

CURVES = "M5 5L20 5Q30 5 30 15T25 30A5 5 0 0 1 15 30C10 30 10 20 5 20s-2-5 0-8zM2 2h3v3z"
SHARES = "M10% 10%L90% 10%"
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {0} {0}" width="{0}" height="{0}">'
    '<marker id="m"><circle r="1"/></marker>'
    '<path marker-mid="url(#m)" fill="none" stroke="#000" d="{1}"/><path stroke="#000" d="{2}"/></svg>'
)


def page(*drawings: str) -> bytes:
    """A document of drawings."""
    files = {f"{n}.svg": drawing.encode() for n, drawing in enumerate(drawings)}
    images = "".join(f"<img src={name}>" for name in files)
    return write_pdf(f"<html lang=en><title>t</title><body>{images}</body></html>", files=files)


def test_a_path_drawn_again_is_drawn_the_same() -> None:
    """Curves, marks at corners and shares of two sizes: the same bytes the second time."""
    drawings = [SVG.format(side, CURVES, SHARES) for side in (40, 80, 40)]
    assert page(*drawings) == page(*drawings)


def test_a_path_is_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Three drawings of one path ask the library once for it, and each time for one with shares."""
    library = import_module("weasyprint.svg.path")
    read: list[str] = []
    normalise = library.normalize
    monkeypatch.setattr(library, "normalize", lambda text: read.append(text) or normalise(text))
    own = CURVES.replace("20 5", "21 5")
    page(*[SVG.format(40, own, SHARES)] * 3)
    assert sum("21" in text for text in read) == 1
    assert sum("%" in text for text in read) == 3


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (0.0, b"0"),
        (-3.0, b"-3"),
        (1.25, b"1.25"),
        (1e-9, b"0."),
        (123456789.5, b"123456789.5"),
        (7, b"7"),
        (True, b"True"),
        ("/Name", b"/Name"),
        (b"q", b"q"),
        (pydyf.Array([1, 0.5]), b"[1 0.5]"),
    ],
)
def test_numbers_are_written_as_the_library_writes_them(value: object, written: bytes) -> None:
    """Integers without a point, others with what they need of six places."""
    page("<svg xmlns='http://www.w3.org/2000/svg'/>")
    assert pydyf._to_bytes(value) == written


def test_references_follow_the_pages() -> None:
    """A page that is added has its reference."""
    page("<svg xmlns='http://www.w3.org/2000/svg'/>")
    pdf = pydyf.PDF()
    before = pdf.page_references
    pdf.add_page(pydyf.Dictionary({"Type": "/Page"}))
    assert len(pdf.page_references) == len(before) + 1
