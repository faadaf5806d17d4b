"""What one guide of the demo takes, for the simulation of a large site.

    python tests/benchmarks/bench_guide.py [GUIDE] [--json FILE]

Presses the guide afresh with the editions and papers of the demo's site, edits one step, presses
again and counts what differs: CPU seconds, files and bytes.
"""

import argparse
import hashlib
import json
import shutil
import sys
import tempfile
from pathlib import Path

from benchmarks.bench_catalogue import ROOT, processor, run


def files_of(out: Path) -> dict[str, tuple[int, str]]:
    """Bytes and SHA-256 of every file by path; the index of the press is not published."""
    found = {}
    for path in sorted(out.rglob("*")):
        if path.is_file() and path.name != ".guidegen":
            data = path.read_bytes()
            found[path.relative_to(out).as_posix()] = (len(data), hashlib.sha256(data).hexdigest())
    return found


def edit_step(file: Path) -> None:
    """Add a sentence to the text of the first step."""
    lines = file.read_text(encoding="utf-8").splitlines(keepends=True)
    first = next(n for n, line in enumerate(lines) if line.startswith("steps:"))
    text = 1 + next(n for n in range(first, len(lines)) if lines[n].strip() == "text: |")
    lines[text] = f"{lines[text].rstrip()} Take your time.\n"
    file.write_text("".join(lines), encoding="utf-8")


def measure(guide: str) -> dict[str, object]:
    """All figures of one guide."""
    with tempfile.TemporaryDirectory() as name:
        work = Path(name)
        shutil.copytree(ROOT / "content", work / "content")
        command = [sys.executable, "-m", "guidegen", "press", "--content", str(work / "content")]
        command += ["--out", str(work / "out"), "--themes", str(ROOT / "themes"), "--quiet"]
        command += ["--workers", "1", guide]
        fresh = run(command)
        before = files_of(work / "out")
        edit_step(work / "content" / guide / "guide.yaml")
        edited = run(command)
        after = files_of(work / "out")
    changed = [path for path in after if after[path] != before.get(path)]
    return {
        "guide": guide,
        "machine": processor(),
        "CPU seconds afresh": fresh.cpu,
        "MB of memory": fresh.memory,
        "files": len(before),
        "MB": sum(size for size, _ in before.values()) / 1e6,
        "CPU seconds after an edit": edited.cpu,
        "changed files": len(changed),
        "changed MB": sum(after[path][0] for path in changed) / 1e6,
    }


def main() -> None:
    """Print the figures, and write them as JSON where asked."""
    options = argparse.ArgumentParser()
    options.add_argument("guide", nargs="?", default="mooring-bracer")
    options.add_argument("--json", type=Path)
    asked = options.parse_args()
    found = measure(asked.guide)
    for name, value in found.items():
        print(f"{name}: {value:.2f}" if isinstance(value, float) else f"{name}: {value}")
    if asked.json:
        asked.json.write_text(json.dumps(found, indent=2) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
