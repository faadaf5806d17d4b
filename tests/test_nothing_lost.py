"""Whatever stops a press, the old output stays whole, the message is clear, the next one works."""

import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from quick_press import THEMES, quick_options
from samples import GUIDE, SITE, changed, unplaced, write_content

from guidegen.app.commands.press import press
from guidegen.progress import Silent

SMALL = unplaced(changed(GUIDE, "  S: {forearm: 250, wrist: 160}\n", ""))

PUBLISH = """
import sys
from pathlib import Path
from guidegen.errors import GuidegenError
from guidegen.write.staging import staging
try:
    with staging(Path(sys.argv[1])) as stage:
        for number in range(int(sys.argv[2])):
            stage.write(f"{number}.bin", bytes(100_000))
except GuidegenError as error:
    print(error)
"""
"""Publishes as many files as it is told, and prints what is in the way."""

AS_OWNER = ("setpriv", "--bounding-set=-dac_override,-dac_read_search", "--inh-caps=-all")
"""Root may write everywhere; without this capability modes hold for root too."""


def publish(out: Path, files: int, *prefix: str) -> str:
    """What a process says that publishes files."""
    command = [*prefix, sys.executable, "-c", PUBLISH, str(out), str(files)]
    return subprocess.run(command, capture_output=True, text=True, check=True).stdout


def obeying_modes() -> tuple[str, ...]:
    """What to put before a command so that modes of files hold for it."""
    return AS_OWNER if os.geteuid() == 0 else ()


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of 600 kB in memory; in a name space of its own where the user may not mount."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", "size=600k", "none", str(disk)],
        capture_output=True,
        check=False,
    )
    yield disk
    if mounted.returncode == 0:
        subprocess.run(["umount", str(disk)], check=True)


def test_a_full_disk(small_disk: Path) -> None:
    """No space left while writing: the old files are all there, and a smaller press works."""
    out = small_disk / "out"
    if not small_disk.is_mount():
        # A name space goes when its last process ends: all presses are made in one.
        _full_disk_in_name_space(small_disk)
        return
    assert publish(out, 2) == ""
    assert "No space left on device; the old output is as it was" in publish(out, 8)
    assert sorted(path.name for path in out.iterdir()) == [".guidegen", "0.bin", "1.bin"]
    assert all(path.stat().st_size == 100_000 for path in out.glob("*.bin"))
    assert publish(out, 1) == ""
    assert len(list(out.glob("*.bin"))) == 1


def _full_disk_in_name_space(disk: Path) -> None:
    steps = (
        f"mount -t tmpfs -o size=600k none {disk} && "
        f'for n in 2 8 1; do "$0" -c "$1" {disk}/out $n; ls {disk}/out; done'
    )
    command = ["unshare", "-Urm", "sh", "-c", steps, sys.executable, PUBLISH]
    done = subprocess.run(command, capture_output=True, text=True, check=True)
    lines = done.stdout.split("\n")
    assert lines[:2] == ["0.bin", "1.bin"]
    assert "No space left on device; the old output is as it was" in lines[2]
    assert lines[3:6] == ["0.bin", "1.bin", "0.bin"]


def test_no_permission_beside_the_output(tmp_path: Path) -> None:
    """A folder in which one may not write: said so, with its name, and nothing changes."""
    parent = tmp_path / "locked"
    parent.mkdir()
    publish(parent / "out", 1)
    parent.chmod(0o555)
    said = publish(parent / "out", 2, *obeying_modes())
    parent.chmod(0o755)
    assert f"no permission to write in {parent}" in said
    assert publish(parent / "out", 2) == ""


def test_a_read_only_output(tmp_path: Path) -> None:
    """An output folder that its owner made read-only is left alone, and that is said."""
    out = tmp_path / "out"
    publish(out, 1)
    out.chmod(0o555)
    said = publish(out, 2, *obeying_modes())
    assert f"{out} is read-only; nothing was written" in said
    assert len(list(out.glob("*.bin"))) == 1
    out.chmod(0o755)
    assert publish(out, 2) == ""


def press_command(content: Path, out: Path) -> list[str]:
    """A press in two processes."""
    # Where these tests run in the background of a shell, Ctrl-C is ignored by all that they start.
    command = ["env", "--default-signal=INT", sys.executable, "-m", "guidegen", "press"]
    command += [
        "--content",
        str(content),
        "--themes",
        str(THEMES),
        "--out",
        str(out),
        "--workers",
        "2",
    ]
    return [*command, "--nesting-time", "0"]


@pytest.mark.parametrize(("ending", "status"), [(signal.SIGINT, 130), (signal.SIGTERM, 143)])
def test_an_end_that_is_asked_for(tmp_path: Path, ending: signal.Signals, status: int) -> None:
    """Ctrl-C, or SIGTERM from a system that goes down, while documents are made: one line, and
    another where documents were kept for the next press; no traceback, no process, no output."""
    content = write_content(tmp_path / "content", guide=SMALL, site=SITE + "papers: [a4]\n")
    process = subprocess.Popen(
        press_command(content, tmp_path / "out"),
        stderr=subprocess.PIPE,
        text=True,
        start_new_session=True,
    )
    assert process.stderr is not None
    for line in process.stderr:
        if line.startswith("documents"):
            break
    time.sleep(1)  # so that the workers are at work
    workers = _workers(process.pid)
    assert workers
    if ending is signal.SIGINT:
        os.killpg(process.pid, ending)  # as a terminal does: to the press and its workers
    else:
        process.send_signal(ending)
    said = process.stderr.read()
    assert process.wait(timeout=60) == status
    process.stderr.close()
    assert _gone(workers)
    first, *more = said.strip().splitlines()
    assert first == "guidegen: stopped; the old output is as it was"
    assert len(more) <= 1 and all("made and kept: the next press goes on" in line for line in more)
    left = {"content", ".guidegen"} if more else {"content"}
    assert {path.name for path in tmp_path.iterdir()} <= left


def test_clocks_have_no_say(tmp_path: Path) -> None:
    """Files dated in the far past or future: what is unchanged is known, what is changed too."""
    content = write_content(tmp_path / "content", guide=SMALL, site=SITE + "papers: [a4]\n")
    options = quick_options(content, tmp_path / "out")
    press(options, Silent())
    for number, path in enumerate([*content.rglob("*"), *options.out.rglob("*")]):
        os.utime(path, (number % 2 * 4e9, number % 2 * 4e9))
    assert press(options, Silent()).unchanged
    guide = content / "cuff" / "guide.yaml"
    times = (guide.stat().st_atime, guide.stat().st_mtime)
    guide.write_text(changed(SMALL, "Warm it", "Heat it"), encoding="utf-8")
    os.utime(guide, times)
    assert not press(options, Silent()).unchanged


def test_a_worker_that_dies(tmp_path: Path) -> None:
    """A worker that the system ends, as for want of memory: a clear message, no output changed."""
    content = write_content(tmp_path / "content", guide=SMALL, site=SITE + "papers: [a4]\n")
    process = subprocess.Popen(
        press_command(content, tmp_path / "out"), stderr=subprocess.PIPE, text=True
    )
    assert process.stderr is not None
    for line in process.stderr:
        if line.startswith("documents"):
            break
    time.sleep(0.5)
    for worker in _workers(process.pid):
        os.kill(worker, signal.SIGKILL)
    said = process.stderr.read()
    process.stderr.close()
    assert process.wait(timeout=60) == 1
    assert "a worker process ended before its work was done" in said
    assert "Traceback" not in said
    assert not (tmp_path / "out").exists()


def _gone(workers: list[int]) -> bool:
    """Whether processes end within some seconds: what they are copies of clears them away."""
    for _ in range(100):
        if not any(Path(f"/proc/{worker}").exists() for worker in workers):
            return True
        time.sleep(0.1)
    return False


def _workers(parent: int) -> list[int]:
    """Processes that do the jobs of `parent`: copies of one that it started for that."""
    parents: dict[int, int] = {}
    for folder in Path("/proc").glob("[0-9]*"):
        try:
            status = (folder / "stat").read_text().rpartition(")")[2].split()
            command = (folder / "cmdline").read_bytes()
        except OSError:
            continue
        if b"forkserver" in command:
            parents[int(folder.name)] = int(status[1])
    return [one for one, above in parents.items() if parents.get(above) == parent]


def test_long_and_foreign_names(tmp_path: Path) -> None:
    """Folders and files with names in any script, with spaces, and as long as can be."""
    folder = tmp_path / "Rüstung 甲冑 درع" / ("n" * 200)
    folder.mkdir(parents=True)
    content = write_content(folder / "content", guide=SMALL, site=SITE + "papers: [a4]\n")
    press(quick_options(content, folder / "öut"), Silent())
    assert (folder / "öut" / "cuff" / "index.html").is_file()
    shutil.move(content / "cuff", content / ("c" * 250))
    result = subprocess.run(
        press_command(content, folder / "öut"), capture_output=True, text=True, check=False
    )
    assert result.returncode == 2
    assert "at most 48 characters" in result.stderr
    assert "Traceback" not in result.stderr
    assert (folder / "öut" / "cuff" / "index.html").is_file()
