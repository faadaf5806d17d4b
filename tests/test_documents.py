"""The table of documents: what is left out of it, or of what it leads to, is named here."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from handbook_tables import EDITIONS, PRINTING, editions_words
from render.page_samples import sample, theme

from guidegen.app.commands.options import build_parser
from guidegen.documents import BY_EDITION, BY_ID, DOCUMENTS, Document, Edition
from guidegen.render.booklets.editions import MAKERS, expected_files
from guidegen.render.booklets.summary import one_page_html
from guidegen.render.site.offline import ASKED, KEPT

THEME = Path(__file__).parent.parent / "themes" / "workshop"


@pytest.mark.parametrize("edition", list(Edition))
def test_every_edition_is_a_document(edition):
    """Each form that an author may choose has its row, with what the handbook says of it."""
    assert edition in BY_EDITION, f"{edition} has no row in guidegen/documents.py"
    assert BY_EDITION[edition].purpose, f"{edition} has no purpose, for the handbook"


@pytest.mark.parametrize("edition", list(Edition))
def test_every_edition_can_be_made(edition):
    """A form without a maker has a template, and a heading for its title block."""
    if edition in MAKERS:
        return
    assert (THEME / f"{edition}.html.j2").is_file(), f"no maker, and no {edition}.html.j2"
    assert BY_EDITION[edition].heading, f"{edition} has no heading for its title block"


def test_names_and_files_are_told_apart():
    """No two documents share an id, a name or a file."""
    for field in ("id", "title", "file"):
        values = [getattr(document, field) for document in DOCUMENTS]
        assert sorted(values) == sorted(set(values)), field


def test_the_handbook_tells_of_every_edition():
    """The table of printing.md is that of the documents; if not: python tests/handbook_tables.py"""
    text = PRINTING.read_text(encoding="utf-8")
    found = re.search(EDITIONS, text)
    assert found
    assert found[0] == editions_words()


def test_the_command_line_names_every_edition():
    """`press --help` lists all that may follow --editions."""
    parser = build_parser()
    press = next(
        action.choices["press"] for action in parser._actions if isinstance(action.choices, dict)
    )
    help_ = next(a.help for a in press._actions if "--editions" in a.option_strings)
    assert [edition for edition in Edition if edition not in help_] == []


def test_a_preview_leads_to_what_is_made_in_any_case():
    """Of the usual documents all but the one to fold, which depends on the booklet's pages, and the
    model, which a guide has whose parts are placed."""
    content, _, _ = sample()
    kinds = {document.id for _, document, _ in expected_files(content)}
    assert kinds == {
        document.id
        for document in DOCUMENTS
        if document.usual and not document.most_pages and not document.all_sizes and document.sure
    }
    names = [name for name, document, _ in expected_files(content) if document is BY_ID["booklet"]]
    assert names == [f"booklet-{paper}.pdf" for paper in content.site.papers]


def test_what_is_read_at_the_bench_is_kept_offline():
    """Templates, the booklet for the screen, the single pages, the list and what turns the thing; no
    archives, and the model where one asks for it."""
    kept = {"templates", "booklet", "summary", "checklist", "bench-card", "materials", "all-sides"}
    assert kept == KEPT
    assert {"model"} == ASKED


def test_one_page_needs_a_row_and_a_template():
    """A document without a maker is made from a template of its edition's name."""
    content, plan, pictures = sample()
    card = Document(
        "times", "Times on one page", "PDF", "times-{paper}.pdf", "times", heading="Times"
    )
    page = b"{{ block.kind }}: {% for stage in stages %}{{ stage.name }} {{ stage.time }}; {% endfor %}"
    own = replace(theme(), files={**theme().files, "times.html.j2": page})
    html = one_page_html(content, plan, "M", ("a4",), pictures=pictures, theme=own, document=card)
    assert html.startswith("Times: ")
    assert "30 min" in html.replace("\xa0", " ")
