"""How long people wait: the same work by two checkouts in turn, as a table.

    python tests/benchmarks/bench_waiting.py [--against CHECKOUT] [--rows demo,edit,…] [--rounds N]

The older checkout's demo is pressed by both, so that both do the same work; it runs in the same
environment. Rows: `demo` (a first press), `begin` (a first guide of one's own, begun and pressed),
`edit` (the text of one step of the largest guide, pressed again; needs `demo`), `fit` (one body),
`show` (until the first page is there), `explain` (why a finding matters). CPU seconds are those of
all processes of a command, which only Linux tells: there orphans are given to this process.
"""

import argparse
import ctypes
import os
import shutil
import socket
import subprocess
import sys
import tempfile
import time
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

from benchmarks.bench_catalogue import ROOT, processor
from benchmarks.bench_guide import edit_step

GUIDE = "slipway-marshal"
BODY = (
    "chest=1010,waist=880,back_length=440,shoulder_length=165,neck=400,upper_arm=330,forearm=285,"
    "wrist=178,forearm_length=270"
)
"""mm; a body between two sizes of the demo."""
ROWS = ("demo", "edit", "begin", "fit", "show", "explain")


def _environment(root: Path) -> dict[str, str]:
    """As `start` has it: modules that were compiled stay so, as they do for users."""
    kept = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    return kept | {"PYTHONPATH": str(root)}


@dataclass(frozen=True)
class Took:
    """Seconds of one command."""

    clock: float
    cpu: float


@dataclass(frozen=True)
class Checkout:
    """guidegen as it stands in one folder."""

    root: Path
    content: Path
    work: Path

    def guidegen(self, *arguments: str) -> Took:
        """Run a command to its end."""
        self.work.mkdir(exist_ok=True)
        started, before = time.perf_counter(), os.times()
        done = subprocess.run(
            [sys.executable, "-P", "-m", "guidegen", *arguments],
            cwd=self.work,
            env=_environment(self.root),
            capture_output=True,
            text=True,
            check=False,
        )
        clock = time.perf_counter() - started
        if done.returncode:
            raise SystemExit(done.stderr)
        with suppress(ChildProcessError):  # raised once all that it left running has ended
            while True:
                os.wait()
        after = os.times()
        cpu = after.children_user + after.children_system
        cpu -= before.children_user + before.children_system
        return Took(clock, cpu)

    def folders(self, content: Path) -> tuple[str, ...]:
        """The options that name content and themes."""
        return ("--content", str(content), "--themes", str(self.root / "themes"))

    def demo(self) -> Took:
        """A first press of the demo."""
        content = self.work / "content"
        shutil.rmtree(self.work, ignore_errors=True)
        shutil.copytree(self.content, content)
        return self.guidegen("press", *self.folders(content), "--out", "out", "--quiet")

    def edit(self) -> Took:
        """A press after an edit of one step of the largest guide."""
        content = self.work / "content"
        edit_step(content / GUIDE / "guide.yaml")
        return self.guidegen("press", *self.folders(content), "--out", "out", "--quiet")

    def begin(self) -> Took:
        """A first guide of one's own, with all that its first press makes."""
        shutil.rmtree(self.work / "mine", ignore_errors=True)
        self.guidegen("begin", "mine")
        return self.guidegen("press", *self.folders(Path("mine")), "--out", "mine-out", "--quiet")

    def fit(self) -> Took:
        """A pack for one body."""
        shutil.rmtree(self.work / "body", ignore_errors=True)
        measures = [part for one in BODY.split(",") for part in ("--measure", one)]
        return self.guidegen(
            "fit", GUIDE, *self.folders(self.content), *measures, "--out", "body", "--quiet"
        )

    def explain(self) -> Took:
        """What a finding means: nothing of a site has to be read for it."""
        return self.guidegen("proof", "--explain", "order-rule")

    def show(self) -> Took:
        """From the command to the first page."""
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        command = ["show", *self.folders(self.content), "--port", str(port)]
        self.work.mkdir(exist_ok=True)
        started = time.perf_counter()
        process = subprocess.Popen(
            [sys.executable, "-P", "-m", "guidegen", *command],
            cwd=self.work,
            env=_environment(self.root),
            stderr=subprocess.DEVNULL,
        )
        try:
            while not _has_page(port):
                time.sleep(0.02)
            return Took(time.perf_counter() - started, 0.0)
        finally:
            process.terminate()
            process.wait()


def _todays(content: Path, folder: Path) -> Path:
    """A copy of an older demo that today's reader takes: shops were free words once."""
    shutil.copytree(content, folder)
    for path in (folder / "stock.yaml", folder / "stock.de.yaml"):
        if path.is_file():
            lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
            kept = [line for line in lines if not line.lstrip().startswith("shop:")]
            path.write_text("".join(kept), encoding="utf-8")
    return folder


def _has_page(port: int) -> bool:
    try:
        with urlopen(f"http://127.0.0.1:{port}/", timeout=120) as answer:
            return b"<h1" in answer.read()
    except (URLError, ConnectionError):
        return False


SUBREAPER = 36
"""PR_SET_CHILD_SUBREAPER of prctl(2): processes whose parent has ended become ours."""


def main() -> None:
    """Print the table."""
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(SUBREAPER, 1, 0, 0, 0)
    parser = argparse.ArgumentParser()
    parser.add_argument("--against", type=Path)
    parser.add_argument("--rows", default=",".join(ROWS))
    parser.add_argument("--rounds", type=int, default=1)
    options = parser.parse_args()
    older = options.against or ROOT
    print(f"{processor()}, {os.cpu_count()} cores; content of {older.name}")
    print("| | seconds | CPU seconds | | seconds | CPU seconds |")
    print("| --- | ---: | ---: | --- | ---: | ---: |")
    with tempfile.TemporaryDirectory() as name:
        roots = dict.fromkeys((older.resolve(), ROOT))
        checkouts = [
            Checkout(
                root,
                older.resolve() / "content"
                if root != ROOT
                else _todays(older.resolve() / "content", Path(name) / "todays"),
                Path(name) / f"{number}",
            )
            for number, root in enumerate(roots)
        ]
        for row in options.rows.split(","):
            best: dict[Path, Took] = {}
            for _ in range(options.rounds):
                for one in checkouts:  # in turn, so that what else runs falls on both
                    took = getattr(one, row)()
                    if one.root not in best or took.clock < best[one.root].clock:
                        best[one.root] = took
            cells = [f"{one.root.name} | {t.clock:.1f} | {t.cpu:.1f}" for one, t in
                     ((one, best[one.root]) for one in checkouts)]  # fmt: skip
            print(f"| {row}, " + " | ".join(cells) + " |", flush=True)


if __name__ == "__main__":
    main()
