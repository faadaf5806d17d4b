"""A corpus of awkward SVG files: each gives the expected area, holes and lines, or problems.

`corpus/svg/expected.csv` says what each file is for. Areas are formulas in mm².
"""

import csv
from math import pi
from pathlib import Path

import pytest
from geometry.drawing_samples import try_drawing

from guidegen.geometry.outline.measures import flatten
from guidegen.problems import Severity

CORPUS = Path(__file__).parents[2] / "corpus" / "svg"

with (CORPUS / "expected.csv").open(newline="", encoding="utf-8") as table:
    ROWS = list(csv.DictReader(table))


def exact_area(points: list[tuple[float, float]]) -> float:
    """Area of a polygon by Gauss's formula."""
    pairs = zip(points, points[1:] + points[:1], strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) / 2


@pytest.mark.parametrize("row", ROWS, ids=[row["file"].removesuffix(".svg") for row in ROWS])
def test_each_file_of_the_corpus_gives_what_is_expected(row):
    """A file of the corpus gives its area, holes and inner lines, or its problems by code."""
    text = (CORPUS / row["file"]).read_text(encoding="utf-8")
    shape, problems = try_drawing(text, piece=row["piece"])
    assert " ".join(dict.fromkeys(problem.code for problem in problems)) == row["problems"]
    if not row["area"]:
        assert shape is None
        assert any(problem.severity is Severity.ERROR for problem in problems)
        return
    assert shape is not None
    outline = exact_area(flatten(shape.ring(), 1e-5))
    holes = [exact_area(flatten(hole, 1e-5)) for hole in shape.holes]
    assert outline > 0 > max(holes, default=-1)
    # The formulas stand in a file of this repository and use nothing but pi.
    area = eval(row["area"], {"__builtins__": {}, "pi": pi})  # noqa: S307 - our own file
    assert outline + sum(holes) == pytest.approx(area, abs=0.02)
    assert (len(shape.holes), len(shape.lines)) == (int(row["holes"]), int(row["lines"]))


@pytest.mark.parametrize("row", ROWS, ids=[row["file"].removesuffix(".svg") for row in ROWS])
def test_problems_of_a_drawing_name_its_line(row):
    """Every problem in a drawing says file, line and column, and says more than a code."""
    text = (CORPUS / row["file"]).read_text(encoding="utf-8")
    _, problems = try_drawing(text, piece=row["piece"])
    for problem in problems:
        if problem.code != "no-piece":
            assert problem.place.file == "content/test/plate.svg"
            assert 1 <= problem.place.line <= text.count("\n") + 1
            assert problem.place.column >= 1
        assert len(problem.message) > 15


def test_the_table_lists_every_file_of_the_corpus():
    """No file of the corpus is left out of the table, and none is missing."""
    assert {row["file"] for row in ROWS} == {path.name for path in CORPUS.glob("*.svg")}
    assert len(ROWS) >= 100
