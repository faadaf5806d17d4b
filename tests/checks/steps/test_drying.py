"""Contact glue dries on both faces before they meet."""

from pathlib import Path

import pytest
from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks

DRYING = changed(
    STOCK, "    name: Contact cement\n", "    name: Contact cement\n    dries: 10 min\n"
)
DRYING = changed(DRYING, "how: Coat both faces., wait: 10 min", "how: Coat both faces.")

COAT = """\
  - id: coat
    title: Coat the edges
    stage: gluing
    process: gluing
    parts: [cuff, plate]
    uses: [{material: cement, glue: [cuff-side, badge]}]
    text: Coat both faces.
    time: 5 min
"""


def report(folder: Path, guide: str) -> str:
    """All findings in words."""
    content = read_content(write_content(folder, guide=guide, stock=DRYING))
    return "\n".join(f"{problem.code}: {problem}" for problem in run_checks(content))


def parted(wait: str) -> str:
    """The sample with coating and joining in two steps."""
    joined = changed(GUIDE, "    uses: [{material: cement, glue: [cuff-side, badge]}]\n", "")
    return changed(joined, "  - id: glue\n", f"{COAT}{wait}  - id: glue\n")


def test_faces_that_meet_before_they_are_dry(tmp_path):
    """Two steps in a row without a wait join wet glue: both are named, with the time it takes."""
    text = report(tmp_path, parted(""))
    assert "joined-wet: " in text
    assert (
        'steps[3].seams[0]: "Glue the cuff" may join cuff-side no time after "Coat the edges" '
        "coated it, but Contact cement dries for 10 min first" in text
    )
    assert "steps[3].stacks[0]" in text


@pytest.mark.parametrize(("wait", "told"), [("9 min", True), ("10 min", False)])
def test_a_wait_lets_it_dry(tmp_path, wait, told):
    """A wait as long as the glue dries is enough; a minute less is not."""
    assert ("joined-wet" in report(tmp_path, parted(f"    wait: {wait}\n"))) is told


def test_one_step_may_coat_and_join(tmp_path):
    """Whoever coats and joins in one step has the wait in the step."""
    assert report(tmp_path, GUIDE) == ""
