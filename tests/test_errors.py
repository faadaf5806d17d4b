"""Exceptions on their way between processes."""

import pickle

from guidegen.errors import ContentError
from guidegen.problems import Place, Problem


def test_content_errors_cross_processes() -> None:
    """A worker's ContentError arrives with its problems, not as a broken pool."""
    problem = Problem("bad-value", Place("a.yaml", 1, 2, "x: y"), "x", "is wrong")
    arrived = pickle.loads(pickle.dumps(ContentError([problem])))  # noqa: S301 - our own bytes
    assert arrived.problems == [problem]
    assert str(arrived) == str(ContentError([problem]))
