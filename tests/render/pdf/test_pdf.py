"""HTML to PDF: only the files that are handed over, nothing from disk or network."""

import io
import subprocess
import sys

import pikepdf
import pytest

from guidegen.errors import MissingLibrary, OutputError
from guidegen.render.fonts.fonts import FACES, font_css, font_files
from guidegen.render.pdf import html_pdf as module
from guidegen.render.pdf.html_pdf import page_count, write_pdf

PIXEL = (
    b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR\x00\x00\x00\x01\x00\x00\x00\x01\x08\x02\x00\x00\x00"
    b"\x90wS\xde\x00\x00\x00\x0cIDATx\x9cc```\x00\x00\x00\x04\x00\x01\xf6\x178U\x00\x00\x00"
    b"\x00IEND\xaeB`\x82"
)


def page(body: str, style: str = "") -> str:
    """A small document."""
    return (
        f'<html lang="en"><head><title>T</title><style>{font_css()}{style}</style></head>'
        f"<body>{body}</body></html>"
    )


def test_the_same_document_gives_the_same_bytes():
    """No dates and no chance, in plain and in archive form."""
    html = page("<h1>Quay</h1><p>One.</p>")
    for variant in (None, "pdf/ua-1", "pdf/a-3u"):
        first = write_pdf(html, files={}, variant=variant)
        assert first == write_pdf(html, files={}, variant=variant)
        assert page_count(first) == 1


def test_fonts_come_from_the_packages(tmp_path):
    """Both families are embedded, in HTML and in a drawing's words."""
    body = (
        "<p style=\"font-family: 'Atkinson Hyperlegible'\">Read me</p>"
        '<svg width="50mm" height="20mm" viewBox="0 0 50 20" '
        "font-family=\"'Barlow Condensed', sans-serif\">"
        '<text x="2" y="10" font-size="5">Draw me</text>'
        '<text x="2" y="18" font-size="5" font-weight="600">Strong</text></svg>'
    )
    path = tmp_path / "t.pdf"
    path.write_bytes(write_pdf(page(body), files={}))
    listed = subprocess.run(["pdffonts", path], check=True, capture_output=True, text=True).stdout
    names = [row.split()[0] for row in listed.splitlines()[2:]]
    assert any("Atkinson-Hyperlegible" in name for name in names)
    assert sum("Barlow-Condensed" in name for name in names) == 2
    assert len(names) == 3


def test_files_are_served_by_name():
    """A picture and a style sheet are found among the files."""
    html = page('<link rel="stylesheet" href="style.css"><img src="pictures/dot.png">')
    data = write_pdf(html, files={"style.css": b"img { width: 20mm }", "pictures/dot.png": PIXEL})
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert len(pdf.pages[0].get_images()) == 1


@pytest.mark.parametrize(
    "address",
    [
        "missing.png",
        "/etc/passwd",
        "file:///etc/passwd",
        "http://example.org/a.png",
        "//example.org/a.png",
        "ftp://example.org/a.png",
        "../../etc/passwd",
    ],
)
def test_nothing_else_is_read(address, monkeypatch):
    """An address outside of the files is an error that names it, and is never opened."""

    def refuse(*_args: object, **_more: object) -> None:
        raise AssertionError("something was opened")

    monkeypatch.setattr("urllib.request.FileHandler.file_open", refuse)
    monkeypatch.setattr("socket.socket.connect", refuse)
    with pytest.raises(OutputError, match="not among its files"):
        write_pdf(page(f'<img src="{address}">'), files={})


def test_warnings_are_errors_unless_they_are_collected():
    """A rule that the layouter ignores is reported, never printed."""
    html = page("<p>One.</p>", "p { no-such-thing: 3 }")
    with pytest.raises(OutputError, match="no-such-thing"):
        write_pdf(html, files={})
    messages: list[str] = []
    assert write_pdf(html, files={}, messages=messages).startswith(b"%PDF")
    assert any("no-such-thing" in message for message in messages)


def test_a_missing_system_library_names_the_packages(monkeypatch):
    """Without Pango there is no traceback but how to install it."""

    class Blocker:
        def find_spec(self, name, path=None, target=None):
            if name == "weasyprint":
                raise OSError("cannot load library 'libpango-1.0-0'")

    monkeypatch.delitem(sys.modules, "weasyprint", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Blocker(), *sys.meta_path])
    with pytest.raises(MissingLibrary, match="apt install libpango"):
        write_pdf(page("x"), files={})
    assert "brew install" in module.INSTALL


def test_every_face_has_its_file():
    """Each face that a style rule names is there as a TrueType file."""
    files = font_files()
    assert len(files) == sum(len(faces) for faces in FACES.values())
    for name, data in files.items():
        assert name in font_css()
        assert data[:4] == b"\x00\x01\x00\x00"


def test_what_is_no_pdf_is_refused():
    """Counting the pages of something else is an error of ours."""
    with pytest.raises(OutputError, match="cannot be read"):
        page_count(b"not a PDF")
