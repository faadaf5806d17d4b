"""Links that report a mistake: from each page, step and piece, filled in, and a code on paper."""

from dataclasses import replace
from functools import cache
from urllib.parse import parse_qs, urlsplit

import pytest
from render.html_reader import Page
from render.page_samples import GUIDE, SITE, downloads, home_files, sample, theme

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.site import Site
from guidegen.render.booklets.booklet import booklet_html
from guidegen.render.site.pages import render_guide
from guidegen.render.text.report_address import filled
from guidegen.words import read_words

MAIL = "loft@sample.example"
FORM = "https://f.example/new?g={guide}&v={version}&s={size}&at={step}{piece}&p={page}"
EVIL = "\"'><b onclick=evil()>&bcc=x@evil.example#{size}\u00fc%0D%0A"


def made(address, title="", language="en", site_address=None):
    """Pages of the sample guide, read, and its booklet; `title` for its first step and piece."""
    content, plan, pictures = sample()
    site = {name: value for name, value in SITE.items() if name != "contact"}
    content = replace(
        content,
        site=Site.model_validate(site | {"report": address, "address": site_address}),
        words=read_words(language),
    )
    if title:
        guide = Guide.model_validate(
            GUIDE | {"steps": [GUIDE["steps"][0] | {"title": title}, *GUIDE["steps"][1:]]}
        )
        plan = replace(plan, file=replace(plan.file, guide=guide))
    files = home_files(content, [plan], pictures, theme())
    files |= render_guide(content, plan, pictures, theme(), downloads())
    booklet = booklet_html(content, plan, "M", ("a4",), pictures=pictures, theme=theme())
    pages = {path: Page(data.decode()) for path, data in files.items() if path.endswith(".html")}
    return pages | {"booklet": Page(booklet)}


made_once = cache(made)


def reports(page):
    """Attributes of the links that report."""
    return [a for a in page.all("a") if a.get("class") == "report"]


def asked(link):
    """What the query of a link says."""
    return {k: v[0] for k, v in parse_qs(urlsplit(link["href"]).query).items()}


def test_every_page_step_and_piece_has_a_link():
    """Each page has one in its foot; steps and pieces have their own, told apart when heard."""
    pages = made_once(FORM)
    counts = {path: len(reports(page)) for path, page in pages.items()}
    one = ("index.html", "glossary.html", "search.html", "licences.html", "404.html",
           "cuff/safety.html", "cuff/tools.html")  # fmt: skip
    assert all(counts[path] == 1 for path in one)
    assert counts["cuff/steps.html"] == 3 + 1
    assert counts["cuff/M/index.html"] == 2 + 1
    labels = [link.get("aria-label") for link in reports(pages["cuff/steps.html"])]
    assert labels == [f"Report a mistake: step {n}" for n in (1, 2, 3)] + [None]


def test_links_are_filled_in():
    """Guide, version, size, step or piece and page stand where the author's holes are."""
    step = asked(reports(made_once(FORM)["cuff/steps.html"])[1])
    page = "cuff/steps.html#step-glue"
    assert step == {"g": "cuff", "v": "1.1", "at": "2 Glue the cuff", "p": page}
    piece = asked(reports(made_once(FORM)["cuff/M/index.html"])[0])
    page = "cuff/M/index.html#piece-cuff"
    assert piece == {"g": "cuff", "v": "1.1", "s": "M", "at": "A-L A-R Cuff", "p": page}


def test_page_is_a_full_address_where_the_site_has_one():
    """Whoever reads the report can open the page it is about."""
    pages = made(FORM, site_address="https://sample.example/guides/")
    page = asked(reports(pages["cuff/M/index.html"])[-1])["p"]
    assert page == "https://sample.example/guides/cuff/M/"


@pytest.mark.parametrize(
    ("language", "subject", "line"),
    [("en", "A mistake: cuff 1.1, 2 Glue the cuff", "What I expected:"),
     ("de", "Ein Fehler: cuff 1.1, 2 Glue the cuff", "Was ich erwartet habe:")],
)  # fmt: skip
def test_mail_alone_gets_subject_and_text(language, subject, line):
    """A mail address without a text of its own gets one in the language of the page."""
    link = reports(made_once(MAIL, language=language)["cuff/steps.html"])[1]
    assert link["href"].startswith(f"mailto:{MAIL}?subject=")
    said = asked(link)
    assert said["subject"] == subject
    assert line in said["body"].split("\r\n")
    assert "1.1" in said["body"] and "cuff/steps.html#step-glue" in said["body"]


@pytest.mark.parametrize("address", [MAIL, FORM])
def test_hostile_titles_stay_one_value(address):
    """A title adds no field, no attribute and no hole to the address; nothing of it is run."""
    page = made(address, title=EVIL)["cuff/steps.html"]
    link = reports(page)[0]
    usual = reports(made_once(address)["cuff/steps.html"])[0]
    assert set(asked(link)) == set(asked(usual))
    assert not urlsplit(link["href"]).fragment
    said = asked(link)
    assert f"1 {EVIL}" in (said["subject"] if address == MAIL else said["at"])
    assert not [key for _, attributes in page.elements for key in attributes if key[:2] == "on"]


def test_values_are_bounded_and_never_filled_again():
    """A value is cut at 120 letters, and holes in it are plain letters."""
    view = filled("https://f.example/?a={step}&b={page}", {"step": "x" * 999, "page": "{step}"})
    assert view.href == f"https://f.example/?a={'x' * 120}&b=%7Bstep%7D"


def test_size_of_the_reader_is_put_in_by_the_script(ask_script):
    """On pages for all sizes the script puts the chosen size where the holes were."""
    view = filled(
        "https://f.example/?a={size}&b={guide}&c={size}#{size}", {"guide": "cuff", "size": ""}
    )
    assert view.href == "https://f.example/?a=&b=cuff&c=#"
    call = f"script.sizedAddress('{view.href}', '{view.size_at}', item)"
    assert ask_script("units.js", call, ["M", "a b&c"]) == [
        "https://f.example/?a=M&b=cuff&c=M#M",
        "https://f.example/?a=a%20b%26c&b=cuff&c=a%20b%26c#a%20b%26c",
    ]
    assert filled("https://f.example/?a={size}", {"size": "S"}).size_at == ""


def test_nothing_stands_where_the_site_gives_no_address():
    """Without an address for mistakes no page, no booklet speaks of reporting."""
    for path, page in made_once(None).items():
        assert not reports(page), path
        assert "mistake" not in page.text.lower(), path


@pytest.mark.parametrize(
    ("address", "href", "shown"),
    [
        (MAIL, f"mailto:{MAIL}?subject=cuff-1.1-M", MAIL),
        (FORM, "https://f.example/new?g=cuff&v=1.1&s=M&at=&p=Build%20booklet", "f.example/new"),
    ],
)
def test_booklet_has_a_code(address, href, shown):
    """The chapter of versions prints guide-version-size, and a code that leads to the address."""
    page = made_once(address)["booklet"]
    assert href in [a["href"] for a in page.all("a") if "href" in a]
    assert "Report a mistake: cuff-1.1-M" in page.text
    assert shown in page.text
