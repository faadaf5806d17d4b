"""How many seeded faults the tests find: mutants of guidegen, each run against tests that touch it.

    git clone . /tmp/mutants
    cd /tmp/mutants/tests/benchmarks
    GUIDEGEN_LINES=/tmp/lines.json PYTHONPATH=/tmp/mutants:. pytest -p recording /tmp/mutants/tests
    PYTHONPATH=/tmp/mutants:. python mutate.py /tmp/lines.json --count 300 --seed 7 --quick
    PYTHONPATH=/tmp/mutants:. python mutate.py /tmp/lines.json --count 300 --seed 7 --only 12 27

The first gives all mutants the quick tests alone, the second all tests to those that are named.
Works in the tree that it stands in, file by file, and puts each file back: give it a clone of its
own. A line is printed for each mutant, then how many were killed by folder. A survivor may be
equivalent: read it, and close what is a hole with a test of the subject.

mutmut makes every mutant of a function at once behind a switch, and rewrites the modules whose
syntax trees tests here read; cosmic-ray runs one command for every mutant, which would be the whole
suite each time. This takes a random sample, and of each mutant only tests that run its line.
"""

import argparse
import importlib
import json
import os
import random
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import IO

import pytest
from mutants import Mutant, mutants_of

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "guidegen"
FOLDERS = ("geometry", "layout", "checks", "render/views", "pictures", "write")
SLOW = ("tests/journeys/", "tests/app/", "tests/benchmarks/")
LIBRARIES = ("hypothesis", "numpy", "playwright.sync_api", "pydantic", "scipy.spatial", "shapely")
ROUNDS = ((1, 40), (10, 250))
"""Times the seconds and how many tests at most: who survives the quick ones meets far more."""
PATIENCE = 10.0
"""A run may last this many times as long as its tests did when they were recorded, and 20 s."""

type Rounds = tuple[tuple[int, int], ...]
"""Of each round: times the seconds, how many tests."""

type Lines = dict[str, tuple[float, dict[str, str]]]
"""Test → seconds and, by file of the package, its lines as bits of a hexadecimal number."""


@dataclass(frozen=True, slots=True)
class Case:
    """A mutant in its file."""

    file: str
    mutant: Mutant

    @property
    def told(self) -> str:
        """Where it is and what it changes."""
        return f"{self.file}:{self.mutant.line} [{self.mutant.kind}] {self.mutant.what}"


def sample(folders: Iterable[str], count: int, seed: int) -> list[Case]:
    """A random choice of all mutants of the folders."""
    files = sorted(p for folder in folders for p in (PACKAGE / folder).rglob("*.py"))
    cases = [
        Case(path.relative_to(PACKAGE).as_posix(), mutant)
        for path in files
        for mutant in mutants_of(path.read_text(encoding="utf-8"))
    ]
    print(f"{len(cases)} mutants of {len(files)} files")
    return random.Random(seed).sample(cases, min(count, len(cases)))


def choose_tests(case: Case, lines: Lines, seconds: float, most: int) -> list[str]:
    """At most so many tests that run the mutant's line, the quickest first, then their neighbours.

    What a cached helper did is recorded of the first test that asked, so its neighbours count. Of
    a line that runs while its module is imported, tests count that run anything in the module.
    """
    bit = 1 << case.mutant.line
    touching = {name: int(files[case.file], 16) for name, (_, files) in lines.items()
                if case.file in files and not name.startswith(SLOW)}  # fmt: skip
    direct = [name for name, bits in touching.items() if bits & bit]
    homes = {name.partition("::")[0] for name in direct}
    near = [name for name in lines if name.partition("::")[0] in homes and name not in set(direct)]
    chosen: list[str] = []
    left = seconds
    for names in (direct or list(touching), near):
        for name in sorted(names, key=lambda name: (lines[name][0], name)):
            if lines[name][0] <= left and len(chosen) < most:
                chosen.append(name)
                left -= lines[name][0]
    return chosen


def run(case: Case, tests: Sequence[str], seconds: float) -> str:
    """'killed', 'survived', 'slow' or 'untested': what the tests say of a mutant."""
    if not tests:
        return "untested"
    path = PACKAGE / case.file
    source, stat = path.read_text(encoding="utf-8"), path.stat()
    path.write_text(case.mutant.applied(source), encoding="utf-8")
    try:
        return _in_child(tests, 20 + seconds * PATIENCE)
    finally:
        path.write_text(source, encoding="utf-8")
        os.utime(path, ns=(stat.st_atime_ns, stat.st_mtime_ns))


def _in_child(tests: Sequence[str], seconds: float) -> str:
    """Run tests in a fork of this process, which has loaded libraries and nothing of guidegen."""
    with tempfile.TemporaryFile() as told:
        said = _waited(_started(tests, told), seconds)
        if said.startswith("broken"):
            told.seek(0)
            print(told.read().decode(errors="replace"), file=sys.stderr, flush=True)
        return said


def _started(tests: Sequence[str], told: IO[bytes]) -> int:
    child = os.fork()
    if child == 0:
        os.setsid()
        os.dup2(told.fileno(), 1)
        os.dup2(told.fileno(), 2)
        options = ["-x", "-p", "no:cacheprovider", "--hypothesis-seed=0"]
        # Libraries are loaded before pytest, which would rewrite those that are its plugins.
        options += ["-W", "ignore::pytest.PytestAssertRewriteWarning"]
        code = pytest.main([*options, *tests])
        os._exit(int(code))
    return child


def _waited(child: int, seconds: float) -> str:
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            code = os.waitstatus_to_exitcode(status)
            # 4: a test that was named cannot be collected, since the fault strikes while its module
            # is loaded. Names are right: without any change they are all found (`check_runs`).
            killed = dict.fromkeys((1, 2, 4), "killed")
            return {0: "survived", **killed}.get(code, f"broken {code}")
        time.sleep(0.05)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return "slow"


def load_libraries() -> None:
    """Import what tests need besides guidegen, once for all children."""
    for name in LIBRARIES:
        importlib.import_module(name)
    assert not [name for name in sys.modules if name.partition(".")[0] == "guidegen"]


def check_runs(case: Case, lines: Lines, seconds: float) -> None:
    """Without any change the tests pass, or nothing that this finds means anything."""
    nothing = Case(case.file, Mutant(case.mutant.line, 0, 0, "", "nothing", "none"))
    said = run(nothing, choose_tests(case, lines, seconds, ROUNDS[0][1]), seconds)
    if said != "survived":
        sys.exit(f"the tests do not pass as things are: {said} at {case.told}")


def judge(case: Case, lines: Lines, seconds: float, rounds: Rounds) -> str:
    """Quick tests first; who survives them meets many more."""
    said = "untested"
    for times, most in rounds:
        tests = choose_tests(case, lines, times * seconds, most)
        said = run(case, tests, sum(lines[name][0] for name in tests))
        if said != "survived":
            break
    return said


def main() -> None:
    """Sample, run, print."""
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("lines", type=Path, help="what the plugin `recording` wrote")
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--folders", nargs="*", default=FOLDERS)
    parser.add_argument("--seconds", type=float, default=10.0, help="of tests for each mutant")
    parser.add_argument("--skip", type=int, default=0, help="mutants of the sample done before")
    parser.add_argument("--quick", action="store_true", help="the first round of tests alone")
    parser.add_argument("--only", type=int, nargs="*", help="numbers of the sample, from 1")
    wanted = parser.parse_args()
    lines: Lines = json.loads(wanted.lines.read_text(encoding="utf-8"))
    cases = sample(wanted.folders, wanted.count, wanted.seed)
    os.chdir(ROOT)
    sys.dont_write_bytecode = True
    load_libraries()
    rounds = ROUNDS[:1] if wanted.quick else ROUNDS
    numbers = wanted.only or range(wanted.skip + 1, len(cases) + 1)
    if not wanted.only:
        for case in cases[:: max(1, len(cases) // 5)]:
            check_runs(case, lines, wanted.seconds)
    found: Counter[tuple[str, str]] = Counter()
    signal.signal(signal.SIGTERM, lambda *_: sys.exit("stopped"))  # puts the file back
    for number in numbers:
        case = cases[number - 1]
        said = judge(case, lines, wanted.seconds, rounds)
        folder = next(one for one in wanted.folders if case.file.startswith(f"{one}/"))
        found[folder, said] += 1
        print(f"{number} {said} {case.told}", flush=True)
    for folder in wanted.folders:
        counts = ", ".join(
            f"{n} {said}" for (one, said), n in sorted(found.items()) if one == folder
        )
        print(f"{folder}: {counts or 'none'}")
    lost = sum(n for (_, said), n in found.items() if said in {"survived", "untested"})
    total = sum(found.values())
    print(f"seed {wanted.seed}: {total - lost} of {total} killed or never ending, {lost} alive")


if __name__ == "__main__":
    main()
