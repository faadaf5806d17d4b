"""Rings and lines in → mm between them, and which of many lie near one another."""

from collections.abc import Sequence
from itertools import pairwise

from shapely import LineString, STRtree, linestrings
from shapely import Point as ShapelyPoint
from shapely import points as many_points

from guidegen.geometry.outline.polygons import Ring, parts_of, polygon_of
from guidegen.geometry.outline.records import Point

HAUSDORFF_PARTS = 20
"""Parts of a segment at whose ends the distance is taken. Our choice: on curves that were taken
apart to 0.1 mm they lie closer than that."""


def farthest_apart(first: Sequence[Point], second: Sequence[Point]) -> float:
    """Hausdorff distance in mm between two polylines, along their whole length."""
    return max(_farthest_from(first, second), _farthest_from(second, first))


def lie_alike(first: Sequence[Point], second: Sequence[Point], within: float) -> bool:
    """Whether two polylines are less than `within` mm apart, as `farthest_apart` has it.

    Most pairs are told apart by their boxes, or have their points one by one in the same places:
    no tree is made for them.
    """
    if len(first) == len(second):
        for other in (second, second[::-1]):
            if all(
                (x - u) ** 2 + (y - v) ** 2 < (0.999 * within) ** 2
                for (x, y), (u, v) in zip(first, other, strict=True)
            ):
                return True  # points between two that are near are as near
    # Each side of a box is touched by a point, and all of the other line lies within its own.
    if any(
        abs(end(p[axis] for p in first) - end(p[axis] for p in second)) > 1.001 * within
        for axis in (0, 1)
        for end in (min, max)
    ):
        return False
    return farthest_apart(first, second) < within


def _farthest_from(line: Sequence[Point], other: Sequence[Point]) -> float:
    """mm that some point of a line is away from the other line, where that is most.

    Found through a tree of the other's segments: point by segment, an outline of 6,000 points
    takes half a minute.
    """
    shares = [part / HAUSDORFF_PARTS for part in range(HAUSDORFF_PARTS)]
    points = [
        (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
        for (x0, y0), (x1, y1) in pairwise(line)
        for share in shares
    ]
    tree = STRtree(linestrings([*pairwise(other)]))
    asked = many_points([*points, line[-1]])
    _, distances = tree.query_nearest(asked, return_distance=True, all_matches=False)
    return float(max(distances))


def distance_to(ring: Ring, point: Point) -> float:
    """mm from a point to the nearest place on a ring, from inside and outside alike."""
    return float(polygon_of(ring).exterior.distance(ShapelyPoint(point)))


def distance_to_line(line: Ring, point: Point) -> float:
    """mm from a point to the nearest place on an open line."""
    return float(LineString(line).distance(ShapelyPoint(point)))


def farthest_outside(ring: Ring, outer: Ring) -> float:
    """mm by which a filled ring stands out over another at most; 0 where it lies within."""
    base = polygon_of(outer)
    left = polygon_of(ring).difference(base)
    corners = [point for part in parts_of(left) for point in part.exterior.coords]
    return max((float(base.distance(ShapelyPoint(point))) for point in corners), default=0.0)


def gap_between(line: Ring, ring: Ring) -> float:
    """mm between an open line and a ring where they are nearest; 0 where they cross or overlap."""
    return float(LineString(line).distance(polygon_of(ring)))


def pairs_nearer_than(
    polygons: Sequence[tuple[Ring, Sequence[Ring]]], gap: float, tolerance: float
) -> list[tuple[int, int, float]]:
    """Pairs of polygons with holes less than `gap` mm apart, and mm between them (0: overlap).

    `tolerance` mm are forgiven. Where the gap is no more than that, polygons may touch but not
    overlap: they are compared shrunk by half the tolerance each.
    """
    shapes = [polygon_of(ring, holes) for ring, holes in polygons]
    wanted = gap - tolerance
    if wanted <= 0:
        # Touching is allowed here, and a distance of 0 does not tell touching from overlapping.
        # Shrunk by half the tolerance each, only what overlaps by more still meets.
        shapes, wanted = [shape.buffer(-tolerance / 2) for shape in shapes], 0.0
    tree = STRtree(shapes)
    found = []
    for index, shape in enumerate(shapes):
        for other in tree.query(shape, predicate="dwithin", distance=wanted):
            # The tree answers for both of a pair, and for each with itself: each pair is wanted
            # once.
            if other <= index:
                continue
            distance = float(shape.distance(shapes[other]))
            if distance < wanted or distance == 0:
                found.append((index, int(other), distance))
    return sorted(found)
