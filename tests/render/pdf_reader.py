"""PDF pages read back by pdfium: their lines of text with font, size and place."""

import ctypes
from dataclasses import dataclass

import pypdfium2
from pypdfium2 import raw

from guidegen.units import POINTS_PER_MM

SAME_LINE = 0.5
"""pt; how far the lower edges of letters on one line may differ by rounding."""


@dataclass(frozen=True)
class Run:
    """Characters in a row on one line, in one font."""

    text: str
    font: str
    size: float
    """pt, as printed."""
    left: float
    """mm from the left edge of the page."""
    top: float
    """mm from the upper edge of the page."""
    bottom: float


@dataclass(frozen=True)
class ReadPage:
    """One page."""

    width: float
    """mm."""
    height: float
    text: str
    """All words, in the order of the file, with single spaces."""
    runs: tuple[Run, ...]


def read_pages(data: bytes) -> tuple[ReadPage, ...]:
    """All pages of a PDF."""
    with pypdfium2.PdfDocument(data) as document:
        return tuple(_read_page(page) for page in document)


def _read_page(page) -> ReadPage:
    width, height = page.get_size()
    text = page.get_textpage()
    words = " ".join(text.get_text_range().replace("￾", "-").split())
    runs = []
    last = None
    for index in range(text.count_chars()):
        letter = chr(raw.FPDFText_GetUnicode(text, index))
        if not letter.strip():
            last = None if letter in "\r\n" else last
            if last is not None:
                runs[-1][0] += letter
            continue
        left, bottom, _, top = text.get_charbox(index, loose=True)
        font, size = _font(text, index), round(_size(text, index), 2)
        if last is not None and last[:2] == (font, size) and abs(last[2] - bottom) < SAME_LINE:
            runs[-1][0] += letter
        else:
            runs.append([letter, font, size, left, height - top, height - bottom])
            last = (font, size, bottom)
    found = tuple(
        Run(words_.strip(), font, size, *(side / POINTS_PER_MM for side in sides))
        for words_, font, size, *sides in runs
    )
    return ReadPage(width / POINTS_PER_MM, height / POINTS_PER_MM, words, found)


def _font(text, index) -> str:
    buffer, flags = ctypes.create_string_buffer(256), ctypes.c_int()
    raw.FPDFText_GetFontInfo(text, index, buffer, 256, flags)
    return buffer.value.decode()


def _size(text, index) -> float:
    """Size in the page's points: the font's own times the scale of its matrix."""
    matrix = raw.FS_MATRIX()
    raw.FPDFText_GetMatrix(text, index, matrix)
    scale = (matrix.b**2 + matrix.d**2) ** 0.5
    return raw.FPDFText_GetFontSize(text, index) * scale
