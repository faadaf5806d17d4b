"""The command that lays a form flat: what it writes, that guides take it, what it says and refuses."""

import re
from itertools import pairwise

import pytest
from bench.forms.form_figures import FIGURES, PICTURES
from form_shapes import along_meridians, box, cone, obj, torso

from guidegen.app.commands.begin import begin
from guidegen.app.commands.proof import proof
from guidegen.bench.forms.drawn.strain_map import PRESSED, STRETCHED
from guidegen.buildfile.read.content import ONE_SIZE
from guidegen.buildfile.read.reader import read_content
from guidegen.cli import main
from guidegen.geometry.pieces.kit import make_kit
from guidegen.problems import Severity

GUIDE = """
title: Body form
version: "1.0"
date: 2026-01-01
author: A
licence: CC BY-SA 4.0
licence-words: Pass it on.
summary: A body form of foam.
overview: A form that is cut flat and glued.
level: first build
assumes: [Cut along a ruler with a craft knife]
{parts}
steps:
  - {{sequence: foam-start, id: start}}
  - {{sequence: foam-before-glue, id: before}}
  - id: glue-panels
    title: Glue the panels
    stage: gluing
    process: glue-water
    parts: [{ids}]
    seams: [{seams}]
    uses: [{{material: contact-cement-water, glue: [{seams}]}}]
    text: Join them mark to mark.
    time: 1 h
    wait: 1 h
    check: Nothing lifts.
"""


@pytest.fixture(scope="module")
def flat(tmp_path_factory):
    """Folder of a body form in 8 panels, made by the command."""
    folder = tmp_path_factory.mktemp("forms")
    form = folder / "body form.obj"
    form.write_bytes(obj(torso(48, 24), along_meridians(48, 25, 6)))
    words = ["flatten", str(form), "--out", str(folder / "flat"), "--unit", "mm", "--up", "z"]
    assert main([*words, "--foam", "10", "--shows", "inside", "--quiet"]) == 0
    return folder / "flat"


def test_a_guide_takes_what_comes_out(flat, tmp_path):
    """Drawings, parts and seams in a guide of a begun site: proof finds no error, and the kit has the
    pieces with seams that agree and match marks on both sides."""
    begin(tmp_path / "site")
    guide = tmp_path / "site" / "form"
    guide.mkdir()
    for drawing in flat.glob("*.svg"):
        (guide / drawing.name).write_bytes(drawing.read_bytes())
    parts = (flat / "parts.yaml").read_text(encoding="utf-8")
    ids = re.findall(r"^  (body-form-\d+):$", parts, re.MULTILINE)
    seams = re.findall(r"^  (body-form-seam[^:]*):", parts, re.MULTILINE)
    assert len(ids) == len(seams) == 8
    text = GUIDE.format(parts=parts, ids=", ".join(ids), seams=", ".join(seams))
    (guide / "guide.yaml").write_text(text, encoding="utf-8")
    findings = proof(tmp_path / "site", ("form",))
    assert [one for one in findings.open if one.severity is Severity.ERROR] == []
    content = read_content(tmp_path / "site", ("form",))
    kit, problems = make_kit(content.guides[0], content.stock, ONE_SIZE)
    assert problems == []
    assert sorted(piece.part for piece in kit.pieces) == sorted(ids)
    assert max(abs(seam.mismatch) for seam in kit.seams) < 0.5
    for piece in kit.pieces:
        assert {mark.seam for mark in piece.shape.marks} == {
            seam.id for seam in kit.seams if piece.part in {seam.first.part, seam.second.part}
        }


def test_the_page_shows_strain_in_figures_and_in_grey(flat):
    """The page is one file; each piece has a map with figures and a key, and classes that differ in
    brightness, so that a grey print tells them apart."""
    page = (flat / "index.html").read_text(encoding="utf-8")
    assert page.count("what its foam gives") == 8
    assert "Where each piece sits" in page
    assert re.search(r">[+−][0-9.]+<", page)
    assert "http" not in re.sub(r'xmlns[^"]*"[^"]*"', "", page)
    for colours in (STRETCHED, PRESSED):
        light = [sum(int(one[n : n + 2], 16) for n in (1, 3, 5)) for one in colours]
        assert light == sorted(light, reverse=True)
        assert min(a - b for a, b in pairwise(light)) > 25


def test_the_same_form_gives_the_same_bytes(tmp_path):
    """Two runs write the same files."""
    form = tmp_path / "box.obj"
    form.write_bytes(obj(box(100, 80, 60, 2)))
    made = []
    for name in ("one", "two"):
        words = ["flatten", str(form), "--out", str(tmp_path / name), "--unit", "mm", "--quiet"]
        assert main([*words, "--along", "sharp", "--foam", "10", "--shows", "outside"]) == 0
        files = sorted(path for path in (tmp_path / name).iterdir() if path.name[0] != ".")
        made.append({path.name: path.read_bytes() for path in files})
    assert made[0] == made[1]
    assert "angle: 45, direction: inward" in made[0]["parts.yaml"].decode()


def test_a_german_page_is_german(tmp_path, capsys):
    """With --language de the page and the sentence of trust are German."""
    form = tmp_path / "tube.obj"
    form.write_bytes(obj(cone(50, 50, 100, 16, 2)))
    words = ["flatten", str(form), "--out", str(tmp_path / "flat"), "--unit", "mm", "--up", "z"]
    assert main([*words, "--language", "de", "--quiet"]) == 0
    assert "Wo jedes Teil sitzt" in (tmp_path / "flat" / "index.html").read_text(encoding="utf-8")
    assert "Probiere die Teile in Karton" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ([], "--unit mm, cm, m or inch"),
        (["--unit", "ell"], "expected one of mm, cm, m, inch"),
        (["--unit", "mm", "--foam", "10"], "say which face of the foam the form shows"),
        (["--unit", "mm", "--foam", "-3"], "expected 0 to 60 mm"),
        (["--unit", "mm", "--sharp", "2"], "expected 5 to 175 degrees"),
        (["--unit", "mm", "--material", "a: b"], 'expected a name such as "foam-10"'),
    ],
)
def test_what_is_not_said_is_asked_for(tmp_path, capsys, more, says):
    """Nothing is guessed: the words say what to add, and nothing is written."""
    form = tmp_path / "tube.obj"
    form.write_bytes(obj(cone(50, 50, 100, 16, 2)))
    assert main(["flatten", str(form), "--out", str(tmp_path / "flat"), *more, "--quiet"]) == 2
    assert says in capsys.readouterr().err
    assert not (tmp_path / "flat").exists()


def test_long_pieces_are_halved_as_asked(tmp_path):
    """With --longest no proposed piece is longer than the sheets have room for."""
    form = tmp_path / "tube.obj"
    form.write_bytes(obj(cone(100, 100, 120, 32, 4)))
    words = ["flatten", str(form), "--out", str(tmp_path / "flat"), "--unit", "mm", "--quiet"]
    assert main([*words, "--longest", "400", "--up", "z"]) == 0
    assert len(list((tmp_path / "flat").glob("tube-*.svg"))) == 2


@pytest.mark.parametrize("name", FIGURES)
def test_the_figures_of_the_handbook_are_up_to_date(name):
    """FIGURE: ./start python tests/bench/forms/form_figures.py draws them anew. Compared by what is in
    them: the last digits of places are those of a solver."""
    drawn = FIGURES[name]()
    kept = (PICTURES / f"{name}.svg").read_text(encoding="utf-8")
    assert re.findall(r"<(\w+)", drawn) == re.findall(r"<(\w+)", kept)
