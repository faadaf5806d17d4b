"""Files and folders of others in the output and beside it: they stay, or the press refuses."""

import os
import stat
from pathlib import Path

import pytest
from write.publishing import files_of, nothing_left_beside, publish

from guidegen.errors import OutputError
from guidegen.write.staging import MARKER, SIDE_MARK, staging
from guidegen.write.strangers import left_by_older


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
    publish(tmp_path / "empty", a="1")
    assert files_of(tmp_path / "empty") == {"a.txt": "1"}


def test_files_of_others_stay(tmp_path: Path) -> None:
    """What somebody put beside the pages is there after the next press: files, whole folders
    with empty ones in them, links as links, and with the mode and time that they had."""
    out = tmp_path / "out"
    publish(out, a="1", b="1")
    (out / "CNAME").write_text("guides.example")
    (out / "my-photos" / "empty").mkdir(parents=True)
    (out / "my-photos" / "a.jpg").write_bytes(b"dear")
    (out / "my-photos" / "a.jpg").chmod(0o600)
    os.utime(out / "my-photos" / "a.jpg", (1e9, 1e9))
    (out / "my-photos" / "way-out").symlink_to(tmp_path)
    for text in ("2", "3"):
        publish(out, a=text)
        assert (out / "a.txt").read_text() == text
        assert not (out / "b.txt").exists()
        assert (out / "CNAME").read_text() == "guides.example"
        assert (out / "my-photos" / "empty").is_dir()
        assert (out / "my-photos" / "way-out").readlink() == tmp_path
        photo = (out / "my-photos" / "a.jpg").stat()
        assert (photo.st_size, photo.st_mtime) == (4, 1e9)
        assert stat.S_IMODE(photo.st_mode) == 0o600
    assert nothing_left_beside(out)


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
        publish(out, a="1")
    assert (out / "booklet.pdf").read_text(encoding="utf-8") == "old"


def test_side_folders_of_an_older_version_are_told_and_left(tmp_path: Path) -> None:
    """Side folders by their old names are found if a press made them; a user's own are not."""
    out, new, old = tmp_path / "out", tmp_path / ".out.new", tmp_path / ".out.old"
    for folder in (new / "cuff" / "sign.files", old):
        folder.mkdir(parents=True)
    (old / "notes.txt").touch()
    publish(out, a="1")
    assert left_by_older(out) == [new]
    (old / MARKER).write_text('{"files": {}}', encoding="utf-8")
    assert left_by_older(out) == [new, old]
    assert (old / "notes.txt").is_file()


@pytest.mark.parametrize("name", ["a.txt", "A.TXT", "sub.txt/inner"])
def test_a_name_that_both_want(tmp_path: Path, name: str) -> None:
    """Where the new output has a file of a stranger's name, nothing is written and that is said."""
    out = tmp_path / "out"
    publish(out, b="1")
    (out / name).parent.mkdir(exist_ok=True)
    (out / name).write_text("mine")
    with pytest.raises(OutputError, match="is not from guidegen, but the new output"):
        publish(out, a="2", sub="2")
    assert (out / name).read_text() == "mine"
    assert (out / "b.txt").read_text() == "1"
    assert nothing_left_beside(out)


def test_a_pipe_among_the_files_of_others(tmp_path: Path) -> None:
    """What is no ordinary file cannot be taken along: said, and left alone."""
    out = tmp_path / "out"
    publish(out, a="1")
    os.mkfifo(out / "pipe")
    with pytest.raises(OutputError, match="cannot be taken along"):
        publish(out, a="2")
    assert (out / "a.txt").read_text() == "1"


@pytest.mark.parametrize("name", [".out.new", ".out.old", ".out.side", ".guidegen/out.side"])
def test_side_folders_of_others_stay(tmp_path: Path, name: str) -> None:
    """A folder beside the output that guidegen has not marked is neither emptied nor published."""
    out = tmp_path / "out"
    publish(out, a="1")
    for own in (tmp_path / name / "new", tmp_path / name / "old"):
        own.mkdir(parents=True)
        (own / "a.txt").write_text("mine")
    (tmp_path / name / "b.txt").write_text("mine")
    if name.endswith(".side"):
        with pytest.raises(OutputError, match="is not from guidegen"):
            publish(out, a="2")
        assert files_of(out) == {"a.txt": "1"}
        out.rename(tmp_path / "away")
        with pytest.raises(OutputError, match="is not from guidegen"):
            publish(out, a="2")
        assert not out.exists()
    else:
        publish(out, a="2")
        assert files_of(out) == {"a.txt": "2"}
    assert {p.read_text() for p in (tmp_path / name).rglob("*.txt")} == {"mine"}
    assert len(list((tmp_path / name).rglob("*.txt"))) == 3


def test_what_an_older_version_left_is_taken_over(tmp_path: Path) -> None:
    """The old places are still read: an output that was set aside comes home, an empty lock goes."""
    out, side = tmp_path / "out", tmp_path / ".out.side"
    publish(out, a="1")
    (out / "mine.txt").write_text("mine")
    side.mkdir()
    (side / SIDE_MARK).touch()
    out.rename(side / "old")
    (tmp_path / ".out.lock").touch()
    publish(out, a="2")
    assert files_of(out) == {"a.txt": "2", "mine.txt": "mine"}
    assert nothing_left_beside(out)


@pytest.mark.parametrize("kind", ["file", "link"])
def test_a_state_folder_of_others_stays(tmp_path: Path, kind: str) -> None:
    """What has the name of the hidden folder and is none is told, and left."""
    place = tmp_path / ".guidegen"
    (tmp_path / "else").mkdir()
    place.symlink_to("else") if kind == "link" else place.write_text("mine")
    with pytest.raises(OutputError, match="is not from guidegen"):
        publish(tmp_path / "out", a="1")
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
        publish(out, a="1")
    assert lock.read_text() == "mine"
