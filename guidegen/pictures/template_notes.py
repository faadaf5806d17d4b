"""Words on a page, each with its place: what labels are before they are drawn."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin

from guidegen.geometry.records import Point
from guidegen.pictures.canvas import Canvas, Stroke
from guidegen.pictures.dimensions import arrow
from guidegen.pictures.lettering import CAP_HEIGHT, text_width
from guidegen.pictures.linestyles import FINE

LEAST = 3.6
"""mm; smallest letter size on a template: capitals 2.5 mm high, the least of the usual lettering
heights (ISO 3098 series 2.5, 3.5, 5; from memory)."""

LEADING = 1.22
"""Distance of base lines as a share of the letter size."""


@dataclass(frozen=True, slots=True)
class Words:
    """One line of words."""

    text: str
    size: float
    """mm; letter size."""
    weight: int = 400

    @property
    def width(self) -> float:
        """mm."""
        return text_width(self.text, self.size, self.weight)


@dataclass(frozen=True, slots=True)
class Block:
    """Lines of words that stand together."""

    lines: tuple[Words, ...]

    @property
    def width(self) -> float:
        """mm of the longest line."""
        return max(line.width for line in self.lines)

    @property
    def height(self) -> float:
        """mm from the foot of the last line to the top of the first."""
        return (
            sum(line.size * LEADING for line in self.lines)
            - self.lines[-1].size * (LEADING - CAP_HEIGHT)
            + 0.25 * self.lines[-1].size
        )


@dataclass(frozen=True, slots=True)
class Note:
    """A block at its place on a page's window."""

    block: Block
    centre: Point
    angle: float = 0.0
    """degrees, counter-clockwise."""
    leader: tuple[Point, Point] | None = None
    """From the words to the line that they are about."""

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


def draw_note(canvas: Canvas, note: Note, dx: float, dy: float, stroke: Stroke = FINE) -> None:
    """Draw a note on a page whose window starts at (dx, dy)."""
    x, y = note.centre[0] + dx, note.centre[1] + dy
    c, s = cos(radians(note.angle)), sin(radians(note.angle))
    top = note.block.height / 2
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
        if reach > 1e-6:
            arrow(canvas, tip, ((x1 - x0) / reach, (y1 - y0) / reach))


def block_of(*lines: Words | None) -> Block:
    """A block of the lines that have words."""
    return Block(tuple(line for line in lines if line and line.text))


def wrap_words(text: str, most: int) -> Sequence[str]:
    """Lines of at most `most` letters, broken between words."""
    lines: list[str] = []
    for word in text.split():
        if lines and len(lines[-1]) + 1 + len(word) <= most:
            lines[-1] += f" {word}"
        else:
            lines.append(word)
    return lines
