"""Pieces, materials and kits made by hand for tests of cut plans."""

from collections.abc import Sequence
from dataclasses import replace
from math import cos, radians, sin
from random import Random

from guidegen.buildfile.records.materials import Material, SheetSize
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.outline.records import Arc, Cubic, Edge, Line, Point, Run, Shape
from guidegen.geometry.pieces.records import Kit, Piece, Side
from guidegen.layout.nesting.pieces import Cutting, NestPiece, SheetType
from guidegen.layout.nesting.task import CutTask, cut_tasks

FREE = Cutting(spacing=0, rim=0, rotation="any", flips=False)


def polygon(points: Sequence[Point], holes: Sequence[Sequence[Point]] = ()) -> Shape:
    """A shape with straight edges; the outline counter-clockwise, holes clockwise."""

    def run(ring: Sequence[Point]) -> Run:
        return tuple(
            Line(start, end) for start, end in zip(ring, [*ring[1:], ring[0]], strict=True)
        )

    return Shape((Edge("rim", run(points)),), tuple(run(hole) for hole in holes))


def rectangle(width: float, height: float, x: float = 0, y: float = 0) -> Shape:
    """A rectangle with its lower left corner at (x, y)."""
    return polygon([(x, y), (x + width, y), (x + width, y + height), (x, y + height)])


def disc(radius: float, hole: float = 0) -> Shape:
    """A disc about the origin, or a ring with a hole of that radius."""
    holes = ((Arc((0, 0), hole, 0, -360),),) if hole else ()
    return Shape((Edge("rim", (Arc((0, 0), radius, 0, 360),)),), holes)


def fan(outer: float, inner: float, angle: float) -> Shape:
    """Part of a ring, as a tapered tube unrolls: radii in mm, angle in degrees."""
    start = 90 - angle / 2

    def at(radius: float, turn: float) -> Point:
        return (radius * cos(radians(turn)), radius * sin(radians(turn)))

    run = (
        Arc((0, 0), outer, start, angle),
        Line(at(outer, start + angle), at(inner, start + angle)),
        Arc((0, 0), inner, start + angle, -angle),
        Line(at(inner, start), at(outer, start)),
    )
    return Shape((Edge("rim", run),))


def shield(width: float, height: float) -> Shape:
    """A plate with a round lower end."""
    middle, low = width / 2, height / 2
    run = (
        Line((0, height), (0, low)),
        Cubic((0, low), (0, height * 0.2), (width * 0.3, 0), (middle, 0)),
        Cubic((middle, 0), (width * 0.7, 0), (width, height * 0.2), (width, low)),
        Line((width, low), (width, height)),
        Line((width, height), (0, height)),
    )
    return Shape((Edge("rim", run),))


def make_piece(name: str, shape: Shape, copies: int = 1, material: str = "foam") -> Piece:
    """A piece as the geometry stage would put it out."""
    return Piece(name, name.upper(), name.title(), Side.ANY, copies, 0, material, 10, shape, shape)


def make_kit(pieces: Sequence[Piece]) -> Kit:
    """A kit of these pieces alone."""
    return Kit("guide", "M", (), (), tuple(pieces), (), ())


def foam_kit(seed: int) -> Kit:
    """An invented kit of 36 pieces in 13 shapes: tubes, plates, strips, discs and a ring."""
    random = Random(seed)
    pieces = []
    for number in range(4):
        wide, slim = random.uniform(250, 420), random.uniform(180, 240)
        height = random.uniform(150, 300)
        turn = (wide - slim) / height
        angle = turn * 180 / 3.141592653589793
        pieces.append(make_piece(f"tube-{number}", fan(wide / turn, slim / turn, angle), 2))
    for number in range(3):
        plate = shield(random.uniform(100, 250), random.uniform(150, 300))
        pieces.append(make_piece(f"plate-{number}", plate, 2))
    for number in range(3):
        pieces.append(make_piece(f"strip-{number}", rectangle(random.uniform(200, 500), 30), 4))
    rounds = [make_piece("disc", disc(60), 2), make_piece("ring", disc(110, 80), 2)]
    return make_kit([*pieces, *rounds, make_piece("rivet", disc(20), 6)])


def sheet_material(*sizes: SheetSize, **settings: object) -> Material:
    """A sheet material; the sizes are in the order given."""
    settings = {"spacing": 3, "name": "Foam", **settings}
    return Material.model_validate({"kind": "sheet", "thickness": 10, "sheets": sizes, **settings})


MAT = SheetSize(name="mat", width=600, height=600, price=9)
CRAFT = SheetSize(name="craft sheet", width=300, height=400, price=3.5)
WIDE = SheetSize(name="wide sheet", width=1000, height=500, price=11)


def stock_of(material: Material) -> Stock:
    """A stock with one material, 'foam'."""
    return Stock(materials={"foam": material})


def task_of(pieces: Sequence[Piece], *sizes: SheetSize, **settings: object) -> CutTask:
    """What to nest for pieces of one material."""
    (task,) = cut_tasks(make_kit(pieces), stock_of(sheet_material(*sizes, **settings)))
    return task


def boxes(*sizes: tuple[float, float]) -> tuple[NestPiece, ...]:
    """Rectangles to nest, 'a', 'b', 'c' …"""
    return tuple(
        NestPiece(key, key, key, 1, ((0, 0), (width, 0), (width, height), (0, height)))
        for key, (width, height) in zip("abcdefghijklmnopqrstuvwxyz", sizes, strict=False)
    )


def sheet(width: float, height: float, price: float = 1, **more: int) -> SheetType:
    """A size of sheet."""
    return replace(SheetType(f"{width:g} × {height:g}", width, height, price), **more)
