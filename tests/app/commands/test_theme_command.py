"""What a site's looks are made of, and a start to change them."""

from pathlib import Path

import pytest
import tinycss2

from guidegen.app.commands.begin import begin
from guidegen.app.commands.theme import Variable, begin_looks, own_styles, read_looks
from guidegen.buildfile.read.theme import shipped_themes
from guidegen.cli import main
from guidegen.errors import UsageError


@pytest.fixture(scope="module")
def begun(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A site as `begin` writes it."""
    folder = tmp_path_factory.mktemp("looks") / "mine"
    begin(folder)
    return folder


def test_every_variable_and_part_of_the_theme_is_listed(begun: Path) -> None:
    """All that the base theme sets in :root has a value and a purpose, all its files say what they are."""
    looks = read_looks(begun, begun / "themes")
    names = {one.name for one in looks.variables}
    assert {"paper", "ink", "accent", "foam-1", "danger", "wide", "label"} <= names
    assert all(one.day and one.purpose for one in looks.variables)
    paper = next(one for one in looks.variables if one.name == "paper")
    assert paper.dark and paper.dark != paper.day
    files = {path.name for path in (shipped_themes() / "workshop").iterdir() if path.is_file()}
    assert set(looks.parts) == files
    assert [name for name, purpose in looks.parts.items() if not purpose] == []


def test_words_are_found_in_either_language(begun: Path) -> None:
    """Words are listed as entries that a theme's file of words takes."""
    looks = read_looks(begun, begun / "themes")
    assert len(looks.words) > 500
    found = looks.find_words("glossary")
    assert found.startswith('msgid "') and "msgstr" in found
    assert looks.find_words("no such words here") == 'no words contain "no such words here"'


def test_a_start_changes_nothing_until_it_is_changed(begun: Path) -> None:
    """The start that is written has every variable and sets none; a value out of its comment counts."""
    looks = read_looks(begun, begun / "themes")
    path = begin_looks(looks)
    text = path.read_text(encoding="utf-8")
    assert all(f"--{one.name}: {one.day};" in text for one in looks.variables)
    assert read_looks(begun, begun / "themes").variables == looks.variables
    path.write_text(
        text.replace("/* --accent: #0b6e75; */", "--accent: #123456;"), encoding="utf-8"
    )
    changed = read_looks(begun, begun / "themes")
    assert next(one for one in changed.variables if one.name == "accent").day == "#123456"
    assert changed.own == ("own.css",)
    with pytest.raises(UsageError, match="is there already"):
        begin_looks(looks)


def test_the_start_is_css() -> None:
    """Two rules without declarations and without errors, by a parser of CSS."""
    text = own_styles((Variable("a", "#fff", "#000", "paper"), Variable("b", "1px")))
    rules = tinycss2.parse_stylesheet(text, skip_comments=True, skip_whitespace=True)
    assert [rule.type for rule in rules] == ["qualified-rule", "at-rule"]
    inner = tinycss2.parse_blocks_contents(
        rules[0].content, skip_comments=True, skip_whitespace=True
    )
    assert inner == []


def test_the_command_lists(begun: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """The command prints variables, parts, how many words, and where changes go."""
    assert main(["theme", "--site", str(begun)]) == 0
    told = capsys.readouterr().out
    assert "--accent" in told and "home.html.j2" in told and "languages/<language>.po" in told
