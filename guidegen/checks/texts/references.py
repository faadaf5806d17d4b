"""Links, pictures and headings of texts: each link leads somewhere, each picture has words."""

import re
from collections.abc import Collection, Iterator, Mapping

from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.translate.commonmark import (
    PICTURE,
    SCHEMES,
    Heading,
    Reference,
    headings,
    references,
)
from guidegen.checks.texts.text_places import Words, guide_words, shared_words, translated_words
from guidegen.problems import Problem, Severity, did_you_mean

type Tables = Mapping[str, Collection[str]]
"""What there is, by scheme."""

_WEB = re.compile(r"//[^\s/?#@:]+(:[0-9]{1,5})?([/?#]\S*)?")
"""RFC 3986, 3.2, without names of users, which only mislead."""
_MAIL = re.compile(r"[^\s@?]+@[^\s@?]+(\?\S*)?")
"""RFC 6068, one address."""


def check_references(content: Content, file: GuideFile) -> Iterator[Problem]:
    """Every link, picture and heading in every text of the guide."""
    tables: Tables = {
        "piece": file.guide.parts,
        "step": [step.id for step in file.guide.steps],
        **_stock_tables(content.stock),
    }
    for words in (*guide_words(file), *translated_words(file.translations.values())):
        yield from _links(words, tables, file.pictures)
        yield from _headings(words)


def check_shared_texts(content: Content) -> Iterator[Problem]:
    """Every link in the texts that guides share; these know no pieces and steps."""
    tables = _stock_tables(content.stock)
    translations = (made for both in content.shared_translations.values() for made in both)
    for words in (*shared_words(content), *translated_words(translations)):
        yield from _links(words, tables, ())
        yield from _headings(words)


def _stock_tables(stock: Stock) -> dict[str, Collection[str]]:
    return {
        "material": stock.materials,
        "tool": stock.tools,
        "caution": stock.cautions,
        "term": stock.terms,
    }


def _links(words: Words, tables: Tables, pictures: Collection[str]) -> Iterator[Problem]:
    for found in references(words.text):
        if found.scheme == PICTURE:
            yield from _picture(words, found, pictures)
        elif found.scheme in SCHEMES:
            table = tables.get(found.scheme, ())
            if found.name not in table:
                hint = did_you_mean(found.name, table)
                message = f"the text refers to {found.scheme}:{found.name}, which does not exist"
                yield words.problem("dead-reference", found.line, f"{message}{hint}")
        elif not _leads_out(found):
            address = f"{found.scheme}:{found.name}" if found.scheme else found.name
            message = f'"{address[:80]}" is no address that becomes a link'
            yield words.problem("dead-link", found.line, message)


def _leads_out(found: Reference) -> bool:
    """Whether an address is one of the few kinds that a page may link to."""
    if found.scheme == "https":
        return _WEB.fullmatch(found.name) is not None
    if found.scheme == "mailto":
        return _MAIL.fullmatch(found.name) is not None
    return not found.scheme and re.fullmatch(r"#\S+", found.name) is not None


def _picture(words: Words, found: Reference, pictures: Collection[str]) -> Iterator[Problem]:
    if not found.words:
        message = f"the picture {found.name[:80]} has no words for readers who cannot see it"
        yield words.problem("picture-without-alt", found.line, message)
    if found.name not in pictures:
        hint = did_you_mean(found.name, pictures)
        message = f'neither the guide nor a step names a picture "{found.name[:80]}"{hint}'
        yield words.problem("dead-picture", found.line, message)


def _headings(words: Words) -> Iterator[Problem]:
    before: Heading | None = None
    for heading in headings(words.text):
        if not heading.words:
            message = "a heading without words"
            yield words.problem("empty-heading", heading.line, message, Severity.WARNING)
        if before is not None and heading.level > before.level + 1:
            message = (
                f'the heading "{heading.words[:80]}" is of level {heading.level}, '
                f"but the one before it of level {before.level}"
            )
            yield words.problem("heading-skip", heading.line, message, Severity.WARNING)
        before = heading
