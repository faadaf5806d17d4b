"""Template pages in → one PDF in true size out."""

from collections.abc import Iterator, Sequence

from guidegen.layout.records import TemplateSet
from guidegen.pictures.pen.records import Drawing, Rectangle, groups
from guidegen.render.pdf.drawn_pdf import Bookmark, write_drawings
from guidegen.render.pdf.finish import Switch, add_layers, add_tags, ask_true_scale, page_count
from guidegen.render.pdf.xmp import screen_packet
from guidegen.render.views.template_words import page_words
from guidegen.units import POINTS_PER_MM
from guidegen.words import Words


def render_template_pdf(
    pages: Sequence[Drawing], templates: TemplateSet, title: str, words: Words
) -> bytes:
    """A PDF whose pages are exactly the drawings, in true size, with a bookmark for each sheet.

    Key pages come first: as many as there are more `pages` than pages in `templates`. Raises
    OutputError.
    """
    return _finish(_write(pages, templates, title, words), templates, title, words)


def render_nested_pdf(
    pages: Sequence[Drawing],
    templates: TemplateSet,
    sizes: Sequence[str],
    title: str,
    words: Words,
) -> bytes:
    """A PDF of nested sizes, each a layer, with the key's fields as switches.

    `templates` is the set of any of the sizes, `sizes` are their names in the order of their
    layers. Raises OutputError.
    """
    switches = [
        switch
        for number, page in enumerate(pages)
        for switch in _switches(number, page, sizes, words)
    ]
    layers = [
        (f"size-{number}", words.say("Size {size}", size=size)) for number, size in enumerate(sizes)
    ]
    data = add_layers(_write(pages, templates, title, words), layers, switches)
    return _finish(data, templates, title, words)


def _switches(number: int, page: Drawing, sizes: Sequence[str], words: Words) -> Iterator[Switch]:
    """The fields of a page that switch layers; the first rectangle of each is what one clicks."""
    for group in groups(page.items):
        field = next((one for one in group.items if isinstance(one, Rectangle)), None)
        if group.shows and field:
            low, high = field.y, field.y + field.height
            corners = (field.x, low, field.x + field.width, high)
            left, low, right, high = (round(mm, 4) * POINTS_PER_MM for mm in corners)
            shown = int(group.shows) if group.shows.isdecimal() else None
            said = _switch_words(sizes, group.shows, words)
            yield Switch(number, (left, low, right, high), shown, said)


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
