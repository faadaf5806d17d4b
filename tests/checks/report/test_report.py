"""Reports of findings: words, JSON, annotations."""

import json
import re

import pytest

from guidegen.checks.report.report import report_annotations, report_json, report_words, summary
from guidegen.checks.report.suppression import Findings, SilentFinding
from guidegen.problems import Place, Problem

WRONG = Problem(
    "unknown-name",
    Place("content/x/guide.yaml", 3, 13, "    material: foam-12"),
    "parts.cuff.material",
    'no material "foam-12" in stock',
)
SOON = Problem(
    "sooner-than-advised",
    Place("content/x/guide.yaml", 9, 5, "  - id: paint"),
    "steps[3]",
    "50 % too soon",
    "wait longer",
)
NOTE = Problem("waived-caution", Place("content/x/guide.yaml"), "", "left out")
FINDINGS = Findings((NOTE, SOON, WRONG), (SilentFinding(SOON, "the room is heated"),))


def test_words_are_grouped_in_the_order_of_work():
    """Names come before steps before cautions; each finding has code, place, reason and cure."""
    text = report_words(FINDINGS)
    places = [text.index(word) for word in ("NAMES", "foam-12", "STEPS", "too soon", "CAUTIONS")]
    assert places == sorted(places)
    assert (
        "content/x/guide.yaml:3:13  error unknown-name\n"
        '    parts.cuff.material: no material "foam-12" in stock\n'
        "        material: foam-12\n"
        "                ^\n"
        "    why   It refers to something that is not there.\n"
        "    cure  Correct the name, or add what it names.\n"
    ) in text
    assert "    cure  Wait longer.\n" in text
    assert text.endswith("1 error, 1 warning, 1 advice, 1 suppressed (--all lists them)")


def test_words_list_suppressed_findings_when_asked():
    """Suppressed findings and their reasons stand at the end, only when asked for."""
    assert "the room is heated" not in report_words(FINDINGS)
    assert "suppressed: the room is heated" in report_words(FINDINGS, everything=True)


def test_nothing_found():
    """An empty report is its closing line."""
    assert report_words(Findings(())) == summary(Findings(())) == "0 errors, 0 warnings, 0 advice"
    assert report_annotations(Findings(())) == ""


def test_json_holds_everything():
    """Programs get all keys of each finding, counts, and suppressed findings with reasons."""
    data = json.loads(report_json(FINDINGS))
    assert data["counts"] == {"error": 1, "warning": 1, "advice": 1, "suppressed": 1}
    wrong = next(row for row in data["findings"] if row["code"] == "unknown-name")
    assert wrong == {
        "code": "unknown-name",
        "group": "names",
        "severity": "error",
        "file": "content/x/guide.yaml",
        "line": 3,
        "column": 13,
        "path": "parts.cuff.material",
        "message": 'no material "foam-12" in stock',
        "why": "It refers to something that is not there.",
        "cure": "Correct the name, or add what it names.",
    }
    assert [row.get("suppressed") for row in data["findings"]][-1] == "the room is heated"


def test_annotations_have_the_published_form():
    """::level file=…,line=…,col=…,title=…::message, one line each; advice is a notice.

    GitHub Docs, "Workflow commands for GitHub Actions": error, warning, notice.
    """
    lines = report_annotations(FINDINGS).splitlines()
    assert lines[0] == (
        "::notice file=content/x/guide.yaml,title=waived-caution::left out%0A"
        "Nothing, if the reason holds."
    )
    assert lines[1].startswith(
        "::warning file=content/x/guide.yaml,line=9,col=5,title=sooner-than-advised::"
    )
    assert lines[2].startswith(
        "::error file=content/x/guide.yaml,line=3,col=13,title=unknown-name::"
    )
    assert all(re.match(r"::(error|warning|notice) [^:]*::.", line) for line in lines)


@pytest.mark.parametrize(
    ("file", "message", "line"),
    [
        # Escapes of the commands: % %25, CR %0D, LF %0A; in properties also : %3A and , %2C
        # (GitHub's own actions/toolkit, packages/core/src/command.ts; from memory).
        ("a,b:c%.yaml", "x", "::error file=a%2Cb%3Ac%25.yaml,title=bad-value::x%0A"),
        ("a.yaml", "1: 50 %, ::set-output\r\n::error::y",
         "::error file=a.yaml,title=bad-value::1: 50 %25, ::set-output\\x0d\\x0a::error::y%0A"),
        ("a\n::error::b", "x", "::error file=a\\x0a%3A%3Aerror%3A%3Ab,title=bad-value::x%0A"),
    ],
)  # fmt: skip
def test_annotations_are_escaped(file, message, line):
    """Neither a name nor a message can end its command or begin another one."""
    problem = Problem("bad-value", Place(file), "", message)
    written = report_annotations(Findings((problem,)))
    assert written.startswith(line)
    assert len(written.splitlines()) == 1
