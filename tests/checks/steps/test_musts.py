"""Work that has been forgotten: each step taken out of a whole guide is missed.

What wearables of foam need is common practice, no source; the order of the trade's checklists is
the same in several public tutorials.
"""

from dataclasses import replace
from pathlib import Path

import pytest
from demo_content import read_demo
from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks

CONTENT = read_demo("slipway-marshal")
STARTER = Path(__file__).parents[3] / "guidegen" / "starter"
FORGOTTEN = frozenset({"missing-work", "advised-work", "feature-not-made"})


def report(folder: Path) -> str:
    """All findings in words."""
    return "\n".join(f"{problem.code}: {problem}" for problem in run_checks(read_content(folder)))


def without(step_id: str) -> list[str]:
    """What is found forgotten in the demo's wearable with one of its steps taken out."""
    (file,) = CONTENT.guides
    steps = tuple(step for step in file.guide.steps if step.id != step_id)
    assert len(steps) == len(file.guide.steps) - 1, step_id
    guide = file.guide.model_copy(update={"steps": steps})
    content = replace(CONTENT, guides=(replace(file, guide=guide),))
    return [p.message for p in run_checks(content) if p.code in FORGOTTEN]


def test_the_demo_forgets_nothing():
    """The whole guide has no such finding, so each one below comes from the step taken out."""
    assert [p.message for p in run_checks(CONTENT) if p.code in FORGOTTEN] == []


@pytest.mark.parametrize(
    ("step", "says"),
    [
        ("seal-kit", '"Sealing with a brush" on'),
        ("prime-kit", '"Priming" on'),
        ("heat-seal-kit", '"Heat-sealing" or "Pressing a texture" on'),
        ("fit-in-card", '"Fitting in card" before "Cut the 10 mm pieces"'),
        ("fit-on-body", '"Fitting on the body"'),
        ("wear-test-kit", '"Wear test"'),
        ("form-chest", "the part is curved, but no step works on it with heat-form"),
        ("form-rounds", "the part is curved, but no step works on it with heat-form"),
        ("form-plates", "the part is curved, but no step works on it with heat-form"),
        ("make-holes", '"Making holes for straps" on a part of'),
        ("fill-gaps", '"Filling gaps"'),
        ("sand-seams", '"Sanding"'),
        ("clear-coat-kit", '"Clear coating" or "Clear coating with a brush" on'),
        ("try-on-kit", '"Trying on, held by tape" after "Form the chest pieces" before "Glue'),
        ("roughen-faces", '"Roughening and dusting off" on'),
        ("texture-plates", "the part has a texture, but no step"),
        ("bevel-keel", "the part has bevels, but no step"),
        ("groove-wheel", "the part has V-grooves, but no step"),
        ("smooth-fillings", '"Smoothing filler"'),
        ("trim-strips", "a trim allowance, but no step works on it with file-edges, hem, trim"),
        ("dry-fit-kit", '"Dry fitting" before "Glue '),
    ],
)
def test_a_step_taken_out_is_missed(step, says):
    """Seal, primer, fits, forming, holes, filler, sanding, clear coat: each omission is told."""
    assert any(says in message for message in without(step)), without(step)


def test_all_that_finishes_a_surface_is_missed_at_once():
    """With sealing, priming, heat-sealing, filling, sanding and clear coat gone together, each is
    told: no omission hides behind another.
    """
    gone = {"seal-kit", "prime-kit", "heat-seal-kit", "fill-gaps", "sand-seams", "clear-coat-kit"}
    gone |= {"smooth-fillings", "texture-plates"}
    (file,) = CONTENT.guides
    steps = tuple(step for step in file.guide.steps if step.id not in gone)
    guide = file.guide.model_copy(update={"steps": steps})
    content = replace(CONTENT, guides=(replace(file, guide=guide),))
    told = "\n".join(p.message for p in run_checks(content) if p.code in FORGOTTEN)
    for work in ("Sealing", "Priming", "Heat-sealing", "Filling gaps", "Sanding", "Clear coating"):
        assert f'"{work}' in told, work


def test_one_finding_for_each_rule():
    """A rule about parts tells one finding, which counts the parts, not one for each."""
    (message,) = [text for text in without("prime-kit") if '"Priming"' in text]
    assert " and 23 more, which " in message


MUST = "rules:\n"
PROCESS = "  forming: {name: Heat forming, how: Warm and bend.}\n"


def stocked(folder: Path, must: str, guide: str = GUIDE) -> str:
    """Findings of the sample with one rule."""
    stock = changed(STOCK, MUST, f"musts:\n  - {must}\nrules:\n")
    return report(write_content(folder, stock=stock, guide=guide))


@pytest.mark.parametrize(
    ("must", "says"),
    [
        ("{need: [cutting], reason: x}", ""),
        ("{need: [forming], when: [gluing], reason: x}", ""),
        ("{need: [forming], before: [cutting], reason: bend it}",
         'advised-work: {guide}:38:3  steps: warning: no step does "Heat forming" before "Cut the pieces": bend it'),
        ("{need: [cutting], after: [forming], reason: x}", 'no step does "Cutting" after "Bend the cuff"'),
        ("{need: [forming], when: [gluing], on: part, level: stop, reason: x}",
         'missing-work: {guide}:55:14  steps[2].process: no step does "Heat forming" on plate, '
         'which "Glue the cuff" works on: x (common practice, no source)'),
        ("{need: [forming], uses: [buckle], on: step, reason: x}", ""),
        ("{need: [painting], uses: [buckle], on: step, reason: x}",
         'no step does "Painting" on a part of "Paint" before it'),
        ("{need: [forming], before: [cutting], kinds: [prop], reason: x}", ""),
        ("{need: [bending], reason: x}", 'no process "bending" in stock'),
        ("{need: [forming], uses: [bucle], reason: x}", 'no material "bucle" in stock; did you mean "buckle"?'),
    ],
)  # fmt: skip
def test_rules_of_what_must_be_there(tmp_path, must, says):
    """Whole guides, parts and steps; before and after; kinds of guide; names of the rule itself."""
    text = stocked(tmp_path, must)
    if says:
        assert says.replace("{guide}", f"{tmp_path.as_posix()}/cuff/guide.yaml") in text
    else:
        assert text == ""


@pytest.mark.parametrize(
    ("old", "new", "says"),
    [
        ("    label: A\n", "    label: A\n    texture: scales\n",
         "parts.cuff.texture: warning: the part has a texture, but no step works on it with painting"),
        ("    label: A\n", "    label: A\n    grooves: [{fold: 90}]\n", "the part has V-grooves"),
        ("    label: A\n", "    label: A\n    bevels: {top: {angle: 45, direction: inward}}\n", "has bevels"),
        ("    label: B\n", "    label: B\n    formed: true\n", "parts.plate.shape: warning: the part is curved"),
        ("    process: forming\n", "", "parts.cuff.shape: warning: the part is curved"),
        ("    label: A\n", "    label: A\n    formed: false\n", ""),
    ],
)  # fmt: skip
def test_what_a_part_has_some_step_makes(tmp_path, old, new, says):
    """Texture, bevels, grooves and curves are made by the work that the stock says makes them."""
    stock = changed(STOCK, PROCESS, PROCESS.replace("{name", "{makes: [form], name"))
    stock = changed(
        stock, "  painting: {name", "  painting: {makes: [texture, groove, bevel], name"
    )
    guide = changed(GUIDE, old, new)
    if "texture" in new or "grooves" in new or "bevels" in new:
        guide = changed(guide, "    process: painting\n", "")
    text = report(write_content(tmp_path, stock=stock, guide=guide))
    assert (says in text) if says else "feature-not-made" not in text


def test_a_trim_allowance_comes_off_in_some_step(tmp_path):
    """By a kind of work that trims, or by a step that says so beside its kind of work."""
    stock = changed(STOCK, PROCESS, PROCESS.replace("{name", "{makes: [trim], name"))
    long = changed(GUIDE, "    label: B\n",
                   "    label: B\n    allowances: {rim: {kind: trim, width: 10}}\n")  # fmt: skip
    seam = changed(long, "kind: trim", "kind: seam")
    own = changed(long, "    process: gluing\n", "    process: gluing\n    makes: [trim]\n")
    told = "parts.plate.allowances: warning: the part has a trim allowance, but no step works"
    for number, (guide, missed) in enumerate(((long, True), (seam, False), (own, False))):
        text = report(write_content(tmp_path / str(number), stock=stock, guide=guide))
        assert (told in text) is missed, text


def test_the_starter_misses_its_dry_fit(tmp_path):
    """What authors begin with has the rule, keeps it, and tells its own guide without the step."""
    for path in STARTER.rglob("*"):
        if path.is_file():
            (tmp_path / path.relative_to(STARTER).parent).mkdir(parents=True, exist_ok=True)
            (tmp_path / path.relative_to(STARTER)).write_bytes(path.read_bytes())
    assert "-work: " not in report(tmp_path)
    guide = tmp_path / "first-cuff" / "guide.yaml"
    text = guide.read_text(encoding="utf-8")
    guide.write_text(
        changed(text, "id: before}", "id: before, without: [dry-fit]}"), encoding="utf-8"
    )
    assert 'no step does "Dry fitting" before "' in report(tmp_path)


def test_parts_that_nothing_joins(tmp_path):
    """A part that is cut, formed and painted, and never joined to the others, is told."""
    stock = changed(STOCK, "  gluing: {name", "  gluing: {makes: [join], name")
    assert "feature-not-made" not in report(write_content(tmp_path / "a", stock=stock))
    guide = changed(GUIDE, "    parts: [cuff, plate]\n    seams", "    parts: [cuff]\n    seams")
    guide = changed(guide, "    stacks: [badge]\n", "").replace(
        "glue: [cuff-side, badge]", "glue: [cuff-side]"
    )
    guide = changed(
        guide, "stacks:\n  badge: {name: Badge, layers: [{part: cuff}, {part: plate}]}\n", ""
    )
    text = report(write_content(tmp_path / "b", stock=stock, guide=guide))
    assert "parts.plate: warning: the part belongs to a thing of several parts, but no step" in text


def test_a_joint_that_nothing_holds(tmp_path):
    """A step that joins with nothing in its uses, and no glue before it, is told at the seam."""
    guide = changed(GUIDE, "    uses: [{material: cement, glue: [cuff-side, badge]}]\n", "")
    text = report(write_content(tmp_path / "a", guide=guide))
    assert "joined-by-nothing: " in text
    assert 'steps[2].seams[0]: warning: "Glue the cuff" joins cuff-side, but uses nothing' in text
    # Paint in the joining step holds nothing where the stock says which work joins.
    painted = changed(
        GUIDE,
        "    uses: [{material: cement, glue: [cuff-side, badge]}]\n",
        "    uses: [{material: paint, cover: [cuff]}]\n",
    )
    painted = changed(painted, "    process: gluing\n", "    process: painting\n")
    joins = changed(STOCK, "  gluing: {name", "  gluing: {makes: [join], name")
    for number, stock in enumerate((STOCK, joins)):
        found = report(write_content(tmp_path / f"painted-{number}", stock=stock, guide=painted))
        assert ("joined-by-nothing: " in found) is (stock == joins)
    early = changed(guide, "    text: Warm it and bend it.\n",
                    "    uses: [{material: cement, glue: [cuff-side, badge]}]\n    text: Warm it.\n")  # fmt: skip
    assert "joined-by-nothing" not in report(write_content(tmp_path / "b", guide=early))
