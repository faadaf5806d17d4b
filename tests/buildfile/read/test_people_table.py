"""Tables of people, as a spreadsheet saves them: what is read, and how slips are told."""

from pathlib import Path

import pytest

from guidegen.buildfile.read.people.listed import MOST_PEOPLE
from guidegen.buildfile.read.people.table import PeopleTerms, read_people_table
from guidegen.problems import collect

SIZES, MEASUREMENTS = ("M", "10"), ("forearm", "wrist")


def _read(folder: Path, text: str):
    path = folder / "people.csv"
    path.write_text(text, encoding="utf-8")
    return collect(read_people_table(path, PeopleTerms(SIZES, MEASUREMENTS)))


def _seen(people):
    return [(one.name, one.size, dict(one.body), one.young) for one in people]


def test_a_table_as_a_spreadsheet_saves_it(tmp_path: Path) -> None:
    """Sizes or lengths, ages, empty rows, quotes, a mark of order, and columns that are a leader's
    own; lines are counted from the header."""
    text = (
        "\ufeffName,Size,Age,Phone,forearm,wrist\r\nRobin,M,14,555,,\r\n,,,,,\r\n"
        '"Kim, the  second",,,,26 cm,165\r\nAlex,10,18,,,\r\n'
    )
    people, problems = _read(tmp_path, text)
    assert not problems
    assert _seen(people) == [
        ("Robin", "M", {}, True),
        ("Kim, the second", "", {"forearm": 260, "wrist": 165}, False),
        ("Alex", "10", {}, False),
    ]
    assert [one.place.line for one in people] == [2, 4, 5]


def test_a_table_with_semicolons_has_decimal_commas(tmp_path: Path) -> None:
    """Where fields end at semicolons, 26,5 cm are 265 mm."""
    people, problems = _read(tmp_path, "name;forearm;wrist\nKim;26,5 cm;165,5\n")
    assert not problems
    assert _seen(people) == [("Kim", "", {"forearm": 265, "wrist": 165.5}, False)]


def test_titles_above_and_headers_as_they_are_called(tmp_path: Path) -> None:
    """A title and empty lines stand above the header; a column may be called as the measurement is,
    or in German, in any case."""
    path = tmp_path / "people.csv"
    path.write_text(
        "Workshop at the pier;;;\n;;;\nName;Größe;Forearm  Girth;Alter\nÄnne;M;;14\nJo;;27,5 cm;\n",
        encoding="utf-8",
    )
    people, problems = collect(
        read_people_table(path, PeopleTerms(SIZES, MEASUREMENTS, {"forearm": "Forearm girth"}))
    )
    assert not problems
    assert _seen(people) == [("Änne", "M", {}, True), ("Jo", "", {"forearm": 275}, False)]
    assert [one.place.line for one in people] == [4, 5]


def test_what_people_bring(tmp_path: Path) -> None:
    """Things in a column, with semicolons or commas; too many, or too long, are told."""
    table = 'name,size,brings\nRobin,M,"heat-gun; knife=2, cake"\nKim,M,\n'
    people, problems = _read(tmp_path, table)
    assert not problems
    assert [one.brings for one in people] == [("heat-gun", "knife=2", "cake"), ()]
    table = f"name,size,brings\nRobin,M,{'x' * 61}\nKim,M,{'x;' * 13}\n"
    _, problems = _read(tmp_path, table)
    assert [problem.place.line for problem in problems] == [2, 3]


@pytest.mark.parametrize(
    ("text", "line", "words"),
    [
        ("size\nM\n", 1, 'no column "name"'),
        ("name,size,size\nRobin,M,M\n", 1, "two columns"),
        ("name,forarm\nKim,260\n", 1, 'did you mean "forearm"'),
        ("name,size\n", 1, "no people"),
        ("name,size\nRobin,M\nKim,Q\n", 3, 'no size "Q"'),
        ("name,size\nRobin,\n", 2, "expected a size, or measurements"),
        ("name,size,wrist\nRobin,M,165\n", 2, "not both"),
        ("name,wrist\nKim,165 xx\n", 2, '"xx" is no unit'),
        ("name,size,age\nRobin,M,young\n", 2, "whole years"),
        ("name,size\nRobin,M,x\n", 2, "3 fields"),
        ("name,size\n,M\n", 2, "expected a name"),
        ("name,size\nRobin,M\nRobin,M\n", 3, "twice"),
        ('name,size\n"Robin,M\n', 2, "not readable as CSV"),
        ("name,size\n" + "".join(f"p{n},M\n" for n in range(MOST_PEOPLE + 1)), 62, "too many"),
    ],
)
def test_slips_in_a_table_have_their_line(tmp_path: Path, text: str, line: int, words: str) -> None:
    """Columns, sizes, lengths, ages and names that are wrong are told once, with their line."""
    _, problems = _read(tmp_path, text)
    assert [problem.place.line for problem in problems] == [line]
    assert words in problems[0].message
