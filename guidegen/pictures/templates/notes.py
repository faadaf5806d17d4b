"""Words on a page, each with its place: what labels are before they are drawn."""

from dataclasses import dataclass
from math import cos, radians, sin

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.dimensions import arrow
from guidegen.pictures.pen.frames import polyline
from guidegen.pictures.pen.lettering import CAP_HEIGHT, text_width
from guidegen.pictures.pen.linestyles import FINE
from guidegen.pictures.pen.tints import PAPER
from guidegen.pictures.templates.symbols import AnySymbol

LEAST = 3.6
"""mm; smallest letter size on a template: capitals 2.5 mm high, the least of the usual lettering
heights (ISO 3098 series 2.5, 3.5, 5; from memory)."""

LEADING = 1.22
"""Distance of base lines as a share of the letter size."""


@dataclass(frozen=True, slots=True)
class WordLine:
    """One line of words."""

    text: str
    size: float
    """mm; letter size."""
    weight: int = 400

    @property
    def width(self) -> float:
        """mm."""
        return text_width(self.text, self.size, self.weight)


SYMBOL_GAP = 1.5
"""mm between a picture and the words after it."""


@dataclass(frozen=True, slots=True)
class NoteBlock:
    """Lines of words that stand together."""

    lines: tuple[WordLine, ...]
    symbol: AnySymbol | None = None
    """A small picture before the words."""

    @property
    def words_width(self) -> float:
        """mm of the longest line."""
        return max(line.width for line in self.lines)

    @property
    def width(self) -> float:
        """mm, symbol included."""
        return self.words_width + (self.symbol.width + SYMBOL_GAP if self.symbol else 0.0)

    @property
    def height(self) -> float:
        """mm from the foot of the last line to the top of the first, or of a taller symbol."""
        return max(self.words_height, self.symbol.height if self.symbol else 0.0)

    @property
    def words_height(self) -> float:
        """mm from the foot of the last line to the top of the first."""
        return (
            sum(line.size * LEADING for line in self.lines)
            # Nothing is led below the last line but its descenders, a quarter of the letters.
            - self.lines[-1].size * (LEADING - CAP_HEIGHT)
            + 0.25 * self.lines[-1].size
        )


@dataclass(frozen=True, slots=True)
class KeyNote:
    """A block at its place on a page's window."""

    block: NoteBlock
    centre: Point
    angle: float = 0.0
    """degrees, counter-clockwise."""
    leader: tuple[Point, Point] | None = None
    """From the words to the line that they are about."""
    backed: bool = False
    """True where the words stand on white, for places with a hatch."""

    def ring(self, air: float = 0.6) -> list[Point]:
        """Corners of the words' rectangle, with some air around."""
        return turned_box(
            self.centre, self.block.width + 2 * air, self.block.height + 2 * air, self.angle
        )


def turned_box(centre: Point, width: float, height: float, angle: float) -> list[Point]:
    """Corners of a rectangle about its centre; the first is repeated at the end."""
    c, s = cos(radians(angle)), sin(radians(angle))
    corners = [(-1, -1), (1, -1), (1, 1), (-1, 1), (-1, -1)]
    return [
        (
            centre[0] + (x * width * c - y * height * s) / 2,
            centre[1] + (x * width * s + y * height * c) / 2,
        )
        for x, y in corners
    ]


def draw_note(canvas: Canvas, note: KeyNote, dx: float, dy: float, stroke: Stroke = FINE) -> None:
    """Draw a note on a page whose window starts at (dx, dy)."""
    x, y = note.centre[0] + dx, note.centre[1] + dy
    c, s = cos(radians(note.angle)), sin(radians(note.angle))
    if note.backed:
        # Less air than words are placed with (0.6): white never wipes out a line beside them.
        ring = [(px + dx, py + dy) for px, py in note.ring(0.4)]
        canvas.path([polyline(ring)], None, fill=PAPER, closed=True)
    if note.block.symbol:
        _draw_symbol(canvas, note, x, y)
        # The block lies centred as a whole; with a picture at its left, words move to the right.
        shift = note.block.width / 2 - note.block.words_width / 2
        x, y = x + shift * c, y + shift * s
    # Down from the top of the block, along its own upright direction where it is turned.
    top = note.block.words_height / 2
    for line in note.block.lines:
        top -= line.size * CAP_HEIGHT
        canvas.text(
            (x - top * s, y + top * c),
            line.text,
            line.size,
            anchor="middle",
            angle=note.angle,
            weight=line.weight,
        )
        top -= line.size * (LEADING - CAP_HEIGHT)
    if note.leader:
        (x0, y0), (x1, y1) = note.leader
        start, tip = (x0 + dx, y0 + dy), (x1 + dx, y1 + dy)
        canvas.line(start, tip, stroke, css="leader")
        reach = ((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5
        # A leader of no length points nowhere, and would divide by nothing.
        if reach > 1e-6:
            arrow(canvas, tip, ((x1 - x0) / reach, (y1 - y0) / reach))


def _draw_symbol(canvas: Canvas, note: KeyNote, x: float, y: float) -> None:
    """The small picture left of the words."""
    symbol = note.block.symbol
    if symbol is None:
        return
    c, s = cos(radians(note.angle)), sin(radians(note.angle))
    left = -note.block.width / 2

    def at(u: float, v: float) -> Point:
        return (x + (left + u) * c - v * s, y + (left + u) * s + v * c)

    symbol.draw(canvas, at)


def block_of(*lines: WordLine | None, symbol: AnySymbol | None = None) -> NoteBlock:
    """A block of the lines that have words."""
    return NoteBlock(tuple(line for line in lines if line and line.text), symbol)
