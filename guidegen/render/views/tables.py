"""Columns of tables: what a row of records shows under which heading, whoever writes it.

A table has one tuple of columns. Lists for spreadsheets and programs, workbooks and pages each take
the columns of their medium, in the order of the tuple: a column is stated once.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from enum import Flag, StrEnum, auto

from guidegen.quantities import capital
from guidegen.units import mm_text
from guidegen.words import Words

type CellValue = str | float | None
"""What stands in a cell; None for nothing."""


class Medium(Flag):
    """Where a column is shown."""

    CSV = auto()
    """A list for spreadsheets and programs."""
    BOOK = auto()
    """A workbook that calculates."""
    PAGE = auto()
    """Pages and documents."""
    DATA = auto()
    """JSON for programs."""


EVERYWHERE = Medium.CSV | Medium.BOOK | Medium.PAGE | Medium.DATA


class Look(StrEnum):
    """How a value is written."""

    TEXT = "text"
    WORD = "word"
    """A text of ours, said in the language of the table."""
    PLAIN = "plain"
    """A number as it is, for tables that nobody reckons with."""
    AMOUNT = "amount"
    """In the unit of its row, two digits at most."""
    COUNT = "count"
    MONEY = "money"
    """In the currency of the site."""
    AREA = "area"
    """m²."""
    ENTRY = "entry"
    """For the reader to fill in."""
    SHARE = "share"
    """Of one, shown in per cent."""


@dataclass(frozen=True, slots=True)
class Column[Row]:
    """One column of a table whose rows are records."""

    id: str
    """Name in formulas, in the attributes of a page and in JSON."""
    heading: str
    """In lists for programs; for people with a capital letter."""
    value: Callable[[Row], CellValue]
    look: Look = Look.TEXT
    width: int = 0
    """Characters in a workbook."""
    media: Medium = EVERYWHERE
    title: str = ""
    """Heading for people, where it is another."""
    formula: Callable[[Row], str] | None = None
    """What a workbook works the value out with: [id] is the cell of that column in the same row,
    [^id] in the row above. Empty for a value as it is."""
    help: str = ""
    """What it says, for those who read the list by a program."""

    def said(self, words: Words) -> str:
        """Heading for people."""
        return words.say(self.title) if self.title else capital(words.say(self.heading))


def shown_in[Row](columns: Iterable[Column[Row]], medium: Medium) -> tuple[Column[Row], ...]:
    """The columns of one medium, in their order."""
    return tuple(column for column in columns if medium in column.media)


def plain_cell[Row](column: Column[Row], row: Row, words: Words) -> str:
    """A cell for programs: numbers with a point and no unit, nothing for None."""
    value = column.value(row)
    if value is None:
        return ""
    if isinstance(value, str):
        return words.say(value) if column.look is Look.WORD else value
    return f"{value:.2f}" if column.look is Look.MONEY else mm_text(value, 2)
