"""Feed, list of pages and HowTo data, as programs of others read them."""

import json
import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import feedparser
import pytest
from lxml import etree
from render.page_samples import downloads, home_files, sample, theme

from guidegen.render.site.pages import render_guide

ADDRESS = "https://loft.sample.example/guides/"
SCHEMA = Path(__file__).parent / "sitemap.xsd"

KNOWN = {
    "HowTo": {"@context", "name", "description", "inLanguage", "version", "dateModified", "author", "publisher",
              "totalTime", "performTime", "estimatedCost", "supply", "tool", "step", "image", "url"},
    "HowToStep": {"position", "name", "text", "url", "image"},
    "HowToSupply": {"name", "url"},
    "HowToTool": {"name"},
    "Person": {"name"},
    "Organization": {"name"},
    "MonetaryAmount": {"currency", "minValue", "maxValue"},
}  # fmt: skip
"""Properties of each type that schema.org knows and we use. schema.org 28 (from memory)."""
REQUIRED = {"HowTo": {"name", "step"}, "HowToStep": {"text", "url"}, "HowToSupply": {"name"},
            "HowToTool": {"name"}, "MonetaryAmount": {"currency"}}  # fmt: skip
"""What readers of such data ask for (common practice, no source)."""


@cache
def site(address=None):
    """All files of the sample site, published at `address`."""
    content, plan, pictures = sample()
    content = replace(content, site=content.site.model_copy(update={"address": address}))
    files = home_files(content, [plan], pictures, theme())
    return files | render_guide(content, plan, pictures, theme(), downloads())


def howto(address=None):
    """The HowTo of the sample guide."""
    html = site(address)["cuff/index.html"].decode()
    (block,) = re.findall(r'<script type="application/ld\+json">(.*?)</script>', html, re.DOTALL)
    return json.loads(block)


def things(value):
    """Every typed thing in JSON-LD, from the outside in."""
    if isinstance(value, dict):
        if "@type" in value:
            yield value
        for one in value.values():
            yield from things(one)
    elif isinstance(value, list):
        for one in value:
            yield from things(one)


def test_list_of_pages_keeps_its_schema():
    """The list of pages holds what protocol 0.9 of sitemaps.org allows, in its order."""
    schema = etree.XMLSchema(etree.parse(SCHEMA))
    schema.assertValid(etree.fromstring(site(ADDRESS)["sitemap.xml"]))


@pytest.mark.parametrize(
    ("old", "new"),
    [
        (ADDRESS, ""),
        ("</loc>", "</loc><priority>2</priority>"),
        ("<lastmod>2026", "<lastmod>in 2026"),
        ("/cuff/steps.html", "/cuff/safety.html"),
    ],
)
def test_the_schema_finds_broken_lists(old, new):
    """A relative address, a priority of 2, a date in words and a page named twice are refused."""
    schema = etree.XMLSchema(etree.parse(SCHEMA))
    text = site(ADDRESS)["sitemap.xml"].decode()
    assert not schema.validate(etree.fromstring(text.replace(old, new).encode()))


def test_feed_is_read_by_a_feed_reader():
    """feedparser finds no fault, all entries, and full addresses alone."""
    feed = feedparser.parse(site(ADDRESS)["feed.xml"])
    assert feed.bozo == 0
    assert feed.version == "atom10"
    assert len(feed.entries) == 2
    links = [link.href for part in (feed.feed, *feed.entries) for link in part.links]
    assert all(link.startswith(ADDRESS) for link in links)


@pytest.mark.parametrize("address", [None, ADDRESS])
def test_howto_holds_known_properties(address):
    """Each thing has a type and properties of schema.org, and those that are asked for."""
    for thing in things(howto(address)):
        names = set(thing) - {"@type"}
        assert names <= KNOWN[thing["@type"]]
        assert names >= REQUIRED.get(thing["@type"], set())


def test_howto_has_full_addresses():
    """Where the site knows its address, every address of the data is a full one that is there."""
    data = howto(ADDRESS)
    found = [thing[key] for thing in things(data) for key in ("url", "image") if key in thing]
    assert len(found) > 5
    assert all(one.startswith(ADDRESS) for one in found)
    for one in found:
        path = one.partition("#")[0].removeprefix(ADDRESS)
        assert path in site(ADDRESS) or f"{path}index.html" in site(ADDRESS)


def test_howto_of_a_guide_without_photo_shows_its_card():
    """Without a photo the picture is the card, which is there; without an address there is none."""
    assert howto(ADDRESS)["image"] == f"{ADDRESS}cuff/guide.files/card.png"
    assert "image" not in howto()
