"""Measures in → bands: belts with holes, overlapping lames, rows of scales."""

from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.records import (
    Arc,
    Edge,
    InnerLine,
    LineKind,
    Measure,
    Point,
    Run,
    Shape,
)
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
from guidegen.geometry.shapes.tapered_tube import flat_tube, tube_edges

LEAST_WEB = 2.0
"""mm of foam between holes, and to the edge. Our choice: half of what 2 mm foam needs by common
practice, so that only what must tear is refused."""


def belt_length(dimensions: Dimensions, thickness: float) -> float:
    """mm from the left end, at the buckle, to where the middle hole lies: the closed girth."""
    return wrap_length(dimensions["girth"], dimensions, thickness)


def belt(dimensions: Dimensions, thickness: float) -> Shape:
    """A belt that closes around a girth and overlaps, its holes at a pitch. Raises ShapeError.

    The middle hole lies one closed girth (building.wrap_length) from the left end.
    """
    d = dimensions
    positive(d, "girth", "width", "hole", "pitch")
    not_negative(d, "overlap", "tip")
    check_layers(d)
    closed = belt_length(d, thickness)
    length = closed + d["overlap"]
    if closed <= 0:
        raise ShapeError("ease", "takes away more than the whole girth")
    if d["tip"] >= length / 2:
        raise ShapeError("tip", "longer than half of the belt")
    low, high = -d["width"] / 2, d["width"] / 2
    shoulder = length - d["tip"]
    tip: tuple[Point, ...] = ((length, 0.0),) if d["tip"] else ()
    edges = (
        Edge("bottom", lines_through((0.0, low), (shoulder, low))),
        Edge("right", lines_through((shoulder, low), *tip, (shoulder, high))),
        Edge("top", lines_through((shoulder, high), (0.0, high))),
        Edge("left", lines_through((0.0, high), (0.0, low))),
    )
    return centred(edges, _belt_holes(d, closed, length))


def _belt_holes(d: Dimensions, closed: float, length: float) -> tuple[Run, ...]:
    count = whole_number(d, "holes", 0, 60)
    if not count:
        return ()
    if d["hole"] + 2 * LEAST_WEB > d["width"]:
        raise ShapeError("hole", f"too large for a belt of {d['width']:g} mm")
    if d["pitch"] < d["hole"] + LEAST_WEB:
        raise ShapeError("pitch", f"expected at least {d['hole'] + LEAST_WEB:g} mm")
    # Holes lie evenly about the closed girth, so that the middle one fits and the others take in
    # as much as they let out.
    reach = (count - 1) / 2 * d["pitch"]
    room = d["hole"] / 2 + LEAST_WEB
    if closed + reach + room > length - d["tip"]:
        needed = reach + room + d["tip"]
        raise ShapeError("overlap", f"too short for the holes: they need {needed:.1f} mm")
    if closed - reach - room < 0:
        raise ShapeError("holes", "more holes than the belt has room for")
    return tuple(
        # Clockwise, as every hole runs.
        (Arc((closed - reach + number * d["pitch"], 0.0), d["hole"] / 2, -90, -360),)
        for number in range(count)
    )


def _belt_measures(d: Dimensions, thickness: float) -> tuple[Measure, ...]:
    closed = belt_length(d, thickness)
    return (
        Measure("whole length", closed + d["overlap"]),
        Measure("left end to the middle hole", closed),
        Measure("width", d["width"]),
    )


# Lames.


def _lame(d: Dimensions, thickness: float) -> tuple[FlatTube, Rim, Rim]:
    """The tube of the whole row, and where this lame begins and ends on it.

    With n lames over a length L, each v over the next, a lame is (L + (n - 1)*v) / n high.
    """
    count = whole_number(d, "lames", 1, 60)
    number = whole_number(d, "lame", 1, count)
    not_negative(d, "overlap")
    positive(d, "girth-top", "girth-bottom")  # a tube may end in a point, a lame is a band
    tube = flat_tube(d, thickness)
    height = (d["length"] + (count - 1) * d["overlap"]) / count
    # A lame would reach under the next but one: three layers on one another.
    if count > 1 and height < 2 * d["overlap"]:
        raise ShapeError(
            "overlap", f"more than half of a lame, which is {height:.1f} mm high: use fewer lames"
        )
    # Numbered from the top of the limb downward; each begins one overlap above the end of the
    # last.
    top = d["length"] - (number - 1) * (height - d["overlap"])
    return tube, Rim("bottom", top - height), Rim("top", top)


def _lame_edges(d: Dimensions, thickness: float, *, half: bool) -> tuple[Edge, ...]:
    tube, low, high = _lame(d, thickness)
    return tube_edges(half_rim(tube, low), half_rim(tube, high), half=half)


def lame(dimensions: Dimensions, thickness: float) -> Shape:
    """One lame of a row down a limb: a piece of the tube around it. Raises ShapeError."""
    return centred(_lame_edges(dimensions, thickness, half=False))


def half_lame(dimensions: Dimensions, thickness: float) -> Shape:
    """The right half, its edge 'centre' on the fold. Raises ShapeError."""
    edges = _lame_edges(dimensions, thickness, half=True)
    return centred_half(edges, _lame_edges(dimensions, thickness, half=False))


def _lame_measures(d: Dimensions, thickness: float) -> tuple[Measure, ...]:
    lengths = {e.name: run_length(e.run) for e in _lame_edges(d, thickness, half=False)}
    _, low, high = _lame(d, thickness)
    return (
        Measure("upper edge, flat", lengths["top"]),
        Measure("lower edge, flat", lengths["bottom"]),
        Measure("height", high.height - low.height),
        Measure("overlap", d["overlap"]),
    )


# Scales.


def _scale(d: Dimensions, left: float, width: float) -> Run:
    """One scale, from its upper left corner down and round to its upper right one."""
    right, middle, depth = left + width, left + width / 2, d["depth"]
    if d["point"]:
        shoulder = d["point"] - depth
        points = ((left, 0.0), (left, shoulder), (middle, -depth), (right, shoulder), (right, 0.0))
        return lines_through(*points)
    # Negative: a round scale runs straight down until half its width is left for the arc.
    shoulder = width / 2 - depth
    return (
        *lines_through((left, 0.0), (left, shoulder)),
        Arc((middle, shoulder), width / 2, 180, 180),
        *lines_through((right, shoulder), (right, 0.0)),
    )


def scale_row(dimensions: Dimensions, thickness: float) -> Shape:
    """Equal scales under a band, a slit between any two. Raises ShapeError."""
    d = dimensions
    positive(d, "length", "depth", "band", "slit")
    not_negative(d, "point")
    count = whole_number(d, "scales", 1, 200)
    width = (d["length"] - (count - 1) * d["slit"]) / count
    if width < 2 * LEAST_WEB:
        raise ShapeError("scales", f"leaves {width:.1f} mm for a scale")
    if d["point"] > d["depth"]:
        raise ShapeError("point", "longer than the scale")
    if not d["point"] and width / 2 > d["depth"]:
        raise ShapeError("depth", f"less than half of the width, {width / 2:.1f} mm: not round")
    half = d["length"] / 2
    run: Run = ()
    for number in range(count):
        left = number * (width + d["slit"]) - half
        # Across the slit on the band's edge; the first scale has none before it.
        run = run + (lines_through((left - d["slit"], 0.0), (left, 0.0)) if number else ())
        run = run + _scale(d, left, width)
    band = d["band"]
    edges = (
        Edge("bottom", run),
        Edge("right", lines_through((half, 0.0), (half, band))),
        Edge("top", lines_through((half, band), (-half, band))),
        Edge("left", lines_through((-half, band), (-half, 0.0))),
    )
    covered = InnerLine(
        LineKind.PLACEMENT, lines_through((-half, 0.0), (half, 0.0)), "row above to here"
    )
    return centred(edges, lines=(covered,))


def _scale_measures(d: Dimensions, thickness: float) -> tuple[Measure, ...]:
    width = (d["length"] - (d["scales"] - 1) * d["slit"]) / d["scales"]
    return (
        Measure("length", d["length"]),
        Measure("whole height", d["band"] + d["depth"]),
        Measure("one scale, across", width),
    )


BELT = ShapeBuilder("belt", belt, _belt_measures)
LAME = ShapeBuilder("lame", lame, _lame_measures, half_lame)
SCALE_ROW = ShapeBuilder("scale-row", scale_row, _scale_measures)
