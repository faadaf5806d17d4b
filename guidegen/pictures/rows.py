"""Pieces in → the rows in which a drawing shows them, at one scale."""

from collections.abc import Sequence
from dataclasses import dataclass

from guidegen.geometry.measures import bounds
from guidegen.geometry.records import Piece
from guidegen.pictures.lettering import text_width
from guidegen.pictures.scales import REDUCTIONS

GAP = 6.0
"""mm between neighbours in a row."""
CAPTION = 9.0
"""mm under a piece for its label and name."""
LABEL = 4.2
"""mm; letter size of labels."""


@dataclass(frozen=True, slots=True)
class Cell:
    """Room for one piece with its caption below."""

    piece: Piece
    x: float
    y: float
    """mm; lower left of the piece itself."""
    width: float
    height: float
    """mm of the piece itself, scaled; the caption may be wider."""
    caption_width: float


@dataclass(frozen=True, slots=True)
class Arrangement:
    """All pieces in rows."""

    cells: tuple[Cell, ...]
    scale: float
    height: float
    """mm from the lowest caption to the highest piece."""


def caption(piece: Piece) -> str:
    """What stands under a piece: its label, and how many to cut."""
    return piece.label if piece.copies == 1 else f"{piece.label} × {piece.copies}"


def arrange(
    pieces: Sequence[Piece], width: float, height: float, least: float = 1.0
) -> Arrangement:
    """Rows of pieces, highest first, at the largest scale that fits `width` by `height` mm.

    `least` is the smallest denominator that may be used: 1 allows true size.
    """
    order = sorted(pieces, key=lambda piece: (-round(_size(piece)[1], 3), piece.label, piece.key))
    result = None
    for denominator in REDUCTIONS:
        if denominator < least:
            continue
        result = _rows(order, 1 / denominator, width)
        if result is not None and result.height <= height:
            return result
    return result or _rows(order, 1 / REDUCTIONS[-1], 10 * width) or Arrangement((), 1.0, 0.0)


def _size(piece: Piece) -> tuple[float, float]:
    left, low, right, high = bounds((piece.shape.ring(),))
    return right - left, high - low


def _rows(order: Sequence[Piece], scale: float, width: float) -> Arrangement | None:
    """Fill row after row; None where one piece is wider than a row."""
    rows: list[list[tuple[Piece, float, float, float]]] = []
    used = width + 1.0
    for piece in order:
        across, up = (length * scale for length in _size(piece))
        words = text_width(caption(piece), LABEL, 600)
        room = max(across, words)
        if room > width:
            return None
        if used + GAP + room > width:
            rows.append([])
            used = -GAP
        rows[-1].append((piece, across, up, words))
        used += GAP + room
    cells: list[Cell] = []
    y = 0.0
    for row in reversed(rows):
        cells.extend(_place(row, y + CAPTION, width))
        y += CAPTION + max(up for _, _, up, _ in row) + GAP
    return Arrangement(tuple(cells), scale, y - GAP)


def _place(row: list[tuple[Piece, float, float, float]], y: float, width: float) -> list[Cell]:
    """One row, its pieces standing on one line, spread evenly where they nearly fill it."""
    rooms = [max(across, words) for _, across, _, words in row]
    spare = width - sum(rooms)
    gap = min(spare / (len(row) - 1), 2.5 * GAP) if len(row) > 1 else 0.0
    x = (width - sum(rooms) - gap * (len(row) - 1)) / 2
    cells = []
    for (piece, across, up, words), room in zip(row, rooms, strict=True):
        cells.append(Cell(piece, x + (room - across) / 2, y, across, up, words))
        x += room + gap
    return cells
