"""Strips with markers in → pages to print at true scale, as drawings, for one paper.

Four strips stand upright on a page, side by side, so that one cut parts two; beside them a check
square and the words that a user needs at the printer.
"""

from collections.abc import Callable, Iterator

from guidegen.bench.photos.strips import (
    CELLS,
    LENGTH,
    MARKERS,
    RULER,
    RULER_AT,
    SIDE,
    STRIPS,
    WIDTH,
    marker_bits,
    marker_corners,
)
from guidegen.geometry.outline.records import Line, Point
from guidegen.pictures.pen.records import Drawing, Group, Item, Lettering, Path, Rectangle, Stroke
from guidegen.units import PAPERS
from guidegen.words import Words

EACH = 4
"""Strips on a page."""
LEFT = 10.0
"""mm from the paper's edge to the first strip: what printers leave white."""
SQUARE = 50.0
"""mm of the check square."""
CUT = Stroke(0.2, colour="#5b6469")
RULE = Stroke(0.25)
BLACK = "#000000"

type PageTurn = Callable[[float, float], Point]
"""From a place on a strip to the place on the page."""


def frame_pages(paper: str, words: Words) -> tuple[Drawing, ...]:
    """All strips on pages of a paper of `units.PAPERS`."""
    size = PAPERS[paper]
    pages = STRIPS // EACH
    return tuple(
        Drawing(
            size.width,
            size.height,
            words.say(
                "Strips for photos of templates, page {page} of {pages}", page=page + 1, pages=pages
            ),
            words.say(
                "Four strips with black markers to cut out, and a square to check the printer with."
            ),
            tuple(_page(page, size.width, size.height, words)),
        )
        for page in range(pages)
    )


def page_says(page: int, words: Words) -> str:
    """What the drawing of a page says to those who do not see it."""
    first = page * EACH + 1
    return words.say(
        "Strips {first} to {last} with markers, each {length} by {width} mm, and a check square of "
        "{square} mm.",
        first=first,
        last=first + EACH - 1,
        length=words.number(LENGTH),
        width=words.number(WIDTH),
        square=words.number(SQUARE),
    )


def _page(page: int, wide: float, high: float, words: Words) -> Iterator[Item]:
    foot = (high - LENGTH) / 2
    for place in range(EACH):
        strip = page * EACH + place
        corner = (LEFT + WIDTH * place, foot)
        yield Group(tuple(_strip(strip, corner, words)), title=words.say("Strip {n}", n=strip + 1))
    left = LEFT + WIDTH * EACH + 2
    top = foot + LENGTH
    yield Rectangle(left, top - SQUARE, SQUARE, SQUARE, RULE)
    said = words.say("{n} × {n} mm", n=words.number(SQUARE))
    yield Lettering((left + SQUARE / 2, top - SQUARE / 2), said, 4, "middle", weight=600)
    lines = (
        words.say("Print at 100 %, without fitting to the page."),
        words.say("The square measures {n} mm each way.", n=words.number(SQUARE)),
        words.say("Cut the strips apart. Tape them flat on all sides"),
        words.say("of the template, 5 mm away from it at least."),
        words.say("No two strips with one number in a photo."),
        words.say("If the line on a strip is not {n} mm long,", n=words.number(RULER)),
        words.say("measure it and say so: --ruler 199.2"),
        words.say("Page {page} of {pages}", page=page + 1, pages=STRIPS // EACH),
    )
    for number, line in enumerate(lines):
        yield Lettering((left, top - SQUARE - 7 - 5 * number), line, 2.6)


def _strip(strip: int, corner: Point, words: Words) -> Iterator[Item]:
    """A strip, upright: what lies along it runs up the page."""

    def up(x: float, y: float) -> Point:
        return corner[0] + WIDTH - y, corner[1] + x

    yield Rectangle(corner[0], corner[1], WIDTH, LENGTH, CUT)
    for marker in range(strip * MARKERS, (strip + 1) * MARKERS):
        yield from _marker(marker, up)
    for x in (4.5, LENGTH - 3.5):
        yield Lettering(up(x, WIDTH / 2), str(strip + 1), 5, "middle", weight=700)
    at, height = RULER_AT
    for start, end in (
        ((at, height), (at + RULER, height)),
        ((at, height - 1), (at, height + 1)),
        ((at + RULER, height - 1), (at + RULER, height + 1)),
    ):
        yield Path(((Line(up(*start), up(*end)),),), RULE)
    said = words.say("{n} mm", n=words.number(RULER))
    yield Lettering(up(at - 2, height - 0.9), said, 2.4, "end", angle=90)


def _marker(number: int, up: PageTurn) -> Iterator[Item]:
    corners = marker_corners(number)
    left, top = corners[0]
    yield _box(up, (left, top - SIDE), SIDE, SIDE, BLACK)
    cell = SIDE / CELLS
    for row, bits in enumerate(marker_bits(number)):
        start = None
        # White cells beside one another are one box, so that no hairline parts them.
        for column, white in enumerate((*bits, False)):
            if white and start is None:
                start = column
            elif not white and start is not None:
                x, y = left + cell * (start + 1), top - cell * (row + 2)
                yield _box(up, (x, y), cell * (column - start), cell, "#ffffff")
                start = None


def _box(up: PageTurn, corner: Point, wide: float, high: float, fill: str) -> Rectangle:
    x, y = corner
    right, low = up(x, y)
    left, top = up(x + wide, y + high)
    return Rectangle(left, low, right - left, top - low, None, fill)
