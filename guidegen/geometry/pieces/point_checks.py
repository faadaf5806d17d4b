"""A row of points in → why it does not hold there: beside the foam, too near, or covered."""

from collections.abc import Sequence

from guidegen.buildfile.records.fastening import PointKind, Points
from guidegen.geometry.outline.areas import encloses
from guidegen.geometry.outline.curves import along, distance
from guidegen.geometry.outline.distances import distance_to
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Point
from guidegen.geometry.parts.finished import Finished
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.pieces.placing import LaidPart
from guidegen.geometry.pieces.records import PointRow, RowPoint
from guidegen.units import mm_text

BRIDGE = 2.0
"""mm of foam that stay between two holes. Common practice, no source."""


def _ends(row: PointRow, spot: RowPoint) -> tuple[Point, ...]:
    """Middles of the round ends of a hole: one, or the two of a slot."""
    # A slot is a circle drawn along; its round ends have their middles this far from its own.
    reach = (row.length - row.diameter) / 2
    if reach <= 0:
        return (spot.at,)
    return (along(spot.at, spot.along, reach), along(spot.at, spot.along, -reach))


def fits(
    asker: PartAsker, row: PointRow, points: Points, finished: Finished, laid: Sequence[LaidPart]
) -> bool:
    """Whether every point lies on the part, clear of edges, layers and the others."""
    before = len(asker.problems)
    place = ("points", row.name)
    # A hole's own width of foam to the edge, unless the author says: common practice, no source.
    least = row.diameter if row.is_hole else 0.0
    if points.least_edge is not None:
        given = asker.between(points.least_edge, 0, 500, *place, "least-edge")
        least = least if given is None else given
    radius = row.diameter / 2
    ring = flatten(finished.template.ring())
    # Distances to the whole outline: on a half template the fold is no edge.
    rims = [flatten(run) for run in (finished.whole.ring(), *finished.whole.holes)]
    for number, spot in enumerate(row.spots, 1):
        ends = _ends(row, spot)
        # On the drawn half alone, since its mirror image brings the points of the other.
        if not all(encloses(ring, end) for end in ends):
            half = " of the drawn half" if finished.half is not None else ""
            message = f"point {number} of {len(row.spots)} lies beside the foam{half}"
            asker.refuse("points-off", message, *place)
            break
        # Both ends stand for all of a slot. Chosen: an edge that bulges between them would have to
        # be rounder than the slot is long to come nearer than BRIDGE.
        free = min(distance_to(rim, end) for rim in rims for end in ends) - radius
        if row.kind is not PointKind.PATCH and free < least - 0.01:
            message = (
                f"point {number} leaves {mm_text(max(free, 0), 1)} mm of foam to the nearest edge, "
                f"expected at least {mm_text(least, 1)} mm"
            )
            asker.refuse("points-edge", message, *place)
            break
        cover = _covered_by(asker, row, points, ends, radius=radius, laid=laid)
        if cover:
            message = f"point {number} lies under {cover}"
            cure = 'Move the row, or name the part under "through" where holes go through both'
            asker.refuse("points-covered", message, *place, cure=cure)
            break
    _crowded(asker, row)
    return len(asker.problems) == before


def _covered_by(
    asker: PartAsker,
    row: PointRow,
    points: Points,
    ends: tuple[Point, ...],
    *,
    radius: float,
    laid: Sequence[LaidPart],
) -> str:
    """The part that lies on a point, in words; empty for none."""
    for one in laid:
        if one.part in (*row.through, points.on, row.laid):
            continue
        rim, holes = flatten(one.ring), [flatten(hole) for hole in one.holes]
        for end in ends:
            in_window = any(
                # A window of the layer above leaves the point free only if the whole hole lies in
                # it.
                encloses(hole, end) and distance_to(hole, end) >= radius
                for hole in holes
            )
            if not in_window and (encloses(rim, end) or distance_to(rim, end) < radius - 0.01):
                part = asker.file.guide.parts[one.part]
                return f"{part.label} {part.name}"
    return ""


def _crowded(asker: PartAsker, row: PointRow) -> None:
    """Refuse holes that leave no foam between them."""
    wide = row.diameter if row.kind is PointKind.PATCH else max(row.diameter, row.length)
    need = wide + (BRIDGE if row.is_hole else 0.0)
    # Sorted by x, so that the inner loop may end as soon as points are farther apart in x alone:
    # four hundred points would make 80,000 pairs.
    spots = sorted(row.spots, key=lambda spot: spot.at)
    for number, one in enumerate(spots):
        for other in spots[number + 1 :]:
            if other.at[0] - one.at[0] >= need:
                break
            apart = distance(one.at, other.at)
            if apart < need - 0.01:
                message = (
                    f"two points are {mm_text(apart, 1)} mm apart, expected at least "
                    f"{mm_text(need, 1)} mm"
                )
                asker.refuse("points-crowded", message, "points", row.name)
                return
