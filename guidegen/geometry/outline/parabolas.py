"""Quadratic Bézier curves as cubic ones, and back: outlines and drawings know the cubic alone."""

from math import hypot

from guidegen.geometry.outline.records import Cubic, Point


def parabola(start: Point, control: Point, end: Point) -> Cubic:
    """A quadratic Bézier as a cubic one (degree elevation: controls at two thirds)."""
    one, two = (
        (p[0] + (control[0] - p[0]) * 2 / 3, p[1] + (control[1] - p[1]) * 2 / 3)
        for p in (start, end)
    )
    return Cubic(start, one, two, end)


def parabola_control(curve: Cubic) -> Point | None:
    """The control point of a cubic that is a quadratic one; None for others."""
    one, two = (
        ((3 * c[0] - p[0]) / 2, (3 * c[1] - p[1]) / 2)
        for p, c in ((curve.start, curve.control1), (curve.end, curve.control2))
    )
    return one if hypot(one[0] - two[0], one[1] - two[1]) < 1e-6 else None
