"""What machines read: the feed, the list of pages, the page for wrong addresses, HowTo data."""

import json
import re
from dataclasses import replace
from datetime import datetime
from functools import cache
from xml.etree import ElementTree

import pytest
from render.html_reader import Page
from render.page_samples import downloads, home_files, sample, theme

from guidegen.render.site.howto import iso_duration
from guidegen.render.site.lists import is_day
from guidegen.render.site.pages import render_guide

ATOM = "{http://www.w3.org/2005/Atom}"
MAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
ADDRESS = "https://loft.sample.example/guides/"


@cache
def site(address=None):
    """All files of the sample site, published at `address`."""
    content, plan, pictures = sample()
    content = replace(content, site=content.site.model_copy(update={"address": address}))
    files = home_files(content, [plan], pictures, theme())
    return files | render_guide(content, plan, pictures, theme(), downloads())


def howto():
    """The HowTo of the sample guide as a reader of the page finds it."""
    html = site()["cuff/index.html"].decode()
    blocks = re.findall(r'<script type="application/ld\+json">(.*?)</script>', html, re.DOTALL)
    assert len(blocks) == 1
    return json.loads(blocks[0])


@pytest.mark.parametrize("address", [None, ADDRESS])
def test_feed_has_what_atom_requires(address):
    """Feed and entries have id, title and date once each, and the feed an author.

    RFC 4287, 4.1.1 and 4.1.2; dates after RFC 3339.
    """
    feed = ElementTree.fromstring(site(address)["feed.xml"])  # noqa: S314 - our own feed
    assert feed.tag == f"{ATOM}feed"
    assert len(feed.findall(f"{ATOM}author/{ATOM}name")) == 1
    entries = feed.findall(f"{ATOM}entry")
    for part in (feed, *entries):
        for name in ("id", "title", "updated"):
            assert len(part.findall(ATOM + name)) == 1
        datetime.strptime(part.findtext(f"{ATOM}updated"), "%Y-%m-%dT%H:%M:%S%z")
        assert part.findtext(f"{ATOM}id").startswith("urn:uuid:")
    ids = [part.findtext(f"{ATOM}id") for part in (feed, *entries)]
    assert len(set(ids)) == 3
    selves = [link.get("href") for link in feed.findall(f"{ATOM}link") if link.get("rel") == "self"]
    assert selves == ([f"{ADDRESS}feed.xml"] if address else [])


def test_feed_tells_changes_newest_first():
    """Entries come from the change log; the feed is as new as the newest of them."""
    feed = ElementTree.fromstring(site(ADDRESS)["feed.xml"])  # noqa: S314 - our own feed
    titles = [entry.findtext(f"{ATOM}title") for entry in feed.findall(f"{ATOM}entry")]
    assert titles == ["Mooring cuff & strap 1.1", "Mooring cuff & strap 1.0"]
    assert feed.findtext(f"{ATOM}updated") == "2026-03-04T00:00:00Z"
    assert feed.findtext(f"{ATOM}entry/{ATOM}content") == "Longer cuff. Print again: A."
    assert feed.find(f"{ATOM}entry/{ATOM}link").get("href") == f"{ADDRESS}cuff/index.html#versions"


def test_ids_of_changes_stay_when_the_site_moves():
    """Readers of the feed see no change twice after the site moved to another host."""
    found = [
        [i.text for i in ElementTree.fromstring(site(where)["feed.xml"]).iter(f"{ATOM}id")]  # noqa: S314 - our own feed
        for where in (None, ADDRESS)
    ]
    assert found[0] == found[1]


def test_list_of_pages_names_every_page_once():
    """The list has each page but those for wrong addresses and for searching; it needs the address.

    Protocol 0.9 of sitemaps.org: loc is a full address, lastmod a date.
    """
    assert "sitemap.xml" not in site()
    files = site(ADDRESS)
    urls = ElementTree.fromstring(files["sitemap.xml"]).findall(f"{MAP}url")  # noqa: S314 - our own list
    found = [url.findtext(f"{MAP}loc") for url in urls]
    pages = {path for path in files if path.endswith(".html")} - {"404.html", "search.html"}
    assert sorted(found) == sorted(ADDRESS + path.removesuffix("index.html") for path in pages)
    assert {url.findtext(f"{MAP}lastmod") for url in urls} == {"2026-03-04", None}


def test_wrong_addresses_lead_home_from_any_depth():
    """A site that knows its address shows a page whose links work wherever a host shows it."""
    page = Page(site(ADDRESS)["404.html"].decode())
    addresses = [
        a.get("href", a.get("src")) for t, a in page.elements if t in {"a", "link", "script"}
    ]
    assert [a for a in addresses if not a.startswith("/guides/")] == ["#main"]


def test_howto_has_what_schema_org_asks():
    """Name and steps with text and address are there; values have the types of the vocabulary.

    schema.org 28, HowTo, HowToStep, HowToSupply, HowToTool, MonetaryAmount (from memory).
    """
    data = howto()
    assert (data["@context"], data["@type"]) == ("https://schema.org", "HowTo")
    assert data["name"] == "Mooring cuff & strap"
    ids = Page(site()["cuff/steps.html"].decode()).ids
    assert len(data["step"]) == 3
    for number, step in enumerate(data["step"], 1):
        assert step["@type"] == "HowToStep"
        assert step["position"] == number
        assert step["text"].strip()
        page, _, anchor = step["url"].partition("#")
        assert page == "steps.html"
        assert anchor in ids
    assert {item["@type"] for item in data["supply"]} == {"HowToSupply"}
    assert [item["name"] for item in data["tool"]] == ["Craft knife", "Safety goggles"]
    assert data["estimatedCost"] == {
        "@type": "MonetaryAmount", "currency": "EUR", "minValue": 19.5, "maxValue": 22,
    }  # fmt: skip
    supply_page, _, anchor = data["supply"][0]["url"].partition("#")
    assert anchor in Page(site()[f"cuff/{supply_page}"].decode()).ids


def test_howto_texts_cannot_leave_their_block():
    """Marks in an author's words do not end the data block."""
    assert howto()["description"] == "A cuff for a <small> wrist."
    assert "knife" in howto()["step"][0]["text"]
    assert "](" not in howto()["step"][0]["text"]


@pytest.mark.parametrize(
    ("minutes", "words"),
    [(90, "PT1H30M"), (60, "PT1H"), (0, "PT0M"), (1440, "P1D"), (3125, "P2DT4H5M")],
)
def test_durations(minutes, words):
    """Durations are written as ISO 8601-1:2019, 5.5.2, wants (from memory) them."""
    assert iso_duration(minutes) == words


@pytest.mark.parametrize(
    ("words", "day"),
    [("2026-03-04", True), ("2026-13-04", False), ("March 2026", False), ("20260304", False)],
)
def test_only_days_go_into_feeds(words, day):
    """A date in other words is left out of feed and list, where it would be an error."""
    assert is_day(words) is day
