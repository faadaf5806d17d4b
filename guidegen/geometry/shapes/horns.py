"""A horn of segments: one straight cone cut by slanted planes, each second part turned half round.

A plane that is tilted by a against the axis of a cone cuts it in an ellipse, which half a turn
about its own normal carries into itself. So the upper part, turned half round on the cut, still
closes without a step, and the axis is bent there by 2a: the tapered elbow ("lobster back") of
sheet metal pattern drafting, where a cylinder of radius r has the cut y = r tan(a) cos(phi), and
a cone of half angle g the development about its apex

    rho(phi) = d / (cos g + sin g tan a cos(phi - psi)),    theta = phi sin g

with d the depth of the plane on the axis below the apex and psi the side to which it is tilted
(intersection of a generator with the plane).
"""

from dataclasses import dataclass
from math import asin, atan, atan2, cos, degrees, pi, radians, sin, tan, tau

from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import run_length, segment_end, segment_start
from guidegen.geometry.outline.records import Edge, Measure, Point, Run, Shape
from guidegen.geometry.outline.transforms import reverse_run
from guidegen.geometry.shapes.building import (
    Dimensions,
    ShapeBuilder,
    ShapeError,
    centred,
    check_layers,
    not_negative,
    positive,
    whole_number,
    wrap_length,
)
from guidegen.geometry.shapes.fitting import fit_curve

MOST_SEGMENTS = 24
"""Of one horn. Our choice: each is rolled, closed and joined by hand."""
LEAST_SIDE = 5.0
"""mm of a segment on the inside of the bend. Our choice: less holds no glue."""
MOST_TURN = 60.0
"""degrees at one joint. Our choice: at more, the cut is flatter than foam can be led round."""


@dataclass(frozen=True, slots=True)
class CutPlane:
    """A plane through the cone; angles in radians."""

    depth: float
    """mm below the apex, on the axis."""
    tilt: float
    """From square to the axis."""
    side: float
    """Azimuth at which it lies nearest to the apex."""


@dataclass(frozen=True, slots=True)
class HornCone:
    """The straight cone that a horn is cut from, its apex up."""

    half_angle: float
    """radians between axis and wall."""

    def radius(self, plane: CutPlane, azimuth: float) -> float:
        """mm from the apex to a plane, along the wall."""
        g = self.half_angle
        return plane.depth / (cos(g) + sin(g) * tan(plane.tilt) * cos(azimuth - plane.side))

    def place(self, plane: CutPlane, azimuth: float) -> tuple[float, float, float]:
        """The same point in space: mm, z downward from the apex."""
        rho, g = self.radius(plane, azimuth), self.half_angle
        return rho * sin(g) * cos(azimuth), rho * sin(g) * sin(azimuth), rho * cos(g)

    def opposite(self, plane: CutPlane, azimuth: float) -> float:
        """Azimuth to which half a turn about the normal of the cut carries a point of it."""
        near, far = self.place(plane, plane.side), self.place(plane, plane.side + pi)
        x, y, _ = self.place(plane, azimuth)
        # The centre of the ellipse, which lies off the axis of the cone.
        found = atan2(near[1] + far[1] - y, near[0] + far[0] - x)
        # The same turn of the cone, not one before: half round from where it was.
        return found + tau * round((azimuth + pi - found) / tau)


@dataclass(frozen=True, slots=True)
class HornSegment:
    """One segment between two planes, opened along a seam."""

    cone: HornCone
    low: CutPlane
    high: CutPlane | None
    """None where it ends in the point."""
    seam: float
    """radians; azimuth at which it is opened."""

    def flat(self, plane: CutPlane, azimuth: float) -> Point:
        """Where a point of a cut lies on the flat piece: the apex is the origin, the middle of the
        piece below it."""
        turn = (azimuth - self.seam - pi) * sin(self.cone.half_angle)
        rho = self.cone.radius(plane, azimuth)
        return rho * sin(turn), -rho * cos(turn)

    def rim(self, plane: CutPlane) -> Run:
        """A cut on the flat piece, from left to right."""
        return fit_curve(lambda azimuth: self.flat(plane, azimuth), self.seam, self.seam + tau)

    def along(self, azimuth: float) -> float:
        """mm from cut to cut along the wall."""
        top = self.cone.radius(self.high, azimuth) if self.high is not None else 0.0
        return self.cone.radius(self.low, azimuth) - top


def _segment(d: Dimensions, thickness: float) -> HornSegment:
    positive(d, "girth", "length")
    not_negative(d, "tip")
    check_layers(d)
    count = whole_number(d, "segments", 1, MOST_SEGMENTS)
    number = whole_number(d, "segment", 1, count)
    base = wrap_length(d["girth"], d, thickness) / tau
    # The neutral layer of a blunt tip; a point has none: its edges meet in it.
    tip = wrap_length(d["tip"], d, thickness) / tau if d["tip"] else 0.0
    if base - tip < 1e-5 * d["length"]:
        raise ShapeError("tip", f"expected less than the girth of {d['girth']:g} mm: horns taper")
    cone = HornCone(atan((base - tip) / d["length"]))
    whole = d["length"] * base / (base - tip)
    planes = _planes(d, count, whole)
    seam = pi
    for cut in planes[1:number]:
        # Seams follow one another: each begins where the one below ends on the cut.
        seam = cone.opposite(cut, seam)
    high = planes[number] if number < len(planes) else None
    segment = HornSegment(cone, planes[number - 1], high, seam)
    _check(segment, count)
    return segment


def _planes(d: Dimensions, count: int, whole: float) -> list[CutPlane]:
    """The cuts from the wide end on; a point has none."""
    turn = d["bend"] / (count - 1) if count > 1 else 0.0
    if count == 1 and d["bend"]:
        raise ShapeError("bend", "one segment alone is straight: a bend needs two or more")
    if abs(turn) > MOST_TURN:
        message = f"turns by {turn:.0f}° at each joint, expected {MOST_TURN:g}° at most"
        raise ShapeError("segments", message)
    step = d["length"] / count
    planes = [CutPlane(whole, 0.0, 0.0)]
    side = 0.0
    for number in range(1, count):
        planes.append(CutPlane(whole - number * step, radians(turn / 2), side))
        # Half round, since each second part is turned over; the twist leads the bend about.
        side += pi + radians(d["twist"])
    if d["tip"]:
        planes.append(CutPlane(whole - d["length"], 0.0, 0.0))
    return planes


def _check(segment: HornSegment, count: int) -> None:
    """Refuse cuts that cross, or leave too little on the inside of the bend. Raises ShapeError."""
    g = segment.cone.half_angle
    for plane in (segment.low, segment.high):
        # Tilted as far as the wall, a plane never comes out on the other side: no ellipse.
        if plane is not None and abs(plane.tilt) + g >= pi / 2:
            raise ShapeError("bend", "the cuts are steeper than the wall: expected less bend")
    least = min(segment.along(segment.seam + tau * step / 72) for step in range(72))
    if least < LEAST_SIDE:
        raise ShapeError(
            "bend",
            f"the inside of a segment would be {least:.1f} mm long, expected {LEAST_SIDE:g} mm or "
            f"more: bend less, make the horn longer, or take fewer segments than {count}",
        )


def horn_segment(dimensions: Dimensions, thickness: float) -> Shape:
    """One segment laid flat, its wide edge below. Raises ShapeError."""
    return centred(_edges(_segment(dimensions, thickness)))


def _edges(segment: HornSegment) -> tuple[Edge, ...]:
    bottom = segment.rim(segment.low)
    left, right = segment_start(bottom[0]), segment_end(bottom[-1])
    if segment.high is None:
        apex = (0.0, 0.0)
        sides = Edge("side", lines_through(right, apex)), Edge("side-2", lines_through(apex, left))
        return (Edge("bottom", bottom), *sides)
    top = reverse_run(segment.rim(segment.high))
    return (
        Edge("bottom", bottom),
        Edge("side", lines_through(right, segment_start(top[0]))),
        Edge("top", top),
        Edge("side-2", lines_through(segment_end(top[-1]), left)),
    )


def mitre_angles(segment: HornSegment, plane: CutPlane) -> tuple[float, float]:
    """Least and most degrees from square at which foam is cut along a cut, so that it closes there
    without a gap: asin(n · N), the wall's normal n and the plane's N. Negative leaves the outer
    face smaller."""
    g, a = segment.cone.half_angle, plane.tilt
    ends = [degrees(asin(sin(a) * cos(g) * c - cos(a) * sin(g))) for c in (-1.0, 1.0)]
    return min(ends), max(ends)


def horn_measures(dimensions: Dimensions, thickness: float) -> tuple[Measure, ...]:
    """Rims, and the longest and the shortest way from cut to cut."""
    segment = _segment(dimensions, thickness)
    ways = [segment.along(segment.seam + tau * step / 360) for step in range(360)]
    edges = {edge.name: run_length(edge.run) for edge in _edges(segment)}
    measures = [Measure("lower rim, flat", edges["bottom"])]
    if "top" in edges:
        measures.append(Measure("upper rim, flat", edges["top"]))
    measures += [
        Measure("outside of the bend, from edge to edge", max(ways)),
        Measure("inside of the bend, from edge to edge", min(ways)),
        Measure("closing edge", edges["side"]),
    ]
    if segment.high is not None and segment.high.tilt:
        turn = degrees(2 * abs(segment.high.tilt))
        measures.append(Measure("turn of the joint at its upper edge", turn, angle=True))
    return tuple(measures)


HORN_SEGMENT = ShapeBuilder("horn-segment", horn_segment, horn_measures)
