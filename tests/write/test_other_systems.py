"""What macOS and Windows do otherwise, imitated here: open files, no links, other line ends."""

import os
import re
from pathlib import Path

import pytest

from guidegen.errors import OutputError
from guidegen.write import search_index, swap
from guidegen.write.staging import MARKER, staging

ROOT = Path(__file__).parents[2]


class InUse(PermissionError):
    """As Windows refuses to rename a folder of which a file is open."""

    winerror = 32

    def __init__(self) -> None:
        super().__init__(13, "Permission denied")


@pytest.fixture
def windows(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """Names are not exchanged, and so many next renames as the list's one number are refused."""
    refused = [0]
    rename = Path.rename

    def refusing(self: Path, target: Path) -> Path:
        if refused[0] > 0:
            refused[0] -= 1
            raise InUse
        return rename(self, target)

    monkeypatch.setattr(swap, "_exchange", lambda first, second: False)
    monkeypatch.setattr(swap, "PAUSES", (0, 0, 0))
    monkeypatch.setattr(Path, "rename", refusing)
    return refused


def _folders(at: Path) -> tuple[Path, Path, Path]:
    new, old = at / "new", at / "out"
    for folder, words in ((new, "2"), (old, "1")):
        folder.mkdir()
        (folder / "a.txt").write_text(words)
    return new, old, at / "aside"


def test_a_file_that_is_open_for_a_moment_stops_no_press(
    tmp_path: Path, windows: list[int]
) -> None:
    """What looks for viruses opens each new file: the rename is tried again."""
    new, old, aside = _folders(tmp_path)
    windows[0] = 3
    swap.swap_in(new, old, aside)
    assert (old / "a.txt").read_text() == "2"
    assert (aside / "a.txt").read_text() == "1"


def test_a_file_that_stays_open_is_told(tmp_path: Path, windows: list[int]) -> None:
    """A viewer keeps a PDF of the old output open: the message says so, nothing has changed."""
    new, old, aside = _folders(tmp_path)
    windows[0] = 4
    with pytest.raises(OutputError, match="a program has a file of it open: close it; it is as"):
        swap.swap_in(new, old, aside)
    assert (old / "a.txt").read_text() == "1"
    assert not aside.exists()


def test_other_refusals_are_told_at_once(
    tmp_path: Path, windows: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    """A folder that one may not write to stays so: nothing is tried twice."""
    new, old, aside = _folders(tmp_path)
    tries = []

    def forbidden(self: Path, target: Path) -> Path:
        tries.append(self)
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(Path, "rename", forbidden)
    with pytest.raises(OutputError, match="Permission denied; it is as it was"):
        swap.swap_in(new, old, aside)
    assert len(tries) == 1
    assert windows == [0]


def test_a_disk_without_hard_links_gets_copies(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """FAT and many network disks have no second names: what is kept or repeated is copied."""

    def no_links(*names: object, **how: object) -> None:
        raise OSError(1, "Operation not permitted")

    monkeypatch.setattr(os, "link", no_links)
    source = tmp_path / "old.txt"
    source.write_text("kept")
    with staging(tmp_path / "out") as stage:
        stage.write(MARKER, b"")
        stage.keep("kept.txt", source, "0" * 64)
        stage.write("a/first.txt", b"said twice")
        stage.repeat("b/second.txt", "a/first.txt")
    assert (tmp_path / "out" / "kept.txt").read_text() == "kept"
    assert (tmp_path / "out" / "b" / "second.txt").read_text() == "said twice"


def test_the_index_tool_is_told_where_windows_lies() -> None:
    """Without SYSTEMROOT no program begins on Windows; nothing else of ours is passed on."""
    ours = {"SYSTEMROOT": r"C:\Windows", "SECRET": "x", "PATH": "y"}
    assert search_index._environment(ours) == {"SYSTEMROOT": r"C:\Windows"}
    assert search_index._environment({"SECRET": "x"}) == {}


def test_texts_are_read_and_written_alike_everywhere() -> None:
    """On Windows a text has other letters and other line ends unless it is told not to."""
    call = re.compile(r"\.(read|write)_text\(((?:[^()]|\((?:[^()]|\([^()]*\))*\))*)\)")
    silent = [
        f"{path.relative_to(ROOT)}: {found[0]}"
        for path in (ROOT / "guidegen").rglob("*.py")
        for found in call.finditer(path.read_text(encoding="utf-8"))
        if not re.search("utf-8|ascii", found[2])
        or (found[1] == "write" and "newline=" not in found[2])
    ]
    assert silent == []
    assert "* text=auto eol=lf" in (ROOT / ".gitattributes").read_text(encoding="utf-8")
