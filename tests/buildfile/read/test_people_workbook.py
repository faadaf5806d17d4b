"""Workbooks of people: as tables, and none that harms."""

import io
import zipfile
from pathlib import Path

import openpyxl
import pytest

from guidegen.buildfile.read.people import workbook
from guidegen.buildfile.read.people.table import PeopleTerms
from guidegen.buildfile.read.people.workbook import read_people_workbook
from guidegen.problems import collect

ROWS = [
    ["Name", "Size", "forearm", "wrist", "age", "telephone"],
    ["Robin", "M", None, None, 14, "555 0100"],
    ["Kim", None, "26 cm", 165, 40.0, None],
    [None, None, None, None, None, None],
]


def _write(path: Path, rows: list[list[object]]) -> Path:
    book = openpyxl.Workbook()
    for row in rows:
        book.active.append(row)
    book.save(path)
    return path


def _read(path: Path):
    return collect(read_people_workbook(path, PeopleTerms(["S", "M"], ["forearm", "wrist"])))


def test_a_workbook_is_read_as_its_table(tmp_path: Path) -> None:
    """Names, sizes, lengths as numbers or with units, ages; other columns are left alone."""
    people, problems = _read(_write(tmp_path / "people.xlsx", ROWS))
    assert not problems
    assert [(one.name, one.size, one.body, one.young) for one in people] == [
        ("Robin", "M", {}, True),
        ("Kim", "", {"forearm": 260, "wrist": 165}, False),
    ]


def test_a_slip_has_its_row(tmp_path: Path) -> None:
    """A size that is not there is told with the row that a spreadsheet shows."""
    path = _write(tmp_path / "people.xlsx", [ROWS[0], ROWS[1], ["Lou", "Q"]])
    _, (problem,) = _read(path)
    assert problem.place.line == 3 and 'no size "Q"' in problem.message


@pytest.mark.parametrize("data", [b"", b"name,size", b"PK\x03\x04 cut off"])
def test_what_is_no_workbook_is_told(tmp_path: Path, data: bytes) -> None:
    """A file of that name with anything else in it ends in words."""
    path = tmp_path / "people.xlsx"
    path.write_bytes(data)
    _, (problem,) = _read(path)
    assert "not readable as a workbook" in problem.message


def test_what_unpacks_to_too_much_is_not_unpacked(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A workbook is refused by what it says it unpacks to, before anything is."""
    monkeypatch.setattr(workbook, "MOST_UNPACKED", 50_000)
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", b" " * 60_000)
    path = tmp_path / "people.xlsx"
    path.write_bytes(packed.getvalue())
    _, (problem,) = _read(path)
    assert "unpacks to more than 50000 bytes" in problem.message
