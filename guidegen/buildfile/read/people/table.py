"""A spreadsheet of the people of a class, saved as CSV, in → the same as from a file of names.

name,size,forearm,wrist,age
Robin,M,,,
Kim,,26 cm,165,14
"""

import csv
import io
from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path

from guidegen.buildfile.read.people.listed import (
    MOST_PEOPLE,
    NO_NAME,
    NO_THINGS,
    OF_AGE,
    Listed,
    age_of,
    brought,
    name_of,
)
from guidegen.buildfile.read.reader import read_file
from guidegen.buildfile.yaml.expressions import ExpressionError, parse_expression
from guidegen.problems import Checked, Place, Problem, did_you_mean

OWN = ("name", "size", "age", "brings")
"""Columns beside those of measurements."""
ALSO = {"größe": "size", "groesse": "size", "alter": "age"}
"""Headers in the other language of the catalogue, by what they mean."""
DELIMITERS = ",;\t"
MOST_ABOVE = 10
"""Lines above the header: a title, a date, nothing. Our choice."""

NEAR = 0.8
"""Likeness from which a column's name is taken for a slip; others are left alone. Our choice."""

type TableLine = tuple[int, list[str]]
"""Number of a line of a table, and its fields."""
type PeopleRow = tuple[int, dict[str, str]]
"""TableLine of a row, and its cells by column; empty ones are left out."""


@dataclass(frozen=True, slots=True)
class PeopleTerms:
    """What a guide asks of people, by the names that a table has for it."""

    sizes: Collection[str]
    measurements: Collection[str]
    called: Mapping[str, str] = field(default_factory=dict)
    """Names of measurements in words, by their keys."""

    @property
    def columns(self) -> dict[str, str]:
        """What headers mean, by how they are written in small letters."""
        names = {name.lower(): key for key, name in self.called.items()}
        own = {name: name for name in (*OWN, *self.measurements)}
        return {**names, **ALSO, **{key.lower(): key for key in own}}


def read_people_table(path: Path, terms: PeopleTerms) -> Checked[list[Listed]]:
    """People of a table with a header row; fields end at commas, semicolons or tabs.

    Each has one of the sizes, or lengths in columns named as the measurements, or as these are
    called, in mm or with a unit. Columns of other names are left alone: a leader keeps more in
    such a table, and a title above the header. Where fields end at semicolons or tabs, a comma may
    stand for the decimal point.
    """
    shown = path.as_posix()
    text = yield from read_file(path, shown)
    if text is None:
        return []
    text = text.removeprefix("\ufeff")
    delimiter = _delimiter(text)
    lines = _csv_lines(text, delimiter)
    return (yield from people_of_rows(lines, shown, terms, comma=delimiter != ","))


def _delimiter(text: str) -> str:
    """What parts the fields of the header, which may stand below a title."""
    lines = text.splitlines()[:MOST_ABOVE] or [""]
    for line in lines:
        for delimiter in sorted(DELIMITERS, key=line.count, reverse=True):
            if "name" in (cell.strip(' "').lower() for cell in line.split(delimiter)):
                return delimiter
    return max(DELIMITERS, key=lines[0].count)


def people_of_rows(
    lines: Iterator[TableLine],
    shown: str,
    terms: PeopleTerms,
    *,
    comma: bool,
) -> Checked[list[Listed]]:
    """People of the `lines` of a table, with its header among the first.

    `comma`: one in a number stands for the decimal point. Raises TableError as the lines do.
    """
    rows = yield from _rows(lines, shown, terms.columns)
    people: list[Listed] = []
    for line, cells in rows:
        person = yield from _person(Place(shown, line), cells, terms.sizes, comma=comma)
        if person is None:
            continue
        if any(person.name == other.name for other in people):
            yield _problem("out-of-range", person.place, f"{person.name} stands here twice")
        people.append(person)
    return people


class TableError(Exception):
    """A line that cannot be read."""

    def __init__(self, line: int, message: str) -> None:
        super().__init__(message)
        self.line, self.message = line, message


def _csv_lines(text: str, delimiter: str) -> Iterator[TableLine]:
    table = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        for row in table:
            yield table.line_num, row
    except csv.Error as error:
        raise TableError(table.line_num, f"not readable as CSV: {error}") from None


def _problem(code: str, place: Place, message: str, about: str = "") -> Problem:
    return Problem(code, place, about, message)


def _rows(
    lines: Iterator[TableLine], shown: str, known: Mapping[str, str]
) -> Checked[list[PeopleRow]]:
    """The rows that are not empty, with the columns that are known."""
    found: list[PeopleRow] = []
    try:
        at, titles = _header(lines, known)
        wrong = list(_wrong_titles(titles, Place(shown, at), known))
        if wrong:
            yield from wrong
            return []
        columns = set(known.values())
        for line, row in lines:
            filled = {
                title: cell.strip()
                for title, cell in zip(titles, row, strict=False)
                if title in columns and cell.strip()
            }
            if len(row) > len(titles):
                message = f"{len(row)} fields, but the header has {len(titles)}"
                yield _problem("not-a-mapping", Place(shown, line), message)
                return []
            if filled:
                found.append((line, filled))
            if len(found) > MOST_PEOPLE:
                message = f"too many people for one class; at most {MOST_PEOPLE}"
                yield _problem("out-of-range", Place(shown, line), message)
                return []
    except TableError as error:
        yield _problem("not-a-mapping", Place(shown, error.line), error.message)
        return []
    if not found:
        yield _problem("not-a-mapping", Place(shown, 1), "the table has no people below its header")
    return found


def _header(lines: Iterator[TableLine], columns: Mapping[str, str]) -> tuple[int, list[str]]:
    """Line and titles of the first row with a column of names; of the first of all without one."""
    first: tuple[int, list[str]] | None = None
    for (number, row), _ in zip(lines, range(MOST_ABOVE), strict=False):
        written = [" ".join(title.lower().split()) for title in row]
        titles = [columns.get(title, title) for title in written]
        if "name" in titles:
            return number, titles
        if first is None and any(titles):
            first = number, titles
    return first or (1, [])


def _wrong_titles(titles: list[str], place: Place, columns: Mapping[str, str]) -> Iterator[Problem]:
    known = list(dict.fromkeys([*OWN, *columns.values()]))
    if "name" not in titles:
        expected = "expected a header row with the columns name, size or measurements, and age"
        yield _problem("not-a-mapping", place, f'no column "name"; {expected}')
    for title in dict.fromkeys(titles):
        if title in known and titles.count(title) > 1:
            yield _problem("not-a-mapping", place, f'two columns are called "{title}"')
        elif title not in known and (near := get_close_matches(title, known, 1, NEAR)):
            # A slip in a measurement would else leave it out without a word.
            yield _problem(
                "unknown-name",
                place,
                f'no column "{title[:40]}" is known; did you mean "{near[0]}"?',
            )


def _person(
    place: Place, cells: dict[str, str], sizes: Collection[str], *, comma: bool
) -> Checked[Listed | None]:
    cells = dict(cells)
    name = name_of(cells.pop("name", ""))
    if not name:
        yield _problem("out-of-range", place, NO_NAME)
        return None
    years = yield from _years(place, cells.pop("age", ""))
    brings = brought([cells.pop("brings", "")])
    if brings is None:
        yield _problem("out-of-range", place, f"{name}, brings: {NO_THINGS}")
    size = cells.pop("size", "")
    if bool(size) == bool(cells):
        message = "expected a size, or measurements" + (", not both" if size else "")
        yield _problem("not-a-mapping", place, f"{name}: {message}")
    elif size and size not in sizes:
        message = f'{name}: there is no size "{size[:40]}"{did_you_mean(size, sizes)}'
        yield _problem("unknown-name", place, message)
    body: dict[str, float] = {}
    for measurement, cell in cells.items():
        try:
            body[measurement] = parse_expression(cell.replace(",", ".") if comma else cell).value(
                {}
            )
        except ExpressionError as error:
            yield _problem("arithmetic", place, f"{name}, {measurement}: {error}", measurement)
    return Listed(name, size, body, place, years is not None and years < OF_AGE, brings or ())


def _years(place: Place, written: str) -> Checked[int | None]:
    years = age_of(written)
    if written and years is None:
        yield _problem("out-of-range", place, f'age: expected whole years, found "{written[:40]}"')
    return years
