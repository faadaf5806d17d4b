"""Content and plans in → what machines read about the site out: feed of changes, list of pages."""

import datetime
import uuid
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from guidegen.buildfile.read.content import Content
from guidegen.layout.records import GuidePlan
from guidegen.render.site.languages import page_addresses
from guidegen.render.text.links import FEED, GLOSSARY, HOME, LICENCES, SITEMAP, guide_page
from guidegen.render.text.markdown import plain_text
from guidegen.render.text.templates_engine import Engine

MOST_CHANGES = 200
"""Entries of the feed. Our choice: readers ask for it often, and keep what they have read."""


@dataclass(frozen=True, slots=True)
class PageEntry:
    """A page in the list of pages (sitemaps.org protocol 0.9)."""

    address: str
    modified: str
    """ISO 8601 date; empty where none is known."""
    languages: tuple[tuple[str, str], ...] = ()
    """Language and address of the same page in all languages that have it, this one as well."""


@dataclass(frozen=True, slots=True)
class FeedEntry:
    """One change of one guide, as an entry of RFC 4287."""

    id: str
    title: str
    href: str
    updated: str
    text: str


@dataclass(frozen=True, slots=True)
class FeedView:
    """The Atom feed of a site (RFC 4287)."""

    id: str
    title: str
    subtitle: str
    author: str
    updated: str
    home: str
    self_address: str
    """Full address of the feed itself; empty where the site does not know its own."""
    entries: tuple[FeedEntry, ...]


class ListedGuide(Protocol):
    """What the lists must know of a guide."""

    @property
    def date(self) -> str:
        """Of its version."""

    @property
    def feed(self) -> tuple[FeedEntry, ...]:
        """Its changes."""

    @property
    def pages(self) -> tuple[str, ...]:
        """Paths of its pages, from out/."""


def list_files(engine: Engine, content: Content, guides: Sequence[ListedGuide]) -> dict[str, bytes]:
    """Feed of changes and, where the site knows its address, the list of pages."""
    feed = feed_view(content, guides, FEED)
    language = content.language
    files = {FEED: engine.render("feed.xml.j2", feed=feed, language=language).encode()}
    if pages := page_entries(content, guides):
        files[SITEMAP] = engine.render("sitemap.xml.j2", pages=pages).encode()
    return files


def page_entries(content: Content, guides: Sequence[ListedGuide]) -> tuple[PageEntry, ...]:
    """Every page with its full address; none where the site does not know its own."""
    base = content.site.address
    if not base:
        return ()
    newest = max((guide.date for guide in guides if is_day(guide.date)), default="")
    paths = [(HOME, newest)]
    if content.stock.terms:
        paths.append((GLOSSARY, ""))
    paths.append((LICENCES, ""))
    for guide in guides:
        date = guide.date if is_day(guide.date) else ""
        paths += [(path, date) for path in guide.pages]
    return tuple(
        PageEntry(base + path.removesuffix("index.html"), date, page_addresses(content, path))
        for path, date in paths
    )


def feed_view(content: Content, guides: Sequence[ListedGuide], path: str) -> FeedView:
    """The changes of all guides, newest first; dates are those of the change logs."""
    site = content.site
    entries = [entry for guide in guides for entry in guide.feed]
    entries.sort(key=lambda entry: entry.updated, reverse=True)
    dates = [entry.updated for entry in entries]
    dates += [time_stamp(guide.date) for guide in guides if is_day(guide.date)]
    return FeedView(
        id=_stable_id(content),
        title=site.title,
        subtitle=site.tagline or "",
        author=site.publisher,
        updated=max(dates, default=time_stamp("1970-01-01")),
        home=site.address or HOME,
        self_address=site.address + path if site.address else "",
        entries=tuple(entries[:MOST_CHANGES]),
    )


def feed_entries(content: Content, plan: GuidePlan) -> tuple[FeedEntry, ...]:
    """Changes of a guide in the author's order; the first of a version keeps its id when more
    follow.
    """
    guide, seen = plan.file.guide, Counter[str]()
    found = []
    for change in guide.changes:
        number = seen[change.version]
        seen[change.version] += 1
        if not is_day(change.date):
            continue
        labels = [guide.parts[name].label for name in change.parts if name in guide.parts]
        words = content.words
        again = (
            " " + words.say("Print again: {pieces}.", pieces=", ".join(labels)) if labels else ""
        )
        found.append(
            FeedEntry(
                id=_stable_id(content, plan.file.id, change.version, str(number)),
                title=f"{guide.title} {change.version}",
                href=f"{content.site.address or ''}{guide_page(plan.file.id)}#versions",
                updated=time_stamp(change.date),
                text=plain_text(change.text) + again,
            )
        )
    return tuple(found)


def _stable_id(content: Content, *names: str) -> str:
    """A name-based UUID (RFC 9562, 5.5) that stays when the site moves to another address."""
    name = "\n".join([content.site.title, *names])
    return uuid.uuid5(uuid.NAMESPACE_OID, name).urn


def is_day(words: str) -> bool:
    """Is this a date of ISO 8601, as feeds need it? Authors may write others for people."""
    try:
        return datetime.date.fromisoformat(words).isoformat() == words
    except ValueError:
        return False


def time_stamp(date: str) -> str:
    """A date as RFC 3339 wants it: the start of the day, in UTC."""
    return f"{date}T00:00:00Z"
