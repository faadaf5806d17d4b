"""Template pages in → one PDF in true size out."""

from collections.abc import Iterator, Sequence

from guidegen.layout.records import TemplateSet
from guidegen.pictures.pen.records import Drawing
from guidegen.render.pdf.drawn_pdf import Bookmark, write_drawings
from guidegen.render.pdf.xmp import screen_packet
from guidegen.render.views.template_words import page_words
from guidegen.words import Words


def render_template_pdf(
    pages: Sequence[Drawing], templates: TemplateSet, title: str, words: Words
) -> bytes:
    """A PDF whose pages are exactly the drawings, in true size, with a bookmark for each sheet.

    Key pages come first: as many as there are more `pages` than pages in `templates`.
    """
    return write_pages(pages, templates, title, words, tagged=True)


def pages_said(pages: int, templates: TemplateSet, words: Words) -> list[str]:
    """What the drawing of each page says; nothing for key pages, which are words."""
    return [*[""] * (pages - len(templates.pages)), *page_words(templates, words)]


def write_pages(
    drawings: Sequence[Drawing],
    templates: TemplateSet,
    title: str,
    words: Words,
    *,
    tagged: bool = False,
) -> bytes:
    """A PDF with a bookmark for each sheet, and with tags and their metadata where asked for."""
    return write_drawings(
        drawings,
        [*_bookmarks(templates, len(drawings) - len(templates.pages), words)],
        title=title,
        language=words.language,
        said=pages_said(len(drawings), templates, words) if tagged else None,
        packet=screen_packet(title),
    )


def _bookmarks(templates: TemplateSet, keys: int, words: Words) -> Iterator[Bookmark]:
    """The key, then each sheet with its templates below it."""
    if keys:
        yield Bookmark(words.say("Key: how to print, join and cut"), 0)
    for sheet in templates.sheets:
        pages = [page for page in templates.pages if page.sheet == sheet.number]
        first, last = pages[0].number, pages[-1].number
        values = {"sheet": sheet.number, "pages": first, "last": last}
        said = (
            words.say("Sheet {sheet}: page {pages}", **values)
            if first == last
            else words.say("Sheet {sheet}: pages {pages} to {last}", **values)
        )
        yield Bookmark(said, first - 1 + keys)
        seen: set[str] = set()
        for drawn in sheet.drawn:
            if drawn.piece.key in seen:
                continue
            seen.add(drawn.piece.key)
            start = next((p.number for p in pages if drawn.piece.key in p.pieces), first)
            codes = " ".join(piece.label for piece in drawn.serves)
            yield Bookmark(f"{codes} {drawn.piece.name}", start - 1 + keys, 1)
