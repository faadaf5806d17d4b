"""guidegen sizes: outlines over one another, seams, and whom a set of sizes serves."""

import re
from pathlib import Path

import pytest
from samples import GUIDE, changed, write_content

from guidegen.cli import main

PEOPLE = "forearm_cm,wrist_cm\n25,16\n28,18\n27.5,17.5\n40,25\n15,11\n"
"""Five invented people: three near the sample's sizes, one far above, one far below."""


def _run(folder: Path, *more: str) -> int:
    content = write_content(folder / "content")
    return main(["sizes", "cuff", "--content", str(content), "--out", str(folder / "s"), *more])


def test_every_part_in_every_size(tmp_path: Path) -> None:
    """The page shows each part with all sizes and their true widths, and both edges of seams."""
    assert _run(tmp_path) == 0
    page = (tmp_path / "s" / "index.html").read_text(encoding="utf-8")
    assert page.count("<figure>") == 2
    assert "Plate in 2 sizes" in page
    assert "S: 60 by 60 mm; M: 60 by 60 mm" in page
    assert "cuff-side" in page
    assert not re.search(r"(src|href)=", page)


def test_coverage_of_a_population(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Three of five people are served; the others are named as smaller and larger."""
    table = tmp_path / "people.csv"
    table.write_text(PEOPLE, encoding="utf-8")
    columns = ["--column", "forearm=forearm_cm", "--column", "wrist=wrist_cm"]
    assert _run(tmp_path, "--population", str(table), *columns) == 0
    page = (tmp_path / "s" / "index.html").read_text(encoding="utf-8")
    assert "60% of 5 people are served" in page
    assert "smaller 1, larger 1, other proportions 0" in page


@pytest.mark.parametrize(
    ("rows", "columns", "words"),
    [
        ("a,b\n1,2\n", ["forearm=c"], 'people.csv:1  no column "c"'),
        ("a\n25\nmany\n", ["forearm=a"], 'people.csv:3  a: expected a length, found "many"'),
        ("a\n-1\n", ["forearm=a"], 'people.csv:2  a: expected a length, found "-1"'),
        ("a\n25\n", ["forarm=a"], 'did you mean "forearm"?'),
        ("a\n25\n", [], "--population needs --column"),
    ],
)
def test_slips(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], rows: str, columns: list[str], words: str
) -> None:
    """A slip in the table or in the options is told at its place, and nothing is written."""
    table = tmp_path / "people.csv"
    table.write_text(rows, encoding="utf-8")
    options = [word for column in columns for word in ("--column", column)]
    assert _run(tmp_path, "--population", str(table), *options) == 2
    assert words in capsys.readouterr().err
    assert not (tmp_path / "s").exists()


def test_broken_content(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A guide that does not hold is reported instead of drawn."""
    content = write_content(tmp_path, guide=changed(GUIDE, "diameter: 60", "diameter: -60"))
    assert main(["sizes", "cuff", "--content", str(content), "--out", str(tmp_path / "s")]) == 2
    assert "parts.plate.dimensions.diameter" in capsys.readouterr().err
