"""A trace in → the page for its author: the outline over the photo, and figures of trust."""

from guidegen.bench.photos import vision
from guidegen.bench.photos.drawing import overlay
from guidegen.bench.photos.records import Trace, What
from guidegen.render.site.sizes_page import FigureTable, SizesSection, sizes_page
from guidegen.words import Words

WIDEST = 1600
"""px of the photo on the page."""


def trace_page(found: Trace, sentence: str, words: Words) -> bytes:
    """One HTML file with everything in it."""
    photo, _ = vision.shrink(found.photo, WIDEST)
    drawing = overlay(found, words)
    sections = (
        SizesSection("trust", words.say("How far to trust it"), sentence, [_figures(found, words)]),
        SizesSection(
            "photo",
            words.say("The outline over the photo"),
            drawing.description,
            drawings=[drawing],
            photo=vision.jpeg(photo),
        ),
    )
    return sizes_page(words.say("Template traced from a photo"), words.language, sections)


def _figures(found: Trace, words: Words) -> FigureTable:
    trust = found.trust

    def mm(value: float) -> str:
        return words.say("{n} mm", n=words.number(value, 2))

    kinds = {What.PEN: words.say("drawn with a pen"), What.CARD: words.say("cut out")}
    rows = [
        (words.say("The template is taken to be"), kinds.get(found.what, "")),
        (words.say("Camera and strips leave open"), mm(trust.camera)),
        (words.say("Softness of the edge, a quarter to three quarters"), mm(trust.edge)),
        (words.say("Segments beside measured places, root mean square"), mm(trust.fit)),
        (words.say("The same, at 99 of 100 places at most"), mm(trust.worst)),
        (
            words.say("Markers beside where they should be, root mean square"),
            words.say("{n} px", n=words.number(trust.strips_px, 2)),
        ),
        (words.say("Segments of the outline"), words.number(len(found.outline.run))),
        (words.say("Corners"), words.number(len(found.outline.corners))),
        (words.say("Holes"), words.number(len(found.holes))),
        (words.say("Drawn lines"), words.number(len(found.marks))),
    ]
    said = {
        "others": words.say("Something else nearly as large lies beside it"),
        "dropped": words.say("Some markers were left out, as they are not where they should be"),
    }
    rows += [(said[note], words.say("look at the photo")) for note in found.notes]
    return FigureTable(words.say("What the trust rests on"), ("", ""), tuple(rows))
