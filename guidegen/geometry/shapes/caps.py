"""Radii of a dome in → gores and darted discs that close to it.

No flat piece bends both ways, so these are approximations: the more gores or darts, the less the
foam has to give. Outlines follow the layer of foam that keeps its length: the inside moved out
by the backing and the neutral share of the thickness.
"""

from dataclasses import dataclass
from math import cos, degrees, pi, sin

from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import Arc, Edge, Measure, Point, Run, Shape
from guidegen.geometry.outline.transforms import MIRROR, reverse_run, transform_run
from guidegen.geometry.shapes.building import (
    Dimensions,
    ShapeBuilder,
    ShapeError,
    centred,
    centred_half,
    check_layers,
    not_negative,
    positive,
    whole_number,
)
from guidegen.geometry.shapes.fitting import fit_curve
from guidegen.geometry.shapes.ovals import oval_arc, oval_turn

MOST_GORES = 60
"""Our choice: twice what anyone glues."""


def layer_of(d: Dimensions, thickness: float) -> float:
    """mm from the inside to the layer of foam that keeps its length. Raises ShapeError."""
    check_layers(d)
    return d["backing"] + d["neutral"] * thickness


# Gores.


@dataclass(frozen=True, slots=True)
class _Gore:
    """A gore of a ball or spheroid, at the layer that keeps its length."""

    count: int
    radius: float
    rise: float
    turn: float
    """radians from the crown to the rim; a quarter round at the widest place."""

    def point(self, turn: float) -> Point:
        """Right side of the gore: half of the parallel's share, at the meridian's length."""
        width = pi * self.radius * sin(turn) / self.count
        return (width, -oval_arc(self.radius, self.rise, turn))


def _gore(d: Dimensions, thickness: float) -> _Gore:
    positive(d, "radius")
    not_negative(d, "rise", "arc")
    count = whole_number(d, "gores", 2, MOST_GORES)
    layer = layer_of(d, thickness)
    rise = d["rise"] or d["radius"]
    if max(rise, d["radius"]) > 10 * min(rise, d["radius"]):
        raise ShapeError("rise", "more than ten times flatter or steeper than it is wide")
    # At the other pole the gore closes to a point; near it the rim is shorter than a knife is
    # wide.
    longest = oval_arc(d["radius"], rise, pi)
    if d["arc"] > 0.97 * longest:
        raise ShapeError("arc", f"reaches round to the other pole, {longest:.1f} mm away")
    turn = oval_turn(d["radius"], rise, d["arc"]) if d["arc"] else pi / 2
    return _Gore(count, d["radius"] + layer, rise + layer, turn)


def _gore_edges(gore: _Gore, *, half: bool) -> tuple[Edge, ...]:
    # From the rim up to the crown: counter-clockwise after the rim, which runs left to right.
    right = fit_curve(gore.point, gore.turn, 0.0)
    width, low = gore.point(gore.turn)
    rim = lines_through((0.0 if half else -width, low), (width, low))
    if half:
        return (
            Edge("rim", rim),
            Edge("right", right),
            Edge("centre", lines_through((0.0, 0.0), (0.0, low))),
        )
    return (
        Edge("rim", rim),
        Edge("right", right),
        Edge("left", reverse_run(transform_run(right, MIRROR))),
    )


def whole_gore(dimensions: Dimensions, thickness: float) -> Shape:
    """One of n equal gores. Raises ShapeError.

    At every parallel it has 1/n of its circumference: a ball of radius R has, at the arc a from
    the crown, the half width (pi*R/n) * sin(a/R): the sinusoidal projection, cut along n
    meridians (J. P. Snyder, Map Projections: A Working Manual, USGS Professional Paper 1395,
    1987, equations 30-1 and 30-2: x = R*longitude*cos(latitude), y = R*latitude). All gores
    together have exactly the surface of the ball, since each strip of latitude keeps its length
    and its width. A spheroid has its own radius and meridian arc in the same place.
    """
    return centred(_gore_edges(_gore(dimensions, thickness), half=False))


def half_gore(dimensions: Dimensions, thickness: float) -> Shape:
    """The right half, its edge 'centre' on the fold. Raises ShapeError."""
    gore = _gore(dimensions, thickness)
    return centred_half(_gore_edges(gore, half=True), _gore_edges(gore, half=False))


def _gore_measures(d: Dimensions, thickness: float) -> tuple[Measure, ...]:
    gore = _gore(d, thickness)
    rise = d["rise"] or d["radius"]
    return (
        Measure("rim of one gore", 2 * gore.point(gore.turn)[0]),
        Measure("middle line, crown to rim", -gore.point(gore.turn)[1]),
        Measure("side, along the edge", run_length(fit_curve(gore.point, gore.turn, 0.0))),
        Measure("inside diameter at the rim", 2 * d["radius"] * sin(gore.turn)),
        Measure("inside depth", rise * (1 - cos(gore.turn))),
    )


# One piece with darts.


@dataclass(frozen=True, slots=True)
class _Dome:
    """A darted disc of a ball of `radius` mm, at the layer that keeps its length."""

    radius: float
    arc: float
    darts: int
    tip: float

    def excess(self, arc: float) -> float:
        """mm by which the disc is too long around at an arc from the crown."""
        return 2 * pi * (arc - self.radius * sin(arc / self.radius))

    def dart_width(self, arc: float) -> float:
        """mm of one dart: none at its tip, the whole excess at the rim."""
        # Inside the tips nothing is taken out, so the darts begin at width 0 there and have to
        # make up at the rim for all of it: a little more per mm than the excess itself grows.
        first = self.excess(self.tip)
        share = (self.excess(arc) - first) / (self.excess(self.arc) - first)
        return self.excess(self.arc) * share / self.darts

    def dart_side(self, arc: float, middle: float, side: int) -> Point:
        """A point on one side of the dart whose middle lies at an angle (radians)."""
        angle = middle + side * self.dart_width(arc) / 2 / arc
        return (arc * cos(angle), arc * sin(angle))


def _dome(d: Dimensions, thickness: float) -> _Dome:
    positive(d, "radius", "arc", "tip")
    layer = layer_of(d, thickness)
    darts = whole_number(d, "darts", 2, 12)
    if d["arc"] > 2.5 * d["radius"]:
        raise ShapeError("arc", f"expected at most 2.5 times the radius, {2.5 * d['radius']:g} mm")
    if d["tip"] > 0.8 * d["arc"]:
        raise ShapeError("tip", f"leaves no dart: expected at most {0.8 * d['arc']:g} mm")
    # Arcs are given on the inside, and grow with the radius to the layer that keeps its length.
    grown = (d["radius"] + layer) / d["radius"]
    return _Dome(d["radius"] * grown, d["arc"] * grown, darts, d["tip"] * grown)


def whole_dome(dimensions: Dimensions, thickness: float) -> Shape:
    """A disc with n darts that closes to a part of a ball. Raises ShapeError.

    A disc of radius s is 2*pi*s around, the ball at the arc s only 2*pi*R*sin(s/R): the
    difference is taken out at the rim by n darts. Inside their tips the foam has to be
    stretched, with heat.
    """
    dome = _dome(dimensions, thickness)
    step = 2 * pi / dome.darts
    half = dome.dart_width(dome.arc) / 2 / dome.arc
    edges: list[Edge] = []
    for number in range(1, dome.darts + 1):
        middle = -pi / 2 + number * step
        # The rim between two darts is the step less half a dart at each end.
        first = middle - step + half
        rim = Arc((0.0, 0.0), dome.arc, degrees(first), degrees(step - 2 * half))
        edges.append(Edge(f"rim-{number}", (rim,)))
        edges.append(Edge(f"dart-{number}a", _dart_run(dome, middle, -1)))
        edges.append(Edge(f"dart-{number}b", reverse_run(_dart_run(dome, middle, 1))))
    return centred(tuple(edges))


def _dart_run(dome: _Dome, middle: float, side: int) -> Run:
    """One side of a dart, from the rim in to its tip."""
    return fit_curve(lambda arc: dome.dart_side(arc, middle, side), dome.arc, dome.tip)


def _dome_measures(d: Dimensions, thickness: float) -> tuple[Measure, ...]:
    dome = _dome(d, thickness)
    turn = d["arc"] / d["radius"]
    return (
        Measure("rim when the darts are closed", 2 * pi * dome.radius * sin(turn)),
        Measure("one dart, at the rim", dome.dart_width(dome.arc)),
        Measure("inside diameter at the rim", 2 * d["radius"] * sin(turn)),
        Measure("inside depth", d["radius"] * (1 - cos(turn))),
    )


GORE = ShapeBuilder("gore", whole_gore, _gore_measures, half_gore)
DOME = ShapeBuilder("dome", whole_dome, _dome_measures)
