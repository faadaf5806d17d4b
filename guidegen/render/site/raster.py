"""One page as HTML in → a PNG picture of it out.

The only module that imports pypdfium2. The page is set as a PDF and drawn by pdfium: the same input
gives the same bytes.
"""

import io
from collections.abc import Mapping
from functools import lru_cache

import pypdfium2  # type: ignore[import-untyped]

from guidegen.errors import OutputError
from guidegen.render.pdf.html_pdf import write_pdf


def page_picture(html: str, files: Mapping[str, bytes], width: int) -> bytes:
    """The first page of a document as a PNG, `width` pixels wide. Raises OutputError."""
    return _picture(html, tuple(sorted(files.items())), width)


@lru_cache(maxsize=64)
def _picture(html: str, files: tuple[tuple[str, bytes], ...], width: int) -> bytes:
    data = write_pdf(html, files=dict(files))
    try:
        with pypdfium2.PdfDocument(data) as document:
            page = document[0]
            image = page.render(scale=width / page.get_width()).to_pil()
    except pypdfium2.PdfiumError as error:
        raise OutputError(f"a picture could not be drawn: {error}") from None
    stream = io.BytesIO()
    image.convert("RGB").save(stream, "PNG", optimize=True)
    return stream.getvalue()
