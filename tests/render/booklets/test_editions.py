"""Editions of a booklet: which are made, how they are set, and what stays together on a page."""

import io
import re
from dataclasses import replace
from types import SimpleNamespace

import pikepdf
import pytest
from render.edition_samples import (
    STEPS,
    action,
    blank,
    cautions_of,
    edition,
    hazard,
    long_sample,
    pages,
    site_with,
)
from render.page_samples import sample, theme
from render.pdf_reader import read_pages

from guidegen.buildfile.records.site import choose_editions
from guidegen.documents import Edition
from guidegen.errors import UsageError
from guidegen.render.booklets import editions as module
from guidegen.render.booklets.editions import edition_files


def made(**changes: object):
    """Names of the documents of the small sample, size M."""
    content, plan, pictures = sample()
    content = site_with(content, **changes)
    return [file.name for file in edition_files(content, plan, "M", pictures, theme())]


def drawn_file(pages):
    """What stands for a document that was drawn."""
    return SimpleNamespace(pages=pages, data=blank(pages), on_paper=lambda *_: blank(pages))


@pytest.fixture
def layouts(monkeypatch):
    """Nothing is laid out: each document is one empty page, or as many as are put in 'pages'."""
    calls = {"count": 0, "pages": 1}

    def lay_out(html, files, variant):
        calls["count"] += 1
        assert variant == "pdf/ua-1"
        pages = 2 if "How to print and fold" in html else calls["pages"]
        return SimpleNamespace(pages=pages, begun=lambda _: 0, draw=lambda: drawn_file(pages))

    monkeypatch.setattr(module, "lay_out", lay_out)
    monkeypatch.setattr(module, "write_pdf", lambda *page, **how: lay_out(*page, **how).draw().data)
    return calls


# What is made
@pytest.mark.parametrize(("pages_", "folds"), [(1, True), (40, True), (41, False)])
def test_usual_editions(layouts, pages_, folds):
    """Without a choice: booklet, summary, checklist, bench card; and one to fold up to 40 pages."""
    layouts["pages"] = pages_
    usual = ["booklet-a4.pdf", "summary-a4.pdf", "checklist-a4.pdf", "bench-card-a4.pdf"]
    assert made(papers=("a4",)) == usual + ["booklet-a5-fold-a4.pdf"] * folds


@pytest.mark.usefixtures("layouts")
def test_chosen_editions():
    """What the site chooses is made for each of its papers, under names that tell what it is."""
    assert made(editions=(Edition.FOLD, Edition.SUMMARY), papers=("letter", "legal")) == [
        "summary-letter.pdf",
        "booklet-half-letter-fold-letter.pdf",
        "summary-legal.pdf",
    ]
    chosen = choose_editions(["archive", "print-shop", "large-print"])
    assert made(editions=chosen, papers=("a4",)) == [
        "booklet-large-print-a4.pdf",
        "booklet-print-shop-a4.pdf",
        "booklet-archive-a4.pdf",
    ]


def test_nothing_is_laid_out_twice(layouts):
    """All editions take one layout each and one of the note: copies are made of the booklet's."""
    assert len(made(editions=tuple(Edition), papers=("a4",))) == len(Edition)
    copies = {Edition.PRINT_SHOP, Edition.ARCHIVE}
    assert layouts["count"] == len(Edition) - len(copies) + 1
    layouts["count"] = 0
    made(editions=choose_editions(["screen", "print-shop", "archive"]), papers=("a4",))
    assert layouts["count"] == 1


def test_what_takes_more_than_a_page_is_not_drawn(layouts, monkeypatch):
    """Settings are tried by their pages alone, for all papers at once; one of them is drawn."""
    drawn = []
    content, plan, pictures = sample()
    shared = module._Layouts(content, plan, "M", pictures, theme(), ("a4", "letter"))

    def lay_out(html, files, variant):
        layouts["count"] += 1
        pages = 2 if "full" in html else 1
        return SimpleNamespace(
            pages=pages, begun=lambda _: 0, draw=lambda: drawn.append(html) or drawn_file(pages)
        )

    monkeypatch.setattr(module, "lay_out", lay_out)
    for _ in shared.papers:
        assert [shared.takes_one_page(html) for html in ("full", "fuller", "short")] == [
            False,
            False,
            True,
        ]
        assert len(shared.on_paper("short", "a4"))
    assert (drawn, layouts["count"]) == (["short"], 3)


def test_papers_that_share_a_page_share_a_layout(layouts):
    """A4 and Letter take one layout, Legal one of its own; each gets its file."""
    names = made(editions=(Edition.SCREEN,), papers=("a4", "letter", "legal"))
    assert names == ["booklet-a4.pdf", "booklet-letter.pdf", "booklet-legal.pdf"]
    assert layouts["count"] == 2


def test_folded_booklets_share_a_layout(layouts):
    """What A4 and Letter give folded is laid out once; each has a note of its own."""
    names = made(editions=(Edition.FOLD,), papers=("a4", "letter"))
    assert names == ["booklet-a5-fold-a4.pdf", "booklet-half-letter-fold-letter.pdf"]
    assert layouts["count"] == 1 + 2


def test_names_of_editions():
    """'all' is every one; an unknown name is refused with the nearest that there is."""
    assert choose_editions(["all"]) == tuple(Edition)
    assert choose_editions(["fold", "screen", "fold"]) == (Edition.SCREEN, Edition.FOLD)
    with pytest.raises(UsageError, match='no edition "larg-print"; did you mean "large-print"'):
        choose_editions(["larg-print"])


def test_large_print_has_no_italics():
    """Stress is bold: italics are hard to read for many who need large type."""
    text = " ".join(run.font for page in pages("large print") for run in page.runs)
    assert "Italic" not in text
    assert "Bold" in text


def test_large_print_keeps_its_size_in_words():
    """18 pt and more in every chapter, techniques too (Clear Print: from memory); the hidden name
    of the edition is of 1 pt, and drawings say their words below them."""
    found = [run for page in pages("large print") for run in page.runs if run.size > 1.1]
    assert any("Cementing" in run.text for run in found)
    assert [run for run in found if run.size < 17.9] == []


def test_large_print_has_all_words_of_the_booklet():
    """The same steps, cautions and chapters, in larger type."""
    large = " ".join(page.text for page in pages("large print"))
    for step in range(STEPS):
        assert action(step) in large
        for number in range(cautions_of(step)):
            # In the chapter on safety, and before the step or at the head of its stage.
            assert large.count(hazard(step, number)) >= 2
    for words in ("Contact cement", "Which parts", "Glossary", "CC BY 4.0", "May I sell it?"):
        assert (words in large) == any(words in page.text for page in pages("both papers")), words


# Folded
def test_folded_booklet_begins_with_a_note():
    """The first leaf tells how to print and fold, in figures of this booklet."""
    found = read_pages(edition("fold").data)
    pages_of_booklet = len(pages("a5"))
    sheets = -(-pages_of_booklet // 4)
    assert len(found) == 2 + 2 * sheets
    note = found[0].text
    assert f"{pages_of_booklet} pages on {sheets} sheets of A4" in note
    assert f"pages, 3 to {len(found)}" in note
    assert "short edge" in note
    assert "CAUTION" in note
    assert "upright" in found[1].text


def test_folded_sheets_have_the_pages_of_the_booklet():
    """First sheet outside: the cover on the right half; its back: page 2 on the left half."""
    found = read_pages(edition("fold").data)
    # The last page beside it has the same words at its head, in small type.
    named = (run for run in found[2].runs if run.text == "Mooring cuff & strap")
    cover = [run for run in named if run.size > 14]
    assert min(run.left for run in cover) > found[2].width / 2
    contents = [run for run in found[3].runs if run.text == "Contents"]
    assert max(run.left for run in contents) < found[3].width / 2


# Summary and checklist
@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("name", [None, "long"])
def test_summary_is_one_page(paper, name):
    """What it is, size, what to buy, steps with times and the gravest cautions, on one page."""
    if name:
        (page,) = read_pages(edition("summary", paper).data)
        assert "Do number 10" in page.text
        assert "Mind hazard" in page.text
        return
    content, plan, pictures = sample()
    content = site_with(content, editions=(Edition.SUMMARY,), papers=(paper,))
    (file,) = edition_files(content, plan, "M", pictures, theme())
    (page,) = read_pages(file.data)
    for words in (
        "A cuff for a <small> wrist.", "Wrist girth 180 mm", "Contact cement", "€22",
        "2 Glue the cuff 1 h 30 min", "+ 10 min", "Flammable vapour.", "Safety goggles",
    ):  # fmt: skip
        assert words in page.text.replace("\xa0", " "), words
    assert "Smell of new foam" not in page.text


def test_summary_of_a_long_guide_lists_stages():
    """A guide with more steps than a page has lines is summed up by stage, on one page."""
    content, plan, pictures = long_sample()
    guide = plan.file.guide
    steps = tuple(
        step.model_copy(update={"id": f"{step.id}-{n}"}) for n in range(9) for step in guide.steps
    )
    file = replace(plan.file, guide=guide.model_copy(update={"steps": steps}))
    plan = replace(plan, file=file)
    content = site_with(content, editions=(Edition.SUMMARY,), papers=("letter",))
    (made,) = edition_files(content, plan, "M", pictures, theme())
    (page,) = read_pages(made.data)
    assert "Strapping" in page.text
    assert "Do number" not in page.text


def test_checklist_has_a_box_for_everything():
    """Materials, tools, pieces and steps of the size, each with a box; steps name their caution."""
    content, plan, pictures = sample()
    content = site_with(content, editions=(Edition.CHECKLIST,), papers=("a4",))
    (file,) = edition_files(content, plan, "M", pictures, theme())
    text = " ".join(page.text for page in read_pages(file.data))
    for words in (
        "Foam sheet, 5 mm", "Contact cement", "Craft knife", "Safety goggles", "A-L, A-R", "Badge",
        "Glue the cuff", "The seam holds.", "DANGER", "Cut the strap",
    ):  # fmt: skip
        assert words in text, words
    with pikepdf.open(io.BytesIO(file.data)) as pdf:
        content = b"".join(page.Contents.read_bytes() for page in pdf.pages)
    # A box is a square of 4.2 mm, in CSS pixels of 96 to the inch.
    boxes = re.findall(rb"15\.8\d* 15\.8\d* re", content)
    materials, tools, pieces, steps = 3, 2, 2 * 2, 3
    assert len(boxes) >= materials + tools + pieces + steps
