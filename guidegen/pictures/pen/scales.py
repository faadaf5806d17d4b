"""How much smaller or larger a drawing is, in steps that a person can work with."""

from guidegen.words import Words

REDUCTIONS = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50, 60, 80, 100, 150, 200)
"""Denominators. ISO 5455 lists 1, 2, 5, 10, 20, 50; our choice adds those between, since a page
is narrow and a reader needs only the number."""

MAGNIFICATIONS = (20, 15, 12, 10, 8, 6, 5, 4, 3, 2, 1)
"""For sections of thin layers; ISO 5455 lists 2, 5, 10, 20."""


def reduction(width: float, height: float, room_width: float, room_height: float) -> float:
    """The largest scale of `REDUCTIONS` at which width by height mm fits into the room."""
    for denominator in REDUCTIONS:
        if width <= room_width * denominator and height <= room_height * denominator:
            return 1 / denominator
    return min(room_width / width, room_height / height)


def magnification(length: float, room: float) -> float:
    """The largest scale of `MAGNIFICATIONS` at which `length` mm fits; smaller where none does."""
    for factor in MAGNIFICATIONS:
        if length * factor <= room:
            return float(factor)
    return reduction(length, 0, room, 1)


def scale_words(scale: float, lang: Words) -> str:
    """A scale as it is written: '1 : 3', '2 : 1'."""
    if scale >= 1:
        return f"{lang.number(scale, 1)} : 1"
    return f"1 : {lang.number(1 / scale, 1)}"
