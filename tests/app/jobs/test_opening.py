"""One way in for all commands: what of a content folder each of them reads, and what stops it."""

from pathlib import Path

import pytest
from samples import GUIDE, SITE, changed, unplaced, write_content

from guidegen.app.jobs.opening import open_content, open_guide
from guidegen.app.preview.builder import PreviewBuilder
from guidegen.cli import main
from guidegen.errors import ContentError, UsageError

THEMES = Path(__file__).parents[3] / "themes"
COMMANDS = {
    "press": ("--workers", "1", "--editions", "checklist", "--nesting-time", "0"),
    "proof": (),
    "fit": (
        "--measure",
        "upper_girth=27cm",
        "--measure",
        "lower_girth=17cm",
        "--nesting-time",
        "0",
    ),
    "class": ("--count", "M=1", "--nesting-time", "0"),
    "sizes": (),
}
SMALL = unplaced(changed(GUIDE, "  S: {forearm: 250, wrist: 160}\n", ""))
"""One size of the sample, and nothing to draw on a body."""


def _with_broken_neighbour(folder: Path, guide: str = SMALL, site: str = SITE) -> Path:
    content = write_content(folder / "content", guide=guide, site=site + "papers: [a4]\n")
    (content / "broken").mkdir()
    (content / "broken" / "guide.yaml").write_text("title: [\n", encoding="utf-8")
    return content


@pytest.mark.parametrize("command", COMMANDS)
def test_a_broken_neighbour_stops_no_command_for_another_guide(tmp_path: Path, command: str):
    """Each command does its work on one guide though the guide beside it cannot be read."""
    arguments = [command, "cuff", "--content", str(_with_broken_neighbour(tmp_path))]
    if command != "proof":
        arguments += ["--themes", str(THEMES), "--out", str(tmp_path / "out")]
    assert main([*arguments, *COMMANDS[command]]) == 0


def test_a_broken_neighbour_stops_no_preview_of_another_guide(tmp_path: Path):
    """The preview of one guide shows its pages though the guide beside it cannot be read."""
    content = _with_broken_neighbour(tmp_path)
    builder = PreviewBuilder(content, THEMES, ("cuff",), run=lambda job, *args: job(*args))
    assert builder.draft().file("cuff/index.html")


def test_the_broken_guide_itself_is_told(tmp_path: Path):
    """Who asks for all guides, or for the broken one, gets the place of its fault."""
    content = _with_broken_neighbour(tmp_path)
    assert "broken/guide.yaml:2" in str(open_content(content).problems[0])
    with pytest.raises(ContentError, match=r"broken/guide\.yaml:2"):
        open_guide(content, "broken", THEMES)


def test_a_guide_that_is_not_there_is_told_with_the_nearest(tmp_path: Path):
    """A slip in the name of a guide is answered with the name that was meant."""
    with pytest.raises(UsageError, match=r'there is no guide "cufs" .*cuff'):
        open_guide(write_content(tmp_path), "cufs", THEMES)


def test_errors_of_names_and_steps_stop_one_guide(tmp_path: Path):
    """One guide is open only when the checks find no error in it, whatever command asks."""
    content = write_content(tmp_path, guide=changed(GUIDE, "material: cement", "material: cemen"))
    with pytest.raises(ContentError, match="cemen"):
        open_guide(content, "cuff", THEMES)


def test_a_translation_is_read_where_it_is_asked_for(tmp_path: Path):
    """A fault in the German texts stops who asks for German, and nobody else."""
    content = write_content(tmp_path, site=SITE + "languages: [en, de]\n")
    (content / "cuff" / "guide.de.yaml").write_text("title: [\n", encoding="utf-8")
    assert open_guide(content, "cuff", THEMES).content.language == "en"
    with pytest.raises(ContentError, match=r"guide\.de\.yaml:2"):
        open_guide(content, "cuff", THEMES, "de")
    with pytest.raises(UsageError, match='does not speak "fr"'):
        open_guide(content, "cuff", THEMES, "fr")


def test_an_unchanged_guide_is_not_read(tmp_path: Path):
    """A press names the guides that it takes over; these are neither read nor judged."""
    opened = open_content(
        _with_broken_neighbour(tmp_path), skip=lambda site, names: frozenset({"broken"})
    )
    assert opened.problems == []
    assert [file.id for file in opened.whole().guides] == ["cuff"]
    assert opened.skipped == {"broken"}
