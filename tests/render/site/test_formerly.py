"""Pages at former addresses: where they lead, with and without scripts."""

from dataclasses import replace
from functools import cache

import pytest
from render.html_reader import Page
from render.page_samples import downloads, home_files, sample, theme

from guidegen.buildfile.records.guide import Formerly
from guidegen.render.site.formerly import moved_documents
from guidegen.render.site.pages import render_guide

ADDRESS = "https://loft.sample.example/guides/"
OLD = Formerly(guides=("old-cuff",), sizes={"small": "S"}, steps={"trim": "cut"})


def made(formerly, address=None):
    """All files of the sample site whose guide had other names once."""
    content, plan, pictures = sample()
    content = replace(content, site=content.site.model_copy(update={"address": address}))
    guide = plan.file.guide.model_copy(update={"formerly": formerly})
    plan = replace(plan, file=replace(plan.file, guide=guide))
    files = home_files(content, [plan], pictures, theme())
    return files | render_guide(content, plan, pictures, theme(), downloads())


@cache
def site(address=None):
    """The same with one guide, size and step that have other names now."""
    return made(OLD, address)


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("old-cuff/index.html", "../cuff/index.html"),
        ("old-cuff/steps.html", "../cuff/steps.html"),
        ("old-cuff/small/index.html", "../../cuff/S/index.html"),
        ("cuff/small/index.html", "../S/index.html"),
    ],
)
def test_former_pages_lead_on(old, new):
    """A former page names the new one in a script, without scripts, in words and as canonical."""
    html = site()[old].decode()
    page = Page(html)
    (link,) = [a for t, a in page.elements if t == "link" and a.get("rel") == "canonical"]
    assert link["href"] == new
    assert f'data-to="{new}"' in html
    assert f'<noscript><meta http-equiv="refresh" content="0; url={new}"></noscript>' in html
    assert new in [a.get("href") for t, a in page.elements if t == "a"]
    assert "theme.files/moved.js" in site()


def test_canonical_addresses_are_full_where_the_site_knows_its_own():
    """Search engines are told the new address in full, and the list of pages has no former one."""
    files = site(ADDRESS)
    assert (
        f'rel="canonical" href="{ADDRESS}cuff/steps.html"' in files["old-cuff/steps.html"].decode()
    )
    assert "old-cuff" not in files["sitemap.xml"].decode()


def test_former_steps_have_their_place():
    """The place of a former step stands right before the step that it is now."""
    html = site()["cuff/steps.html"].decode()
    assert '<span id="step-trim"></span>\n<article class="step" id="step-cut"' in html


def test_a_living_guide_keeps_its_address():
    """A former name that a guide has now leads nowhere else, though proof was not asked."""
    plain = made(Formerly())
    claimed = made(Formerly(guides=("cuff",)))
    assert claimed["cuff/index.html"] == plain["cuff/index.html"]
    assert set(claimed) == set(plain)


MOVES = (
    ("old-cuff/index.html", "cuff/index.html"),
    ("old-cuff/steps.html", "cuff/steps.html"),
    ("old-cuff/small/index.html", "cuff/S/index.html"),
    ("cuff/small/index.html", "cuff/S/index.html"),
)


def test_documents_stand_at_their_former_addresses_too():
    """What readers took home keeps its address, of the guide and of its sizes; pages do not count."""
    names = ["cuff/index.html", "cuff/pack.zip", "cuff/S/booklet-a4.pdf", "cuff/S/offline.json"]
    names += ["cuff/guide.files/a.pdf", "cuff/M/booklet-a4.pdf", "other/pack.zip"]
    assert list(moved_documents(MOVES, names)) == [
        ("old-cuff/small/booklet-a4.pdf", "cuff/S/booklet-a4.pdf"),
        ("cuff/small/booklet-a4.pdf", "cuff/S/booklet-a4.pdf"),
        ("old-cuff/pack.zip", "cuff/pack.zip"),
    ]


def test_documents_of_old_versions_keep_their_former_addresses():
    """The sizes of a version have no page: its files are found by the version's; newer ones, that
    were never published under the former name, get no address there."""
    moves = [*MOVES, ("old-cuff/1.0/index.html", "cuff/1.0/index.html")]
    names = ["cuff/1.0/materials.xlsx", "cuff/1.0/M/booklet-a4.pdf", "cuff/1.1/M/booklet-a4.pdf"]
    assert list(moved_documents(moves, names)) == [
        ("old-cuff/1.0/M/booklet-a4.pdf", "cuff/1.0/M/booklet-a4.pdf"),
        ("old-cuff/1.0/materials.xlsx", "cuff/1.0/materials.xlsx"),
    ]


def test_a_document_that_is_there_keeps_its_address():
    """No document of today is laid over by one from another address."""
    names = ["cuff/pack.zip", "old-cuff/pack.zip"]
    assert not list(moved_documents(MOVES, names))
