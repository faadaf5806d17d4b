"""A table of people's measurements in → mm by measurement for each person, bounded and placed."""

import csv
import io
from collections.abc import Iterator, Mapping
from pathlib import Path

from guidegen.buildfile.read.reader import read_file
from guidegen.errors import ContentError
from guidegen.problems import Place, Problem, collect, did_you_mean

MAX_PEOPLE = 20_000
"""Rows that are read. Our choice: published surveys have some thousand."""

LONGEST = 5000.0
"""mm; nobody has a larger girth or length."""

MAX_TOLD = 20
"""Cells that are told as wrong before reading stops. Our choice: nobody reads more."""

MISSING = {"", "NA", "N/A", "NaN", "nan"}
"""Cells without a value, as statistics programs write them."""

DELIMITERS = ",;\t"


def read_population(
    path: Path, measurements: Mapping[str, str], millimetres: float
) -> list[dict[str, float]]:
    """People of a CSV file with a header row; fields end at commas, semicolons or tabs.

    `measurements` gives the column of each measurement that is wanted, or its own name where the
    column may be left out; `millimetres` is the length of the file's unit. Missing cells are left
    out of their person. Where fields end at semicolons or tabs, a comma may stand for the decimal
    point. Raises ContentError with line numbers.
    """
    shown = path.as_posix()
    text, problems = collect(read_file(path, shown))
    if text is None:
        raise ContentError(problems)
    table = _Table(text.removeprefix("\ufeff"), shown)
    people = list(table.people(measurements, millimetres))
    if not people and not table.problems:
        table.tell(1, "the table has no rows below its header")
    if table.problems:
        raise ContentError(table.problems)
    return people


class _Table:
    """The rows of one file, read once, and what was wrong with them."""

    def __init__(self, text: str, shown: str) -> None:
        self.shown = shown
        self.problems: list[Problem] = []
        head = text.partition("\n")[0]
        self._width = 0
        self.delimiter = max(DELIMITERS, key=head.count)
        self._rows = csv.reader(
            io.StringIO(text, newline=""), delimiter=self.delimiter, strict=True
        )

    def tell(self, line: int, message: str) -> None:
        place = Place(self.shown, line)
        self.problems.append(Problem("population", place, "", message))

    def people(
        self, measurements: Mapping[str, str], millimetres: float
    ) -> Iterator[dict[str, float]]:
        try:
            columns = self._columns(next(self._rows, []), measurements)
            for count, row in enumerate(self._rows):
                if len(self.problems) >= MAX_TOLD or not columns:
                    return
                if count >= MAX_PEOPLE:
                    self.tell(self._rows.line_num, f"more than {MAX_PEOPLE} people")
                    return
                if row:
                    yield self._person(row, columns, millimetres)
        except csv.Error as error:
            self.tell(self._rows.line_num, f"not readable as CSV: {error}")

    def _columns(
        self, header: list[str], measurements: Mapping[str, str]
    ) -> dict[str, tuple[str, int]]:
        """Title and number of the column of each measurement that the table has."""
        titles = [title.strip() for title in header]
        self._width = len(titles)
        columns: dict[str, tuple[str, int]] = {}
        for name, column in measurements.items():
            if titles.count(column) > 1:
                self.tell(1, f'two columns are called "{column}"')
            elif column in titles:
                columns[name] = (column, titles.index(column))
            elif column != name:
                self.tell(1, f'no column "{column}"{did_you_mean(column, titles)}')
        if not columns and not self.problems:
            known = ", ".join(list(measurements)[:8])
            self.tell(1, f"no column has the name of a measurement ({known}); name them: --column")
        return {} if self.problems else columns

    def _person(
        self, row: list[str], columns: Mapping[str, tuple[str, int]], millimetres: float
    ) -> dict[str, float]:
        person: dict[str, float] = {}
        if len(row) != self._width:
            self.tell(self._rows.line_num, f"{len(row)} fields, but the header has {self._width}")
            return person
        for name, (column, number) in columns.items():
            cell = row[number].strip()
            if cell in MISSING:
                continue
            length = self._length(cell) * millimetres
            if 0 < length < LONGEST:
                person[name] = length
            else:
                found = f'found "{cell[:40]}"'
                self.tell(self._rows.line_num, f"{column}: expected a length, {found}")
        return person

    def _length(self, cell: str) -> float:
        """The number in a cell; 0 where it is none."""
        try:
            return float(cell if self.delimiter == "," else cell.replace(",", "."))
        except ValueError:
            return 0.0
