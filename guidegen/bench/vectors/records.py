"""What a PDF or DXF file holds, as it was read: pages of strokes in mm.

Each page has its own axes: x from the left, y upward, from the lower left corner of what a reader
sees of it. A DXF file is one page without an edge.
"""

from dataclasses import dataclass, field

from guidegen.geometry.drawing.records import Subpath
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Point
from guidegen.problems import Place, Problem

type LineBox = tuple[float, float, float, float]
"""mm: least x, least y, greatest x, greatest y."""

MAX_SEGMENTS = 10_000
"""Segments of one file: as many as one drawing may have."""


class VectorError(Exception):
    """A file that cannot be redrawn; carries the problems for its author."""

    def __init__(self, *problems: Problem) -> None:
        self.problems = problems
        super().__init__("\n".join(map(str, problems)))


def refuse(code: str, file: str, message: str, cure: str = "") -> VectorError:
    """The error for one finding about a file."""
    return VectorError(Problem(code, Place(file), "", message, cure))


@dataclass(frozen=True, slots=True)
class StrokeLook:
    """How a stroke is drawn: what tells one kind of line from another."""

    layer: str = ""
    """Name of the layer as its author wrote it; empty where the file has none."""
    colour: str = "#000000"
    """#rrggbb of the line, or of the face where there is no line."""
    width: float = 0.0
    """mm of the line; 0 where only a face is drawn, or the file does not say."""
    dash: tuple[float, ...] = ()
    """mm of dashes and gaps; empty for a continuous line."""
    face: str = ""
    """#rrggbb of a filled face; empty without one."""


@dataclass(frozen=True, slots=True)
class FoundPath:
    """What is painted at one go."""

    strokes: tuple[Subpath, ...]
    look: StrokeLook
    clip: LineBox | None = None
    """The window that is in force, where there is one: what lies outside it is not seen."""

    def box(self) -> LineBox:
        """mm; of the lines themselves, without their width."""
        return bounds(tuple(stroke.run for stroke in self.strokes))


@dataclass(frozen=True, slots=True)
class FoundPage:
    """One page, or the whole of a DXF file."""

    number: int
    """From 1."""
    paths: tuple[FoundPath, ...]
    size: Point = (0.0, 0.0)
    """mm; width and height of what a reader sees; 0 where the file has no page."""
    pictures: int = 0
    texts: int = 0
    """How many of each were left out."""
    left_out: dict[str, int] = field(default_factory=dict)
    """Things of other kinds that are no lines, by name."""


@dataclass(frozen=True, slots=True)
class FoundFile:
    """A file as it was read."""

    file: str
    """Path as the author typed it."""
    pages: tuple[FoundPage, ...]
    unit: str = "mm"
    """Unit that the file states; empty where it states none, and numbers were taken for mm."""
    producer: str = ""
    """What wrote the file, as far as it says."""
    hidden: tuple[str, ...] = ()
    """Layers that are switched off, and were left out."""
