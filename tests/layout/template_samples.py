"""A kit made by hand for tests of pages and drawings: every kind of line and piece."""

from dataclasses import replace
from math import cos, radians, sin

from guidegen.geometry.outline.records import (
    Arc,
    BevelledEdge,
    Cubic,
    Edge,
    InnerLine,
    Line,
    LineKind,
    MatchMark,
    Measure,
    Point,
    Run,
    Shape,
)
from guidegen.geometry.outline.transforms import mirror_shape
from guidegen.geometry.pieces.records import Kit, Piece, Side


def polygon_edges(points: list[Point], names: list[str]) -> tuple[Edge, ...]:
    """Straight named edges through points."""
    ends = [*points[1:], points[0]]
    return tuple(
        Edge(name, (Line(start, end),))
        for name, start, end in zip(names, points, ends, strict=True)
    )


def rectangle(width: float, height: float) -> Shape:
    """A plain rectangle."""
    points = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    return Shape(polygon_edges(points, ["lower", "right", "upper", "left"]))


def circle_run(centre: Point, radius: float, sweep: float = 360) -> Run:
    """A closed circle."""
    return (Arc(centre, radius, 0, sweep),)


def sector(outer: float, inner: float, angle: float) -> Shape:
    """A net of a tapered tube, its middle upward, with match marks and a guide line."""
    first = 90 - angle / 2
    low = outer * sin(radians(first))

    def at(radius: float, degrees_: float) -> Point:
        return (radius * cos(radians(degrees_)), radius * sin(radians(degrees_)) - low)

    last = first + angle
    edges = (
        Edge("wide", (Arc((0, -low), outer, first, angle),)),
        Edge("left", (Line(at(outer, last), at(inner, last)),)),
        Edge("narrow", (Arc((0, -low), inner, last, -angle),)),
        Edge("right", (Line(at(inner, first), at(outer, first)),)),
    )
    middle = (outer + inner) / 2
    marks = tuple(
        MatchMark(name, "close", at(middle, at_angle), direction, ticks)
        for name, at_angle, direction, ticks in (
            ("left", last, (sin(radians(last)), -cos(radians(last))), 2),
            ("right", first, (-sin(radians(first)), cos(radians(first))), 2),
        )
    )
    line = InnerLine(
        LineKind.PLACEMENT, (Arc((0, -low), middle, first + 4, angle - 8),), "frames stand here"
    )
    return Shape(edges, lines=(line,), marks=marks)


def half_plate() -> Shape:
    """Half of a breast plate on the fold (its left edge), with a curved neck and arm hole."""
    edges = (
        Edge("hem", (Line((0, 0), (240, 0)),)),
        Edge("side", (Cubic((240, 0), (260, 60), (262, 160), (250, 240)),)),
        Edge("arm", (Cubic((250, 240), (200, 260), (190, 350), (205, 425)),)),
        Edge("shoulder", (Line((205, 425), (80, 440)),)),
        Edge("neck", (Cubic((80, 440), (60, 390), (40, 380), (0, 380)),)),
        Edge("middle", (Line((0, 380), (0, 0)),)),
    )
    lines = (
        InnerLine(LineKind.TEXTURE, circle_run((120, 200), 45), "stamped scales"),
        InnerLine(LineKind.FOLD, (Line((10, 90), (235, 90)),), "score"),
    )
    marks = (
        MatchMark("side", "waist", (257.0, 120.0), (-1.0, 0.0), 1),
        MatchMark("shoulder", "strap", (142.5, 432.5), (-0.12, -0.99), 3),
    )
    return Shape(edges, lines=lines, marks=marks)


def ridge() -> Shape:
    """A strip with bevelled long edges."""
    shape = rectangle(320, 28)
    bevels = (
        BevelledEdge("lower", 30, "inward", (Line((0, 5.7735), (320, 5.7735)),)),
        BevelledEdge("upper", 30, "inward", (Line((320, 22.2265), (0, 22.2265)),)),
    )
    return replace(shape, bevels=bevels)


def frame() -> Shape:
    """A window frame: a ring with a square hole."""
    hole: Run = (
        Line((10, 10), (10, 80)),
        Line((10, 80), (50, 80)),
        Line((50, 80), (50, 10)),
        Line((50, 10), (10, 10)),
    )
    return replace(rectangle(60, 90), holes=(hole,))


def disc(radius: float, groove: bool = False) -> Shape:
    """A disc in four arcs."""
    edges = tuple(
        Edge(f"rim-{number}", (Arc((0, 0), radius, 90 * number, 90),)) for number in range(4)
    )
    half = (radius**2 - 2.9**2) ** 0.5
    rims = ((Line((-half, y), (half, y)),) for y in (-2.9, 2.9))
    lines = (
        InnerLine(LineKind.GROOVE, (Line((-radius, 0), (radius, 0)),), "40°"),
        *(InnerLine(LineKind.RIM, rim) for rim in rims),
    )
    return Shape(edges, lines=lines if groove else ())


def gore() -> Shape:
    """A gore of a dome."""
    edges = (
        Edge("foot", (Line((-64, 0), (64, 0)),)),
        Edge("right", (Cubic((64, 0), (60, 60), (30, 105), (0, 130)),)),
        Edge("left", (Cubic((0, 130), (-30, 105), (-60, 60), (-64, 0)),)),
    )
    return Shape(edges)


def piece(
    part: str, label: str, name: str, template: Shape, *, copies: int = 1, **more: object
) -> Piece:
    """A piece for any side."""
    values: dict[str, object] = {
        "side": Side.ANY,
        "spares": 0,
        "material": "foam-5",
        "thickness": 5.0,
        "shape": template,
        **more,
    }
    return Piece(part, label, name, copies=copies, template=template, **values)  # type: ignore[arg-type]


def pair(part: str, label: str, name: str, template: Shape, **more: object) -> tuple[Piece, Piece]:
    """Left and right."""
    left = piece(part, f"{label}L", name, template, side=Side.LEFT, **more)
    right = replace(
        left,
        label=f"{label}R",
        side=Side.RIGHT,
        mirrored=True,
        shape=mirror_shape(template),
    )
    return left, right


def sample_kit(size: str = "M", scale: float = 1.0) -> Kit:
    """Everything that the demo of the trade has: tubes, plates, strips, rings, discs, studs."""
    pieces = (
        *pair(
            "cuff",
            "C",
            "Lamp-cuff",
            sector(751 * scale, 541 * scale, 25.9),
            measures=(Measure("wide edge", 340 * scale), Measure("narrow edge", 245 * scale)),
        ),
        piece("window", "W", "Window frame", frame(), copies=6, material="foam-2", thickness=2.0),
        piece("pane", "P", "Pane", rectangle(40, 70), copies=6, material="foam-2", thickness=2.0),
        piece("ridge", "R", "Prow ridge", ridge(), copies=2, material="foam-10", thickness=10.0),
        *pair("gore", "B", "Bollard cap gore", gore(), copies=5),
        piece(
            "wheel",
            "D",
            "Rope-wheel disc",
            disc(80, groove=True),
            material="foam-10",
            thickness=10.0,
        ),
        piece(
            "belt",
            "K",
            "Cleat belt plate",
            rectangle(90, 70),
            copies=7,
            material="foam-10",
            thickness=10.0,
        ),
        piece(
            "keel",
            "V",
            "Keel plate",
            half_plate(),
            fold="middle",
            material="foam-10",
            thickness=10.0,
        ),
        piece(
            "stern",
            "H",
            "Stern plate",
            half_plate(),
            fold="middle",
            material="foam-10",
            thickness=10.0,
        ),
        *pair("sluice", "S", "Hip sluice", rectangle(180, 220), material="foam-10", thickness=10.0),
        piece(
            "stud", "N", "Net stud", disc(9), copies=71, spares=7, material="foam-6", thickness=6.0
        ),
    )
    return Kit("harbour-lantern", size, (), (), pieces, (), ())
