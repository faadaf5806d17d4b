"""CommonMark with tables in → its parsed tokens, and the links, pictures and headings in it.

The only module that imports markdown-it-py. A text may link to https and mailto addresses, to
#anchors and, through our own schemes, to pieces, steps, materials, tools, cautions and terms.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache, lru_cache
from itertools import pairwise

from markdown_it import MarkdownIt
from markdown_it.token import Token

__all__ = ["OUTSIDE", "OWN", "PLACES", "SCHEMES", "Heading", "Reference", "Token"]

SCHEMES = ("piece", "step", "material", "tool", "caution", "term")
"""Schemes of references inside a guide."""

PLACES = ("mark", "end", "edge", "spread", "groove", "rim", "row", "strap")
"""Schemes of places on pieces: the middle mark of a seam, its ends, an edge, a spread line, the
middle line of a part's groove, both its rims, a row of points, a strap. They lead to the piece, and
exist in every size or are errors."""

OWN = "own"
"""Name of a place that belongs to the step at hand: how techniques of the stock point at it."""

OUTSIDE = ("https", "mailto")
"""Schemes of links that leave the site."""

PICTURE = "image"
"""Scheme of a picture among references."""

KEPT = 2048
"""Texts whose links are kept: several checks ask for them, and a preview after each edit. Our
choice: those of a large guide and its stock in two languages."""

_SCHEME = re.compile(r"([a-zA-Z][a-zA-Z0-9+.-]*):(.*)", re.DOTALL)


@dataclass(frozen=True, slots=True)
class Reference:
    """A link as an author wrote it."""

    scheme: str
    """Lower case; empty for an address without a scheme."""
    name: str
    """What stands after the colon."""
    line: int
    """Lines from the start of the text to the block that holds it, from 0."""
    words: str = field(default="", compare=False)
    """Text alternative of a picture; of a link nothing is kept."""


@dataclass(frozen=True, slots=True)
class Heading:
    """A heading of a text."""

    level: int
    words: str
    line: int
    """From 0."""


@cache
def parser() -> MarkdownIt:
    """The one parser. No HTML passes through it, and nesting is bounded."""
    made = MarkdownIt("commonmark", {"html": False, "maxNesting": 20}).enable("table")
    # Links are judged on the parsed tokens, so that references() can also report refused ones.
    made.validateLink = lambda url: True  # type: ignore[method-assign]
    return made


def references(text: str, *, line_only: bool = False) -> list[Reference]:
    """All links and pictures of a text, in order: what a check compares with what there is.

    `line_only` reads it as one line, in which no blocks begin.
    """
    # Every link and picture begins with one of these; most texts have none.
    if "[" not in text and "<" not in text:
        return []
    return [*_references(text, line_only)]


@lru_cache(maxsize=KEPT)
def _references(text: str, line_only: bool) -> tuple[Reference, ...]:
    found = []
    parse = parser().parseInline if line_only else parser().parse
    for token, line in inline_tokens(parse(text)):
        if token.type == "link_open":
            found.append(Reference(*split_address(str(token.attrGet("href") or "")), line))
        elif token.type == "image":
            source = str(token.attrGet("src") or "")
            found.append(Reference(PICTURE, source, line, token.content.strip()))
    return tuple(found)


def headings(text: str) -> list[Heading]:
    """All headings of a text, in order."""
    tokens = parser().parse(text)
    return [
        Heading(int(token.tag[1]), after.content.strip(), token.map[0] if token.map else 0)
        for token, after in pairwise(tokens)
        if token.type == "heading_open"
    ]


def inline_tokens(tokens: list[Token]) -> Iterator[tuple[Token, int]]:
    """Tokens inside blocks, each with the line on which its block begins."""
    line = 0
    for token in tokens:
        if token.map:
            line = token.map[0]
        if token.type == "inline":
            for child in token.children or []:
                yield child, line
            yield Token("block_end", "", 0), line
        elif token.type in {"code_block", "fence"}:
            yield Token("text", "", 0, content=token.content), line


def split_address(url: str) -> tuple[str, str]:
    """Scheme in lower case and the rest; no scheme is empty."""
    match = _SCHEME.fullmatch(url)
    return (match[1].lower(), match[2]) if match else ("", url)
