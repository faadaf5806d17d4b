"""A small kit made by hand, with one of each thing that a drawing has to show."""

from math import cos, pi, radians, sin, tan

from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.guide import Guide, Measurement, Step
from guidegen.buildfile.yaml.tree import Source
from guidegen.geometry.outline.records import (
    Arc,
    BevelledEdge,
    Edge,
    InnerLine,
    Line,
    LineKind,
    MatchMark,
    Measure,
    Run,
    Shape,
)
from guidegen.geometry.pieces.records import (
    EdgeRef,
    GrooveCut,
    JoinedSeam,
    Kit,
    LayerPiece,
    LayerStack,
    Piece,
    Side,
)
from guidegen.layout.records import CutPlan, CutSheet, Placed


def box(width: float, height: float) -> tuple[Edge, ...]:
    """A rectangle centred on the origin, edges named as a reader sees them."""
    x, y = width / 2, height / 2
    corners = [(-x, -y), (x, -y), (x, y), (-x, y)]
    names = ("bottom", "right", "top", "left")
    return tuple(
        Edge(name, (Line(corners[i], corners[(i + 1) % 4]),)) for i, name in enumerate(names)
    )


def round_hole(radius: float, x: float = 0, y: float = 0) -> Run:
    """A clockwise circle."""
    return (Arc((x, y), radius, 0, -360),)


def window(width: float, height: float) -> Run:
    """A clockwise rectangle centred on the origin."""
    x, y = width / 2, height / 2
    corners = [(-x, -y), (-x, y), (x, y), (x, -y)]
    return tuple(Line(corners[i], corners[(i + 1) % 4]) for i in range(4))


def cuff_shape() -> Shape:
    """A tapered tube, flat: girths 340 and 245, slant 210 (a cone frustum's development)."""
    outer = 340 * 210 / (340 - 245)
    inner = outer - 210
    half = 340 / outer / 2 * 180 / pi
    turn = 90 - half

    def at(radius: float, angle: float) -> tuple[float, float]:
        return (radius * cos(radians(angle)), radius * sin(radians(angle)))

    return Shape(
        edges=(
            Edge("top", (Arc((0, 0), outer, turn, 2 * half),)),
            Edge("left", (Line(at(outer, 180 - turn), at(inner, 180 - turn)),)),
            Edge("bottom", (Arc((0, 0), inner, 180 - turn, -2 * half),)),
            Edge("right", (Line(at(inner, turn), at(outer, turn)),)),
        ),
        lines=(InnerLine(LineKind.CENTRE, (Line((0, inner), (0, outer)),)),),
        marks=tuple(
            MatchMark("left", "cuff-back", at(inner + 210 * t, 90 + half), (1, 0), n)
            for t, n in ((0.33, 1), (0.66, 2))
        )
        + tuple(
            MatchMark("right", "cuff-back", at(inner + 210 * t, 90 - half), (-1, 0), n)
            for t, n in ((0.33, 1), (0.66, 2))
        ),
    )


def _piece(
    part: str, label: str, name: str, thickness: float, shape: Shape, **more: object
) -> Piece:
    values = {
        "side": Side.ANY,
        "copies": 1,
        "spares": 0,
        "material": f"foam-{thickness:g}",
        "template": shape,
        **more,
    }
    return Piece(part=part, label=label, name=name, thickness=thickness, shape=shape, **values)


def sample_pieces() -> tuple[Piece, ...]:
    """Cuffs, plate with frame and ornament, ridge strips, grooved disc, studs."""
    cuff = cuff_shape()
    cuff_measures = (Measure("girth at the elbow", 340), Measure("girth at the wrist", 245))
    plate = Shape(
        edges=box(260, 180),
        lines=(
            InnerLine(LineKind.PLACEMENT, window(220, 140), "B2"),
            InnerLine(LineKind.TEXTURE, window(240, 160)),
        ),
    )
    frame = Shape(edges=box(220, 140), holes=(window(170, 90),))
    ornament = Shape(edges=(Edge("rim", (Arc((0, 0), 30, 0, 360),)),), holes=(round_hole(12),))
    inset = 10 * tan(radians(30))
    ridge = Shape(
        edges=box(320, 28),
        bevels=(BevelledEdge("top", 30, "inward", (Line((160, 14 - inset), (-160, 14 - inset)),)),),
        marks=tuple(
            MatchMark("top", "ridge", (x, 14), (0, -1), n) for x, n in ((-80, 1), (0, 2), (80, 1))
        ),
    )
    disc = Shape(
        edges=(Edge("rim", (Arc((0, 0), 80, 0, 360),)),),
        lines=(InnerLine(LineKind.GROOVE, (Line((-80, 0), (80, 0)),)),),
    )
    groove = GrooveCut(40, 8, 2, 16 * tan(radians(20)), (Line((-80, 0), (80, 0)),))
    stud = Shape(edges=(Edge("rim", (Arc((0, 0), 9, 0, 360),)),))
    left, right = Side.LEFT, Side.RIGHT
    return (
        _piece("cuff", "A1L", "Lamp-cuff", 5, cuff, side=left, measures=cuff_measures),
        _piece("cuff", "A1R", "Lamp-cuff", 5, cuff, side=right, measures=cuff_measures),
        _piece("plate", "B1", "Keel plate", 10, plate, texture="hammered", copies=2),
        _piece("frame", "B2", "Window frame", 6, frame, copies=2),
        _piece("ornament", "B3", "Porthole", 2, ornament, copies=2),
        _piece("ridge", "C1", "Prow ridge", 10, ridge, copies=2),
        _piece("disc", "D1", "Rope-wheel disc", 10, disc, grooves=(groove,)),
        _piece("stud", "N1", "Net stud", 6, stud, copies=55, spares=5),
    )


def sample_kit() -> Kit:
    """The pieces with seams and one stack."""
    return Kit(
        guide="harbour-walk",
        size="M",
        measurements=(("forearm", 280), ("wrist", 185), ("chest", 980)),
        values=(),
        pieces=sample_pieces(),
        seams=(
            JoinedSeam(
                "cuff-back", EdgeRef("cuff", "left"), EdgeRef("cuff", "right"),
                210, 210, 0, 1, 2, 5,
            ),
            JoinedSeam(
                "ridge", EdgeRef("ridge", "top"), EdgeRef("ridge", "top"),
                320, 320, 0, 1, 1, 10,
            ),
        ),
        stacks=(
            LayerStack(
                "keel", "Keel plate with window", 5,
                (
                    LayerPiece("plate", "Keel plate", "foam-10", 10, 46800, "textured"),
                    LayerPiece("frame", "Window frame", "foam-6", 6, 15500),
                    LayerPiece("ornament", "Porthole", "foam-2", 2, 2375, "painted apart"),
                ),
                2,
            ),
        ),
    )  # fmt: skip


def sample_plan() -> CutPlan:
    """Two sheets of 10 mm foam."""
    first = (
        Placed("plate", 1, 150, 110, 0),
        Placed("plate", 2, 120, 340, 90),
        Placed("disc", 1, 400, 100, 25),
        Placed("ridge", 1, 260, 360, 90),
        Placed("ridge", 2, 300, 360, 270),
    )
    second = tuple(
        Placed("stud", number + 1, 15 + 22 * (number % 10), 15 + 22 * (number // 10), 0)
        for number in range(55)
    )
    return CutPlan(
        "foam-10", 10,
        (
            CutSheet("floor mat 600 x 600", 580, 580, first, 2 * 46800 + 20106 + 2 * 8960),
            CutSheet("floor mat 600 x 600", 580, 580, second, 55 * 254.5),
        ),
        2, "solver",
    )  # fmt: skip


def sample_guide() -> GuideFile:
    """A guide whose steps touch all of the kit; nothing in it comes from a file."""
    steps = tuple(
        Step(id=name, title=f"Do {name}", stage=stage, text="Do it.", time=time, **more)
        for name, stage, time, more in (
            ("print", "preparing", "40 min", {}),
            ("cut", "cutting", "2 h", {"parts": ("cuff", "plate", "frame", "stud")}),
            ("press", "texturing", "30 min", {"parts": ("plate",)}),
            ("close", "gluing", "45 min", {"seams": ("cuff-back", "ridge"), "wait": "1 d"}),
            ("layer", "gluing", "30 min", {"stacks": ("keel",), "wait": "12 h"}),
            ("paint", "painting", "1 h", {"parts": ("plate",), "wait": "1 h"}),
        )
    )
    names = {"chest": "Chest girth", "forearm": "Forearm girth", "back_length": "Back length",
             "lace": "Room for the lace"}  # fmt: skip
    guide = Guide.model_construct(
        title="Harbour walk",
        steps=steps,
        measurements={
            key: Measurement(name=name, take="With a tape.") for key, name in names.items()
        },
    )
    return GuideFile("harbour-walk", guide, Source("guide.yaml", ()))
