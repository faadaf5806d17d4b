"""Python modules in → the same as bytecode of the Python that browsers run, out.

Compiling what a page imports takes a browser seconds at each visit; here it is done once. Only
Pyodide itself writes bytecode that it reads, so it is run, with Node.
"""

import base64
import json
import re
import shutil
import subprocess
import tempfile
from collections.abc import Mapping
from pathlib import Path

from guidegen.app.measured.packages import SECONDS, NotToBeHad, package_files

SCRIPT = Path(__file__).parent / "compile.mjs"

_NEEDED = (
    "package.json",
    "pyodide.mjs",
    "pyodide.asm.mjs",
    "pyodide.asm.wasm",
    "pyodide-lock.json",
    "python_stdlib.zip",
)


def compile_modules(sources: Mapping[str, bytes]) -> dict[str, bytes]:
    """Files by path, with `a/b.pyc` for each `a/b.py`; all as it is where there is no Node.

    Raises NotToBeHad where Pyodide cannot be fetched or Node does not run it.
    """
    node = shutil.which("node")
    if node is None:
        return dict(sources)  # slower to start, and sound
    modules = {path: data for path, data in sources.items() if path.endswith(".py")}
    made = _compile(node, modules)
    return {path: data for path, data in sources.items() if path not in modules} | made


def _compile(node: str, modules: Mapping[str, bytes]) -> dict[str, bytes]:
    files = package_files("pyodide")
    given = {path: base64.b64encode(data).decode() for path, data in sorted(modules.items())}
    with tempfile.TemporaryDirectory(prefix="guidegen-") as name:
        folder = Path(name)
        for file in _NEEDED:
            (folder / file).write_bytes(files[file])
        (folder / "in.json").write_text(json.dumps(given), encoding="utf-8", newline="\n")
        out = folder / "out.json"
        try:
            subprocess.run(  # noqa: S603 - a script of ours
                [node, str(SCRIPT), name, str(folder / "in.json"), str(out)],
                check=True,
                timeout=SECONDS,
                stdin=subprocess.DEVNULL,
                capture_output=True,
                cwd=name,
            )
            text = out.read_bytes()
        except subprocess.CalledProcessError as error:
            said = said_of(error.stderr.decode(errors="replace"))
            raise NotToBeHad(f"Node does not run Pyodide: {said}") from None
        except (OSError, subprocess.TimeoutExpired) as error:
            raise NotToBeHad(f"Node does not run Pyodide: {type(error).__name__}") from None
    return {path: base64.b64decode(data) for path, data in json.loads(text).items()}


_LETTERS = 200
"""Of what Node says that are told: it shows whole lines of scripts that have 50,000."""


def said_of(stderr: str) -> str:
    """The line of a failure of Node that names the error, else its last one, cut short."""
    lines = [line.strip()[:_LETTERS] for line in stderr.splitlines() if line.strip()]
    named = [line for line in lines if re.match(r"(Uncaught )?\w*Error\b", line)]
    return (named or lines or [""])[-1]
