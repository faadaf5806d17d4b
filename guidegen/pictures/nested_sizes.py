"""One part in all sizes → its outlines over one another: for checking grading by eye."""

from collections.abc import Sequence

from guidegen.geometry.measures import bounds, run_length
from guidegen.geometry.records import LineKind, Piece, Run
from guidegen.pictures.canvas import Canvas, Stroke
from guidegen.pictures.frames import Frame, frame_into
from guidegen.pictures.inner_lines import FOAM_LINES, draw_inner_lines
from guidegen.pictures.lettering import shorten
from guidegen.pictures.linestyles import SIZE_CUTS
from guidegen.pictures.scales import reduction
from guidegen.pictures.strips import STRIP, title_strip
from guidegen.units import mm_text

WIDTH = 170.0
MOST_HEIGHT = 130.0
"""mm; room for the outlines."""
TABLE = 62.0
"""mm at the right for the table of sizes."""
ROW = 6.0
EDGE = 5.0
LETTER = 3.6


def draw_nested(sizes: Sequence[tuple[str, Piece]], base: str, prefix: str) -> str:
    """Outlines of all `sizes` about the piece's own origin, at one scale.

    Sizes differ by their dashes, not by colour; the `base` size, which the drawing fits, is
    drawn heavier and alone shows holes and inner lines. The table states width, height and
    length of the outline in mm.
    """
    name = sizes[0][1].name
    rings = tuple(piece.shape.ring() for _, piece in sizes)
    left, low, right, high = bounds(rings)
    room_width = WIDTH - TABLE - 3 * EDGE
    scale = reduction(right - left, high - low, room_width, MOST_HEIGHT)
    height = max((high - low) * scale, ROW * (len(sizes) + 1))
    base_line = STRIP + EDGE
    canvas = Canvas(
        WIDTH, base_line + height + EDGE, f"{name} in {len(sizes)} sizes", _describe(sizes)
    )
    frame = frame_into(rings, scale, (EDGE, base_line, room_width, height))
    with canvas.group(css="nested", id=f"{prefix}-nested-{sizes[0][1].key}"):
        for number, (size, piece) in enumerate(sizes):
            _draw_size(canvas, piece, frame, _stroke(number, heavy=size == base), size == base)
    _draw_table(canvas, sizes, base, base_line + height)
    title_strip(canvas, sizes[0][1].label, f"{name}: all sizes over one another", scale)
    return canvas.svg()


def _stroke(number: int, *, heavy: bool) -> Stroke:
    plain = SIZE_CUTS[number % len(SIZE_CUTS)]
    return Stroke(0.6 if heavy else 0.25, plain.dash)


def _draw_size(canvas: Canvas, piece: Piece, frame: Frame, stroke: Stroke, base: bool) -> None:
    canvas.path([frame.run(piece.shape.ring())], stroke, css="ink", closed=True)
    if base:
        holes: list[Run] = [frame.run(hole) for hole in piece.shape.holes]
        canvas.path(holes, stroke, css="ink", closed=True)
        draw_inner_lines(canvas, piece.shape, frame, FOAM_LINES - {LineKind.TEXTURE})


def _draw_table(canvas: Canvas, sizes: Sequence[tuple[str, Piece]], base: str, top: float) -> None:
    x = WIDTH - TABLE
    for words, at in (("size", 13.0), ("width", 33.0), ("height", 46.0), ("outline", 61.0)):
        canvas.text((x + at, top - 4), words, 3.0, anchor="end", css="label soft")
    for number, (size, piece) in enumerate(sizes):
        y = top - 4 - ROW * (number + 1)
        left, low, right, high = bounds((piece.shape.ring(),))
        heavy = size == base
        canvas.line((x - 10, y + 1.2), (x + 2, y + 1.2), _stroke(number, heavy=heavy), css="ink")
        cells = (
            (shorten(size, 12.0, LETTER), 13.0),
            (mm_text(right - left), 33.0),
            (mm_text(high - low), 46.0),
            (mm_text(run_length(piece.shape.ring())), 61.0),
        )
        for words, at in cells:
            weight = 600 if heavy else 400
            canvas.text((x + at, y), words, LETTER, anchor="end", weight=weight, css="label")


def _describe(sizes: Sequence[tuple[str, Piece]]) -> str:
    parts = []
    for size, piece in sizes:
        left, low, right, high = bounds((piece.shape.ring(),))
        parts.append(f"{size}: {mm_text(right - left)} by {mm_text(high - low)} mm")
    return "; ".join(parts) + "."
