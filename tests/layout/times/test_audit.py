"""What never shares a room: looked at on the time line."""

from pathlib import Path

import pytest
from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.layout.times.audit import audit_rooms

HOT = changed(
    changed(STOCK, "  goggles:", "  gun: {name: Heat gun, cautions: [hot]}\n  goggles:"),
    "  solvent:\n    word",
    "  hot:\n    word: WARNING\n    title: Hot air\n    hazard: Hot.\n    consequence: Burns.\n"
    "    avoid: Wait.\n  solvent:\n    word",
)
RULE = (
    "  - {first: solvent, then: hot, by: caution, apart: true, wait: 1 h, reason: vapour burns}\n"
)
STOCK_HOT = changed(HOT, "rules:\n", f"rules:\n{RULE}")

WARM = ("  - id: warm\n    title: Warm the plate\n    stage: detailing\n    parts: [plate]\n"
        "    tools: [gun]\n    text: Warm.\n    time: 5 min\n")  # fmt: skip


def audit(folder: Path, guide: str, stock: str = STOCK_HOT) -> list[str]:
    """Findings in words."""
    content = read_content(write_content(folder, guide=guide, stock=stock))
    return [str(problem) for problem in audit_rooms(content.guides[0], content.stock)]


def test_heat_before_solvent_is_fine(tmp_path):
    """Warming before the cement is opened breaks nothing."""
    assert audit(tmp_path, changed(GUIDE, "  - id: glue\n", f"{WARM}  - id: glue\n")) == []


def test_heat_too_soon_after_solvent(tmp_path):
    """Warming 10 minutes after gluing is told with both steps, the time and the reason."""
    (text,) = audit(tmp_path, changed(GUIDE, "  - id: paint\n", f"{WARM}  - id: paint\n"))
    assert (
        'steps[3]: "Warm the plate" (hot) begins 10 min after "Glue the cuff" (solvent) on the '
        "time line, but 1 h are needed: vapour burns"
    ) in text


@pytest.mark.parametrize(("wait", "told"), [("59 min", True), ("1 h", False)])
def test_airing_counts(tmp_path, wait, told):
    """A wait of the gluing step lets the room air."""
    guide = changed(
        GUIDE, "    text: Coat both faces, wait, join.\n", f"    text: Coat.\n    wait: {wait}\n"
    )
    guide = changed(
        guide, "    parts: [cuff]\n    uses:\n", "    parts: [cuff, plate]\n    uses:\n"
    )
    warm = changed(WARM, "parts: [plate]", "parts: [cuff, plate]")
    guide = changed(guide, "  - id: paint\n", f"{warm}  - id: paint\n")
    assert bool(audit(tmp_path, guide)) is told


def test_never_in_one_step(tmp_path):
    """A step that brings both is told, whatever the waits."""
    guide = changed(GUIDE, "    stacks: [badge]\n", "    stacks: [badge]\n    tools: [gun]\n")
    (text,) = audit(tmp_path, guide)
    assert '"Glue the cuff" brings solvent and hot into one step: vapour burns' in text


def test_a_waived_caution_is_not_in_the_room(tmp_path):
    """A hazard that the author has waived with a reason does not count."""
    warm = f"{WARM}    waive: [{{caution: hot, reason: cold air only}}]\n"
    assert audit(tmp_path, changed(GUIDE, "  - id: paint\n", f"{warm}  - id: paint\n")) == []


def test_rules_by_process(tmp_path):
    """Kinds of work may be kept apart as well; a warning stays one."""
    rule = (
        "  - {first: gluing, then: painting, apart: true, wait: 2 h, level: warn, reason: dust}\n"
    )
    (text,) = audit(tmp_path, GUIDE, changed(STOCK, "rules:\n", f"rules:\n{rule}"))
    assert 'steps[3]: warning: "Paint" (painting) begins 10 min after "Glue the cuff"' in text
