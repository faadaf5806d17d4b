"""Runs, texts and groups in → one Drawing out, in mm, y upward."""

import re
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager

from guidegen.geometry.outline.records import Line, Point, Run
from guidegen.pictures.pen.records import (
    INK,
    Circle,
    Drawing,
    Group,
    Item,
    Lettering,
    Path,
    Rectangle,
    Stroke,
)
from guidegen.units import mm_text
from guidegen.words import Words

__all__ = ["INK", "Canvas", "Stroke"]

_FORBIDDEN = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\ufffe\uffff]")
"""Control characters, which no XML file may hold."""


class Canvas:
    """A drawing of `width` by `height` mm in the making, origin at the lower left, y upward."""

    def __init__(
        self, width: float, height: float, title: str, description: str, lang: Words
    ) -> None:
        """`title` and `description` are the text alternative of the whole drawing."""
        self.width, self.height = width, height
        self.lang = lang
        """How the drawing says things and writes numbers."""
        self._title, self._description = _clean(title), _clean(description)
        # What is being filled: the drawing itself, then each group inside the one before it.
        self._open: list[list[Item]] = [[]]

    def path(
        self,
        runs: Iterable[Run],
        stroke: Stroke | None,
        *,
        fill: str = "none",
        css: str = "",
        closed: bool = False,
        opacity: float = 1.0,
    ) -> None:
        """Draw runs as one path; several rings make holes (even-odd rule)."""
        # Empty runs are left out here, once, so that nobody has to ask whether a piece has holes
        # or marks.
        drawn = tuple(run for run in runs if run)
        if drawn:
            self._add(Path(drawn, stroke, fill, opacity, closed, css))

    def line(self, start: Point, end: Point, stroke: Stroke, *, css: str = "") -> None:
        """Draw a straight line."""
        self.path([(Line(start, end),)], stroke, css=css)

    def rectangle(
        self,
        x: float,
        y: float,
        width: float,
        height: float,
        stroke: Stroke | None,
        *,
        fill: str = "none",
        css: str = "",
    ) -> None:
        """Draw a rectangle by its lower left corner; mm."""
        self._add(Rectangle(x, y, width, height, stroke, fill, css))

    def circle(
        self,
        centre: Point,
        radius: float,
        stroke: Stroke | None,
        *,
        fill: str = "none",
        css: str = "",
    ) -> None:
        """Draw a circle; `radius` in mm."""
        self._add(Circle(centre, radius, stroke, fill, css))

    def text(
        self,
        point: Point,
        words: str,
        size: float,
        *,
        anchor: str = "start",
        angle: float = 0.0,
        weight: int = 400,
        colour: str = INK,
        css: str = "",
    ) -> None:
        """Write `words` with the base line at `point`; `size` in mm, `angle` counter-clockwise."""
        self._add(Lettering(point, _clean(words), size, anchor, angle, weight, colour, css))

    def length(
        self,
        point: Point,
        length: float,
        size: float,
        *,
        digits: int = 0,
        anchor: str = "middle",
        angle: float = 0.0,
        weight: int = 600,
        colour: str = INK,
    ) -> None:
        """Write a length of `length` mm as a number alone, as text() writes words.

        What is written is what is recorded, so that a page that shows inches turns the number
        into the one that a reader would get by hand.
        """
        # Rounded the same way twice: as the language writes it, and as a plain number.
        words, said = self.lang.number(length, digits), float(mm_text(length, digits))
        self._add(
            Lettering(point, words, size, anchor, angle, weight, colour, "dimension", length=said)
        )

    @contextmanager
    def group(
        self,
        *,
        css: str = "",
        title: str = "",
        id: str = "",
        layer: str = "",
        shows: str = "",
        data: Mapping[str, str] | None = None,
    ) -> Iterator[None]:
        """Everything drawn inside belongs together; `data` is for scripts. See Group."""
        pairs = tuple((name, _clean(value)) for name, value in (data or {}).items())
        self._open.append([])
        try:
            yield
        finally:
            items = tuple(self._open.pop())
            self._add(Group(items, _clean(title), css, id, layer, shows, pairs))

    @contextmanager
    def clipped(self, x: float, y: float, width: float, height: float, id: str) -> Iterator[None]:
        """Cut everything drawn inside off at a rectangle in mm; `id` must be unique in the page."""
        self._open.append([])
        try:
            yield
        finally:
            items = tuple(self._open.pop())
            self._add(Group(items, id=id, clip=Rectangle(x, y, width, height)))

    def drawing(self) -> Drawing:
        """What was drawn."""
        return Drawing(
            self.width,
            self.height,
            self._title,
            self._description,
            tuple(self._open[0]),
            mirrored_page=self.lang.direction == "rtl",
        )

    def _add(self, item: Item) -> None:
        self._open[-1].append(item)


def _clean(words: str) -> str:
    """Words without the control characters that XML does not allow."""
    return _FORBIDDEN.sub("", words)
