"""Blocks of the key pages: how to print, how to join, line types, the table of templates."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from guidegen.geometry.measures import bounds
from guidegen.geometry.records import Line, LineKind, Piece, Point, Run
from guidegen.layout.records import Drawn, TemplateSet
from guidegen.pictures.canvas import Canvas, Stroke
from guidegen.pictures.frames import Frame, polyline
from guidegen.pictures.hatches import hatch_lines
from guidegen.pictures.lettering import CAP_HEIGHT, shorten, wrap
from guidegen.pictures.linestyles import (
    CHECK,
    CREASE,
    CUT,
    FAR_FACE,
    FINE,
    HATCH,
    INNER,
    MARK,
    NEAR_FACE,
    TRIM,
    LineStyle,
)
from guidegen.pictures.page_map import number_ranges
from guidegen.pictures.template_joints import FIGURES
from guidegen.pictures.template_lines import cut_runs
from guidegen.pictures.template_words import cut_words, foam_words, label_text
from guidegen.pictures.tints import SOFT
from guidegen.units import mm_text

BODY = 3.9
"""mm; letter size of the key's sentences."""

LEADING = 1.3

ROW = 13.0
"""mm; height of a row of the table of templates."""


def paragraph(
    canvas: Canvas,
    corner: Point,
    width: float,
    words: str,
    *,
    size: float = BODY,
    weight: int = 400,
) -> float:
    """Words from their upper left corner, broken to a width; returns y below them."""
    x, y = corner
    for line in wrap(words, width, size, weight):
        y -= size * LEADING
        canvas.text((x, y + size * (LEADING - CAP_HEIGHT) / 2), line, size, weight=weight)
    return y


def heading(canvas: Canvas, corner: Point, width: float, words: str) -> float:
    """A heading with a rule above it; returns y below."""
    x, y = corner
    canvas.line((x, y), (x + width, y), Stroke(0.5))
    canvas.text((x, y - 5.2), words, 5.2, weight=700)
    return y - 7.5


def print_words() -> Iterator[str]:
    """How to print, in steps."""
    yield "1  Print these pages at 100 % (“actual size”). Turn “fit to page” and “shrink” off."
    yield (
        "2  Measure one of the two squares on every page, both ways: 50 mm with a metric ruler, "
        "2 in with an inch ruler. Is a side off by more than half a millimetre (1/64 in)? "
        "Do not use that page. Print it again."
    )
    yield "3  Keep these pages with the booklet of the same version."


def join_words() -> Iterator[str]:
    """How to join pages, in steps."""
    yield (
        "1  A sheet of several pages has rows A, B, C … from the top and columns 1, 2, 3 … from "
        "the left. Lay the pages out as on the page map."
    )
    yield (
        "2  Leave the page at the upper left whole. Cut the other pages along the dashed line at "
        "their left and upper edge, where it says so."
    )
    yield (
        "3  Lay a cut page on its neighbour so that the half figures make whole ones. Each figure "
        "fits its own joint only, and names the page that it belongs to. Tape or glue."
    )
    yield "4  Measure the check line over all pages. It must have the length that is written at it."


def trace_words() -> Iterator[str]:
    """How to use a template."""
    yield (
        "“As drawn”: lay the template on the foam with its words up, and trace. “Flipped”: turn "
        "it over, words down, and trace. Copy every tick and line, and write the code on the foam."
    )
    yield (
        "The words are on the outer face: what you see is what the finished piece shows. "
        "Cut with a sharp blade, away from your hands. Read the cautions in the booklet first."
    )


def draw_join_picture(canvas: Canvas, corner: Point, width: float) -> None:
    """Two pages about to be joined; `corner` is the lower left, 34 mm high."""
    x, y = corner
    page, tall = width * 0.42, 30.0
    gap = width - 2 * page
    curve: Run = (
        Line((0.12, 0.2), (0.3, 0.75)),
        Line((0.3, 0.75), (1.7, 0.85)),
        Line((1.7, 0.85), (1.55, 0.15)),
    )
    for number, left in enumerate((x, x + page + gap)):
        canvas.rectangle(left, y, page, tall, FINE)
        line_x = left + page - 5 if number == 0 else left + 5
        canvas.line((line_x, y), (line_x, y + tall), TRIM.stroke)
        with canvas.clipped(left, y, page, tall, f"join-{number}"):
            start = left if number == 0 else left - page + 10
            shown = Frame(1.0, start, y)
            points = [
                shown.point((px * (page - 5), py * tall))
                for segment in curve
                if isinstance(segment, Line)
                for px, py in (segment.start, segment.end)
            ]
            canvas.path([polyline(points)], CUT.stroke)
        for at in (0.3, 0.62):
            side = -1.0 if number == 0 else 1.0
            _half(canvas, (line_x, y + tall * at), side)
        code, other = ("A1", "A2") if number == 0 else ("A2", "A1")
        canvas.text((left + page / 2, y + 2), code, 5, anchor="middle", weight=700)
        side = -2.4 if number == 0 else 2.4
        canvas.text((line_x + side, y + tall * 0.62 + 5.6), other, 3, anchor="middle", weight=700)
    canvas.text((x + page + gap / 2, y + tall / 2), "A2 goes on A1", 3, anchor="middle")
    low = y + tall / 2 - 2.4
    canvas.line((x + page + gap - 1.5, low), (x + page + 1.5, low), CHECK)
    tip = (x + page + 1.5, low)
    canvas.path([polyline([(tip[0] + 2, low + 0.8), tip, (tip[0] + 2, low - 0.8)])], CHECK)


def _half(canvas: Canvas, centre: Point, side: float) -> None:
    ring = FIGURES[0][1]
    points = [
        (centre[0] + px * 4 * side, centre[1] + py * 4)
        for px, py in ring[-12:] + ring[:13]
        if px >= -1e-9
    ]
    points.sort(key=lambda point: point[1])
    canvas.path([polyline(points)], Stroke(0.35))


@dataclass(frozen=True, slots=True)
class KeyEntry:
    """One line type in the key."""

    style: LineStyle
    sample: str = "line"
    """line, ticks, texture or bevel."""


def key_entries(pieces: Sequence[Piece], *, joints: bool) -> Iterator[KeyEntry]:
    """The line types that these templates use."""
    shapes = [piece.template for piece in pieces]
    kinds = {line.kind for shape in shapes for line in shape.lines}
    yield KeyEntry(CUT)
    if any(piece.fold for piece in pieces):
        yield KeyEntry(CREASE)
    for kind in LineKind:
        if kind in kinds and not (kind is LineKind.CENTRE and any(p.fold for p in pieces)):
            yield KeyEntry(INNER[kind], "texture" if kind is LineKind.TEXTURE else "line")
    bevels = {bevel.direction for shape in shapes for bevel in shape.bevels}
    if "inward" in bevels:
        yield KeyEntry(FAR_FACE, "bevel")
    if bevels - {"inward"}:
        yield KeyEntry(NEAR_FACE, "bevel")
    if any(shape.marks for shape in shapes):
        yield KeyEntry(MARK, "ticks")
    if joints:
        yield KeyEntry(TRIM)


def draw_key_entry(canvas: Canvas, corner: Point, width: float, entry: KeyEntry) -> float:
    """A sample and its meaning, from the upper left corner; returns y below."""
    x, y = corner
    wide = 24.0
    middle = y - 4.2
    style = entry.style
    match entry.sample:
        case "ticks":
            canvas.line((x, middle - 2), (x + wide, middle - 2), CUT.stroke)
            for shift in (-2.0, 0.0, 2.0):
                at = x + wide / 2 + shift
                canvas.line((at, middle - 2), (at, middle + 3), style.stroke)
        case "texture":
            box: Run = (
                Line((x, middle - 3), (x + wide, middle - 3)),
                Line((x + wide, middle - 3), (x + wide, middle + 3)),
                Line((x + wide, middle + 3), (x, middle + 3)),
                Line((x, middle + 3), (x, middle - 3)),
            )
            canvas.path(hatch_lines((box,), 45, 3.0), HATCH)
            canvas.path([box], style.stroke)
        case "bevel":
            canvas.line((x, middle + 2), (x + wide, middle + 2), CUT.stroke)
            canvas.line((x, middle - 1), (x + wide, middle - 1), style.stroke)
        case _:
            canvas.line((x, middle), (x + wide, middle), style.stroke)
    text_x = x + wide + 3
    below = paragraph(canvas, (text_x, y), width - wide - 3, style.meaning, size=3.6)
    return min(below, y - 8.4) - 1.2


@dataclass(frozen=True, slots=True)
class Column:
    """A column of the table of templates."""

    name: str
    width: float
    """mm; 0 takes what is left."""


COLUMNS = (
    Column("Code", 22),
    Column("Template", 0),
    Column("How", 30),
    Column("Cut", 46),
    Column("Foam", 40),
    Column("Pages", 24),
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
    """Column names; returns y below."""
    x, y = corner
    for column, (left, _) in zip(COLUMNS, column_places(width), strict=True):
        canvas.text((x + left, y - 3.6), column.name, 3.2, colour=SOFT)
    canvas.line((x, y - 5), (x + width, y - 5), FINE)
    return y - 5


def draw_table_row(
    canvas: Canvas,
    corner: Point,
    width: float,
    drawn: Drawn,
    pages: Sequence[int],
    materials: Mapping[str, str],
) -> float:
    """One template of the table; returns y below."""
    x, y = corner
    places = [(x + left, wide - 2) for left, wide in column_places(width)]
    piece = drawn.piece
    base = y - 6
    canvas.text(
        (places[0][0], base), shorten(label_text(drawn.serves), 20, 4.6, 700), 4.6, weight=700
    )
    left, wide = places[1]
    canvas.text((left, base), shorten(piece.name, wide, 4.2, 600), 4.2, weight=600)
    size = measure_words(piece)
    if size:
        canvas.text((left, base - 4.4), shorten(size, wide, 3.2), 3.2, colour=SOFT)
    _draw_how(canvas, (places[2][0], y - ROW + 1), (places[2][1], ROW - 2), drawn)
    lines = [cut_words(drawn.serves, flipped=drawn.flipped)]
    if piece.fold:
        lines.append("half: flip over the centre line")
    for number, line in enumerate(lines):
        canvas.text((places[3][0], base - 4.4 * number), shorten(line, places[3][1], 3.6), 3.6)
    for number, line in enumerate(wrap(foam_words(piece, materials), places[4][1], 3.6, most=2)):
        canvas.text((places[4][0], base - 4.4 * number), line, 3.6)
    for number, line in enumerate(wrap(number_ranges(pages), places[5][1] + 2, 3.6, 600, most=2)):
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
        shift = right if flipped else -left
        frame = Frame(scale, x + shift * scale, corner[1] - low * scale, flipped=flipped)
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


def served(templates: TemplateSet) -> list[Drawn]:
    """Each template once, in the order of its sheets."""
    seen: dict[str, Drawn] = {}
    for sheet in templates.sheets:
        for drawn in sheet.drawn:
            seen.setdefault(drawn.piece.key, drawn)
    return list(seen.values())
