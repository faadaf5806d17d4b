"""Pieces in → templates to draw out: each once, with its cells at any angle."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from math import ceil, cos, radians, sin

from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Line, Point, Run, Shape
from guidegen.geometry.pieces.records import Kit, Piece, Side
from guidegen.layout.paper.frame import CELL
from guidegen.layout.paper.raster import Mask, cover_lines, cover_rings

SPACE = 2.0
"""mm kept free around a template: half of the gap between two. Common practice, no source: room
for scissors."""

COARSE = 0.2
"""mm; tolerance of outlines for packing. Our choice: a tenth of the space around them."""

TINY = 40.0
"""mm; pieces up to this size are drawn several times over, to trace several at once."""

ARRAY_MOST = 12
"""Templates in one array. Our choice: a block that a hand can hold flat."""

ARRAY_WIDTH = 140.0
"""mm; widest array."""

NARROW = 30.0
"""mm; a piece less wide than this gets room for its label beside it."""

LABEL_ROOM = (44.0, 15.0)
"""mm; width and height of that room: three lines of lettering."""

type Lines = tuple[tuple[Point, ...], ...]


@dataclass(frozen=True, slots=True)
class Turned:
    """A template at one angle, on cells."""

    angle: float
    """degrees, counter-clockwise."""
    mask: Mask
    """Cells of its area, with space around."""
    ink: tuple[int, ...]
    """Cells of its lines, in the same frame."""
    left: float
    bottom: float
    """mm; where the mask's lower left lies, seen from the template's origin after the turn."""


@dataclass
class PaperItem:
    """One template, or an array of the same, to place on paper."""

    piece: Piece
    serves: tuple[Piece, ...]
    flipped: bool
    offsets: tuple[Point, ...]
    """mm; where copies of the template lie before turning: one unless it is an array."""
    outline: tuple[Point, ...]
    holes: Lines
    lines: Lines
    """Everything else inside the outline."""
    room: Point | None
    """mm; room for a label below, whatever the angle; None where the label fits inside."""
    key: str = ""
    members: tuple["PaperItem", ...] = ()
    """The same template at several sizes, drawn over one another; empty for one size."""
    size: int = 0
    """Which of several sizes it is, from 0."""
    _turned: dict[float, Turned] = field(default_factory=dict, init=False)

    def turned(self, angle: float) -> Turned:
        """The cells at an angle in degrees."""
        if angle not in self._turned:
            self._turned[angle] = _turn(_members(self), self.room, angle)
        return self._turned[angle]

    def extent(self, angle: float) -> tuple[int, int]:
        """Width and height in cells at an angle in degrees, without covering any."""
        if angle in self._turned:
            mask = self._turned[angle].mask
            return (mask.width, mask.height)
        mask = _frame(_members(self), self.room, angle)[1].mask
        return (mask.width, mask.height)

    @property
    def area(self) -> int:
        """Cells covered, unturned."""
        return self.turned(0.0).mask.count


def collect_items(kit: Kit, *, both_sides: bool = False) -> list[PaperItem]:
    """The templates of a kit in its order: a pair once, as its left, unless `both_sides`."""
    items: list[PaperItem] = []
    done: set[tuple[str, int]] = set()
    for piece in kit.pieces:
        if (piece.part, piece.section) in done:
            continue
        done.add((piece.part, piece.section))
        same = (one for one in kit.pieces_of(piece.part) if one.section == piece.section)
        # The left one first, whatever the kit's order: its template is drawn, and the right's is
        # its back.
        hands = sorted(same, key=lambda one: one.side is Side.RIGHT)
        if both_sides or any(one.own for one in hands):
            items.extend(make_item(one, (one,)) for one in hands)
        else:
            items.append(make_item(hands[0], tuple(hands)))
    return items


def make_item(piece: Piece, serves: tuple[Piece, ...]) -> PaperItem:
    """One template, or an array of a tiny one."""
    flipped = piece.mirrored
    outline = _flattened([piece.template.ring()], flipped)[0]
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    copies = sum(one.copies for one in serves)
    offsets: tuple[Point, ...] = ((0.0, 0.0),)
    # A half on its fold cannot be traced in an array: it is flipped over at its own edge.
    if max(width, height) <= TINY and copies > 2 and not piece.fold:
        offsets = array_offsets(width, height, copies)
    narrow = min(width, height) < NARROW or len(offsets) > 1
    return PaperItem(
        piece=piece,
        serves=serves,
        flipped=flipped,
        offsets=offsets,
        outline=outline,
        holes=_flattened(piece.template.holes, flipped),
        lines=_inner_lines(piece.template, flipped),
        room=LABEL_ROOM if narrow else None,
        key=piece.key,
    )


def array_offsets(width: float, height: float, copies: int) -> tuple[Point, ...]:
    """Where the templates of an array lie: rows from the top, as even as can be."""
    across, up = width + 2 * SPACE, height + 2 * SPACE
    most = min(copies, ARRAY_MOST)
    columns = max(1, min(most, int(ARRAY_WIDTH // across)))
    # Rows from the widest row that fits, then columns again from the rows: as even as can be, so
    # that the last row is not nearly empty.
    rows = -(-most // columns)
    columns = -(-most // rows)
    return tuple((across * (number % columns), -up * (number // columns)) for number in range(most))


def _inner_lines(shape: Shape, flipped: bool) -> Lines:
    runs = [line.run for line in shape.lines]
    runs += [bevel.far_face for bevel in shape.bevels]
    for mark in shape.marks:
        (x, y), (dx, dy) = mark.point, mark.inward
        # mm; a match mark's tick with its letter, kept free of labels like any other line.
        runs.append((Line((x, y), (x + dx * 8, y + dy * 8)),))
    return _flattened(runs, flipped)


def _flattened(runs: Iterable[Run], flipped: bool) -> Lines:
    lines = [flatten(run, COARSE) for run in runs if run]
    sign = -1 if flipped else 1
    return tuple(tuple((sign * x, y) for x, y in points) for points in lines)


@dataclass(frozen=True, slots=True)
class _Drawn:
    """What is drawn of one template, whatever piece it is of."""

    offsets: tuple[Point, ...]
    outline: tuple[Point, ...]
    holes: Lines
    lines: Lines


@dataclass(frozen=True, slots=True)
class _Laid:
    """A template turned: its outlines with the holes of each, and all lines inside."""

    rings: list[tuple[list[Point], list[list[Point]]]]
    lines: list[list[Point]]


def _drawn(item: PaperItem) -> _Drawn:
    return _Drawn(item.offsets, item.outline, item.holes, item.lines)


def _lay(item: _Drawn, angle: float) -> _Laid:
    c, s = cos(radians(angle)), sin(radians(angle))

    def moved(points: Sequence[Point], offset: Point) -> list[Point]:
        dx, dy = offset
        return [((x + dx) * c - (y + dy) * s, (x + dx) * s + (y + dy) * c) for x, y in points]

    return _Laid(
        [
            (moved(item.outline, offset), [moved(hole, offset) for hole in item.holes])
            for offset in item.offsets
        ],
        [moved(line, offset) for offset in item.offsets for line in item.lines],
    )


def _members(item: PaperItem) -> tuple[_Drawn, ...]:
    return tuple(_drawn(member) for member in item.members or (item,))


@lru_cache(maxsize=1024)
def _turn(parts: tuple[_Drawn, ...], room: Point | None, angle: float) -> Turned:
    """Kept, since the same templates are laid out for each paper, and by shape, not by item."""
    return _on_cells(*_frame(parts, room, angle))


def _frame(drawn: Sequence[_Drawn], room: Point | None, angle: float) -> tuple[list[_Laid], Turned]:
    """All that is drawn of an item, and the frame around it, whose cells are still free."""
    parts = [_lay(one, angle) for one in drawn]
    rings = [ring for part in parts for ring, _ in part.rings]
    area = [*rings, _room_below(rings, room)] if room else rings
    left = min(x for ring in area for x, _ in ring) - SPACE
    bottom = min(y for ring in area for _, y in ring) - SPACE
    # A hair less than the exact number: a shape of 20 cells must not take 21 by rounding.
    width = ceil((max(x for ring in area for x, _ in ring) + SPACE - left) / CELL - 1e-6)
    height = ceil((max(y for ring in area for _, y in ring) + SPACE - bottom) / CELL - 1e-6)
    if room:
        parts.append(_Laid([(area[-1], [])], []))
    return parts, Turned(angle, Mask(width, (0,) * height), (), left, bottom)


def turn_within(item: PaperItem, frame: Turned) -> Turned:
    """The cells of one member of a nest, in the frame of the whole nest."""
    return _on_cells([_lay(_drawn(item), frame.angle)], frame)


def _on_cells(parts: Sequence[_Laid], frame: Turned) -> Turned:
    width, height = frame.mask.width, frame.mask.height

    def shifted(points: Sequence[Point]) -> list[Point]:
        return [(x - frame.left, y - frame.bottom) for x, y in points]

    rows = [0] * height
    lines: list[list[Point]] = []
    for part in parts:
        lines += [shifted(line) for line in part.lines]
        for ring, holes in part.rings:
            # One by one: rings that overlap would cancel out under the even-odd rule. A hole is
            # free paper: what is small enough is laid into it.
            own = [shifted(ring), *(shifted(hole) for hole in holes)]
            covered = cover_rings(own, CELL, SPACE, width, height)
            rows = [row | more for row, more in zip(rows, covered, strict=True)]
            lines += own
    ink = cover_lines(lines, CELL, SPACE, width, height)
    return Turned(frame.angle, Mask(width, tuple(rows)), tuple(ink), frame.left, frame.bottom)


def _room_below(rings: list[list[Point]], room: Point) -> list[Point]:
    left = min(x for ring in rings for x, _ in ring)
    right = max(x for ring in rings for x, _ in ring)
    top = min(y for ring in rings for _, y in ring) - SPACE
    wide = max(room[0], min(right - left, room[0] * 2))
    middle = max((left + right) / 2, left + wide / 2)
    return [
        (middle - wide / 2, top - room[1]),
        (middle + wide / 2, top - room[1]),
        (middle + wide / 2, top),
        (middle - wide / 2, top),
    ]
