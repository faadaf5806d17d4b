"""Measures in → what is set into a seam or a slit to give room: gusset and godet."""

from math import cos, radians, sin, sqrt

from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Arc, Edge, Measure, Shape
from guidegen.geometry.shapes.building import (
    Dimensions,
    ShapeBuilder,
    ShapeError,
    centred,
    positive,
)


def gusset(dimensions: Dimensions, thickness: float) -> Shape:
    """A rhombus whose four sides are as long as the slits that it is sewn into. Raises ShapeError.

    It gives `opens` mm across; upright it is 2 * sqrt(slit² - (opens / 2)²) (Pythagoras).
    """
    positive(dimensions, "slit", "opens")
    slit, half = dimensions["slit"], dimensions["opens"] / 2
    if half >= slit:
        raise ShapeError("opens", f"expected less than twice the slit, {2 * slit:g} mm")
    high = sqrt(slit**2 - half**2)
    low, right, top, left = (0.0, -high), (half, 0.0), (0.0, high), (-half, 0.0)
    return Shape(
        (
            Edge("lower-right", lines_through(low, right)),
            Edge("upper-right", lines_through(right, top)),
            Edge("upper-left", lines_through(top, left)),
            Edge("lower-left", lines_through(left, low)),
        )
    )


def godet(dimensions: Dimensions, thickness: float) -> Shape:
    """A sector that is sewn into a slit of a hem and swings out there. Raises ShapeError.

    Both its sides are as long as the slit, and its hem is an arc of slit * angle around its tip.
    """
    positive(dimensions, "slit", "angle")
    angle, slit = dimensions["angle"], dimensions["slit"]
    if angle > 180:
        raise ShapeError("angle", f"expected at most 180 degrees, found {angle:g}")
    start = -90 - angle / 2
    first, last = (
        (slit * cos(radians(turn)), slit * sin(radians(turn))) for turn in (start, start + angle)
    )
    return centred(
        (
            Edge("hem", (Arc((0.0, 0.0), slit, start, angle),)),
            Edge("right", lines_through(last, (0.0, 0.0))),
            Edge("left", lines_through((0.0, 0.0), first)),
        )
    )


def _box(shape: Shape) -> tuple[Measure, ...]:
    left, low, right, high = bounds((shape.ring(),))
    return (Measure("width", right - left), Measure("height", high - low))


GUSSET = ShapeBuilder("gusset", gusset, lambda d, t: _box(gusset(d, t)))
GODET = ShapeBuilder("godet", godet, lambda d, t: _box(godet(d, t)))
