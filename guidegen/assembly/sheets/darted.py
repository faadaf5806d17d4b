"""A piece of cloth with darts and how it goes round a body → the same with its darts closed.

Sewn, both legs of a dart lie on one another, and the cloth between them inside. So it is left out,
and all that lies beside the dart is moved up to its middle line by half of what the dart takes
there. That keeps heights along it: of a dart of 30 mm in 110 mm its legs are 1 % short.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import numpy as np

from guidegen.assembly.records import Points3
from guidegen.assembly.sheets.bends import Bend
from guidegen.assembly.sheets.flat import Points2
from guidegen.geometry.outline.records import Edge, Line, LineKind, Point, Segment, Shape
from guidegen.geometry.pieces.records import Piece

SLIT = 3.0
"""mm that a dart stays open: what closes without a trace cannot be seen. Our choice, looked at: on
a drawing both rims are one fine line."""
NEAR = 1e-6
"""mm within which two points of one drawing are the same."""


@dataclass(frozen=True, slots=True)
class DartWedge:
    """The cloth of a dart on the cut piece, as its lines tell it."""

    tip: Point
    first: Point
    peak: Point
    second: Point
    """On the cut edge, in its order: the end of a leg, the trued end between, the other leg's."""

    @property
    def axis(self) -> tuple[Points2, float, float]:
        """Unit vector from the tip to the middle of its mouth, mm to there, half of the mouth."""
        one, two, tip = (np.array(point) for point in (self.first, self.second, self.tip))
        way = (one + two) / 2 - tip
        long = float(np.hypot(*way))
        return way / long, long, float(np.hypot(*(two - one))) / 2


@dataclass(frozen=True, eq=False)
class Darted:
    """A bend on which a piece lies with its darts closed."""

    bend: Bend
    wedges: tuple[DartWedge, ...]

    def place(self, flat: Points2) -> tuple[Points3, Points3]:
        """Points of the middle face, and unit normals outward."""
        return self.bend.place(closed(flat, self.wedges))


def closed(flat: Points2, wedges: tuple[DartWedge, ...]) -> Points2:
    """Flat points where they lie when the darts are sewn; what is inside a dart on its middle."""
    moved = flat.copy()
    for wedge in wedges:
        axis, long, half = wedge.axis
        aside = np.array([-axis[1], axis[0]])
        from_tip = flat - np.array(wedge.tip)
        off = from_tip @ aside
        # No wider beyond its mouth: what is left of the edge there hangs as it did.
        taken = np.maximum(half * np.clip(from_tip @ axis / long, 0.0, 1.0) - SLIT / 2, 0.0)
        moved -= (np.sign(off) * np.minimum(taken, np.abs(off)))[:, None] * aside
    return moved


def darted(piece: Piece, bend: Bend) -> tuple[Piece, Bend]:
    """The piece without the cloth of its darts, and the bend with them closed; as they are where
    it has none."""
    wedges = tuple(_wedges(piece.shape))
    if not wedges:
        return piece, bend
    edges = tuple(replace(edge, run=_notched(edge, wedges)) for edge in piece.shape.edges)
    return replace(piece, shape=replace(piece.shape, edges=edges)), Darted(bend, wedges)


def _wedges(shape: Shape) -> Iterator[DartWedge]:
    """The darts of a shape: a fold with two legs that begin at its tip."""
    legs = [leg for line in shape.lines if line.kind is LineKind.STITCH for leg in line.run[:1]]
    for line in shape.lines:
        fold = line.run[0]
        if line.kind is not LineKind.PLEAT or not isinstance(fold, Line):
            continue
        ends = [leg.end for leg in legs if isinstance(leg, Line) and _same(leg.start, fold.start)]
        if len(ends) == 2:
            yield DartWedge(fold.start, ends[0], fold.end, ends[1])


def _notched(edge: Edge, wedges: tuple[DartWedge, ...]) -> tuple[Segment, ...]:
    """The run of an edge with a notch to the tip of each dart in the place of its trued end."""
    return tuple(_to_tip(segment, wedges) for segment in edge.run)


def _to_tip(segment: Segment, wedges: tuple[DartWedge, ...]) -> Segment:
    if isinstance(segment, Line):
        for wedge in wedges:
            if _same(segment.end, wedge.peak):
                return Line(segment.start, wedge.tip)
            if _same(segment.start, wedge.peak):
                return Line(wedge.tip, segment.end)
    return segment


def _same(one: Point, other: Point) -> bool:
    return abs(one[0] - other[0]) < NEAR and abs(one[1] - other[1]) < NEAR
