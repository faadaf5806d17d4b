"""Overall measures of a part by size → a table on a drawing, with what they grow by."""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.lettering import shorten
from guidegen.pictures.pen.tints import SOFT
from guidegen.units import mm_text
from guidegen.words import msg

ROW = 5.6
LETTER = 3.6
CHANGE = 3.2
"""mm; letter size of what a measure grows by."""
SAMPLE = 14.0
"""mm; length of the sample of a line."""
NAME = 16.0
COLUMNS = (44.0, 54.0, 68.0, 78.0, 92.0)
"""mm from the table's left edge to the right end of each column after the name."""
TABLE = COLUMNS[-1]


@dataclass(frozen=True, slots=True)
class MeasureRow:
    """One outline and the sizes that have it."""

    words: str
    """Names of the sizes."""
    stroke: Stroke
    heavy: bool
    width: float
    height: float
    outline: float
    """mm of foam."""


def table_height(rows: int) -> float:
    """mm that a table of `rows` takes, head included."""
    return ROW * (rows + 1)


def draw_measures(canvas: Canvas, rows: Sequence[MeasureRow], corner: Point) -> None:
    """A row for each outline below a head; `corner` is the upper left."""
    x, top = corner
    y = top - 4
    canvas.text((x + NAME, y), canvas.lang.say("size"), 3.0, colour=SOFT, css="label soft")
    for words, column in ((msg("width mm"), 0), (msg("height mm"), 2), (msg("outline mm"), 4)):
        at = (x + COLUMNS[column], y)
        canvas.text(at, canvas.lang.say(words), 3.0, anchor="end", colour=SOFT, css="label soft")
    before: MeasureRow | None = None
    for row in rows:
        y -= ROW
        _draw_row(canvas, row, before, (x, y))
        before = row


def _draw_row(canvas: Canvas, row: MeasureRow, before: MeasureRow | None, at: Point) -> None:
    x, y = at
    weight = 600 if row.heavy else 400
    canvas.line((x, y + 1.2), (x + SAMPLE, y + 1.2), row.stroke, css="ink")
    words = shorten(row.words, COLUMNS[0] - NAME - 12, LETTER, weight)
    canvas.text((x + NAME, y), words, LETTER, weight=weight, css="label")
    for value, column in ((row.width, 0), (row.height, 2), (row.outline, 4)):
        right = (x + COLUMNS[column], y)
        canvas.text(right, mm_text(value), LETTER, anchor="end", weight=weight, css="label")
    # The first row grows from nothing.
    if before is None:
        return
    for change, column in ((row.width - before.width, 1), (row.height - before.height, 3)):
        right = (x + COLUMNS[column], y)
        canvas.text(
            right, change_words(change), CHANGE, anchor="end", colour=SOFT, css="label soft"
        )


def change_words(change: float) -> str:
    """A difference in mm with its sign: '+24', '-3', '0'."""
    words = mm_text(change)
    return words if words == "0" or words.startswith("-") else f"+{words}"
