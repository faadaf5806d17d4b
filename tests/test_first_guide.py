"""The first chapters that anybody reads: what they tell to do is done here, and works."""

import re
from pathlib import Path

from guidegen.app.commands.begin import begin
from guidegen.app.commands.handbook import HANDBOOK
from guidegen.app.commands.proof import proof
from guidegen.render.pdf.html_pdf import INSTALL

CHAPTER = (HANDBOOK / "begin" / "first-guide.md").read_text(encoding="utf-8")


def blocks() -> dict[str, str]:
    """What the chapter tells to add, by the key of the guide below which it stands."""
    found = re.findall(r"```yaml\n(\w+):\n(.*?)```", CHAPTER, re.DOTALL)
    return dict(found)


def test_the_first_guide_is_made_as_the_chapter_says(tmp_path: Path) -> None:
    """All its changes together leave nothing for proof to tell, and the band is cut and bought."""
    begin(tmp_path / "my-site")
    path = tmp_path / "my-site" / "first-cuff" / "guide.yaml"
    text = path.read_text(encoding="utf-8")
    for key, added in blocks().items():
        # Below the last entry: before the first line at the left edge after the key.
        start = text.index(f"\n{key}:\n") + len(key) + 3
        end = start + re.search(r"^(?=\S)", text[start:], re.MULTILINE).start()
        text = f"{text[:end]}{added}{text[end:]}"
    changes = re.findall(r"`((?:parts|stacks|glue): \[[^`]+\])`", CHAPTER)
    assert len(changes) == 3
    at = text.index("id: glue-shield")
    for change in changes:
        key = change.partition(":")[0]
        text = text[:at] + re.sub(rf"\b{key}: \[[^\]]*\]", change, text[at:], count=1)
    text = text.replace("length: 140", "length: 160")
    path.write_text(text, encoding="utf-8")
    found = proof(tmp_path / "my-site")
    assert [str(one) for one in found.open] == []
    assert set(blocks()) == {"sizes", "parts", "stacks"}


def test_the_first_slip_is_answered_as_the_chapter_says(tmp_path: Path) -> None:
    """The misspelt foam is told with the name that there is."""
    begin(tmp_path / "my-site")
    path = tmp_path / "my-site" / "first-cuff" / "guide.yaml"
    text = path.read_text(encoding="utf-8")
    assert "foam-66" in CHAPTER and "material: foam-6 " in text and "length: 140" in text
    path.write_text(text.replace("material: foam-6 ", "material: foam-66 "), encoding="utf-8")
    messages = [one.message for one in proof(tmp_path / "my-site").open]
    assert 'no material "foam-66" in stock; did you mean "foam-6"?' in messages


def test_the_chapter_of_installing_has_the_lines_of_the_error() -> None:
    """Where Pango is missing, the error and the chapter name the same packages."""
    chapter = (HANDBOOK / "begin" / "installing.md").read_text(encoding="utf-8")
    named = re.findall(r"(?:install|-S) ((?:[\w.-]*pango[\w.-]*|libharfbuzz[\w.-]*)(?: lib\S+)*)$", INSTALL, re.MULTILINE)  # fmt: skip
    assert len(named) == 5
    assert [names for names in named if names.split()[-1] not in chapter] == []
