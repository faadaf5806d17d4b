"""Whatever a PDF or DXF holds, its author is told what is wrong, soon and in bounded memory."""

from functools import cache

import pytest
from bounded_cases import Ended, ends_of
from vector_cases import VectorCase, cases

CASES = cases()


@cache
def results() -> dict[str, Ended]:
    """How each case ended in a process of its own, which has 1 GiB of memory and 5 s for each."""
    return ends_of("vector_run.py")


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_hostile_file_is_read_or_refused(case: VectorCase):
    """A hostile file ends in a refusal with the expected words, or in a drawing, never otherwise."""
    result = results()[case.name]
    assert result["ended"] == ("read" if case.says is None else "refused"), result
    assert (case.says or "") in result["words"]
    if case.says is not None:
        assert result["words"].startswith("content/a  ")


def test_the_corpus_is_large_enough():
    """There are at least 30 hostile files of each kind, each with a name of its own."""
    assert len({case.name for case in CASES}) == len(CASES)
    for kind in ("pdf", "dxf"):
        assert sum(case.name.startswith(f"{kind}-") for case in CASES) >= 30
