"""Rings → the polygons of Shapely that areas and distances are asked of.

With `areas` and `distances` the only modules that import Shapely. They see flattened rings (mm);
curves stay with the callers. Rings may or may not repeat their first point at the end.
"""

from collections.abc import Iterable, Sequence

from shapely import Polygon, linearrings, polygons
from shapely.errors import ShapelyError
from shapely.geometry.base import BaseGeometry

from guidegen.geometry.outline.records import Point
from guidegen.geometry.outline.rings import distinct

type Ring = Sequence[Point]


def polygon_of(ring: Ring, holes: Iterable[Ring] = ()) -> Polygon:
    """A filled ring with holes. Fewer than three points make an empty one, which is not valid."""
    try:
        # Not Polygon(ring, holes), which takes every point apart in Python: four times the time.
        cut = [linearrings(distinct(hole)) for hole in holes if hole]
        return polygons(linearrings(distinct(ring)), holes=cut or None)
    except (ShapelyError, ValueError):
        return Polygon()  # without area and not valid, which is what callers ask


def parts_of(geometry: BaseGeometry) -> list[Polygon]:
    """The polygons that a geometry holds, largest first; lines and points of it are left out."""
    parts = geometry.geoms if hasattr(geometry, "geoms") else [geometry]
    filled = [part for part in parts if isinstance(part, Polygon) and not part.is_empty]
    return sorted(filled, key=lambda polygon: -polygon.area)
