"""Output is written beside and swapped in whole, whatever happens."""

import os
import random
import signal
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest
from write.publishing import files_of, nothing_left_beside, publish

from guidegen.errors import OutputError, PressLocked
from guidegen.write.loose import set_down
from guidegen.write.staging import MARKER, SIDE_MARK, Staging, staging
from guidegen.write.swap import recover, swap_in

UMASK = os.umask(0)
os.umask(UMASK)
"""The one way to ask for it is to set it."""


def test_replaces_the_whole_folder(tmp_path: Path) -> None:
    """What the new output does not have is gone; nothing is left beside it."""
    out = tmp_path / "out"
    publish(out, a="1", b="1")
    publish(out, a="2")
    assert files_of(out) == {"a.txt": "2"}
    assert nothing_left_beside(out)


def test_a_file_has_a_second_name(tmp_path: Path) -> None:
    """The same bytes are published under both names, and both are listed as made by the press."""
    out = tmp_path / "out"
    with staging(out) as stage:
        stage.write("new/a.txt", b"1")
        stage.repeat("old/a.txt", "new/a.txt")
        assert stage.sums["old/a.txt"] == stage.sums["new/a.txt"]
        assert stage.size == 1  # they take room once
    assert (out / "old" / "a.txt").read_bytes() == b"1"


def test_the_output_can_be_read_by_a_web_server(tmp_path: Path) -> None:
    """The folder is readable for all, though temporary folders often are not."""
    out = tmp_path / "out"
    publish(out, a="1")
    assert stat.S_IMODE(out.stat().st_mode) == 0o777 & ~UMASK


def test_a_failure_leaves_the_old_output(tmp_path: Path) -> None:
    """An exception half way leaves the old files, and no rubbish."""
    out = tmp_path / "out"
    publish(out, a="1")
    with pytest.raises(RuntimeError), staging(out) as stage:
        stage.write("a.txt", b"2")
        raise RuntimeError
    assert files_of(out) == {"a.txt": "1"}
    assert nothing_left_beside(out)


def test_a_full_disk_leaves_the_old_output(tmp_path: Path) -> None:
    """When the system refuses to write, the message says why and the old files stay."""
    out = tmp_path / "out"
    publish(out, a="1")
    code = (
        "import resource, signal, sys; from pathlib import Path;"
        "from guidegen.write.staging import staging; from guidegen.errors import OutputError\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))\n"
        "try:\n"
        "    with staging(Path(sys.argv[1])) as stage: stage.write('big.bin', bytes(5000))\n"
        "except OutputError as error: print(error)\n"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(out)], capture_output=True, text=True, check=True
    )
    assert "cannot write big.bin: File too large; the old output is as it was" in done.stdout
    assert files_of(out) == {"a.txt": "1"}


_WRITER = """
import sys
from pathlib import Path
from guidegen.write.staging import staging
for round in range(2, 10**6):
    with staging(Path(sys.argv[1])) as stage:
        for n in range(20):
            stage.write(f"{n}.txt", str(round).encode())
    print(round, flush=True)
"""


def test_killed_at_any_moment(tmp_path: Path) -> None:
    """Killed at fifty seeded moments, the output is always one whole round, and writable again."""
    out = tmp_path / "out"
    moments = random.Random(7)
    for _ in range(50):
        process = subprocess.Popen(
            [sys.executable, "-c", _WRITER, str(out)], stdout=subprocess.PIPE, text=True
        )
        assert process.stdout is not None
        process.stdout.readline()
        time.sleep(moments.random() * 0.02)
        process.send_signal(signal.SIGKILL)
        process.wait()
        process.stdout.close()
        recover(out, tmp_path / ".out.side" / "old")
        rounds = {path.read_text() for path in out.glob("*.txt")}
        assert len(rounds) == 1
        assert len(list(out.glob("*.txt"))) == 20
    publish(out, a="1")
    assert files_of(out) == {"a.txt": "1"}
    assert nothing_left_beside(out)


def test_a_kill_between_two_renames_is_mended(tmp_path: Path) -> None:
    """On systems without exchange, the next press brings the old output back to its name."""
    out = tmp_path / "out"
    publish(out, a="1")
    side = tmp_path / ".out.side"
    side.mkdir()
    (side / SIDE_MARK).touch()
    out.rename(side / "old")
    with pytest.raises(RuntimeError), staging(out):
        raise RuntimeError
    assert files_of(out) == {"a.txt": "1"}


def test_swap_without_exchange(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two renames do it where names cannot be exchanged, and a failed second one is undone."""
    monkeypatch.setattr("guidegen.write.swap._exchange", lambda first, second: False)
    out = tmp_path / "out"
    publish(out, a="1")
    publish(out, a="2")
    assert files_of(out) == {"a.txt": "2"}
    with pytest.raises(OutputError, match="it is as it was"):
        swap_in(tmp_path / "missing", out, tmp_path / ".out.aside")
    assert files_of(out) == {"a.txt": "2"}


def test_two_presses_at_once(tmp_path: Path) -> None:
    """The second one is told at once, and the first one goes on."""
    out = tmp_path / "out"
    with staging(out) as stage:
        stage.write(MARKER, b"")
        code = (
            "import sys; from pathlib import Path; from guidegen.write.staging import staging\n"
            "from guidegen.errors import PressLocked\n"
            "try:\n    with staging(Path(sys.argv[1])): pass\n"
            "except PressLocked as error: print(error)"
        )
        done = subprocess.run(
            [sys.executable, "-c", code, str(out)], capture_output=True, text=True, check=True
        )
        assert "another press is writing" in done.stdout
    assert (out / MARKER).exists()
    assert issubclass(PressLocked, Exception)


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("/etc/passwd", "not a name"),
        ("../up.txt", "not a name"),
        ("a\\b.txt", "not a name"),
        ("aux.txt", "cannot be a file on every system"),
        ("guide/COM1/index.html", "cannot be a file on every system"),
        ("dot./x", "cannot be a file on every system"),
        ("A.TXT", "differ only in capital letters"),
    ],
)
def test_names_that_cannot_be(tmp_path: Path, name: str, message: str) -> None:
    """Names that leave the folder, or that some system cannot hold, are refused."""
    stage = Staging(tmp_path)
    stage.write("a.txt", b"")
    with pytest.raises(OutputError, match=message):
        stage.write(name, b"")


def test_a_press_that_fails_leaves_nothing(tmp_path: Path) -> None:
    """Where nothing was pressed before, a failure leaves neither output nor lock nor folder."""
    with pytest.raises(KeyError), staging(tmp_path / "out"):
        assert (tmp_path / ".guidegen" / "out.lock").exists()
        raise KeyError
    assert not list(tmp_path.iterdir())


def test_an_output_inside_another_one(tmp_path: Path) -> None:
    """A site below a site has its own state beside the marker of the upper one, which keeps it."""
    upper, lower = tmp_path / "out", tmp_path / "out" / "club"
    publish(upper, a="1")
    publish(lower, b="1")
    publish(upper, a="2")
    publish(lower, b="2")
    assert files_of(lower) == {"b.txt": "2"}
    assert (upper / "a.txt").read_text() == "2"
    assert {p.name for p in upper.iterdir()} == {MARKER, "a.txt", "club"}


def test_what_comes_in_the_moment_of_the_exchange(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file that lands in the old output after the others were taken along comes home too."""
    out = tmp_path / "out"
    publish(out, a="1")

    def late(new: Path, old: Path, aside: Path) -> None:
        (old / "late.html").write_text("mine")
        swap_in(new, old, aside)

    monkeypatch.setattr("guidegen.write.staging.swap_in", late)
    publish(out, a="2")
    assert files_of(out) == {"a.txt": "2", "late.html": "mine"}
    assert nothing_left_beside(out)


@pytest.mark.parametrize("umask", [0o022, 0o002, 0o077])
def test_files_and_folders_follow_the_umask(tmp_path: Path, umask: int) -> None:
    """All that is written has the rights that the caller's umask leaves, also what is kept."""
    out = tmp_path / "out"
    before = os.umask(0o027)
    try:
        publish(out, a="1")
        sha = "whatever"
        os.umask(umask)
        with staging(out) as stage:
            stage.keep("a.txt", out / "a.txt", sha)
            stage.write("sub/b.txt", b"2")
    finally:
        os.umask(before)
    for path in (out, *out.rglob("*")):
        wanted = (0o777 if path.is_dir() else 0o666) & ~umask
        assert stat.S_IMODE(path.stat().st_mode) == wanted, path


def test_a_file_that_a_worker_laid_down_comes_to_its_place(tmp_path: Path) -> None:
    """It is moved, not read again, and counts as one that was written; what has no place goes."""
    out = tmp_path / "out"
    with staging(out) as stage:
        one, other = (set_down(stage.loose(), data) for data in (b"page", b"nobody's"))
        stage.place("a/page.html", one)
        stage.write("b.html", b"page")
        assert not one.path.exists() and other.read() == b"nobody's"
        assert stage.sums["a/page.html"] == stage.sums["b.html"]
        assert stage.size == 8
        with pytest.raises(OutputError, match="not a name"):
            stage.place("../c.html", other)
    assert (out / "a" / "page.html").read_bytes() == b"page"
    assert not list(tmp_path.glob(".guidegen/*side*"))
    with pytest.raises(OutputError, match="as it was"):
        other.read()
