"""What the assembly stage puts out: sheets of foam in space, the figure under them, what is seen.

Lengths in mm. x points to the wearer's left, y up, z to the front.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

type Points3 = NDArray[np.float64]
"""n rows of x, y, z in mm."""
type Row = NDArray[np.float64]
"""Numbers in a row, or rows of them."""
type Triangles = NDArray[np.int64]
"""n rows of three point numbers, counter-clockwise as seen from outside."""

FIGURE = "figure"
"""Name of what is no foam: the body under it."""


@dataclass(frozen=True, eq=False)
class Solid:
    """A closed surface, each triangle with the face of the sheet that it belongs to."""

    points: Points3
    triangles: Triangles
    faces: NDArray[np.int64]
    """Number of a face for each triangle: OUTER, INNER or WALL of a sheet, a limb of the figure."""
    normals: Points3 | None = None
    """Unit normals at its points, for the light on faces other than WALL; None for those that
    follow from its triangles."""


OUTER, INNER, WALL = 0, 1, 2
HALVES = 3
"""Added to OUTER and INNER on the other side of a fold."""


@dataclass(frozen=True, eq=False)
class PlacedSheet:
    """One piece in space."""

    part: str
    key: str
    """Of its piece; with a number where there are several copies."""
    material: str
    thickness: float
    """mm."""
    middle: Points3
    """Points of its middle face."""
    normals: Points3
    """Outward, of length 1, at each point."""
    flat: NDArray[np.float64]
    """The same points as they lie on the flat piece: n rows of x, y."""
    triangles: Triangles
    rims: tuple[NDArray[np.int64], ...]
    """Point numbers round the outline, then round each hole."""
    welded: tuple[int, ...] = ()
    """Points of edges that close on each other: no wall is seen there."""
    light: Points3 | None = None
    """Exact normals of its face, where a formula bent it; None where they are those of its mesh."""
    halves: NDArray[np.int64] | None = None
    """0 or 1 for each triangle of a plate with a sharp fold: a line is seen along it."""
    strain: float = 0.0
    """Largest stretch or squeeze of an edge of its triangles, as a share of its length."""


@dataclass(frozen=True)
class NotPlaced:
    """A part that is not in the picture, and why."""

    part: str
    reason: str
    """In English, for the author."""
    hidden: bool = False
    """True where it would not be seen anyway."""


@dataclass(frozen=True, eq=False)
class Assembly:
    """A kit as it is worn or stands."""

    sheets: tuple[PlacedSheet, ...]
    figure: tuple[tuple[str, Solid], ...] = ()
    """Limbs by name; none for what is not worn."""
    missing: tuple[NotPlaced, ...] = ()
    gaps: tuple[tuple[str, float], ...] = ()
    """Largest distance in mm between the edges of each seam that is closed."""
    paints: Mapping[str, str] = field(default_factory=dict)
    """Colour by part that is painted, as "#2f5d7c"."""


type SeenLines = tuple[tuple[tuple[float, float], ...], ...]
"""Rings or lines by their points, in mm of the picture; rings do not repeat the first."""


@dataclass(frozen=True, slots=True)
class Contour:
    """Closed rings of what is seen of one thing; even-odd."""

    name: str
    """A material, the key of a sheet, or FIGURE."""
    rings: SeenLines
    paint: str = ""
    """Colour that steps give it, as "#2f5d7c"; empty for bare foam."""


@dataclass(frozen=True, slots=True)
class Seen:
    """One view with hidden lines removed, in mm of the picture, its lower left at the origin."""

    view: str
    width: float
    height: float
    scale: float
    """mm of the picture for a mm of the thing."""
    figure: SeenLines
    """What is seen of the body."""
    fills: tuple[Contour, ...]
    """What is seen of each material."""
    shades: tuple[SeenLines, ...]
    """Where light falls less and less on foam: each lies over the one before."""
    soft: tuple[SeenLines, ...]
    """The same on the body."""
    limbs: SeenLines
    """Open lines where one limb passes before another."""
    creases: SeenLines
    """Where faces of one sheet meet."""
    outlines: SeenLines
    """Round what is seen of each sheet."""
    silhouette: SeenLines
    """Round everything."""
    parts: tuple[str, ...] = ()
    """Parts of which something is seen."""
    marked: SeenLines = ()
    """Round what is seen of some sheets that a picture is about."""


@dataclass(frozen=True, slots=True)
class JoinSeen:
    """A thing before and after a step that joins, from one side and at one scale; what the step
    brings is marked."""

    before: Seen
    after: Seen


@dataclass(frozen=True, slots=True)
class FinishedSeen:
    """All that is seen of the finished thing in one size."""

    views: tuple[Seen, ...] = ()
    """From the front, at three quarters, from the back; none where nothing says how parts sit."""
    joins: Mapping[str, tuple[JoinSeen, ...]] = field(default_factory=dict)
    """Before and after each step that joins, by step id."""


NOTHING_SEEN = FinishedSeen()
