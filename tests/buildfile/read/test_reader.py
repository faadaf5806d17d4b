"""A content folder to typed records, and every way in which it may be wrong."""

import os
from pathlib import Path

import pytest
from samples import GUIDE, SITE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.errors import ContentError, UsageError


def _errors(folder: Path) -> str:
    with pytest.raises(ContentError) as caught:
        read_content(folder)
    return str(caught.value)


def test_reads_a_site(tmp_path: Path) -> None:
    """Site, stock and guides become records; texts, numbers and ids keep what was written."""
    content = read_content(write_content(tmp_path))
    (file,) = content.guides
    assert file.id == "cuff"
    assert file.guide.version == "1.0"
    assert file.size_names() == ("S", "M")
    assert content.stock.materials["foam-10"].sheets[0].width.value({}) == 580


def test_version_keeps_its_digits(tmp_path: Path) -> None:
    """A version 1.10 does not become 1.1."""
    guide = changed(GUIDE, "version: 1.0", "version: 1.10")
    assert read_content(write_content(tmp_path, guide=guide)).guides[0].guide.version == "1.10"


@pytest.mark.parametrize(
    ("old", "new", "message"),
    [
        ("    material: foam-5\n", "    materiel: foam-5\n",
         'parts.cuff.materiel: no key "materiel" here; did you mean "material"?'),
        ("    material: foam-5\n", "", 'parts.cuff: needs the key "material"'),
        ("hand: pair", "hand: pare", 'expected one of one, pair, found "pare"; did you mean "pair"?'),
        ("  cuff:\n", "  Cuff!:\n", "expected lower case words with hyphens"),
        ("date: 2026-11-01", "date: yesterday", 'expected a date such as 2026-11-25, found "yesterday"'),
        ("time: 20 min", "time: a while", 'expected a time such as "5 min" or "1 h 30 min", found "a while"'),
        ("copies: 2", "copies: 2 +", "cannot read"),
        ("time: 20 min", "time: 20 min\n    hands: lots", "found \"lots\""),
        ("stage: cutting", "stage: carving", "found \"carving\""),
        ("steps:\n", "steps: none\nxsteps:\n", 'expected a list, found "none"'),
        ("uses: [{material: cement, glue: [cuff-side, badge]}]", "uses: [{material: cement}]",
         "expected exactly one of glue, cover, along, sew, cut, length, count, amount, at, circuit or"),
        ("sizes:\n", "sizes: [1]\nxsizes:\n", "expected keys with values, found a list"),
        ("title: Test cuff", "title: ''", "expected something here, found nothing"),
    ],
)  # fmt: skip
def test_wrong_values(tmp_path: Path, old: str, new: str, message: str) -> None:
    """Each slip is told at its place, with what was expected and the nearest valid name."""
    text = _errors(write_content(tmp_path, guide=changed(GUIDE, old, new)))
    assert message in text
    assert "/cuff/guide.yaml:" in text


def test_all_problems_at_once_in_order(tmp_path: Path) -> None:
    """All slips of a run are told, sorted by file and line, each with its source line and caret."""
    guide = changed(changed(GUIDE, "time: 30 min", "time: soon"), "hand: pair", "hand: both")
    stock = changed(STOCK, "kind: count", "kind: counted")
    text = _errors(write_content(tmp_path, guide=guide, stock=stock))
    positions = [text.index(word) for word in ('found "both"', 'found "soon"', 'found "counted"')]
    assert positions == sorted(positions)
    assert "    hand: both\n" in text
    caret = text.splitlines()[2]
    assert caret.strip() == "^"


def test_missing_files_and_folders(tmp_path: Path) -> None:
    """A missing file is named; a missing folder or guide is a slip of the command line."""
    folder = write_content(tmp_path)
    (folder / "stock.yaml").unlink()
    assert "stock.yaml" in _errors(folder)
    with pytest.raises(UsageError, match="no content folder"):
        read_content(tmp_path / "nowhere")
    write_content(tmp_path)
    with pytest.raises(UsageError, match=r'no guide "cufff".*did you mean "cuff"'):
        read_content(folder, only=["cufff"])


def test_not_utf8(tmp_path: Path) -> None:
    """Bytes that are not UTF-8 are told with their line."""
    folder = write_content(tmp_path)
    (folder / "site.yaml").write_bytes(b"title: x\npublisher: \xff\n")
    assert "site.yaml:2  the file is not UTF-8" in _errors(folder)


DRAWN = """\
    shape: drawing
    drawing: {name}
"""


@pytest.mark.parametrize(
    ("name", "message"),
    [
        ("../stock.svg", "expected the name of a file in this folder"),
        ("/etc/passwd.svg", "expected the name of a file in this folder"),
        ("plate.txt", "expected a file that ends in .svg"),
        ("plat.svg", 'there is no file "plat.svg"'),
        ("a\\plate.svg", "folders end in /, not in \\"),
        ("link.svg", "leads out of the guide's folder"),
        ("pipe.svg", "expected an ordinary file"),
    ],
)
def test_drawings_stay_in_the_folder(tmp_path: Path, name: str, message: str) -> None:
    """A drawing is an ordinary file in the guide's own folder, whatever links lie there."""
    guide = changed(
        GUIDE, "    shape: disc\n    dimensions: {diameter: 60}\n", DRAWN.format(name=name)
    )
    folder = write_content(tmp_path / "content", guide=guide)
    (tmp_path / "secret.svg").write_text("<svg/>")
    (folder / "cuff" / "plate.svg").write_text("<svg/>")
    (folder / "cuff" / "link.svg").symlink_to(tmp_path / "secret.svg")
    os.mkfifo(folder / "cuff" / "pipe.svg")
    text = _errors(folder)
    assert message in text
    if name == "plat.svg":
        assert 'did you mean "plate.svg"?' in text


def test_long_texts_from_files(tmp_path: Path) -> None:
    """An overview may stand in a Markdown file of its own."""
    guide = changed(GUIDE, "overview: You will make a [cuff](piece:cuff).", "overview: over.md")
    folder = write_content(tmp_path, guide=guide)
    (folder / "cuff" / "over.md").write_text("# Words\n")
    assert read_content(folder).guides[0].guide.overview == "# Words"


def test_folder_names_become_addresses(tmp_path: Path) -> None:
    """A folder whose name would make a bad address is refused."""
    folder = write_content(tmp_path)
    (folder / "cuff").rename(folder / "My Cuff")
    assert "lower case words with hyphens" in _errors(folder)


def test_empty_files(tmp_path: Path) -> None:
    """An empty build file says what it needs."""
    assert "expected keys with values" in _errors(write_content(tmp_path, site=""))
    assert 'needs the key "publisher"' in _errors(write_content(tmp_path, site=SITE[:17]))
