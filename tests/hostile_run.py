"""Reads every hostile folder, bounded in time and memory; run as a program in its own process.

It prints JSON: by case, how it ended ("problems", "accepted" or an exception), the words and the
seconds; and the most memory that was in use.
"""

import json
import resource
import signal
import sys
import tempfile
import time
from pathlib import Path

from hostile_cases import Case, cases

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks
from guidegen.errors import GuidegenError
from guidegen.geometry.pieces.kit import make_kit
from guidegen.problems import Problem, Severity

MAX_SECONDS = 5
MAX_MEMORY = 1 << 30
"""Bytes of address space, the interpreter and its libraries included."""


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


def run(case: Case) -> dict[str, object]:
    """One case, ended after MAX_SECONDS."""
    with tempfile.TemporaryDirectory() as name:
        case.make(Path(name))
        started = time.process_time()
        # Seconds of the processor: a busy machine must not fail a case.
        signal.setitimer(signal.ITIMER_PROF, MAX_SECONDS)
        try:
            problems = problems_of(Path(name))
            ended = "problems" if problems else "accepted"
            words = "\n".join(map(str, problems))
            placed = all(name in p.place.file for p in problems)
        except BaseException as error:  # whatever it is, the test shows it
            ended, words, placed = type(error).__name__, repr(error)[:400], False
        finally:
            signal.setitimer(signal.ITIMER_PROF, 0)
        seconds = time.process_time() - started
    return {"ended": ended, "words": words, "placed": placed, "seconds": seconds}


def _too_long(*_: object) -> None:
    raise TimeoutError


if __name__ == "__main__":
    signal.signal(signal.SIGPROF, _too_long)
    resource.setrlimit(resource.RLIMIT_AS, (MAX_MEMORY, MAX_MEMORY))
    results = {case.name: run(case) for case in cases()}
    json.dump(results, sys.stdout)
