"""Writes the list of libraries and their licences in guidegen/handbook/reference/libraries.md.

    ./start python .ci/licences.py

Names come from the installed guidegen and what it needs, licences from the libraries' own
descriptions, by way of pip-licenses. Versions and checksums stand in .locks/requirements.txt.
"""

import json
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from importlib.metadata import PackageNotFoundError, requires
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parents[1]
PAGE = ROOT / "guidegen" / "handbook" / "reference" / "libraries.md"

HEAD = """\
# Libraries and their licences

What guidegen needs to run, with everything that those libraries need themselves. Exact versions
and checksums are in `.locks/requirements.txt`; `./start` installs nothing else. The licence is as
each library's own description has it.

None of them is in a finished site but the two fonts and the search program; `guidegen licences`
tells what a site ships. The search program's own description says MIT; one of the parts compiled
into what it puts into a site is under GPL-3.0-only (`guidegen/licences/search.txt`).

This list is written by `./start python .ci/licences.py`; a test tells when it no longer fits.

To ask whether a version in use has a known weakness (needs the network, since the list of
weaknesses is kept by the Python Packaging Authority):

    ./start pip-audit --require-hashes --disable-pip -r .locks/requirements.txt

"""


def needed() -> dict[str, str]:
    """Every library that guidegen needs to run, and the extra by which it is chosen, if any."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    found: dict[str, str] = {}
    for extra, lines in (
        ("", project["dependencies"]),
        ("cluster", project["optional-dependencies"]["cluster"]),
        ("trace", project["optional-dependencies"]["trace"]),
    ):
        for name in _closure(lines):
            found.setdefault(name, extra)
    return dict(sorted(found.items()))


def _closure(lines: list[str]) -> Iterator[str]:
    """Names in requirements and in those of what they name, for any system."""
    waiting, seen = [Requirement(line) for line in lines], set()
    while waiting:
        one = waiting.pop()
        name = canonicalize_name(one.name)
        if name in seen:
            continue
        try:
            more = [Requirement(line) for line in requires(name) or ()]
        except PackageNotFoundError:
            continue  # for another system
        seen.add(name)
        yield name
        for extra in (*one.extras, ""):
            waiting += [
                need
                for need in more
                if need.marker is None or need.marker.evaluate({"extra": extra})
            ]


def licences(names: list[str]) -> dict[str, str]:
    """Licence of each library, as its own description has it."""
    command = [sys.executable, "-m", "piplicenses", "--format=json", "--from=mixed", "--with-urls"]
    done = subprocess.run(
        [*command, f"--python={sys.executable}"], capture_output=True, text=True, check=True
    )
    rows = {canonicalize_name(row["Name"]): row for row in json.loads(done.stdout)}
    return {name: " ".join(rows[name]["License"].split()) for name in names if name in rows}


def page() -> str:
    """The text of the page."""
    names = needed()
    found = licences([*names])
    lines = ["| library | licence |", "| --- | --- |"]
    for name, extra in names.items():
        mark = f" (extra `{extra}`)" if extra else ""
        lines.append(f"| {name}{mark} | {found.get(name, 'UNKNOWN').replace('|', '/')} |")
    return HEAD + "\n".join(lines) + "\n"


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
