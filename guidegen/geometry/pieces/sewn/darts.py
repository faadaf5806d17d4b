"""Darts of a cloth part → legs of equal length on its template, its cut edge trued between them.

Folded along its middle and pressed to one side, the cloth of a dart lies under the piece there; cut
along the edge through all layers it is as long as the piece. Unfolded, that cut is the mirror image
of the edge beside the dart, across its leg.
"""

from dataclasses import replace

from guidegen.geometry.outline.crossings import meetings
from guidegen.geometry.outline.curves import (
    RunSpot,
    along,
    cut_run,
    distance,
    lines_through,
    point_at,
)
from guidegen.geometry.outline.measures import bounds, run_length, tangent
from guidegen.geometry.outline.records import (
    Edge,
    InnerLine,
    Line,
    LineKind,
    Point,
    Shape,
)
from guidegen.geometry.outline.transforms import mirror_across
from guidegen.geometry.parts.darts import DartPlace


def true_dart(shape: Shape, dart: DartPlace) -> Shape | None:
    """A cut shape with a dart: legs, middle fold, its edge trued; None where a leg misses it."""
    left, low, right, high = bounds((shape.ring(),))
    reach = (right - left) + (high - low)
    for number, edge in enumerate(shape.edges):
        spots = [_meets(edge, dart.tip, leg, reach) for leg in dart.legs]
        first, second = spots
        if first is not None and second is not None:
            roof = _roof(edge, dart, (first, second))
            edges = list(shape.edges)
            edges[number] = roof[0]
            lines = [
                InnerLine(LineKind.STITCH, lines_through(dart.tip, roof[1])),
                InnerLine(LineKind.STITCH, lines_through(dart.tip, roof[3])),
                InnerLine(LineKind.PLEAT, lines_through(dart.tip, roof[2])),
            ]
            return replace(shape, edges=tuple(edges), lines=(*shape.lines, *lines))
    return None


def _meets(edge: Edge, tip: Point, leg: Point, reach: float) -> RunSpot | None:
    """Where the ray from the tip through the end of a leg passes an edge, the nearest to it."""
    long = distance(tip, leg)
    way = ((leg[0] - tip[0]) / long, (leg[1] - tip[1]) / long)
    # From just inside the finished edge: without an allowance the cut edge is that edge itself.
    ray = (Line(along(leg, way, -0.5), along(leg, way, reach)),)
    found = meetings(edge.run, ray)
    return min(found, key=lambda one: distance(one.point, leg)).first if found else None


def _roof(
    edge: Edge, dart: DartPlace, spots: tuple[RunSpot, RunSpot]
) -> tuple[Edge, Point, Point, Point]:
    """The edge with the dart's trued end; both ends of its legs, and its peak between them."""
    before, after = cut_run(edge.run, end=spots[0]), cut_run(edge.run, start=spots[1])
    one, two = (point_at(run, at)[0] for run, at in ((before, run_length(before)), (after, 0.0)))
    middle = ((dart.legs[0][0] + dart.legs[1][0]) / 2, (dart.legs[0][1] + dart.legs[1][1]) / 2)
    if dart.to_start:
        # The way back along the edge from the first leg, mirrored across that leg.
        dx, dy = tangent(before[-1], 1.0)
        peak = _peak(one, mirror_across(dart.tip, one).vector((-dx, -dy)), dart.tip, middle)
    else:
        peak = _peak(two, mirror_across(dart.tip, two).vector(tangent(after[0], 0.0)),
                     dart.tip, middle)  # fmt: skip
    return Edge(edge.name, (*before, Line(one, peak), Line(peak, two), *after)), one, peak, two


def _peak(start: Point, way: Point, tip: Point, middle: Point) -> Point:
    """Where a line from `start` meets the middle line of the dart."""
    mx, my = middle[0] - tip[0], middle[1] - tip[1]
    cross = way[0] * my - way[1] * mx
    if abs(cross) < 1e-9:
        return middle
    share = ((tip[0] - start[0]) * my - (tip[1] - start[1]) * mx) / cross
    return (start[0] + way[0] * share, start[1] + way[1] * share)
