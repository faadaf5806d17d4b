"""Bytes in → a PDF to work on, and back."""

import io

import pikepdf

from guidegen.errors import OutputError


def open_pdf(data: bytes) -> pikepdf.Pdf:
    """A PDF to work on. Raises OutputError."""
    try:
        return pikepdf.open(io.BytesIO(data))
    except pikepdf.PdfError as error:
        raise OutputError(f"a PDF that was just made cannot be read: {error}") from None


def save_pdf(pdf: pikepdf.Pdf, version: str = "") -> bytes:
    """Its bytes, with an identifier that follows from the content; in PDF `version` if given."""
    out = io.BytesIO()
    pdf.save(
        out,
        # /PrintScaling came with PDF 1.6.
        min_version="" if version else "1.7",
        force_version=version,
        deterministic_id=True,
        object_stream_mode=pikepdf.ObjectStreamMode.generate,
    )
    return out.getvalue()


def page_count(data: bytes) -> int:
    """How many pages a PDF has. Raises OutputError."""
    with open_pdf(data) as pdf:
        return len(pdf.pages)
