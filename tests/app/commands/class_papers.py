"""What the class command wrote, in → words of pages and rows of its list."""

import csv
import io
from pathlib import Path

import pypdfium2


def pages_of(path: Path) -> list[str]:
    """Words of every page of a PDF."""
    with pypdfium2.PdfDocument(path) as document:
        texts = [page.get_textpage().get_text_range() for page in document]
    return [" ".join(text.replace("\ufffe", "-").replace("\u00a0", " ").split()) for text in texts]


def rows_of(out: Path) -> list[dict[str, str]]:
    """Rows of class.csv, by column."""
    text = (out / "class.csv").read_text(encoding="utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))
