"""Characters that no page, feed or terminal may get are refused where a file is read, with a place."""

import pytest
from samples import GUIDE, changed, write_content

from guidegen.buildfile.read.reader import read_what_holds
from guidegen.buildfile.yaml.characters import forbidden_at
from guidegen.buildfile.yaml.tree import read_tree

NUL, BELL, ESCAPE, CSI, DEL = "\0", "\7", "\x1b", "\x9b", "\x7f"


def test_xml_characters_are_the_allowed_ones():
    """Extensible Markup Language 1.0 (fifth edition), 2.2, production 2: its bounds are allowed,
    their neighbours are not; DEL and C1, which it advises against, are refused as well."""
    for allowed in (0x9, 0xA, 0xD, 0x20, 0xD7FF, 0xE000, 0xFFFD, 0x10000, 0x10FFFF):
        assert forbidden_at(chr(allowed)) == -1
    for refused in (
        0x0,
        0x8,
        0xB,
        0xC,
        0xE,
        0x1F,
        0x7F,
        0x80,
        0x9F,
        0xD800,
        0xDFFF,
        0xFFFE,
        0xFFFF,
    ):
        assert forbidden_at("ab" + chr(refused)) == 2


@pytest.mark.parametrize(
    ("written", "told"),
    [
        (r"1\0", "U+0000"),
        (r"a\ab", "U+0007"),
        (r"\e[31m", "U+001B"),
        (r"\x9b31m", "U+009B"),
        (r"\ud800", "U+D800"),
        (r"\ud83d\ude00", "U+D83D"),
        (r"\uffff", "U+FFFF"),
    ],
)
@pytest.mark.parametrize("where", ["value", "key", "flow"])
def test_escapes_in_yaml_are_refused(written, told, where):
    """A value, a key and an item written with escapes end in one problem at their place."""
    text = {"value": f'a: "{written}"', "key": f'"{written}": 1', "flow": f'a: ["{written}"]'}[
        where
    ]
    value, _, problems = read_tree(text, "a.yaml")
    assert value is None
    assert [problem.code for problem in problems] == ["character"]
    assert told in problems[0].message
    assert problems[0].place.line == 1
    assert problems[0].place.column == {"value": 4, "key": 1, "flow": 5}[where]


@pytest.mark.parametrize("letter", [NUL, BELL, ESCAPE, DEL])
def test_markdown_files_are_read_for_them(tmp_path, letter):
    """A Markdown file with a control character is refused with line and column."""
    guide = changed(GUIDE, "overview: You will make a [cuff](piece:cuff).", "overview: a.md")
    write_content(tmp_path, guide=guide)
    (tmp_path / "cuff" / "a.md").write_text(f"one\ntwo{letter}\n", encoding="utf-8")
    _, problems = read_what_holds(tmp_path)
    told = [problem for problem in problems if problem.code == "character"]
    assert [(p.place.file.endswith("cuff/a.md"), p.place.line, p.place.column) for p in told] == [
        (True, 2, 4)
    ]


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ("date: 2026-11-01", "date: 2026-02-30", "bad-value"),
        ("date: 2026-11-01", "date: 2026-13-01", "bad-value"),
        ("date: 2026-11-01", "date: 0000-01-01", "bad-value"),
        ("  room: 20", "  room: 0x8c", "bad-value"),
        ("  room: 20", "  room: 1_40", "bad-value"),
        ("  room: 20", "  room: 2 * 0b11", "bad-value"),
    ],
)
def test_dates_and_numbers_of_other_worlds(tmp_path, old, new, code):
    """Days that no calendar has, and numbers as programs write them, are refused with a word."""
    write_content(tmp_path, guide=changed(GUIDE, old, new))
    _, problems = read_what_holds(tmp_path)
    assert [problem.code for problem in problems] == [code], problems
    assert "expected" in problems[0].message
    assert problems[0].place.line
