"""Repeats and sequences of steps become plain steps, each with the places of its author."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.expand.expansion import MAX_STEPS, expand_steps
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.yaml.tree import MAX_VALUES, read_tree, trail_text
from guidegen.checks.run import run_checks
from guidegen.errors import ContentError

PAIR = """\
  left: {name: Left flap, label: L, material: foam-5, shape: disc, dimensions: {diameter: 50}}
  right: {name: Right flap, label: R, material: foam-5, shape: disc, dimensions: {diameter: 50}}
seams:
  left-seam: {join: [left.rim, plate.rim]}
  right-seam: {join: [right.rim, plate.rim]}
"""
FLAPS = """\
  - id: glue-left
    title: Glue the left flap
    stage: gluing
    process: gluing
    parts: [left, plate]
    needs: [glue]
    seams: [left-seam]
    tools: [knife]
    uses:
      - {material: cement, glue: [left-seam, badge]}
      - {material: buckle, count: 1}
      - {material: webbing, length: 50 mm, pieces: 2}
      - {material: cement, amount: 3}
    text: Glue it.
    time: 1 h 10 min
    wait: 5 min
    check: It holds.
    cautions: [blade]
"""
BASE = changed(
    changed(GUIDE, "seams:\n", PAIR) + FLAPS,
    "parts: [cuff, plate]\n    text",
    "parts: [cuff, plate, left, right]\n    text",
)

DIP = """\
  dip:
    about: Coat a piece and hang it up.
    takes: {piece: what is dipped, coat: liquid, much: ml for each, stand: where it hangs}
    steps:
      - id: coat
        title: Dip the {piece}
        stage: sealing
        process: painting
        parts: [piece]
        uses: [{material: coat, amount: 2*much}]
        text: "{piece} goes into the bath. Let {piece} drip."
        check: The {piece} is wet.
        trouble: [{sign: "{piece} drips", cure: Wait.}]
        time: 3 min
      - id: hang
        title: Hang up
        stage: sealing
        parts: [piece]
        needs: [coat, stand]
        text: Hang it up.
        time: 2 min
"""
USE = """\
  - sequence: dip
    id: bath
    needs: [paint]
    with: {piece: [cuff, plate], coat: paint, much: 7, stand: bend}
"""


def read(folder: Path, guide: str, stock: str = STOCK) -> GuideFile:
    """The guide as read."""
    return read_content(write_content(folder, guide=guide, stock=stock)).guides[0]


def errors(folder: Path, guide: str, stock: str = STOCK) -> str:
    """What reading or the checks refuse."""
    try:
        content = read_content(write_content(folder, guide=guide, stock=stock))
    except ContentError as error:
        return str(error)
    return "\n".join(map(str, run_checks(content)))


def test_a_title_names_a_part_without_its_details(tmp_path):
    """Beside 'Left flap' its 'Left flap, rim' is not named in the title, only in the text."""
    flaps = BASE.replace("name: Left flap", 'name: "Left flap, rim"')
    flaps = flaps.replace("name: Right flap", "name: Left flap")
    entry = (
        "  - same-as: glue-left\n    id: glue-right\n"
        "    with: {left: [right, left], left-seam: right-seam}\n"
    )
    step = read(tmp_path, flaps + entry).guide.steps[-1]
    assert step.title == "Do the same for the left flap (2\u00a0of\u00a02)"
    assert "[left flap](piece:right) and [left flap, rim](piece:left)" in step.text


def test_a_repeat_is_a_plain_step(tmp_path):
    """Everything but pictures and troubles is taken over, with other parts, seams and needs."""
    entry = "  - same-as: glue-left\n    id: glue-right\n    with: {left: right, left-seam: right-seam}\n"
    file = read(tmp_path, BASE + entry)
    first, step = file.guide.steps[-2:]
    assert (step.id, step.title) == (
        "glue-right",
        "Do the same for the right flap (2\u00a0of\u00a02)",
    )
    assert step.text == (
        "Do the same as in [Glue the left flap](step:glue-left), now with the "
        "[right flap](piece:right). This makes 2 of 2."
    )
    assert (step.parts, step.seams, step.needs) == (("right", "plate"), ("right-seam",), ("glue",))
    for key in ("stage", "process", "tools", "time", "wait", "check", "cautions"):
        assert getattr(step, key) == getattr(first, key)
    cement, again, *rest = step.uses
    assert (cement.glue, cement.counted) == (("right-seam",), True)
    assert (again.glue, again.counted) == (("badge",), False)
    assert rest == list(first.uses[1:])
    (only,) = [
        line for line in errors(tmp_path / "whole", BASE + entry).splitlines() if "yaml:" in line
    ]
    assert "uses[0].glue[1]: warning: " in only  # of the sample itself, which glues the badge late


def test_the_other_hand_is_counted_once(tmp_path):
    """Without other parts nothing is joined or counted twice; only things by number are taken again."""
    file = read(tmp_path, f"{BASE}  - {{same-as: glue-left, id: again}}\n")
    step = file.guide.steps[-1]
    assert (step.title, step.seams) == ("Do the same again (2\u00a0of\u00a02)", ())
    assert "once more. This makes 2 of 2." in step.text
    assert [use.counted for use in step.uses] == [False, True, True, True]


def test_repeats_are_counted(tmp_path):
    """Times multiply hands-on time and what is used by number, and are counted to the end."""
    entries = (
        "  - {same-as: glue-left, id: more, times: 3}\n"
        "  - {same-as: more, id: last, with: {plate: cuff}, title: The last one, text: As before., time: 5}\n"
    )
    more, last = read(tmp_path, BASE + entries).guide.steps[-2:]
    assert more.title == "Do the same again (2\u00a0to\u00a04\u00a0of\u00a05)"
    assert more.text.endswith(", 3 times more. This makes 4 of 5.")
    assert (more.time, more.wait) == (210, 5)
    glue, buckle, webbing, drops = more.uses
    assert not glue.counted
    assert buckle.count is not None and buckle.count.value({}) == 3
    assert webbing.pieces is not None and webbing.pieces.value({}) == 6
    assert drops.amount is not None and drops.amount.value({}) == 9
    assert (last.title, last.text, last.time, last.parts) == (
        "The last one",
        "As before.",
        5,
        ("left", "cuff"),
    )


@pytest.mark.parametrize(
    ("entry", "message"),
    [
        ("{same-as: glue-lef, id: x}", 'same-as: no earlier step "glue-lef"; did you mean "glue-left"?'),
        ("{same-as: glue-left, id: X}", "steps[5].id: expected lower case words"),
        ("{same-as: glue-left}", 'steps[5]: needs the key "id"'),
        ("{same-as: glue-left, id: x, parts: [left]}", 'steps[5].parts: no key "parts" here'),
        ("{same-as: glue-left, id: x, with: {lef: right}}", 'steps[5].with.lef: that step has no "lef"; did you mean "left"?'),
        ("{same-as: glue-left, id: x, with: {left: rihgt}}", 'steps[5].with.left: no part "rihgt" in this guide; did you mean "right"?'),
        ("{same-as: glue-left, id: x, with: {glue: glu}}", 'steps[5].with.glue: no step "glu" in this guide; did you mean "glue"?'),
        ("{same-as: glue-left, id: x, times: 0}", "steps[5].times: "),
        ("{same-as: glue-left, id: x, needs: [no]}", 'steps[5].needs[0]: no step "no"'),
        ("{same-as: glue-left, id: cut}", 'steps[5].id: step 1 is called "cut" already'),
        ("{same-as: cut, sequence: dip, id: x}", 'steps[5].sequence: no key "sequence" here'),
    ],
)  # fmt: skip
def test_slips_in_repeats(tmp_path, entry, message):
    """A slip is told at the line of the repeat, as its author wrote it."""
    text = errors(tmp_path, f"{BASE}  - {entry}\n")
    assert message in text
    line = len(BASE.splitlines()) + 1
    assert f"/cuff/guide.yaml:{line}:" in text


def test_slips_that_a_repeat_takes_over_are_told_once(tmp_path):
    """A slip in the repeated step is told there, and not again for every repeat."""
    guide = changed(BASE, "tools: [knife]", "tools: [knive]")
    text = errors(
        tmp_path,
        f"{guide}  - {{same-as: glue-left, id: x, with: {{left: right, left-seam: right-seam}}}}\n",
    )
    assert text.count('no tool "knive"') == 1


def test_places_after_a_repeat(tmp_path):
    """Steps after a repeat keep their own lines and numbers."""
    entries = "  - {same-as: glue-left, id: x, with: {left: right, left-seam: right-seam}}\n  - {id: y, title: Y, stage: care, text: '[no](piece:no)', time: 1}\n"
    text = errors(tmp_path, BASE + entries)
    assert f"/cuff/guide.yaml:{len(BASE.splitlines()) + 2}:" in text
    assert "  steps[6].text: " in text


@pytest.mark.parametrize("shared", [False, True], ids=["of the guide", "of the stock"])
def test_a_sequence_is_written_once(tmp_path, shared):
    """The steps of a sequence come out with the pieces, materials and numbers of the use."""
    sequences = f"sequences:\n{DIP}"
    guide = GUIDE + USE if shared else changed(GUIDE, "steps:\n", f"{sequences}steps:\n") + USE
    stock = STOCK + sequences if shared else STOCK
    file = read(tmp_path, guide, stock)
    coat, hang = file.guide.steps[-2:]
    assert (coat.id, coat.title) == ("bath-coat", "Dip the cuff and plate")
    assert (coat.parts, coat.needs) == (("cuff", "plate"), ("paint",))
    assert coat.text == (
        "[Cuff](piece:cuff) and [plate](piece:plate) goes into the bath. "
        "Let [cuff](piece:cuff) and [plate](piece:plate) drip."
    )
    assert (coat.check, coat.trouble[0].sign) == (
        "The cuff and plate is wet.",
        "Cuff and plate drips",
    )
    (use,) = coat.uses
    assert use.material == "paint"
    assert use.amount is not None and use.amount.value({}) == 14
    assert (hang.id, hang.needs) == ("bath-hang", ("bath-coat", "bend"))
    assert errors(tmp_path / "whole", guide, stock) == ""


def test_places_of_a_sequence(tmp_path):
    """What stands in the sequence is told there; what a use gives is told at the use."""
    guide = changed(GUIDE, "steps:\n", f"sequences:\n{DIP}steps:\n")
    bad = changed(
        guide,
        "process: painting\n        parts: [piece]",
        "process: paintin\n        parts: [piece]",
    )
    text = errors(tmp_path / "a", bad + USE)
    assert 'sequences.dip.steps[0].process: no process "paintin"' in text
    line = bad.splitlines().index("        process: paintin") + 1
    assert f"/cuff/guide.yaml:{line}:18" in text
    text = errors(tmp_path / "b", guide + changed(USE, "[cuff, plate]", "[cuff, plat]"))
    assert 'steps[4].with.piece: no part "plat" in this guide; did you mean "plate"?' in text
    line = len((guide + USE).splitlines())
    assert f"/cuff/guide.yaml:{line}:" in text
    text = errors(
        tmp_path / "c",
        GUIDE + changed(USE, "coat: paint", "coat: pain"),
        f"{STOCK}sequences:\n{DIP}",
    )
    assert 'steps[4].with.coat: no material "pain" in stock; did you mean "paint"?' in text


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("sequence: dip", "sequence: dipp", 'no sequence "dipp" in this guide or in stock; did you mean "dip"?'),
        (", stand: bend", "", "the sequence also takes stand (where it hangs)"),
        ("much: 7", "much: 7, more: 8", 'steps[4].with.more: the sequence takes no "more"; there are: coat, much, piece, stand'),
        ("much: 7", "much: seven", 'no measurement or value "seven"'),
        ("much: 7", "much: 7 +", "cannot read"),
        ("    id: bath\n", "", 'needs the key "id"'),
        ("id: bath", "id: cut\n    title: no", 'no key "title" here'),
        ("coat: paint", "coat: [paint, cement]", "expected lower case words with hyphens"),
    ],
)  # fmt: skip
def test_slips_in_uses(tmp_path, old, new, message):
    """A slip in the use of a sequence is told with what was expected."""
    guide = changed(GUIDE, "steps:\n", f"sequences:\n{DIP}steps:\n") + changed(USE, old, new)
    assert message in errors(tmp_path, guide)


def test_sequences_are_checked_though_nobody_uses_them(tmp_path):
    """Names in curly brackets, keys and names of the stock are checked in the sequence itself."""
    sequence = changed(DIP, "Dip the {piece}", "Dip the {peice}")
    guide = changed(GUIDE, "steps:\n", f"sequences:\n{sequence}steps:\n")
    assert (
        'sequences.dip.steps[0].title: the sequence takes no "peice"; did you mean "piece"?'
        in errors(tmp_path / "a", guide)
    )
    guide = changed(
        GUIDE, "steps:\n", f"sequences:\n{changed(DIP, 'stage: sealing', 'stage: sealin')}steps:\n"
    )
    assert "sequences.dip.steps[0].stage: expected one of" in errors(tmp_path / "b", guide)
    stock = f"{STOCK}sequences:\n{changed(DIP, 'process: painting', 'process: dipping')}"
    assert 'sequences.dip.steps[0].process: no process "dipping" in stock' in errors(
        tmp_path / "c", GUIDE, stock
    )
    stock = f"{STOCK}sequences:\n{sequence}"
    assert 'sequences.dip.steps[0].title: the sequence takes no "peice"' in errors(
        tmp_path / "d", GUIDE, stock
    )


def test_sequences_may_be_repeated(tmp_path):
    """A step that came out of a sequence can be repeated like any other."""
    guide = changed(GUIDE, "steps:\n", f"sequences:\n{DIP}steps:\n") + USE
    step = read(
        tmp_path, f"{guide}  - {{same-as: bath-hang, id: again, with: {{cuff: plate}}}}\n"
    ).guide.steps[-1]
    assert (step.parts, step.needs) == (("plate",), ("bath-coat", "bend"))


def test_expansion_is_bounded(tmp_path):
    """Repeats cannot make more steps than a guide may have, nor texts or lists without end."""
    many = "".join(f"  - {{same-as: cut, id: cut-{n}}}\n" for n in range(MAX_STEPS + 5))
    text = errors(tmp_path / "a", GUIDE + many)
    assert text.count(f"more than {MAX_STEPS} steps in one guide") == 1
    long = changed(DIP, "Dip the {piece}", "Dip").replace(
        '"{piece} goes', '"' + "{piece} " * 2000 + "goes"
    )
    guide = changed(GUIDE, "steps:\n", f"sequences:\n{long}steps:\n")
    assert "a text grows longer than" in errors(
        tmp_path / "b", guide + changed(USE, "[cuff, plate]", "[" + "cuff, " * 39 + "plate]")
    )
    parts = ", ".join(f"p{n}" for n in range(3000))
    wide = f"title: x\nsteps:\n- {{id: a, parts: [{parts}]}}\n"
    wide += "".join(f"- {{same-as: a, id: a{n}}}\n" for n in range(300))
    value, source, _ = read_tree(wide, "g.yaml")
    expanded, moved, problems = expand_steps(value, source, {})
    assert [problem.code for problem in problems] == ["too-many-steps"]
    assert len(moved.moved) < 2 * MAX_VALUES
    assert isinstance(expanded, dict)


@pytest.mark.parametrize(
    "steps",
    ["- 1", "- [same-as]", "- {same-as: [a]}", "- {same-as: a, id: {}}", "- {sequence: s}",
     "- {id: a, uses: 5, parts: {a: b}}\n- {same-as: a, id: b}",
     "- {id: a, uses: [5, {glue: x}, {cover: [[]]}], parts: [[1]], time: soon, title: [x]}\n- {same-as: a, id: b, times: 2}",
     "- {id: [], same-as: a}\n- {id: 7, time: 1}\n- {same-as: 7, id: 8}",
     "- {sequence: s, id: a, with: {r: [[], {}]}}", "{a: b}", "same-as"],
)  # fmt: skip
def test_shapeless_steps_are_left_to_the_reader(steps):
    """Whatever stands in steps, expansion never crashes; typing tells what is wrong."""
    text = f"sequences: {{s: {{about: x, takes: {{r: y}}, steps: [{{id: a, title: t, stage: care, text: x, time: 1}}]}}}}\nsteps:\n{steps}\n"
    value, source, _ = read_tree(text, "g.yaml")
    expand_steps(value, source, {})


@settings(max_examples=40, deadline=None)
@given(st.recursive(st.none() | st.integers(0, 3) | st.sampled_from(["a", "s", "same-as", "r"]),
                    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(
                        st.sampled_from(["id", "same-as", "sequence", "with", "parts", "uses", "glue", "time", "title", "times", "r"]),
                        inner, max_size=5), max_leaves=20))  # fmt: skip
def test_any_values_as_steps(steps):
    """Expansion takes any values, and every trail of its answer leads to the author's file."""
    value = {
        "steps": [
            {"id": "a", "parts": ["r"], "time": 1},
            *(steps if isinstance(steps, list) else [steps]),
        ]
    }
    _, source, _ = read_tree("steps: []\n", "g.yaml")
    _, moved, problems = expand_steps(value, source, {})
    for trail in moved.moved:
        assert trail_text(moved.written(trail)).startswith("steps[")
        assert moved.place(trail).line == 1
    assert all(problem.place.file == "g.yaml" for problem in problems)
