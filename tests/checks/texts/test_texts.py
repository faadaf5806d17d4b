"""Texts: links, pictures, headings, the licence, each told at its own line."""

from pathlib import Path

import pytest
from PIL import Image
from samples import GUIDE, SITE, STOCK, changed, write_content

from guidegen.buildfile.read.reader import read_content
from guidegen.checks.run import run_checks
from guidegen.errors import ContentError

OVERVIEW = "overview: You will make a [cuff](piece:cuff).\n"
FUMES = """\
  fumes: {word: CAUTION, title: Fumes, short: Open the windows, hazard: It smells.,
          consequence: Your head aches., avoid: Open the windows., first-aid: Go outside.}
"""


def report(folder: Path) -> str:
    """All findings in words."""
    return "\n".join(f"{problem.code}: {problem}" for problem in run_checks(read_content(folder)))


def texted(folder: Path, *lines: str) -> str:
    """Findings of the sample with another overview, as a block of lines."""
    block = "overview: |\n" + "".join(f"  {line}\n" for line in lines)
    return report(write_content(folder, guide=changed(GUIDE, OVERVIEW, block)))


@pytest.mark.parametrize(
    "link",
    [
        "https://example.org", "https://example.org:8443/a?b=c#d", "https://münchen.example/",
        "mailto:club@example.org", "mailto:club@example.org?subject=cuff", "#sizes",
        "piece:cuff", "step:glue", "material:cement", "tool:knife", "caution:blade", "term:bevel",
    ],
)  # fmt: skip
def test_good_links(tmp_path, link):
    """Well-formed https and mailto addresses, anchors and our own references are links."""
    assert texted(tmp_path, f"See [this]({link}).") == ""


@pytest.mark.parametrize(
    "link",
    [
        "http://example.org", "https://", "https:example.org", "https:///path", "ftp://a.example",
        "javascript:alert(1)", "https://user@example.org", "https://example.org:port/",
        "mailto:", "mailto:club", "other.html", "/index.html", "#", "data:text/html,x", "",
    ],
)  # fmt: skip
def test_dead_links(tmp_path, link):
    """Whatever would lose its link on the page is told, in the line where it stands."""
    text = texted(tmp_path, "First.", "", f"See [this]({link}).")
    assert text.startswith("dead-link: ")
    assert "/cuff/guide.yaml:11:3  overview: " in text
    assert "is no address that becomes a link" in text


def test_references_in_any_form_of_link(tmp_path):
    """A link is found where CommonMark finds one: by reference and in brackets, not in code."""
    text = texted(
        tmp_path, "A [cuff][c], <https://example.org>, `[x](piece:no)`.", "", "[c]: piece:cufff"
    )
    assert text.count("dead-reference") == 1
    assert 'piece:cufff, which does not exist; did you mean "cuff"?' in text


@pytest.mark.parametrize(
    ("old", "new", "where"),
    [
        ("text: Warm it and bend it.", "text: Warm [it](piece:no).", "steps[1].text"),
        ("text: Warm it and bend it.", "check: '[it](piece:no)'\n    text: Warm.", "steps[1].check"),
        ("text: Warm it and bend it.",
         "text: Warm.\n    trouble: [{sign: '[a](step:no)', cure: '[b](tool:no)'}]",
         "steps[1].trouble[0].cure"),
        ("take: Around the widest part.", "take: 'Around [it](term:no).'",
         "measurements.forearm.take"),
        ("licence-words: Copy it", "questions: [{ask: Why, answer: '[No](caution:no)'}]\nlicence-words: Copy it",
         "questions[0].answer"),
        ("licence-words: Copy it and say where it is from.", "licence-words: '[Copy](no)'", "licence-words"),
        ("licence-words", "wearing: '[A](http://a.example)'\ncare: '[B](piece:b)'\nlicence-words", "care"),
    ],
)  # fmt: skip
def test_all_texts_of_a_guide_are_read(tmp_path, old, new, where):
    """Links are checked in every text that a reader sees."""
    text = report(write_content(tmp_path, guide=changed(GUIDE, old, new)))
    assert f"  {where}: " in text
    assert "dead-" in text


@pytest.mark.parametrize(
    ("file", "old", "new", "where"),
    [
        ("stock", "how: Warm and bend.", "how: '[Warm](tool:gun)'", "processes.forming.how"),
        ("stock", "how: Warm and bend.", "how: '[Warm](piece:cuff)'", "processes.forming.how"),
        ("stock", "meaning: An edge", "meaning: '[An](term:no) edge'\n#", "terms.bevel.meaning"),
        ("stock", "{name: Craft knife, ", "{name: Craft knife, note: '[x](y)', ", "tools.knife.note"),
        ("stock", "    name: Webbing, 25 mm\n", "    name: Webbing, 25 mm\n    note: '[x](y)'\n",
         "materials.webbing.note"),
        ("site", "publisher: Test club\n", "publisher: Test club\nabout: '[x](y)'\n", "about"),
    ],
)  # fmt: skip
def test_shared_texts_are_read(tmp_path, file, old, new, where):
    """Links are checked in site.yaml and stock.yaml too; there are no pieces and steps there."""
    texts = {"site": SITE, "stock": STOCK}
    if "term:no" in new:
        old, new = (
            "{term: Bevel, meaning: An edge that is not cut square.}",
            "{term: Bevel, meaning: '[An](term:no) edge'}",
        )
    texts[file] = changed(texts[file], old, new)
    assert f"  {where}: " in report(write_content(tmp_path, **texts))


def test_lines_of_markdown_files(tmp_path):
    """A dead link in a text of its own file is told with that file and line."""
    folder = write_content(tmp_path, guide=changed(GUIDE, OVERVIEW, "overview: over.md\n"))
    (folder / "cuff" / "over.md").write_text("\n\nWords.\n\n\nA [link](nowhere).\n")
    text = report(folder)
    assert "/cuff/over.md:6:1  overview: " in text
    assert "    A [link](nowhere).\n" in text


def test_pictures_need_words(tmp_path):
    """A picture without a text alternative is an error, and so is one that nobody names."""
    guide = changed(GUIDE, "    text: Warm it and bend it.\n",
                    "    text: 'Warm ![](bend.png) it.'\n    picture: {file: bend.png, alt: A bent cuff}\n")  # fmt: skip
    folder = write_content(tmp_path, guide=guide)
    Image.new("RGB", (2, 2)).save(folder / "cuff" / "bend.png")
    text = report(folder)
    assert text.startswith("picture-without-alt: ")
    assert "dead-picture" not in text
    write_content(tmp_path, guide=changed(guide, "![](bend.png)", "![Bent](bent.png)"))
    text = report(folder)
    assert "dead-picture: " in text
    assert 'did you mean "bend.png"?' in text
    write_content(tmp_path, guide=changed(guide, "![](bend.png)", "![Bent](bend.png)"))
    assert report(folder) == ""


@pytest.mark.parametrize(
    "key",
    [
        "alt: A bent cuff",
        "licence: CC BY 4.0\n",
        "licence-words: Copy it and say where it is from.\n",
    ],
)
def test_words_that_are_never_left_out(tmp_path, key):
    """The text alternative of a step's picture and the licence are asked for when reading."""
    guide = changed(GUIDE, "    text: Warm it and bend it.\n",
                    "    text: Warm.\n    picture: {file: bend.png, alt: A bent cuff}\n")  # fmt: skip
    with pytest.raises(ContentError, match=f'needs the key "{key.split(":")[0]}"'):
        read_content(
            write_content(tmp_path, guide=changed(guide, key, "" if "\n" in key else "caption: x"))
        )


def test_headings_skip_no_level(tmp_path):
    """WCAG 2.2, 1.3.1 and 2.4.6: a level that is left out, and a heading without words, are told."""
    assert texted(tmp_path / "a", "## One", "", "### Two", "", "## Three") == ""
    text = texted(tmp_path / "b", "# One", "", "### Two", "", "#")
    assert "heading-skip: " in text
    assert (
        '/cuff/guide.yaml:11:3  overview: warning: the heading "Two" is of level 3, but the one before it of level 1'
        in text
    )
    assert "/cuff/guide.yaml:13:3  overview: warning: a heading without words" in text


def test_a_caution_that_no_step_brings_is_told(tmp_path):
    """A text that sends readers to a caution which its guide does not describe leads nowhere."""
    stock = changed(STOCK, "cautions:\n", "cautions:\n" + FUMES)
    folder = write_content(
        tmp_path,
        guide=changed(GUIDE, OVERVIEW, "overview: Read [this](caution:fumes) first.\n"),
        stock=stock,
    )
    text = report(folder)
    assert text.count("caution-elsewhere") == 1
    assert 'overview: warning: no step brings the caution "fumes"' in text
