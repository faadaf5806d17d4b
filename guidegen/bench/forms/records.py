"""What the stages of flattening hand on: the mesh as read, its skin, its flat panels."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

import numpy as np
from numpy.typing import NDArray

from guidegen.errors import ContentError
from guidegen.problems import Place, Problem

type Numbers = NDArray[np.float64]
"""Points are rows."""
type FaceMask = NDArray[np.bool_]
type Indices = NDArray[np.int64]

type Tell = Callable[[str], None]
"""Told what is done next, while it takes long."""


class CutAlong(StrEnum):
    """What a form is cut along."""

    ANY = "any"
    """The first of the others that the file has."""
    LINES = "lines"
    """Line elements that its author drew along edges."""
    MATERIALS = "materials"
    """Borders between materials."""
    ISLANDS = "islands"
    """Borders of the islands of its texture map."""
    SHARP = "sharp"
    """Edges that turn sharply."""
    PROPOSAL = "proposal"
    """Lines that are worked out."""


class Shown(StrEnum):
    """Which face of the foam a mesh shows."""

    INSIDE = "inside"
    """A body, or what else lies under the foam."""
    MIDDLE = "middle"
    """The middle of the foam, which keeps its length when it is bent."""
    OUTSIDE = "outside"
    """The finished thing."""


@dataclass(frozen=True, slots=True)
class FormWishes:
    """What an author says of a form; mm and degrees."""

    unit: str
    along: CutAlong = CutAlong.ANY
    shows: Shown | None = None
    foam: float = 0.0
    """mm of thickness."""
    sharp: float = 40.0
    """degrees by which an edge turns at least to count as sharp."""
    longest: float = 0.0
    """mm that a proposed piece is long at most; 0 for any length."""
    up: str = ""
    """Axis that points upward: x, y or z; empty for what files of the kind usually have."""


@dataclass(frozen=True, slots=True)
class ReadMesh:
    """A file as it is written."""

    points: Numbers
    """x, y, z in units of the file."""
    faces: Indices
    """Three points of each triangle, counter-clockwise from outside."""
    islands: Numbers | None = None
    """Places on the texture map, by triangle and corner; NaN where there is none."""
    materials: Indices | None = None
    """By triangle, an index of `names`."""
    names: tuple[str, ...] = ()
    lines: Indices | None = None
    """Pairs of points that line elements join."""


@dataclass(frozen=True, slots=True)
class Mesh:
    """A mesh in mm, sound: each edge has one or two faces, all of them look to the same side."""

    points: Numbers
    faces: Indices
    islands: Numbers | None
    materials: Indices
    names: tuple[str, ...]
    lines: Indices
    notes: tuple[str, ...] = ()
    """What was mended, with its place."""


@dataclass(frozen=True, slots=True)
class Skin:
    """The layer of the foam that keeps its length, with the edges along which it is cut."""

    points: Numbers
    faces: Indices
    normals: Numbers
    """Unit normals of the smooth surface, by triangle and corner."""
    materials: Indices
    cut: Indices
    """Keys of cut edges, sorted; see `topology.edge_keys`."""
    sharp: Indices
    """Keys of edges that turn sharply, sorted."""


@dataclass(frozen=True, slots=True)
class Strain:
    """How much foam has to give on one panel."""

    faces: Numbers
    """By triangle: share by which it is stretched when the panel is formed; below 0, pressed
    together. Of its two principal directions the one that gives more."""
    areas: Numbers
    """mm² by triangle."""
    mean: float
    high: float
    """At 95 of 100 of the area at most."""
    worst: float
    """At the worst point, in the mean of the triangles around it."""


@dataclass(frozen=True, slots=True)
class FlatPanel:
    """A panel of the skin laid flat, before its borders are named."""

    faces: Indices
    """Indices of the skin's triangles."""
    corners: Indices
    """By triangle, rows of `flat`."""
    vertices: Indices
    """Points of the skin, by row of `flat`."""
    flat: Numbers
    """mm, seen from outside."""
    strain: Strain
    folded: int = 0
    """Triangles that came out upside down."""
    loops: tuple[Indices, ...] = ()
    """Rows of `flat` along each border, the outer one first and counter-clockwise."""


class FormError(ContentError):
    """A mesh that cannot be flattened; its problems say where."""


def refuse(code: str, name: str, message: str) -> FormError:
    """One problem of a file."""
    return FormError([Problem(code, Place(name), "", message)])


def at_words(points: Numbers, most: int = 3) -> str:
    """Places in mm for a message."""
    shown = ["(" + ", ".join(f"{value:.1f}" for value in point) + ")" for point in points[:most]]
    more = f" and {len(points) - most} more" if len(points) > most else ""
    return "; ".join(shown) + more


def counted(count: int, one: str, many: str = "") -> str:
    """'1 face', '3 faces'."""
    return f"{count} {one if count == 1 else many or one + 's'}"


def silent(_: str) -> None:
    """Tell nobody."""
