"""Official hazard statements carry their own credit wherever their words are printed."""

import re
from dataclasses import replace
from pathlib import Path

from render.page_samples import STOCK, downloads, sample, theme

from guidegen.buildfile.records.safety.statements import STATEMENTS
from guidegen.buildfile.records.stock import Stock
from guidegen.render.booklets.booklet import booklet_html
from guidegen.render.lists.licence_text import licence_text
from guidegen.render.site.pages import render_guide

THEME = Path(__file__).parents[3] / "themes" / "workshop"
CREDIT = ("1272/2008", "© European Union", "CC BY 4.0", "does not cover them")


def test_every_list_of_statements_has_its_credit():
    """Each template that prints cautions with their statements in words says whose they are right
    after the list: Commission Decision 2011/833/EU lets them be used with the source named."""
    listing = 0
    for path in sorted(THEME.glob("*.j2")):
        text = path.read_text(encoding="utf-8")
        lists = [*re.finditer(r"\bcaution\(item[^)]*where=true", text)]
        listing += bool(lists)
        for found in lists:
            assert "statements_credit(cautions)" in text[found.end() :], path.name
    assert listing == 3  # safety page, booklet in all its forms, leader's papers


def test_words_of_statements_are_printed_by_two_macros_alone():
    """Cards, handouts, checklists and summaries name codes at most, whose words stand elsewhere."""
    printing = [
        path.name
        for path in sorted(THEME.glob("*.j2"))
        if "statement.text" in path.read_text(encoding="utf-8")
    ]
    assert printing == ["booklet-parts.html.j2", "parts-cautions.html.j2"]


def test_pages_and_booklets_with_statements_have_the_credit():
    """Whatever prints the words of H225 says whose they are; what does not, says nothing of it."""
    content, plan, pictures = sample()
    made = render_guide(content, plan, pictures, theme(), downloads())
    texts = {path: data.decode() for path, data in made.items() if path.endswith(".html")}
    texts["booklet"] = booklet_html(content, plan, "M", ("a4",), pictures=pictures, theme=theme())
    with_statements = {path for path, text in texts.items() if STATEMENTS["H225"] in text}
    assert with_statements == {"cuff/safety.html", "booklet"}
    for path in with_statements:
        assert all(words in texts[path] for words in CREDIT), path


def test_the_licence_of_a_pack_leaves_statements_out():
    """The text beside a pack's files excludes official statements, where the guide has any."""
    content, plan, _ = sample()
    assert all(words in licence_text(content, plan, "M") for words in CREDIT)
    plain = {
        **STOCK,
        "cautions": {
            name: {**caution, "statements": []} for name, caution in STOCK["cautions"].items()
        },
    }
    without = replace(content, stock=Stock.model_validate(plain))
    assert "1272/2008" not in licence_text(without, plan, "M")
