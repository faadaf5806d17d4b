"""Translations beside the build files: read, checked, told where they lack something, applied."""

from pathlib import Path

import pytest
from samples import GUIDE, SITE, STOCK, changed, write_content

from guidegen.app.jobs.languages import keep_translations
from guidegen.buildfile.read.reader import read_what_holds
from guidegen.buildfile.read.translated import translated
from guidegen.buildfile.read.translation_reader import kept_file, read_translations
from guidegen.buildfile.records.walk import texts_of
from guidegen.checks.run import run_checks
from guidegen.problems import collect
from guidegen.words import Foreign, Words, language_of

GERMAN = """\
title: Probestulpe
parts:
  cuff: {name: Stulpe}
steps:
  cut: {title: Teile zuschneiden, text: Schneide die Linien entlang.}
"""

LANGUAGES = f"{SITE}languages: [en, de]\n"


def read(folder: Path, german: str = GERMAN, guide: str = GUIDE):
    """The content of a folder with a German guide, and what was wrong."""
    write_content(folder, site=LANGUAGES, guide=guide)
    (folder / "cuff" / "guide.de.yaml").write_text(german, encoding="utf-8")
    content, problems = read_what_holds(folder)
    content, found = collect(read_translations(folder, content))
    return content, problems + found


@pytest.mark.parametrize(
    ("german", "line", "message"),
    [
        ("titel: Stulpe\n", 1, 'the original has no text "titel" here; did you mean "title"?'),
        ("title: Stulpe\nparts:\n  cuf: {name: Stulpe}\n", 3, 'no text "cuf" here; did you mean "cuff"?'),
        ("steps:\n  cutt: {title: Weg}\n", 2, 'did you mean "cut"?'),
        ("parts:\n  cuff: {material: foam-10}\n", 2, 'the original has no text "material" here'),
        ("title: [Stulpe]\n", 1, "expected a text"),
        ("parts: Stulpe\n", 1, "expected keys with texts, as in the original"),
        ("assumes: [Schneiden]\n", 1, 'the original has no text "assumes" here'),
        ("- Stulpe\n", 1, "expected keys with texts"),
    ],
)  # fmt: skip
def test_only_texts_of_the_original_are_taken(tmp_path, german, line, message):
    """What is no text of the original is an error at its place, with the nearest name."""
    _, problems = read(tmp_path, german)
    (problem,) = problems
    assert message in problem.message
    assert problem.place.file.endswith("cuff/guide.de.yaml")
    assert problem.place.line == line


def test_texts_stand_in_the_place_of_the_original_or_tell_their_language(tmp_path):
    """A translated guide has the texts that there are; others stay, marked with their language."""
    content, problems = read(tmp_path)
    assert problems == []
    guide = translated(content, Words("de")).guides[0].guide
    assert (guide.title, guide.parts["cuff"].name) == ("Probestulpe", "Stulpe")
    assert guide.steps[0].title == "Teile zuschneiden"
    assert not isinstance(guide.title, Foreign)
    assert guide.parts["plate"].name == "Plate"
    assert isinstance(guide.parts["plate"].name, Foreign)
    assert guide.parts["plate"].name.language == "en"
    assert guide.parts["cuff"].label == "A"
    assert translated(content, Words("en")).guides[0].guide.title == "Test cuff"


def test_guides_without_a_translation_have_no_pages_in_it(tmp_path):
    """Only translated guides are there in a further language."""
    content, _ = read(tmp_path)
    assert content.languages == {"en": frozenset({"cuff"}), "de": frozenset({"cuff"})}
    (tmp_path / "cuff" / "guide.de.yaml").unlink()
    content, _ = read_what_holds(tmp_path)
    content, _ = collect(read_translations(tmp_path, content))
    assert content.languages["de"] == frozenset()
    assert translated(content, Words("de")).guides == ()


def test_a_text_whose_original_changed_is_old_until_it_is_touched(tmp_path):
    """A changed original is shown instead of its old translation, until that is changed as well."""
    content, _ = read(tmp_path)
    assert keep_translations(tmp_path, content) == []
    assert kept_file(tmp_path / "cuff", "guide", "de").is_file()
    guide = changed(GUIDE, "title: Cut the pieces", "title: Cut all pieces")
    content, _ = read(tmp_path, guide=guide)
    made = content.guides[0].translations["de"]
    assert made.outdated == {("steps", "cut", "title")}
    step = translated(content, Words("de")).guides[0].guide.steps[0]
    assert step.title == "Cut all pieces"
    assert isinstance(step.title, Foreign)
    keep_translations(tmp_path, content)
    assert content.guides[0].translations["de"].outdated
    german = changed(GERMAN, "Teile zuschneiden", "Alle Teile zuschneiden")
    content, _ = read(tmp_path, german, guide)
    assert not content.guides[0].translations["de"].outdated


def test_proof_lists_what_is_missing_or_old(tmp_path):
    """Each gap is advice at the original; a file that is not there is told once."""
    content, _ = read(tmp_path)
    keep_translations(tmp_path, content)
    content, _ = read(tmp_path, guide=changed(GUIDE, "name: Cuff", "name: Long cuff"))
    found = [p for p in run_checks(content) if p.code.startswith("translation")]
    (old,) = [p for p in found if p.code == "translation-outdated"]
    assert "parts.cuff.name" in old.message
    assert "name: Long cuff" in old.place.text
    gaps = [p.message for p in found if p.code == "translation-missing"]
    assert any("no text for steps.bend.title" in message for message in gaps)
    assert any(
        message.startswith("there is no ") and "stock.de.yaml" in message for message in gaps
    )
    assert not any("steps.cut.title" in message for message in gaps)


def test_names_may_be_translated_and_are_never_missed(tmp_path):
    """Whoever made a guide is named as the translation has it, or as the original; no gap is told."""
    content, _ = read(tmp_path, f"{GERMAN}author: Die Werkstatt\n")
    guide = translated(content, Words("de")).guides[0].guide
    assert guide.author == "Die Werkstatt"
    assert language_of(guide.author) == ""
    content, problems = read(tmp_path, GERMAN)
    assert problems == []
    german = translated(content, Words("de"))
    assert german.guides[0].guide.author == "A. Tester"
    assert language_of(german.guides[0].guide.author) == "en"
    told = [p.message for p in run_checks(content) if p.code == "translation-missing"]
    assert not [message for message in told if "author" in message or "approved" in message]


def test_links_of_translations_are_checked(tmp_path):
    """A reference in a translation that leads nowhere is an error at its place."""
    content, _ = read(tmp_path, f"{GERMAN}overview: Eine [Stulpe](piece:stulpe).\n")
    (problem,) = [p for p in run_checks(content) if p.code == "dead-reference"]
    assert problem.place.file.endswith("guide.de.yaml")


def test_stock_and_site_are_translated(tmp_path):
    """stock.de.yaml and site.de.yaml give their texts to the pages of that language."""
    write_content(tmp_path, site=LANGUAGES, stock=STOCK)
    (tmp_path / "site.de.yaml").write_text("title: Probeseite\n", encoding="utf-8")
    german = "terms: {bevel: {term: Schräge, meaning: Keine gerade Kante.}}\n"
    (tmp_path / "stock.de.yaml").write_text(german, encoding="utf-8")
    content, problems = read_what_holds(tmp_path)
    content, found = collect(read_translations(tmp_path, content))
    made = translated(content, Words("de"))
    assert problems + found == []
    assert (made.site.title, made.stock.terms["bevel"].term) == ("Probeseite", "Schräge")
    assert made.stock.tools["knife"].name == "Craft knife"


def test_an_unknown_language_is_told(tmp_path):
    """A tag that no language has is an error of site.yaml."""
    write_content(tmp_path, site=f"{SITE}languages: [en, zz]\n")
    _, problems = read_what_holds(tmp_path)
    assert 'no known language has the tag "zz"' in problems[0].message


def test_texts_are_found_by_trails_that_last(tmp_path):
    """Steps are named by their id, so that a new step before them moves no translation."""
    content, _ = read(tmp_path)
    trails = texts_of(content.guides[0].guide)
    assert ("steps", "cut", "title") in trails
    assert ("measurements", "forearm", "take") in trails
    assert ("licence-words",) in trails
