"""Exceptions on their way between processes."""

import pickle

import pytest

from guidegen.buildfile.records.vocabulary import SHAPES
from guidegen.errors import ContentError
from guidegen.problems import Place, Problem, did_you_mean


def test_content_errors_cross_processes() -> None:
    """A worker's ContentError arrives with its problems, not as a broken pool."""
    problem = Problem("bad-value", Place("a.yaml", 1, 2, "x: y"), "x", "is wrong")
    arrived = pickle.loads(pickle.dumps(ContentError([problem])))  # noqa: S301 - our own bytes
    assert arrived.problems == [problem]
    assert str(arrived) == str(ContentError([problem]))


@pytest.mark.parametrize(("name", "nearest"), [("foam-12", "foam-10"), ("foam-1", "foam-2")])
def test_names_that_differ_in_a_number_suggest_the_nearest_number(name: str, nearest: str) -> None:
    """Foam of 12 mm is next to that of 10 mm, though foam-2 shares more letters with it."""
    assert f'"{nearest}"' in did_you_mean(name, ["foam-2", "foam-6", "foam-10", "felt"])


def test_choices_are_listed_where_none_is_near() -> None:
    """Who writes a name of their own sees all that there are, unless they would fill the screen."""
    hint = did_you_mean("cone", SHAPES)
    assert all(f" {name}" in hint for name in SHAPES)
    assert did_you_mean("cone", [f"part-{number}" for number in range(99)]) == ""
