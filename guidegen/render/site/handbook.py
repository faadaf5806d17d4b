"""Chapters of the handbook in → a site of pages that one reads and searches like any other."""

import posixpath
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import count

from markupsafe import Markup, escape

from guidegen.buildfile.read.content import Content
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.translate.commonmark import Token, parser, split_address
from guidegen.buildfile.yaml.tree import Source
from guidegen.render.site.frame import render_page, site_page
from guidegen.render.site.home import render_home
from guidegen.render.text.links import HOME
from guidegen.render.text.markdown import plain_text
from guidegen.render.text.templates_engine import Engine, Theme
from guidegen.render.views.scene import LinkView
from guidegen.words import Words

INDEX = "index.md"
"""The chapter that leads to all others."""
ENDING = ".md"


@dataclass(frozen=True, slots=True)
class _Target:
    """What a link of a chapter leads to."""

    href: str
    """On the site; empty for what is not on it."""
    file_name: str = ""
    title: str = ""
    """Of chapters."""


@dataclass(frozen=True, slots=True)
class _Book:
    """The handbook, as a chapter sees it from its folder."""

    folder: str
    titles: Mapping[str, str]
    """Of chapters, by path."""
    pictures: frozenset[str]

    def path(self, address: str) -> str:
        """A relative address as a path in the handbook."""
        return posixpath.normpath(posixpath.join(self.folder, address))

    def target(self, address: str) -> _Target:
        """What a link leads to."""
        file, mark, anchor = address.partition("#")
        if not file or split_address(address)[0] == "https":
            return _Target(address)
        chapter = self.path(file)
        if chapter in self.pictures:
            return _Target(chapter)
        if chapter not in self.titles:
            return _Target("")
        href = page_of(chapter) + mark + anchor
        return _Target(href, posixpath.basename(chapter), self.titles[chapter])


@dataclass(frozen=True, slots=True)
class ChapterView:
    """One chapter."""

    title: str
    html: Markup
    sections: tuple[LinkView, ...]
    """Its headings of the second level."""
    before: LinkView | None
    after: LinkView | None


def handbook_site(
    chapters: Mapping[str, str], pictures: Mapping[str, bytes], theme: Theme, words: Words
) -> dict[str, bytes]:
    """All files of the handbook's site by path. `chapters` and `pictures` by path in the handbook.

    Chapters stand in folders, and their pages beside one another: a page keeps its address when
    its chapter moves.
    """
    content = Content(
        site=Site(title="The guidegen handbook", publisher="guidegen"),
        site_source=Source("", ()),
        stock=Stock(),
        stock_source=Source("", ()),
        guides=(),
        words=words,
    )
    engine = Engine(theme, words)
    files = render_home(content, (), theme) | dict(pictures)
    order = _order(chapters)
    titles = {name: _title(chapters[name]) for name in order}
    for number, name in enumerate(order):
        book = _Book(posixpath.dirname(name), titles, frozenset(pictures))
        tokens, sections = _tokens(chapters[name], book)
        view = ChapterView(
            title=titles[name],
            html=Markup(parser().renderer.render(tokens, parser().options, {})),  # noqa: S704 - escaped by the renderer
            sections=sections,
            before=_neighbour(order, number - 1, titles),
            after=_neighbour(order, number + 1, titles),
        )
        path = page_of(name)
        page = site_page(content, theme, path, view.title, _description(chapters[name]))
        page = replace(page, feed="", manifest="" if path != HOME else page.manifest)
        files[path] = render_page(engine, "handbook.html.j2", page, chapter=view)
    return files


def page_of(chapter: str) -> str:
    """Page of a chapter, by the chapter's file name alone: the index is the first page."""
    return HOME if chapter == INDEX else posixpath.basename(chapter).removesuffix(ENDING) + ".html"


def heading_id(words: str) -> str:
    """Id of a heading, as common renderers of Markdown make it, so that links serve both."""
    return re.sub(r"[^\w\- ]", "", words.lower()).replace(" ", "-")


def _order(chapters: Mapping[str, str]) -> list[str]:
    """Chapters as the index first names them, the index before all."""
    named = re.findall(r"\]\(([\w/-]+\.md)", chapters.get(INDEX, ""))
    return [name for name in dict.fromkeys((INDEX, *named, *sorted(chapters))) if name in chapters]


def _neighbour(order: Sequence[str], number: int, titles: Mapping[str, str]) -> LinkView | None:
    if not 0 <= number < len(order):
        return None
    return LinkView(titles[order[number]], page_of(order[number]))


def _title(text: str) -> str:
    found = re.search(r"^# (.+)$", text, re.MULTILINE)
    return plain_text(found[1]) if found else ""


def _description(text: str) -> str:
    """The first paragraph after the title, shortened."""
    paragraphs = (part for part in text.split("\n\n") if part and part[0] not in "#|`!")
    return plain_text(next(paragraphs, ""))[:160]


def _tokens(text: str, book: _Book) -> tuple[list[Token], tuple[LinkView, ...]]:
    """Tokens of a chapter without its title, and links to its sections."""
    tokens = parser().parse(text)
    sections: list[LinkView] = []
    made: list[Token] = []
    tables = count(1)
    skipped = False
    for number, token in enumerate(tokens):
        if token.type == "heading_open" and token.tag == "h1":
            skipped = True
        elif token.type == "heading_open":
            words = plain_text(tokens[number + 1].content)
            token.attrSet("id", heading_id(tokens[number + 1].content))
            if token.tag == "h2":
                sections.append(LinkView(words, f"#{heading_id(tokens[number + 1].content)}"))
        if not skipped:
            made += _settled(token, book, tables)
        if token.type == "heading_close" and token.tag == "h1":
            skipped = False
    return made, tuple(sections)


def _settled(token: Token, book: _Book, tables: Iterator[int]) -> Iterator[Token]:
    """A token as pages show it: wide things scroll by themselves, links lead to pages."""
    if token.type == "table_open":
        name = f"Table {next(tables)}"  # two regions of one page must not have the same name
        yield _html(f'<div class="scroll" role="region" aria-label="{name}" tabindex="0">')
    if token.type in {"th_open", "td_open"}:
        token.attrs.pop("style", None)  # the pages' policy allows none
        if token.type == "th_open":
            token.attrSet("scope", "col")
    if token.type in {"fence", "code_block"}:
        yield _html(f'<pre tabindex="0"><code>{escape(token.content)}</code></pre>')
        return
    if token.children:
        token.children = list(_inline(token.children, book))
    yield token
    if token.type == "table_close":
        yield _html("</div>")


def _html(text: str) -> Token:
    return Token("html_block", "", 0, content=text + "\n")


def _inline(tokens: Sequence[Token], book: _Book) -> Iterator[Token]:
    """Links to chapters become links to their pages; what leads out of the book keeps its words."""
    led_to: list[_Target] = []
    for token in tokens:
        if token.type == "link_open":
            led_to.append(book.target(str(token.attrGet("href") or "")))
            token.attrSet("href", led_to[-1].href)
        if token.type == "image":
            src = book.path(str(token.attrGet("src") or ""))
            if src not in book.pictures:
                yield Token("text", "", 0, content=token.content)
                continue
            token.attrSet("src", src)
            token.attrSet("loading", "lazy")
        if token.type == "text" and led_to and token.content == led_to[-1].file_name:
            token.content = led_to[-1].title  # a file's name says less than its title
        if (token.type == "link_open" and not led_to[-1].href) or (
            token.type == "link_close" and not led_to.pop().href
        ):
            continue
        yield token
