"""A kit's pieces and a material's sheets in → polygons to nest and sheets to nest them on (mm)."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from math import atan2, ceil, cos, degrees, hypot, radians, sin

from guidegen.buildfile.records.materials import Material, SheetSize
from guidegen.geometry.outline.areas import convex_hull, polygon_area, swollen_area
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Point, Shape
from guidegen.geometry.pieces.records import Piece
from guidegen.layout.records import Placed
from guidegen.units import mm_text
from guidegen.words import SPACE

TRUE_OUTLINE = 0.005
"""mm; how far the polygons that plans are checked with may leave the true curves. Our choice: two
of them stay within the 0.01 mm that a check forgives."""

SAME_ANGLE = 1e-6
"""degrees; angles nearer than this are the same."""

LONG_EDGES = 16
"""Edges of a hull that a box is tried along. Our choice: the short ones belong to curves."""

KEPT = 256
"""Pieces that are kept with their hulls and boxes: plans and other packs ask for the same ones.
Our choice: those of a large guide in five sizes."""

type NestRing = tuple[Point, ...]


@dataclass(frozen=True)
class NestPiece:
    """One piece to nest, as polygons."""

    key: str
    name: str
    """For readers."""
    part: str
    copies: int
    outline: NestRing
    """Counter-clockwise, first point not repeated."""
    holes: tuple[NestRing, ...] = ()

    def __hash__(self) -> int:
        """By few of its points: to go through thousands would cost more than what is kept."""
        return hash((self.key, self.copies, len(self.outline), self.outline[:1]))

    @cached_property
    def area(self) -> float:
        """mm² of one copy."""
        return polygon_area(self.outline, self.holes)

    @cached_property
    def hull(self) -> list[Point]:
        """Corners of the convex hull, counter-clockwise."""
        return convex_hull(self.outline)

    @cached_property
    def edge_angles(self) -> tuple[float, ...]:
        """degrees, 0 to under 90: turns that lay a long edge of the hull level or upright."""
        edges = sorted(
            # Modulo 90, since a box lies along an edge or across it; once more after rounding, as
            # 89.9999999 becomes 90, which is 0.
            (-hypot(x1 - x0, y1 - y0), round(-degrees(atan2(y1 - y0, x1 - x0)) % 90, 6) % 90)
            for (x0, y0), (x1, y1) in zip(self.hull, [*self.hull[1:], *self.hull[:1]], strict=True)
        )
        return tuple(sorted({angle for _, angle in edges[:LONG_EDGES]}))

    def box(self, angle: float, *, flipped: bool = False) -> tuple[float, float, float, float]:
        """Left, bottom, right and top of the piece turned about its own origin."""
        # Rows, bounds and checks ask for the same few angles again for every copy.
        known = self._boxes.get((angle, flipped))
        if known is not None:
            return known
        points = turn_all(self.hull, angle, flipped=flipped)
        xs, ys = [x for x, _ in points], [y for _, y in points]
        found = (min(xs), min(ys), max(xs), max(ys))
        self._boxes[angle, flipped] = found
        return found

    @cached_property
    def _boxes(self) -> dict[tuple[float, bool], tuple[float, float, float, float]]:
        """Boxes that were asked for before."""
        return {}

    def rings_at(self, placed: Placed) -> tuple[NestRing, tuple[NestRing, ...]]:
        """Outline and holes where they lie on the sheet."""

        def move(ring: NestRing) -> NestRing:
            turned = turn_all(ring, placed.angle, flipped=placed.flipped)
            return tuple((x + placed.x, y + placed.y) for x, y in turned)

        return move(self.outline), tuple(move(hole) for hole in self.holes)


@dataclass(frozen=True, slots=True)
class SheetType:
    """One size of sheet that pieces may be cut from."""

    name: str
    width: float
    height: float
    """mm, usable; the rim that is kept free lies within."""
    pack_price: float
    """Of one pack."""
    pack: int = 1
    """Sheets in one pack."""
    available: int | None = None
    """How many there are, such as offcuts at hand; None for as many as one buys."""

    @property
    def price(self) -> float:
        """Of one sheet: its share of a pack."""
        return self.pack_price / self.pack

    def cost(self, count: int) -> float:
        """Of `count` sheets: of the packs that one has to buy for them."""
        return ceil(count / self.pack) * self.pack_price


@dataclass(frozen=True, slots=True)
class Cutting:
    """How pieces may lie on the sheets of one material."""

    spacing: float
    """mm between two pieces."""
    rim: float
    """mm kept free along the rim of a sheet."""
    rotation: str
    """any, quarter, half or none."""
    flips: bool
    """True where pieces may be turned over."""

    def room(self, sheet: SheetType) -> tuple[float, float]:
        """Width and height in mm within the rims of a sheet."""
        return (sheet.width - 2 * self.rim, sheet.height - 2 * self.rim)

    def allows(self, angle: float, *, flipped: bool) -> bool:
        """True where a piece may lie turned by `angle` degrees."""
        if flipped and not self.flips:
            return False
        if self.rotation == "any":
            return True
        step = {"quarter": 90.0, "half": 180.0, "none": 360.0}[self.rotation]
        # The distance to the nearest allowed turn: shifted by half a step, so that 359.9999999
        # counts as near to 0.
        return abs((angle + step / 2) % step - step / 2) <= SAME_ANGLE


def turn(point: Point, angle: float, *, flipped: bool = False) -> Point:
    """A point mirrored across the y axis if `flipped`, then turned about the origin (degrees)."""
    return turn_all((point,), angle, flipped=flipped)[0]


def turn_all(points: Iterable[Point], angle: float, *, flipped: bool = False) -> list[Point]:
    """Points mirrored across the y axis if `flipped`, then turned about the origin (degrees)."""
    quarter, rest = divmod(angle % 360, 90)
    if rest == 0:
        # Quarter turns are exact, so that a piece as wide as the sheet still fits.
        c, s = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    else:
        c, s = cos(radians(angle)), sin(radians(angle))
    side = -1.0 if flipped else 1.0
    return [(side * x * c - y * s, side * x * s + y * c) for x, y in points]


def nest_pieces(pieces: Iterable[Piece], material: str) -> tuple[NestPiece, ...]:
    """The pieces of a kit that are cut from `material`, in the kit's order."""
    return tuple(
        _nest_piece(piece.key, piece.name, piece.part, piece.copies, piece.shape)
        for piece in pieces
        if piece.material == material and piece.copies > 0
    )


@lru_cache(maxsize=KEPT)
def _nest_piece(key: str, name: str, part: str, copies: int, shape: Shape) -> NestPiece:
    return NestPiece(
        key,
        name,
        part,
        copies,
        _ring(flatten(shape.ring(), TRUE_OUTLINE), clockwise=False),
        tuple(_ring(flatten(hole, TRUE_OUTLINE), clockwise=True) for hole in shape.holes),
    )


def sheet_types(material: Material) -> tuple[SheetType, ...]:
    """The sizes in which a material is sold; of a roll, the longest piece that is cut off it."""
    return tuple(_sheet_type(size) for size in material.sheets)


def _sheet_type(size: SheetSize) -> SheetType:
    width, height = size.usable()
    if roll_step(size):
        return roll_length(size, height)
    return SheetType(size.name, width, height, size.price or 0.0, size.pack)


def roll_step(size: SheetSize) -> float:
    """mm of which any multiple is cut off a roll; 0 for a sheet."""
    return size.by.value({}) if size.by is not None else 0.0


def roll_length(size: SheetSize, length: float) -> SheetType:
    """So many mm off a roll, as a sheet: its name says how long it is."""
    price = round((size.price or 0.0) * length / roll_step(size), 6)
    return SheetType(roll_name(size.name, length), size.usable()[0], length, price)


def roll_name(name: str, length: float) -> str:
    """'off the roll, 700 mm'."""
    return f"{name}, {mm_text(length)}{SPACE}mm"


def cutting_of(material: Material) -> Cutting:
    """How pieces may lie on the sheets of a material."""
    return Cutting(
        material.spacing.value({}),
        material.rim.value({}),
        material.rotation,
        material.good_faces == 2,
    )


def snug_angles(piece: NestPiece, cutting: Cutting) -> list[float]:
    """Turns in degrees worth trying for a bounding box: quarter turns, and along a hull's edge.

    The smallest box around a convex polygon has a side along one of its edges (Freeman and
    Shapira, 1975).
    """
    if cutting.rotation in ("none", "half"):
        return [0.0]
    angles = [0.0, 90.0]
    if cutting.rotation == "any":
        best = min(
            (round(_box_area(piece, angle), 3), angle) for angle in [0.0, *hull_angles(piece)]
        )[1]
        # And upright as well: which of both fits a row is not known yet.
        if best > SAME_ANGLE:
            angles += [best, best + 90]
    return angles


def hull_angles(piece: NestPiece) -> list[float]:
    """Turns in degrees, 0 to under 90, that lay a long edge of the convex hull level or upright."""
    return [*piece.edge_angles]


def swollen_piece_area(piece: NestPiece, spacing: float) -> float:
    """mm² that a copy takes when every piece brings half of the spacing with it."""
    return swollen_area(piece.outline, piece.holes, spacing / 2)


def total_copies(pieces: Sequence[NestPiece]) -> int:
    """How many copies there are of all pieces together."""
    return sum(piece.copies for piece in pieces)


def _box_area(piece: NestPiece, angle: float) -> float:
    left, bottom, right, top = piece.box(angle)
    return (right - left) * (top - bottom)


def _ring(points: Sequence[Point], *, clockwise: bool) -> NestRing:
    """A ring without doubled points, in the wanted direction."""
    kept: list[Point] = []
    for point in points:
        if not kept or abs(point[0] - kept[-1][0]) + abs(point[1] - kept[-1][1]) > 1e-9:
            kept.append(point)
    while len(kept) > 1 and abs(kept[0][0] - kept[-1][0]) + abs(kept[0][1] - kept[-1][1]) <= 1e-9:
        kept.pop()
    twice_area = sum(
        x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(kept, [*kept[1:], *kept[:1]], strict=True)
    )
    return tuple(kept if (twice_area < 0) == clockwise else reversed(kept))
