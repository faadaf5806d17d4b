"""Two plates that lap and move on one another → overlap and limits, by plane trigonometry.

Seen from the side, a pivot is the origin and a plate's crown a line `reach` mm from it. At rest
both lines are one. Turned by an angle a, straight plates cross where both tangents of the circle of
that radius meet: reach * tan(a / 2) from either foot. Domed plates slide along it: reach * a.
"""

from math import atan, cos, degrees, radians, sin, tan

WIDEST = 150.0
"""degrees by which two plates are turned at the most. Our choice: no knee bends farther."""


def crown_height(spacing: float, wraps: float) -> float:
    """mm from the axis through both pivots to the crown of a plate bent to a circular arc.

    `spacing` is mm from pivot to pivot along the flat plate, `wraps` degrees of the arc: a chord's
    rise, r * (1 - cos(w / 2)) with r = spacing / w.
    """
    turn = radians(wraps)
    return spacing / turn * (1 - cos(turn / 2))


def lost_by_turning(reach: float, angle: float, *, domed: bool) -> float:
    """mm of overlap that are lost when two plates open by `angle` degrees about their pivots."""
    if domed:
        return reach * radians(angle)
    return 2 * reach * tan(radians(angle) / 2)


def angle_that_loses(reach: float, length: float, *, domed: bool) -> float:
    """degrees about the pivots that take `length` mm of overlap; at most `WIDEST`."""
    if length <= 0 or reach <= 0:
        return 0.0
    angle = degrees(length / reach) if domed else 2 * degrees(atan(length / (2 * reach)))
    return min(angle, WIDEST)


def pushed_up(reach: float, beyond: float, angle: float) -> float:
    """mm by which a straight plate's edge stands off its turned neighbour.

    `beyond` is mm from the pivots to the edge, along the crown; where the plates no longer lap
    there it is 0.
    """
    turn = radians(angle)
    return max(0.0, beyond - reach * tan(turn / 2)) * sin(turn)


def most_pushed_up(reach: float, beyond: float, angle: float) -> float:
    """The most of it on the way from rest to `angle` degrees, to a degree."""
    # It grows and falls again where the lap ends, so the end alone does not tell.
    steps = [float(step) for step in range(int(angle) + 1)]
    return max(pushed_up(reach, beyond, step) for step in (*steps, angle))


def longer_hoop(thick: tuple[float, float], clearance: float, wraps: float) -> float:
    """mm by which the outer plate is longer from pivot to pivot than the one that it laps.

    Foam keeps its length in its middle, and the middles are half of both and the air apart: on an
    arc of w that is w times as much.
    """
    return radians(wraps) * (sum(thick) / 2 + clearance)
