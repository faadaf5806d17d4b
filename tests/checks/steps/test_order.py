"""Rules of order: each has a guide that keeps it and one that breaks it."""

from pathlib import Path

import pytest
from samples import GUIDE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks
from guidegen.quantities import exact_words

RULES = STOCK[STOCK.index("rules:\n") : STOCK.index("terms:\n")]


def report(folder: Path, rules: str, guide: str = GUIDE) -> str:
    """All findings in words, with these rules only."""
    stock = changed(STOCK, RULES, f"rules:\n{rules}\n")
    content = read_content(write_content(folder, guide=guide, stock=stock))
    return "\n".join(f"{problem.code}: {problem}" for problem in run_checks(content))


def test_order_is_told_with_both_steps_reason_and_source(tmp_path):
    """A rule that is broken names both steps, the part, why, and who says so."""
    rule = "  - {first: painting, then: gluing, reason: dust sticks, source: a handbook}"
    text = report(tmp_path / "a", rule)
    assert (
        'steps[2].process: "Paint" (painting) must come before "Glue the cuff" (gluing) on cuff: '
        "dust sticks (a handbook)"
    ) in text
    assert text.startswith("order-rule: ")
    assert report(tmp_path / "b", "  - {first: gluing, then: painting, reason: x}") == ""


def test_a_warning_is_a_warning(tmp_path):
    """A rule of level warn tells the author and stops nothing."""
    rule = "  - {first: painting, then: gluing, level: warn, reason: x}"
    assert "steps[2].process: warning: " in report(tmp_path, rule)


def test_a_named_second_pass_may_come_late(tmp_path):
    """A second pass with a name does not break the order; the first one still must be right."""
    rule = "  - {first: forming, then: painting, reason: heat blisters paint}"
    late = ("  - id: warm\n    title: Warm it again\n    stage: fitting\n    process: forming\n"
            "    parts: [cuff]\n    text: Warm.\n    time: 1 min\n")  # fmt: skip
    assert '"Warm it again" (forming) must come before "Paint"' in report(
        tmp_path / "a", rule, GUIDE + late
    )
    assert report(tmp_path / "b", rule, f"{GUIDE}{late}    again: a dent is taken out\n") == ""


def test_parts_of_joints_count(tmp_path):
    """A seam's part that the step does not list follows the rules as well."""
    rule = "  - {first: painting, then: gluing, reason: x}"
    guide = changed(GUIDE, "    parts: [cuff, plate]\n    seams", "    parts: [plate]\n    seams")
    assert 'must come before "Glue the cuff" (gluing) on cuff' in report(tmp_path, rule, guide)


@pytest.mark.parametrize(
    ("wait", "between", "told"),
    [
        ("10 min", "", False),  # the process's own wait
        ("11 min", "", True),
        ("16 min", "parts: [cuff]", False),  # 10 min of waiting and 6 of work on the part
        ("17 min", "parts: [cuff]", True),
        ("16 min", "", True),
        ("16 min", "parts: [plate]", True),  # other work may be done by a helper meanwhile
        ("16 min", "all", False),  # a step without parts waits for everything
    ],
)
def test_waits_are_counted_on_the_part(tmp_path, wait, between, told):
    """Only waits and work that nobody can do meanwhile count between two steps on one part."""
    rule = f"  - {{first: gluing, then: painting, wait: {wait}, reason: glue drags}}"
    step = ""
    if between:
        parts = "" if between == "all" else f"    {between}\n"
        step = ("  - id: look\n    title: Look\n    stage: detailing\n"
                f"{parts}    text: Look.\n    time: 6 min\n")  # fmt: skip
    text = report(tmp_path, rule, changed(GUIDE, "  - id: paint\n", f"{step}  - id: paint\n"))
    assert (text != "") is told
    if told:
        assert text.startswith("too-soon: ")
        assert f'after "Glue the cuff" (gluing) on cuff, but {wait} are needed: glue drags' in text


def test_waits_between_coats_of_one_process(tmp_path):
    """A rule from a process to itself asks for a wait, not for an order."""
    second = ("  - id: paint-2\n    title: Paint again\n    stage: painting\n    process: painting\n"
              "    parts: [cuff]\n    text: Paint.\n    time: 1 min\n")  # fmt: skip
    rule = "  - {first: painting, then: painting, wait: 20 min, reason: the first coat lifts}"
    assert "may begin no time after" in report(tmp_path / "a", rule, GUIDE + second)
    waits = changed(
        GUIDE, "    text: Two thin coats.\n", "    text: Two thin coats.\n    wait: 20 min\n"
    )
    assert report(tmp_path / "b", rule, waits + second) == ""


def test_rules_by_caution(tmp_path):
    """A rule may mean every step that a hazard reaches, by whatever tool or material."""
    rule = "  - {first: wet-paint, then: solvent, by: caution, reason: x}"
    text = report(tmp_path, rule)
    assert (
        'steps[2]: "Paint" (wet-paint) must come before "Glue the cuff" (solvent) on cuff' in text
    )


def test_rules_name_what_there_is(tmp_path):
    """Names of a rule by caution are looked up among cautions."""
    rule = "  - {first: solvet, then: cutting, by: caution, reason: x}"
    text = report(tmp_path, rule)
    assert 'rules[0].first: no caution "solvet" in stock; did you mean "solvent"?' in text
    assert 'rules[0].then: no caution "cutting" in stock' in text


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (0, "no time"),
        (5, "5 min"),
        (60, "1 h"),
        (90, "1 h 30 min"),
        (1440, "1 d"),
        (1501, "1 d 1 h 1 min"),
    ],
)
def test_words_of_minutes(minutes, words):
    """Times are told as an author writes them."""
    assert exact_words(minutes) == words
