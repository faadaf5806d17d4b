"""Links, pictures and headings of texts: each link leads somewhere, each picture has words."""

import re
from collections.abc import Collection, Iterator, Mapping

from guidegen.buildfile.derive.cautions import step_cautions
from guidegen.buildfile.read.content import Content, GuideFile
from guidegen.buildfile.records.meanings import Markup
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.translate.commonmark import (
    OWN,
    PICTURE,
    PLACES,
    SCHEMES,
    Heading,
    Reference,
    headings,
    references,
)
from guidegen.checks.texts.text_places import PlacedText, guide_texts, shared_texts
from guidegen.problems import Problem, did_you_mean

type Tables = Mapping[str, Collection[str] | None]
"""What there is, by scheme; None where only the guides know."""

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
    described = {name for step in file.guide.steps for name in step_cautions(step, content.stock)}
    for text in guide_texts(file):
        yield from _text(text, tables, file.pictures)
        yield from _elsewhere(text, content.stock.cautions.keys() - described)


def check_shared_texts(content: Content) -> Iterator[Problem]:
    """Every link in the texts that guides share; these know no pieces and steps."""
    tables = _stock_tables(content.stock)
    # Steps of a sequence speak of pieces, steps and pictures of the guides that use it.
    late: Tables = {**tables, "piece": None, "step": None}
    for text in shared_texts(content):
        if text.trail[0] == "sequences":
            yield from _text(text, late, None)
        else:
            yield from _text(text, tables, ())


def _stock_tables(stock: Stock) -> dict[str, Collection[str]]:
    return {
        "material": stock.materials,
        "tool": stock.tools,
        "caution": stock.cautions,
        "term": stock.terms,
    }


def _text(text: PlacedText, tables: Tables, pictures: Collection[str] | None) -> Iterator[Problem]:
    """What is wrong in one text, by what it may hold."""
    match text.wording.markup:
        case Markup.NONE:
            if text.wording.shown:
                yield from _plain(text)
        case Markup.LINE:
            yield from _links(text, tables, ())
        case Markup.BLOCKS:
            yield from _links(text, tables, pictures)
            yield from _headings(text)


def _plain(text: PlacedText) -> Iterator[Problem]:
    """A link where brackets stay brackets."""
    for found in references(text.text, line_only=True):
        message = f'a link to "{_address(found)}" does not work here: it is shown as it is written'
        yield text.problem("link-in-plain-text", found.line, message)


def _links(text: PlacedText, tables: Tables, pictures: Collection[str] | None) -> Iterator[Problem]:
    for found in references(text.text, line_only=text.wording.markup is Markup.LINE):
        if found.scheme == PICTURE:
            yield from _picture(text, found, pictures)
        elif found.scheme in SCHEMES:
            table = tables.get(found.scheme, ())
            if table is not None and found.name not in table:
                hint = did_you_mean(found.name, table)
                message = f"the text refers to {_address(found)}, which does not exist"
                yield text.problem("dead-reference", found.line, f"{message}{hint}")
        elif found.scheme in PLACES and (found.name == OWN or tables.get("piece", ()) != ()):
            continue  # geometry knows whether the place is there, in the step or on the piece
        elif not _leads_out(found):
            message = f'"{_address(found)}" is no address that becomes a link'
            yield text.problem("dead-link", found.line, message)


def _elsewhere(text: PlacedText, cautions: Collection[str]) -> Iterator[Problem]:
    """References to cautions that the guide's pages and booklets do not describe."""
    if text.wording.markup is not Markup.NONE:
        for found in references(text.text, line_only=text.wording.markup is Markup.LINE):
            if found.scheme == "caution" and found.name in cautions:
                message = (
                    f'no step brings the caution "{found.name}": the guide does not describe it'
                )
                yield text.problem("caution-elsewhere", found.line, message)


def _address(found: Reference) -> str:
    """An address as far as a message has room for it."""
    return (f"{found.scheme}:{found.name}" if found.scheme else found.name)[:80]


def _leads_out(found: Reference) -> bool:
    """Whether an address is one of the few kinds that a page may link to."""
    if found.scheme == "https":
        return _WEB.fullmatch(found.name) is not None
    if found.scheme == "mailto":
        return _MAIL.fullmatch(found.name) is not None
    return not found.scheme and re.fullmatch(r"#\S+", found.name) is not None


def _picture(
    words: PlacedText, found: Reference, pictures: Collection[str] | None
) -> Iterator[Problem]:
    if not found.words:
        message = f"the picture {found.name[:80]} has no words for readers who cannot see it"
        yield words.problem("picture-without-alt", found.line, message)
    if pictures is not None and found.name not in pictures:
        hint = did_you_mean(found.name, pictures)
        message = f'neither the guide nor a step names a picture "{found.name[:80]}"{hint}'
        yield words.problem("dead-picture", found.line, message)


def _headings(words: PlacedText) -> Iterator[Problem]:
    before: Heading | None = None
    for heading in headings(words.text):
        if not heading.words:
            message = "a heading without words"
            yield words.problem("empty-heading", heading.line, message)
        if before is not None and heading.level > before.level + 1:
            message = (
                f'the heading "{heading.words[:80]}" is of level {heading.level}, '
                f"but the one before it of level {before.level}"
            )
            yield words.problem("heading-skip", heading.line, message)
        before = heading
