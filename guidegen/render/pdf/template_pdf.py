"""Template pages as SVG texts in → one PDF in true size out."""

from collections.abc import Iterator, Sequence

from guidegen.layout.records import TemplateSet
from guidegen.render.pdf.drawn_pdf import Bookmark, write_drawings
from guidegen.render.pdf.finish import Switch, add_layers, add_tags, ask_true_scale, page_count
from guidegen.render.pdf.svg_reading import Drawing, Pair, find_switches, read_drawing
from guidegen.render.pdf.xmp import screen_packet
from guidegen.render.views.template_words import page_words
from guidegen.units import POINTS_PER_MM
from guidegen.words import Words


def render_template_pdf(
    pages: Sequence[str], templates: TemplateSet, title: str, words: Words
) -> bytes:
    """A PDF whose pages are exactly the drawings, in true size, with a bookmark for each sheet.

    Key pages come first: as many as there are more `pages` than pages in `templates`. Raises
    OutputError.
    """
    drawings = [read_drawing(page) for page in pages]
    return _finish(_write(drawings, templates, title, words), templates, title, words)


def render_nested_pdf(
    pages: Sequence[str],
    templates: TemplateSet,
    sizes: Sequence[str],
    title: str,
    words: Words,
) -> bytes:
    """A PDF of nested sizes, each a layer, with the key's fields as switches.

    `templates` is the set of any of the sizes, `sizes` are their names in the order of their
    layers. Raises OutputError.
    """
    drawings = [read_drawing(page) for page in pages]
    switches = [
        Switch(
            number,
            _pdf_box(drawing, corners),
            int(shows) if shows.isdecimal() else None,
            _switch_words(sizes, shows, words),
        )
        for number, drawing in enumerate(drawings)
        for shows, corners in find_switches(drawing.root)
    ]
    layers = [
        (f"size-{number}", words.say("Size {size}", size=size)) for number, size in enumerate(sizes)
    ]
    data = add_layers(_write(drawings, templates, title, words), layers, switches)
    return _finish(data, templates, title, words)


def _switch_words(sizes: Sequence[str], shows: str, words: Words) -> str:
    if not shows.isdecimal():
        return words.say("show all sizes")
    return words.say("show only {size}", size=sizes[int(shows)])


def _finish(data: bytes, templates: TemplateSet, title: str, words: Words) -> bytes:
    """Tags and words for screen readers; no scaling for printers."""
    keys = page_count(data) - len(templates.pages)
    said = [*[""] * keys, *page_words(templates, words)]
    tagged = add_tags(data, said, packet=screen_packet(title))
    return ask_true_scale(tagged, title=title, language=words.language)


def _pdf_box(drawing: Drawing, corners: tuple[Pair, Pair]) -> tuple[float, float, float, float]:
    (left, top), (right, low) = corners
    return (
        left * POINTS_PER_MM,
        (drawing.height - low) * POINTS_PER_MM,
        right * POINTS_PER_MM,
        (drawing.height - top) * POINTS_PER_MM,
    )


def _write(drawings: Sequence[Drawing], templates: TemplateSet, title: str, words: Words) -> bytes:
    keys = len(drawings) - len(templates.pages)
    marks = [*_bookmarks(templates, keys, words)]
    return write_drawings(drawings, marks, title=title, language=words.language)


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
