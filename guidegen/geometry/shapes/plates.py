"""Measures in → flat plates: strip, disc, ring, rounded rectangle, frame, regular polygon."""

from math import cos, pi, sin

from guidegen.geometry.outline.curves import lines_through, tidy_run
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Arc, Edge, Line, Measure, Run, Segment, Shape
from guidegen.geometry.outline.transforms import reverse_run
from guidegen.geometry.shapes.building import (
    Dimensions,
    ShapeBuilder,
    ShapeError,
    centred,
    not_negative,
    positive,
    whole_number,
)


def strip(dimensions: Dimensions, thickness: float) -> Shape:
    """A straight band, lengthwise from left to right. Raises ShapeError."""
    positive(dimensions, "length", "width")
    return _box(-dimensions["length"] / 2, dimensions["length"] / 2, dimensions["width"], "left")


def half_strip(dimensions: Dimensions, thickness: float) -> Shape:
    """The right half of a band, its edge 'centre' on the fold. Raises ShapeError."""
    positive(dimensions, "length", "width")
    return _box(0.0, dimensions["length"] / 2, dimensions["width"], "centre")


def _box(left: float, right: float, height: float, left_name: str) -> Shape:
    low, high = -height / 2, height / 2
    return Shape(
        (
            Edge("bottom", lines_through((left, low), (right, low))),
            Edge("right", lines_through((right, low), (right, high))),
            Edge("top", lines_through((right, high), (left, high))),
            Edge(left_name, lines_through((left, high), (left, low))),
        )
    )


def disc(dimensions: Dimensions, thickness: float) -> Shape:
    """A full circle, from its lowest point round. Raises ShapeError."""
    positive(dimensions, "diameter")
    return Shape((Edge("rim", _circle(dimensions["diameter"])),))


def _circle(diameter: float) -> Run:
    return (Arc((0.0, 0.0), diameter / 2, -90, 360),)


def ring(dimensions: Dimensions, thickness: float) -> Shape:
    """A circle with a round hole in its middle. Raises ShapeError."""
    positive(dimensions, "outside", "inside")
    if dimensions["inside"] >= dimensions["outside"]:
        raise ShapeError(
            "inside",
            f"the hole of {dimensions['inside']:g} mm is not smaller than the outside of "
            f"{dimensions['outside']:g} mm",
        )
    hole = (Arc((0.0, 0.0), dimensions["inside"] / 2, -90, -360),)
    return Shape((Edge("rim", _circle(dimensions["outside"])),), (hole,))


def rounded_rectangle(dimensions: Dimensions, thickness: float) -> Shape:
    """A plate whose four edges each end in the middle of a rounded corner. Raises ShapeError."""
    return Shape(_rounded(dimensions["width"], dimensions["height"], dimensions["radius"]))


def _rounded(width: float, height: float, radius: float) -> tuple[Edge, ...]:
    positive({"width": width, "height": height}, "width", "height")
    not_negative({"radius": radius}, "radius")
    # A radius of exactly half a side is meant: arithmetic may miss it by a hair.
    if radius > min(width, height) / 2 + 1e-9:
        raise ShapeError(
            "radius",
            f"larger than half of the shorter side, which is {min(width, height) / 2:g} mm",
        )
    right, high = width / 2 - radius, height / 2 - radius
    corners = ((-right, -high), (right, -high), (right, high), (-right, high))
    edges = []
    for number, name in enumerate(("bottom", "right", "top", "left")):
        here, there = corners[number], corners[(number + 1) % 4]
        turn = 90.0 * number - 90
        out = (radius * cos(turn * pi / 180), radius * sin(turn * pi / 180))
        straight = Line(
            (here[0] + out[0], here[1] + out[1]), (there[0] + out[0], there[1] + out[1])
        )
        parts: tuple[Segment, ...] = (straight,)
        if radius > 0:
            # Each edge has half of both corners, so that allowances and seams of one edge end
            # where the eye ends it.
            parts = (Arc(here, radius, turn - 45, 45), straight, Arc(there, radius, turn, 45))
        # Where corners take up a whole side the straight part has no length, and goes.
        edges.append(Edge(name, tidy_run(parts)))
    return tuple(edges)


def frame(dimensions: Dimensions, thickness: float) -> Shape:
    """A plate with a window, its corners rounded as far as the web leaves. Raises ShapeError."""
    positive(dimensions, "web")
    width, height, web = dimensions["width"], dimensions["height"], dimensions["web"]
    edges = _rounded(width, height, dimensions["radius"])
    if 2 * web >= min(width, height):
        raise ShapeError("web", "leaves no window: it is half of the shorter side or more")
    # Parallel to the outline: its corners are rounder by the web.
    inner = _rounded(width - 2 * web, height - 2 * web, max(0.0, dimensions["radius"] - web))
    window = tuple(segment for edge in inner for segment in edge.run)
    return Shape(edges, (reverse_run(window),))


def polygon(dimensions: Dimensions, thickness: float) -> Shape:
    """A regular polygon that stands on one of its sides. Raises ShapeError.

    Corners lie on the circle of diameter `across`; a side is across * sin(180 degrees / n).
    """
    sides = whole_number(dimensions, "sides", 3, 60)
    positive(dimensions, "across")
    radius = dimensions["across"] / 2
    turns = [-pi / 2 - pi / sides + 2 * pi * number / sides for number in range(sides + 1)]
    points = [(radius * cos(turn), radius * sin(turn)) for turn in turns]
    # The last corner is the first one, not what a full turn of the sine makes of it.
    points[-1] = points[0]
    return centred((Edge("rim", lines_through(*points)),))


def _size(shape: Shape) -> tuple[Measure, ...]:
    left, low, right, high = bounds((shape.ring(),))
    return (Measure("width", right - left), Measure("height", high - low))


STRIP = ShapeBuilder(
    "strip",
    strip,
    lambda d, t: (Measure("length", d["length"]), Measure("width", d["width"])),
    half_strip,
)
DISC = ShapeBuilder("disc", disc, lambda d, t: (Measure("diameter", d["diameter"]),))
RING = ShapeBuilder(
    "ring",
    ring,
    lambda d, t: (
        Measure("outer diameter", d["outside"]),
        Measure("diameter of the hole", d["inside"]),
    ),
)
ROUNDED_RECTANGLE = ShapeBuilder(
    "rounded-rectangle", rounded_rectangle, lambda d, t: _size(rounded_rectangle(d, t))
)
FRAME = ShapeBuilder(
    "frame",
    frame,
    lambda d, t: (
        *_size(frame(d, t)),
        Measure("window width", d["width"] - 2 * d["web"]),
        Measure("window height", d["height"] - 2 * d["web"]),
    ),
)
POLYGON = ShapeBuilder(
    "polygon",
    polygon,
    lambda d, t: (
        Measure("one side", d["across"] * sin(pi / d["sides"])),
        *_size(polygon(d, t)),
    ),
)
