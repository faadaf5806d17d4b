"""One part in all sizes → its outlines over one another: for checking grading by eye."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from guidegen.geometry.outline.measures import bounds, flatten, run_length
from guidegen.geometry.outline.records import LineKind, Point
from guidegen.geometry.pieces.records import Piece, Side
from guidegen.pictures.bodies.nested_places import NamePlace, alike, name_places, widest_ray
from guidegen.pictures.bodies.nested_table import TABLE, MeasureRow, draw_measures, table_height
from guidegen.pictures.pen.canvas import INK, Canvas, Stroke
from guidegen.pictures.pen.frames import Extent, Frame
from guidegen.pictures.pen.inner_lines import FOAM_LINES, draw_inner_lines
from guidegen.pictures.pen.lettering import CAP_HEIGHT, shorten, text_width
from guidegen.pictures.pen.linestyles import SIZE_CUTS
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import reduction
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import FINE, PAPER
from guidegen.words import Words

WIDTH = 180.0
MOST_HEIGHT = 120.0
"""mm; room for the outlines."""
EDGE = 4.0
AWAY = 5.0
"""mm by which leaders pass the outlines."""
NAME = 17.0
"""mm; the longest name."""
NAMES = AWAY + NAME + 2
"""mm kept beside the outlines for names of sizes."""
LETTER = 3.6
OUTLINE_TOLERANCE = 0.2
"""mm of foam; how far flattened outlines may be off where only places for names are looked for."""


@dataclass(frozen=True, slots=True)
class _Group:
    """Sizes whose outlines are one."""

    names: tuple[str, ...]
    piece: Piece
    stroke: Stroke
    base: bool
    lang: Words

    @property
    def words(self) -> str:
        """'M', 'S M', or 'XS to XL' for more than two."""
        if len(self.names) > 2:
            return self.lang.say("{first} to {last}", first=self.names[0], last=self.names[-1])
        return " ".join(self.names)

    @property
    def short(self) -> str:
        """The words, cut off where they are longer than a name may be."""
        return shorten(self.words, NAME, LETTER, 600)


@dataclass(frozen=True, slots=True)
class _Layout:
    """Where names stand about the piece's own origin, in mm on the drawing."""

    scale: float
    places: list[NamePlace]
    box: Extent
    """Around outlines and names."""
    beside: bool
    """Whether the table stands beside the outlines, or else below."""


def draw_nested(sizes: Sequence[tuple[str, Piece]], base: str, prefix: str, lang: Words) -> Drawing:
    """Outlines of all `sizes` at one scale, laid over one another at the piece's own origin.

    Sizes are told apart by their dashes, those of templates on which sizes lie nested, and by
    names at the place where they are farthest apart. The `base` size is drawn heavier and alone
    shows holes and inner lines. A table states width, height and length of the outline in mm,
    and what they grow by from size to size. Sizes whose outlines are one share a name and a row.
    """
    first = sizes[0][1]
    groups = _groups(sizes, base, lang)
    layout = _arrange(groups)
    title = lang.many("{piece} in {n} size", "{piece} in {n} sizes", len(sizes), piece=first.name)
    canvas, frame, corner = _place(layout, len(groups), title, sizes, lang)
    with canvas.group(css="nested", id=f"{prefix}-nested-{first.key}"):
        # The base last, on top of all others.
        for group in sorted(groups, key=lambda group: group.base):
            ring = frame.run(group.piece.shape.ring())
            canvas.path([ring], group.stroke, css="ink", closed=True)
        for size, piece in sizes:
            if size == base:
                _draw_inside(canvas, piece, frame)
        # No places at all where no ray meets every outline: dashes alone then tell sizes apart.
        for place, group in zip(layout.places, groups, strict=False):
            _draw_name(canvas, place, group, frame)
    draw_measures(canvas, [_row(group) for group in groups], corner)
    # Without the L or R at its end: both sides of a pair have the same outlines.
    label = first.label if first.side is Side.ANY else first.label[:-1]
    said = lang.say("{piece}: all sizes over one another", piece=first.name)
    title_strip(canvas, label, said, layout.scale)
    return canvas.drawing()


def _groups(sizes: Sequence[tuple[str, Piece]], base: str, lang: Words) -> list[_Group]:
    groups: list[_Group] = []
    outlines: list[list[Point]] = []
    for number, (size, piece) in enumerate(sizes):
        points = flatten(piece.shape.ring(), OUTLINE_TOLERANCE)
        heavy = size == base
        for place, group in enumerate(groups):
            # Drawn twice, one line would hide the dashes of the other.
            if alike(points, outlines[place]):
                both = replace(group, names=(*group.names, size), base=group.base or heavy)
                groups[place] = replace(both, stroke=_stroke(group.stroke, heavy=both.base))
                break
        else:
            outlines.append(points)
            # By the place among all sizes, not among outlines: dashes are then those of the
            # templates.
            plain = SIZE_CUTS[number % len(SIZE_CUTS)]
            groups.append(_Group((size,), piece, _stroke(plain, heavy=heavy), heavy, lang))
    return groups


def _stroke(plain: Stroke, *, heavy: bool) -> Stroke:
    return Stroke(0.7 if heavy else 0.25, plain.dash)


def _arrange(groups: Sequence[_Group]) -> _Layout:
    """Table beside or below, whichever lets the outlines be larger; names around them."""
    box = bounds(tuple(group.piece.shape.ring() for group in groups))
    across, up = box[2] - box[0], box[3] - box[1]
    room = WIDTH - 2 * EDGE - NAMES
    # The table stands beside where that costs the outlines nothing.
    beside = reduction(across, up, room - TABLE - EDGE, MOST_HEIGHT)
    scale = reduction(across, up, room, MOST_HEIGHT)
    frame = Frame(scale)
    rings = [frame.run(group.piece.shape.ring()) for group in groups]
    box = bounds(tuple(rings))
    base = next((ring for ring, group in zip(rings, groups, strict=True) if group.base), rings[0])
    left, low, right, high = bounds((base,))
    middle = ((left + right) / 2, (low + high) / 2)
    # From the middle of the base size: all outlines lie about the same origin.
    ray = widest_ray([flatten(ring, OUTLINE_TOLERANCE * scale) for ring in rings], middle)
    if ray is None:
        return _Layout(scale, [], box, beside == scale)
    widths = [text_width(group.short, LETTER, 600) for group in groups]
    places = name_places(ray, box, (max(widths) + 2, 4.6), AWAY)
    for place, width in zip(places, widths, strict=True):
        box = _widened(box, place, width)
    # Both scales come from one list of steps: equal ones are equal to the last bit.
    return _Layout(scale, places, box, beside == scale)


def _widened(box: Extent, place: NamePlace, width: float) -> Extent:
    """The box that holds a name as well."""
    x, y = place.end
    before = {"start": 0.0, "middle": width / 2, "end": width}[place.anchor] + 1.2
    after = {"start": width, "middle": width / 2, "end": 0.0}[place.anchor] + 1.2
    return (
        min(box[0], x - before),
        min(box[1], y - LETTER),
        max(box[2], x + after),
        max(box[3], y + LETTER),
    )


def _place(
    layout: _Layout, rows: int, title: str, sizes: Sequence[tuple[str, Piece]], lang: Words
) -> tuple[Canvas, Frame, Point]:
    """The empty drawing, where the outlines lie on it, and the table's upper left corner."""
    left, low, right, high = layout.box
    table, foot = table_height(rows), STRIP + EDGE
    if layout.beside:
        height = max(high - low, table)
        across = WIDTH - 3 * EDGE - TABLE
        y = foot + (height - low - high) / 2
        corner = (WIDTH - EDGE - TABLE, foot + height)
    else:
        height = high - low + EDGE + table
        across = WIDTH - 2 * EDGE
        y = foot + table + EDGE - low
        corner = (EDGE, foot + table)
    canvas = Canvas(WIDTH, foot + height + EDGE, title, _describe(sizes, lang), lang)
    return canvas, Frame(layout.scale, EDGE + (across - left - right) / 2, y), corner


def _draw_inside(canvas: Canvas, piece: Piece, frame: Frame) -> None:
    """Holes and inner lines."""
    holes = [frame.run(hole) for hole in piece.shape.holes]
    canvas.path(holes, Stroke(0.35), css="ink", closed=True)
    draw_inner_lines(canvas, piece.shape, frame, FOAM_LINES - {LineKind.TEXTURE})


def _draw_name(canvas: Canvas, place: NamePlace, group: _Group, frame: Frame) -> None:
    dot, (x, y) = ((point[0] + frame.x, point[1] + frame.y) for point in (place.dot, place.end))
    canvas.line(dot, (x, y), FINE, css="thin")
    canvas.circle(dot, 0.7, Stroke(0.18, colour=PAPER), fill=INK, css="dot")
    dx = {"start": 0.8, "middle": 0.0, "end": -0.8}[place.anchor]
    dy = {0: -LETTER * CAP_HEIGHT / 2, 1: 0.8, -1: -0.8 - LETTER * CAP_HEIGHT}[place.above]
    weight = 600 if group.base else 400
    at = (x + dx, y + dy)
    canvas.text(at, group.short, LETTER, anchor=place.anchor, weight=weight, css="label")


def _row(group: _Group) -> MeasureRow:
    ring = group.piece.shape.ring()
    left, low, right, high = bounds((ring,))
    return MeasureRow(
        group.words, group.stroke, group.base, right - left, high - low, run_length(ring)
    )


def _describe(sizes: Sequence[tuple[str, Piece]], lang: Words) -> str:
    parts = []
    for size, piece in sizes:
        left, low, right, high = bounds((piece.shape.ring(),))
        sides = {"width": lang.number(right - left), "height": lang.number(high - low)}
        parts.append(lang.say("{size}: {width} by {height} mm", size=size, **sides))
    return "; ".join(parts) + "."
