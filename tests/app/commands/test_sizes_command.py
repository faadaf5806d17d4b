"""guidegen sizes: outlines over one another, seams, and whom a set of sizes serves."""

import re
from pathlib import Path

import pytest
from samples import GUIDE, SITE, changed, write_content

from guidegen.cli import main

PEOPLE = "forearm_cm,wrist_cm\n25,16\n28,18\n27.5,17.5\n40,25\n15,11\n"
"""Five invented people: three near the sample's sizes, one far above, one far below."""
COLUMNS = ("--column", "forearm=forearm_cm", "--column", "wrist=wrist_cm")


def _run(folder: Path, *more: str) -> int:
    content = write_content(folder / "content")
    return main(["sizes", "cuff", "--content", str(content), "--out", str(folder / "s"), *more])


def _with_people(folder: Path, rows: str | bytes, *more: str) -> int:
    table = folder / "people.csv"
    table.write_bytes(rows if isinstance(rows, bytes) else rows.encode())
    return _run(folder, "--population", str(table), *more)


def _page(folder: Path) -> str:
    page = (folder / "s" / "index.html").read_text(encoding="utf-8")
    return page.replace("\u00a0", " ")


def test_every_part_in_every_size(tmp_path: Path) -> None:
    """The page shows each part with all sizes and their true widths, and both edges of seams."""
    assert _run(tmp_path) == 0
    page = _page(tmp_path)
    assert page.count("<figure>") == 2
    assert "Plate in 2 sizes" in page
    assert "S: 60 by 60 mm; M: 60 by 60 mm" in page
    assert "cuff-side: off, at most ±1" in page
    assert page.count("<td>200.0</td>") == 4
    assert "Whom the sizes serve" not in page


def test_the_page_speaks_the_language_of_the_site(tmp_path: Path) -> None:
    """In a German site headings, charts and drawings are German, with decimal commas."""
    site = SITE + "languages: [de]\n"
    content = write_content(tmp_path / "content", site=site)
    table = tmp_path / "people.csv"
    table.write_text(PEOPLE, encoding="utf-8")
    arguments = [
        "--content",
        str(content),
        "--out",
        str(tmp_path / "s"),
        "--population",
        str(table),
    ]
    assert main(["sizes", "cuff", *arguments, *COLUMNS]) == 0
    page = _page(tmp_path)
    assert '<html lang="de">' in page
    for words in (
        "<h2>Wem die Größen passen</h2>",
        "60 % von 5 Personen passt eine Größe",
        "Reichweite der Größen",
        "in 2 Größen",
        "Breite mm",
        "S: 60 mal 60 mm",
        "<td>200,0</td>",
    ):
        assert words in page
    for words in ("Whom the", "people", "sizes", "across", "outline"):
        assert not re.search(rf">[^<]*\b{words}\b", page)


def test_the_page_needs_no_other_file(tmp_path: Path) -> None:
    """Whatever the page refers to is inside it: headings that are there, and data."""
    assert _run(tmp_path) == 0
    page = _page(tmp_path)
    for target in re.findall(r'href="([^"]*)"', page):
        assert f'id="{target.removeprefix("#")}"' in page
    assert not re.search(r"\ssrc=|@import", page)
    assert all(url.startswith('"data:font/woff2') for url in re.findall(r"url\(([^)]*)", page))
    ids = re.findall(r'\sid="([^"]*)"', page)
    assert len(ids) == len(set(ids))


def test_same_input_same_page(tmp_path: Path) -> None:
    """Two runs write the same bytes."""
    assert _with_people(tmp_path, PEOPLE, *COLUMNS) == 0
    first = _page(tmp_path)
    assert _with_people(tmp_path, PEOPLE, *COLUMNS) == 0
    assert _page(tmp_path) == first


def test_coverage_of_a_population(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Three of five people are served; the others are named as smaller and larger."""
    assert _with_people(tmp_path, PEOPLE, *COLUMNS) == 0
    page = _page(tmp_path)
    assert "60% of 5 people are served" in page
    assert "smaller 1, S 1, M 2, larger 1, other proportions 0" in page
    assert "Forearm girth across and Wrist girth upward of 5 people, of whom 3 are served" in page
    assert "60% of 5 people are served; open" in capsys.readouterr().out


def test_one_measurement_has_no_second_axis(tmp_path: Path) -> None:
    """With one measurement in common there is the chart of shares and no field of dots."""
    assert _with_people(tmp_path, "forearm\n25\n26\n") == 0
    page = _page(tmp_path)
    assert "100% of 2 people are served" in page
    assert "Reach of the sizes" not in page


@pytest.mark.parametrize(
    "rows",
    [
        "forearm,wrist\n25,16\n28,18\n",
        "\ufeffforearm;name;wrist\r\n25;a;16\r\n28,0;b;18,0\r\n",
        'wrist\t"forearm"\n16\t25\n18\t28\n\n',
        "forearm,wrist\n250e-1,16\n28,NA\n",
    ],
    ids=["commas", "semicolons", "tabs", "missing"],
)
def test_tables_as_programs_write_them(tmp_path: Path, rows: str) -> None:
    """Columns that have the names of measurements are taken as they are, in any common form."""
    assert _with_people(tmp_path, rows) == 0
    assert "100% of 2 people are served" in _page(tmp_path)


@pytest.mark.parametrize(("unit", "factor"), [("mm", 10.0), ("cm", 1.0), ("in", 1 / 2.54)])
def test_units(tmp_path: Path, unit: str, factor: float) -> None:
    """The same people in another unit are the same people."""
    rows = f"forearm\n{25 * factor:.3f}\n{60 * factor:.3f}\n{27 * factor:.3f}\n"
    assert _with_people(tmp_path, rows, "--unit", unit) == 0
    assert "smaller 0, S 1, M 1, larger 1, other proportions 0" in _page(tmp_path)


@pytest.mark.parametrize(
    ("rows", "more", "words"),
    [
        ("a,b\n1,2\n", ["--column", "forearm=c"], 'people.csv:1  no column "c"'),
        ("forarm\n1\n", ["--column", "forearm=forearm_cm"], 'people.csv:1  no column "forearm_cm"'),
        ("forearm\n25\nmany\n", [], 'people.csv:3  forearm: expected a length, found "many"'),
        ("forearm\n-1\n", [], 'people.csv:2  forearm: expected a length, found "-1"'),
        ("forearm\n25\ninf\n1e999\n", [], 'people.csv:4  forearm: expected a length, found "1e99'),
        ("forearm,wrist\n25\n", [], "people.csv:2  1 fields, but the header has 2"),
        ("forearm,forearm\n25,25\n", [], 'people.csv:1  two columns are called "forearm"'),
        ("forearm\n", [], "people.csv:1  the table has no rows below its header"),
        ("", [], "people.csv:1  no column has the name of a measurement"),
        ("a\n25\n", [], "people.csv:1  no column has the name of a measurement (forearm, wrist)"),
        ('forearm\n"25\n', [], "not readable as CSV"),
        (b"forearm\n\xff\xfe\n", [], "people.csv"),
        ("a\n25\n", ["--column", "forarm=a"], 'did you mean "forearm"?'),
        ("a\n25\n", ["--column", "forearm"], "expected measurement=column"),
        ("forearm\n250\n270\n", [], "is the table in cm?"),
    ],
)
def test_slips(
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    rows: str | bytes,
    more: list[str],
    words: str,
) -> None:
    """A slip in the table or in the options is told at its place, and nothing is written."""
    assert _with_people(tmp_path, rows, *more) == 2
    assert words in capsys.readouterr().err
    assert not (tmp_path / "s").exists()


def test_very_many_people_are_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A table that is longer than any survey is refused, not cut off in silence."""
    assert _with_people(tmp_path, "forearm\n" + "25\n" * 20_001) == 2
    assert "people.csv:20002  more than 20000 people" in capsys.readouterr().err


def test_broken_content(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A guide that does not hold is reported instead of drawn."""
    content = write_content(tmp_path, guide=changed(GUIDE, "diameter: 60", "diameter: -60"))
    assert main(["sizes", "cuff", "--content", str(content), "--out", str(tmp_path / "s")]) == 2
    assert "parts.plate.dimensions.diameter" in capsys.readouterr().err
