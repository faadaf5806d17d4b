"""Things on the points of a kit → problems where one has no room, or a magnet no partner."""

from itertools import pairwise

from guidegen.buildfile.records.fastening import Points
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.distances import farthest_outside
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.pieces.records import PointRow
from guidegen.units import mm_text

FITS = 0.05
"""mm by which flattened outlines may differ from true ones."""
MEETS = 1.0
"""mm by which two magnets that meet may be apart. Our choice: they still pull one another home."""


def audit_things(holding: Holding) -> None:
    """Tell what stands out over its part, and magnets that push or miss one another."""
    for part, entry in holding.file.guide.parts.items():
        for name, points in entry.points.items():
            row = holding.row(f"{part}.{name}")
            if row is None or not row.thing:
                continue  # none there, or told where it stands
            _check_room(holding, row)
            if points.meets is not None:
                _check_partner(holding, row, points)


def _check_room(holding: Holding, row: PointRow) -> None:
    piece = next(holding.kit.built(row.part))
    ring = flatten(piece.shape.ring())
    shown = holding.stock.materials[row.thing].name
    outside = 0.0
    for line in piece.shape.lines:
        # Its outlines carry its name, or the pole alone, as they were drawn on the template.
        if line.label.partition(",")[0] == shown:
            outside = max(outside, farthest_outside(flatten(line.run), ring))
    if outside > FITS:
        message = f"{row.thing} stands {mm_text(outside, 1)} mm out over the edge of {row.part}"
        holding.refuse("thing-room", message, "parts", row.part, "points", row.name, "thing")


def _check_partner(holding: Holding, row: PointRow, points: Points) -> None:
    place = ("parts", row.part, "points", row.name, "meets")
    other = holding.row(points.meets or "")
    if other is None:
        return  # told where it stands
    if not other.pole or other.pole == row.pole:
        found = f"{other.pole} too" if other.pole else "not known"
        message = (
            f"its {row.pole} pole looks to {points.meets}, whose own is {found}: they push one "
            "another away"
        )
        holding.refuse("thing-pole", message, *place)
    counts = [one.count * holding.worn(one.part) for one in (row, other)]
    if counts[0] != counts[1]:
        message = f"{counts[0]} magnets meet {counts[1]} of {points.meets}"
        holding.refuse("thing-meets", message, *place)
        return
    gaps = [
        sorted(round(distance(a.at, b.at), 3) for a, b in pairwise(one.spots))
        for one in (row, other)
    ]
    apart = max((abs(a - b) for a, b in zip(*gaps, strict=False)), default=0.0)
    if apart > MEETS:
        message = (
            f"from one to the next they are up to {mm_text(apart, 1)} mm farther apart than those "
            f"of {points.meets}: they do not meet"
        )
        holding.refuse("thing-meets", message, *place)
