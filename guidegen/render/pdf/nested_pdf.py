"""Template pages of all sizes in → one PDF in true size, each size a layer, out."""

from collections.abc import Iterator, Sequence

from guidegen.layout.records import TemplateSet
from guidegen.pictures.pen.records import Drawing, Rectangle, groups
from guidegen.render.pdf.finish import Switch, add_layers, add_tags, ask_true_scale
from guidegen.render.pdf.template_pdf import pages_said, write_pages
from guidegen.render.pdf.xmp import screen_packet
from guidegen.units import POINTS_PER_MM
from guidegen.words import Words


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
    data = add_layers(write_pages(pages, templates, title, words), layers, switches)
    said = pages_said(len(pages), templates, words)
    tagged = add_tags(data, said, packet=screen_packet(title))
    return ask_true_scale(tagged, title=title, language=words.language)


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
