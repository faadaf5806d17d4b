"""Booklets judged by checkers of others.

Screen: ISO 14289-1 (PDF/UA-1), by pdfua and pdf_oxide. Archive: ISO 19005-3 (PDF/A-3u), by the
validator of pikepdf and by pdf_oxide. Press: ISO 15930-7 (PDF/X-4), by pdf_oxide.
"""

import io
import re

import pikepdf
import pytest
from pdf_oxide import PdfDocument
from pdfua import validate
from pikepdf.pdfa import validate_written
from render.edition_samples import edition
from render.pdf.test_nested_pdf import nested_sample

from guidegen.documents import Standard, of_standard

from .test_true_scale import key_pages
from .test_true_scale import made as plain

TAGGED = of_standard(Standard.ACCESSIBLE)
"""Editions that are tagged, from the table of documents."""


@pytest.mark.parametrize("name", TAGGED)
def test_documents_are_accessible(name, tmp_path):
    """Two checkers of PDF/UA-1 find nothing in any document for reading."""
    path = tmp_path / "document.pdf"
    path.write_bytes(edition(name).data)
    report = validate(path)
    assert [(found.rule_id, found.message) for found in report.findings] == []
    assert PdfDocument(str(path)).validate_pdf_ua()["errors"] == []


@pytest.mark.parametrize("which", ["one size", "all sizes"])
def test_templates_are_accessible(which, tmp_path):
    """Neither checker finds anything in template pages, switches of sizes included."""
    data = plain("a4")[1] if which == "one size" else nested_sample()[2]
    path = tmp_path / "templates.pdf"
    path.write_bytes(data)
    report = validate(path)
    assert [(found.rule_id, found.message) for found in report.findings] == []
    assert PdfDocument(str(path)).validate_pdf_ua()["errors"] == []


def test_template_pages_say_what_they_show():
    """Each page is a figure whose words name its templates with their sizes, as PDF readers see."""
    templates, data = plain("a4")
    with pikepdf.open(io.BytesIO(data)) as pdf:
        assert pdf.Root.MarkInfo.Marked
        (document,) = pdf.Root.StructTreeRoot.K
        kinds = [str(element.S) for element in document.K]
        figures = [str(element.Alt) for element in document.K if element.S == "/Figure"]
    assert kinds[0] == "/H1"
    assert len(figures) == len(templates.pages)
    assert "/Figure" not in kinds[: len(kinds) - len(figures)]
    for page, words in zip(templates.pages, figures, strict=True):
        assert f"Template page {page.number} of {len(templates.pages)}" in words
        for drawn in templates.sheets[page.sheet - 1].drawn:
            named = f"{drawn.piece.name}, " in words
            assert named or drawn.piece.key not in page.pieces
    plate = next(words for words in figures if " mm by " in words)
    assert re.search(r"\d+ mm by \d+ mm", plate)
    assert key_pages(templates, data) >= 1


@pytest.mark.parametrize("name", of_standard(Standard.ARCHIVE))
def test_archive_keeps_to_its_standard(name, tmp_path):
    """pdf_oxide finds nothing against PDF/A-3u; pikepdf's validator knows level B alone."""
    path = tmp_path / "archive.pdf"
    path.write_bytes(edition(name).data)
    assert PdfDocument(str(path)).validate_pdf_a("3u")["errors"] == []
    report = validate_written(path, "3b")
    assert [finding.message for finding in report.findings] == [
        "pdfaid:conformance is 'U', expected 'B'"
    ]


@pytest.mark.parametrize("name", of_standard(Standard.PRESS))
def test_press_file_keeps_to_its_standard(name, tmp_path):
    """pdf_oxide finds nothing against PDF/X-4."""
    path = tmp_path / "press.pdf"
    path.write_bytes(edition(name).data)
    found = PdfDocument(str(path)).validate_pdf_x("4")
    assert (found["errors"], found["warnings"]) == ([], [])
