"""CommonMark with tables in → HTML out, without raw HTML, our own references resolved to links.

A link to anything but https and mailto addresses, #anchors and our own schemes keeps its words
and loses its link.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from markupsafe import Markup, escape

from guidegen.buildfile.translate.commonmark import (
    OUTSIDE,
    PLACES,
    SCHEMES,
    Reference,
    Token,
    inline_tokens,
    parser,
    references,
    split_address,
)
from guidegen.render.text.lengths import find_lengths, mark_lengths

__all__ = [
    "Reference",
    "Resolver",
    "Target",
    "plain_text",
    "references",
    "render_inline",
    "render_markdown",
]


@dataclass(frozen=True, slots=True)
class Target:
    """Where a reference leads."""

    href: str
    """Address; empty where the words stay without a link."""
    title: str = ""
    """Name of the thing, for readers who hover."""
    css: str = ""
    """Class of the link."""
    paged: bool = False
    """True where the number of its page follows the words, for a reader of paper."""


type Resolver = Callable[[str, str], Target | None]
"""(scheme, name) → where it leads; None where there is no such thing."""

type Show = Callable[[str, str], Markup | None]
"""(file, text alternative) → HTML of a picture; None where it is not the guide's."""


def render_markdown(
    text: str,
    resolve: Resolver,
    *,
    heading: int = 3,
    show: Show | None = None,
    lengths: bool = False,
) -> Markup:
    """HTML of a text.

    `heading` is the level that the text's highest heading gets, so that the page's order of
    headings holds; `show` makes the HTML of each picture file that the text may show; `lengths`
    are marked for pages that can show other units.
    """
    tokens = parser().parse(text)
    levels = [int(token.tag[1]) for token in tokens if token.type == "heading_open"]
    shift = heading - min(levels, default=1)
    for token in tokens:
        if token.type in {"heading_open", "heading_close"}:
            token.tag = f"h{min(6, int(token.tag[1]) + shift)}"
        if token.type == "th_open":
            token.attrSet("scope", "col")
        if token.children:
            token.children = list(_settled(token.children, resolve, show, lengths=lengths))
    return Markup(parser().renderer.render(tokens, parser().options, {}))  # noqa: S704 - escaped by the renderer


def render_inline(text: str, resolve: Resolver, *, lengths: bool = False) -> Markup:
    """HTML of one line, without a paragraph around it; the same `lengths`."""
    tokens = parser().parseInline(text)
    for token in tokens:
        token.children = list(_settled(token.children or [], resolve, None, lengths=lengths))
    return Markup(parser().renderer.render(tokens, parser().options, {}))  # noqa: S704 - escaped by the renderer


def plain_text(text: str) -> str:
    """The words of a text without marks, in one line: for descriptions and spreadsheets."""
    words = []
    for token, _ in inline_tokens(parser().parse(text)):
        if token.type in {"text", "code_inline", "image"}:
            words.append(token.content)
        elif token.type in {"softbreak", "hardbreak", "block_end"}:
            words.append(" ")
    return " ".join("".join(words).split())


def _settled(
    tokens: list[Token], resolve: Resolver, show: Show | None, *, lengths: bool
) -> Iterator[Token]:
    """Tokens with links resolved; a link that leads nowhere leaves its words."""
    kept: list[Target | None] = []
    for token in tokens:
        if token.type == "link_open":
            target = _target(str(token.attrGet("href") or ""), resolve)
            kept.append(target)
            if target is not None:
                token.attrs = _attributes(target)
                yield token
        elif token.type == "link_close":
            target = kept.pop()
            if target is not None:
                yield token
            if target is not None and target.paged:
                # After the link, not inside: only then is the link one piece for screen readers.
                name = escape(target.href.replace("\\", r"\5c ").replace("'", r"\27 "))
                mark = f'<span class="on-page" style="--to: \'{name}\'"></span>'
                yield Token("html_inline", "", 0, content=mark)
        elif token.type == "image":
            yield _settled_picture(token, show)
        elif lengths and token.type == "text" and any(find_lengths(token.content)):
            yield Token("html_inline", "", 0, content=str(mark_lengths(token.content)))
        else:
            yield token


def _attributes(target: Target) -> dict[str, str | int | float]:
    named = {"href": target.href, "title": target.title, "class": target.css}
    return {name: value for name, value in named.items() if value}


def _target(url: str, resolve: Resolver) -> Target | None:
    scheme, name = split_address(url)
    if scheme in SCHEMES or scheme in PLACES:
        target = resolve(scheme, name)
        return target if target is not None and target.href else None
    if scheme in OUTSIDE or (not scheme and url.startswith("#")):
        return Target(url, css="outside" if scheme == "https" else "")
    return None


def _settled_picture(token: Token, show: Show | None) -> Token:
    """A picture of the guide's own files; any other leaves its text alternative."""
    html = show(str(token.attrGet("src") or ""), token.content) if show else None
    if html is None:
        return Token("text", "", 0, content=token.content)
    return Token("html_inline", "", 0, content=str(html))
