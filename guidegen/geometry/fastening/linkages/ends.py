"""A plate of a row at one size → where it is held, how far it reaches, how long it is."""

from dataclasses import dataclass
from itertools import pairwise

from guidegen.buildfile.records.constructions.linkages import LinkEnd
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Point, Run
from guidegen.geometry.outline.transforms import mirror_across
from guidegen.geometry.outline.unfold import fold_line
from guidegen.geometry.pieces.records import PointRow

NEAR = 0.05
"""mm under which two places are the same."""
ACROSS = 0.8
"""Share by which a slot must run across the lapping edge. Our choice: 37 degrees."""


@dataclass(frozen=True, slots=True)
class HeldPlate:
    """One end of a joint, in mm."""

    row: PointRow
    spacing: float
    """From the first to the last of its points."""
    beyond: float
    """From the line through its points to its lapping edge, in the middle between them: positive
    where the edge lies beyond the points as seen from the middle of the plate."""
    length: float
    """Of the plate there, from edge to edge."""
    thick: float
    slides: float
    """Each way from the middle of its slots; 0 where they are none."""


def held_plate(holding: Holding, end: LinkEnd, *trail: str | int) -> HeldPlate | None:
    """What a joint needs to know of a plate; None, and a problem, where it has no such place."""
    row = holding.row(end.row)
    if row is None:
        return None  # told where it stands
    piece = next(holding.kit.built(row.part))
    points = _points(holding, row)
    if len(points) < 2 or distance(points[0], points[-1]) < NEAR:
        message = f"{end.row} has one point: two plates are held at both their sides"
        holding.refuse("linkage-row", message, *trail, "row")
        return None
    start, last = points[0], points[-1]
    spacing = distance(start, last)
    along = ((last[0] - start[0]) / spacing, (last[1] - start[1]) / spacing)
    middle = ((start[0] + last[0]) / 2, (start[1] + last[1]) / 2)
    one = next(one for one in holding.kit.finished if one.part == row.part)
    run = one.run(end.edge)
    if run is None:
        known = ", ".join(edge.name for edge in one.outline)
        message = f'{row.part} has no edge "{end.edge}"; there are {known}'
        holding.refuse("unknown-edge", message, *trail, "edge")
        return None
    edge = _nearest(_crossings(run, middle, along))
    ring = _crossings(tuple(s for own in piece.shape.edges for s in own.run), middle, along)
    if edge is None or len(ring) < 2:
        message = f"{row.part}.{end.edge} does not pass the middle between the points of {end.row}"
        holding.refuse("linkage-row", message, *trail, "edge")
        return None
    # The middle of the plate says which way is inward; with its points in that middle, either is.
    aside = (max(ring) + min(ring)) / 2
    beyond = -edge if aside > NEAR else edge if aside < -NEAR else abs(edge)
    way = row.spots[0].along
    slot = row.length > row.diameter and row.kind == "slot"
    if slot and abs(way[0] * along[0] + way[1] * along[1]) > 1 - ACROSS:
        message = f"the slots of {end.row} do not run across the edge {end.edge}: nothing slides"
        holding.refuse("linkage-row", message, *trail, "row")
        return None
    slides = row.length / 2 if slot else 0.0
    length = max(ring) - min(ring)
    return HeldPlate(row, spacing, beyond, length, holding.thickness(row.part), slides)


def _points(holding: Holding, row: PointRow) -> list[Point]:
    """All points of the row on the whole piece, from one end of its line to the other."""
    points = [spot.at for spot in row.spots]
    piece = next(holding.kit.built(row.part))
    if row.halves > 1 and piece.fold:
        mirror = mirror_across(*fold_line(piece.template, piece.fold))
        points = [mirror.point(point) for point in reversed(points)] + points
    if len(points) < 2:
        return points
    # Its ends, whatever the order in which points were placed: the farthest from any of them, and
    # the farthest from that.
    first = max(points, key=lambda point: distance(points[0], point))
    return [first, max(points, key=lambda point: distance(first, point))]


def _crossings(run: Run, middle: Point, along: Point) -> list[float]:
    """mm across the row at which a line meets the perpendicular through its middle."""
    across = (-along[1], along[0])
    found = []
    places = [
        (
            (x - middle[0]) * along[0] + (y - middle[1]) * along[1],
            (x - middle[0]) * across[0] + (y - middle[1]) * across[1],
        )
        for x, y in flatten(run)
    ]
    for (here, up), (there, to) in pairwise(places):
        low, high = min(here, there), max(here, there)
        # The hair at both ends: on a half template the edge ends on the very fold.
        if not low - NEAR <= 0 <= high + NEAR:
            continue
        if high - low < NEAR:
            found += [up, to]
        else:
            share = min(1.0, max(0.0, -here / (there - here)))
            found.append(up + (to - up) * share)
    return found


def _nearest(places: list[float]) -> float | None:
    return min(places, key=abs, default=None)
