"""What the geometry stage puts out: the pieces of a kit, their seams and layer stacks, in mm."""

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from guidegen.buildfile.records.fastening import PointKind
from guidegen.geometry.outline.records import Measure, Point, Run, Shape
from guidegen.geometry.outline.transforms import MIRROR, transform_run
from guidegen.geometry.parts.circuits import FittedCircuit
from guidegen.geometry.parts.finished import FinishedSize
from guidegen.geometry.parts.harness import CutHarnessStrap, FittedHarness
from guidegen.geometry.parts.holding import (
    BeltRound,
    CutStrip,
    EdgeRef,
    Fastened,
    FittedStrap,
    Lacing,
    Loop,
    StrapPiece,
)
from guidegen.geometry.parts.inscriptions import Inscribed
from guidegen.geometry.parts.linkages import FittedLinkage, MovedJoint
from guidegen.geometry.parts.sewing import FittedCasing, TakenIn

__all__ = [
    "BeltRound", "CutHarnessStrap", "CutStrip", "EdgeRef", "Fastened", "FinishedSize",
    "FittedCasing", "FittedCircuit", "FittedHarness", "FittedLinkage", "FittedStrap", "GrooveCut",
    "Inscribed", "JoinedSeam", "Kit", "Lacing", "LayerPiece", "LayerStack", "Loop", "MeetingAngle",
    "MovedJoint", "Piece", "PointRow", "RowPoint", "Side", "Standing", "StrapPiece", "TakenIn",
]  # fmt: skip


class Side(StrEnum):
    """Which side of the body a piece belongs to."""

    ANY = "any"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, slots=True)
class GrooveCut:
    """Section of a V-groove on the back."""

    fold: float
    """degrees that the foam turns; also the angle between the walls."""
    depth: float
    """mm."""
    floor: float
    """mm of foam left."""
    mouth: float
    """mm; width at the surface, 2 * depth * tan(fold / 2)."""
    run: Run
    """Its middle line on the piece."""
    rims: tuple[Run, ...] = ()
    """Where its walls meet the surface: half a mouth to each side, as far as there is foam."""


@dataclass(frozen=True, slots=True)
class RowPoint:
    """One point."""

    at: Point
    along: Point
    """Unit vector along the row."""


@dataclass(frozen=True, slots=True)
class PointRow:
    """One row, as it is on the template: on a half template, the points of one half."""

    part: str
    name: str
    kind: PointKind
    spots: tuple[RowPoint, ...]
    diameter: float
    """mm."""
    length: float
    """mm of a slot; 0 for round holes and studs."""
    pitch: float
    """mm from point to point along the row; 0 for a single one."""
    halves: int = 1
    """2 on a half template: the other half has the same points."""
    through: tuple[str, ...] = ()
    """Parts laid on this one that have the same holes."""
    laid: str = ""
    """Part that lies on each point."""
    source: str = ""
    """Part that the row comes through from; empty for a part's own rows."""
    thing: str = ""
    """Material of the counted thing that sits on each point."""
    pole: str = ""
    """Of a magnet, the pole that looks to its partner: north or south."""

    @property
    def count(self) -> int:
        """Points of the row on one whole piece."""
        return len(self.spots) * self.halves

    @property
    def is_hole(self) -> bool:
        """Whether its points are cut through."""
        return self.kind not in {PointKind.STUD, PointKind.PATCH}


@dataclass(frozen=True, slots=True)
class Piece:
    """A part at one size, for one side, ready to cut."""

    part: str
    """Id of its part."""
    label: str
    """Code written on the foam: the part's, with L or R for a pair."""
    name: str
    side: Side
    copies: int
    """How many to cut, spares included."""
    spares: int
    """How many of those are spares."""
    material: str
    """Id of its sheet material."""
    thickness: float
    """mm."""
    template: Shape
    """As drawn on paper: one half where it lies on the fold."""
    shape: Shape
    """As cut: the whole outline; mirrored already where `mirrored`."""
    fold: str = ""
    """Name of the template's edge on the fold; empty where the template is whole."""
    mirrored: bool = False
    """True for the right side of a pair: the template is flipped."""
    grooves: tuple[GrooveCut, ...] = ()
    note: str = ""
    texture: str = ""
    measures: tuple[Measure, ...] = ()
    """Finished measures worth stating, in the order of the template's table."""
    allowed: bool = False
    """True where allowances make it larger than `measures` say, which are the finished ones."""
    taken: tuple[TakenIn, ...] = ()
    """Pleats and darts."""
    inscribed: tuple[Inscribed, ...] = ()
    """Letters and emblems."""
    section: int = 0
    """Number of a section of a piece that fits on no sheet, from 1; 0 for a whole piece."""
    own: bool = False
    """True where left and right are measured apart and differ: each has a template of its own."""

    @property
    def key(self) -> str:
        """Unique within a kit: part, side and section."""
        side = "" if self.side is Side.ANY else f"-{self.side}"
        return f"{self.part}{side}{f'-{self.section}' if self.section else ''}"

    @property
    def family(self) -> str:
        """The same for left and right: a page tells of both at once; the part's id where it can."""
        return self.part if self.section < 2 else f"{self.part}-{self.section}"


@dataclass(frozen=True, slots=True)
class Standing:
    """How an edge stands on a line of a face: a T-joint."""

    run: Run
    """The line, on the whole outline of the part below."""
    angle: float
    """degrees between the inner face of what stands and the face below."""
    width: float
    """mm of its foot across the line: thickness / sin(angle), the section of the plate."""
    slot: float = 0.0
    """mm across the slot in which it stands; 0 where it stands on the face."""
    deep: float = 0.0
    """mm of its edge in the slot."""
    twin: Run = ()
    """The same line on the other half of a part drawn to its fold; empty without one."""

    def line(self, *, mirrored: bool) -> Run:
        """The line on the right piece of a pair where `mirrored`, else on any other."""
        return transform_run(self.run, MIRROR) if mirrored else self.run


@dataclass(frozen=True, slots=True)
class MeetingAngle:
    """How two edges meet at an angle, with the bevels that it asks for."""

    angle: float
    """degrees between the inner faces."""
    flush: str
    """both, inside, middle or outside: where no step is left."""
    bevels: tuple[float, float]
    """degrees from square of both edges; positive leaves the inner face smaller."""
    step: float = 0.0
    """mm between the faces that are not flush."""


@dataclass(frozen=True, slots=True)
class JoinedSeam:
    """A seam at one size: which edges, and how well they agree."""

    id: str
    first: EdgeRef
    second: EdgeRef
    first_length: float
    """mm, arc length of the finished edge."""
    second_length: float
    """mm."""
    ease: float
    """mm by which the first is meant to be longer."""
    tolerance: float
    """mm."""
    copies: int
    """How often the seam is made: once per copy and side."""
    thickness: float
    """mm of the thinner edge: with the length it gives the glued area."""
    flipped: bool = False
    """True where one piece is turned over, or of the other hand: the edges run the same way."""
    corners: tuple[str, str] | None = None
    """A corner of each edge that meet, where the author names them."""
    step: str = ""
    """Step in which sections of one piece are joined; empty for seams that the author names."""
    glue: str = ""
    """Material that joins sections."""
    standing: Standing | None = None
    """Where the first edge stands on a face: the second is a line there."""
    meeting: MeetingAngle | None = None
    """Where its author says at which angle both meet."""
    gathers: float = 0.0
    """How many times longer the first edge is, which is gathered; 0 where it is not."""

    @property
    def mismatch(self) -> float:
        """mm by which the first edge is longer than meant."""
        return self.first_length - self.second_length - self.ease


@dataclass(frozen=True, slots=True)
class LayerPiece:
    """One layer of a stack at one size."""

    part: str
    name: str
    material: str
    thickness: float
    """mm."""
    area: float
    """mm², of one piece."""
    note: str = ""
    longer: float = 0.0
    """mm that it is cut longer than the first layer would be, since it lies farther out."""
    way: float = 0.0
    """mm of it round the bend, in its middle; 0 in a stack that is flat."""


@dataclass(frozen=True, slots=True)
class LayerStack:
    """A stack at one size, from the body outward."""

    id: str
    name: str
    backing: float
    """mm of padding under the first layer."""
    layers: tuple[LayerPiece, ...]
    copies: int
    """How many such stacks the kit has, both sides counted."""
    radius: float = 0.0
    """mm from the middle of its bend to the inner face of its first layer; 0 where it is flat."""


@dataclass(frozen=True, slots=True)
class Kit:
    """Everything to cut for one size of one guide."""

    guide: str
    """Id of the guide: its folder's name."""
    size: str
    measurements: tuple[tuple[str, float], ...]
    """Measurement names and mm, in the guide's order."""
    values: tuple[tuple[str, float], ...]
    """Named results, in the guide's order."""
    pieces: tuple[Piece, ...]
    seams: tuple[JoinedSeam, ...]
    stacks: tuple[LayerStack, ...]
    wholes: tuple[Piece, ...] = ()
    """Pieces that are cut in sections, as they are when those are joined."""
    finished: tuple[FinishedSize, ...] = ()
    """Finished measures by part, in the guide's order: what words may ask for."""
    rows: tuple[PointRow, ...] = ()
    """Rows of points by part, those that come through from below after a part's own."""
    fastened: tuple[Fastened, ...] = ()
    straps: tuple[FittedStrap, ...] = ()
    strips: tuple[CutStrip, ...] = ()
    asked: tuple[tuple[str, float], ...] = ()
    """Lengths of parts that arithmetic of the guide asks for, as it asks, and mm."""
    sides: tuple["Kit", "Kit"] | None = None
    """Kits made all of left and all of right measurements, where these differ."""
    linkages: tuple[FittedLinkage, ...] = ()
    circuits: tuple[FittedCircuit, ...] = ()
    casings: tuple[FittedCasing, ...] = ()
    harnesses: tuple[FittedHarness, ...] = ()

    def pieces_of(self, part: str) -> Iterator[Piece]:
        """The pieces of a part: one, or left and right, or the sections of both."""
        return (piece for piece in self.pieces if piece.part == part)

    def built(self, part: str) -> Iterator[Piece]:
        """The same with sections joined: one, or left and right."""
        found = [piece for piece in self.wholes if piece.part == part]
        return iter(found) if found else self.pieces_of(part)

    def row(self, ref: str | None) -> PointRow | None:
        """The row of points that is called part.row; None where there is none."""
        part, _, name = (ref or "").partition(".")
        return next((row for row in self.rows if (row.part, row.name) == (part, name)), None)

    def names(self) -> dict[str, float]:
        """Measurements, values and lengths of parts by name, for arithmetic."""
        return {**dict(self.measurements), **dict(self.values), **dict(self.asked)}
