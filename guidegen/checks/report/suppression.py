"""Findings in → those that count, and those that an author has weighed and keeps silent."""

import posixpath
import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Suppression
from guidegen.buildfile.yaml.tree import trail_text
from guidegen.findings.records import CodeGroup
from guidegen.findings.registry import CODES
from guidegen.problems import Problem, Severity, did_you_mean, has_errors, sort_problems


@dataclass(frozen=True, slots=True)
class SilentFinding:
    """A finding that the author keeps silent, and why."""

    problem: Problem
    reason: str


@dataclass(frozen=True, slots=True)
class Findings:
    """What was found, sorted."""

    open: tuple[Problem, ...]
    silent: tuple[SilentFinding, ...] = ()

    @property
    def fails(self) -> bool:
        """Whether anything stops a press."""
        return self.count(Severity.ERROR) > 0

    def count(self, severity: Severity) -> int:
        """How many open ones weigh this much."""
        return sum(problem.severity is severity for problem in self.open)


def check_suppressions(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Every suppression names a code that there is."""
    for number, suppression in enumerate(file.guide.suppress):
        if suppression.code not in CODES:
            hint = did_you_mean(suppression.code, CODES)
            message = f'no finding has the code "{suppression.code}"{hint}'
            yield file.source.problem("unknown-name", ("suppress", number, "code"), message)


def settle(
    content: Content, problems: Sequence[Problem], unasked: Collection[str] = ()
) -> Findings:
    """Part what is suppressed in guide.yaml from the rest; errors always count.

    Suppressions that nothing was found for are findings themselves, but for codes that were
    `unasked`: what nobody looked for may be there.
    """
    found = sort_problems(problems)
    silent: dict[Problem, str] = {}
    more: list[Problem] = []
    for file in content.guides:
        inside = [problem for problem in found if _is_of(problem, file)]
        for number, suppression in enumerate(file.guide.suppress):
            hits = [problem for problem in inside if _fits(problem, suppression, file)]
            for problem in hits:
                if problem.severity is not Severity.ERROR:
                    silent.setdefault(problem, suppression.reason)
            if hits or suppression.code not in unasked:
                more += _faults(file, number, suppression, hits)
    return Findings(
        tuple(sort_problems([*(p for p in found if p not in silent), *more])),
        tuple(SilentFinding(problem, silent[problem]) for problem in found if problem in silent),
    )


def _is_of(problem: Problem, file: GuideFile) -> bool:
    """Whether a finding stands in the guide's folder."""
    return problem.place.file.startswith(posixpath.dirname(file.source.file) + "/")


def _fits(problem: Problem, suppression: Suppression, file: GuideFile) -> bool:
    if problem.code != suppression.code:
        return False
    at = _written(suppression.at, file) if suppression.at else ""
    if not at:
        return True
    return problem.path == at or problem.path.startswith((f"{at}.", f"{at}["))


def _written(at: str, file: GuideFile) -> str:
    """A place as findings write it: steps.glue-cuff is the step with that id."""
    match = re.match(r"steps\.([a-z0-9-]+)", at)
    if match is None:
        return at
    for number, step in enumerate(file.guide.steps):
        if step.id == match[1]:
            return trail_text(file.source.written(("steps", number))) + at[match.end() :]
    return at


def _faults(
    file: GuideFile, number: int, suppression: Suppression, hits: list[Problem]
) -> Iterator[Problem]:
    """A suppression that keeps nothing silent."""
    code = suppression.code
    if has_errors(hits):
        yield file.source.problem(
            "unused-suppression",
            ("suppress", number),
            f'"{code}" is an error here, and errors cannot be suppressed',
        )
    elif not hits and code in CODES and CODES[code].group is not CodeGroup.OUTPUT:
        # Findings about the output arise in a press only.
        where = f" at {suppression.at}" if suppression.at else ""
        yield file.source.problem(
            "unused-suppression",
            ("suppress", number),
            f'nothing with the code "{code}" was found{where}',
        )
