"""Outlines with their curves and all that is drawn on them, in mm, y upward.

Outlines run counter-clockwise, holes clockwise. A curve stays the curve that it is (line, arc or
cubic Bézier) until an output or a measure flattens it.
"""

from dataclasses import dataclass, replace
from enum import StrEnum

type Point = tuple[float, float]
"""x to the right, y upward, in mm."""


@dataclass(frozen=True, slots=True)
class Line:
    """A straight segment."""

    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Arc:
    """A circular arc."""

    centre: Point
    radius: float
    """mm, positive."""
    start_angle: float
    """degrees from the x axis, counter-clockwise."""
    sweep: float
    """degrees; positive turns counter-clockwise, at most 360 either way."""


@dataclass(frozen=True, slots=True)
class Cubic:
    """A cubic Bézier curve."""

    start: Point
    control1: Point
    control2: Point
    end: Point


type Segment = Line | Arc | Cubic
type Run = tuple[Segment, ...]
"""Segments end to end; closed where the last ends at the first's start."""


@dataclass(frozen=True, slots=True)
class Edge:
    """A named run of the outline."""

    name: str
    run: Run


class LineKind(StrEnum):
    """What a line inside the outline asks for; line types after ISO 128 follow from it."""

    FOLD = "fold"
    """Score or fold on the front."""
    GROOVE = "groove"
    """V-groove on the back: its middle line."""
    RIM = "groove-rim"
    """V-groove on the back: where its walls meet the surface."""
    PLACEMENT = "placement"
    """Where another piece is laid on."""
    TEXTURE = "texture"
    """Rim of an area that gets a texture."""
    CENTRE = "centre"
    """Centre line, or the fold of a half template."""
    ENGRAVE = "engrave"
    """Cut a little way in, not through."""
    GLUE = "glue"
    """Finished line inside an allowance: edges meet here."""
    STITCH = "stitch"
    """The same of cloth, inside a seam allowance: the needle goes here."""
    HEM = "hem"
    """Finished line of cloth inside an allowance that is folded under."""
    PLEAT = "pleat"
    """Fold of a pleat, or the middle of a dart."""
    LANDING = "landing"
    """Where the outer fold of a pleat comes to lie."""
    GATHER = "gather"
    """Row of long stitches that cloth is drawn up with."""
    LETTER = "letter"
    """Outline of a letter or an emblem, to paint or to lay on."""
    GRAIN = "grain"
    """Arrow that lies along the threads of cloth or the fibres of wood."""
    SPREAD = "spread"
    """Where the drawing was cut and opened."""


@dataclass(frozen=True, slots=True)
class InnerLine:
    """A line on the face of a piece."""

    kind: LineKind
    run: Run
    label: str = ""


@dataclass(frozen=True, slots=True)
class MatchMark:
    """Ticks across an edge that meet the same ticks on its partner."""

    edge: str
    seam: str
    """Id of the seam."""
    point: Point
    """On the finished edge."""
    inward: Point
    """Unit vector from the edge into the piece."""
    ticks: int
    """1, 2 or 3 strokes, so that pieces cannot be joined the wrong way round."""


@dataclass(frozen=True, slots=True)
class BevelledEdge:
    """An edge that is not cut square."""

    edge: str
    angle: float
    """degrees from square."""
    direction: str
    """inward: the inner face ends smaller; outward: the outer face ends smaller."""
    far_face: Run
    """Where the smaller face ends, offset into the piece by thickness * tan(angle)."""
    angles: tuple[float, ...] = ()
    """Of a bevel that turns: degrees at equal steps along the edge, negative where the other face
    ends smaller. `angle` and `direction` are those of the steepest. Empty where it is the same all
    along."""
    between: tuple[str, str] = ("", "")
    """Edges beside its start and beside its end, where it turns."""

    def turned(self) -> "BevelledEdge":
        """The same run through from its end to its start."""
        return replace(self, angles=self.angles[::-1], between=self.between[::-1])

    def at_ends(self) -> tuple[tuple["BevelledEdge", str], ...]:
        """Plain bevels as they are at both ends, each with the edge beside it; itself where it does
        not turn."""
        if not self.angles:
            return ((self, ""),)
        other = {"inward": "outward", "outward": "inward"}[self.direction]
        return tuple(
            (
                replace(
                    self, angle=abs(a), direction=self.direction if a >= 0 else other, angles=()
                ),
                name,
            )
            for a, name in zip((self.angles[0], self.angles[-1]), self.between, strict=True)
        )


@dataclass(frozen=True, slots=True)
class Shape:
    """An outline with all that is drawn on it."""

    edges: tuple[Edge, ...]
    """The cut line: a closed ring, counter-clockwise, allowances included."""
    holes: tuple[Run, ...] = ()
    """Closed rings, clockwise."""
    lines: tuple[InnerLine, ...] = ()
    marks: tuple[MatchMark, ...] = ()
    bevels: tuple[BevelledEdge, ...] = ()

    def ring(self) -> Run:
        """The outline as one run."""
        return tuple(segment for edge in self.edges for segment in edge.run)

    def edge(self, name: str) -> Edge:
        """The edge called `name`. Raises KeyError."""
        for edge in self.edges:
            if edge.name == name:
                return edge
        raise KeyError(name)


@dataclass(frozen=True, slots=True)
class Measure:
    """A finished length that a reader can check with a tape, or an angle."""

    name: str
    value: float
    """mm, or degrees."""
    angle: bool = False
    """Whether it is an angle."""
