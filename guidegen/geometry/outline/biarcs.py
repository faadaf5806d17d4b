"""Curves → arcs that meet without a corner: for machines and programs that know no splines.

Two arcs take the place of a curve's stretch, with its ends and its directions there (Bolton,
"Biarc curves", Computer-Aided Design 7, 1975; from memory), both tangents being of one length.
Where they lie too far from it, it is halved.
"""

from collections.abc import Iterator
from math import atan2, degrees, hypot, sin, sqrt

from guidegen.geometry.outline.curves import cut_segment
from guidegen.geometry.outline.measures import segment_point, tangent
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point

DEEPEST = 12
"""Halvings at most. Our choice: 4096 stretches of one curve are beyond any drawing."""
SAMPLES = 16
"""Points of a stretch that are measured. Our choice: several times the degree."""
STRAIGHT = 1e-7
"""Radians between chord and tangent below which an arc is a line."""


def arcs_along(curve: Cubic, tolerance: float) -> tuple[Line | Arc, ...]:
    """Lines and arcs end to end, at most `tolerance` mm from a curve."""
    return tuple(_arcs(curve, tolerance, DEEPEST))


def _arcs(curve: Cubic, tolerance: float, depth: int) -> Iterator[Line | Arc]:
    pair = _biarc(curve)
    if depth and (pair is None or _is_off(curve, pair, tolerance)):
        for half in (cut_segment(curve, 0, 0.5), cut_segment(curve, 0.5, 1)):
            if isinstance(half, Cubic):
                yield from _arcs(half, tolerance, depth - 1)
    else:
        yield from pair or (Line(curve.start, curve.end),)


def _biarc(curve: Cubic) -> tuple[Line | Arc, ...] | None:
    """Two arcs with the curve's ends and directions; None where they would turn too far."""
    (ax, ay), (bx, by) = curve.start, curve.end
    vx, vy = bx - ax, by - ay
    length = vx * vx + vy * vy
    if length < 1e-18:
        return None
    (px, py), (qx, qy) = tangent(curve, 0), tangent(curve, 1)
    along = vx * (px + qx) + vy * (py + qy)
    apart = 2 * (1 - (px * qx + py * qy))
    if apart > 1e-12:
        reach = (sqrt(max(along * along + apart * length, 0)) - along) / apart
    elif along > 1e-12:
        reach = length / (2 * along)
    else:
        return None
    joint = ((ax + bx + reach * (px - qx)) / 2, (ay + by + reach * (py - qy)) / 2)
    first = _arc(curve.start, joint, (px, py))
    second = _arc(curve.end, joint, (-qx, -qy))
    if first is None or second is None:
        return None
    return first, _turned(second)


def _arc(start: Point, end: Point, direction: Point) -> Line | Arc | None:
    """The arc from one point to another that begins in a direction; None from a half turn on."""
    cx, cy = end[0] - start[0], end[1] - start[1]
    chord = hypot(cx, cy)
    if chord < 1e-12:
        return None
    (dx, dy) = direction
    lean = atan2(dx * cy - dy * cx, dx * cx + dy * cy)
    if abs(lean) > 1.5:
        return None
    if abs(lean) < STRAIGHT:
        return Line(start, end)
    radius = chord / (2 * sin(lean))  # negative for a turn to the right
    centre = (start[0] - dy * radius, start[1] + dx * radius)
    angle = degrees(atan2(start[1] - centre[1], start[0] - centre[0]))
    return Arc(centre, abs(radius), angle, degrees(2 * lean))


def _turned(segment: Line | Arc) -> Line | Arc:
    """The same from its end to its start."""
    if isinstance(segment, Line):
        return Line(segment.end, segment.start)
    return Arc(segment.centre, segment.radius, segment.start_angle + segment.sweep, -segment.sweep)


def _is_off(curve: Cubic, pair: tuple[Line | Arc, ...], tolerance: float) -> bool:
    """Whether some point of the curve is farther than allowed from both."""
    return any(
        min(_distance(segment_point(curve, step / SAMPLES), one) for one in pair) > tolerance
        for step in range(1, SAMPLES)
    )


def _distance(point: Point, segment: Line | Arc) -> float:
    """mm from a point beside a segment; what lies beyond its ends is another one's."""
    if isinstance(segment, Arc):
        return abs(
            hypot(point[0] - segment.centre[0], point[1] - segment.centre[1]) - segment.radius
        )
    (ax, ay), (bx, by) = segment.start, segment.end
    length = hypot(bx - ax, by - ay)
    return abs((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)) / length
