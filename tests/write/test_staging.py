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

from guidegen.errors import OutputError, PressLocked
from guidegen.write.loose import set_down
from guidegen.write.staging import MARKER, SIDE_MARK, Staging, staging
from guidegen.write.strangers import left_by_older
from guidegen.write.swap import recover, swap_in


def _publish(out: Path, **files: str) -> None:
    with staging(out) as stage:
        for name, text in files.items():
            stage.write(f"{name}.txt", text.encode())


def _files(out: Path) -> dict[str, str]:
    return {p.name: p.read_text() for p in sorted(out.iterdir()) if p.name != MARKER}


def _nothing_left_beside(out: Path) -> bool:
    return {p.name for p in out.parent.iterdir()} <= {out.name}


UMASK = os.umask(0)
os.umask(UMASK)
"""The one way to ask for it is to set it."""


def test_replaces_the_whole_folder(tmp_path: Path) -> None:
    """What the new output does not have is gone; nothing is left beside it."""
    out = tmp_path / "out"
    _publish(out, a="1", b="1")
    _publish(out, a="2")
    assert _files(out) == {"a.txt": "2"}
    assert _nothing_left_beside(out)


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
    _publish(out, a="1")
    assert stat.S_IMODE(out.stat().st_mode) == 0o777 & ~UMASK


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
    _publish(out, a="1")
    assert _files(out) == {"a.txt": "1"}
    assert _nothing_left_beside(out)


def test_a_kill_between_two_renames_is_mended(tmp_path: Path) -> None:
    """On systems without exchange, the next press brings the old output back to its name."""
    out = tmp_path / "out"
    _publish(out, a="1")
    side = tmp_path / ".out.side"
    side.mkdir()
    (side / SIDE_MARK).touch()
    out.rename(side / "old")
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
        swap_in(tmp_path / "missing", out, tmp_path / ".out.aside")
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


def test_files_of_others_stay(tmp_path: Path) -> None:
    """What somebody put beside the pages is there after the next press: files, whole folders
    with empty ones in them, links as links, and with the mode and time that they had."""
    out = tmp_path / "out"
    _publish(out, a="1", b="1")
    (out / "CNAME").write_text("guides.example")
    (out / "my-photos" / "empty").mkdir(parents=True)
    (out / "my-photos" / "a.jpg").write_bytes(b"dear")
    (out / "my-photos" / "a.jpg").chmod(0o600)
    os.utime(out / "my-photos" / "a.jpg", (1e9, 1e9))
    (out / "my-photos" / "way-out").symlink_to(tmp_path)
    for text in ("2", "3"):
        _publish(out, a=text)
        assert (out / "a.txt").read_text() == text
        assert not (out / "b.txt").exists()
        assert (out / "CNAME").read_text() == "guides.example"
        assert (out / "my-photos" / "empty").is_dir()
        assert (out / "my-photos" / "way-out").readlink() == tmp_path
        photo = (out / "my-photos" / "a.jpg").stat()
        assert (photo.st_size, photo.st_mtime) == (4, 1e9)
        assert stat.S_IMODE(photo.st_mode) == 0o600
    assert _nothing_left_beside(out)


def test_a_marker_made_by_hand_is_none(tmp_path: Path) -> None:
    """An empty .guidegen beside other files does not give them away, nor does one of words."""
    out = tmp_path / "out"
    out.mkdir()
    (out / "thesis.doc").write_text("dear")
    for text in ("", "made by hand", "[]", '{"files": 1}', "[" * 100_000):
        (out / MARKER).write_text(text)
        with pytest.raises(OutputError, match="files that guidegen did not make"), staging(out):
            raise AssertionError
        assert (out / "thesis.doc").read_text() == "dear"


def test_a_folder_of_an_older_version_is_told(tmp_path: Path) -> None:
    """Older versions left an empty marker in folders for one body or class: the word says so."""
    out = tmp_path / "fit-cuff"
    out.mkdir()
    (out / MARKER).touch()
    (out / "booklet.pdf").write_text("old", encoding="utf-8")
    with pytest.raises(OutputError, match="an older version did"):
        _publish(out, a="1")
    assert (out / "booklet.pdf").read_text(encoding="utf-8") == "old"


def test_side_folders_of_an_older_version_are_told_and_left(tmp_path: Path) -> None:
    """Side folders by their old names are found if a press made them; a user's own are not."""
    out, new, old = tmp_path / "out", tmp_path / ".out.new", tmp_path / ".out.old"
    for folder in (new / "cuff" / "sign.files", old):
        folder.mkdir(parents=True)
    (old / "notes.txt").touch()
    _publish(out, a="1")
    assert left_by_older(out) == [new]
    (old / MARKER).write_text('{"files": {}}', encoding="utf-8")
    assert left_by_older(out) == [new, old]
    assert (old / "notes.txt").is_file()


@pytest.mark.parametrize("name", ["a.txt", "A.TXT", "sub.txt/inner"])
def test_a_name_that_both_want(tmp_path: Path, name: str) -> None:
    """Where the new output has a file of a stranger's name, nothing is written and that is said."""
    out = tmp_path / "out"
    _publish(out, b="1")
    (out / name).parent.mkdir(exist_ok=True)
    (out / name).write_text("mine")
    with pytest.raises(OutputError, match="is not from guidegen, but the new output"):
        _publish(out, a="2", sub="2")
    assert (out / name).read_text() == "mine"
    assert (out / "b.txt").read_text() == "1"
    assert _nothing_left_beside(out)


def test_a_pipe_among_the_files_of_others(tmp_path: Path) -> None:
    """What is no ordinary file cannot be taken along: said, and left alone."""
    out = tmp_path / "out"
    _publish(out, a="1")
    os.mkfifo(out / "pipe")
    with pytest.raises(OutputError, match="cannot be taken along"):
        _publish(out, a="2")
    assert (out / "a.txt").read_text() == "1"


@pytest.mark.parametrize("name", [".out.new", ".out.old", ".out.side", ".guidegen/out.side"])
def test_side_folders_of_others_stay(tmp_path: Path, name: str) -> None:
    """A folder beside the output that guidegen has not marked is neither emptied nor published."""
    out = tmp_path / "out"
    _publish(out, a="1")
    for own in (tmp_path / name / "new", tmp_path / name / "old"):
        own.mkdir(parents=True)
        (own / "a.txt").write_text("mine")
    (tmp_path / name / "b.txt").write_text("mine")
    if name.endswith(".side"):
        with pytest.raises(OutputError, match="is not from guidegen"):
            _publish(out, a="2")
        assert _files(out) == {"a.txt": "1"}
        out.rename(tmp_path / "away")
        with pytest.raises(OutputError, match="is not from guidegen"):
            _publish(out, a="2")
        assert not out.exists()
    else:
        _publish(out, a="2")
        assert _files(out) == {"a.txt": "2"}
    assert {p.read_text() for p in (tmp_path / name).rglob("*.txt")} == {"mine"}
    assert len(list((tmp_path / name).rglob("*.txt"))) == 3


def test_a_press_that_fails_leaves_nothing(tmp_path: Path) -> None:
    """Where nothing was pressed before, a failure leaves neither output nor lock nor folder."""
    with pytest.raises(KeyError), staging(tmp_path / "out"):
        assert (tmp_path / ".guidegen" / "out.lock").exists()
        raise KeyError
    assert not list(tmp_path.iterdir())


def test_what_an_older_version_left_is_taken_over(tmp_path: Path) -> None:
    """The old places are still read: an output that was set aside comes home, an empty lock goes."""
    out, side = tmp_path / "out", tmp_path / ".out.side"
    _publish(out, a="1")
    (out / "mine.txt").write_text("mine")
    side.mkdir()
    (side / SIDE_MARK).touch()
    out.rename(side / "old")
    (tmp_path / ".out.lock").touch()
    _publish(out, a="2")
    assert _files(out) == {"a.txt": "2", "mine.txt": "mine"}
    assert _nothing_left_beside(out)


def test_an_output_inside_another_one(tmp_path: Path) -> None:
    """A site below a site has its own state beside the marker of the upper one, which keeps it."""
    upper, lower = tmp_path / "out", tmp_path / "out" / "club"
    _publish(upper, a="1")
    _publish(lower, b="1")
    _publish(upper, a="2")
    _publish(lower, b="2")
    assert _files(lower) == {"b.txt": "2"}
    assert (upper / "a.txt").read_text() == "2"
    assert {p.name for p in upper.iterdir()} == {MARKER, "a.txt", "club"}


@pytest.mark.parametrize("kind", ["file", "link"])
def test_a_state_folder_of_others_stays(tmp_path: Path, kind: str) -> None:
    """What has the name of the hidden folder and is none is told, and left."""
    place = tmp_path / ".guidegen"
    (tmp_path / "else").mkdir()
    place.symlink_to("else") if kind == "link" else place.write_text("mine")
    with pytest.raises(OutputError, match="is not from guidegen"):
        _publish(tmp_path / "out", a="1")
    assert place.is_symlink() or place.read_text() == "mine"
    assert not list((tmp_path / "else").iterdir())


@pytest.mark.parametrize("kind", ["words", "link"])
def test_a_lock_of_others_stays(tmp_path: Path, kind: str) -> None:
    """A file with the name of the lock that holds something, or leads away, is not emptied."""
    out, lock = tmp_path / "out", tmp_path / ".guidegen" / "out.lock"
    lock.parent.mkdir()
    (tmp_path / "dear").write_text("mine")
    lock.symlink_to("../dear") if kind == "link" else lock.write_text("mine")
    with pytest.raises(OutputError, match="is not from guidegen"):
        _publish(out, a="1")
    assert lock.read_text() == "mine"


def test_what_comes_in_the_moment_of_the_exchange(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file that lands in the old output after the others were taken along comes home too."""
    out = tmp_path / "out"
    _publish(out, a="1")

    def late(new: Path, old: Path, aside: Path) -> None:
        (old / "late.html").write_text("mine")
        swap_in(new, old, aside)

    monkeypatch.setattr("guidegen.write.staging.swap_in", late)
    _publish(out, a="2")
    assert _files(out) == {"a.txt": "2", "late.html": "mine"}
    assert _nothing_left_beside(out)


@pytest.mark.parametrize("umask", [0o022, 0o002, 0o077])
def test_files_and_folders_follow_the_umask(tmp_path: Path, umask: int) -> None:
    """All that is written has the rights that the caller's umask leaves, also what is kept."""
    out = tmp_path / "out"
    before = os.umask(0o027)
    try:
        _publish(out, a="1")
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
