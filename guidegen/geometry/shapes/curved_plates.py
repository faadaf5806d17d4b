"""Measures in → plates with curved or pointed outlines: ellipse, star, crescent, leaf."""

from math import acos, atan2, cos, degrees, hypot, pi, sin

from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import (
    Arc,
    Cubic,
    Edge,
    Line,
    Measure,
    Point,
    Run,
    Segment,
    Shape,
)
from guidegen.geometry.outline.transforms import MIRROR, reverse_run, transform_run
from guidegen.geometry.shapes.building import (
    Dimensions,
    ShapeBuilder,
    ShapeError,
    centred,
    positive,
    whole_number,
)
from guidegen.geometry.shapes.fitting import fit_curve, sagitta_radius


def _from_quarter(quarter: Run) -> Run:
    """A ring from its quarter between the positive x and y axes, from its lowest point round."""
    # One quarter is fitted and mirrored, not four: so the outline is symmetrical to the last bit,
    # and half templates lie on it exactly.
    right_low = tuple(_upside_down(segment) for segment in reversed(quarter))
    right = right_low + quarter
    return right + reverse_run(transform_run(right, MIRROR))


def _upside_down(segment: Segment) -> Segment:
    """A segment mirrored across the x axis and run through from its other end."""

    def low(point: Point) -> Point:
        return (point[0], -point[1])

    match segment:
        case Line(start=start, end=end):
            return Line(low(end), low(start))
        case Cubic(start=start, control1=control1, control2=control2, end=end):
            return Cubic(low(end), low(control2), low(control1), low(start))
        case Arc(centre=centre, radius=radius, start_angle=start_angle, sweep=sweep):
            return Arc(low(centre), radius, -(start_angle + sweep), sweep)


def ellipse(dimensions: Dimensions, thickness: float) -> Shape:
    """An oval x = a*cos(t), y = b*sin(t) within FIT_TOLERANCE. Raises ShapeError."""
    positive(dimensions, "width", "height")
    a, b = dimensions["width"] / 2, dimensions["height"] / 2
    _not_a_needle(a, b)
    quarter = fit_curve(lambda t: (a * cos(t), b * sin(t)), 0.0, pi / 2)
    return Shape((Edge("rim", _from_quarter(quarter)),))


def _not_a_needle(a: float, b: float) -> None:
    if min(a, b) * 100 < max(a, b):
        name = "width" if a < b else "height"
        raise ShapeError(name, "less than a hundredth of the other side: use a strip")


def superellipse(dimensions: Dimensions, thickness: float) -> Shape:
    """The curve |x/a|**n + |y/b|**n = 1 (Lamé's curve) within FIT_TOLERANCE. Raises ShapeError.

    It is run through by the direction t of its points in a plane where a = b = 1:
    r(t) = (|cos t|**n + |sin t|**n)**(-1/n), smooth also where it crosses the axes.
    """
    positive(dimensions, "width", "height")
    a, b, n = dimensions["width"] / 2, dimensions["height"] / 2, dimensions["exponent"]
    _not_a_needle(a, b)
    if not 1 <= n <= 20:
        raise ShapeError("exponent", f"expected 1 to 20, found {n:g}")
    if n == 1:
        points = ((0.0, -b), (a, 0.0), (0.0, b), (-a, 0.0), (0.0, -b))
        return Shape((Edge("rim", lines_through(*points)),))

    def point(t: float) -> Point:
        reach = (abs(cos(t)) ** n + abs(sin(t)) ** n) ** (-1 / n)
        return (a * reach * cos(t), b * reach * sin(t))

    # In two: with an exponent above 2 the curve turns fastest at pi / 4, where a piece should end.
    quarter = fit_curve(point, 0.0, pi / 4) + fit_curve(point, pi / 4, pi / 2)
    return Shape((Edge("rim", _from_quarter(quarter)),))


def star(dimensions: Dimensions, thickness: float) -> Shape:
    """A star of n points on one circle and n hollows on a smaller one. Raises ShapeError."""
    count = whole_number(dimensions, "points", 3, 60)
    positive(dimensions, "outside", "inside")
    if dimensions["inside"] >= dimensions["outside"]:
        raise ShapeError("inside", "the hollows have to lie nearer to the middle than the points")
    reach = (dimensions["inside"] / 2, dimensions["outside"] / 2)
    # From the hollow below right of the uppermost point's opposite, counter-clockwise.
    turns = [pi / 2 + pi * (number + 1) / count for number in range(2 * count)]
    points = [(reach[n % 2] * cos(t), reach[n % 2] * sin(t)) for n, t in enumerate(turns)]
    return centred((Edge("rim", lines_through(*points, points[0])),))


def crescent(dimensions: Dimensions, thickness: float) -> Shape:
    """A disc with a round bite from the right. Raises ShapeError.

    Both circles meet where the distance d between their centres and their radii R and r make a
    triangle: cos of its angle at the disc's centre is (d**2 + R**2 - r**2) / (2*d*R), the law
    of cosines (Euclid, Elements, II.12 and 13).
    """
    positive(dimensions, "diameter", "bite", "thickness")
    big, small = dimensions["diameter"] / 2, dimensions["bite"] / 2
    # From the left rim of the disc to that of the bite is the thickness that is left.
    apart = small - big + dimensions["thickness"]
    if dimensions["thickness"] >= 2 * big:
        raise ShapeError("thickness", "as wide as the whole disc: the bite takes nothing")
    if apart <= abs(big - small) + 1e-6:
        raise ShapeError(
            "bite",
            f"lies inside the disc; with a thickness of {dimensions['thickness']:g} mm it needs "
            f"more than {2 * big - dimensions['thickness']:.1f} mm to reach over the rim",
        )
    at_big = degrees(acos((apart**2 + big**2 - small**2) / (2 * apart * big)))
    horn = (big * cos(at_big * pi / 180), big * sin(at_big * pi / 180))
    at_small = degrees(atan2(horn[1], horn[0] - apart))
    return centred(
        (
            Edge("outer", (Arc((0.0, 0.0), big, at_big, 360 - 2 * at_big),)),
            # Clockwise along the bite: the foam lies outside this circle, on the left as
            # everywhere.
            Edge("inner", (Arc((apart, 0.0), small, -at_small, -(360 - 2 * at_small)),)),
        )
    )


def _leaf_side(dimensions: Dimensions) -> Run:
    """The right side, from the lower point to the upper one."""
    positive(dimensions, "length", "width")
    length, bulge = dimensions["length"], dimensions["width"] / 2
    if bulge > length / 2 + 1e-9:
        raise ShapeError("width", f"wider than its length of {length:g} mm: turn it the other way")
    radius = sagitta_radius(length, bulge)
    half = degrees(atan2(length / 2, radius - bulge))
    return (Arc((bulge - radius, 0.0), radius, -half, 2 * half),)


def leaf(dimensions: Dimensions, thickness: float) -> Shape:
    """Two equal arcs over one chord, their radius from chord and sagitta. Raises ShapeError."""
    right = _leaf_side(dimensions)
    return Shape((Edge("right", right), Edge("left", reverse_run(transform_run(right, MIRROR)))))


def half_leaf(dimensions: Dimensions, thickness: float) -> Shape:
    """The right half, its edge 'centre' on the fold. Raises ShapeError."""
    high = dimensions["length"] / 2
    right = _leaf_side(dimensions)
    return Shape((Edge("right", right), Edge("centre", lines_through((0.0, high), (0.0, -high)))))


def _oval(shape: Shape, d: Dimensions) -> tuple[Measure, ...]:
    return (
        Measure("width", d["width"]),
        Measure("height", d["height"]),
        Measure("around the rim", run_length(shape.ring())),
    )


def _star_measures(d: Dimensions, thickness: float) -> tuple[Measure, ...]:
    step, out, hollow = pi / d["points"], d["outside"] / 2, d["inside"] / 2
    side = hypot(out - hollow * cos(step), hollow * sin(step))
    return (Measure("circle through the points", d["outside"]), Measure("one side", side))


ELLIPSE = ShapeBuilder("ellipse", ellipse, lambda d, t: _oval(ellipse(d, t), d))
SUPERELLIPSE = ShapeBuilder("superellipse", superellipse, lambda d, t: _oval(superellipse(d, t), d))
STAR = ShapeBuilder("star", star, _star_measures)
CRESCENT = ShapeBuilder(
    "crescent",
    crescent,
    lambda d, t: (
        Measure("diameter", d["diameter"]),
        Measure("thickness in the middle", d["thickness"]),
    ),
)
LEAF = ShapeBuilder(
    "leaf",
    leaf,
    lambda d, t: (
        Measure("length", d["length"]),
        Measure("width", d["width"]),
        Measure("one side, along the edge", run_length(_leaf_side(d))),
    ),
    half_leaf,
)
