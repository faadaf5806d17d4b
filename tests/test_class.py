"""The class command, from the command line to the files."""

import csv
import io
from pathlib import Path

import pytest
from samples import write_content

from guidegen.cli import main


def _run(folder: Path, *more: str) -> int:
    content = write_content(folder / "content")
    arguments = ["class", "cuff", "--content", str(content), "--out", str(folder / "out")]
    return main([*arguments, "--nesting-time", "0", "--quiet", *more])


def _rows(folder: Path) -> list[dict[str, str]]:
    text = (folder / "out" / "class.csv").read_text(encoding="utf-8-sig")
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_a_class_by_names(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A file of names gives one list, numbered people, tools, steps and the cost of each."""
    people = tmp_path / "people.yaml"
    people.write_text("Robin: M\nKim: S\n", encoding="utf-8")
    assert _run(tmp_path, "--people", str(people), "--hours", "1") == 0
    assert "class of 2" in capsys.readouterr().out
    rows = _rows(tmp_path)
    named = [(row["name"], row["note"]) for row in rows if row["section"] == "person"]
    assert named == [("Robin", "size M, pieces marked 1"), ("Kim", "size S, pieces marked 2")]
    bought = sum(float(row["cost"]) for row in rows if row["section"] == "buy")
    totals = [float(row["cost"]) for row in rows if row["section"] == "total"]
    assert totals == [pytest.approx(bought), pytest.approx(bought / 2, abs=0.005)]
    steps = [row["name"] for row in rows if row["section"] == "step"]
    assert steps[0] == "Cut the pieces"
    assert {row["section"] for row in rows} >= {"tool", "buy"}


def test_cautions_stand_before_their_steps(tmp_path: Path) -> None:
    """The list begins with what comes before it, and no step stands before its cautions."""
    assert _run(tmp_path, "--count", "M=2") == 0
    rows = _rows(tmp_path)
    assert rows[0]["section"] == "first"
    assert "data sheet" in rows[0]["note"]
    order = [(row["section"], row["name"]) for row in rows]
    cement, glue = (
        order.index(("caution", "DANGER: Flammable vapour")),
        order.index(("step", "Glue the cuff")),
    )
    assert cement == glue - 1
    assert "no flame" in rows[cement]["note"]


def test_same_class_same_bytes(tmp_path: Path) -> None:
    """The same class gives the same files."""
    made = []
    for name in ("a", "b"):
        assert _run(tmp_path / name, "--count", "M=2", "--count", "S=1") == 0
        out = tmp_path / name / "out"
        made.append({path.name: path.read_bytes() for path in out.iterdir()})
    assert made[0] == made[1]


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ((), "tell who takes part"),
        (("--count", "XM=2"), 'no size "XM"'),
        (("--count", "M=x"), "such as M=5"),
        (("--count", "M=0"), "such as M=5"),
        (("--count", "M=60", "--count", "S=1"), "61 people are too many"),
    ],
)
def test_wrong_classes_are_told_in_words(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], more: tuple[str, ...], words: str
) -> None:
    """Unknown sizes and numbers that are none end in status 2 without a traceback."""
    assert _run(tmp_path, *more) == 2
    error = capsys.readouterr().err
    assert words in error
    assert not (tmp_path / "out").exists()


def test_a_wrong_size_in_the_file_has_its_place(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """The line of the person with an unknown size is told."""
    people = tmp_path / "people.yaml"
    people.write_text("Robin: M\nKim: Q\n", encoding="utf-8")
    assert _run(tmp_path, "--people", str(people)) == 2
    assert 'people.yaml:2:6: there is no size "Q"' in capsys.readouterr().err
