"""Output is written beside and swapped in whole, whatever happens."""

import random
import signal
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest

from guidegen.errors import OutputError, PressLocked
from guidegen.write.staging import MARKER, Staging, staging
from guidegen.write.swap import recover, swap_in


def _publish(out: Path, **files: str) -> None:
    with staging(out) as stage:
        stage.write(MARKER, b"")
        for name, text in files.items():
            stage.write(f"{name}.txt", text.encode())


def _files(out: Path) -> dict[str, str]:
    return {p.name: p.read_text() for p in sorted(out.iterdir()) if p.name != MARKER}


def _nothing_left_beside(out: Path) -> bool:
    return {p.name for p in out.parent.iterdir()} <= {out.name, f".{out.name}.lock"}


def test_replaces_the_whole_folder(tmp_path: Path) -> None:
    """What the new output does not have is gone; nothing is left beside it."""
    out = tmp_path / "out"
    _publish(out, a="1", b="1")
    _publish(out, a="2")
    assert _files(out) == {"a.txt": "2"}
    assert _nothing_left_beside(out)


def test_the_output_can_be_read_by_a_web_server(tmp_path: Path) -> None:
    """The folder is readable for all, though temporary folders often are not."""
    out = tmp_path / "out"
    _publish(out, a="1")
    assert stat.S_IMODE(out.stat().st_mode) == 0o755


def test_a_failure_leaves_the_old_output(tmp_path: Path) -> None:
    """An exception half way leaves the old files, and no rubbish."""
    out = tmp_path / "out"
    _publish(out, a="1")
    with pytest.raises(RuntimeError), staging(out) as stage:
        stage.write("a.txt", b"2")
        raise RuntimeError
    assert _files(out) == {"a.txt": "1"}
    assert _nothing_left_beside(out)


def test_a_full_disk_leaves_the_old_output(tmp_path: Path) -> None:
    """When the system refuses to write, the message says why and the old files stay."""
    out = tmp_path / "out"
    _publish(out, a="1")
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
    assert _files(out) == {"a.txt": "1"}


_WRITER = """
import sys
from pathlib import Path
from guidegen.write.staging import MARKER, staging
for round in range(2, 10**6):
    with staging(Path(sys.argv[1])) as stage:
        stage.write(MARKER, b"")
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
        recover(out, tmp_path / ".out.old")
        rounds = {path.read_text() for path in out.glob("*.txt")}
        assert len(rounds) == 1
        assert len(list(out.glob("*.txt"))) == 20
    _publish(out, a="1")
    assert _files(out) == {"a.txt": "1"}
    assert _nothing_left_beside(out)


def test_a_kill_between_two_renames_is_mended(tmp_path: Path) -> None:
    """On systems without exchange, the next press brings the old output back to its name."""
    out = tmp_path / "out"
    _publish(out, a="1")
    out.rename(tmp_path / ".out.old")
    with pytest.raises(RuntimeError), staging(out):
        raise RuntimeError
    assert _files(out) == {"a.txt": "1"}


def test_swap_without_exchange(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Two renames do it where names cannot be exchanged, and a failed second one is undone."""
    monkeypatch.setattr("guidegen.write.swap._exchange", lambda first, second: False)
    out = tmp_path / "out"
    _publish(out, a="1")
    _publish(out, a="2")
    assert _files(out) == {"a.txt": "2"}
    with pytest.raises(OutputError, match="it is as it was"):
        swap_in(tmp_path / "missing", out, tmp_path / ".out.old")
    assert _files(out) == {"a.txt": "2"}


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


def test_foreign_folders_are_not_swapped_away(tmp_path: Path) -> None:
    """A mistyped --out must not cost a folder of photos."""
    out = tmp_path / "photos"
    out.mkdir()
    (out / "one.jpg").write_text("dear")
    with pytest.raises(OutputError, match="files that guidegen did not make"), staging(out):
        raise AssertionError
    assert (out / "one.jpg").read_text() == "dear"
    file = tmp_path / "file"
    file.write_text("x")
    with pytest.raises(OutputError, match="is not a folder"), staging(file):
        raise AssertionError
    link = tmp_path / "link"
    link.symlink_to(out)
    (tmp_path / "empty").mkdir()
    _publish(tmp_path / "empty", a="1")
    assert _files(tmp_path / "empty") == {"a.txt": "1"}


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
