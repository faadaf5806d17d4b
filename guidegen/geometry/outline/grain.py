"""A whole piece and the way of its material's grain in → the arrow that lies along it.

Templates may not be turned at will on such a material: its cut plans turn pieces by half a turn.
"""

from itertools import pairwise
from typing import Literal

from guidegen.buildfile.records.materials import Material, Stuff
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import InnerLine, Line, LineKind, Point, Shape

type Along = Literal["upright", "across"]

_PLACES = (0.2, 0.8, 0.5, 0.35, 0.65)
"""Shares of the width at which there may be room, the best first: labels stand in the middle."""
SHARE, LONGEST, BARB = 0.5, 120.0, 5.0
"""Share of the piece that an arrow takes; mm at most, and mm of its barbs. Our choice."""


def grain_of(material: Material | None) -> Along | None:
    """Along which axis of a template the grain runs; None where pieces may be turned, or where it
    does not matter. Cloth off a roll has it along the roll, wood along the longer side."""
    if material is None or material.rotation not in {"half", "none"} or not material.sheets:
        return None
    if material.made_of is Stuff.CLOTH:
        return "upright"
    if material.made_of is not Stuff.WOOD:
        return None
    width, height = material.sheets[0].usable()
    return "across" if width >= height else "upright"


def grain_lines(shape: Shape, grain: Along | None) -> list[InnerLine]:
    """The arrow, where it has room inside the outline; none for a piece too slim for one."""
    if grain is None:
        return []
    ring = [_turned(point, grain) for point in flatten(shape.ring())]
    left, right = min(x for x, _ in ring), max(x for x, _ in ring)
    low, high = min(y for _, y in ring), max(y for _, y in ring)
    half, middle = min((high - low) * SHARE, LONGEST) / 2, (low + high) / 2
    for share in _PLACES:
        x = left + (right - left) * share
        tip, tail = (x, middle + half), (x, middle - half)
        barbs = ((x - BARB / 2, tip[1] - BARB), (x + BARB / 2, tip[1] - BARB))
        if half > 2 * BARB and all(_inside(p, ring) for p in (tip, tail, *barbs, (x, middle))):
            points = [_turned(point, grain) for point in (barbs[0], tip, barbs[1], tip, tail)]
            run = tuple(Line(a, b) for a, b in pairwise(points))
            return [InnerLine(LineKind.GRAIN, run)]
    return []


def _turned(point: Point, grain: Along) -> Point:
    """The point with the grain upright, or back again."""
    return point if grain == "upright" else (point[1], point[0])


def _inside(point: Point, ring: list[Point]) -> bool:
    """Whether a point lies in a ring: a ray from it crosses the ring an odd number of times."""
    x, y = point
    inside = False
    for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1], strict=True):
        if (ay > y) != (by > y) and x < ax + (y - ay) / (by - ay) * (bx - ax):
            inside = not inside
    return inside
