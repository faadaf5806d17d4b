"""Tables of records in → the bytes of a workbook out, with formulas where a column has one.

The only module that imports XlsxWriter. A formula stands beside its stored value, so that a plain
reader sees the figures too. Columns are named in formulas: no letter is counted by hand.
"""

import io
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Protocol

import xlsxwriter
from xlsxwriter.format import Format
from xlsxwriter.utility import xl_col_to_name
from xlsxwriter.worksheet import Worksheet

from guidegen.render.views.tables import CellValue, Column, Look, Medium, shown_in
from guidegen.words import Words

MOST_NAME = 31
"""Letters of a sheet's name: the limit of the file format."""

_EPOCH = datetime(1980, 1, 1, tzinfo=UTC).replace(tzinfo=None)
"""Date of the workbook: no clock, so the same plan gives the same bytes."""

_REF = re.compile(r"\[(\^?)([a-z-]+)\]")

_A4 = 9


@dataclass(frozen=True, slots=True)
class Foot:
    """A row below a table: what it is called, and one figure under a column."""

    name: str
    column: str
    formula: str
    """[sum] is the sum of the column over the rows of the table; [^column] the cell above."""
    value: float


@dataclass(frozen=True)
class _Page:
    """A worksheet with the formats of its book."""

    sheet: Worksheet
    styles: Mapping[str, Format]
    words: Words

    def head(self, row: int, columns: Sequence[tuple[str, int]]) -> None:
        """Headings with their widths; of tables under one another the last one's widths hold."""
        for number, (heading, width) in enumerate(columns):
            self.sheet.set_column(number, number, width)
            self.sheet.write_string(row, number, heading, self.styles["head"])

    def cell[Row](
        self, row: int, number: int, column: Column[Row], value: CellValue, formula: str
    ) -> None:
        """One value, with its formula if it has one."""
        style = self.styles[column.look]
        if value is None:
            self.sheet.write_blank(row, number, None, self.styles[Look.TEXT])
        elif isinstance(value, str):
            text = self.words.say(value) if column.look is Look.WORD else value
            self.sheet.write_string(row, number, text, style)
        elif formula:
            self.sheet.write_formula(row, number, formula, style, value)
        else:
            self.sheet.write_number(row, number, value, style)

    def foot(self, row: int, number: int, foot: Foot, formula: str) -> None:
        """A name in the first column, a figure under another."""
        self.sheet.write_string(row, 0, foot.name, self.styles["total"])
        self.sheet.write_formula(row, number, formula, self.styles["total"], foot.value)


@dataclass(frozen=True)
class Table[Row]:
    """Headings, rows and what stands below them."""

    columns: tuple[Column[Row], ...]
    rows: Sequence[Row]
    feet: tuple[Foot, ...] = ()
    top: int = 0
    """Row of the headings, from 0."""

    def write(self, page: _Page) -> int:
        """Write it; the row after it."""
        columns = shown_in(self.columns, Medium.BOOK)
        page.head(self.top, [(column.said(page.words), column.width) for column in columns])
        places = {column.id: number for number, column in enumerate(columns)}
        at = self.top
        for at, row in enumerate(self.rows, self.top + 1):
            for number, column in enumerate(columns):
                formula = column.formula(row) if column.formula else ""
                page.cell(at, number, column, column.value(row), _placed(formula, places, at))
        for foot in self.feet:
            at += 1
            self._write_foot(page, foot, places, at)
        return at + 1

    def _write_foot(self, page: _Page, foot: Foot, places: Mapping[str, int], at: int) -> None:
        letter = xl_col_to_name(places[foot.column])
        first = self.top + 2
        last = max(first, self.top + 1 + len(self.rows))
        formula = foot.formula.replace("[sum]", f"SUM({letter}{first}:{letter}{last})")
        page.foot(at, places[foot.column], foot, _placed(formula, places, at))

    def address(self, foot: Foot) -> str:
        """Cell of a foot, as in B7."""
        columns = shown_in(self.columns, Medium.BOOK)
        place = next(number for number, one in enumerate(columns) if one.id == foot.column)
        row = self.top + 2 + len(self.rows) + self.feet.index(foot)
        return f"{xl_col_to_name(place)}{row}"


def _placed(formula: str, places: Mapping[str, int], row: int) -> str:
    """A formula with the cells that it names; `row` from 0."""

    def cell(found: re.Match[str]) -> str:
        return f"{xl_col_to_name(places[found[2]])}{row if found[1] else row + 1}"

    return _REF.sub(cell, formula)


@dataclass(frozen=True, slots=True)
class Note:
    """A text in the first column of a sheet."""

    row: int
    """From 0."""
    text: str
    heading: bool = False


class Block(Protocol):
    """What a sheet holds: a table, whatever its rows are."""

    def write(self, page: _Page) -> int:
        """Write it; the row after it."""
        ...


@dataclass(frozen=True)
class WorkbookSheet:
    """One sheet: lines above its tables, and what is kept in sight."""

    name: str
    tables: Sequence[Block]
    title: str = ""
    notes: tuple[Note, ...] = ()
    kept: tuple[int, int] = (1, 0)
    """Rows and columns that stay in sight when one scrolls; none for (0, 0)."""

    def address(self, cell: str) -> str:
        """A cell of this sheet, for formulas of another."""
        return f"'{self.name[:MOST_NAME].replace("'", "''")}'!{cell}"


def workbook(title: str, author: str, sheets: Sequence[WorkbookSheet], words: Words) -> bytes:
    """A workbook. Texts stay texts, whoever wrote them: none becomes a formula or a link."""
    stream = io.BytesIO()
    book = xlsxwriter.Workbook(
        stream, {"in_memory": True, "strings_to_formulas": False, "strings_to_urls": False}
    )
    book.set_properties({"title": title, "author": author, "created": _EPOCH})
    styles = _make_styles(book)
    for sheet in sheets:
        page = _Page(book.add_worksheet(sheet.name[:MOST_NAME]), styles, words)
        if sheet.title:
            page.sheet.write_string(0, 0, sheet.title, styles["title"])
        for note in sheet.notes:
            style = [styles["head"]] if note.heading else []
            page.sheet.write_string(note.row, 0, note.text, *style)
        for table in sheet.tables:
            table.write(page)
        if any(sheet.kept):
            page.sheet.freeze_panes(*sheet.kept)
        _set_page(page.sheet)
    book.close()
    return stream.getvalue()


def _make_styles(book: xlsxwriter.Workbook) -> dict[str, Format]:
    """Formats of cells by look, and those of headings."""
    edge = {"bottom": 1, "bottom_color": "#B8B8B8", "valign": "top"}
    amount = {**edge, "num_format": "#,##0"}
    text = {**edge, "text_wrap": True}
    looks = {
        Look.TEXT: text,
        Look.WORD: text,
        Look.PLAIN: text,
        Look.AMOUNT: amount,
        Look.COUNT: {**edge, "num_format": "0", "bold": True},
        Look.MONEY: {**edge, "num_format": "#,##0.00"},
        Look.AREA: {**edge, "num_format": "#,##0.00"},
        Look.ENTRY: {**amount, "bg_color": "#FFF7D6"},
        Look.SHARE: {**edge, "num_format": "0 %"},
        "title": {"bold": True, "font_size": 14},
        "head": {"bold": True, "bottom": 2, "text_wrap": True, "valign": "bottom"},
        "total": {"bold": True, "num_format": "#,##0.00", "top": 2},
    }
    return {name: book.add_format(look) for name, look in looks.items()}


def _set_page(sheet: Worksheet) -> None:
    """A4, across, as wide as the page."""
    sheet.set_landscape()
    sheet.set_paper(_A4)
    sheet.fit_to_pages(1, 0)
