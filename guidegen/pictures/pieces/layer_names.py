"""Names of layers beside a drawing: name, material and note, with enough room between."""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.lettering import LEAST, shorten, wrap

NAME = 4.0
"""mm; letter size of names."""
LINE = 3.5
"""mm from one line of detail to the next."""


@dataclass(frozen=True, slots=True)
class LayerWords:
    """What stands beside one layer."""

    name: str
    details: tuple[str, ...]
    """Up to three lines."""


def layer_words(name: str, detail: str, room: float) -> LayerWords:
    """Words in lines of at most `room` mm."""
    return LayerWords(shorten(name, room, NAME, 600), tuple(wrap(detail, room, LEAST, most=3)))


def pitch(words: Sequence[LayerWords]) -> float:
    """mm from the middle of one name to the next."""
    return 10.0 + LINE * (max(len(each.details) for each in words) - 1)


def write_layer(canvas: Canvas, at: Point, words: LayerWords) -> None:
    """Write name and details; a leader that ends at the left of `at` points between them."""
    x, y = at
    # The name above the leader, details below it: the line leads between both.
    canvas.text((x, y + 0.5), words.name, NAME, weight=600, css="label strong")
    for number, line in enumerate(words.details):
        canvas.text((x, y - 3.4 - number * LINE), line, LEAST, css="label")
