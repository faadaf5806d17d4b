"""Measures in → plates that lean against one another: ridges, rings of segments, boxes.

Outlines are those of the outer faces; bevels say how much smaller the inner faces are.
"""

from dataclasses import dataclass
from math import acos, asin, atan2, cos, degrees, hypot, pi, radians, sin, tan, tau

from guidegen.geometry.outline.bevels import STEEPEST, EdgeBevel
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import Edge, Measure, Run, Shape
from guidegen.geometry.shapes.building import (
    Dimensions,
    NetFold,
    ShapeBuilder,
    ShapeError,
    centred,
    centred_half,
    not_negative,
    positive,
    whole_number,
)
from guidegen.geometry.shapes.cones import FlatTube
from guidegen.geometry.shapes.rims import level_rim
from guidegen.geometry.shapes.tapered_tube import tube_edges

SQUARE_ENOUGH = 0.5
"""degrees; smaller bevels are cut square. Our choice: finer than a knife is led by hand."""


def _bevels(**angles: tuple[float, str]) -> dict[str, EdgeBevel]:
    """Bevels by edge, those as good as square left out."""
    return {
        edge: EdgeBevel(angle, direction)
        for edge, (angle, direction) in angles.items()
        if angle > SQUARE_ENOUGH
    }


# Ridge.


def ridge_lean(dimensions: Dimensions) -> float:
    """degrees that each strip of a ridge leans from upright: atan(half base / rise).

    Raises ShapeError where the ridge is too flat to be bevelled.
    """
    d = dimensions
    positive(d, "length", "base", "rise")
    not_negative(d, "radius")
    if d["stands"] not in (0, 1):
        raise ShapeError("stands", f"expected 0 or 1, found {d['stands']:g}")
    lean = degrees(atan2(d["base"] / 2, d["rise"]))
    if 90 - lean > STEEPEST:
        raise ShapeError("base", "so narrow that its strips cannot be bevelled: glue them flat")
    if d["stands"] and lean > STEEPEST:
        raise ShapeError("rise", "so flat that its foot cannot be bevelled to stand on the foam")
    return lean


def _ridge_edges(d: Dimensions, *, half: bool) -> tuple[Edge, ...]:
    """A strip of the cone whose rims are the foot and the crest of the ridge.

    Around a circle, foot and crest are circles of radius R and R + rise, so each strip is part
    of a frustum with a slope of hypot(base / 2, rise) and is developed as one (cones).
    """
    ridge_lean(d)
    slope = hypot(d["base"] / 2, d["rise"])
    if d["radius"]:
        turn = d["length"] / d["radius"]
        if turn > tau + 1e-9:
            raise ShapeError("length", f"more than once around, {tau * d['radius']:.1f} mm")
        foot, crest = tau * d["radius"], tau * (d["radius"] + d["rise"])
    else:
        # A straight ridge is a tube of no taper, unrolled once: the same code serves both.
        foot = crest = d["length"]
        turn = tau
    tube = FlatTube(crest, foot, slope)
    low, high = (level_rim(tube, height, turn / 2) for height in (0.0, slope))
    names = ("foot", "right", "crest", "centre" if half else "left")
    edges = tube_edges(low, high, half=half)
    return tuple(Edge(name, edge.run) for name, edge in zip(names, edges, strict=True))


def ridge(dimensions: Dimensions, thickness: float) -> Shape:
    """One of the two strips of a ridge. Raises ShapeError."""
    return centred(_ridge_edges(dimensions, half=False))


def half_ridge(dimensions: Dimensions, thickness: float) -> Shape:
    """The right half of a strip, its edge 'centre' on the fold. Raises ShapeError."""
    return centred_half(_ridge_edges(dimensions, half=True), _ridge_edges(dimensions, half=False))


def ridge_bevels(dimensions: Dimensions, thickness: float) -> dict[str, EdgeBevel]:
    """Crest and foot of a strip that leans by `lean` degrees from upright.

    At the crest the faces turn by 180 - 2*lean, half of it for each strip. A foot that stands on
    the foam is cut level with it, lean degrees from square. A foot that joins foam beside it
    makes a hollow of 90 - lean degrees, half of it for each edge, and there the outer face is
    the smaller one.
    """
    lean = ridge_lean(dimensions)
    foot = (lean, "inward") if dimensions["stands"] else ((90 - lean) / 2, "outward")
    return _bevels(crest=(90 - lean, "inward"), foot=foot)


def _ridge_measures(d: Dimensions, thickness: float) -> tuple[Measure, ...]:
    lengths = {e.name: run_length(e.run) for e in _ridge_edges(d, half=False)}
    return (
        Measure("crest, along the edge", lengths["crest"]),
        Measure("foot, along the edge", lengths["foot"]),
        Measure("width of the strip", lengths["right"]),
    )


# Ring of straight segments.


def segment_mitre(segments: float, lean: float) -> float:
    """degrees by which the ends of a plate are cut from square, on its face.

    atan(tan(180/n) * sin(lean)): the compound mitre of woodworkers' handbooks, with the lean
    from upright; 180/n for a ring that lies flat.
    """
    return degrees(atan2(tan(pi / segments) * sin(radians(lean)), 1))


def segment_bevel(segments: float, lean: float) -> float:
    """degrees by which the ends of a plate are bevelled: asin(sin(180/n) * cos(lean))."""
    return degrees(asin(sin(pi / segments) * cos(radians(lean))))


def _segment_edges(d: Dimensions, *, half: bool) -> tuple[Edge, ...]:
    count = whole_number(d, "segments", 3, 60)
    positive(d, "across", "width")
    if not 0 <= d["lean"] <= 90:
        raise ShapeError("lean", f"expected 0 to 90 degrees, found {d['lean']:g}")
    low = d["across"] / 2 * tan(pi / count)
    high = low - d["width"] * tan(radians(segment_mitre(count, d["lean"])))
    # mm; less is a point, which frays.
    if high < 0.5:
        most = low / tan(radians(segment_mitre(count, d["lean"])))
        raise ShapeError("width", f"the plates meet in a point after {most:.1f} mm")
    y = d["width"] / 2
    left, left_high = (0.0, 0.0) if half else (-low, -high)
    return (
        Edge("bottom", lines_through((left, -y), (low, -y))),
        Edge("right", lines_through((low, -y), (high, y))),
        Edge("top", lines_through((high, y), (left_high, y))),
        Edge("centre" if half else "left", lines_through((left_high, y), (left, -y))),
    )


def ring_segment(dimensions: Dimensions, thickness: float) -> Shape:
    """One of n equal plates that close to a ring. Raises ShapeError."""
    return Shape(_segment_edges(dimensions, half=False))


def half_ring_segment(dimensions: Dimensions, thickness: float) -> Shape:
    """The right half of a plate, its edge 'centre' on the fold. Raises ShapeError."""
    return Shape(_segment_edges(dimensions, half=True))


def ring_bevels(dimensions: Dimensions, thickness: float) -> dict[str, EdgeBevel]:
    """Both ends of a plate: 180/n upright, none where the ring lies flat."""
    angle = segment_bevel(dimensions["segments"], dimensions["lean"])
    return _bevels(right=(angle, "inward"), left=(angle, "inward"))


def _segment_measures(d: Dimensions, thickness: float) -> tuple[Measure, ...]:
    lengths = {e.name: run_length(e.run) for e in _segment_edges(d, half=False)}
    return (
        Measure("lower edge", lengths["bottom"]),
        Measure("upper edge", lengths["top"]),
        Measure("mitred end", lengths["right"]),
        Measure("width", d["width"]),
    )


# Box.


@dataclass(frozen=True, slots=True)
class _Box:
    """Half sizes of the floor and the rim, and the walls' slope, in mm."""

    x: float
    y: float
    lean: float
    slope: float
    fold: float
    """degrees that a wall is folded up."""


def _box(d: Dimensions, thickness: float) -> _Box:
    positive(d, "width", "depth", "height")
    if min(d["width"], d["depth"]) + 2 * d["lean"] <= 0:
        raise ShapeError("lean", "the walls meet before the rim")
    if not 0 <= d["floor"] < thickness:
        message = f"expected less than the foam's {thickness:g} mm, found {d['floor']:g}"
        raise ShapeError("floor", message)
    outward = degrees(atan2(d["lean"], d["height"]))
    if abs(outward) > 60:
        raise ShapeError("lean", f"the walls lean by {abs(outward):.0f} degrees, more than 60")
    slope = hypot(d["height"], d["lean"])
    return _Box(d["width"] / 2, d["depth"] / 2, d["lean"], slope, 90 - outward)


def box(dimensions: Dimensions, thickness: float) -> Shape:
    """The net of an open box: floor in the middle, a wall at each side. Raises ShapeError.

    All walls rise by the same height and widen by the same lean, so they have one slope,
    hypot(height, lean), and the two edges of each corner are equally long.
    """
    b = _box(dimensions, thickness)
    far_x, far_y = b.x + b.slope, b.y + b.slope
    wide_x, wide_y = b.x + b.lean, b.y + b.lean
    points = (
        (-wide_x, -far_y), (wide_x, -far_y), (b.x, -b.y),
        (far_x, -wide_y), (far_x, wide_y), (b.x, b.y),
        (wide_x, far_y), (-wide_x, far_y), (-b.x, b.y),
        (-far_x, wide_y), (-far_x, -wide_y), (-b.x, -b.y),
    )  # fmt: skip
    names = (
        "front", "front-right", "right-front", "right", "right-back", "back-right",
        "back", "back-left", "left-back", "left", "left-front", "front-left",
    )  # fmt: skip
    ends = (*points[1:], points[0])
    return Shape(
        tuple(Edge(n, lines_through(p, q)) for n, p, q in zip(names, points, ends, strict=True))
    )


def box_folds(dimensions: Dimensions, thickness: float) -> tuple[NetFold, ...]:
    """The four grooves along the floor."""
    b = _box(dimensions, thickness)
    corners = ((-b.x, -b.y), (b.x, -b.y), (b.x, b.y), (-b.x, b.y), (-b.x, -b.y))
    runs: tuple[Run, ...] = tuple(lines_through(*corners[n : n + 2]) for n in range(4))
    return tuple(NetFold(run, b.fold, dimensions["floor"]) for run in runs)


def box_bevels(dimensions: Dimensions, thickness: float) -> dict[str, EdgeBevel]:
    """The corner edges: half of the turn between two walls, 45 degrees where they are upright.

    Outer normals of walls that lean outward by a are (cos a, 0, -sin a) and (0, -cos a, -sin a);
    the angle between them is acos(sin(a)**2).
    """
    b = _box(dimensions, thickness)
    turn = degrees(acos(cos(radians(b.fold)) ** 2))
    edges = [edge.name for edge in box(dimensions, thickness).edges if "-" in edge.name]
    return {edge: EdgeBevel(turn / 2, "inward") for edge in edges}


def _box_measures(d: Dimensions, thickness: float) -> tuple[Measure, ...]:
    b = _box(d, thickness)
    return (
        Measure("floor, across", 2 * b.x),
        Measure("floor, upright", 2 * b.y),
        Measure("rim, across", 2 * (b.x + b.lean)),
        Measure("rim, upright", 2 * (b.y + b.lean)),
        Measure("height of a wall, along it", b.slope),
    )


RIDGE = ShapeBuilder("ridge", ridge, _ridge_measures, half_ridge, ridge_bevels)
RING_SEGMENT = ShapeBuilder(
    "ring-segment", ring_segment, _segment_measures, half_ring_segment, ring_bevels
)
BOX = ShapeBuilder("box", box, _box_measures, bevels=box_bevels, folds=box_folds)
