"""Drafts of a site: quick after an edit of texts, and never out of date."""

import re
from collections.abc import Callable
from concurrent.futures import Future
from pathlib import Path

import pytest
from hostile_cases import png
from samples import GUIDE, SITE, changed, unplaced, write_content

from guidegen.app.jobs.finished import look_once
from guidegen.app.measured.bundle import Bundle
from guidegen.app.preview import builder as module
from guidegen.app.preview.builder import PreviewBuilder, guide_signature
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.read.reader import read_content
from guidegen.errors import ContentError
from guidegen.problems import Problem
from guidegen.render.views.photos import site_photos

THEMES = Path(__file__).parents[3] / "themes"
PAGES = ("index.html", "cuff/index.html", "cuff/steps.html", "cuff/M/index.html", "cuff/tools.html")
SMALL = unplaced(changed(GUIDE, "  S: {forearm: 250, wrist: 160}\n", ""))
PAPERS = SITE + "papers: [a4]\neditions: [summary]\n"


def at_once[**P, R](job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs) -> R:
    """Do a job here and now."""
    return job(*args, **kwargs)


def builder(content: Path) -> PreviewBuilder:
    """A builder that has made nothing yet."""
    return PreviewBuilder(content, THEMES, run=at_once)


def pages(builder: PreviewBuilder) -> dict[str, bytes | None]:
    """The pages of a draft of the content as it is now."""
    draft = builder.draft()
    return {name: draft.file(name) for name in PAGES}


EDITS = {
    "a text": ("Warm it and bend it.", "Warm it twice and bend it."),
    "an overview": ("You will make a", "Here you make a"),
    "a step's title": ("title: Bend the cuff", "title: Curve the cuff"),
    "a name": ("name: Plate", "name: Disc"),
    "a length": ("length: 200", "length: 240"),
    "a size": ("upper_girth: 280", "upper_girth: 285"),
    "a time": ("time: 30 min", "time: 50 min"),
}


@pytest.mark.parametrize("edit", EDITS)
def test_a_draft_after_an_edit_is_as_a_first_one(tmp_path: Path, edit: str) -> None:
    """Whatever is edited, all pages are those that a builder without memory makes."""
    content = write_content(tmp_path, site=PAPERS, guide=SMALL)
    kept = builder(content)
    before = pages(kept)
    write_content(content, site=PAPERS, guide=changed(SMALL, *EDITS[edit]))
    after = pages(kept)
    assert after == pages(builder(content))
    assert after != before


def test_views_of_the_first_page_are_made_beside_the_first_draft(tmp_path: Path) -> None:
    """Another process makes them while this one plans: the page is the same; later drafts, whose
    reader waits for the page at hand, ask for nothing."""
    content = write_content(tmp_path, site=PAPERS, guide=GUIDE)
    asked: list[object] = []

    def begin[**P, R](job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs) -> Future[R]:
        asked.append(job)
        done: Future[R] = Future()
        done.set_result(job(*args, **kwargs))
        return done

    kept = PreviewBuilder(content, THEMES, run=at_once, beside=begin)
    assert kept.draft().file("index.html") == builder(content).draft().file("index.html")
    assert asked == [look_once]
    write_content(content, site=PAPERS, guide=changed(GUIDE, *EDITS["a length"]))
    assert kept.draft().file("index.html") == builder(content).draft().file("index.html")
    assert asked == [look_once]


def test_texts_leave_drawings_as_they_are(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """After an edit of texts nothing is drawn or planned again; after one of lengths it is."""
    content = write_content(tmp_path, site=PAPERS, guide=SMALL)
    kept = builder(content)
    assert kept.draft().file("cuff/steps.html")

    def refuse(*_: object, **__: object) -> None:
        raise AssertionError("drawn again")

    monkeypatch.setattr("guidegen.app.preview.builder.draw_size", refuse)
    monkeypatch.setattr("guidegen.app.preview.builder.make_whole_kit", refuse)
    write_content(content, site=PAPERS, guide=changed(SMALL, *EDITS["a text"]))
    page = kept.draft().file("cuff/steps.html")
    assert page is not None and b"Warm it twice" in page
    write_content(content, site=PAPERS, guide=changed(SMALL, *EDITS["a length"]))
    with pytest.raises(AssertionError, match="drawn again"):
        kept.draft()


def test_a_guide_signature_leaves_out_texts_only(tmp_path: Path) -> None:
    """Two guides have one signature where only words of pages differ, and not where a part does."""
    signatures = []
    for old, new in (("Warm it", "Warm it"), EDITS["a text"], EDITS["a name"]):
        content = read_content(write_content(tmp_path, site=PAPERS, guide=changed(SMALL, old, new)))
        signatures.append(guide_signature(content, content.guides[0]))
    assert signatures[0] == signatures[1] != signatures[2]


def test_other_working_hours_are_planned_anew(tmp_path: Path) -> None:
    """The days of a draft follow the hours of site.yaml, though no guide has changed."""
    kept = builder(write_content(tmp_path, site=PAPERS, guide=SMALL))
    before = kept.draft().file("cuff/steps.html")
    hours = f"{PAPERS}working-hours: {{evening: 0.25, free-day: 0}}\n"
    write_content(tmp_path, site=hours, guide=SMALL)
    after = kept.draft().file("cuff/steps.html")
    assert before is not None and b"an evening" not in before
    assert after is not None and "15\u00a0min an evening" in after.decode()


def test_documents_are_made_when_they_are_asked_for(tmp_path: Path) -> None:
    """A page leads to documents; each is made whole once, on its first request."""
    asked: list[str] = []

    def run[**P, R](job: Callable[P, R], /, *args: P.args, **kwargs: P.kwargs) -> R:
        asked.append(job.__name__)
        return job(*args, **kwargs)

    draft = PreviewBuilder(
        write_content(tmp_path, site=PAPERS, guide=SMALL), THEMES, run=run
    ).draft()
    page = draft.file("cuff/M/index.html")
    assert page is not None and b'href="templates-a4.pdf"' in page
    assert asked == []
    for name in ("templates-a4.pdf", "summary-a4.pdf", "materials.csv", "pack.zip"):
        assert draft.file(f"cuff/M/{name}"), name
    assert asked == ["make_documents"]
    assert draft.file("cuff/M/nothing.pdf") is None
    assert draft.file("cuff/materials.xlsx")
    assert draft.file("cuff/sign.files/W021.svg")
    assert draft.file("theme.files/site.css")


def test_photos_are_made_small_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A photo's copies are made when a page asks for them, and again only for another photo."""
    made: list[str] = []

    def copies(file: GuideFile) -> dict[str, bytes]:
        made.append(file.id)
        return site_photos(file)

    monkeypatch.setattr("guidegen.app.preview.builder.site_photos", copies)
    guide = changed(SMALL, "title: Test cuff", "title: Test cuff\npicture: {file: a.png, alt: A}")
    content = write_content(tmp_path, site=PAPERS, guide=guide)
    (content / "cuff" / "a.png").write_bytes(png(8, 8, bytes(25 * 8)))
    kept = builder(content)
    for text in ("Warm it", "Heat it"):
        write_content(content, site=PAPERS, guide=changed(guide, "Warm it", text))
        draft = kept.draft()
        page = draft.file("cuff/index.html")
        assert page is not None
        (name,) = set(re.findall(r'src="(guide\.files/[^"]+)"', page.decode()))
        assert draft.file(f"cuff/{name}")
    assert made == ["cuff"]
    (content / "cuff" / "a.png").write_bytes(png(8, 9, bytes(25 * 9)))
    assert kept.draft().file(f"cuff/{name}")
    assert made == ["cuff", "cuff"]


def test_content_with_errors_gives_no_draft(tmp_path: Path) -> None:
    """Errors of reading, of names and of geometry all come with their places."""
    for old, new in (("hand: pair", "hand: both"), ("material: foam-5", "material: foam-12")):
        write_content(tmp_path, guide=changed(SMALL, old, new))
        with pytest.raises(ContentError, match=r"guide\.yaml:\d+:\d+"):
            builder(tmp_path).draft()


def test_sizes_are_drawn_when_a_page_shows_them(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The overview draws one size, each size's page its own; a language nobody reads draws none."""
    drawn: list[tuple[str, str]] = []
    real = module.draw_size

    def note(size, guide, stock, words, seen):
        drawn.append((words.language, size.size))
        return real(size, guide, stock, words, seen)

    monkeypatch.setattr(module, "draw_size", note)
    content = write_content(tmp_path, site=SITE + "languages: [en, de]\n")
    (content / "cuff" / "guide.de.yaml").write_text("title: Manschette\n", encoding="utf-8")
    made = builder(content).draft()
    assert drawn == []
    assert made.file("cuff/index.html")
    assert len(set(drawn)) == 1
    assert made.file("cuff/S/index.html")
    assert ("en", "S") in drawn
    assert {language for language, _ in drawn} == {"en"}
    assert b"Manschette" in (made.file("de/cuff/index.html") or b"")
    assert {language for language, _ in drawn} == {"en", "de"}
    assert made.file("de/nowhere.html") is None


@pytest.mark.parametrize("there", [True, False])
def test_templates_to_measure_are_offered_with_their_files(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, there: bool
) -> None:
    """Where the packages are at hand a page offers it and each file that it loads is there, made
    once somebody asks for one; where they would have to be fetched nothing is offered."""
    made: list[Content] = []

    def bundle(content: Content) -> tuple[Content, Bundle | None, list[Problem]]:
        made.append(content)
        files = {"measured.files/core-1/a.mjs": b"a", "measured.files/own-2/worker.mjs": b"b"}
        return content, Bundle("measured.files/core-1", "measured.files/own-2", files), []

    monkeypatch.setattr(module, "bundle_for", bundle)
    monkeypatch.setattr(module, "at_hand", lambda: there)
    site = PAPERS + "made-to-measure: true\n"
    draft = builder(write_content(tmp_path, site=site, guide=SMALL)).draft()
    page = draft.file("cuff/index.html")
    assert page is not None
    order = re.search(rb'data-order="([^"]+)"', page)
    assert (order is not None) is there and made == []
    if order is not None:
        assert draft.file(f"cuff/{order[1].decode()}")
        for name in ("index.json", "own-2/worker.mjs", "programs-licence.txt"):
            assert draft.file(f"measured.files/{name}"), name
        assert len(made) == 1
