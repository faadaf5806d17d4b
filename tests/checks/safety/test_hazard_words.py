"""Words that speak of a hazard, and tools whose names do, bring its caution."""

from pathlib import Path

import pytest
from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks

WORDS = changed(
    STOCK, "    title: Sharp blade\n", "    title: Sharp blade\n    words: [saw, shears]\n"
)
WARM = "    text: Warm it and bend it."


def report(folder: Path) -> str:
    """All findings in words."""
    return "\n".join(f"{problem.code}: {problem}" for problem in run_checks(read_content(folder)))


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Take the saw.", 'the words speak of "saw"'),
        ("Sharp SHEARS do as well.", 'the words speak of "SHEARS"'),
        ("You saw it: sawdust.", 'the words speak of "saw"'),
        ("Look at the sawdust and the seesaw.", ""),
    ],
)
def test_words_without_their_caution(tmp_path, text, found):
    """A step that names a saw and lists no tool, process or caution for it is told; whole words."""
    guide = changed(GUIDE, WARM, f"    text: '{text}'")
    told = report(write_content(tmp_path, stock=WORDS, guide=guide))
    assert (f"steps[1].text: warning: {found}" in told) if found else told == ""


@pytest.mark.parametrize(
    "line",
    ["tools: [knife]", "cautions: [blade]", "cautions: [blade]\n    waive: [{caution: blade, reason: it is of blunt plastic}]"],
)  # fmt: skip
def test_words_with_their_caution(tmp_path, line):
    """Tools and cautions of the step answer the words; so does a waiver, which is told itself."""
    guide = changed(GUIDE, WARM, f"    {line}\n    text: Take the saw.")
    assert "hazard-without-caution" not in report(write_content(tmp_path, stock=WORDS, guide=guide))


def test_tools_whose_name_says_what_they_are(tmp_path):
    """A saw in the stock without the caution of blades is told at its entry."""
    stock = changed(WORDS, "tools:\n", "tools:\n  fretsaw: {name: Fret saw}\n")
    told = report(write_content(tmp_path / "a", stock=stock))
    assert "tool-without-caution: " in told
    assert (
        'tools.fretsaw: warning: Fret saw brings no caution "blade", though its name says "saw"'
        in told
    )
    stock = changed(WORDS, "tools:\n", "tools:\n  fretsaw: {name: Fret saw, cautions: [blade]}\n")
    assert report(write_content(tmp_path / "b", stock=stock)) == ""
