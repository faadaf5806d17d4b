"""Characters that turn the direction of writing: each is closed again, and cautions have none.

Turned words show other letters than they hold: a caution may read as its contrary, and what a
text leaves open turns what stands behind it on the page.
"""

import re
from collections.abc import Iterator

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.walk import wordings
from guidegen.buildfile.yaml.tree import Source
from guidegen.problems import Problem

_EMBEDDINGS = "\u202a\u202b\u202d\u202e"
_ISOLATES = "\u2066\u2067\u2068"
_OVERRIDES = re.compile("[\u202d\u202e]")
"""Unicode Standard Annex 9, 2.1 to 2.6: LRE, RLE, LRO, RLO end at PDF; LRI, RLI, FSI at PDI."""


def check_directions(_: Content, file: GuideFile) -> Iterator[Problem]:
    """Texts of a guide and of its translations."""
    yield from _told(file.guide, file.source)
    for made in file.translations.values():
        for trail, text in made.texts.items():
            if is_open(text):
                yield made.source.problem("direction", trail, _OPEN)


def check_shared_directions(content: Content) -> Iterator[Problem]:
    """Texts of site.yaml and stock.yaml; cautions turn nothing at all."""
    yield from _told(content.site, content.site_source)
    yield from _told(content.stock, content.stock_source)
    for leaf, _ in wordings(content.stock):
        if leaf.trail[0] == "cautions" and _OVERRIDES.search(leaf.text):
            message = "a caution must read as it is written, so nothing in it overrides direction"
            yield content.stock_source.problem("direction", leaf.trail, message)
    for both in content.shared_translations.values():
        for made in both:
            for trail, text in made.texts.items():
                if is_open(text) or (trail[0] == "cautions" and _OVERRIDES.search(text)):
                    yield made.source.problem("direction", trail, _OPEN)


_OPEN = (
    "a character turns the direction of writing, and none turns it back in the same paragraph; "
    "expected U+202C after an embedding or override, U+2069 after an isolate"
)


def _told(record: Guide | Site | Stock, source: Source) -> Iterator[Problem]:
    for leaf, _ in wordings(record):
        if is_open(leaf.text):
            yield source.problem("direction", leaf.trail, _OPEN)


def is_open(text: str) -> bool:
    """Whether a paragraph of a text ends in a direction that it has turned itself."""
    for paragraph in re.split(r"\n\s*\n", text):
        turned: list[str] = []
        for letter in paragraph:
            if letter in _EMBEDDINGS or letter in _ISOLATES:
                turned.append(letter)
            elif (letter == "\u202c" and turned and turned[-1] in _EMBEDDINGS) or (
                letter == "\u2069" and turned and turned[-1] in _ISOLATES
            ):
                turned.pop()
        if turned:
            return True
    return False
