"""Rows of records in → CSV bytes out, safe to open in a spreadsheet."""

import csv
import io
from collections.abc import Iterable

from guidegen.render.views.tables import Column, Medium, plain_cell, shown_in
from guidegen.words import Words

_FORMULA = ("=", "+", "-", "@", "\t", "\r", "\n")
"""A spreadsheet takes a cell that begins so for a formula (OWASP, CSV Injection)."""


def csv_bytes[Row](columns: Iterable[Column[Row]], rows: Iterable[Row], words: Words) -> bytes:
    """RFC 4180, UTF-8 with a byte order mark, so that spreadsheets read accents right."""
    shown = shown_in(columns, Medium.CSV)
    stream = io.StringIO(newline="")
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow([words.say(column.heading) for column in shown])
    for row in rows:
        writer.writerow([safe_cell(plain_cell(column, row, words)) for column in shown])
    return ("\ufeff" + stream.getvalue()).encode("utf-8")


def safe_cell(cell: str) -> str:
    """A cell that no spreadsheet takes for a formula; numbers stay numbers."""
    if cell.startswith(_FORMULA) and not _is_number(cell):
        return "'" + cell
    return cell


def _is_number(cell: str) -> bool:
    return cell.removeprefix("-").replace(".", "", 1).isdigit() and cell.isascii()
