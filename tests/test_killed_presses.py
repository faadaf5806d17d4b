"""Whole presses are killed: whatever they were at, the old output stays, and the next one works."""

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

from quick_press import THEMES, quick_options
from samples import GUIDE, SITE, changed, unplaced, write_content

from guidegen.app.commands.press import press
from guidegen.progress import Silent
from guidegen.write.index import is_whole, load_index

ONE_SIZE = changed(GUIDE, "  S: {forearm: 250, wrist: 160}\n", "")
SMALL = unplaced(changed(ONE_SIZE, "    hand: pair\n", ""))
KILLS = int(os.environ.get("GUIDEGEN_KILLS", "2"))
"""Presses that are killed. By hand: GUIDEGEN_KILLS=50."""


def start(folder: Path, workers: int, *more: str) -> subprocess.Popen[bytes]:
    """A press of one edition of the sample."""
    command = [sys.executable, "-m", "guidegen", "press", "--content", str(folder / "content")]
    command += ["--themes", str(THEMES), "--out", str(folder / "out"), "--quiet"]
    command += ["--nesting-time", "0", "--editions", "checklist", "--workers", str(workers)]
    return subprocess.Popen([*command, *more])


def edit(folder: Path, turn: int) -> str:
    """Another text of a step, which the page of steps shows."""
    text = f"Warm it {turn} times."
    guide = folder / "content" / "cuff" / "guide.yaml"
    guide.write_text(changed(SMALL, "Warm it and bend it.", text), encoding="utf-8")
    return text


def shown(folder: Path) -> str:
    """The steps page of the output, once every file of it is known to be as it was written."""
    out = folder / "out"
    assert is_whole(out, load_index(out))
    return (out / "cuff" / "steps.html").read_text(encoding="utf-8")


def test_killed_at_any_moment_of_a_press(tmp_path: Path) -> None:
    """Killed at seeded moments from its start to its end, with one worker and with two.

    The output is the whole old one, or the whole new one where the press had published it; the
    next press makes the new one and leaves nothing else behind.
    """
    write_content(tmp_path / "content", guide=SMALL, site=SITE + "papers: [a4]\n")
    old = edit(tmp_path, 0)
    began = time.monotonic()
    assert start(tmp_path, 1).wait(timeout=120) == 0
    lasts = time.monotonic() - began
    assert old in shown(tmp_path)
    chance = random.Random(50)
    for turn in range(1, KILLS + 1):
        new = edit(tmp_path, turn)
        process = start(tmp_path, 1 + turn % 2, "--afresh")
        time.sleep((turn - 1 + chance.random()) / KILLS * lasts)
        ended = process.poll() is not None
        process.send_signal(signal.SIGKILL)
        process.wait(timeout=60)
        page = shown(tmp_path)
        assert new in page or (old in page and not ended)
        press(quick_options(tmp_path / "content", tmp_path / "out"), Silent())
        assert new in shown(tmp_path)
        assert {path.name for path in tmp_path.iterdir()} <= {
            "content",
            "out",
            ".guidegen",
        }
        old = new
