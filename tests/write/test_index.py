"""What is kept of a press: in the output what all may read, beside it what is of use to the next."""

import json
from dataclasses import asdict
from pathlib import Path

import pytest

from guidegen.write.index import Counts, Index, Unit, load_index, save_index

PROBLEM = {"code": "strap-short", "message": "a finding", "place": {"file": "guide.yaml"}}
INDEX = Index(
    "inputs",
    {"index.html": "ab", "lamp/index.html": "cd"},
    Counts(1, 2, 3, 4, 5),
    {"index.html": "key"},
    {"lamp": Unit("key", 3, 2, "", (PROBLEM,), "1.0", "2026-11-01", {"M/x.pdf": {"pages": 3}})},
)


@pytest.fixture
def out(tmp_path: Path) -> Path:
    """An output folder with the index of a press."""
    (tmp_path / "out").mkdir()
    (tmp_path / ".guidegen").mkdir()
    (tmp_path / "out" / ".guidegen").write_text(INDEX.marker(), encoding="utf-8")
    save_index(tmp_path / "out", INDEX)
    return tmp_path / "out"


def test_an_index_is_kept_and_read_again(out: Path) -> None:
    """All of it comes back from its two files."""
    assert load_index(out) == INDEX


def test_what_lies_in_the_output_is_harmless(out: Path) -> None:
    """Uploaded, it tells the names and sums of published files, and nothing of keys and findings."""
    assert json.loads((out / ".guidegen").read_text("utf-8")).keys() == {"files", "index"}
    assert "finding" not in (out / ".guidegen").read_text("utf-8")


def test_an_index_of_another_press_is_not_believed(out: Path) -> None:
    """Where output and index do not belong together, or the index is gone, only the files count."""
    save_index(out, Index("other"))
    assert load_index(out) == Index(files=INDEX.files)
    (out.parent / ".guidegen" / "out.index").unlink()
    assert load_index(out) == Index(files=INDEX.files)


def test_an_index_of_an_older_version_is_read(out: Path) -> None:
    """Older versions had all of it in the output."""
    (out.parent / ".guidegen" / "out.index").unlink()
    (out / ".guidegen").write_text(json.dumps(asdict(INDEX)), encoding="utf-8")
    assert load_index(out) == INDEX
