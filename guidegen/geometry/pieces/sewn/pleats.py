"""Pleats of a part → where its template is opened for them, and the lines to fold along.

A knife pleat is a band of twice its depth: cloth comes to the outer fold, goes back under itself to
the inner fold, and on. Its outer fold comes to lie on the other side of the band. Box and inverted
pleats are two of them that fall away from, or to, their middle.
"""

from dataclasses import dataclass, replace

from guidegen.buildfile.records.constructions.sewing import Pleat
from guidegen.geometry.grading.spread_cut import CutLine
from guidegen.geometry.outline.areas import clip_line
from guidegen.geometry.outline.curves import along, distance, lines_through, point_at
from guidegen.geometry.outline.measures import (
    bounds,
    run_length,
    segment_end,
    segment_start,
)
from guidegen.geometry.outline.records import InnerLine, LineKind, Point, Run, Shape
from guidegen.geometry.outline.transforms import RigidMotion
from guidegen.geometry.outline.unfold import fold_line
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.parts.sewing import TakenIn
from guidegen.geometry.pieces.sewn.opening import PleatOpening, open_shape

MOST = 200
"""Pleats along one edge, and knife pleats in all pleats of a part. Our choice: more than any skirt
has, and few enough for a drawing of many points to be opened soon."""
DEEPEST = 500.0
"""mm. Our choice."""


@dataclass(frozen=True, slots=True)
class PleatBand:
    """Cloth of one knife pleat, before anything is opened."""

    at: Point
    """On the folded edge."""
    inward: Point
    """Unit vector, straight into the piece."""
    away: Point
    """Unit vector along the edge: that side of the piece is moved, the other stays."""
    depth: float
    outer_first: bool
    """Whether its outer fold lies on the side that stays."""

    @property
    def line(self) -> CutLine:
        """Where the template is cut, what is moved on its right."""
        return CutLine(self.at, (-self.away[1], self.away[0]))

    @property
    def far(self) -> float:
        """mm along the way in which is moved."""
        return round(self.at[0] * self.away[0] + self.at[1] * self.away[1], 6)

    def mirrored(self, mirror: RigidMotion) -> "PleatBand":
        """The same on the other side of a fold."""
        inward, away = mirror.vector(self.inward), mirror.vector(self.away)
        return replace(self, at=mirror.point(self.at), inward=inward, away=away)


def bands_of(
    asker: PartAsker, template: Shape, fold: str = ""
) -> tuple[list[PleatBand], list[TakenIn]]:
    """All pleats of a part on its template, and what they take; problems noted by the asker.

    `fold` is the edge of a half template that stays where it is.
    """
    still = fold_line(template, fold)[0] if fold else None
    bands: list[PleatBand] = []
    taken: list[TakenIn] = []
    runs = {edge.name: edge.run for edge in template.edges}
    for number, pleat in enumerate(asker.part.pleats):
        run = runs.get(pleat.edge)
        if run is None:
            known = ", ".join(runs)
            message = f'no edge "{pleat.edge}" on this part; there are {known}'
            asker.refuse("unknown-edge", message, "pleats", number, "edge")
            continue
        found = _bands(asker, number, pleat, run, still)
        if found is not None:
            more, count = found
            bands += more
            depth = more[0].depth
            each = 2 if pleat.kind == "knife" else 4
            taken.append(TakenIn(pleat.kind, pleat.edge, count, depth, each * depth * count))
    if len(bands) > MOST:
        message = f"expected at most {MOST} folds on one part, found {len(bands)}"
        asker.refuse("bad-pleats", message, "pleats")
        return [], []
    return bands, taken


def _bands(
    asker: PartAsker, number: int, pleat: Pleat, run: Run, still: Point | None
) -> tuple[list[PleatBand], int] | None:
    place = ("pleats", number)
    depth = asker.between(pleat.depth, 1, DEEPEST, *place, "depth")
    count = asker.count(pleat.count, 1, MOST, *place, "count")
    first = asker.number(pleat.margin, *place, "margin")
    last = first
    if pleat.margin_end is not None:
        last = asker.number(pleat.margin_end, *place, "margin-end")
    if depth is None or count is None or first is None or last is None:
        return None
    length = run_length(run)
    room = length - first - last
    # Neighbours' cloth lies side by side underneath: so far apart they must be at the least.
    least = depth if pleat.kind == "knife" else 2 * depth
    if first < 0 or last < 0 or room < 0 or (count > 1 and room / (count - 1) < least - 1e-6):
        message = (
            f"{count} pleats of {depth:g} mm have no room on {length:.0f} mm of {pleat.edge}: "
            "their cloth would lie threefold"
        )
        asker.refuse("bad-pleats", message, *place, "count")
        return None
    start, end = segment_start(run[0]), segment_end(run[-1])
    chord = distance(start, end)
    if chord < 1e-6:
        asker.refuse("bad-pleats", "the edge goes round: pleats need two ends", *place, "edge")
        return None
    inward = (-(end[1] - start[1]) / chord, (end[0] - start[0]) / chord)
    forward = (end[0] - start[0]) / chord, (end[1] - start[1]) / chord
    step = room / (count - 1) if count > 1 else 0.0
    begin = first if count > 1 else first + room / 2
    away, ahead = forward, True
    if still is not None:
        # Away from the fold, wherever along the edge that is.
        ahead = (still[0] - start[0]) * forward[0] + (still[1] - start[1]) * forward[1] < chord / 2
        away = forward if ahead else (-forward[0], -forward[1])
    bands = []
    for at in range(count):
        point, _ = point_at(run, begin + step * at)
        for shift, falls_on in _pleat(pleat, depth):
            place_of = along(point, forward, shift)
            bands.append(PleatBand(place_of, inward, away, depth, falls_on is ahead))
    return bands, count


def _pleat(pleat: Pleat, depth: float) -> list[tuple[float, bool]]:
    """Its knife pleats: mm from its middle, and whether each falls towards the end of the edge."""
    if pleat.kind == "knife":
        return [(0.0, pleat.toward == "end")]
    if pleat.kind == "box":
        # The panel on top is as wide as both pleats under it.
        return [(-depth, False), (depth, True)]
    # At one place: the one nearer to the beginning falls on to the middle, the other back to it.
    return [(0.0, True), (0.0, False)]


def open_bands(shape: Shape, bands: list[PleatBand]) -> Shape:
    """A shape opened for its pleats, with their lines. Raises OpeningError.

    Of a half that is unfolded, `bands` hold those of both sides: each moves away from the fold.
    """
    for away in dict.fromkeys(_key(band) for band in bands):
        group = [band for band in bands if _key(band) == away]
        # Two at one place lie in the order of the edge: the one that ends there comes first.
        group.sort(key=lambda band: (band.far, not band.outer_first))
        # The farthest first: what is opened there moves nothing that is still to be opened.
        for band in reversed(group):
            shape = open_shape(shape, PleatOpening(band.line, 2 * band.depth))
        moved = 0.0
        lines: list[InnerLine] = []
        for band in group:
            lines += _lines(shape, band, moved)
            moved += 2 * band.depth
        shape = replace(shape, lines=(*shape.lines, *lines))
    return shape


def _key(band: PleatBand) -> tuple[float, float]:
    return (round(band.away[0], 6), round(band.away[1], 6))


def _lines(shape: Shape, band: PleatBand, moved: float) -> list[InnerLine]:
    """Both folds of a band, and where its outer one comes to lie, on the opened shape."""
    shares = (0.0, 1.0, 2.0) if band.outer_first else (2.0, 1.0, 0.0)
    kinds = (LineKind.PLEAT, LineKind.PLEAT, LineKind.LANDING)
    return [
        InnerLine(kind, run)
        for kind, share in zip(kinds, shares, strict=True)
        for run in _across(shape, along(band.at, band.away, moved + share * band.depth), band)
    ]


def _across(shape: Shape, at: Point, band: PleatBand) -> list[Run]:
    """The line through a point, as far as there is cloth."""
    left, low, right, high = bounds((shape.ring(),))
    reach = (right - left) + (high - low)
    line = [along(at, band.inward, -reach), along(at, band.inward, reach)]
    return [lines_through(*points) for points in clip_line(line, Shape(shape.edges))]
