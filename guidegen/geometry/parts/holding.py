"""What holds a kit together at one size: fasteners in their rows, straps, strips, in mm."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class EdgeRef:
    """An edge of a part."""

    part: str
    edge: str
    section: int = 0
    """Of a piece that is cut in sections; 0 where it is whole, or where any may be meant."""


@dataclass(frozen=True, slots=True)
class Fastened:
    """One row of points of a fastening at one size, with the fastener that holds there."""

    fastening: str
    row: str
    """part.row."""
    material: str
    """Id of the fastener whose post holds what lies there."""
    count: int
    """On all pieces of the part, spares left out."""
    stack: float
    """mm of foam, webbing and washers that the post goes through."""
    post: float
    """mm."""
    layers: tuple[tuple[str, float], ...] = ()
    """What lies there from the part outward, washers left out: names for readers, and mm."""
    washers: int = 0
    washer: float = 0.0
    """mm of one."""
    grip: tuple[float, float] = (0.0, 0.0)
    """mm that it holds, least and most."""
    hole: float = 0.0
    """mm."""
    name: str = ""
    """Of the fastening, for readers."""


@dataclass(frozen=True, slots=True)
class StrapPiece:
    """Cuts of one length for a strap."""

    material: str
    length: float
    """mm to cut, folds and what lies on the parts included."""
    count: int
    note: str = ""


@dataclass(frozen=True, slots=True)
class Loop:
    """How a hanger goes round its belt."""

    width: float
    """mm of the belt."""
    thickness: float
    """mm of the belt, and of all that lies on it under the loop."""


@dataclass(frozen=True, slots=True)
class BeltRound:
    """How a belt goes round the body."""

    rigid: float
    """mm on which plates sit."""
    turned: float
    """mm folded through its buckle's fixed half."""
    tail: float
    """mm behind the buckle at the loosest."""
    takes: float
    """mm of the way that the buckle takes up."""
    over: tuple[EdgeRef, ...] = ()
    """Edges that it is worn over."""
    outside: float = 0.0
    """mm round the outer faces of those edges; 0 without any."""


@dataclass(frozen=True, slots=True)
class Lacing:
    """How a cord goes through its holes."""

    pairs: int
    """Pairs of holes, one on each side of the opening."""
    pitch: float
    """mm from pair to pair."""
    ends: float
    """mm of each end that are left to tie."""


@dataclass(frozen=True, slots=True)
class FittedStrap:
    """All straps of one kind at one size."""

    id: str
    name: str
    count: int
    pieces: tuple[StrapPiece, ...]
    hardware: tuple[tuple[str, int], ...]
    """Closures and sliders with their counts."""
    free: float
    """mm of the long piece, or of the only one, between its places without pull."""
    least: float
    most: float
    """mm that it bridges at its tightest and its loosest."""
    asked: tuple[float, float]
    """mm that it must bridge."""
    pull: float
    """Per cent by which elastic is stretched where it bridges the most."""
    holds: tuple[float, float] = (0.0, 0.0)
    """mm of it that lie on the parts at its ends."""
    ways: tuple[float, float] = (0.0, 0.0)
    """mm over the foam from its places to the edges; 0 where only what it bridges is known."""
    closure: tuple[float, float] = (0.0, 0.0)
    """mm from the second place to its buckle or ring, and mm that this takes up."""
    ends: tuple[str, str] = ("", "")
    """Parts that hold it, by id; the second is empty where it comes back or hangs."""
    overlap: tuple[float, float] = (0.0, 0.0)
    """mm of it that lie on one another, at the least and at the most; 0 where it has a closure."""
    loop: Loop | None = None
    """Of a hanger."""
    belt: BeltRound | None = None
    """Of a belt."""
    lacing: Lacing | None = None
    """Of a cord that goes crosswise."""
    home: str = ""
    """Part whose pages draw it: the first that holds it; of a belt the first that sits on it, or
    that it lies over. Empty where no part is known."""


@dataclass(frozen=True, slots=True)
class CutStrip:
    """Equal strips at one size."""

    id: str
    name: str
    material: str
    length: float
    """mm of one, along the roll."""
    width: float
    """mm."""
    roll: float
    """mm of the roll that it is cut from."""
    count: int
