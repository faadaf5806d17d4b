"""Two girths and a length in → the flat outline that rolls into a tube around a limb."""

from dataclasses import dataclass
from math import cos, degrees, pi, sin, tau

from guidegen.geometry.curves import lines_through
from guidegen.geometry.measures import bounds, segment_end, segment_start
from guidegen.geometry.records import Arc, Edge, Measure, Point, Run, Shape
from guidegen.geometry.shapes.building import (
    Dimensions,
    ShapeBuilder,
    ShapeError,
    centred,
    check_wrap,
    not_negative,
    positive,
    wrap_length,
)
from guidegen.geometry.transforms import move_shape

_STRAIGHT = 1e-3
"""mm; rims that rise less than this in their middle are drawn straight: the cylinder."""


@dataclass(frozen=True, slots=True)
class Development:
    """The flat sector that a frustum of a cone unrolls to."""

    outer: float
    """mm; radius of the longer rim."""
    inner: float
    """mm; radius of the shorter rim."""
    angle: float
    """radians between the closing edges."""


def develop_frustum(long_rim: float, short_rim: float, slope: float) -> Development:
    """The sector of a frustum with rims of two lengths, `slope` mm apart along the surface.

    From similar triangles: outer radius rho = C1*s/(C1 - C2), inner rho - s, angle C1/rho
    (the frustum net of school geometry: s = sqrt(h**2 + (R - r)**2), theta = 360*(R - r)/s;
    mathforum.org/library/drmath/view/65796.html). C1 > C2 > 0, s > 0.
    """
    outer = long_rim * slope / (long_rim - short_rim)
    return Development(outer, outer - slope, long_rim / outer)


@dataclass(frozen=True, slots=True)
class _Rims:
    """Lengths of the flat piece, all in mm."""

    top: float
    bottom: float
    closed_top: float
    """Of the closed tube, before a gap or overlap is counted."""
    closed_bottom: float
    slope: float


def _rims(d: Dimensions, thickness: float) -> _Rims:
    positive(d, "girth-top", "girth-bottom", "length")
    not_negative(d, "gap", "overlap")
    check_wrap(d)
    closed = {}
    for name in ("girth-top", "girth-bottom"):
        closed[name] = wrap_length(d[name], d, thickness)
        if closed[name] <= 0:
            raise ShapeError("ease", "takes away more than the whole girth")
        if closed[name] + d["overlap"] <= d["gap"]:
            raise ShapeError(
                "gap",
                f"the gap of {d['gap']:g} mm is larger than the whole tube, which is "
                f"{closed[name]:.1f} mm around",
            )
    more = d["overlap"] - d["gap"]
    top, bottom = closed["girth-top"], closed["girth-bottom"]
    if abs(top - bottom) >= 2 * pi * d["length"] * 0.999:
        raise ShapeError(
            "length",
            f"too short for girths that differ by {abs(top - bottom):.1f} mm: the tube would "
            "be flatter than a flat ring",
        )
    return _Rims(top + more, bottom + more, top, bottom, d["length"])


@dataclass(frozen=True, slots=True)
class _Rim:
    """One rim of the flat piece, symmetrical about the y axis."""

    length: float
    """mm along it."""
    height: float
    """mm; its y where it is straight."""
    radius: float = 0.0
    """mm, around the origin; 0 where it is straight."""
    side: int = 1
    """1: above the origin; -1: below."""

    @property
    def right(self) -> Point:
        """Its right end."""
        if not self.radius:
            return (self.length / 2, self.height)
        turn = self.length / 2 / self.radius
        return (self.radius * sin(turn), self.side * self.radius * cos(turn))

    def run(self, *, leftward: bool, half: bool) -> Run:
        """From end to end, or between the middle and the right end."""
        if not self.radius:
            right, left = self.right, (0.0 if half else -self.length / 2, self.height)
            return lines_through(right, left) if leftward else lines_through(left, right)
        turn = degrees(self.length / 2 / self.radius)
        first, sweep = self.side * (90 - turn), self.side * turn * (1 if half else 2)
        if leftward:
            return (Arc((0.0, 0.0), self.radius, first, sweep),)
        return (Arc((0.0, 0.0), self.radius, first + sweep, -sweep),)


def _placed_rims(rims: _Rims) -> tuple[_Rim, _Rim]:
    """Lower and upper rim on the plane.

    A gap or an overlap is equally wide all along, so the closing edges are not quite radial:
    each rim gets exactly its length, on the radius of the closed cone.
    """
    long_rim = max(rims.closed_top, rims.closed_bottom)
    short_rim = min(rims.closed_top, rims.closed_bottom)
    if long_rim * (long_rim - short_rim) / (8 * rims.slope) < _STRAIGHT:
        return _Rim(rims.bottom, 0.0), _Rim(rims.top, rims.slope)
    cone = develop_frustum(long_rim, short_rim, rims.slope)
    if rims.closed_top > rims.closed_bottom:
        return _Rim(rims.bottom, 0.0, cone.inner), _Rim(rims.top, 0.0, cone.outer)
    return _Rim(rims.bottom, 0.0, cone.outer, -1), _Rim(rims.top, 0.0, cone.inner, -1)


def _edges(rims: _Rims, *, half: bool) -> tuple[Edge, ...]:
    low, high = _placed_rims(rims)
    bottom, top = low.run(leftward=False, half=half), high.run(leftward=True, half=half)
    closing = "centre" if half else "side-2"
    return (
        Edge("bottom", bottom),
        Edge("side", lines_through(low.right, high.right)),
        Edge("top", top),
        Edge(closing, lines_through(segment_end(top[-1]), segment_start(bottom[0]))),
    )


def whole_tube(dimensions: Dimensions, thickness: float) -> Shape:
    """The whole flat piece, symmetrical about the y axis. Raises ShapeError.

    Both rims have the length that closes around their girth (building.wrap_length), less the
    gap, plus the overlap; the radii are those of the closed cone (develop_frustum).
    """
    return centred(_edges(_rims(dimensions, thickness), half=False))


def half_tube(dimensions: Dimensions, thickness: float) -> Shape:
    """The right half, its edge 'centre' on the fold. Raises ShapeError."""
    rims = _rims(dimensions, thickness)
    _, low, _, high = bounds(tuple(edge.run for edge in _edges(rims, half=False)))
    return move_shape(Shape(_edges(rims, half=True)), 0.0, -(low + high) / 2)


def tube_measures(dimensions: Dimensions, thickness: float) -> tuple[Measure, ...]:
    """Rims of the flat piece, and what the closed tube measures inside."""
    rims = _rims(dimensions, thickness)
    inside = tau * dimensions["neutral"] * thickness
    return (
        Measure("upper rim, flat", rims.top),
        Measure("lower rim, flat", rims.bottom),
        Measure("length along the slope", rims.slope),
        Measure("inside girth at the upper rim", rims.closed_top - inside),
        Measure("inside girth at the lower rim", rims.closed_bottom - inside),
    )


TAPERED_TUBE = ShapeBuilder("tapered-tube", whole_tube, tube_measures, half_tube)
