"""Sequences that find their parts by themselves, and the usual steps of the shipped stock."""

from pathlib import Path

import pytest
from samples import GUIDE, SITE, changed, write_content

from guidegen.buildfile.expand.expansion import expand_steps
from guidegen.buildfile.expand.finding import PartFinder, SheetFacts, sheet_facts
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.reader import read_what_holds
from guidegen.buildfile.read.trade import trade_stock
from guidegen.buildfile.records.musts import Makes
from guidegen.buildfile.records.steps import PartsFound
from guidegen.buildfile.yaml.tree import read_tree
from guidegen.checks.run import run_checks
from guidegen.problems import Problem

SHEETS = {
    "mat": SheetFacts("foam", 10),
    "thin": SheetFacts("foam", 2),
    "duck": SheetFacts("cloth", 0.7),
}
PARTS = """\
parts:
  cuff: {name: Cuff, material: mat, shape: tapered-tube, hand: pair}
  plate: {name: Plate, material: thin, shape: disc}
  ridge: {name: Ridge, material: mat, shape: strip, bevels: {left: {angle: 45, direction: inward}}}
  flap: {name: Flap, material: duck, shape: drawing, on-fold: middle}
  lost: {name: Lost, material: nothing, shape: disc}
seams: {side: {join: [cuff.side, cuff.side-2]}}
stacks: {badge: {name: Badge, layers: [{part: cuff}, {part: plate}]}}
"""
FINDING = """\
sequences:
  usual:
    about: For a test
    finds:
      foam: {about: foam, made-of: [foam]}
      wood: {about: wood, made-of: [wood]}
      pairs: {about: pairs, hand: pair}
    time-each: {trace: 4 min}
    steps:
      - id: trace
        title: Trace
        stage: cutting
        process: transfer
        parts: [foam]
        uses: [{material: pen, cover: [foam]}, {material: pencil, cover: [wood]}]
        text: |
          Trace {foam}.

          With the grain: {wood}.

          Twice: {pairs}.
        time: 10 min
      - {id: saw, title: Saw, stage: cutting, process: saw, parts: [wood], needs: [trace], text: "{wood}", time: 5}
      - {id: wipe, title: Wipe, stage: cutting, parts: [foam], needs: [saw], text: Wipe., time: 1}
"""
FACTS: list[tuple[dict[str, object], tuple[str, ...]]] = [
    ({"made-of": ["foam"]}, ("cuff", "plate", "ridge")),
    ({"made-of": ["foam"], "thick": 4}, ("cuff", "ridge")),
    ({"made-of": ["foam"], "thin": 4}, ("plate",)),
    ({"made-of": ["cloth", "wood"]}, ("flap",)),
    ({"hand": "pair"}, ("cuff",)),
    ({"on-fold": True}, ("flap",)),
    ({"wants": ["bevel"]}, ("ridge",)),
    ({"wants": ["form", "bevel"]}, ("cuff", "ridge")),
    ({"done-by": ["paint"]}, ("plate",)),
    ({"done-by": ["glue"]}, ("cuff", "plate")),
    ({}, ("cuff", "plate", "ridge", "flap", "lost")),
]


@pytest.mark.parametrize(("wanted", "ids"), FACTS)
def test_parts_are_found_by_what_they_are(wanted: dict[str, object], ids: tuple[str, ...]) -> None:
    """By material, thickness, hand, fold, what they need, and the work that steps do on them."""
    guide, _, _ = read_tree(PARTS, "guide.yaml")
    assert isinstance(guide, dict)
    steps = [
        {"process": "paint", "parts": ["plate"]},
        {"process": "glue", "seams": ["side"], "stacks": ["badge", "unknown"]},
    ]
    finder = PartFinder(guide, SHEETS, steps)  # type: ignore[arg-type] # literals of plain values
    assert finder.parts(PartsFound.model_validate({"about": "x", **wanted})) == ids


def test_a_part_that_says_it_is_flat_is_not_formed() -> None:
    """`formed` of a part comes before what its shape says, either way."""
    parts = {
        "tube": {"shape": "tapered-tube", "formed": False},
        "plate": {"shape": "disc", "formed": True},
    }
    finder = PartFinder({"parts": parts}, {})  # type: ignore[dict-item] # literals of plain values
    assert finder.parts(PartsFound(about="x", wants=(Makes.FORM,))) == ("plate",)


def _expanded(entry: str) -> tuple[list[dict[str, object]], list[Problem]]:
    text = f"{PARTS}{FINDING}steps:\n  - {entry}\n"
    value, source, _ = read_tree(text, "guide.yaml")
    done, _, problems = expand_steps(value, source, {}, SHEETS)
    steps = done["steps"] if isinstance(done, dict) else []
    return steps, problems  # type: ignore[return-value] # steps are mappings here


def test_what_is_found_nowhere_is_left_out() -> None:
    """A step, a paragraph, a use and a need of parts that the guide has not are not there."""
    steps, problems = _expanded("{sequence: usual, id: a}")
    assert problems == []
    assert [step["id"] for step in steps] == ["a-trace", "a-wipe"]
    trace, wipe = steps
    assert trace["parts"] == ["cuff", "plate", "ridge"]
    assert "grain" not in str(trace["text"])
    assert str(trace["text"]).endswith("Twice: [cuff](piece:cuff).")
    assert trace["uses"] == [{"material": "pen", "cover": ["cuff", "plate", "ridge"]}]
    assert trace["time"] == 10 + 3 * 4
    assert wipe["needs"] == []


def test_a_use_may_name_the_parts_itself() -> None:
    """Parts that are given take the place of those that would be found."""
    steps, problems = _expanded("{sequence: usual, id: a, with: {foam: ridge, wood: [lost]}}")
    assert problems == []
    assert [step["id"] for step in steps] == ["a-trace", "a-saw", "a-wipe"]
    assert (steps[0]["parts"], steps[0]["time"]) == (["ridge"], 14)
    assert steps[2]["needs"] == ["a-saw"]


def test_a_use_changes_single_steps() -> None:
    """Steps are left out by name; title, time, check and text may be said otherwise."""
    entry = (
        "{sequence: usual, id: a, without: [wipe], "
        "steps: {trace: {time: 7 min, check: All there., more: Use a silver pen.}}}"
    )
    (trace,), problems = _expanded(entry)
    assert problems == []
    assert (trace["time"], trace["check"]) == (7, "All there.")
    assert str(trace["text"]).endswith("\n\nUse a silver pen.")


@pytest.mark.parametrize(
    ("entry", "message"),
    [
        ("{sequence: usual, id: a, without: [whipe]}", 'has no step "whipe"; did you mean "wipe"?'),
        ("{sequence: usual, id: a, steps: {trase: {time: 5}}}", 'no step "trase"; did you mean'),
        ("{sequence: usual, id: a, with: {fom: cuff}}", 'takes no "fom"; did you mean "foam"?'),
        ("{sequence: usual, id: a, without: [trace, saw, wipe]}", "nothing is left of it here"),
    ],
)
def test_slips_are_told_at_the_use(entry: str, message: str) -> None:
    """A name that the sequence has not is told with the nearest one, and an empty use as such."""
    _, problems = _expanded(entry)
    assert [message in problem.message for problem in problems] == [True]
    assert problems[0].place.line > 20


def test_names_of_a_sequence_are_its_own() -> None:
    """A name both taken and found, and time for a step that is not there, are told."""
    wrong = changed(FINDING, "    finds:\n", "    takes: {foam: what}\n    finds:\n")
    wrong = changed(wrong, "{trace: 4 min}", "{trase: 4 min}")
    value, source, _ = read_tree(f"{PARTS}{wrong}steps: []\n", "guide.yaml")
    _, _, problems = expand_steps(value, source, {}, SHEETS)
    assert sorted(problem.code for problem in problems) == ["bad-value", "unknown-name"]


FOAM_STEPS = """\
steps:
  - {sequence: foam-start, id: start}
  - {sequence: foam-before-glue, id: before}
  - id: glue
    title: Glue the cuff
    stage: gluing
    process: glue-water
    parts: [cuff, plate]
    seams: [cuff-side]
    stacks: [badge]
    uses: [{material: contact-cement-water, glue: [cuff-side, badge]}]
    text: Coat both faces, wait, join.
    time: 15 min
    wait: 1 d
  - {sequence: foam-finish, id: finish}
  - {sequence: foam-paint, id: colour, with: {colour: paint}}
  - {sequence: wear, id: wear}
"""
OTHERS = {
    "card": (
        "card-300",
        "a",
        "- {sequence: card-start, id: a}\n"
        "  - {id: b, title: Fold it, stage: forming, process: score-card, parts: [a], text: Fold., time: 5}",
    ),
    "cloth": (
        "canvas",
        "ab",
        "- {sequence: cloth-start, id: a}\n"
        "  - {sequence: cloth-seam, id: b, with: {pieces: [a, b], seam: rim, thread: thread-strong}}",
    ),
    "wood": (
        "plywood-3",
        "a",
        "- {sequence: wood-start, id: a}\n  - {sequence: wood-finish, id: b}",
    ),
}
"""By craft: a material, parts, steps."""


def _findings(folder: Path, guide: str) -> tuple[Content, list[str]]:
    write_content(folder, site=SITE, stock="extends: trade\n", guide=guide)
    content, problems = read_what_holds(folder)
    assert content is not None
    return content, [str(problem) for problem in (*problems, *run_checks(content))]


def test_usual_steps_of_foam_pass_proof(tmp_path: Path) -> None:
    """A wearable of foam, written with the usual steps and one of its own, has no finding."""
    parts = changed(GUIDE[: GUIDE.index("steps:\n")], "foam-5", "foam-6")
    content, found = _findings(tmp_path, parts + FOAM_STEPS)
    assert found == []
    (file,) = content.guides
    ids = [step.id for step in file.guide.steps]
    assert len(ids) == 20
    assert {"start-bevel", "start-cut-thin"}.isdisjoint(ids)
    trace = next(step for step in file.guide.steps if step.id == "start-trace")
    assert "for the left" in trace.text
    assert "flipped along its fold" not in trace.text


@pytest.mark.parametrize("craft", OTHERS)
def test_usual_steps_of_other_crafts_hold(tmp_path: Path, craft: str) -> None:
    """Steps of card, cloth and wood name what is there, in an order that no rule questions."""
    material, parts, steps = OTHERS[craft]
    head = changed(GUIDE[: GUIDE.index("measurements:\n")], "author:", "kind: prop\nauthor:")
    head = changed(head, "[cuff](piece:cuff)", "thing")
    names = [f"  {name}: {{name: Disc {name}, label: {name.upper()}, material: {material}, "
             "shape: disc, dimensions: {diameter: 60}}\n" for name in parts]  # fmt: skip
    seam = "seams: {rim: {join: [a.rim, b.rim]}}\n" if len(parts) > 1 else ""
    guide = f"{head}parts:\n{''.join(names)}{seam}steps:\n  {steps}\n"
    assert _findings(tmp_path, guide)[1] == []


def test_every_shipped_sequence_is_tried_here() -> None:
    """No usual step of the shipped stock goes without a test above."""
    tried = "".join(steps for _, _, steps in OTHERS.values()) + FOAM_STEPS
    assert [name for name in trade_stock().sequences if f"sequence: {name}," not in tried] == []


def test_materials_say_what_they_are_made_of() -> None:
    """Card, cloth and wood of the shipped stock are found as such, with their thickness."""
    facts = sheet_facts(trade_stock().materials)
    assert facts["foam-10"] == SheetFacts("foam", 10)
    assert facts["canvas"] == SheetFacts("cloth", 0.7)
    assert facts["plywood-6"] == SheetFacts("wood", 6)
