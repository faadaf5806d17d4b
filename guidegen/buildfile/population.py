"""A table of people's measurements in → mm by measurement for each person, bounded and placed."""

import csv
import io
from collections.abc import Mapping
from pathlib import Path

from guidegen.buildfile.reader import read_file
from guidegen.errors import ContentError
from guidegen.problems import Place, Problem, Severity, did_you_mean

MAX_PEOPLE = 20_000
"""Rows that are read. Our choice: published surveys have some thousand."""

LONGEST = 5000.0
"""mm; nobody has a larger girth or length."""


def read_population(
    path: Path, wanted: Mapping[str, str], millimetres: float
) -> list[dict[str, float]]:
    """People of a CSV file with a header row.

    `wanted` gives the column of each measurement; `millimetres` is the length of the file's unit.
    Empty cells are left out. Raises ContentError with line numbers.
    """
    shown = path.as_posix()
    problems: list[Problem] = []
    text = read_file(path, shown, problems)
    if text is None:
        raise ContentError(problems)

    def problem(line: int, message: str) -> None:
        problems.append(Problem("population", Severity.ERROR, Place(shown, line), "", message))

    people: list[dict[str, float]] = []
    try:
        rows = csv.DictReader(io.StringIO(text, newline=""), strict=True)
        header = rows.fieldnames or []
        for column in sorted(set(wanted.values()) - set(header)):
            problem(1, f'no column "{column}"{did_you_mean(column, header)}')
        for number, row in enumerate(rows, start=2):
            if problems or number > MAX_PEOPLE + 1:
                break
            person: dict[str, float] = {}
            for name, column in wanted.items():
                cell = (row[column] or "").strip()
                if not cell:
                    continue
                try:
                    length = float(cell) * millimetres
                except ValueError:
                    length = 0.0
                if 0 < length < LONGEST:
                    person[name] = length
                else:
                    problem(number, f'{column}: expected a length, found "{cell[:40]}"')
            people.append(person)
    except csv.Error as error:
        problem(1, f"not readable as CSV: {error}")
    if problems:
        raise ContentError(problems)
    return people
