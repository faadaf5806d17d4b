"""Pages of every form of a booklet: what stands together, what stands nowhere alone, how large it is."""

import re
from dataclasses import replace
from functools import cache
from itertools import pairwise

import pytest
from render.edition_samples import (
    FORMS,
    STEPS,
    action,
    cautions_of,
    drawn_words,
    hazard,
    long_sample,
    pages,
    site_with,
)
from render.page_samples import sample, theme
from render.pdf_reader import read_pages

from guidegen.documents import Edition
from guidegen.render.booklets.booklet import booklet_files, booklet_html
from guidegen.render.booklets.editions import edition_files
from guidegen.render.pdf.html_pdf import write_pdf
from guidegen.units import PAPERS


def test_page_numbers_agree_between_papers():
    """A page of the booklet on A4 holds the words of the same page on Letter, in true sizes."""
    content, plan, pictures = sample()
    content = site_with(content, editions=(Edition.SCREEN,), papers=("a4", "letter"))
    a4, letter = (file.data for file in edition_files(content, plan, "M", pictures, theme()))
    assert [page.text for page in read_pages(a4)] == [page.text for page in read_pages(letter)]
    for data, paper in ((a4, "a4"), (letter, "letter")):
        (first, *_) = read_pages(data)
        assert first.width == pytest.approx(PAPERS[paper].width, abs=0.1)
        assert first.height == pytest.approx(PAPERS[paper].height, abs=0.1)


# What stays together
@pytest.mark.parametrize("form", FORMS)
def test_cautions_stand_on_the_page_of_their_action(form):
    """All cautions of a step and the beginning of its action share a page, cautions first."""
    for step in range(STEPS):
        (page,) = [page.text for page in pages(form) if action(step) in page.text]
        begin = page.index(action(step))
        for number in range(cautions_of(step)):
            assert -1 < page.find(hazard(step, number)) < begin, (step, number)


@pytest.mark.parametrize("form", FORMS)
def test_drawings_stand_on_the_page_of_their_action(form):
    """The drawing of a step is on the page where its action begins; in large print, where it takes
    the width of the page, it follows the words, and on the next page at the latest.
    """
    texts = [page.text for page in pages(form)]
    for step in range(STEPS):
        (number,) = [n for n, text in enumerate(texts) if action(step) in text]
        if form == "large print":
            rest = texts[number][texts[number].index(action(step)) :]
            assert drawn_words(step) in rest + texts[number + 1], step
        else:
            assert drawn_words(step) in texts[number], step


@pytest.mark.parametrize("form", ["both papers", "large print"])
def test_no_page_is_nearly_empty(form):
    """Ink reaches below the first third of every page but the last of a chapter: what belongs
    together on the next page is never so tall that most of a page stays empty before it.
    """
    read = pages(form)[1:]
    chapters = [_head(page) for page in read]
    for page, chapter, following in zip(read, chapters, [*chapters[1:], ""], strict=True):
        foot = page.height * 0.92
        lowest = max((run.bottom for run in page.runs if run.bottom < foot), default=0)
        assert lowest > page.height / 3 or chapter != following, (chapter, page.text[:80])


def _head(page):
    """What the running head of a page says."""
    return " ".join(run.text for run in page.runs if run.bottom < page.height * 0.09)


@pytest.mark.parametrize("form", FORMS)
def test_no_heading_at_the_foot_of_a_page(form):
    """Below every heading, on the same page, stands text in smaller type."""
    headings = 0
    for page in pages(form)[2:]:
        foot = page.height - (20 if form == "large print" else 13)
        body = [run for run in page.runs if run.bottom < foot and run.size > 1]
        for run in body:
            if "Semi-Bold" in run.font and run.size >= (22 if form == "large print" else 13):
                headings += 1
                below = [r for r in body if r.top > run.top + 2 and r.size < run.size]
                assert below, (run.text, page.text[:60])
    assert headings > STEPS


@pytest.mark.parametrize("form", FORMS)
def test_running_heads_name_guide_and_chapter(form):
    """Every page after the contents has the guide and its chapter above, its number below."""
    total = len(pages(form))
    for number, page in enumerate(pages(form)[2:], 3):
        head = " ".join(run.text for run in page.runs if run.bottom < page.height * 0.1)
        assert "Mooring cuff & strap" in head
        assert re.search(rf"\b{number} / {total}\b", page.text)


# How it is set
@pytest.mark.parametrize(("form", "least"), [("both halves", 9), ("a5", 9), ("large print", 18)])
def test_type_is_large_enough(form, least):
    """No words but those in drawings are smaller than the form promises."""
    drawn = {drawn_words(step) for step in range(STEPS)}
    small = {
        (run.text, run.size)
        for page in pages(form)
        for run in page.runs
        if run.size < least and run.text not in drawn and run.size > 1
    }
    assert small == set()


@pytest.mark.parametrize(
    ("form", "least"), [("both papers", 7.5), ("a5", 7.0), ("both halves", 7.0)]
)
def test_words_in_drawings_are_large_enough(form, least):
    """No letter of any drawing is smaller on paper, cover, joins, details and steps included."""
    runs = [run for page in pages(form) for run in page.runs if run.size > 1]
    assert {(run.text, round(run.size, 2)) for run in runs if run.size < least} == set()


@cache
def tall_drawings():
    """The long sample with drawings of steps far higher than their words."""
    content, plan, pictures = long_sample()
    steps = {name: replace(one, width=88.0, height=110.0) for name, one in pictures.steps.items()}
    pictures = replace(pictures, steps=steps)
    html = booklet_html(content, plan, "M", ("a4",), pictures=pictures, theme=theme())
    return html, read_pages(write_pdf(html, files=booklet_files(plan, pictures)))


def test_what_lies_at_hand_follows_the_words_beside_a_drawing():
    """A list beside a tall drawing stands right under the words, not below the drawing."""
    html, read = tall_drawings()
    assert html.count('class="side pictured"') == STEPS
    gaps = []
    for page in read:
        left = sorted((run for run in page.runs if run.left < 100), key=lambda run: run.top)
        for above, run in pairwise(left):
            if run.text.strip() == "Pieces" and run.left < 25:
                gaps.append(run.top - above.bottom)
    assert len(gaps) >= STEPS // 2
    assert max(gaps) < 8


def test_a_drawing_is_never_cut_in_two_by_a_page():
    """What lies beside an action stands once in the booklet, whole, wherever pages end."""
    html, read = tall_drawings()
    words = [page.text for page in read]
    for step in range(STEPS):
        assert sum(text.count(drawn_words(step)) for text in words) == 1
    listed = html.count('<div class="term">Pieces</div>')
    assert sum(text.count(" Pieces ") for text in words) >= listed
