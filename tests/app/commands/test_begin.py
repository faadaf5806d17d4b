"""`guidegen begin`: a first site that holds from the first press on."""

from pathlib import Path

import pytest
from samples import changed

from guidegen.app.commands.begin import START
from guidegen.app.commands.proof import proof
from guidegen.cli import main

ROOT = Path(__file__).parents[3]


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder that was begun."""
    folder = tmp_path_factory.mktemp("begin") / "mine"
    assert main(["begin", str(folder)]) == 0
    return folder


@pytest.mark.parametrize("craft", ["card", "sewn", "wood"])
def test_other_crafts_begin_as_well(craft: str, tmp_path: Path) -> None:
    """Each craft has a small first guide of its own, without a finding, that no file of foam joins."""
    assert main(["begin", str(tmp_path / "mine"), "--for", craft]) == 0
    findings = proof(tmp_path / "mine")
    assert [str(problem) for problem in (*findings.open, *findings.silent)] == []
    (guide,) = (tmp_path / "mine").glob("*/guide.yaml")
    assert "foam" not in guide.read_text(encoding="utf-8")


def test_little_is_written(begun: Path) -> None:
    """The stock and the guide are short enough to be read before one begins."""
    for name, most in (("stock.yaml", 30), ("first-cuff/guide.yaml", 170)):
        assert len((begun / name).read_text(encoding="utf-8").splitlines()) <= most, name


def test_there_is_nothing_to_find(begun: Path) -> None:
    """Proof finds nothing in the first guide, not even advice."""
    findings = proof(begun)
    assert [str(problem) for problem in (*findings.open, *findings.silent)] == []


def test_the_files_explain_themselves(begun: Path) -> None:
    """Every build file and drawing says in comments what stands in it."""
    for name in ("site.yaml", "stock.yaml", "first-cuff/guide.yaml"):
        lines = (begun / name).read_text(encoding="utf-8").splitlines()
        assert lines[0].startswith("# "), name
    guide = (begun / "first-cuff" / "guide.yaml").read_text(encoding="utf-8")
    assert guide.count("# ") >= 20
    assert "<!--" in (begun / "first-cuff" / "shield.svg").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("start", "called"), [("", "guidegen"), ("/my work/start", "'/my work/start' guidegen")]
)
def test_it_tells_what_to_type(
    start: str,
    called: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    """The next commands are those of an installation, or those of the checkout that was started."""
    monkeypatch.setenv(START, start)
    assert main(["begin", str(tmp_path / "mine")]) == 0
    told = capsys.readouterr().out
    assert f"  {called} show " in told
    assert f"  {called} press " in told


def test_a_slip_in_the_name_of_a_material_is_told_alone(tmp_path: Path) -> None:
    """Usual steps lose the part, and no check tells what only follows from that."""
    folder = tmp_path / "mine"
    assert main(["begin", str(folder)]) == 0
    guide = folder / "first-cuff" / "guide.yaml"
    text = guide.read_text(encoding="utf-8")
    guide.write_text(changed(text, "material: foam-6 ", "material: foam-66 "), encoding="utf-8")
    (slip,) = proof(folder).open
    assert (slip.code, slip.place.line) == ("unknown-name", 56)


def test_nothing_is_overwritten(begun: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A folder with files in it is refused in words, and stays as it is."""
    before = {path: path.read_bytes() for path in begun.rglob("*") if path.is_file()}
    capsys.readouterr()
    assert main(["begin", str(begun)]) == 2
    assert "has files in it; choose a new folder" in capsys.readouterr().err
    assert {path: path.read_bytes() for path in begun.rglob("*") if path.is_file()} == before


def test_a_file_or_link_is_no_folder(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """A file in the folder's place is left alone, and so is a link to another folder."""
    (tmp_path / "file").write_text("mine", encoding="utf-8")
    (tmp_path / "else").mkdir()
    (tmp_path / "link").symlink_to(tmp_path / "else")
    for name in ("file", "link"):
        assert main(["begin", str(tmp_path / name)]) == 2
        assert "is not a folder" in capsys.readouterr().err
    assert (tmp_path / "file").read_text(encoding="utf-8") == "mine"
    assert list((tmp_path / "else").iterdir()) == []


def test_no_permission_is_told_in_words(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """Where the system refuses a file, the command says so and ends in status 1."""

    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr("shutil.copyfile", refuse)
    assert main(["begin", str(tmp_path / "new")]) == 1
    assert "cannot write in" in capsys.readouterr().err
