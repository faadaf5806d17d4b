"""A workbook of the people of a class in → the same as from its table saved as CSV.

The only module that reads workbooks. Formulas give the values that were saved with them; nothing is
reckoned, and no other sheet, file or address is opened.
"""

import io
import zipfile
from collections.abc import Iterator
from pathlib import Path

from guidegen.buildfile.read.files import file_bytes
from guidegen.buildfile.read.people.listed import Listed
from guidegen.buildfile.read.people.table import (
    PeopleTerms,
    TableError,
    TableLine,
    people_of_rows,
)
from guidegen.problems import Checked

MOST_BYTES = 2_000_000
"""Bytes of a workbook. Our choice: a hundred times a list of names."""
MOST_UNPACKED = 20_000_000
"""Bytes of all that is packed in it: a few kilobytes may unpack to gigabytes. Our choice."""
MOST_LINES, MOST_COLUMNS = 1000, 60
"""Of the first sheet. Our choice."""


def read_people_workbook(path: Path, terms: PeopleTerms) -> Checked[list[Listed]]:
    """People of the first sheet of a workbook (.xlsx, ISO/IEC 29500), as of a table."""
    shown = path.as_posix()
    data = yield from file_bytes(path, MOST_BYTES, shown)
    if data is None:
        return []
    return (yield from people_of_rows(_lines(data), shown, terms, comma=True))


def _lines(data: bytes) -> Iterator[TableLine]:
    """Rows of the first sheet as texts. Raises TableError for what is no workbook."""
    from openpyxl import load_workbook  # noqa: PLC0415 - its library is large

    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            unpacked = sum(entry.file_size for entry in archive.infolist())
        if unpacked > MOST_UNPACKED:
            raise TableError(1, f"the workbook unpacks to more than {MOST_UNPACKED} bytes")
        book = load_workbook(io.BytesIO(data), read_only=True, data_only=True, keep_links=False)
        sheet = book.worksheets[0]
        # What a file says of its own extent may be wrong, or a million empty rows.
        rows = sheet.iter_rows(max_row=MOST_LINES, max_col=MOST_COLUMNS, values_only=True)
        found = [[_text(value) for value in row] for row in rows]
    except TableError:
        raise
    except Exception as error:
        name = type(error).__name__
        raise TableError(1, f"not readable as a workbook ({name}); save the table as CSV") from None
    # Cells that were only formatted make rows wider than their header.
    wide = 1 + max((n for row in found for n, cell in enumerate(row) if cell.strip()), default=-1)
    for number, row in enumerate(found, 1):
        yield number, row[:wide]


def _text(value: object) -> str:
    """A cell as it would be typed: whole numbers without a decimal point."""
    if value is None:
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value)
