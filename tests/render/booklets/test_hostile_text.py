"""Hostile words in every text of a guide come out as words: no script, no handler, no address."""

from dataclasses import replace
from functools import cache
from urllib.parse import urlsplit

import pytest
from render.html_reader import Page
from render.page_samples import GUIDE, SITE, STOCK, downloads, home_files, sample, theme

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.layout.times.step_graph import gather_cautions
from guidegen.render.booklets.booklet import booklet_html
from guidegen.render.site.pages import render_guide

HOSTILE = (
    "\"'><script>evil()</script></script><img src=x onerror=evil()>",
    "[a](javascript:evil()) ![b](https://evil.example/b.png) <https://evil.example/>",
    "</title></style></textarea><svg onload=evil()> {{ 7*7 }} [c](data:text/html,evil) ]]> -->",
    '[d](https://evil.example/"onclick="evil()) [e](JaVaScRiPt&colon;evil()) [f](//evil.example/f)',
    "`<b onclick=evil()>` [g](vbscript:evil) ![h](data:image/svg+xml,evil) [i]( file:///etc/hosts)",
)
"""After OWASP, Cross Site Scripting Prevention: each context has its own way out. From memory."""

WORDS = frozenset({
    "title", "tagline", "about", "publisher", "contact", "name", "note", "alternative", "how", "hazard",
    "consequence", "avoid", "first_aid", "term", "meaning", "author", "approved_by", "licence", "take",
    "licence_words", "summary", "overview", "label", "text", "check", "sign", "cure", "alt", "wearing",
    "care", "ask", "answer", "assumes", "credits", "reason", "version", "source",
})  # fmt: skip
"""Keys whose values are words for readers."""


def hostile(value, key, evil):
    """`value` with `evil` behind every text for readers."""
    if isinstance(value, dict):
        return {name: hostile(inner, name, evil) for name, inner in value.items()}
    if isinstance(value, list):
        return [hostile(inner, key, evil) for inner in value]
    is_sign = key == "sign" and value == "M004"
    return f"{value} {evil}" if key in WORDS and isinstance(value, str) and not is_sign else value


@cache
def pages(evil):
    """Every page of the site, and a booklet, of a guide full of `evil`."""
    content, plan, pictures = sample()
    guide = Guide.model_validate(hostile(GUIDE, "", evil))
    stock = Stock.model_validate(hostile(STOCK, "", evil))
    site = Site.model_validate(hostile(SITE, "", evil))
    file = replace(plan.file, guide=guide)
    content = replace(content, site=site, stock=stock, guides=(file,))
    plan = replace(plan, file=file, cautions=gather_cautions(guide, stock))
    files = home_files(content, [plan], pictures, theme())
    files |= render_guide(content, plan, pictures, theme(), downloads())
    texts = {name: data.decode() for name, data in files.items() if name.endswith(".html")}
    booklet = booklet_html(content, plan, "M", ("a4",), pictures=pictures, theme=theme())
    return texts | {"booklet": booklet}


@cache
def shape(name):
    """Elements that bring scripts or frames in a page of the unchanged sample."""
    content, plan, pictures = sample()
    files = home_files(content, [plan], pictures, theme())
    files |= render_guide(content, plan, pictures, theme(), downloads())
    return active(Page(files[name].decode())) if name in files else []


def active(page):
    """Tags of elements that may run or load, in order."""
    kinds = {"script", "iframe", "object", "embed", "form", "base", "meta", "link", "style"}
    return [tag for tag, _ in page.elements if tag in kinds]


@pytest.mark.parametrize("evil", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_words_stay_words(evil):
    """No page gains a script, a handler or an address; https stands in links to click only."""
    for name, text in pages(evil).items():
        page = Page(text)
        assert "evil" in page.text, name
        assert "49" not in page.text.split(), name
        if name != "booklet":
            assert active(page) == shape(name), name
        for tag, attributes in page.elements:
            for key, value in attributes.items():
                assert not key.startswith("on"), (name, tag, key)
                if key in {"href", "src", "srcset", "action", "data", "xlink:href", "poster"}:
                    allowed = {"", "https", "mailto"} if (tag, key) == ("a", "href") else {""}
                    found = urlsplit(value.strip())
                    assert found.scheme in allowed, (name, tag, value)
                    assert not found.netloc or found.scheme == "https", (name, tag, value)
                assert key != "style" or "url(" not in value, (name, tag, value)
