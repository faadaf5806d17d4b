"""Content and what is said of its guides → the pages of no guide, feed, styles and scripts out."""

import hashlib
from collections.abc import Iterable, Sequence
from dataclasses import replace

from markupsafe import Markup

from guidegen.buildfile.read.content import Content
from guidegen.render.site.entries import LATEST, GuideEntry
from guidegen.render.site.formerly import former_guides
from guidegen.render.site.frame import (
    SEARCH_SCRIPT,
    asset_addresses,
    missing_page,
    render_page,
    root_finder,
    site_links,
    site_page,
    theme_files,
)
from guidegen.render.site.icons import (
    MANIFEST,
    card_file,
    icon_files,
    manifest,
    site_card,
)
from guidegen.render.site.licences import render_licences
from guidegen.render.site.lists import list_files
from guidegen.render.site.offline import WORKER, worker_file
from guidegen.render.site.things import things_script
from guidegen.render.text.document_cache import DocumentCache
from guidegen.render.text.links import (
    GLOSSARY,
    HOME,
    INDEX_FOLDER,
    LICENCES,
    MISSING,
    SEARCH,
    THEME_FOLDER,
    THINGS,
    resolver,
)
from guidegen.render.text.markdown import render_inline, render_markdown
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.render.views.guide import (
    term_views,
)
from guidegen.words import alphabetical

CARDS = 24
"""Guides that the first page shows with a picture; of more, the newest, and all others in rows.
Our choice: a page of a thousand drawings would weigh many megabytes."""


def render_home(
    content: Content,
    entries: Sequence[GuideEntry],
    theme: Theme,
    cache: DocumentCache | None = None,
    *,
    pictured: bool = True,
) -> dict[str, bytes]:
    """The pages of no guide, feed, styles, script and fonts. `entries` in the order of guides.

    Without `pictured` what `home_pictures` makes is left out.
    """
    engine = Engine(theme, content.words, cache, lengths=True)
    files = theme_files(theme)
    files[HOME] = _first_page(engine, content, entries, theme)
    if content.stock.terms:
        title = content.words.say("Glossary")
        page = site_page(
            content,
            theme,
            GLOSSARY,
            title,
            content.words.say("Words of the trade and their meaning"),
        )
        files[GLOSSARY] = render_page(engine, "glossary.html.j2", page, terms=term_views(content))
    files[THINGS] = things_script(content, entries)
    files[SEARCH] = _search_page(engine, content, theme, files[THINGS])
    files[LICENCES] = render_licences(engine, content, theme)
    finder = root_finder(content, theme)
    files[MISSING] = render_page(engine, "404.html.j2", missing_page(content, theme), finder=finder)
    files[MANIFEST] = manifest(content)
    if pictured:
        files |= home_pictures(content, theme, engine.cache)
    files[WORKER] = worker_file(engine, files, asset_addresses(theme, ""), content.words)
    files |= former_guides(engine, content, theme, entries)
    return files | list_files(engine, content, entries)


def home_pictures(
    content: Content, theme: Theme, cache: DocumentCache | None = None
) -> dict[str, bytes]:
    """The icon for telephones, and the card for previews of links where the site has an address."""
    engine = Engine(theme, content.words, cache, lengths=True)
    files = icon_files(theme, engine.cache)
    if content.site.address:
        files[card_file()] = site_card(engine, content)
    return files


def _search_page(engine: Engine, content: Content, theme: Theme, things: bytes) -> bytes:
    """The page for searching; its list of `things` is asked for anew when they have changed."""
    page = site_page(content, theme, SEARCH, content.words.say("Search"), "")
    first = next(iter(content.languages), content.language)
    return render_page(
        engine,
        "search.html.j2",
        replace(page, canonical=""),
        index=("" if content.language == first else "../") + INDEX_FOLDER + "/",
        things=f"{THINGS}?{hashlib.sha256(things).hexdigest()[:8]}",
        search_script=asset_addresses(theme, SEARCH)[f"{THEME_FOLDER}/{SEARCH_SCRIPT}"],
    )


def _first_page(
    engine: Engine, content: Content, entries: Sequence[GuideEntry], theme: Theme
) -> bytes:
    """All guides and what changed lately."""
    cards, rows = entries, list[GuideEntry]()
    if len(entries) > CARDS:
        newest = sorted(sorted(entries, key=_name), key=lambda entry: entry.date, reverse=True)
        cards, rows = newest[:CARDS], sorted(newest[CARDS:], key=_name)
    changes = [change for entry in entries for change in entry.changes]
    changes.sort(key=lambda change: change.title)
    changes.sort(key=lambda change: change.date, reverse=True)
    resolve = resolver(content, None, site_links(content, None, HOME))
    return render_page(
        engine,
        "home.html.j2",
        site_page(content, theme, HOME, content.site.title, content.site.tagline or ""),
        tagline=content.site.tagline or "",
        about=render_markdown(content.site.about or "", resolve),
        cards=_made(entry.card for entry in cards),
        rows=_made(entry.row for entry in rows),
        changes=_made(change.html for change in changes[:LATEST]),
        contact=render_inline(content.site.contact or "", resolve),
        publisher=content.site.publisher,
    )


def _name(entry: GuideEntry) -> str:
    return alphabetical(entry.title)


def _made(texts: Iterable[str]) -> tuple[Markup, ...]:
    return tuple(Markup(text) for text in texts)  # noqa: S704 - templates made them
