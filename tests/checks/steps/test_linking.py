"""Rows of plates that move: joined in a step, after all of them are cut and formed."""

from pathlib import Path

from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks

SHAPING = changed(
    STOCK, "forming: {name: Heat forming,", "forming: {name: Heat forming, makes: [form],"
)
LINKED = (
    changed(GUIDE, "    hand: pair\n", "    formed: true\n    points:\n"
    "      low: {along: bottom, inset: 10, count: 2, margin: 5, diameter: 4, kind: rivet}\n"
    "      high: {along: top, inset: 10, count: 2, margin: 5, diameter: 4, kind: rivet}\n")
    .replace("stacks:\n", """\
linkages:
  row: {name: Row, opens: 10, joints: [{first: {row: cuff.low, edge: bottom},
        second: {row: cuff.high, edge: top}}]}
stacks:
""", 1)
)  # fmt: skip


def codes(folder: Path, guide: str) -> dict[str, str]:
    """Findings about the linkage by code, with their messages."""
    content = read_content(write_content(folder, guide=guide, stock=SHAPING))
    return {one.code: one.message for one in run_checks(content) if "link" in str(one)}


def test_a_row_is_joined_in_one_step(tmp_path):
    """In none nobody joins it, in one it is, in two its straps are bought twice."""
    assert "never-held" in codes(tmp_path / "none", LINKED)
    once = LINKED.replace(
        "    seams: [cuff-side]\n", "    seams: [cuff-side]\n    linkages: [row]\n", 1
    )
    assert codes(tmp_path / "once", once) == {}
    twice = once.replace("    title: Paint\n", "    title: Paint\n    linkages: [row]\n", 1)
    assert "held-twice" in codes(tmp_path / "twice", twice)


def test_a_row_is_joined_after_its_plates_are_formed(tmp_path):
    """Who joins it while cutting cannot bend the plates any more; the step that bends is named."""
    early = LINKED.replace("    text: Cut along", "    linkages: [row]\n    text: Cut along", 1)
    found = codes(tmp_path, early)
    assert found["linkage-early"] == (
        '"Cut the pieces" joins row, and "Bend the cuff" works on its plates only afterwards'
    )
