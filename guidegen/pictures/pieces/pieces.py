"""Piece in → its drawing out: outline, edges, lines, marks, dimensions, at a stated scale."""

from math import ceil

from guidegen.geometry.outline.measures import (
    bounds,
    flatten,
    point_at_share,
    run_length,
)
from guidegen.geometry.outline.records import Edge, LineKind, Measure, Point
from guidegen.geometry.pieces.records import Piece
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.dimensions import dimension, leader
from guidegen.pictures.pen.frames import Frame, frame_into
from guidegen.pictures.pen.hatches import fill_tint, hatch_lines
from guidegen.pictures.pen.inner_lines import busy_lines, draw_inner_lines, draw_marks
from guidegen.pictures.pen.labels import write_label
from guidegen.pictures.pen.lettering import CAP_HEIGHT, shorten, text_width, wrap
from guidegen.pictures.pen.linestyles import inner_style
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import reduction, scale_words
from guidegen.pictures.pen.strips import write_scale
from guidegen.pictures.pen.tints import FINE, FOAM, PAPER, SOFT, WIDE, Tint
from guidegen.pictures.pieces.seam_words import bevel_words, edge_name, named_edges
from guidegen.units import mm_text
from guidegen.words import Words

WIDTH = 100.0
"""mm; narrow, so that lettering stays large where the drawing is set small."""
LEFT, RIGHT, TOP, BELOW = 22.0, 16.0, 6.5, 14.0
"""mm around the piece: dimensions at the left and below, edge names all round."""
MOST_HEIGHT = 40.0
"""mm; room for the piece itself."""
ROW = 5.2
"""mm from one note to the next."""
NOTE = 3.4
"""mm; letter size of notes."""
SCALE_ROOM = 26.0
"""mm at the right of the last row, for the scale."""
EDGE_SIZE = 3.2
"""mm; letter size of edge names."""
EDGE_ROW = 3.6
"""mm from one line of an edge's name to the next."""
UPRIGHT = 14.0
"""mm; how far the upright dimension stands to the left of the piece."""


def draw_piece(piece: Piece, prefix: str, *, tint: Tint = FOAM[0], lang: Words) -> Drawing:
    """One piece as it is cut: edges, holes, lines, marks, bevels, overall size, scale.

    Name, material, count and finished measures are left to the list that stands with it.
    """
    left, low, right, high = bounds((piece.shape.ring(),))
    width, height = right - left, high - low
    scale = reduction(width, height, WIDTH - LEFT - RIGHT, MOST_HEIGHT)
    notes = _notes(piece, lang)
    columns = _columns(notes)
    # Notes decide the height below the piece before the piece is placed.
    foot = ROW * _rows(notes, columns) + 1
    canvas = Canvas(
        WIDTH,
        foot + BELOW + height * scale + TOP,
        f"{piece.label}, {piece.name}",
        _describe(piece, (width, height, scale), lang),
        lang,
    )
    room = (LEFT, foot + BELOW, WIDTH - LEFT - RIGHT, height * scale)
    frame = frame_into((piece.shape.ring(),), scale, room)
    with canvas.group(css="piece", id=f"{prefix}-piece-{piece.key}"):
        _draw_face(canvas, piece, frame, tint)
        for edge in piece.shape.edges:
            _draw_edge_name(canvas, edge, piece, frame)
        for name, edge in named_edges(piece):
            with canvas.group(css="edge", data={"edge": name}):
                # Seen once a reader points at it.
                canvas.path((frame.run(edge.run),), None, css="edge-line")
    corner, far = frame.point((left, low)), frame.point((right, high))
    dimension(canvas, corner, (far[0], corner[1]), -12, width)
    dimension(canvas, corner, (corner[0], far[1]), UPRIGHT, height)
    _draw_notes(canvas, notes, columns)
    write_scale(canvas, scale, (WIDTH - 1, 1), size=NOTE, strong=NOTE)
    return canvas.drawing()


def _draw_face(canvas: Canvas, piece: Piece, frame: Frame, tint: Tint) -> None:
    """Foam, texture, lines, outline and label."""
    rings = frame.runs((piece.shape.ring(), *piece.shape.holes))
    fill_tint(canvas, rings, tint)
    for line in piece.shape.lines:
        if line.kind is LineKind.TEXTURE:
            canvas.path(hatch_lines((frame.run(line.run),), 45, 3), FINE, css="hatch")
    draw_inner_lines(canvas, piece.shape, frame, frozenset(LineKind))
    draw_marks(canvas, piece.shape, frame)
    canvas.path(rings, WIDE, css="ink", closed=True)
    flat = [flatten(ring, 0.1) for ring in rings]
    sizes = (9.0, 7.0, 5.0, 4.0)
    crossed = busy_lines(piece.shape, frame)
    # No room on the foam, as on a ring or a strip: a leader from outside.
    if not write_label(canvas, piece.label, flat, sizes, ground=tint, avoid=crossed):
        left, low, right, high = bounds(rings[:1])
        tip = ((left + right) / 2, high - min(1.0, (high - low) / 4))
        at = leader(canvas, tip, (right + 3, high + 3), length=2)
        canvas.text(
            (at[0], at[1] - 4 * CAP_HEIGHT / 2), piece.label, 4, weight=600, css="label strong"
        )


def _draw_edge_name(canvas: Canvas, edge: Edge, piece: Piece, frame: Frame) -> None:
    """The name of an edge outside its middle, where the edge is long enough to carry one."""
    # The other half of a part on the fold repeats each edge with a number behind its name.
    lang = canvas.lang
    words = edge_name(edge.name.removesuffix("-2"), lang)
    for bevel in piece.shape.bevels:
        if bevel.edge == edge.name:
            words += f": {bevel_words(bevel, lang)}"
    width = text_width(words, EDGE_SIZE)
    # mm; a name longer than its edge is still read with it, but not one over an edge of some mm.
    if run_length(edge.run) * frame.scale < min(width, 8.0) or edge.name == piece.fold:
        return
    point, (along_x, along_y) = point_at_share(edge.run, 0.5)
    x, y = frame.point(point)
    # The outline runs counter-clockwise: its right-hand side is outside.
    dx, dy = frame.vector((along_y, -along_x))
    # Above the piece the foot of the letters stands off it, below it their tops, beside it their
    # middle.
    level = y + dy * 2.4 - EDGE_SIZE * CAP_HEIGHT * (0.5 - dy / 2)
    anchor = "middle" if abs(dx) < 0.4 else ("start" if dx > 0 else "end")
    at = (x + dx * 2.0, level)
    # Beside the piece there is room up to the dimension line, or to the rim; above it, all of it.
    room = {"middle": WIDTH, "start": WIDTH - at[0] - 1, "end": UPRIGHT - 3.5}[anchor]
    lines = wrap(words, room, EDGE_SIZE, most=3)
    for number, line in enumerate(lines):
        high = at[1] + (len(lines) - 1) * EDGE_ROW / 2 - number * EDGE_ROW
        _write_edge_line(canvas, (at[0], high), line, anchor)


def _write_edge_line(canvas: Canvas, at: Point, words: str, anchor: str) -> None:
    """One line of an edge's name, on paper, so that lines below it stop before it."""
    width = text_width(words, EDGE_SIZE)
    left = at[0] - {"middle": width / 2, "start": 0.0, "end": width}[anchor]
    canvas.rectangle(left, at[1] - 0.4, width, 3, None, fill=PAPER, css="paper")
    canvas.text(at, words, EDGE_SIZE, anchor=anchor, colour=SOFT, css="label soft")


def measure_words(measure: Measure, lang: Words) -> str:
    """What a measure is, and how much."""
    value = f"{lang.number(measure.value, 1)}°" if measure.angle else f"{mm_text(measure.value)} mm"
    return f"{lang.say(measure.name)} {value}"


def _notes(piece: Piece, lang: Words) -> list[tuple[LineKind | None, str]]:
    """What stands below the drawing: kinds of line with their meaning, what dimensions show.

    Measures, bevels and grooves stand in the list beside it.
    """
    kinds = dict.fromkeys(line.kind for line in piece.shape.lines)
    notes: list[tuple[LineKind | None, str]] = [
        (kind, lang.say(inner_style(kind).word)) for kind in kinds
    ]
    if piece.allowed:
        cut = lang.say("Dimension lines show the piece as cut, with its allowances.")
        notes.insert(0, (None, cut))
    return notes


def _measure_lines(piece: Piece, lang: Words) -> list[str]:
    """'width 109 mm', or 'finished: width 109 mm' where the piece is cut larger."""
    lines = [measure_words(m, lang) for m in piece.measures]
    if not piece.allowed:
        return lines
    return [lang.say("finished: {measure}", measure=line) for line in lines]


def _note_width(kind: LineKind | None, words: str) -> float:
    return text_width(words, NOTE) + 17 * (kind is not None) + 1


def _columns(notes: list[tuple[LineKind | None, str]]) -> int:
    """Two columns where every note fits one beside the scale, else a single one."""
    widest = max((_note_width(*note) for note in notes), default=0.0)
    return 2 if widest <= (WIDTH - SCALE_ROOM) / 2 else 1


def _rows(notes: list[tuple[LineKind | None, str]], columns: int) -> int:
    """Rows that notes and scale take: the scale stands beside the last note where both fit."""
    if not notes:
        return 1
    beside = columns > 1 or _note_width(*notes[-1]) <= WIDTH - SCALE_ROOM
    return ceil(len(notes) / columns) + (0 if beside else 1)


def _draw_notes(canvas: Canvas, notes: list[tuple[LineKind | None, str]], columns: int) -> None:
    """Notes in columns, read downward in the first, then in the second."""
    rows = ceil(len(notes) / columns)
    top = ROW * (_rows(notes, columns) - 1) + 1
    wide = (WIDTH - SCALE_ROOM) / columns if columns > 1 else WIDTH
    for number, (kind, words) in enumerate(notes):
        column, row = divmod(number, rows)
        x, y = 1 + column * wide, top - row * ROW
        if kind is not None:
            sample = inner_style(kind).stroke
            canvas.line((x, y + 1.1), (x + 13, y + 1.1), sample, css=f"thin line-{kind}")
            x += 16
        room = (column + 1) * wide - x
        canvas.text((x, y), shorten(words, room, NOTE), NOTE, css="label")


def _describe(piece: Piece, sizes: tuple[float, float, float], lang: Words) -> str:
    """The text alternative with the real numbers; `sizes` are width, height and scale."""
    parts = [
        lang.say(
            "{piece}, {thick} mm thick, {width} mm wide and {height} mm high, drawn {scale}.",
            piece=piece.name,
            thick=lang.number(piece.thickness, 1),
            width=mm_text(sizes[0]),
            height=mm_text(sizes[1]),
            scale=scale_words(sizes[2], lang),
        )
    ]
    if piece.measures:
        listed = ", ".join(_measure_lines(piece, lang))
        parts.append(lang.say("Measures: {list}.", list=listed))
    parts += [lang.say("Texture: {words}", words=piece.texture)] if piece.texture else []
    parts += [piece.note] if piece.note else []
    edges = ", ".join(edge_name(edge.name, lang) for edge in piece.shape.edges)
    parts.append(lang.say("Edges: {list}.", list=edges))
    parts += [
        f"{edge_name(bevel.edge, lang)}: {bevel_words(bevel, lang)}."
        for bevel in piece.shape.bevels
    ]
    if piece.shape.holes:
        count = len(piece.shape.holes)
        parts.append(lang.many("One hole.", "{n} holes.", count))
    return " ".join(parts)
