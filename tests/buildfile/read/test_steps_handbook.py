"""The handbook's examples of steps, rules and suppressions do what it says."""

import re
from pathlib import Path

from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.validation import validate
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.checks.report.suppression import settle
from guidegen.checks.run import run_checks
from guidegen.cli import build_parser
from guidegen.findings.registry import CODES

HANDBOOK = (Path(__file__).parents[3] / "guidegen" / "handbook" / "write" / "steps.md").read_text(
    encoding="utf-8"
)
REPEAT, SEQUENCE, RULES, MUSTS, SUPPRESS = re.findall(r"```yaml\n(.*?)```", HANDBOOK, re.DOTALL)

PARTS = """\
  left: {name: Left flap, label: L, material: foam-5, shape: disc, dimensions: {diameter: 50}}
  right: {name: Right flap, label: R, material: foam-5, shape: disc, dimensions: {diameter: 50}}
  tag: {name: Tag, label: T, material: foam-5, shape: disc, dimensions: {diameter: 20}}
seams:
  left-seam: {join: [left.rim, plate.rim]}
  right-seam: {join: [right.rim, plate.rim]}
"""


def read(folder: Path, guide: str, stock: str = STOCK) -> Content:
    """The sample with parts for the examples."""
    guide = changed(guide, "seams:\n", PARTS)
    guide = changed(
        guide, "parts: [cuff, plate]\n    text", "parts: [cuff, plate, left, right, tag]\n    text"
    )
    return read_content(write_content(folder, guide=guide, stock=stock))


def entries(example: str) -> str:
    """What an example adds to the sample's steps."""
    return (
        example.partition("steps:\n")[2]
        if example.startswith("steps")
        else example.split("\nsteps:\n")[1]
    )


def test_same_as(tmp_path):
    """The repeat becomes the step that the handbook describes, and nothing is wrong with it."""
    content = read(tmp_path, GUIDE + entries(REPEAT) + SUPPRESS)
    first, step = content.guides[0].guide.steps[-2:]
    assert step.title.replace("\u00a0", " ") == "Do the same for the right flap (2 of 2)"
    assert '"Do the same for the right flap (2 of 2)"' in HANDBOOK
    assert (step.time, step.seams) == (first.time, ("right-seam",))
    findings = settle(content, run_checks(content))
    assert findings.open == ()
    assert [silent.problem.code for silent in findings.silent] == ["idle-part"]


def test_sequences(tmp_path):
    """The sequence makes the two steps that the handbook names."""
    sequences, steps = SEQUENCE.split("\nsteps:\n")
    guide = changed(GUIDE, "    stacks: [badge]\n", "")
    guide = changed(guide, "glue: [cuff-side, badge]", "glue: [cuff-side]")
    guide = changed(guide, "steps:\n", f"{sequences}\nsteps:\n") + steps
    content = read(tmp_path, guide)
    coat, join = content.guides[0].guide.steps[-2:]
    assert (coat.id, join.id) == ("badge-coat", "badge-join")
    assert coat.title == "Coat cuff and plate"
    assert join.stacks == ("badge",)
    assert {problem.code for problem in run_checks(content)} <= {
        "seam-not-made",
        "unused-part",
        "idle-part",
        "joined-by-nothing",
    }


def test_rules(tmp_path):
    """The rules are read as they stand."""
    content = read(tmp_path, GUIDE, STOCK[: STOCK.index("rules:\n")] + RULES)
    first, second, third = content.stock.rules
    assert (first.level, first.wait) == ("stop", 0)
    assert (second.level, second.wait) == ("warn", 60)
    assert (third.by, third.apart, third.wait) == ("caution", True, 60)


def test_commands_and_codes():
    """Every command of the handbook is one that there is, and so is every code."""
    commands = re.findall(r"^    guidegen (.*?)(?:  |$)", HANDBOOK, re.MULTILINE)
    assert len(commands) == 5
    for command in commands:
        build_parser().parse_args(command.split())
    codes = re.findall(r"--explain ([a-z-]+)|code: ([a-z-]+)", HANDBOOK)
    assert {code for pair in codes for code in pair if code} <= set(CODES)


def test_the_rules_of_what_must_be_there_can_be_read():
    """The chapter's example of such rules is one that stock.yaml takes."""
    value, source, problems = read_tree(MUSTS, "stock.yaml")
    assert problems == []
    stock, found = validate(Stock, value, source)
    assert found == []
    assert [must.on for must in stock.musts] == ["guide", "part"]
