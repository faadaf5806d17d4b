"""What steps tell a maker to take is bought and fetched."""

from pathlib import Path

import pytest
from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks

MORE = changed(
    changed(STOCK, "tools:\n", "tools:\n  saw: {name: Fret saw}\n"),
    "materials:\n",
    "materials:\n  putty: {name: Putty, kind: count, packs: [{amount: 1, price: 3}]}\n",
)
"""The sample with a tool and a material that no step uses."""


def report(folder: Path, guide: str) -> str:
    """All findings in words."""
    content = read_content(write_content(folder, guide=guide, stock=MORE))
    return "\n".join(f"{problem.code}: {problem}" for problem in run_checks(content))


@pytest.mark.parametrize(
    ("thing", "told"),
    [("tool:saw", True), ("material:putty", True), ("tool:knife", False), ("tool:goggles", False),
     ("material:cement", False), ("material:foam-5", False)],
)  # fmt: skip
def test_what_a_step_names_is_on_the_lists(tmp_path, thing, told):
    """A saw and putty that no step uses; a knife, goggles of a caution, cement and foam that one
    does."""
    guide = changed(GUIDE, "text: Warm it", f"text: Take [it]({thing}). Warm it")
    found = report(tmp_path, guide)
    expected = f"the words name {thing}, which no step uses: it stands on no list"
    assert (expected in found) is told
    assert bool(found) is told


def test_overviews_may_speak_of_more(tmp_path):
    """A text outside the steps may say what one does without."""
    assert report(tmp_path, changed(GUIDE, "overview: ", "overview: No [saw](tool:saw). ")) == ""


@pytest.mark.parametrize(("name", "told"), [("putty", True), ("cement", False)])
def test_a_rate_is_of_something_used(tmp_path, name, told):
    """A guide's own rate for putty that no step takes."""
    rate = f"rates: {{{name}: {{low: 1, likely: 2, high: 3, source: tried}}}}\n"
    found = report(tmp_path, changed(GUIDE, "steps:\n", f"{rate}steps:\n"))
    assert (f"rates.{name}: warning: a rate of {name}, which no step uses" in found) is told


def test_a_mistyped_material_is_told_alone(tmp_path):
    """Words that link to cement, whose only use is mistyped: the slip is told, and no warning
    that cement stands on no list, which mending the slip cures.
    """
    linked = changed(GUIDE, "text: Warm it", "text: Take [it](material:cement). Warm it")
    found = report(tmp_path, linked.replace("material: cement", "material: cemnt"))
    assert 'no material "cemnt" in stock' in found
    assert "stands on no list" not in found
