"""Booklets judged by checkers of others.

Screen: ISO 14289-1 (PDF/UA-1), by pdfua and pdf_oxide. Archive: ISO 19005-3 (PDF/A-3u), by the
validator of pikepdf and by pdf_oxide. Press: ISO 15930-7 (PDF/X-4), by pdf_oxide.
"""

import pytest
from pdf_oxide import PdfDocument
from pdfua import validate
from pikepdf.pdfa import validate_written
from render.edition_samples import edition

TAGGED = ("screen", "summary", "checklist", "large-print")


@pytest.mark.parametrize("name", TAGGED)
def test_documents_are_accessible(name, tmp_path):
    """Two checkers of PDF/UA-1 find nothing in any document for reading."""
    path = tmp_path / "document.pdf"
    path.write_bytes(edition(name).data)
    report = validate(path)
    assert [(found.rule_id, found.message) for found in report.findings] == []
    assert PdfDocument(str(path)).validate_pdf_ua()["errors"] == []


def test_archive_keeps_to_its_standard(tmp_path):
    """pdf_oxide finds nothing against PDF/A-3u; pikepdf's validator knows level B alone."""
    path = tmp_path / "archive.pdf"
    path.write_bytes(edition("archive").data)
    assert PdfDocument(str(path)).validate_pdf_a("3u")["errors"] == []
    report = validate_written(path, "3b")
    assert [finding.message for finding in report.findings] == [
        "pdfaid:conformance is 'U', expected 'B'"
    ]


def test_press_file_keeps_to_its_standard(tmp_path):
    """pdf_oxide finds nothing against PDF/X-4."""
    path = tmp_path / "press.pdf"
    path.write_bytes(edition("print-shop").data)
    found = PdfDocument(str(path)).validate_pdf_x("4")
    assert (found["errors"], found["warnings"]) == ([], [])
