"""Usual steps of the shipped stock in the languages of a site."""

from pathlib import Path

from samples import SITE, write_content

from guidegen.buildfile.read.content import Content
from guidegen.buildfile.read.reader import read_what_holds
from guidegen.buildfile.read.translation_reader import read_translations
from guidegen.buildfile.records.guide import Guide
from guidegen.problems import collect

GUIDE = """\
title: Cuff
version: 1.0
date: 2026-11-01
author: A. Tester
licence: CC BY 4.0
licence-words: Copy it.
summary: A cuff for tests.
overview: A cuff.
parts:
  cuff:
    {name: Big cuff, label: A, material: foam-10, shape: disc, dimensions: {diameter: 60}, hand: pair}
  plate: {name: Plate, label: B, material: foam-10, shape: disc, dimensions: {diameter: 50}}
steps:
  - sequence: foam-start
    id: start
    without: [card-fit]
    steps: {print: {title: Print it twice}, cut: {more: Begin with the cuff.}}
  - id: straps
    title: Mark the straps
    stage: fitting
    parts: [cuff]
    text: Mark where straps begin.
    time: 5 min
  - {id: more-plates, same-as: straps, with: {cuff: plate}}
"""

GERMAN = """\
title: Manschette
parts: {cuff: {name: Große Manschette}, plate: {name: Platte}}
steps:
  start-trace: {check: Alles ist da.}
"""

CHANGED = """\
extends: trade
sequences:
  foam-start:
    about: Ours
    finds: {pieces: {about: pieces of foam, made-of: [foam]}}
    steps:
      - id: print
        title: Ours
        stage: preparing
        process: print
        parts: [pieces]
        text: Ours
        time: 1 min
"""


def _read(
    folder: Path, languages: str, guide: str = GUIDE, stock: str = "extends: trade\n"
) -> Content:
    site = f"{SITE}languages: {languages}\n"
    write_content(folder, site=site, stock=stock, guide=guide)
    if "de]" in languages:
        (folder / "cuff" / "guide.de.yaml").write_text(GERMAN, encoding="utf-8")
    content, problems = read_what_holds(folder)
    assert content is not None, problems
    return collect(read_translations(folder, content))[0]


def _step(guide: Guide, name: str) -> tuple[str, str]:
    return next((one.title, one.text) for one in guide.steps if one.id == name)


def test_a_further_language_has_the_usual_steps(tmp_path: Path) -> None:
    """German texts come with the stock, with the German names of the parts; the author's own go
    before, and what this guide says otherwise waits for its own translation."""
    made = _read(tmp_path, "[en, de]").guides[0].translations["de"]
    assert made.texts["steps", "start-trace", "title"] == "Jedes Teil übertragen"
    text = made.texts["steps", "start-trace", "text"]
    assert "[Große Manschette](piece:cuff) und [Platte](piece:plate)" in text
    assert "für links und einmal mit umgedrehter Schablone" in text
    assert "Faltlinie" not in text  # no part is a half
    assert made.texts["steps", "start-trace", "check"] == "Alles ist da."
    missing = {trail[1:] for trail in made.missing if trail[0] == "steps"}
    assert {("start-print", "title"), ("start-cut", "text")} <= missing
    assert ("start-cut", "title") not in missing


def test_a_site_in_german_has_the_stock_in_german(tmp_path: Path) -> None:
    """Where German is the first language, materials, cautions and usual steps are German, and so
    are sentences that guidegen makes; English is then the further language."""
    content = _read(tmp_path, "[de, en]", GUIDE.replace("Big cuff", "Große Manschette"))
    assert content.stock.materials["foam-6"].name == "Schaumstoffplatte, 6 mm"
    assert content.stock.terms["bevel"].term == "Schräge"
    title, text = _step(content.guides[0].guide, "start-trace")
    assert title == "Jedes Teil übertragen"
    assert "[Große Manschette](piece:cuff) und [Plate](piece:plate)" in text
    title, text = _step(content.guides[0].guide, "more-plates")
    assert title == "Dasselbe noch einmal: Plate (2\u00a0von\u00a02)"
    assert text.startswith("Mach dasselbe wie unter [Mark the straps](step:straps), jetzt mit: ")
    english = content.shared_translations["en"][1]
    assert english.texts["materials", "foam-6", "name"] == "Foam sheet, 6 mm"


def test_a_changed_sequence_is_the_sites_own(tmp_path: Path) -> None:
    """A sequence that the site writes anew is translated by nobody but the site."""
    guide = f"{GUIDE.partition('    without')[0]}"
    made = _read(tmp_path, "[en, de]", guide, CHANGED).guides[0].translations["de"]
    assert ("steps", "start-print", "title") in made.missing
