"""Arcs in → cubic Bézier curves out, since PDF knows no arcs."""

from collections.abc import Iterator
from math import ceil, cos, pi, radians, sin, tan

from guidegen.geometry.outline.records import Arc, Cubic, Point

ARC_ERROR = 0.002
"""mm; how far the Bézier curves that stand for an arc may leave it. Our choice: a twenty-fifth of
what is promised for printed outlines."""


def arc_curves(arc: Arc) -> Iterator[Cubic]:
    """An arc as Bézier curves, in its own direction, that stay within ARC_ERROR mm of it.

    The error of one curve over an angle a is about r · a⁶ / 13500 (radians; the usual estimate for
    curves of which ends, end tangents and middle lie on the arc), hence the step.
    """
    first, turn = radians(arc.start_angle), radians(arc.sweep)
    step = min(pi / 2, (13500 * ARC_ERROR / arc.radius) ** (1 / 6))
    count = max(1, ceil(abs(turn) / step))
    part = turn / count
    # Distance from an end to its control point along the tangent; negative turns run clockwise.
    reach = 4 / 3 * tan(part / 4) * arc.radius

    def at(angle: float) -> Point:
        x, y = arc.centre
        return (x + arc.radius * cos(angle), y + arc.radius * sin(angle))

    for number in range(count):
        a, b = first + part * number, first + part * (number + 1)
        start, end = at(a), at(b)
        yield Cubic(
            start,
            (start[0] - reach * sin(a), start[1] + reach * cos(a)),
            (end[0] + reach * sin(b), end[1] - reach * cos(b)),
            end,
        )
