"""A strap that closes with a buckle → the buckle on it, where the strap's short piece ends."""

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.placing.scene import Placing
from guidegen.assembly.records import PlacedSheet
from guidegen.assembly.sheets.bends import Plane
from guidegen.assembly.sheets.made import bent
from guidegen.assembly.sheets.ribbons import PROUD, StrapBand
from guidegen.buildfile.records.fastening import Strap
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.outline.records import Edge, Line, Shape
from guidegen.geometry.pieces.records import Piece, Side

THICK = 7.0
"""mm of a closed buckle; from memory, for webbing of 25 mm."""
RIM = 4.0
"""mm by which it is wider than its webbing on each side; from memory."""
WAIST = 0.14
"""Share of its width that is missing on each side where one presses it. Our choice, looked at."""


def buckled(scene: Placing, stock: Stock, strap: Strap, sheet: PlacedSheet) -> PlacedSheet | None:
    """The buckle of a strap that is placed; None for one that ties, or has no room for it."""
    closure = stock.materials.get(strap.closure) if strap.closure is not None else None
    long = scene.number(closure.takes) if closure is not None else 0.0
    count = len(sheet.middle) // 2
    along = sheet.flat[:count, 0]
    if strap.closure is None or long <= 0 or along[-1] < long / 2:
        return None
    rest = max(along[-1] - long, 0.0)
    at = long / 2 + min(scene.number(strap.short), rest)
    way = (sheet.middle[:count] + sheet.middle[count:]) / 2
    middle, right, out = (
        np.array([np.interp(at, along, line[:, k]) for k in range(3)])
        for line in (way, np.gradient(way, axis=0), sheet.normals[:count])
    )
    right = unit(right)
    up = unit(np.cross(out, right))
    # It lies on what its strap lies on.
    lift = np.cross(right, up) * ((THICK - sheet.thickness) / 2 + PROUD)
    band = StrapBand(sheet.part, strap.closure, float(np.ptp(sheet.flat[:, 1])), THICK)
    made = bent(_plate(band, long), Plane(middle + lift, right, up), f"{sheet.key}-buckle")
    return made.sheet if made is not None else None


def _plate(band: StrapBand, long: float) -> Piece:
    """A closed buckle from above: two ends, and between them the waist that one presses."""
    x, y = long / 2, band.width / 2 + RIM
    inner, corner = y * (1 - 2 * WAIST), min(x, y) / 4
    half = [(-x, y - corner), (-x, corner - y), (corner - x, -y), (-x / 3, -y), (-x / 5, -inner),
            (x / 5, -inner), (x / 3, -y), (x - corner, -y)]  # fmt: skip
    ring = [*half, *((-a, -b) for a, b in half)]
    edges = tuple(
        Edge(f"side-{k}", (Line(one, ring[(k + 1) % len(ring)]),)) for k, one in enumerate(ring)
    )
    shape = Shape(edges)
    return Piece(
        part=band.part, label="", name="", side=Side.ANY, copies=1, spares=0,
        material=band.material, thickness=band.thickness, template=shape, shape=shape,
    )  # fmt: skip
