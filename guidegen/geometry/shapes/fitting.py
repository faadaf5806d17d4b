"""Formulas in → Bézier curves and arcs that follow them within a tolerance."""

from collections.abc import Callable
from itertools import pairwise
from math import hypot

from guidegen.geometry.outline.curves import distance, turn_between
from guidegen.geometry.outline.measures import heading, segment_point, tangent
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run, Segment

FIT_TOLERANCE = 0.001
"""mm; how far a fitted curve may leave its formula. Our choice: a twentieth of FLATTEN_TOLERANCE,
so that it is lost in it."""

type FittedCurve = Callable[[float], Point]
"""A smooth formula: a point in mm for every parameter, also a little beyond its ends."""


def fit_curve(curve: FittedCurve, start: float, end: float) -> Run:
    """Cubic Bézier pieces through a smooth curve, from parameter `start` to `end`.

    Hermite pieces (same points and tangents at both ends), halved until they fit.
    """
    return tuple(_fit(curve, start, end, 0))


def _fit(curve: FittedCurve, start: float, end: float, depth: int) -> list[Segment]:
    # A cubic has the slope of its first handle times three: Hermite to Bézier.
    third = (end - start) / 3
    first, last = curve(start), curve(end)
    (ax, ay), (bx, by) = _slope(curve, start, third), _slope(curve, end, third)
    piece = Cubic(
        first,
        (first[0] + ax * third, first[1] + ay * third),
        (last[0] - bx * third, last[1] - by * third),
        last,
    )
    # Never at once: the five places of the test are symmetrical, and an S-curve could pass all of
    # them while it bulges between.
    if depth >= 10 or (depth >= 1 and _misfit(curve, start, end, piece) <= FIT_TOLERANCE):
        return [piece]
    middle = (start + end) / 2
    return _fit(curve, start, middle, depth + 1) + _fit(curve, middle, end, depth + 1)


def _slope(curve: FittedCurve, t: float, size: float) -> Point:
    """Derivative by central difference, exact to about a millionth of the step."""
    # The best step of a central difference is about the cube root of rounding, 6e-6; a little more
    # spares the noise of formulas with cancelling terms.
    step = 1e-4 * size
    (x0, y0), (x1, y1) = curve(t - step), curve(t + step)
    return ((x1 - x0) / (2 * step), (y1 - y0) / (2 * step))


def _misfit(curve: FittedCurve, start: float, end: float, piece: Cubic) -> float:
    """Largest distance, across the curve, between formula and piece at five places."""
    worst = 0.0
    for n in range(1, 6):
        t = n / 6
        true, got = curve(start + (end - start) * t), segment_point(piece, t)
        dx, dy = tangent(piece, t)
        # Across only: a point that has slid along the curve is still on it.
        worst = max(worst, abs((true[0] - got[0]) * dy - (true[1] - got[1]) * dx))
    return worst


def arc_through(start: Point, middle: Point, end: Point) -> Segment:
    """The circular arc through three points; a line where they lie on one.

    Its centre is where the perpendicular bisectors meet (Euclid, Elements, III.1).
    """
    ax, ay = middle[0] - start[0], middle[1] - start[1]
    bx, by = end[0] - start[0], end[1] - start[1]
    cross = 2 * (ax * by - ay * bx)
    # The sine of the angle between both chords: flatter arcs have a radius that loses its digits.
    if abs(cross) < 1e-9 * max(1.0, hypot(bx, by)) ** 2:
        return Line(start, end)
    aa, bb = ax * ax + ay * ay, bx * bx + by * by
    centre = (start[0] + (by * aa - ay * bb) / cross, start[1] + (ax * bb - bx * aa) / cross)
    spokes = [(p[0] - centre[0], p[1] - centre[1]) for p in (start, middle, end)]
    # By way of the middle: an arc of more than half a turn has the same ends as the rest of its
    # circle.
    sweep = sum(turn_between(one, two) for one, two in pairwise(spokes))
    return Arc(centre, distance(centre, start), heading(spokes[0]), sweep)


def sagitta_radius(chord: float, sagitta: float) -> float:
    """Radius in mm of the arc over a chord that rises by `sagitta`: c**2/(8*s) + s/2.

    From the right triangle of radius, half chord and radius less sagitta (Euclid, III.35).
    """
    return chord * chord / (8 * sagitta) + sagitta / 2
