"""Files of people and of what is at hand: what is read, and how slips are told."""

from dataclasses import replace
from pathlib import Path

import pytest
from samples import write_content

from guidegen.buildfile.read.on_hand import NOTHING, Offcut, read_on_hand
from guidegen.buildfile.read.people.listed import MOST_LETTERS, MOST_PEOPLE, read_people
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.records.stock import Stock
from guidegen.problems import collect


@pytest.fixture(scope="module")
def stock(tmp_path_factory: pytest.TempPathFactory) -> Stock:
    """The stock of the sample."""
    return read_content(write_content(tmp_path_factory.mktemp("content"))).stock


def _file(folder: Path, text: str) -> Path:
    path = folder / "file.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def test_people_by_size_and_by_measurements(tmp_path: Path) -> None:
    """A name has a size, or lengths in mm or with a unit; spaces in names are made one."""
    path = _file(tmp_path, "Robin: M\n'Kim  Ö.': {forearm: 26 cm, wrist: 165}\nAlex: 10\n")
    people, problems = collect(read_people(path, ("M", "10")))
    assert not problems
    assert [(one.name, one.size, dict(one.body)) for one in people] == [
        ("Robin", "M", {}),
        ("Kim Ö.", "", {"forearm": 260, "wrist": 165}),
        ("Alex", "10", {}),
    ]
    assert (people[1].place.line, people[1].place.column) == (2, 12)


def test_ages_tell_who_is_young_and_are_not_kept(tmp_path: Path) -> None:
    """Below 18 somebody is young, with a size or measurements; without an age nobody is. What is
    read has no field that would hold the age."""
    text = "A: {size: M, age: 17}\nB: {forearm: 26 cm, age: 18}\nC: {forearm: 260, age: 14}\nD: M\n"
    people, problems = collect(read_people(_file(tmp_path, text), ("M",)))
    assert not problems
    assert [(one.size, dict(one.body), one.young) for one in people] == [
        ("M", {}, True), ("", {"forearm": 260}, False), ("", {"forearm": 260}, True),
        ("M", {}, False),
    ]  # fmt: skip
    assert "14" not in repr([replace(one, place=None) for one in people])


@pytest.mark.parametrize(
    ("text", "place", "words"),
    [
        ("Robin: M\nKim: Q\n", "2:6", 'no size "Q"'),
        ("Robin: M\nKim: {forearm: 26 xx}\n", "2:16", '"xx" is no unit'),
        ("Robin: M\nKim: {}\n", "2:6", "expected a size"),
        ("Robin: {age: 14}\n", "1:8", "expected a size"),
        ("Robin: {size: M, age: 14.5}\n", "1:23", "whole years"),
        ("Robin: {size: M, age: 300}\n", "1:23", "at most 120"),
        ("Robin: {size: Q, age: 30}\n", "1:15", 'no size "Q"'),
        ("Robin: {size: M, forearm: 260}\n", "1:8", "expected a size, or"),
        ("- Robin\n", "1:1", "expected names with sizes"),
        (f"Robin: M\n{'x' * (MOST_LETTERS + 1)}: M\n", "2:1", "expected a name of at most"),
        ('Robin: M\n"a\\u202eb": M\n', "2:1", "without control characters"),
        ("".join(f"p{n}: M\n" for n in range(MOST_PEOPLE + 1)), "1:1", "too many for one class"),
        ("Robin: M\nRobin: M\n", "2:1", "twice"),
    ],
)
def test_slips_in_people_have_their_place(
    tmp_path: Path, text: str, place: str, words: str
) -> None:
    """Unknown sizes, lengths, lists, long or hidden names and crowds are told with line, column."""
    _, (problem,) = collect(read_people(_file(tmp_path, text), ("M",)))
    assert words in problem.message
    assert f"{problem.place.line}:{problem.place.column}" == place


def test_what_is_at_hand(tmp_path: Path, stock: Stock) -> None:
    """Offcuts are rectangles of a sheet material; anything else is an amount, or a length."""
    path = _file(
        tmp_path,
        "foam-5: [{width: 50 cm, height: 300, count: 2}, {width: 90, height: 80}]\n"
        "foam-10: {width: 400, height: 400}\ncement: 120\nwebbing: 1.5 m\nbuckle: 4\n",
    )
    have, problems = collect(read_on_hand(path, stock))
    assert not problems
    assert have.offcuts == {
        "foam-5": (Offcut(500, 300, 2), Offcut(90, 80)),
        "foam-10": (Offcut(400, 400),),
    }
    assert have.amounts == {"cement": 120, "webbing": 1500, "buckle": 4}


@pytest.mark.parametrize(
    ("text", "place", "words"),
    [
        ("foam-7: 3\n", "1:1", 'no material "foam-7"'),
        ("cement: much\n", "1:9", "much"),
        ("cement: -3\n", "1:9", "more than 0"),
        ("cement: 1e9\n", "1:9", "at most"),
        ("foam-5: 3\n", "1:9", "expected offcuts such as"),
        ("foam-5: [{width: 500}]\n", "1:10", "expected offcuts such as"),
        ("foam-5: [{width: 500, hight: 3, height: 3}]\n", "1:30", 'no "hight"'),
        ("foam-5: [{width: 500, height: 3 km}]\n", "1:31", '"km" is no unit'),
        ("foam-5: [{width: 500, height: 99999}]\n", "1:31", "at most 10000"),
        ("foam-5: [{width: 500, height: 30, count: 0}]\n", "1:42", "whole number"),
        ("foam-5: []\n", "1:9", "offcuts"),
        ("[]\n", "1:1", "expected materials"),
    ],
)
def test_slips_in_what_is_at_hand_have_their_place(
    tmp_path: Path, stock: Stock, text: str, place: str, words: str
) -> None:
    """Unknown materials, amounts that are none and offcuts without sides are told with a place."""
    _, problems = collect(read_on_hand(_file(tmp_path, text), stock))
    (problem,) = problems
    assert words in problem.message
    assert f"{problem.place.line}:{problem.place.column}" == place


def test_a_file_that_is_not_there_is_told(tmp_path: Path, stock: Stock) -> None:
    """A missing file is a problem, not a traceback."""
    have, problems = collect(read_on_hand(tmp_path / "none.yaml", stock))
    assert have == NOTHING and problems
    _, problems = collect(read_people(tmp_path / "none.yaml", ("M",)))
    assert problems
