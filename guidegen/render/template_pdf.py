"""Template pages as SVG texts in → one PDF in true size out."""

from collections.abc import Iterator, Sequence

from guidegen.layout.records import TemplateSet
from guidegen.render.drawn_pdf import Bookmark, write_drawings
from guidegen.render.pdf_finish import ask_true_scale
from guidegen.render.svg_reading import read_drawing


def render_template_pdf(
    pages: Sequence[str], templates: TemplateSet, title: str, language: str
) -> bytes:
    """A PDF whose pages are exactly the drawings, in true size, with a bookmark for each sheet.

    Key pages come first: as many as there are more `pages` than pages in `templates`. Raises
    OutputError.
    """
    keys = len(pages) - len(templates.pages)
    data = write_drawings(
        [read_drawing(page) for page in pages],
        [*_bookmarks(templates, keys)],
        title=title,
        language=language,
    )
    return ask_true_scale(data, title=title, language=language)


def _bookmarks(templates: TemplateSet, keys: int) -> Iterator[Bookmark]:
    """The key, then each sheet with its templates below it."""
    if keys:
        yield Bookmark("Key: how to print, join and cut", 0)
    for sheet in templates.sheets:
        pages = [page for page in templates.pages if page.sheet == sheet.number]
        first, last = pages[0].number, pages[-1].number
        numbers = f"page {first}" if first == last else f"pages {first} to {last}"
        yield Bookmark(f"Sheet {sheet.number}: {numbers}", first - 1 + keys)
        seen: set[str] = set()
        for drawn in sheet.drawn:
            if drawn.piece.key in seen:
                continue
            seen.add(drawn.piece.key)
            start = next((p.number for p in pages if drawn.piece.key in p.pieces), first)
            codes = " ".join(piece.label for piece in drawn.serves)
            yield Bookmark(f"{codes} {drawn.piece.name}", start - 1 + keys, 1)
