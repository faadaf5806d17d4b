"""Pieces in → the rows in which a drawing shows them, at one scale."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.pieces.records import Piece
from guidegen.pictures.pen.lettering import text_width
from guidegen.pictures.pen.scales import REDUCTIONS

GAP = 6.0
"""mm between neighbours in a row."""
CAPTION = 9.0
"""mm under a piece for its label and name."""
FINE_SCALE = 1 / 7
"""Scale from which lines on the face are drawn: smaller, they would only darken the piece."""
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
    words: str
    """The caption below."""


@dataclass(frozen=True, slots=True)
class Arrangement:
    """All pieces in rows."""

    cells: tuple[Cell, ...]
    scale: float
    height: float
    """mm from the lowest caption to the highest piece."""


@dataclass(frozen=True, slots=True)
class _Item:
    """A piece, its scaled size, its caption, and the width that both need."""

    piece: Piece
    across: float
    up: float
    words: str
    room: float


def group_parts(pieces: Iterable[Piece]) -> list[list[Piece]]:
    """The pieces of each part and section: one, or left and right, in the order of the kit."""
    groups: dict[tuple[str, int], list[Piece]] = {}
    for piece in pieces:
        groups.setdefault((piece.part, piece.section), []).append(piece)
    return list(groups.values())


def group_caption(group: list[Piece]) -> str:
    """Labels of both hands, and how many there are: 'A1L + A1R', 'N1 × 55'."""
    labels = " + ".join(piece.label for piece in group)
    count = sum(piece.copies for piece in group)
    return labels if count == len(group) else f"{labels} × {count}"


def caption(piece: Piece) -> str:
    """What stands under a piece: its label, and how many to cut."""
    return piece.label if piece.copies == 1 else f"{piece.label} × {piece.copies}"


def arrange(
    pieces: Sequence[Piece],
    width: float,
    height: float,
    *,
    least: float = 1.0,
    captions: Mapping[str, str] | None = None,
) -> Arrangement:
    """Rows of pieces, highest first, at the largest scale that fits `width` by `height` mm.

    `least` is the smallest denominator that may be used: 1 allows true size. `captions` gives
    other words for a piece by its key.
    """
    words = {piece.key: (captions or {}).get(piece.key, caption(piece)) for piece in pieces}
    # Once: every scale that is tried asks for them.
    sizes = {piece.key: _size(piece) for piece in pieces}
    # Rounded, then by label: left and right of a pair are as high but for the last digits, and
    # have to stand side by side.
    order = sorted(
        pieces, key=lambda piece: (-round(sizes[piece.key][1], 3), piece.label, piece.key)
    )
    result = None
    for denominator in REDUCTIONS:
        if denominator < least:
            continue
        result = _rows(order, words, sizes, 1 / denominator, width)
        # From the largest scale down: the first that fits is the largest.
        if result is not None and result.height <= height:
            return result
    return (
        # Too much for any scale: drawn too large rather than left out, as none of it is wrong.
        result
        or _rows(order, words, sizes, 1 / REDUCTIONS[-1], 10 * width)
        or Arrangement((), 1.0, 0.0)
    )


def _size(piece: Piece) -> tuple[float, float]:
    left, low, right, high = bounds((piece.shape.ring(),))
    return right - left, high - low


def _rows(
    order: Sequence[Piece],
    captions: Mapping[str, str],
    sizes: Mapping[str, tuple[float, float]],
    scale: float,
    width: float,
) -> Arrangement | None:
    """Fill row after row; None where one piece is wider than a row. `sizes` in mm by key."""
    rows: list[list[_Item]] = []
    # As full: the first piece begins a row.
    used = width + 1.0
    for piece in order:
        across, up = (length * scale for length in sizes[piece.key])
        words = captions[piece.key]
        # A small piece takes as much room as its caption.
        room = max(across, text_width(words, LABEL, 600))
        if room > width:
            return None
        if used + GAP + room > width:
            rows.append([])
            # The first of a row has no gap before it.
            used = -GAP
        rows[-1].append(_Item(piece, across, up, words, room))
        used += GAP + room
    cells: list[Cell] = []
    y = 0.0
    for row in reversed(rows):
        cells.extend(_place(row, y + CAPTION, width))
        y += CAPTION + max(item.up for item in row) + GAP
    return Arrangement(tuple(cells), scale, y - GAP)


def _place(row: list[_Item], y: float, width: float) -> list[Cell]:
    """One row, its pieces standing on one line, spread evenly where they nearly fill it."""
    used = sum(item.room for item in row)
    # Spread to the width, but a row of two is not torn apart to both rims.
    gap = min((width - used) / (len(row) - 1), 2.5 * GAP) if len(row) > 1 else 0.0
    x = (width - used - gap * (len(row) - 1)) / 2
    cells = []
    for item in row:
        left = x + (item.room - item.across) / 2
        cells.append(Cell(item.piece, left, y, item.across, item.up, item.words))
        x += item.room + gap
    return cells
