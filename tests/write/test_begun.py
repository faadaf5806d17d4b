"""Documents of a stopped press, kept for the next."""

from pathlib import Path

import pytest

from guidegen.write.begun import BegunPress, begun_press

KEY, OTHER = "a" * 64, "b" * 64


def test_what_is_kept_is_found_again(tmp_path: Path) -> None:
    """A document comes back under its key and no other, byte for byte."""
    begun = BegunPress(tmp_path)
    begun.keep(KEY, b"pages")
    assert begun.find(KEY) == b"pages"
    assert begun.find(OTHER) is None
    assert begun.count == 1


@pytest.mark.parametrize("damage", [b"", b"pages", b"\0" * 40])
def test_what_was_changed_is_not_taken(tmp_path: Path, damage: bytes) -> None:
    """A file that is cut off, or that somebody else has written, counts as none."""
    begun = BegunPress(tmp_path)
    begun.keep(KEY, b"pages")
    (tmp_path / KEY).write_bytes(damage)
    assert begun.find(KEY) is None


def test_a_folder_that_is_not_there_is_done_without(tmp_path: Path) -> None:
    """On a machine without the folder nothing is kept, and nothing made."""
    begun = BegunPress(tmp_path / "none")
    begun.keep(KEY, b"pages")
    assert begun.find(KEY) is None
    assert list(tmp_path.iterdir()) == []


def test_a_good_end_leaves_nothing(tmp_path: Path) -> None:
    """What is published needs no other copy; halves of files that were killed go as well."""
    with begun_press(tmp_path / "out", afresh=False) as begun:
        assert not begun.folder.exists()  # nobody has made the hidden folder above it
    (tmp_path / ".guidegen").mkdir()
    with begun_press(tmp_path / "out", afresh=False) as begun:
        begun.keep(KEY, b"pages")
        (begun.folder / f"{OTHER}.77").write_bytes(b"pa")
    assert list((tmp_path / ".guidegen").iterdir()) == []


def test_a_stop_keeps_all_and_says_so(tmp_path: Path) -> None:
    """Ctrl-C leaves the documents, tells how many, and `afresh` begins without them."""
    (tmp_path / ".guidegen").mkdir()

    def stopped() -> None:
        with begun_press(tmp_path / "out", afresh=False) as begun:
            begun.keep(KEY, b"pages")
            raise KeyboardInterrupt

    with pytest.raises(KeyboardInterrupt) as stop:
        stopped()
    assert stop.value.__notes__ == [
        "one document was made and kept: the next press goes on from there"
    ]
    with begun_press(tmp_path / "out", afresh=True) as begun:
        assert begun.find(KEY) is None


def test_what_is_not_ours_stays(tmp_path: Path) -> None:
    """A file of somebody else in the folder is neither counted nor removed."""
    begun = BegunPress(tmp_path)
    (tmp_path / "notes.txt").write_text("mine", encoding="utf-8")
    begun.clear()
    assert begun.count == 0
    assert (tmp_path / "notes.txt").is_file()
