"""Two girths and a length in → the flat outline that rolls into a tube around a limb."""

from dataclasses import dataclass
from math import asin, degrees, pi, sqrt, tau

from guidegen.geometry.outline.curves import NEAR, lines_through
from guidegen.geometry.outline.measures import run_length, segment_end, segment_start
from guidegen.geometry.outline.records import Arc, Edge, Line, Measure, Run, Shape
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
    wrap_length,
)
from guidegen.geometry.shapes.cones import FlatTube
from guidegen.geometry.shapes.rims import Rim, half_rim

LEAST_LEAN = 0.5
"""degrees of a wall below which nobody bevels its rims. Our choice: a blade is led no truer."""
MOST_SCALLOPS = 60
"""Along one rim. Our choice: nobody cuts more by hand."""


@dataclass(frozen=True, slots=True)
class _Tube:
    """A tube with both its rims."""

    flat: FlatTube
    low: Rim
    high: Rim


def flat_tube(d: Dimensions, thickness: float, overlap: float = 0.0) -> FlatTube:
    """The closed tube of two girths and a slope, opened to lie flat. Raises ShapeError.

    Both rims have the length that closes around their girth (building.wrap_length) plus their
    flare; a gap or an overlap is equally wide all along, so the closing edges are not quite
    radial: each rim gets exactly its length, on the radius of the closed cone. A girth of 0 is the
    point of a full cone: its rim is what the foam's own thickness leaves.
    """
    positive(d, "length")
    not_negative(d, "girth-top", "girth-bottom", "gap")
    check_layers(d)
    top, bottom = (
        wrap_length(d[f"girth-{end}"], d, thickness) + d.get(f"flare-{end}", 0.0)
        for end in ("top", "bottom")
    )
    for end, around in (("top", top), ("bottom", bottom)):
        if around <= 0 and not d[f"girth-{end}"] and d["ease"] >= 0:
            raise ShapeError(
                f"girth-{end}",
                "0 is the point of a full cone, and foam without thickness has no rim there: "
                "expected a girth of 1 mm or more",
            )
    if min(top, bottom) <= 0:
        raise ShapeError("ease", "takes away more than the whole girth")
    if not d["girth-top"] and not d["girth-bottom"]:
        raise ShapeError("girth-top", "both rims are points: one needs a girth of more than 0")
    if min(top, bottom) + overlap <= d["gap"]:
        raise ShapeError(
            "gap",
            f"the gap of {d['gap']:g} mm is larger than the whole tube, which is "
            f"{min(top, bottom):.1f} mm around",
        )
    # Rims of radius R and r on a slope s need R - r < s. At equality the cone lies flat as a ring;
    # a thousandth less and its apex angle is still computable.
    if abs(top - bottom) >= tau * d["length"] * 0.999:
        raise ShapeError(
            "length",
            f"too short for rims that differ by {abs(top - bottom):.1f} mm: the tube would be "
            "flatter than a flat ring",
        )
    return FlatTube(top, bottom, d["length"], overlap - d["gap"])


def _tube(d: Dimensions, thickness: float) -> _Tube:
    not_negative(d, "overlap", "scallop-depth")
    flat = flat_tube(d, thickness, d["overlap"])
    rims = [
        Rim(
            name,
            height,
            d[f"slant-{name}"],
            whole_number(d, f"scallops-{name}", 0, MOST_SCALLOPS),
            d["scallop-depth"],
        )
        for name, height in (("bottom", 0.0), ("top", flat.slope))
    ]
    cut = sum(rim.slant for rim in rims) + sum(rim.depth for rim in rims if rim.scallops)
    if cut >= flat.slope:
        raise ShapeError("length", "the slant and the scallops leave nothing at the closing edges")
    for rim in rims:
        far = rim.height + rim.inward * rim.slant
        # A slant that passes the apex would come out on its other side, turned over. A rim without
        # one ends where its girth says, however near to the point of a full cone.
        if rim.slant and flat.girth(far) <= flat.slope / 100:
            raise ShapeError(f"slant-{rim.name}", "reaches over the point of the cone")
    return _Tube(flat, rims[0], rims[1])


def tube_edges(low: Run, high: Run, *, half: bool) -> tuple[Edge, ...]:
    """Edges of a flat tube from the right halves of its rims, both from the middle out."""
    bottom = low if half else _both_sides(low)
    top = reverse_run(high if half else _both_sides(high))
    return (
        Edge("bottom", bottom),
        Edge("side", lines_through(segment_end(low[-1]), segment_end(high[-1]))),
        Edge("top", top),
        Edge(
            "centre" if half else "side-2",
            lines_through(segment_end(top[-1]), segment_start(bottom[0])),
        ),
    )


def _both_sides(half: Run) -> Run:
    """A rim from its left end to its right end; one segment where both halves are of one."""
    left, first = reverse_run(transform_run(half, MIRROR)), half[0]
    if len(half) > 1:
        return left + half
    # About the y axis both halves are one arc: one segment prints, cuts and measures as one edge.
    if isinstance(first, Arc) and abs(first.centre[0]) < NEAR:
        return (Arc(first.centre, first.radius, first.start_angle - first.sweep, 2 * first.sweep),)
    if isinstance(first, Line) and abs(first.end[1] - first.start[1]) < NEAR:
        return (Line(segment_start(left[0]), first.end),)
    return left + half


def whole_tube(dimensions: Dimensions, thickness: float) -> Shape:
    """The whole flat piece, symmetrical about the y axis. Raises ShapeError."""
    tube = _tube(dimensions, thickness)
    return centred(_edges(tube, half=False))


def half_tube(dimensions: Dimensions, thickness: float) -> Shape:
    """The right half, its edge 'centre' on the fold. Raises ShapeError."""
    tube = _tube(dimensions, thickness)
    return centred_half(_edges(tube, half=True), _edges(tube, half=False))


def _edges(tube: _Tube, *, half: bool) -> tuple[Edge, ...]:
    return tube_edges(half_rim(tube.flat, tube.low), half_rim(tube.flat, tube.high), half=half)


def tube_measures(dimensions: Dimensions, thickness: float) -> tuple[Measure, ...]:
    """Rims of the flat piece, and what the closed tube measures inside."""
    tube = _tube(dimensions, thickness)
    edges = {edge.name: run_length(edge.run) for edge in _edges(tube, half=False)}
    inside = 2 * pi * dimensions["neutral"] * thickness
    flat = tube.flat
    # Both rims close to circles; the sine of the lean is what their radii differ on the slope.
    inward = min(abs(flat.top - flat.bottom) / (2 * pi) / flat.slope, 1.0)
    lean = degrees(asin(inward))
    leaning = (
        Measure("height of the closed tube", flat.slope * sqrt(1 - inward**2)),
        Measure("lean of its wall, and bevel with which its rims stand flat", lean, angle=True),
    )
    return (
        Measure("upper rim, flat", edges["top"]),
        Measure("lower rim, flat", edges["bottom"]),
        Measure("length along the slope", tube.flat.slope),
        Measure("closing edge", edges["side"]),
        Measure("inside girth at the upper rim", tube.flat.top - inside),
        Measure("inside girth at the lower rim", tube.flat.bottom - inside),
        *(leaning if lean >= LEAST_LEAN else ()),
    )


TAPERED_TUBE = ShapeBuilder("tapered-tube", whole_tube, tube_measures, half_tube)
