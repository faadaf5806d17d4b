"""The line of words under a drawing: what it shows, and at which scale."""

from guidegen.pictures.canvas import Canvas
from guidegen.pictures.lettering import shorten, text_width
from guidegen.pictures.scales import scale_words
from guidegen.pictures.tints import NARROW, SOFT

STRIP = 8.0
"""mm; height of the line of words, rule included."""
WORDS = 3.6
"""mm; letter size."""
MARGIN = 1.0
"""mm kept free around every drawing, so that wide lines are not cut off."""


def title_strip(
    canvas: Canvas, strong: str, words: str, scale: float | None, y: float = 0.0
) -> None:
    """A rule, `strong` and `words` at the left, the scale at the right, as in a title block."""
    canvas.line((0, y + STRIP - 1), (canvas.width, y + STRIP - 1), NARROW, css="thin")
    base = y + 2.2
    right = canvas.width - 1
    if scale is not None:
        stated = scale_words(scale, canvas.lang)
        canvas.text((right, base), stated, 4, anchor="end", weight=600, css="label")
        right -= text_width(stated, 4, 600) + 1.6
        word = canvas.lang.say("scale")
        canvas.text((right, base), word, WORDS, anchor="end", colour=SOFT, css="label soft")
        right -= text_width(word, WORDS) + 4
    x = 1.0
    if strong:
        canvas.text((x, base), strong, 4, weight=600, css="label strong")
        x += text_width(strong, 4, 600) + 3
    canvas.text((x, base), shorten(words, right - x, WORDS), WORDS, css="label")
