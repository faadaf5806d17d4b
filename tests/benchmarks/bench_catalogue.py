"""What pressing catalogues of growing size takes, afresh, without a change, after an edit.

    python tests/benchmarks/bench_catalogue.py [--guides 1,10,100,1000] [--workers 1] [--json FILE]

Each press is a process of its own, on the editions 'screen' and 'summary', one paper, without
search for cut plans. 'leads' is the memory of the process that leads the press, 'others' that of the
largest other one, the index tool where guides are many. CPU seconds compare from machine to machine; seconds by the clock depend on
what else runs. 'to imports' is a press without change over a Python that imports the same modules.
'to WeasyPrint' is all documents that WeasyPrint sets, with drawings looked up, texts filled in and
tags finished, over WeasyPrint alone for the same HTML, in one process.
"""

import argparse
import contextlib
import json
import math
import os
import platform
import re
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import asdict, dataclass, replace
from pathlib import Path

from benchmarks.catalogue import generate

from guidegen.app.commands.press import PressOptions, press
from guidegen.app.jobs import guides as jobs
from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.reader import read_content
from guidegen.buildfile.read.theme import read_theme
from guidegen.buildfile.records.site import choose_editions
from guidegen.geometry.pieces.kit import make_kit
from guidegen.render.booklets import editions
from guidegen.render.text.templates_engine import Theme

ROOT = Path(__file__).resolve().parents[2]
EDITIONS = "screen,summary"
SAME_IMPORTS = "import guidegen.cli, guidegen.app.jobs.press_state, guidegen.problems"


@dataclass(frozen=True)
class Run:
    """One process."""

    clock: float
    cpu: float
    """Seconds, with those of its workers."""
    memory: float
    """MB of the largest of them."""
    said: str


def run(command: list[str]) -> Run:
    """Run a command to its end."""
    started = time.perf_counter()
    with tempfile.TemporaryFile("w+") as said:
        process = subprocess.Popen(command, stdout=said, stderr=said, cwd=ROOT)
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        said.seek(0)
        text = said.read()
    if process.returncode:
        raise SystemExit(text)
    took = time.perf_counter() - started
    return Run(took, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024, text)


def best(command: list[str], times: int = 5) -> Run:
    """The run with the least CPU seconds: what else runs can only add."""
    return min((run(command) for _ in range(times)), key=lambda one: one.cpu)


def laps(command: list[str]) -> dict[str, float]:
    """Press in this process and print the seconds of each stage as the last line."""
    took: dict[str, float] = {}

    class Watch:
        """Notes when each stage begins."""

        def __init__(self) -> None:
            self.now, self.since = "reading", time.perf_counter()

        def stage(self, name: str, total: int) -> None:
            took[self.now] = time.perf_counter() - self.since
            self.now, self.since = name, time.perf_counter()

        def step(self, what: str) -> None:
            """Say nothing."""

    content, out, workers = command
    watch = Watch()
    press(
        PressOptions(
            content=Path(content),
            out=Path(out),
            themes=ROOT / "themes",
            nesting_seconds=0,
            workers=int(workers),
            editions=tuple(EDITIONS.split(",")),
        ),
        watch,
    )
    watch.stage("end", 0)
    usage = {"leads": resource.RUSAGE_SELF, "others": resource.RUSAGE_CHILDREN}
    took |= {f"{who} MB": resource.getrusage(of).ru_maxrss / 1024 for who, of in usage.items()}
    return took


def measure(work: Path, guides: int, workers: int) -> dict[str, object]:
    """All figures of a catalogue."""
    content = generate(work / "content", guides)
    fresh = run([sys.executable, __file__, "--laps", str(content), str(work / "out"), str(workers)])
    stages = json.loads(fresh.said.splitlines()[-1])
    command = [sys.executable, "-m", "guidegen", "press", "--content", str(content)]
    command += ["--out", str(work / "out"), "--themes", str(ROOT / "themes"), "--quiet"]
    command += ["--nesting-time", "0", "--workers", str(workers), "--editions", EDITIONS]
    same = best(command)
    if "nothing has changed" not in same.said:
        raise SystemExit(same.said)
    imports = best([sys.executable, "-c", SAME_IMPORTS])
    edit(content, "Two thin coats.", "Three thin coats.")
    edited = run(command)
    kept = re.search(r"(\d+) documents? as they were", edited.said)
    out = work / "out"
    index = work / ".guidegen" / "out.index"
    documents = json.loads(index.read_text(encoding="utf-8"))["sources"]
    files = [path.stat().st_size for path in out.rglob("*") if path.is_file()]
    return {
        "guides": guides,
        "sizes": len(list(out.glob("*/*/pack.zip"))),
        "documents": len(documents),
        "files": len(files),
        "MB": sum(files) / 1e6,
        "index MB": index.stat().st_size / 1e6,
        "first page kB": (out / "index.html").stat().st_size / 1e3,
        "fresh": asdict(fresh) | {"said": ""},
        "stages": stages,
        "unchanged": asdict(same) | {"said": ""},
        "to imports": same.cpu / imports.cpu,
        "edited": asdict(edited) | {"said": ""},
        "kept after an edit": int(kept[1]) / len(documents) if kept else 0.0,
    }


def edit(content: Path, before: str, after: str) -> None:
    """Change the first guide in one step."""
    file = content / "cuff-0" / "guide.yaml"
    text = file.read_text(encoding="utf-8")
    if before not in text:
        raise SystemExit(f"the sample no longer says {before}")
    file.write_text(text.replace(before, after, 1), encoding="utf-8")


def overhead(guides: int = 2) -> float:
    """CPU seconds of documents over those of WeasyPrint alone for the same HTML; the better of
    two rounds each, after one to warm up."""
    with tempfile.TemporaryDirectory() as folder:
        content = read_content(generate(Path(folder) / "content", guides))
    site = content.site.model_copy(update={"editions": choose_editions(EDITIONS.split(","))})
    content = replace(content, site=site)
    asked: list[Callable[[], bytes]] = []
    real = editions.write_pdf

    def remember(html: str, **more: object) -> bytes:
        asked.append(lambda: real(html, **more))
        return real(html, **more)

    editions.write_pdf = remember
    documents(content)
    editions.write_pdf = real
    ours, alone = [], []
    for _ in range(2):
        ours.append(documents(content))
        started = time.process_time()
        for one in asked:
            one()
        alone.append(time.process_time() - started)
    return min(ours) / min(alone)


def documents(content: Content) -> float:
    """CPU seconds of setting all documents, without planning and drawing."""
    theme = Theme("workshop", read_theme(ROOT / "themes", "workshop"))
    took = 0.0
    for file in content.guides:
        kits = tuple(make_kit(file, content.stock, size)[0] for size in file.size_names())
        sizes = tuple(jobs.plan_size(content, file, kit, "", 0).plan for kit in kits)
        plan = jobs.gather_plan(content, file, sizes)
        for size in sizes:
            drawn = jobs.draw_size(size, file.guide, content.stock, content.words)
            pictures = jobs.draw_guide(plan, {size.size: drawn}, content.stock, content.words)
            started = time.process_time()
            for _ in editions.edition_files(content, plan, size.size, pictures, theme):
                pass
            took += time.process_time() - started
    return took


def processor() -> str:
    """What the system calls its processor."""
    with contextlib.suppress(OSError):
        for line in Path("/proc/cpuinfo").read_text(encoding="utf-8").splitlines():
            if line.startswith("model name"):
                return line.partition(":")[2].strip()
    return platform.processor() or platform.machine()


def exponent(points: list[tuple[float, float]]) -> float:
    """Slope of a line through logarithms: 1 grows with the number of guides, 2 with its square."""
    xs = [math.log(x) for x, _ in points]
    ys = [math.log(y) for _, y in points]
    middle = sum(xs) / len(xs)
    spread = sum((x - middle) ** 2 for x in xs)
    return sum((x - middle) * y for x, y in zip(xs, ys, strict=True)) / spread


def main() -> None:
    """Print a table, and write it as JSON where asked."""
    options = argparse.ArgumentParser()
    options.add_argument("--guides", default="1,10,100,1000")
    options.add_argument("--workers", type=int, default=1)
    options.add_argument("--json", type=Path)
    options.add_argument("--laps", nargs=3, help=argparse.SUPPRESS)
    asked = options.parse_args()
    if asked.laps:
        print(json.dumps(laps(asked.laps)))
        return
    results = []
    head = ("guides", "sizes", "docs", "read", "plan", "make", "fresh", "same", "to imports")
    last = ("edited", "kept", "leads MB", "others MB")
    print(*(f"{word:>10}" for word in (*head, *last)), sep="")
    for guides in (int(number) for number in asked.guides.split(",")):
        with tempfile.TemporaryDirectory() as folder:
            found = measure(Path(folder), guides, asked.workers)
        results.append(found)
        stages, cells = found["stages"], [f"{found[name]:>10}" for name in ("guides", "sizes")]
        cells += [f"{found['documents']:>10}"]
        cells += [f"{stages[name]:>9.1f}s" for name in ("reading", "planning", "documents")]
        cells += [f"{found[name]['cpu']:>9.2f}s" for name in ("fresh", "unchanged")]
        cells += [f"{found['to imports']:>10.2f}", f"{found['edited']['cpu']:>9.1f}s"]
        cells += [f"{found['kept after an edit']:>10.1%}"]
        cells += [f"{stages[name]:>10.0f}" for name in ("leads MB", "others MB")]
        print("".join(cells), flush=True)
    help_ = best([sys.executable, "-m", "guidegen", "--help"])
    summary = {
        "machine": f"{processor()}, {os.cpu_count()} cores",
        "python": platform.python_version(),
        "workers": asked.workers,
        "help": help_.cpu,
        "to WeasyPrint": overhead(),
        "catalogues": results,
    }
    print(f"--help: {help_.cpu:.2f} s")
    print(f"documents to WeasyPrint alone: {summary['to WeasyPrint']:.2f}")
    if len(results) > 1:
        for name in ("fresh", "unchanged", "edited"):
            power = exponent([(one["guides"], one[name]["cpu"]) for one in results])
            summary[f"growth of {name}"] = power
            print(f"{name} grows with the number of guides to the power of {power:.2f}")
    if asked.json:
        asked.json.write_text(json.dumps(summary, indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
