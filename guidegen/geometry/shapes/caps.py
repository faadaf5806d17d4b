"""Radii of a dome in → gores, halves and darted discs that close to it.

No flat piece bends both ways, so these are approximations: the more gores or darts, the less the
foam has to give. Outlines follow the layer of foam that keeps its length: the inside moved out
by the backing and the neutral share of the thickness.
"""

from dataclasses import dataclass
from math import cos, degrees, hypot, pi, sin
from typing import Self

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


def _layer(d: Dimensions, thickness: float) -> float:
    """mm from the inside to the layer of foam that keeps its length."""
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
    layer = _layer(d, thickness)
    rise = d["rise"] or d["radius"]
    if max(rise, d["radius"]) > 10 * min(rise, d["radius"]):
        raise ShapeError("rise", "more than ten times flatter or steeper than it is wide")
    longest = oval_arc(d["radius"], rise, pi)
    if d["arc"] > 0.97 * longest:
        raise ShapeError("arc", f"reaches round to the other pole, {longest:.1f} mm away")
    turn = oval_turn(d["radius"], rise, d["arc"]) if d["arc"] else pi / 2
    return _Gore(count, d["radius"] + layer, rise + layer, turn)


def _gore_edges(gore: _Gore, *, half: bool) -> tuple[Edge, ...]:
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
    the crown, the half width (pi*R/n) * sin(a/R) (themathdoctors.org/?p=4260; for the chord
    form R*sin(pi/n) see physicsforums.com, thread 990476). All gores together have exactly the
    surface of the ball, since each strip of latitude keeps its length and its width. A
    spheroid has its own radius and meridian arc in the same place.
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


# Halves that meet over the crown.


@dataclass(frozen=True, slots=True)
class _CapHalf:
    """Half of a cap, at the layer that keeps its length; all in mm."""

    long: float
    """Half axis of the ellipsoid along the cap."""
    across: float
    """From rim to crown in the middle: a quarter of the ellipse there."""
    spine: float
    """From the middle of the cap to halfway between rim and crown: a half axis too."""

    @classmethod
    def of_axes(cls, long: float, wide: float, rise: float) -> Self:
        across = oval_arc(wide, rise, pi / 2)
        turn = oval_turn(wide, rise, across / 2)
        return cls(long, across, hypot(wide * sin(turn), rise * cos(turn)))

    def point(self, turn: float, side: int) -> Point:
        """The crown (side 1) or the rim (-1), `turn` radians from the middle to an end."""
        return (oval_arc(self.long, self.spine, turn), side * cos(turn) * self.across / 2)


def _cap_half(d: Dimensions, thickness: float) -> _CapHalf:
    positive(d, "length", "width", "rise")
    layer = _layer(d, thickness)
    axes = (d["length"] / 2 + layer, d["width"] / 2 + layer, d["rise"] + layer)
    if max(axes) > 10 * min(axes):
        raise ShapeError("rise", "length, half width and height differ more than tenfold")
    return _CapHalf.of_axes(*axes)


def _cap_edges(cap: _CapHalf, *, half: bool) -> tuple[Edge, ...]:
    rim = fit_curve(lambda turn: cap.point(turn, -1), 0.0, pi / 2)
    crown = fit_curve(lambda turn: cap.point(turn, 1), pi / 2, 0.0)
    if half:
        middle = cap.across / 2
        closing = lines_through((0.0, middle), (0.0, -middle))
        return (Edge("rim", rim), Edge("crown", crown), Edge("centre", closing))
    return (
        Edge("rim", reverse_run(transform_run(rim, MIRROR)) + rim),
        Edge("crown", crown + reverse_run(transform_run(crown, MIRROR))),
    )


def whole_cap_half(dimensions: Dimensions, thickness: float) -> Shape:
    """One of two equal halves of half an ellipsoid, joined over the crown. Raises ShapeError.

    Sections square to the length are ellipses of one form, smaller by cos(u) where the length
    is a*sin(u); each half has a quarter of each of them, laid square to its middle line, which
    is an ellipse too. For a ball it is a gore of four (whole_gore), so all area is kept.
    """
    return centred(_cap_edges(_cap_half(dimensions, thickness), half=False))


def half_cap_half(dimensions: Dimensions, thickness: float) -> Shape:
    """The right half, its edge 'centre' on the fold. Raises ShapeError."""
    cap = _cap_half(dimensions, thickness)
    return centred_half(_cap_edges(cap, half=True), _cap_edges(cap, half=False))


def _cap_measures(d: Dimensions, thickness: float) -> tuple[Measure, ...]:
    cap = _cap_half(d, thickness)
    edges = {edge.name: run_length(edge.run) for edge in _cap_edges(cap, half=False)}
    return (
        Measure("rim to crown in the middle", cap.across),
        Measure("end to end along the middle", 2 * cap.point(pi / 2, 1)[0]),
        Measure("crown seam, along the edge", edges["crown"]),
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
        first = self.excess(self.tip)
        share = (self.excess(arc) - first) / (self.excess(self.arc) - first)
        return self.excess(self.arc) * share / self.darts

    def dart_side(self, arc: float, middle: float, side: int) -> Point:
        """A point on one side of the dart whose middle lies at an angle (radians)."""
        angle = middle + side * self.dart_width(arc) / 2 / arc
        return (arc * cos(angle), arc * sin(angle))


def _dome(d: Dimensions, thickness: float) -> _Dome:
    positive(d, "radius", "arc", "tip")
    layer = _layer(d, thickness)
    darts = whole_number(d, "darts", 2, 12)
    if d["arc"] > 2.5 * d["radius"]:
        raise ShapeError("arc", f"expected at most 2.5 times the radius, {2.5 * d['radius']:g} mm")
    if d["tip"] > 0.8 * d["arc"]:
        raise ShapeError("tip", f"leaves no dart: expected at most {0.8 * d['arc']:g} mm")
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
CAP_HALF = ShapeBuilder("cap-half", whole_cap_half, _cap_measures, half_cap_half)
DOME = ShapeBuilder("dome", whole_dome, _dome_measures)
