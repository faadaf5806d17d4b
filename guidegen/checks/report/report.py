"""Findings in → a report out: words for people, JSON for programs, annotations for GitHub."""

import json
from collections.abc import Callable, Iterator, Mapping

from guidegen.checks.report.suppression import Findings
from guidegen.findings.records import Code, CodeGroup
from guidegen.findings.registry import CODES
from guidegen.problems import Problem, Severity, printable

JSON_VERSION = 1
"""Of the form of the JSON report; it changes when a key changes its meaning."""

_LEVELS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.ADVICE: "notice"}
"""Workflow commands by weight."""


def report_words(findings: Findings, *, everything: bool = False) -> str:
    """Groups in the order of the work; each finding with code, place, message, reason and cure.

    `everything` lists the suppressed ones as well.
    """
    lines: list[str] = []
    for group in CodeGroup:
        inside = [problem for problem in findings.open if _about(problem).group is group]
        if inside:
            lines += [group.upper(), ""]
            for problem in inside:
                lines += [*_words(problem), ""]
    if everything and findings.silent:
        lines += ["SUPPRESSED", ""]
        for silent in findings.silent:
            reason = printable(silent.reason)
            lines += [*_words(silent.problem), f"    suppressed: {reason}", ""]
    return "\n".join([*lines, summary(findings)])


def summary(findings: Findings) -> str:
    """The closing line."""
    counts = [
        _count(findings.count(Severity.ERROR), "error"),
        _count(findings.count(Severity.WARNING), "warning"),
        f"{findings.count(Severity.ADVICE)} advice",
    ]
    if findings.silent:
        counts.append(f"{len(findings.silent)} suppressed (--all lists them)")
    return ", ".join(counts)


def _count(number: int, thing: str) -> str:
    return f"{number} {thing}" if number == 1 else f"{number} {thing}s"


def _words(problem: Problem) -> Iterator[str]:
    about = _about(problem)
    path = f"{printable(problem.path)}: " if problem.path else ""
    yield f"{problem.place}  {problem.severity} {problem.code}"
    yield f"    {path}{printable(problem.message)}"
    yield from (f"    {line}" for line in problem.source_lines())
    yield f"    why   {about.why}"
    yield f"    cure  {_cure(problem)}"


def _cure(problem: Problem) -> str:
    """The finding's own cure, else that of its code, as a sentence."""
    text = printable(problem.cure) or _about(problem).cure
    return f"{text[:1].upper()}{text[1:]}" + ("" if text.endswith(".") else ".")


def report_json(findings: Findings) -> str:
    """The same as one JSON object, suppressed findings included and marked."""
    rows = [finding_row(problem) for problem in findings.open]
    rows += [
        finding_row(silent.problem) | {"suppressed": silent.reason} for silent in findings.silent
    ]
    report = {
        "version": JSON_VERSION,
        "counts": {
            **{str(severity): findings.count(severity) for severity in Severity},
            "suppressed": len(findings.silent),
        },
        "findings": rows,
    }
    return json_words(report)


def json_words(value: Mapping[str, object]) -> str:
    """JSON for a terminal: what strangers wrote steers neither it nor a robot that reads along."""
    text = json.dumps(value, indent=2, ensure_ascii=False)
    return "\n".join(_json_line(line) for line in text.split("\n"))


def _json_line(line: str) -> str:
    """A line of JSON with what would steer a terminal or a robot as JSON's own escapes."""
    line = line.replace("##", "#\\u0023")
    if line.isprintable():
        return line
    return "".join(
        letter if letter == printable(letter) else json.dumps(letter)[1:-1] for letter in line
    )


def finding_row(problem: Problem) -> dict[str, str | int | None]:
    """A finding as JSON has it."""
    about = _about(problem)
    return {
        "code": problem.code,
        "group": str(about.group),
        "severity": str(problem.severity),
        "file": problem.place.file,
        "line": problem.place.line or None,
        "column": problem.place.column or None,
        "path": problem.path,
        "message": problem.message,
        "why": about.why,
        "cure": _cure(problem),
    }


def report_annotations(findings: Findings) -> str:
    """Workflow commands, which GitHub shows beside the lines: ::error file=…,line=…::message.

    GitHub Docs, "Workflow commands for GitHub Actions"; advice becomes a notice.
    """
    return "\n".join(_annotation(problem) for problem in findings.open)


def _annotation(problem: Problem) -> str:
    place = problem.place
    properties = [("file", printable(place.file))]
    properties += [("line", str(place.line))] if place.line else []
    properties += [("col", str(place.column))] if place.line and place.column else []
    properties += [("title", problem.code)]
    written = ",".join(f"{key}={_property(value)}" for key, value in properties)
    path = f"{printable(problem.path)}: " if problem.path else ""
    return f"::{_LEVELS[problem.severity]} {written}::" + _data(
        f"{path}{printable(problem.message)}\n{_cure(problem)}"
    )


def _data(text: str) -> str:
    """A message in one line: per cent first, so that nothing is escaped twice."""
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    """A property, which also ends at a colon or comma."""
    return _data(text).replace(":", "%3A").replace(",", "%2C")


def _about(problem: Problem) -> Code:
    return CODES[problem.code]


FORMATS: Mapping[str, Callable[[Findings], str]] = {
    "words": report_words,
    "json": report_json,
    "annotations": report_annotations,
}
"""Forms of a report by their names."""
