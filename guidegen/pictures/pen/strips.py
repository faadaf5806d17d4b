"""The line of words under a drawing: what it shows, and at which scale."""

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.lettering import shorten, text_width
from guidegen.pictures.pen.scales import scale_words
from guidegen.pictures.pen.tints import NARROW, SOFT

STRIP = 8.0
"""mm; height of the line of words, rule included."""
WORDS = 3.6
"""mm; letter size."""
STRONG = 4.0
"""mm; letter size of what is strong."""
MARGIN = 1.0
"""mm kept free around every drawing, so that wide lines are not cut off."""


def title_strip(
    canvas: Canvas,
    strong: str,
    words: str,
    scale: float | None,
    y: float = 0.0,
    *,
    size: float = WORDS,
) -> None:
    """A rule, `strong` and `words` at the left, the scale at the right, as in a title block.

    `size` is that of the words in mm; what is strong grows with it.
    """
    large = size / WORDS * STRONG
    canvas.line((0, y + STRIP - 1), (canvas.width, y + STRIP - 1), NARROW, css="thin")
    base = y + 2.2
    # From the right: the scale keeps its place, and words give way.
    right = canvas.width - 1
    if scale is not None:
        right = write_scale(canvas, scale, (right, base), size=size, strong=large) - 4
    x = 1.0
    if strong:
        canvas.text((x, base), strong, large, weight=600, css="label strong")
        x += text_width(strong, large, 600) + 3
    canvas.text((x, base), shorten(words, right - x, size), size, css="label")


def write_scale(
    canvas: Canvas, scale: float, end: Point, *, size: float = WORDS, strong: float = WORDS
) -> float:
    """'scale 1 : 3', its right end on the base line at a point; returns where it begins, mm.

    `size` is that of the word, `strong` that of the ratio, in mm.
    """
    right, base = end
    stated = scale_words(scale, canvas.lang)
    canvas.text((right, base), stated, strong, anchor="end", weight=600, css="label")
    right -= text_width(stated, strong, 600) + 1.6
    word = canvas.lang.say("scale")
    canvas.text((right, base), word, size, anchor="end", colour=SOFT, css="label soft")
    return right - text_width(word, size)
