"""The table of templates on a key page: code, name, picture, count, foam, pages."""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Point
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.layout.records import Drawn, TemplateSet
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.lettering import shorten, wrap
from guidegen.pictures.pen.linestyles import FINE
from guidegen.pictures.pen.tints import SOFT
from guidegen.pictures.templates.lines import cut_runs
from guidegen.pictures.templates.page_map import number_ranges
from guidegen.pictures.templates.words import label_text
from guidegen.units import mm_text
from guidegen.words import msg

ROW = 10.5
"""mm; height of a row of the table of templates."""


@dataclass(frozen=True, slots=True)
class TableColumn:
    """A column of the table of templates."""

    name: str
    width: float
    """mm; 0 takes what is left."""


COLUMNS = (
    TableColumn(msg("Code"), 20),
    TableColumn(msg("Template"), 0),
    TableColumn(msg("How"), 28),
    TableColumn(msg("Cut"), 44),
    TableColumn(msg("Material"), 34),
    TableColumn(msg("Pages"), 16),
)


def column_places(width: float) -> list[tuple[float, float]]:
    """Left edge and width of each column of a table `width` mm wide."""
    spare = width - sum(column.width for column in COLUMNS)
    places: list[tuple[float, float]] = []
    x = 0.0
    for column in COLUMNS:
        wide = column.width or spare
        places.append((x, wide))
        x += wide
    return places


def draw_table_head(canvas: Canvas, corner: Point, width: float) -> float:
    """Column names; returns y below, in mm."""
    x, y = corner
    for column, (left, _) in zip(COLUMNS, column_places(width), strict=True):
        canvas.text((x + left, y - 3.6), canvas.lang.say(column.name), 3.2, colour=SOFT)
    canvas.line((x, y - 5), (x + width, y - 5), FINE)
    return y - 5


@dataclass(frozen=True, slots=True)
class TableRow:
    """What the table says of one template."""

    drawn: Drawn
    pages: Sequence[int]
    foam: str
    cut: tuple[str, ...]
    """Up to two lines."""


def draw_table_row(canvas: Canvas, corner: Point, width: float, row: TableRow) -> float:
    """One template of the table; returns y below, in mm."""
    x, y = corner
    drawn = row.drawn
    places = [(x + left, wide - 2) for left, wide in column_places(width)]
    piece = drawn.piece
    base = y - 4.6
    canvas.text(
        (places[0][0], base), shorten(label_text(drawn.serves), 20, 4.6, 700), 4.6, weight=700
    )
    left, wide = places[1]
    canvas.text((left, base), shorten(piece.name, wide, 4.2, 600), 4.2, weight=600)
    size = measure_words(piece)
    if size:
        canvas.text((left, base - 4.4), shorten(size, wide, 3.2), 3.2, colour=SOFT)
    _draw_how(canvas, (places[2][0], y - ROW + 1), (places[2][1], ROW - 2), drawn)
    for number, line in enumerate(row.cut):
        canvas.text((places[3][0], base - 4.4 * number), shorten(line, places[3][1], 3.6), 3.6)
    for number, line in enumerate(wrap(row.foam, places[4][1], 3.6, most=2)):
        canvas.text((places[4][0], base - 4.4 * number), line, 3.6)
    for number, line in enumerate(
        # Nothing follows the last column: it has its gap as well.
        wrap(number_ranges(row.pages), places[5][1] + 2, 3.6, 600, most=2)
    ):
        canvas.text((places[5][0], base - 4.4 * number), line, 3.6, weight=600)
    canvas.line((x, y - ROW), (x + width, y - ROW), FINE)
    return y - ROW


def measure_words(piece: Piece) -> str:
    """Width and height as cut, for telling templates apart; in mm."""
    left, low, right, high = bounds((piece.shape.ring(),))
    return f"{mm_text(right - left)} × {mm_text(high - low)} mm"


def _draw_how(canvas: Canvas, corner: Point, room: Point, drawn: Drawn) -> None:
    """As drawn and flipped, or both halves on the fold, small."""
    piece = drawn.piece
    runs = tuple(cut_runs(piece))
    left, low, right, high = bounds((piece.template.ring(),))
    both = piece.fold or {one.mirrored for one in drawn.serves} == {True, False}
    if piece.fold:
        _draw_halves(canvas, corner, room, piece)
        return
    count = 2 if both else 1
    gap = 3.0
    scale = min((room[0] - gap * (count - 1)) / count / (right - left), room[1] / (high - low))
    wide = (right - left) * scale
    for number in range(count):
        flipped = drawn.flipped if number == 0 else not drawn.flipped
        x = corner[0] + number * (wide + gap)
        # Flipped, x runs the other way: the right end of the outline comes to lie at the left.
        shift = right if flipped else -left
        frame = Frame(scale, x + shift * scale, corner[1] - low * scale, flipped=flipped)
        # Only the first is printed; the other is made by flipping it.
        stroke = Stroke(0.35) if number == 0 else Stroke(0.25, dash=(1.0, 0.6))
        canvas.path([frame.run(run) for run in runs], stroke, closed=not piece.fold)


def _draw_halves(canvas: Canvas, corner: Point, room: Point, piece: Piece) -> None:
    """The whole outline as cut, with the drawn half strong and its fold."""
    left, low, right, high = bounds((piece.shape.ring(),))
    scale = min(room[0] / (right - left), room[1] / (high - low))
    frame = Frame(scale, corner[0] - left * scale, corner[1] - low * scale)
    canvas.path([frame.run(piece.shape.ring())], Stroke(0.25, dash=(1.0, 0.6)), closed=True)
    canvas.path([frame.run(run) for run in cut_runs(piece)], Stroke(0.35))
    canvas.path(
        [frame.run(piece.template.edge(piece.fold).run)], Stroke(0.25, dash=(2, 0.6, 0.2, 0.6))
    )


def served(templates: TemplateSet, kit: Kit) -> list[Drawn]:
    """Each template once, in the order of the kit."""
    seen: dict[str, Drawn] = {}
    for sheet in templates.sheets:
        for drawn in sheet.drawn:
            # A template that is drawn several times, or on several sheets, has one row.
            seen.setdefault(drawn.piece.key, drawn)
    return [seen[piece.key] for piece in kit.pieces if piece.key in seen]
