"""Suppressed findings: kept silent with a reason, never errors, never for nothing."""

from pathlib import Path

import pytest
from samples import GUIDE, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.report.suppression import Findings, settle
from guidegen.checks.run import run_checks
from guidegen.findings.registry import PROOF_ALONE

LOST = changed(GUIDE, "  - id: bend", "  - id: look\n    title: Look\n    stage: preparing\n"
               "    text: Look at it.\n    time: 1 min\n    waive: [{caution: blade, reason: none}]\n"
               "  - id: bend")  # fmt: skip
"""The sample with one warning: a waiver of what does not apply."""


def findings(folder: Path, guide: str) -> Findings:
    """What counts and what is silent."""
    content = read_content(write_content(folder, guide=guide))
    return settle(content, run_checks(content))


@pytest.mark.parametrize("at", ["", "steps[1]", "steps.look", "steps.look.waive", "steps"])
def test_a_warning_is_kept_silent(tmp_path, at):
    """A suppression with its code, and a place at or above it, keeps a warning silent."""
    where = f'at: "{at}", ' if at else ""
    guide = LOST + f"suppress: [{{code: needless-waiver, {where}reason: a joke}}]\n"
    found = findings(tmp_path, guide)
    assert found.open == ()
    assert [(silent.problem.code, silent.reason) for silent in found.silent] == [
        ("needless-waiver", "a joke")
    ]


@pytest.mark.parametrize("at", ["steps[2]", "steps.bend", "step", "steps[1].waiv"])
def test_another_place_does_not_count(tmp_path, at):
    """Elsewhere the warning stays, and the suppression is reported as unused."""
    guide = LOST + f'suppress: [{{code: needless-waiver, at: "{at}", reason: a joke}}]\n'
    found = findings(tmp_path, guide)
    told = {problem.code: problem.message for problem in found.open}
    assert {*told} == {"needless-waiver", "unused-suppression"}
    assert (
        told["unused-suppression"] == f'nothing with the code "needless-waiver" was found at {at}'
    )
    assert found.silent == ()


def test_a_suppression_of_nothing_is_told(tmp_path):
    """One for the whole guide names no place."""
    found = findings(tmp_path, GUIDE + "suppress: [{code: order-rule, reason: a joke}]\n")
    (problem,) = found.open
    assert problem.message == 'nothing with the code "order-rule" was found'


def test_errors_are_never_suppressed(tmp_path):
    """An error stays an error; the suppression says why it has no effect."""
    guide = changed(GUIDE, "(piece:cuff)", "(piece:cufff)")
    found = findings(tmp_path, guide + "suppress: [{code: dead-reference, reason: later}]\n")
    assert [(p.code, str(p.severity)) for p in found.open] == [
        ("dead-reference", "error"), ("unused-suppression", "warning"),
    ]  # fmt: skip
    assert "errors cannot be suppressed" in found.open[1].message
    assert found.fails


def test_unknown_codes_are_errors(tmp_path):
    """A code that no finding has is told with the nearest one."""
    found = findings(tmp_path, GUIDE + "suppress: [{code: order-rul, reason: x}]\n")
    assert [problem.code for problem in found.open] == ["unknown-name"]
    assert 'did you mean "order-rule"?' in found.open[0].message


def test_a_reason_is_needed(tmp_path):
    """A suppression without a reason is refused when the file is read."""
    content = write_content(tmp_path, guide=GUIDE + "suppress: [{code: order-rule}]\n")
    with pytest.raises(Exception, match='needs the key "reason"'):
        read_content(content)


def test_findings_of_a_press_are_not_expected_of_proof(tmp_path):
    """A suppressed finding about the output may be missing: it arises in a press only."""
    found = findings(tmp_path, GUIDE + "suppress: [{code: solver-failed, reason: small}]\n")
    assert found.open == ()


def test_findings_of_proof_are_not_expected_of_a_press(tmp_path):
    """What only proof looks for may be suppressed without a press calling it needless; proof does."""
    guide = GUIDE + "suppress: [{code: in-body, at: parts.cuff, reason: soft}]\n"
    content = read_content(write_content(tmp_path, guide=guide))
    found = run_checks(content)
    assert settle(content, found, PROOF_ALONE).open == ()
    assert [one.code for one in settle(content, found).open] == ["unused-suppression"]
