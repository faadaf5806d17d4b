"""Measurements as readers type them: lengths, and what is no single length."""

from pathlib import Path

import pytest

from guidegen.buildfile.read.body import parse_measures, read_body
from guidegen.problems import collect


@pytest.mark.parametrize(
    ("typed", "mm"),
    [
        ("chest=98cm", 980),
        ("chest = 38 1/2 in", 977.9),
        ("chest=2*495", 990),
        ("chest=196/2 cm", 980),
        ("chest=(980+1000)/2", 990),
    ],
)
def test_lengths_with_units_and_arithmetic(typed: str, mm: float) -> None:
    """A tape that is laid double, or read twice, is one length."""
    assert collect(parse_measures([typed])) == ({"chest": pytest.approx(mm)}, [])


@pytest.mark.parametrize(
    "typed", ["285/310", "28.5cm/30cm", "28.5 cm and 30 cm", "285, 310", "285;310", "285 & 310"]
)
def test_arms_that_differ_are_made_one_at_a_time(typed: str) -> None:
    """Two lengths for one measurement: the message says how each arm gets its own pieces."""
    lengths, (problem,) = collect(parse_measures([f"forearm={typed}"]))
    assert lengths == {}
    assert (problem.code, problem.place.file) == ("arithmetic", f"--measure forearm={typed}")
    assert f'"{typed}" is two lengths, expected one' in problem.message
    assert "make the pack twice, once with the lengths of each side" in problem.message


def test_a_comma_is_not_a_point() -> None:
    """28,5 cm is told as 28.5 cm; without the name there is no measurement."""
    _, (problem,) = collect(parse_measures(["wrist=28,5 cm"]))
    assert problem.message == '"28,5 cm" has a comma: write 28.5 cm'
    _, (problem,) = collect(parse_measures(["98cm"]))
    assert "such as chest=98cm" in problem.message


def test_a_file_tells_the_line_of_what_it_cannot_read(tmp_path: Path) -> None:
    """Both arms in a list stand in line 2; the other lengths are read."""
    path = tmp_path / "body.yaml"
    path.write_text("chest: 98 cm\nforearm: [285, 310]\nwrist: 170\n", encoding="utf-8")
    lengths, (problem,) = collect(read_body(path))
    assert lengths == {"chest": 980, "wrist": 170}
    assert (problem.place.line, "two lengths" in problem.message) == (2, True)
