"""guidegen proof as an author calls it: forms, explanations, packs, exit statuses."""

import json
import re
import zipfile
from pathlib import Path

import pytest
from samples import GUIDE, changed, write_content

from guidegen.app.commands.press import PressOptions, press
from guidegen.app.commands.proof import proof
from guidegen.cli import main
from guidegen.errors import ContentError
from guidegen.findings.registry import CODES
from guidegen.progress import Silent
from guidegen.render.lists.pack import pack_zip

ROOT = Path(__file__).parents[3]
THEMES = ROOT / "themes"


def test_a_good_guide(tmp_path, capsys):
    """Nothing is found, nothing is made, and the status is 0."""
    folder = write_content(tmp_path / "content")
    before = sorted(tmp_path.rglob("*"))
    assert main(["proof", "--content", str(folder)]) == 0
    said = capsys.readouterr()
    assert said.out == "0 errors, 0 warnings, 0 advice\n"
    assert said.err.startswith("next: guidegen show")
    assert sorted(tmp_path.rglob("*")) == before


def test_errors_of_all_kinds(tmp_path, capsys):
    """Findings of checks and of geometry stand in one report; the status is 2."""
    guide = changed(GUIDE, "(piece:cuff)", "(piece:cufff)")
    guide = changed(guide, "diameter: 60", "diameter: 6000")
    folder = write_content(tmp_path, guide=guide)
    assert main(["proof", "--content", str(folder)]) == 2
    out = capsys.readouterr().out
    assert out.index("GEOMETRY") < out.index("error too-large") < out.index("TEXTS")
    assert out.index("TEXTS") < out.index("error dead-reference")


def test_a_guide_that_cannot_be_read(tmp_path, capsys):
    """What is wrong with the files themselves is reported in the same form."""
    folder = write_content(tmp_path, guide=changed(GUIDE, "hand: pair", "hand: both"))
    assert main(["proof", "--content", str(folder), "--format", "json"]) == 2
    (finding,) = json.loads(capsys.readouterr().out)["findings"]
    assert (finding["group"], finding["code"], finding["line"]) == ("reading", "bad-value", 25)
    assert main(["proof", "--content", str(folder), "--format", "annotations"]) == 2
    out = capsys.readouterr().out
    assert out.startswith("::error file=")
    assert ",line=25,col=11,title=bad-value::parts.cuff.hand: expected one of one, pair" in out


def test_suppressed_findings(tmp_path, capsys):
    """Suppressed findings are counted, and listed with --all."""
    guide = changed(
        GUIDE,
        "title: Cut the pieces\n",
        "title: Cut the pieces\n    waive: [{caution: blade, reason: the leader cuts them before}]\n",
    )
    guide += (
        "suppress:\n  - code: waived-caution\n    at: steps.cut\n    reason: agreed with the club\n"
    )
    folder = write_content(tmp_path, guide=guide)
    assert main(["proof", "--content", str(folder)]) == 0
    assert (
        capsys.readouterr().out
        == "0 errors, 0 warnings, 0 advice, 1 suppressed (--all lists them)\n"
    )
    assert main(["proof", "--content", str(folder), "--all"]) == 0
    assert "suppressed: agreed with the club" in capsys.readouterr().out


@pytest.mark.parametrize(
    "command",
    [
        ["proof"],
        ["press", "--quiet", "--out", "{out}"],
        ["fit", "cuff", "--quiet", "--measure", "forearm=28cm", "--measure", "wrist=18cm", "--out", "{out}"],
        ["class", "cuff", "--quiet", "--count", "M=2", "--out", "{out}"],
    ],
    ids=lambda command: command[0],
)  # fmt: skip
def test_what_shares_a_room_too_soon_stops_everything(tmp_path, capsys, command):
    """The time line is looked at before anything is made for anybody."""
    folder = write_content(tmp_path / "content")
    stock = (folder / "stock.yaml").read_text(encoding="utf-8")
    rule = "rules:\n  - {first: solvent, then: wet-paint, by: caution, apart: true, wait: 1 h, reason: vapour}\n"
    (folder / "stock.yaml").write_text(changed(stock, "rules:\n", rule), encoding="utf-8")
    words = [word.format(out=tmp_path / "out") for word in command]
    assert main([*words, "--content", str(folder)]) == 2
    output = capsys.readouterr()
    assert "1 h are needed: vapour" in output.out + output.err
    assert not (tmp_path / "out").exists()


def test_explanations(capsys):
    """One code is explained; without a code all are listed; a slip gets a hint and status 2."""
    assert main(["proof", "--explain", "not-apart"]) == 0
    assert "What burns and what ignites" in capsys.readouterr().out
    assert main(["proof", "--explain"]) == 0
    out = capsys.readouterr().out
    assert all(code in out for code in CODES)
    assert main(["proof", "--explain", "not-a-part"]) == 2
    assert 'did you mean "not-apart"?' in capsys.readouterr().err


def test_packs(tmp_path, capsys):
    """A whole pack has status 0; a damaged one names each fault and has status 2."""
    whole, broken = tmp_path / "pack.zip", tmp_path / "broken.zip"
    whole.write_bytes(pack_zip({"a.txt": b"words"}, {"guide": "cuff"}))
    assert main(["proof", str(whole)]) == 0
    assert capsys.readouterr().out == "0 errors, 0 warnings, 0 advice\n"
    with zipfile.ZipFile(whole) as old, zipfile.ZipFile(broken, "w") as new:
        for name in old.namelist():
            new.writestr(name, b"sword" if name == "a.txt" else old.read(name))
    assert main(["proof", str(whole), str(broken)]) == 2
    out = capsys.readouterr().out
    assert f"{broken.as_posix()}  error pack-fault" in out
    assert "a.txt was changed" in out
    assert main(["proof", str(tmp_path / "no.zip")]) == 2
    assert "cannot be read" in capsys.readouterr().err
    assert main(["proof", str(whole), "cuff"]) == 2
    assert "in two calls" in capsys.readouterr().err


@pytest.mark.parametrize("folder", ["nowhere", "file"])
def test_no_content(tmp_path, capsys, folder):
    """A folder that is not there is a slip of the command line."""
    (tmp_path / "file").write_text("")
    assert main(["proof", "--content", str(tmp_path / folder)]) == 2
    assert "there is no content folder" in capsys.readouterr().err


def test_the_demo_has_no_warnings(capsys, monkeypatch):
    """Nothing is left that an author would have to look at, in any size."""
    # Each process of its own loads all libraries again, and the other core has tests to run.
    monkeypatch.setattr("guidegen.app.commands.proof.usual_workers", lambda: 1)
    main(["proof", "--content", str(ROOT / "content"), "--format", "json"])
    counts = json.loads(capsys.readouterr().out)["counts"]
    assert (counts["error"], counts["warning"]) == (0, 0)


def test_all_guides_are_told_though_one_cannot_be_read(tmp_path: Path) -> None:
    """A slip of YAML in one guide hides neither wrong names nor wrong geometry of the others."""
    folder = write_content(tmp_path)
    for name, old, new in (
        ("broken", "title: Test cuff", "title: [Test cuff"),
        ("large", "diameter: 60", "diameter: 6000"),
        ("named", "material: foam-5", "material: foam-12"),
    ):
        (folder / name).mkdir()
        (folder / name / "guide.yaml").write_text(changed(GUIDE, old, new), encoding="utf-8")
    found = {(p.place.file.split("/")[-2], p.code) for p in proof(folder).open}
    assert {("broken", "yaml"), ("large", "too-large"), ("named", "unknown-name")} <= found
    assert ("cuff", "yaml") not in found
    with pytest.raises(ContentError, match="foam-12"):
        press(PressOptions(content=folder, out=tmp_path / "out", themes=THEMES), Silent())
    assert not (tmp_path / "out").exists()


def test_pictures_of_what_does_not_fit(tmp_path, capsys):
    """A cuff that is pushed up over the elbow is drawn, with itself marked, in a size that has the
    fault; the same guide without a fault has no picture, and no folder is left."""
    guide = changed(GUIDE, "length: 200}", "length: 200}\n    worn: {on: forearm, up: 60}")
    folder = write_content(tmp_path / "content", guide=guide)
    to = tmp_path / "pictures"
    assert main(["proof", "--content", str(folder), "--pictures", str(to)]) == 0
    told = capsys.readouterr()
    assert "joint-blocked" in told.out
    (picture,) = to.glob("*-joint-blocked-*")
    assert re.fullmatch(r"cuff-[SM]-joint-blocked-cuff.svg", picture.name)
    assert f"picture {picture}" in told.err
    assert 'class="accent"' in picture.read_text(encoding="utf-8")
    good = write_content(tmp_path / "good")
    assert main(["proof", "--content", str(good), "--pictures", str(tmp_path / "none")]) == 0
    assert not (tmp_path / "none").exists()
