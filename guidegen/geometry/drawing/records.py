"""What reading a drawing gives: paths with their meaning, then one piece with its corners.

All points in mm, y upward. Frozen and hashable, so that a drawing is read once for all sizes.
"""

from dataclasses import dataclass
from enum import StrEnum

from guidegen.geometry.outline.records import InnerLine, LineKind, Point, Run
from guidegen.problems import Place

_NOWHERE = Place("")


class Role(StrEnum):
    """What a path of a drawing is; the values are the words that an author writes."""

    OUTLINE = "outline"
    HOLE = "hole"
    FOLD = "fold"
    PLACEMENT = "placement"
    TEXTURE = "texture"
    ENGRAVE = "engrave"
    CENTRE = "centre"
    SPREAD = "spread"
    CORNER = "corner"
    SCALE = "scale"
    NOTE = "note"
    """For the author alone: left out."""
    NONE = ""
    """Not said."""


ROLE_WORDS: dict[str, Role] = {role.value: role for role in Role if role.value} | {
    "score": Role.FOLD,
    "center": Role.CENTRE,
    "engraving": Role.ENGRAVE,
}
"""Words in classes, ids and labels, and the role that each stands for."""

LINE_KINDS: dict[Role, LineKind] = {
    Role.FOLD: LineKind.FOLD,
    Role.PLACEMENT: LineKind.PLACEMENT,
    Role.TEXTURE: LineKind.TEXTURE,
    Role.ENGRAVE: LineKind.ENGRAVE,
    Role.CENTRE: LineKind.CENTRE,
}
"""Inner line kinds by role."""


@dataclass(frozen=True, slots=True)
class Subpath:
    """One stroke of a path."""

    run: Run
    closed: bool
    """True where the drawing closes it (Z), or it is a closed basic shape."""


@dataclass(frozen=True, slots=True)
class DrawnPath:
    """One visible path or basic shape, in mm."""

    role: Role
    name: str
    """Name that goes with the role: of the corner, the spread line, the part laid on; or empty."""
    title: str
    """How messages speak of it: 'path "sleeve"'."""
    subpaths: tuple[Subpath, ...]
    place: Place
    groups: tuple[str, ...] = ()
    """Its own name and those of all groups around it: labels, or ids without one."""
    ids: tuple[str, ...] = ()
    """Its own id and those of all groups around it."""
    length: str = ""
    """The real length of a scale line, as written."""
    middle: Point = (0.0, 0.0)
    """Middle of its bounding box."""


@dataclass(frozen=True, slots=True)
class SvgDrawing:
    """A drawing as read: its paths, true to scale as far as the file tells."""

    file: str
    """Path as the author would type it."""
    paths: tuple[DrawnPath, ...]
    names: tuple[str, ...] = ()
    """All names of visible elements as their author sees them, for hints."""
    physical: bool = True
    """False where the size is in pixels, so that only a scale line can vouch for it."""
    height: float = 0.0
    """mm of the page."""
    place: Place = _NOWHERE
    """Of the svg element."""
    elements: int = 0
    """How many were gone through, `use` counted anew."""
    points: int = 0
    """How many its curves come to, taken apart."""


@dataclass(frozen=True, slots=True)
class SpreadLine:
    """A straight line across the piece, where it is cut and opened."""

    name: str
    start: Point
    end: Point
    place: Place


@dataclass(frozen=True, slots=True)
class DrawnPiece:
    """One piece of a drawing: outline between corners, and what is drawn on it."""

    corners: tuple[str, ...]
    """Names, counter-clockwise; empty where the drawing has none."""
    stretches: tuple[Run, ...]
    """Stretch i of the outline runs from corner i to the next; one ring without corners."""
    holes: tuple[Run, ...] = ()
    """Closed rings, clockwise."""
    lines: tuple[InnerLine, ...] = ()
    spreads: tuple[SpreadLine, ...] = ()
    place: Place = _NOWHERE
    """Of the outline in its drawing."""
    title: str = ""
    """How messages speak of the outline."""

    def ring(self) -> Run:
        """The outline as one run, from the first corner."""
        return tuple(segment for run in self.stretches for segment in run)
