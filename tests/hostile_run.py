"""Reads every hostile folder; run as a program in its own process.

It prints JSON: by case, how it ended ("problems", "accepted" or an exception), the words, whether
each problem has its place, and the seconds.
"""

import tempfile
from pathlib import Path

from bounded_cases import Ended, print_ends
from hostile_cases import Case, cases

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks
from guidegen.errors import GuidegenError
from guidegen.geometry.pieces.kit import make_kit
from guidegen.problems import Problem, Severity


def problems_of(folder: Path) -> list[Problem]:
    """What reading, the checks and the geometry find wrong."""
    try:
        content = read_content(folder)
    except GuidegenError as error:
        return list(getattr(error, "problems", []))
    found = [p for p in run_checks(content) if p.severity is Severity.ERROR]
    for file in content.guides if not found else ():
        for size in file.size_names():
            found.extend(make_kit(file, content.stock, size)[1])
    return [problem for problem in found if problem.severity is Severity.ERROR]


def end(case: Case) -> Ended:
    """How one case ends."""
    with tempfile.TemporaryDirectory() as name:
        case.make(Path(name))
        problems = problems_of(Path(name))
        return {
            "ended": "problems" if problems else "accepted",
            "words": "\n".join(map(str, problems)),
            "placed": all(name in problem.place.file for problem in problems),
        }


if __name__ == "__main__":
    print_ends(cases(), end, seconds=5, memory=1 << 30)
