"""Lines on a template in → words beside them: what each is for, where there is room."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import product
from math import atan2, cos, degrees, hypot, radians, sin

from guidegen.geometry.outline.distances import distance_to_line
from guidegen.geometry.outline.measures import flatten, segment_point, tangent
from guidegen.geometry.outline.records import Line, LineKind, Point, Run, Shape
from guidegen.geometry.pieces.records import Piece
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.label_fields import CELL, CLEAR, LabelField, middle_of
from guidegen.pictures.pen.linestyles import INNER
from guidegen.pictures.pieces.seam_words import bevel_words
from guidegen.pictures.templates.lines import TICK
from guidegen.pictures.templates.notes import LEAST, KeyNote, NoteBlock, WordLine, turned_box
from guidegen.pictures.templates.symbols import AnySymbol, GrooveSymbol, Symbol
from guidegen.words import Words as Language

SHARES = (0.5, 0.38, 0.62, 0.26, 0.74, 0.14, 0.86)
"""Where along a line words are tried, in this order."""

TAG_TRIES = 40
"""Places along an outline where the name of a size is tried."""

AIR = 0.1
"""mm kept free around words along a line."""

OFFS = (1.3, 2.0, 2.7)
"""mm between a line and the words along it, the nearest first: cells round lines up."""


SAME = 0.1
"""mm by which a rim may lie beside half a mouth from its middle line: lines are flattened."""

STEP = 0.6
"""mm between the points at which a leader is tested."""

AT_TIP = 1.5 * CELL + CLEAR
"""mm at the end of a leader that lie in the cells of the line to which it leads."""


@dataclass(frozen=True, slots=True)
class LineWords:
    """Words that belong to a line."""

    run: Run
    """In the template's own place."""
    block: NoteBlock
    inside: bool = False
    """True where the words stand in the area that the line goes round."""
    must: bool = True
    """False where they may be left out."""
    outer: Run = ()
    """The edge of the template that the words are about, where it is one."""


def line_words(
    piece: Piece, lang: Language, letters: Mapping[str, str] | None = None
) -> Iterator[LineWords]:
    """The words of a template's lines, the most needed first; `letters` names seams by id."""
    shape = piece.template
    # In the order of need: what is told first finds room first.
    for bevel in shape.bevels:
        words = bevel_words(bevel, lang)
        yield LineWords(
            bevel.far_face,
            NoteBlock(
                (WordLine(words, LEAST, 600),), Symbol(bevel.angle, bevel.direction == "inward")
            ),
            outer=shape.edge(bevel.edge).run,
        )
    if piece.fold:
        middle = shape.edge(piece.fold).run
        words = lang.say("centre line: flip the template here")
        yield LineWords(middle, _block(words), outer=middle)
    # Groove lines were made from the grooves in their order (geometry/pieces/pieces.py).
    grooves = iter(piece.grooves)
    for line in shape.lines:
        if line.kind is LineKind.RIM:
            continue  # told with the middle line
        if line.kind is LineKind.LETTER and not line.label:
            continue  # told at the first letter of its words
        run = line.run
        word, symbol = lang.say(INNER[line.kind].word), None
        if line.kind is LineKind.GROOVE:
            cut = next(grooves, None)
            if cut:
                word = lang.say(
                    "groove on the back, {depth} mm deep, {mouth} mm wide, {angle}°",
                    depth=lang.number(cut.depth, 1),
                    mouth=lang.number(cut.mouth, 1),
                    angle=lang.number(cut.fold, 1),
                )
                symbol = GrooveSymbol(cut.fold, cut.depth / (cut.depth + cut.floor))
                # Between rims there is hardly ever room for words: they stand outside of one.
                run = _rim(shape, line.run, cut.mouth) or run
        words = f"{word}: {line.label}" if line.label and line.label != word else word
        yield LineWords(run, _block(words, symbol), inside=line.kind is LineKind.TEXTURE)
    for mark in shape.marks:
        (x, y), (dx, dy) = mark.point, mark.inward
        start = (x + dx * TICK, y + dy * TICK)
        run = (Line(start, (start[0] + dx, start[1] + dy)),)
        yield LineWords(run, _block((letters or {}).get(mark.seam, mark.seam)), must=False)


def _rim(shape: Shape, middle: Run, mouth: float) -> Run | None:
    """The first rim of the groove with this middle line on a template."""
    line = flatten(middle)
    for one in shape.lines:
        if one.kind is LineKind.RIM and one.run:
            off = distance_to_line(line, segment_point(one.run[0], 0.5))
            if abs(off - mouth / 2) < SAME:
                return one.run
    return None


def _block(words: str, symbol: AnySymbol | None = None) -> NoteBlock:
    return NoteBlock((WordLine(words, LEAST),), symbol)


def place_line_words(
    field: LabelField, area: Sequence[int], frame: Frame, words: LineWords
) -> KeyNote | None:
    """Words along a line on a page, or beside it with a leader; None where there is no room.

    `frame` takes the template to the window of the page; `area` holds its cells there.
    """
    run = frame.run(words.run)
    if words.inside:
        return _inside_ring(field, area, run, words.block)
    if not words.must:
        return _at_tick(field, area, run, words.block)
    along = place_along(field, area, run, words.block, SHARES)
    return along or _with_leader(field, area, run, words.block)


def place_along(
    field: LabelField, area: Sequence[int], run: Run, block: NoteBlock, shares: Sequence[float]
) -> KeyNote | None:
    """Words on either side along a line, within cells; None where there is no room."""
    wide, tall = block.width, block.height
    for share in shares:
        point, angle = point_along(run, share)
        if not (0 < point[0] < field.width and 0 < point[1] < field.height):
            continue
        turn = radians(angle + 90)
        # Both sides at one distance before the next: words nearer to another line would be taken
        # for its.
        for off, side in product(OFFS, (1.0, -1.0)):
            away = side * (tall / 2 + off)
            centre = (point[0] + away * cos(turn), point[1] + away * sin(turn))
            if field.is_free(turned_box(centre, wide + 2 * AIR, tall + 2 * AIR, angle), area):
                return KeyNote(block, centre, angle)
    return None


def place_tag(field: LabelField, run: Run, name: str, first: float) -> KeyNote | None:
    """A size's name along an outline on a page, from a share of it on; None: no room.

    Where sizes lie too close for words between them, the name stands off with a leader.
    """
    block = NoteBlock((WordLine(name, LEAST, 700),))
    # Each size begins at its own share, so that names of neighbours do not stand side by side.
    spots = [point_along(run, (first + step / TAG_TRIES) % 1.0) for step in range(TAG_TRIES)]
    spots = [
        (point, angle)
        for point, angle in spots
        if 0 < point[0] < field.width and 0 < point[1] < field.height
    ]
    close = block.height / 2 + OFFS[0]
    # All places close to the line before any with a leader.
    for away in (close, *(close + 4 + 3 * step for step in range(9))):
        for point, angle in spots:
            turn = radians(angle + 90)
            for side in (1.0, -1.0):
                dx, dy = side * cos(turn), side * sin(turn)
                centre = (point[0] + away * dx, point[1] + away * dy)
                start = (centre[0] - dx * block.height / 2, centre[1] - dy * block.height / 2)
                leader = (start, point) if away > close else None
                note = KeyNote(block, centre, angle, leader)
                if field.is_free(note.ring(AIR)):
                    return note
    return None


def point_along(run: Run, share: float) -> tuple[Point, float]:
    """A point at a share of a run's segments, and the angle at which words read along it."""
    # A share of the segments, not of the length: nothing needs it exactly, and arcs cost nothing.
    place = share * len(run)
    index = min(int(place), len(run) - 1)
    point = segment_point(run[index], place - index)
    dx, dy = tangent(run[index], place - index)
    angle = degrees(atan2(dy, dx))
    if angle > 90 + 1e-6:
        angle -= 180
    elif angle <= -90 + 1e-6:
        angle += 180
    return point, angle


def _inside_ring(
    field: LabelField, area: Sequence[int], run: Run, block: NoteBlock
) -> KeyNote | None:
    probe = LabelField(field.width, field.height)
    cells = probe.add_area([flatten(run, 0.2)])
    # Of the texture only what this page shows, and what no neighbour covers.
    inner = [row & kept for row, kept in zip(cells, area, strict=True)]
    room, near = field.inside(inner), middle_of(inner)
    centre = room.nearest(block.width + 1, block.height + 1, near) if room and near else None
    return KeyNote(block, centre, backed=True) if centre else None


def _at_tick(field: LabelField, area: Sequence[int], run: Run, block: NoteBlock) -> KeyNote | None:
    """Level words at the inner end of a match mark."""
    (x, y) = segment_point(run[0], 0.0)
    dx, dy = tangent(run[0], 0.0)
    centre = (
        # Level words beside an upright tick stand above it, not aside: 0.35 is some 20 degrees.
        x + dx * (block.width / 2 + 1.2) if abs(dx) > 0.35 else x,
        y + dy * (block.height / 2 + 1.2),
    )
    note = KeyNote(block, centre)
    return note if field.is_free(note.ring(AIR), area) else None


def _with_leader(
    field: LabelField, area: Sequence[int], run: Run, block: NoteBlock
) -> KeyNote | None:
    """Level words in the template's clear space, with a leader to the line."""
    on_page = [
        point
        for share in (0.5, 0.3, 0.7, 0.1, 0.9)
        for point in [point_along(run, share)[0]]
        if 0 < point[0] < field.width and 0 < point[1] < field.height
    ]
    room = field.inside(area) if on_page else None
    if room is None:
        return None
    for near in on_page:
        centre = room.nearest(block.width + 1.6, block.height + 1.6, near)
        if centre is None:
            return None
        x, y = centre
        half_width, half_height = block.width / 2 + 0.8, block.height / 2 + 0.8
        # The nearest point first: a short leader crosses least. Farther ones only where it is
        # barred.
        for tip in sorted(on_page, key=lambda point: hypot(point[0] - x, point[1] - y)):
            start = (
                min(max(tip[0], x - half_width), x + half_width),
                min(max(tip[1], y - half_height), y + half_height),
            )
            if is_clear(field, area, start, tip):
                return KeyNote(block, centre, leader=(start, tip))
    return None


def is_clear(field: LabelField, area: Sequence[int], start: Point, tip: Point) -> bool:
    """Whether a leader stays within cells and crosses no line on its way to the tip."""
    long = hypot(tip[0] - start[0], tip[1] - start[1])
    for number in range(int(max(0.0, long - AT_TIP) / STEP) + 1):
        share = min(number * STEP / long, 1.0) if long else 0.0
        x = start[0] + share * (tip[0] - start[0])
        y = start[1] + share * (tip[1] - start[1])
        row, bit = int(y / CELL), 1 << int(x / CELL)
        if not area[row] & bit or field.ink[row] & bit:
            return False
    return True
