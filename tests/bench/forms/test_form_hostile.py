"""Whatever a mesh holds, its author is told what is wrong, soon and in bounded memory."""

from functools import cache

import pytest
from bounded_cases import Ended, ends_of
from form_cases import FormCase, cases

CASES = cases()


@cache
def results() -> dict[str, Ended]:
    """How each case ended in a process of its own, which has 1.5 GiB of memory and 8 s for each."""
    return ends_of("form_run.py")


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_a_hostile_mesh_is_flattened_or_refused(case: FormCase):
    """A hostile mesh ends in a refusal with the expected words, or in pieces, never otherwise."""
    result = results()[case.name]
    assert result["ended"] == ("read" if case.says is None else "refused"), result
    assert (case.says or "") in result["words"]
    if case.says is not None:
        assert result["words"].startswith(f"content/{case.name}  ")


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("inside-out.obj", "was inside out and was turned, at (50.0, 40.0, 30.0)"),
        ("faces-turned.obj", "10 faces turned to look outside, at "),
        ("one-face-missing.obj", "open along 1 border, free edges of its pieces; the shortest: "),
        ("twice.obj", "48 faces twice in one place, left out once, at "),
        ("touch-in-a-point.obj", "in a point alone were taken apart, at (100.0, 80.0, 60.0)"),
        ("other-file.obj", "open along 1 border"),
    ],
)
def test_what_is_mended_is_told_with_its_place(name: str, says: str):
    """A surface that can be mended is, with a word and a place in mm."""
    assert says in results()[name]["words"]


def test_the_corpus_is_large_enough():
    """There are at least 20 hostile files in all three formats, each with a name of its own."""
    assert len({case.name for case in CASES}) == len(CASES) >= 20
    assert {case.name[-4:] for case in CASES} == {".obj", ".stl", ".ply"}
