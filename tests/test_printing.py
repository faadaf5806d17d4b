"""What is printed only shows: nothing in a guide steers the terminal or a robot that reads along."""

import io
import json
import os
import sys
import unicodedata

import pytest
from samples import GUIDE, SITE, changed, write_content

from guidegen.checks.report.report import FORMATS
from guidegen.checks.report.suppression import Findings
from guidegen.cli import main, run
from guidegen.problems import Place, Problem, printable

STEERING = "\0\7\x1b[31m\x9b\x7f\u200b\u202e\u2066\u2028\ufeff\ud800\U000e0041"
"""NUL, bell, an escape code, CSI, DEL; no width, override, isolate, line separator, mark of byte
order, half of a pair, a tag."""


def steers(text: str) -> list[str]:
    """Characters of a text that do more than show."""
    kept = "\n"
    return [
        c for c in text if unicodedata.category(c) in {"Cc", "Cf", "Cs", "Zl"} and c not in kept
    ]


def test_printable_escapes_all_that_steers():
    """Every control, format character and surrogate of Unicode is written with a backslash."""
    everything = "".join(map(chr, range(0x110000)))
    shown = printable(everything)
    assert steers(shown.replace("\n", "?")) == []
    assert printable("\x1b\u202e\U000e0041") == r"\x1b\u202e\U000e0041"
    assert printable("a\tb\n", keep="\t\n") == "a\tb\n"
    assert printable(printable(STEERING)) == printable(STEERING)


def test_printable_leaves_words_alone():
    """Words in any script stay as they are, with what stands between them."""
    words = "Tür — 甲冑 درع שלום 3 × 4 mm, “so”: a::b ## c"
    assert printable(words) == words


@pytest.mark.parametrize(
    "order", ["::error::x", "  ::add-mask::x", "##[add-mask]x", "a ##vso[task.complete]x"]
)
def test_orders_to_robots_are_broken(order):
    """What a robot would obey in the lines of a log is no order any more, and can still be read."""
    shown = printable(order)
    assert not shown.lstrip().startswith("::")
    assert "##[" not in shown
    assert "##vso" not in shown
    assert "x" in shown


@pytest.mark.parametrize("form", FORMATS)
def test_every_format_of_findings(form):
    """Whatever stands in file, path, message, cure and source line: no format lets it steer."""
    bad = STEERING + "\r\n::error::x ##[add-mask]x"
    place = Place(f"a{bad}.yaml", 1, 2, bad)
    problem = Problem("bad-value", place, f"p{bad}", f"m{bad}", f"c{bad}")
    text = FORMATS[form](Findings((problem,)))
    assert steers(text) == []
    assert "##[" not in text
    assert sum(line.lstrip().startswith("::") for line in text.split("\n")) == (
        form == "annotations"
    )
    if form == "json":
        found = json.loads(text)["findings"][0]
        assert found["message"] == f"m{bad}"
        assert found["file"] == f"a{bad}.yaml"


def test_the_caret_stands_under_its_letter():
    """Escapes make a line longer; the caret moves along."""
    place = Place("a", 1, 5, "ab\x1b\tX")
    shown, caret = Problem("x", place, "", "m").source_lines()
    assert shown == "ab\\x1b\tX"
    assert caret == "      \t^"


def printed(capsys, *arguments: object):
    """Status and all that a command prints."""
    status = main(list(map(str, arguments)))
    out, err = capsys.readouterr()
    return status, out + err


HOSTILE = {
    "value": ("title: Test cuff", 'title: "\\e[31mred\\u202e"'),
    "key": ("title: Test cuff", '"\\e]0;x\\a": 1\ntitle: Test cuff'),
    "unknown-key": ("title: Test cuff", '"\u202ek": 1\ntitle: Test cuff'),
    "reference": ("material: foam-5", 'material: "foam\u202e-5"'),
    "order": ("title: Test cuff", "::error::x: 1\ntitle: Test cuff"),
    "link": ("[cuff](piece:cuff)", "[cuff](piece:\u200bcuff)"),
    "surrogates": ("title: Test cuff", 'title: "\\ud800"'),
}


@pytest.mark.parametrize("case", HOSTILE)
@pytest.mark.parametrize("form", FORMATS)
def test_proof_prints_nothing_that_steers(tmp_path, capsys, case, form):
    """Values, keys, names and references of a stranger's guide only show."""
    write_content(tmp_path, guide=changed(GUIDE, *HOSTILE[case]))
    status, text = printed(capsys, "proof", "--content", tmp_path, "--format", form)
    assert status == 2
    assert steers(text) == []
    if form != "annotations":
        assert not any(line.lstrip().startswith("::") for line in text.split("\n"))


@pytest.mark.parametrize("name", [b"c\x1b[31mff", b"c\xff", "c\u202eff".encode(), b"::error::x"])
def test_names_of_folders_only_show(tmp_path, capsys, name):
    """Folders with names that steer, or are no UTF-8, are told without a traceback."""
    content = write_content(tmp_path / "content")
    (content / "cuff").rename(content / os.fsdecode(name))
    for form in FORMATS:
        status, text = printed(capsys, "proof", "--content", content, "--format", form)
        assert status == 2
        assert steers(text) == []
        assert "lower case words" in text
    status, text = printed(capsys, "press", "--content", content, "--out", tmp_path / "out")
    assert status == 2
    assert steers(text) == []


def test_a_folder_of_content_that_is_no_utf8(tmp_path, capsys):
    """The content folder itself may have any name that the system has."""
    content = write_content(tmp_path / "content", guide=changed(GUIDE, "date: 2026", "date: x"))
    content = content.rename(tmp_path / os.fsdecode(b"c\xff"))
    status, text = printed(capsys, "proof", "--content", content)
    assert status == 2
    assert "\\udcff/cuff/guide.yaml" in text


def test_a_terminal_with_few_letters(tmp_path, monkeypatch):
    """What a terminal's encoding lacks is shown by its number, and nothing fails."""
    stream = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    monkeypatch.setattr(sys, "stdout", stream)
    write_content(tmp_path, guide=changed(GUIDE, "title: Test cuff", "title: Tür\nx甲: 1"))
    monkeypatch.setattr(sys, "argv", ["guidegen", "proof", "--content", str(tmp_path)])
    with pytest.raises(SystemExit) as ended:
        run()
    stream.flush()
    assert ended.value.code == 2
    assert b"\\u7532" in stream.buffer.getvalue()


ELSEWHERE = "token: hunter2hunter2\n"
LINKS = {
    "guide": "content/cuff/guide.yaml",
    "translation": "content/cuff/guide.de.yaml",
    "site translation": "content/site.de.yaml",
    "site": "content/site.yaml",
    "stock": "content/stock.yaml",
    "text": "content/cuff/a.md",
    "drawing": "content/cuff/a.svg",
}


@pytest.mark.parametrize("kind", [*LINKS, "folder"])
@pytest.mark.parametrize("form", FORMATS)
def test_no_line_of_a_file_outside_is_shown(tmp_path, capsys, monkeypatch, kind, form):
    """A link out of the guide's folder is told, and not a word of what it leads to, nor where the
    machine keeps it, in any format of proof and by press."""
    monkeypatch.chdir(tmp_path)
    guide = changed(GUIDE, "overview: You will make a [cuff](piece:cuff).", "overview: a.md")
    disc = "    shape: disc\n    dimensions: {diameter: 60}"
    guide = changed(guide, disc, "    shape: drawing\n    drawing: a.svg")
    write_content(tmp_path / "content", guide=guide, site=SITE + "languages: [en, de]\n")
    elsewhere = tmp_path / "home"
    elsewhere.mkdir()
    (elsewhere / "guide.yaml").write_text(ELSEWHERE)
    if kind == "folder":
        (tmp_path / "content" / "cuff" / "guide.yaml").unlink()
        (tmp_path / "content" / "cuff").rmdir()
        (tmp_path / "content" / "cuff").symlink_to(elsewhere)
    else:
        path = tmp_path / LINKS[kind]
        path.unlink(missing_ok=True)
        path.symlink_to(elsewhere / "guide.yaml")
    status, text = printed(capsys, "proof", "--content", "content", "--format", form)
    assert status == 2
    assert "leads out" in text
    assert "hunter2" not in text
    assert "token" not in text
    assert str(tmp_path) not in text
    if form == "words":
        _, text = printed(capsys, "press", "--content", "content", "--themes", "themes")
        assert "hunter2" not in text
