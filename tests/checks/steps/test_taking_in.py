"""Pleats, darts and gathers are made before the seam across their edge."""

from pathlib import Path

from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks

SEWN = changed(
    STOCK,
    "  painting: {name: Painting, how: Thin coats.}\n",
    "  painting: {name: Painting, how: Thin coats.}\n"
    "  pleating: {name: Pleating, how: Fold., makes: [pleat]}\n"
    "  gathering: {name: Gathering, how: Draw up., makes: [gather]}\n",
)
PLEATED = changed(
    GUIDE, "    hand: pair\n", "    hand: pair\n    pleats: [{edge: side, depth: 10}]\n"
)
GATHERED = changed(GUIDE, "[cuff.side, cuff.side-2]}", "[cuff.side, cuff.side-2], gathers: 1.5}")


def step(process: str, before: str, guide: str) -> str:
    """The guide with a step of folding or gathering in front of another."""
    text = (
        f"  - id: take-in\n    title: Take in\n    stage: gluing\n    process: {process}\n"
        "    parts: [cuff]\n    text: Take it in.\n    time: 5 min\n"
    )
    return changed(guide, f"  - id: {before}\n", f"{text}  - id: {before}\n")


def told(folder: Path, guide: str, code: str = "taken-in-late") -> list[str]:
    """Messages of one code."""
    content = read_content(write_content(folder, guide=guide, stock=SEWN))
    return [one.message for one in run_checks(content) if one.code == code]


def test_pleats_are_folded_before_the_seam(tmp_path):
    """A step that folds afterwards comes too late; before it, nothing is told."""
    late = told(tmp_path / "late", step("pleating", "paint", PLEATED))
    assert late == [
        '"Glue the cuff" joins cuff-side, and no step up to there makes the pleats of cuff'
    ]
    assert told(tmp_path / "early", step("pleating", "glue", PLEATED)) == []


def test_a_gathered_edge_is_drawn_up_before_the_seam(tmp_path):
    """The same of gathers; work that folds pleats gathers nothing."""
    assert told(tmp_path / "early", step("gathering", "glue", GATHERED)) == []
    (message,) = told(tmp_path / "other", step("pleating", "glue", GATHERED))
    assert "makes the gathers of cuff" in message


def test_pleats_that_no_step_folds_are_told_of_their_part(tmp_path):
    """As with textures and bevels: what a part has, some step gives it."""
    assert told(tmp_path / "never", PLEATED, "feature-not-made") != []
