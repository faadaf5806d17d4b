"""Same input, same bytes, whatever the day, the place and the language of the machine."""

import os
import subprocess
import sys
from pathlib import Path

from samples import GUIDE, SITE, changed, write_content

THEMES = Path(__file__).parent.parent / "themes"
SMALL = changed(GUIDE, "  S: {forearm: 250, wrist: 160}\n", "")

DAYS = (
    {"TZ": "Etc/GMT+12", "LANG": "C.UTF-8", "PYTHONHASHSEED": "1"},
    {"TZ": "Pacific/Kiritimati", "LANG": "de_DE.UTF-8", "PYTHONHASHSEED": "2"}
    | {"SOURCE_DATE_EPOCH": "86400"},
)
"""There it is always another day than in the first place: 26 hours lie between them."""


def start(folder: Path, environment: dict[str, str], workers: int) -> subprocess.Popen[bytes]:
    """A press of the sample in this environment."""
    content = write_content(folder / "content", guide=SMALL, site=SITE + "papers: [a4]\n")
    command = [sys.executable, "-m", "guidegen", "press", "--content", str(content), "--quiet"]
    command += ["--themes", str(THEMES), "--out", str(folder / "out"), "--workers", str(workers)]
    command += ["--nesting-time", "0", "--editions", "archive"]
    return subprocess.Popen(command, env=os.environ | environment)


def made(folder: Path) -> dict[str, bytes]:
    """What it has made, by path."""
    return {
        path.relative_to(folder / "out").as_posix(): path.read_bytes()
        for path in (folder / "out").rglob("*")
        if path.is_file()
    }


def test_two_clean_folders_on_different_days(tmp_path: Path) -> None:
    """Two presses in folders of different names, days, time zones and languages agree in all, the
    one in its own process, the other in two more.

    SOURCE_DATE_EPOCH (reproducible-builds.org) asks to use its time in the place of the clock's:
    no clock is asked here, so it changes nothing either.
    """
    folders = [tmp_path / f"clone-{number}" for number in range(len(DAYS))]
    presses = [start(*one) for one in zip(folders, DAYS, (1, 2), strict=True)]
    assert [one.wait(timeout=300) for one in presses] == [0, 0]
    first, second = (made(folder) for folder in folders)
    assert first
    assert first.keys() == second.keys()
    assert [name for name in sorted(first) if first[name] != second[name]] == []
