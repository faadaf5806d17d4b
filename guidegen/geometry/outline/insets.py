"""An outline and an inset in → the outline that much smaller all round, openings wider (mm)."""

from guidegen.geometry.outline.areas import fault_of, shape_area, shrunk
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.offsets import OffsetError, offset_edges
from guidegen.geometry.outline.records import Edge, Line, Point, Run, Shape
from guidegen.geometry.outline.unfold import FoldError, unfold

AGREES = 0.002
"""Share by which the area of an outline moved edge by edge may differ from the area that is left.
Our choice: more is a loop, or a neck that has closed, and the polygon is taken instead."""

WHOLE_EDGE = "rim"
"""Name of the only edge where the edges of an outline do not survive the inset."""


def inset_template(template: Shape, fold: str, inset: float) -> Shape | None:
    """A template with each edge but its fold moved inward by `inset` mm and each hole widened.

    Edges keep their names and curves. None where an edge does not survive that, or where more than
    one piece is left: `inset_whole` says what is left then.
    """
    bare = Shape(template.edges, template.holes)
    if inset == 0:
        return bare
    widths = {edge.name: -inset for edge in bare.edges if edge.name != fold}
    try:
        holes = tuple(_wider(hole, inset) for hole in bare.holes)
        shape = Shape(offset_edges(bare.edges, widths, fold), holes)
        whole = unfold(shape, fold) if fold else shape
        before = unfold(bare, fold) if fold else bare
    except (OffsetError, FoldError):
        return None
    if fault_of(whole) is not None:
        return None
    left = inset_whole(before, inset)
    area = sum(shape_area(piece) for piece in left)
    return shape if len(left) == 1 and abs(shape_area(whole) - area) <= AGREES * area else None


def inset_whole(whole: Shape, inset: float) -> list[Shape]:
    """What is left of a whole outline, as polygons of one edge each, largest first.

    What is narrower than twice the inset is gone, so that several pieces may be left, or none.
    """
    rings = [flatten(hole) for hole in whole.holes]
    return [
        Shape((Edge(WHOLE_EDGE, _closed(outer)),), tuple(map(_closed, holes)))
        for outer, *holes in shrunk(flatten(whole.ring()), rings, inset)
    ]


def _wider(hole: Run, inset: float) -> Run:
    # Holes run clockwise: the foam lies to their left as it does along the outline, so that the
    # same sign moves both into the foam.
    (edge,) = offset_edges((Edge(WHOLE_EDGE, hole),), {WHOLE_EDGE: -inset})
    return edge.run


def _closed(points: list[Point]) -> Run:
    after = [*points[1:], *points[:1]]
    return tuple(Line(start, end) for start, end in zip(points, after, strict=True))
