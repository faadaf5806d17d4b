"""A fault that is in several sizes is told once, with the sizes and the worst figures."""

from pathlib import Path

from samples import GUIDE, changed, write_content

from guidegen.app.jobs.findings import find_problems
from guidegen.app.jobs.size_findings import tell_once
from guidegen.buildfile.read.reader import read_content
from guidegen.problems import Place, Problem, Severity

PLACE = Place("content/cuff/guide.yaml", 5, 1)


def faults(tmp_path: Path, guide: str) -> list[str]:
    """Messages of all errors of a guide."""
    content = read_content(write_content(tmp_path, guide=guide))
    _, problems = find_problems(content, [])
    return [one.message for one in problems if one.severity is Severity.ERROR]


def test_one_fault_of_two_sizes_is_one_message(tmp_path: Path) -> None:
    """A disc of 6 m fits on no sheet, whoever is built for."""
    (found,) = faults(tmp_path, changed(GUIDE, "diameter: 60", "diameter: 6000"))
    assert found.startswith("in sizes S and M: larger than every sheet")


def test_the_worst_figures_are_told_and_whose_they_are(tmp_path: Path) -> None:
    """A disc that grows with the forearm (250 and 280 mm) is farthest off the sheet in M."""
    (found,) = faults(tmp_path, changed(GUIDE, "diameter: 60", "diameter: forearm * 3"))
    assert "in sizes S and M (figures of M): " in found
    assert "260.0 mm too large" in found


def test_a_fault_of_one_size_names_it(tmp_path: Path) -> None:
    """Only M outgrows the mat."""
    (found,) = faults(
        tmp_path, changed(GUIDE, "diameter: 60", "diameter: 590 + forearm - 250 - 29")
    )
    assert found.startswith("in size M: larger")


def problem(message: str, amount: float = 0.0, path: str = "parts.cuff") -> Problem:
    """A finding of the sample guide."""
    return Problem("seam-length", PLACE, path, message, amount=amount)


def test_what_differs_in_more_than_size_and_figures_stays_apart(tmp_path: Path) -> None:
    """Other edges, other values, other places, and two like faults in one size: all are told."""
    files = read_content(write_content(tmp_path)).guides
    place = Place(files[0].source.file, 5, 1)

    def told(*messages: str) -> list[str]:
        found = [Problem("seam-length", place, "p", message) for message in messages]
        return [one.message for one in tell_once(found, files)]

    apart = ("in size S: edge e1 is 3 mm off", "in size M: edge e2 is 3 mm off")
    assert told(*apart) == list(apart)
    twice = (
        "in size S: 3 mm off",
        "in size S: 4 mm off",
        "in size M: 3 mm off",
        "in size M: 5 mm off",
    )
    assert told(*twice) == [
        "in sizes S and M: 3 mm off",
        "in sizes S and M (figures of S): 4 mm off",
    ]
    plain = ("3 mm off", "4 mm off", "in size XXS: 3 mm off")
    assert told(*plain) == list(plain)
    assert told("wrong", "wrong") == ["wrong"]


def test_without_the_guide_nothing_is_joined() -> None:
    """A problem of a file that belongs to no guide keeps its words."""
    found = [problem("in size S: 3 mm off", 3), problem("in size M: 4 mm off", 4)]
    assert tell_once(found, ()) == found
