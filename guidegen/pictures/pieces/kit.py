"""Kit in → one drawing of all its pieces out, at one scale, for cover and overview."""

from collections.abc import Mapping

from guidegen.buildfile.read.content import ONE_SIZE
from guidegen.geometry.pieces.records import Kit
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.dimensions import scale_bar
from guidegen.pictures.pen.frames import frame_into
from guidegen.pictures.pen.hatches import fill_tint
from guidegen.pictures.pen.inner_lines import draw_inner_lines
from guidegen.pictures.pen.lettering import text_width
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import scale_words
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import NARROW, foam_tint
from guidegen.pictures.pieces.rows import (
    FINE_SCALE,
    LABEL,
    Cell,
    arrange,
    group_caption,
    group_parts,
)
from guidegen.words import Words

WIDTH = 160.0
"""mm."""
HEIGHT = 178.0
"""mm; of the whole drawing, so that it fits a cover."""
LEGEND = 4.2
"""mm; least size of words: 7.5 pt and more on a cover, where the drawing is made smaller."""
LINE = 6.0
"""mm from one line of the legend to the next."""
SIDE = 3.0
"""mm kept free at the left and right."""
RULER = 300.0
"""mm; length of the bar for scale: a common ruler."""


def draw_kit(
    kit: Kit,
    names: Mapping[str, str],
    *,
    height: float = HEIGHT,
    lang: Words,
) -> Drawing:
    """All parts of a kit, each once with its count, tinted by material, with a 300 mm ruler.

    `names` gives materials' names by id; `height` is the most in mm that the
    drawing takes.
    """
    groups = group_parts(kit.pieces)
    captions = {group[0].key: group_caption(group) for group in groups}
    shown = [group[0] for group in groups]
    materials = tuple(dict.fromkeys(piece.material for piece in kit.pieces))
    legend = _legend_lines(materials, names)
    foot = STRIP + 4 + LINE * len(legend) + 9
    # Never above half size: a kit of two small pieces would look like a large one.
    rows = arrange(shown, WIDTH - 2 * SIDE, height - foot - 4, least=2, captions=captions)
    total = sum(piece.copies for piece in kit.pieces)
    size = lang.say("one size") if kit.size == ONE_SIZE else lang.say("size {size}", size=kit.size)
    canvas = Canvas(
        WIDTH,
        rows.height + foot + 4,
        lang.say("All pieces of the kit, {size}", size=size),
        _describe(kit, rows.scale, total, lang),
        lang,
    )
    for cell in rows.cells:
        _draw_cell(canvas, cell, foot, rows.scale, materials)
    _draw_legend(canvas, legend, materials)
    scale_bar(canvas, SIDE + 1, foot - 7.5, rows.scale, RULER, size=LEGEND)
    spares = sum(piece.spares for piece in kit.pieces)
    count = lang.say("{pieces} pieces, {parts} parts", pieces=total - spares, parts=len(groups))
    if spares:
        count = lang.say(
            "{pieces} pieces and {spares} spare, {parts} parts",
            pieces=total - spares,
            spares=spares,
            parts=len(groups),
        )
    title_strip(canvas, size, count, rows.scale, size=LEGEND)
    return canvas.drawing()


def _draw_cell(
    canvas: Canvas, cell: Cell, foot: float, scale: float, materials: tuple[str, ...]
) -> None:
    piece = cell.piece
    room = (cell.x + SIDE, cell.y + foot, cell.width, cell.height)
    frame = frame_into((piece.shape.ring(),), scale, room)
    rings = frame.runs((piece.shape.ring(), *piece.shape.holes))
    with canvas.group(css=f"piece piece-{piece.key}", title=f"{piece.label}, {piece.name}"):
        fill_tint(canvas, rings, foam_tint(materials, piece.material))
        if scale > FINE_SCALE:
            draw_inner_lines(canvas, piece.shape, frame)
        canvas.path(rings, Stroke(0.35), css="ink", closed=True)
        canvas.text(
            (room[0] + cell.width / 2, room[1] - 5),
            cell.words,
            LABEL,
            anchor="middle",
            weight=600,
            css="label strong",
        )


def _legend_lines(
    materials: tuple[str, ...], names: Mapping[str, str]
) -> list[list[tuple[str, str]]]:
    """Materials and their words, broken into lines."""
    lines: list[list[tuple[str, str]]] = []
    # As full: the first material begins a line.
    used = WIDTH
    for material in materials:
        words = names.get(material, material)
        width = 8 + text_width(words, LEGEND) + 6
        if used + width > WIDTH - 2 * SIDE:
            lines.append([])
            used = 0.0
        lines[-1].append((material, words))
        used += width
    return lines


def _draw_legend(
    canvas: Canvas, lines: list[list[tuple[str, str]]], materials: tuple[str, ...]
) -> None:
    for number, line in enumerate(lines):
        x, y = SIDE, STRIP + 1.5 + LINE * (len(lines) - 1 - number)
        for material, words in line:
            tint = foam_tint(materials, material)
            canvas.rectangle(x, y, 6, 4.2, NARROW, fill=tint.fill, css=f"{tint.css} thin")
            canvas.text((x + 8, y + 0.6), words, LEGEND, css="label")
            x += 8 + text_width(words, LEGEND) + 6


def _describe(kit: Kit, scale: float, total: int, lang: Words) -> str:
    listed = ", ".join(
        f"{piece.label} {piece.name}, {lang.number(piece.thickness, 1)} mm"
        + (f", {lang.many('{n} time', '{n} times', piece.copies)}" if piece.copies > 1 else "")
        for piece in kit.pieces
    )
    return lang.say(
        "{pieces} pieces drawn {scale} beside a 300 mm ruler: {list}.",
        pieces=total,
        scale=scale_words(scale, lang),
        list=listed,
    )
