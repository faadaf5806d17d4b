"""Numbers of DXF entities in → lines, arcs and cubics out, as the DXF reference defines them."""

from collections.abc import Sequence
from itertools import pairwise
from math import atan, atan2, cos, degrees, hypot, pi, radians, sin

from guidegen.geometry.drawing.curves import ellipse_cubics
from guidegen.geometry.outline.records import Arc, Line, Point, Run, Segment


def flat(point: Sequence[float]) -> Point:
    """A point seen from above."""
    return (float(point[0]), float(point[1]))


def is_speck(segment: Segment) -> bool:
    """A segment without any length."""
    if isinstance(segment, Arc):
        return segment.radius * abs(radians(segment.sweep)) < 1e-9
    a, b = segment.start, segment.end
    return isinstance(segment, Line) and hypot(b[0] - a[0], b[1] - a[1]) < 1e-9


def from_front(arc: Arc) -> Arc:
    """An arc that was given as seen from behind, where x counts the other way."""
    return Arc((-arc.centre[0], arc.centre[1]), arc.radius, 180 - arc.start_angle, -arc.sweep)


def polyline(points: Sequence[tuple[float, float, float]], *, closed: bool, flip: bool) -> Run:
    """Lines and arcs through points, each with the bulge of what follows: x, y, bulge.

    `flip` says that they are given as seen from behind.
    """
    if flip:
        points = [(-x, y, -bulge) for x, y, bulge in points]
    pairs = list(pairwise(points))
    if closed and len(points) > 1:
        pairs.append((points[-1], points[0]))
    return tuple(_bulged(a[:2], b[:2], a[2]) for a, b in pairs)


def _bulged(start: Point, end: Point, bulge: float) -> Segment:
    """A line, or the arc whose quarter turn has the tangent `bulge`."""
    x, y = end[0] - start[0], end[1] - start[1]
    chord = hypot(x, y)
    if abs(bulge) < 1e-9 or chord < 1e-9:
        return Line(start, end)
    sweep = 4 * atan(bulge)
    radius = chord / 2 / abs(sin(sweep / 2))
    # From the middle of the chord to the centre: to the left where the arc turns left by less
    # than a half turn.
    rise = chord / 2 * cos(sweep / 2) / sin(sweep / 2)
    centre = (
        (start[0] + end[0]) / 2 - y / chord * rise,
        (start[1] + end[1]) / 2 + x / chord * rise,
    )
    first = atan2(start[1] - centre[1], start[0] - centre[0])
    return Arc(centre, radius, degrees(first), degrees(sweep))


def ellipse(centre: Point, u: Point, v: Point, span: tuple[float, float]) -> tuple[Run, bool]:
    """A part of an ellipse as cubics within 4e-7 of its size, and whether it is all of it.

    `u` and `v` are its half axes, `span` its parameters at start and end in radians.
    """
    first = span[0]
    sweep = (span[1] - first) % (2 * pi) or 2 * pi

    def at(t: float) -> Point:
        x, y = cos(t), sin(t)
        return (centre[0] + x * u[0] + y * v[0], centre[1] + x * u[1] + y * v[1])

    whole = abs(sweep - 2 * pi) < 1e-9
    ends = (at(first), at(first) if whole else at(first + sweep))
    return ellipse_cubics((centre, u, v), first, sweep, ends), whole


def toward(end: Point, control: Point) -> Point:
    """Control point of the cubic that equals a quadratic: two thirds of the way to its own."""
    return (end[0] + (control[0] - end[0]) * 2 / 3, end[1] + (control[1] - end[1]) * 2 / 3)
