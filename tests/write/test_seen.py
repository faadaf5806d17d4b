"""Files that nobody touched are known without being read; all others are read."""

import json
import os
import time
from hashlib import sha256
from pathlib import Path

import pytest

from guidegen.write.file_stats import counts_of_same, note_seen, untouched

HOUR = 3_600_000_000_000


@pytest.fixture
def out(tmp_path: Path) -> Path:
    """A folder of three files an hour old, as they were noted."""
    folder = tmp_path / "out"
    (folder / "lamp").mkdir(parents=True)
    old = time.time_ns() - HOUR
    for name in ("index.html", "lamp/index.html", "lamp/pack.zip"):
        (folder / name).write_bytes(b"12345")
        os.utime(folder / name, ns=(old, old))
    note_seen(folder, folder)
    return folder


def test_untouched_files_are_known(out: Path) -> None:
    """All three look as they did, by whichever way one names the folder."""
    assert untouched(out) == {"index.html", "lamp/index.html", "lamp/pack.zip"}
    assert untouched(out / ".." / "out") == untouched(out)


def change(file: Path) -> None:
    """Other bytes, and with them another time."""
    file.write_bytes(b"54321")


def grow(file: Path) -> None:
    """One byte more, with the time of before."""
    look = file.stat()
    file.write_bytes(b"123456")
    os.utime(file, ns=(look.st_mtime_ns, look.st_mtime_ns))


def link(file: Path) -> None:
    """A link to the same bytes."""
    file.rename(file.with_name("elsewhere"))
    file.symlink_to("elsewhere")


@pytest.mark.parametrize("how", [change, grow, link, Path.unlink])
def test_a_touched_file_is_not_trusted(out: Path, how) -> None:
    """Another time, another length, a link in its place or none: that file must be read."""
    how(out / "lamp" / "pack.zip")
    assert untouched(out) == {"index.html", "lamp/index.html"}


def test_a_file_just_written_is_not_trusted(out: Path) -> None:
    """A file as old as the note could be changed again within one tick of the clock."""
    change(out / "index.html")
    note_seen(out, out)
    assert untouched(out) == {"lamp/index.html", "lamp/pack.zip"}


@pytest.mark.parametrize(
    "text",
    ["", "[]", "{}", '{"noted": 1, "files": [1]}', '{"noted": "x", "files": {}}', "[" * 9999],
)
def test_a_damaged_note_is_no_note(out: Path, text: str) -> None:
    """Whatever stands there, everything is read and nothing fails."""
    (out.parent / ".guidegen" / "out.seen").write_text(text, encoding="utf-8")
    assert untouched(out) == frozenset()


def test_a_note_is_never_written_through_a_link(out: Path, tmp_path: Path) -> None:
    """Somebody who may write beside out/ cannot lead the note to another file."""
    (tmp_path / "victim").write_text("mine", encoding="utf-8")
    for name in (".guidegen/out.seen.new", ".guidegen/out.seen"):
        (tmp_path / name).unlink(missing_ok=True)
        (tmp_path / name).symlink_to(tmp_path / "victim")
    note_seen(out, out)
    assert (tmp_path / "victim").read_text(encoding="utf-8") == "mine"
    assert set(json.loads((tmp_path / ".guidegen" / "out.seen").read_text(encoding="utf-8"))["files"]) == {
        "index.html", "lamp/index.html", "lamp/pack.zip",
    }  # fmt: skip


def test_a_note_that_cannot_be_written_stops_nothing(out: Path) -> None:
    """Without it the next press only reads more."""
    (out.parent / ".guidegen" / "out.seen").unlink()
    (out.parent / ".guidegen" / "out.seen").mkdir()
    note_seen(out, out)
    assert untouched(out) == frozenset()


def test_a_note_of_an_older_version_is_read(out: Path) -> None:
    """Where it lay beside the output, it still counts, until there is a new one."""
    (out.parent / ".guidegen" / "out.seen").rename(out.parent / ".out.seen")
    assert len(untouched(out)) == 3
    note_seen(out, out)
    assert not (out.parent / ".out.seen").exists()


def test_a_file_of_the_same_name_stays(tmp_path: Path) -> None:
    """A file beside the output that only has the name of the list is not written over."""
    out = tmp_path / "out"
    out.mkdir()
    (tmp_path / ".guidegen").mkdir()
    for name in (".guidegen/out.seen", ".guidegen/out.seen.new"):
        (tmp_path / name).write_text("mine", encoding="utf-8")
        note_seen(out, out)
        assert (tmp_path / name).read_text(encoding="utf-8") == "mine"
        assert [path.name for path in (tmp_path / ".guidegen").iterdir()] == [Path(name).name]
        (tmp_path / name).unlink()


def test_a_press_of_the_same_is_known_by_the_note_alone(out: Path) -> None:
    """What was counted is told where all was made from the same and no file has changed, a fresh one
    by its bytes; a file beside them is nobody's business."""
    (out / "index.html").write_bytes(b"fresh")
    sums = {"index.html": sha256(b"fresh").hexdigest()}
    note_seen(out, out, sums, "inputs", {"guides": 1})
    (out / "stranger.txt").touch()
    assert counts_of_same(out, "inputs") == {"guides": 1}
    assert counts_of_same(out, "others") is None
    look = (out / "index.html").stat()
    (out / "index.html").write_bytes(b"FRESH")
    os.utime(out / "index.html", ns=(look.st_mtime_ns, look.st_mtime_ns))
    assert counts_of_same(out, "inputs") is None


@pytest.mark.parametrize("how", [change, grow, link, Path.unlink])
def test_a_press_is_not_the_same_after_a_touch(out: Path, how) -> None:
    """A file that was touched, or is gone, has to be looked at."""
    note_seen(out, out, {}, "inputs", {"guides": 1})
    assert counts_of_same(out, "inputs") == {"guides": 1}
    how(out / "lamp" / "pack.zip")
    assert counts_of_same(out, "inputs") is None


def test_a_note_without_what_was_made_is_not_enough(out: Path) -> None:
    """One of an older version, or a damaged one, says nothing of a whole press."""
    assert counts_of_same(out, "") is None
    for text in ('{"noted": 1, "inputs": "i", "files": {"index.html": [5]}, "counts": {}}', "[]"):
        (out.parent / ".guidegen" / "out.seen").write_text(text, encoding="utf-8")
        assert counts_of_same(out, "i") is None
