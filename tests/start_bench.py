"""A small project for the tests of `start`: its packages lie in a local folder, no network."""

import base64
import hashlib
import os
import shutil
import subprocess
import sys
import zipfile
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).parent.parent
PYTHON = Path(sys.base_prefix) / "bin" / f"python{sys.version_info.major}.{sys.version_info.minor}"

# All that `start` may take from the system, so that a test decides what else is there.
TOOLS = ("sh", "env", "cat", "cksum", "dirname", "find", "grep", "id", "ls", "mkdir", "rm", "sed")
TOOLS += ("sort", "tail", "touch")

BACKEND = '''
"""Builds the small project: a path file and one command."""
import zipfile

def build_editable(wheel_directory, config_settings=None, metadata_directory=None):
    import os
    name = "guidegen-1-py3-none-any.whl"
    info = "guidegen-1.dist-info/"
    with zipfile.ZipFile(os.path.join(wheel_directory, name), "w") as wheel:
        wheel.writestr("guidegen.pth", os.getcwd())
        wheel.writestr(info + "METADATA", "Metadata-Version: 2.1\\nName: guidegen\\nVersion: 1\\n")
        wheel.writestr(info + "WHEEL",
                       "Wheel-Version: 1.0\\nRoot-Is-Purelib: true\\nTag: py3-none-any\\n")
        wheel.writestr(info + "entry_points.txt", "[console_scripts]\\nguidegen = echo:main\\n")
        wheel.writestr(info + "RECORD", "")
    return name
'''

ECHO = """
import os, sys

def main():
    print(os.getcwd(), *sys.argv[1:], sep="|")
    return 7 if "fail" in sys.argv else 0
"""

# Loads only while the file that stands for the libraries is there.
FFI = """
import os
if not os.path.exists(os.environ["LIBRARIES"]):
    raise OSError("cannot load library 'libpango-1.0-0'")
harfbuzz_subset = True
"""

# An installer that keeps a record, fails until its lists are updated, then brings the libraries.
INSTALLER = """#!/bin/sh
echo "${0##*/} $*" >>"$RECORD"
case "$1" in update) touch "$RECORD.updated" ;; esac
[ -e "$RECORD.updated" ] || exit 1
touch "$LIBRARIES"
"""


def write_wheel(folder: Path, name: str, files: dict[str, str]) -> str:
    """Write a pure Python wheel into the folder and return its line for the lock."""
    path = folder / f"{name}-1-py3-none-any.whl"
    info = f"{name}-1.dist-info"
    files = files | {
        f"{info}/METADATA": f"Metadata-Version: 2.1\nName: {name}\nVersion: 1\n",
        f"{info}/WHEEL": "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n",
    }
    with zipfile.ZipFile(path, "w") as wheel:
        record = ""
        for file, text in files.items():
            wheel.writestr(file, text)
            digest = base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest())
            record += f"{file},sha256={digest.decode().rstrip('=')},{len(text.encode())}\n"
        wheel.writestr(f"{info}/RECORD", record + f"{info}/RECORD,,\n")
    return f"{name}==1 --hash=sha256:{hashlib.sha256(path.read_bytes()).hexdigest()}\n"


def write_script(path: Path, text: str) -> None:
    """Write an executable file."""
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text)
    path.chmod(0o755)


@dataclass
class Bench:
    """A project folder with `start`, the tools it finds, and the settings it runs with."""

    project: Path
    tools: Path
    settings: dict[str, str] = field(default_factory=dict)

    def command(self, *words: str, **settings: str) -> tuple[list[str], dict[str, str]]:
        """Return the words and the whole environment of one start."""
        environment = {"PATH": str(self.tools), **self.settings, **settings}
        return [str(self.tools / "sh"), str(self.project / "start"), *words], environment

    def start(self, *words: str, **settings: str) -> subprocess.CompletedProcess[str]:
        """Run `start` from the root folder, as from anywhere else."""
        command, environment = self.command(*words, **settings)
        pipe = subprocess.PIPE
        return subprocess.run(
            command,
            env=environment,
            cwd="/",
            stdin=subprocess.DEVNULL,
            stdout=pipe,
            stderr=pipe,
            text=True,
            timeout=120,
            check=False,  # the status is what tests look at
        )

    def begin(self, *words: str) -> subprocess.Popen[str]:
        """Begin a start in a process group of its own."""
        command, environment = self.command(*words)
        pipe = subprocess.PIPE
        return subprocess.Popen(
            command, env=environment, stdout=pipe, stderr=pipe, text=True, start_new_session=True
        )

    def forget(self, mark: str) -> None:
        """Remove one of the marks of a finished step."""
        (self.project / ".venv" / mark).unlink()

    def fake(self, name: str, text: str) -> None:
        """Put a command of our own among the tools."""
        (self.tools / name).unlink(missing_ok=True)
        write_script(self.tools / name, text)


def make_bench(folder: Path) -> Bench:
    """Lay out a small project, a folder of wheels and a folder of tools; nothing is set up yet."""
    bench = Bench(project=folder / "the project's folder", tools=folder / "tools")
    wheels = folder / "wheels"
    for made in (wheels, bench.tools, bench.project / ".locks", folder / "no home"):
        made.mkdir(parents=True)
    for tool in TOOLS:
        (bench.tools / tool).symlink_to(Path(shutil.which(tool) or tool).resolve())
    (bench.tools / "python3").symlink_to(PYTHON)
    shutil.copy(ROOT / "start", bench.project)
    (bench.project / "backend.py").write_text(BACKEND)
    (bench.project / "echo.py").write_text(ECHO)
    (bench.project / "pyproject.toml").write_text(
        '[build-system]\nrequires = []\nbuild-backend = "backend"\nbackend-path = ["."]\n'
    )
    entry = "[console_scripts]\npytest = echo:main\n"
    (bench.project / ".locks" / "requirements.txt").write_text(
        write_wheel(wheels, "weasyprint", {"weasyprint/text/ffi.py": FFI})
        + write_wheel(wheels, "pytest", {"pytest-1.dist-info/entry_points.txt": entry})
    )
    bench.settings = {
        "HOME": str(folder / "no home"),
        "PYENV_ROOT": str(folder / "no pyenv"),
        "PIP_CONFIG_FILE": os.devnull,
        "PIP_NO_INDEX": "1",
        "PIP_FIND_LINKS": wheels.as_uri(),
        "LIBRARIES": str(folder / "libraries"),
        "RECORD": str(folder / "record"),
    }
    (folder / "libraries").touch()
    return bench
