"""Steps as a graph: what each needs was made before, and nothing is made in vain."""

from pathlib import Path

import pytest
from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks

CUT = changed(STOCK, "cutting: {name: Cutting,", "cutting: {name: Cutting, cuts: true,")
"""The sample with a process that says that pieces come into being."""


def report(folder: Path, guide: str, stock: str = CUT) -> str:
    """All findings in words."""
    content = read_content(write_content(folder, guide=guide, stock=stock))
    return "\n".join(f"{problem.code}: {problem}" for problem in run_checks(content))


def moved(guide: str, step: str, before: str) -> str:
    """The guide with one step in front of another one."""
    start = guide.index(f"  - id: {step}\n")
    end = guide.find("  - id: ", start + 1)
    text = guide[start : end if end > 0 else None]
    return changed(guide.replace(text, ""), f"  - id: {before}\n", f"{text}  - id: {before}\n")


@pytest.mark.parametrize("stock", [STOCK, CUT], ids=["by stage", "by process"])
def test_pieces_are_cut_before_they_are_worked_on(tmp_path, stock):
    """Forming or gluing before cutting names both steps; in the right order nothing is told."""
    assert report(tmp_path / "kept", GUIDE, stock) == ""
    text = report(tmp_path / "broken", moved(GUIDE, "bend", "cut"), stock)
    assert "used-before-made: " in text
    assert (
        'steps[0].parts[0]: "Bend the cuff" works on cuff, which "Cut the pieces" cuts only afterwards'
        in text
    )


def test_parts_of_a_joint_count_as_worked_on(tmp_path):
    """A stack whose part is cut later is told, although the step does not list that part."""
    guide = changed(GUIDE, "    parts: [cuff, plate]\n    seams", "    parts: [cuff]\n    seams")
    guide = changed(guide, "    parts: [cuff, plate]\n    text", "    parts: [cuff]\n    text")
    guide = changed(guide, "  - id: paint", "  - id: cut-plate\n    title: Cut the plate\n"
                    "    stage: cutting\n    process: cutting\n    parts: [plate]\n"
                    "    text: Cut it.\n    time: 1 min\n  - id: paint")  # fmt: skip
    text = report(tmp_path, guide)
    message = '"Glue the cuff" works on plate, which "Cut the plate" cuts only afterwards'
    assert f"steps[2].stacks[0]: {message}" in text  # at the stack that brings the part
    assert "steps[2].stacks[0]: warning: badge joins plate, which the step does not list" in text
    assert "idle-part" not in text  # gluing comes too early, but it comes


def test_tracing_may_come_before_cutting(tmp_path):
    """Preparing steps work on parts that are not cut yet."""
    trace = ("  - id: trace\n    title: Trace\n    stage: preparing\n    parts: [cuff, plate]\n"
             "    text: Trace.\n    time: 1 min\n")  # fmt: skip
    assert report(tmp_path, changed(GUIDE, "  - id: cut\n", f"{trace}  - id: cut\n")) == ""


def test_a_part_that_no_step_cuts(tmp_path):
    """A part that is glued and never cut is a warning at the part."""
    guide = changed(GUIDE, "    parts: [cuff, plate]\n    text", "    parts: [cuff]\n    text")
    assert "never-cut" in report(tmp_path, guide)


def test_a_part_that_is_cut_and_left(tmp_path):
    """A part that is cut and never used again is a warning with the step that cut it."""
    part = "  tag:\n    name: Tag\n    label: C\n    material: foam-5\n    shape: disc\n    dimensions: {diameter: 9}\n"
    guide = changed(GUIDE, "seams:\n", f"{part}seams:\n")
    guide = changed(guide, "parts: [cuff, plate]\n    text", "parts: [cuff, plate, tag]\n    text")
    assert 'nothing is done with this part after "Cut the pieces"' in report(tmp_path, guide)


def test_cut_twice(tmp_path):
    """Two steps that cut one part are told with both; a named second pass is not."""
    twice = ("  - id: more\n    title: Cut another cuff\n    stage: cutting\n    process: cutting\n"
             "    parts: [cuff]\n    text: Cut.\n    time: 1 min\n  - id: bend")  # fmt: skip
    guide = changed(GUIDE, "  - id: bend", twice)
    assert "2 steps cut this part: Cut the pieces; Cut another cuff" in report(
        tmp_path / "a", guide
    )
    again = changed(
        guide, "title: Cut another cuff\n", "title: Cut another cuff\n    again: a spare\n"
    )
    assert report(tmp_path / "b", again) == ""


def test_joined_twice_and_joined_again(tmp_path):
    """A seam that two steps join is an error; a named repair is not."""
    guide = changed(
        GUIDE, "    process: painting\n", "    process: painting\n    seams: [cuff-side]\n"
    )
    assert "made-twice: " in report(tmp_path / "a", guide)
    again = changed(guide, "    process: painting\n", "    process: painting\n    again: repair\n")
    assert report(tmp_path / "b", again) == ""


def test_glue_comes_before_joining(tmp_path):
    """Glue on a seam that an earlier step has joined is told; on or before that step it is not."""
    guide = changed(
        GUIDE,
        "      - {material: paint, cover",
        "      - {material: cement, glue: [badge]}\n      - {material: paint, cover",
    )
    text = report(tmp_path, guide)
    assert 'steps[3].uses[0].glue[0]: warning: "Glue the cuff" has joined badge already' in text


def test_what_is_at_hand_again_was_counted(tmp_path):
    """A use that is not counted needs an earlier one that is."""
    guide = changed(
        GUIDE,
        "{material: cement, glue: [cuff-side, badge]}",
        "{material: cement, glue: [cuff-side, badge], counted: false}",
    )
    assert "steps[2].uses[0]: no step up to here counts cement" in report(tmp_path / "a", guide)
    guide = changed(
        GUIDE,
        "      - {material: buckle, count: 2}",
        "      - {material: cement, amount: 5, counted: false}",
    )
    assert report(tmp_path / "b", guide) == ""


def needing(**needs: str) -> str:
    """The sample with needs by step."""
    guide = GUIDE
    for step, names in needs.items():
        guide = changed(guide, f"  - id: {step}\n", f"  - id: {step}\n    needs: [{names}]\n")
    return guide


def test_needs_that_stand_later(tmp_path):
    """A step that needs a later one is told; an earlier one is fine."""
    assert report(tmp_path / "a", needing(paint="cut, bend")) == ""
    text = report(tmp_path / "b", needing(bend="paint"))
    assert "wrong-order: " in text
    assert 'steps[1].needs[0]: "paint" must come before this step' in text


def test_circles_are_told_as_a_whole(tmp_path):
    """Steps that wait for each other are one finding with all their titles, from the earliest on."""
    text = report(tmp_path / "a", needing(bend="paint", paint="cut, glue", glue="bend"))
    assert (
        'steps[1].needs[0]: steps wait for each other: "Bend the cuff" needs "Paint", '
        '"Paint" needs "Glue the cuff", "Glue the cuff" needs "Bend the cuff"'
    ) in text
    assert "wrong-order" not in text
    assert text.count("needs-cycle") == 1
    text = report(tmp_path / "b", needing(bend="bend"))
    assert 'steps wait for each other: "Bend the cuff" needs "Bend the cuff"' in text


def test_two_circles(tmp_path):
    """Each circle is told, and a plain wrong order beside them as well."""
    text = report(tmp_path, needing(cut="bend, paint", bend="cut", glue="glue"))
    assert text.count("needs-cycle") == 2
    assert text.count("wrong-order") == 1


def test_unused_sequences(tmp_path):
    """A sequence that no step uses is a warning."""
    sequence = ("sequences:\n  dip:\n    about: Dip\n    steps:\n"
                "      - {id: a, title: Dip, stage: sealing, text: Dip., time: 1}\nsteps:\n")  # fmt: skip
    guide = changed(GUIDE, "steps:\n", sequence)
    assert "sequences.dip: warning: no entry of steps uses this sequence" in report(
        tmp_path / "a", guide
    )
    assert report(tmp_path / "b", f"{guide}  - {{sequence: dip, id: one}}\n") == ""


@pytest.mark.parametrize(
    ("flexes", "flexible", "told"),
    [
        ("true", "false", True),
        ("true", "true", False),
        ("false", "false", False),
        ("true", "", False),
    ],
)
def test_parts_that_bend_get_coats_that_bend(tmp_path, flexes, flexible, told):
    """A coat that dries stiff is told on a part that flexes, and nowhere else."""
    guide = changed(GUIDE, "    hand: pair\n", f"    hand: pair\n    flexes: {flexes}\n")
    stock = CUT
    if flexible:
        stock = changed(
            CUT, "    name: Acrylic paint\n", f"    name: Acrylic paint\n    flexible: {flexible}\n"
        )
    text = report(tmp_path, guide, stock)
    assert ("Acrylic paint dries stiff, but cuff flexes while worn" in text) is told
    assert (text == "") is not told


def test_glue_in_seams_that_bend(tmp_path):
    """Stiff glue is told in a joint of a part that flexes."""
    guide = changed(GUIDE, "    copies: 2\n", "    copies: 2\n    flexes: true\n")
    stock = changed(
        CUT, "    name: Contact cement\n", "    name: Contact cement\n    flexible: false\n"
    )
    assert "steps[2].uses[0].material: warning: Contact cement dries stiff" in report(
        tmp_path, guide, stock
    )
