"""The part of Shapely that `geometry/outline/` uses, on a GEOS built for browsers.

Names and meaning are Shapely's. Geometries travel as WKB (OGC 06-103r4, 8), whose doubles are
exact; the library is handed over by the worker's script (`use`).
"""

import struct
from abc import ABC, abstractmethod
from collections.abc import Iterable, Sequence
from functools import cached_property
from typing import Protocol, cast

type Coordinates = Sequence[tuple[float, float]]


class Buffer(Protocol):
    """Bytes of the browser's."""

    def to_bytes(self) -> bytes:
        """A copy of them."""


class Library(Protocol):
    """GEOS, as the worker's script offers it; geometries are addresses in its memory."""

    def read(self, wkb: bytes) -> int:
        """A geometry; 0 where there is none in it."""

    def write(self, geometry: int) -> Buffer:
        """Its WKB."""

    def call(self, name: str, *values: float) -> float:
        """What a function returns."""

    def number(self, name: str, *values: float) -> float:
        """What a function writes at the address that is its last value."""

    def reason(self, geometry: int) -> str:
        """Why it is not valid."""

    def buffer(self, geometry: int, width: float, join: int) -> int:
        """It, grown by mm; `join` is GEOS's number for the style of corners."""


_LIBRARY: list[Library] = []

QUADRANT, MITRE = 16, 5.0
"""Shapely's own defaults: segments of a quarter turn, limit of a mitre (set by the script)."""

_JOINS = {"round": 1, "mitre": 2, "bevel": 3}
_POINT, _LINE, _POLYGON, _COLLECTIONS = 1, 2, 3, (4, 5, 6, 7)


def use(library: Library) -> None:
    """Ask this library from now on."""
    _LIBRARY[:] = [library]


class ShapelyError(Exception):
    """GEOS could not do what it was asked."""


class BaseGeometry(ABC):
    """Any geometry."""

    @abstractmethod
    def _wkb(self) -> bytes:
        """It as well-known binary, as the library reads it."""

    @cached_property
    def address(self) -> int:
        """Where it is in the library's memory."""
        found = _LIBRARY[0].read(self._wkb())
        if not found:
            raise ShapelyError("not a geometry")
        return found

    def __del__(self) -> None:
        """Its memory is given back."""
        if "address" in self.__dict__ and _LIBRARY:
            _LIBRARY[0].call("GEOSGeom_destroy", self.address)

    @property
    def area(self) -> float:
        """Square units."""
        return float(_LIBRARY[0].number("GEOSArea", self.address))

    @property
    def length(self) -> float:
        """Units along lines or rings."""
        return float(_LIBRARY[0].number("GEOSLength", self.address))

    @property
    def is_valid(self) -> bool:
        """Whether OGC's rules hold."""
        return _LIBRARY[0].call("GEOSisValid", self.address) == 1

    @property
    def is_empty(self) -> bool:
        """Whether it has no point."""
        return _LIBRARY[0].call("GEOSisEmpty", self.address) == 1

    @property
    def convex_hull(self) -> "BaseGeometry":
        """The smallest convex geometry around it."""
        return self._made("GEOSConvexHull")

    @property
    def minimum_rotated_rectangle(self) -> "BaseGeometry":
        """The smallest rectangle around it, however turned."""
        return self._made("GEOSMinimumRotatedRectangle")

    def representative_point(self) -> "PointGeometry":
        """A point of it."""
        return cast("PointGeometry", self._made("GEOSPointOnSurface"))

    def covers(self, other: "BaseGeometry") -> bool:
        """Whether no point of the other lies outside."""
        return _LIBRARY[0].call("GEOSCovers", self.address, other.address) == 1

    def distance(self, other: "BaseGeometry") -> float:
        """Units between the nearest points."""
        return float(_LIBRARY[0].number("GEOSDistance", self.address, other.address))

    def project(self, point: "BaseGeometry") -> float:
        """Units along a line to the place nearest to a point."""
        return float(_LIBRARY[0].call("GEOSProject", self.address, point.address))

    def intersection(self, other: "BaseGeometry") -> "BaseGeometry":
        """What both share."""
        return self._made("GEOSIntersection", other.address)

    def difference(self, other: "BaseGeometry") -> "BaseGeometry":
        """What the other leaves of it."""
        return self._made("GEOSDifference", other.address)

    def symmetric_difference(self, other: "BaseGeometry") -> "BaseGeometry":
        """What is in one of both alone."""
        return self._made("GEOSSymDifference", other.address)

    def buffer(self, width: float, join_style: str = "round") -> "BaseGeometry":
        """It, grown by so many units all round."""
        return _from_address(_LIBRARY[0].buffer(self.address, width, _JOINS[join_style]))

    def _made(self, name: str, *values: float) -> "BaseGeometry":
        return _from_address(int(_LIBRARY[0].call(name, self.address, *values)))


class PointGeometry(BaseGeometry):
    """A point."""

    def __init__(self, *at: float | tuple[float, float]) -> None:
        x, y = at if len(at) == 2 else cast("tuple[tuple[float, float]]", at)[0]
        self.x, self.y = float(cast("float", x)), float(cast("float", y))

    def _wkb(self) -> bytes:
        return struct.pack("<BIdd", 1, _POINT, self.x, self.y)


Point = PointGeometry
"""Its name in Shapely; here another Point has that name."""


class LineString(BaseGeometry):
    """An open line."""

    def __init__(self, coords: Coordinates) -> None:
        self.coords = [(float(x), float(y)) for x, y in coords]

    def _wkb(self) -> bytes:
        return struct.pack("<BI", 1, _LINE) + _packed(self.coords)


class LinearRing(LineString):
    """A closed line; the first point is repeated."""

    @property
    def is_ccw(self) -> bool:
        """Whether it runs counter-clockwise."""
        steps = zip(self.coords, self.coords[1:], strict=False)
        return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in steps) > 0


class Polygon(BaseGeometry):
    """An outline with holes; rings need not repeat their first point."""

    def __init__(self, shell: Coordinates = (), holes: Iterable[Coordinates] = ()) -> None:
        self._rings = [_closed(ring) for ring in (shell, *holes)] if len(shell) else []

    @property
    def exterior(self) -> LinearRing:
        """The outline."""
        return LinearRing(self._rings[0])

    @property
    def interiors(self) -> list[LinearRing]:
        """The holes."""
        return [LinearRing(ring) for ring in self._rings[1:]]

    def _wkb(self) -> bytes:
        head = struct.pack("<BII", 1, _POLYGON, len(self._rings))
        return head + b"".join(_packed(ring) for ring in self._rings)


class _Collection(BaseGeometry):
    def __init__(self, geoms: Sequence[BaseGeometry], kind: int = 7) -> None:
        self.geoms, self._kind = list(geoms), kind

    def _wkb(self) -> bytes:
        head = struct.pack("<BII", 1, self._kind, len(self.geoms))
        return head + b"".join(one._wkb() for one in self.geoms)


class MultiLineString(_Collection):
    """Several lines."""

    def __init__(self, lines: Sequence[BaseGeometry | Coordinates]) -> None:
        made = (one if isinstance(one, BaseGeometry) else LineString(one) for one in lines)
        super().__init__([*made], 5)


def _closed(ring: Coordinates) -> list[tuple[float, float]]:
    points = [(float(x), float(y)) for x, y in ring]
    if points and points[0] != points[-1]:
        points.append(points[0])
    if len(points) < 4:
        raise ValueError("A linearring requires at least 4 coordinates.")
    return points


def _packed(coords: Coordinates) -> bytes:
    numbers = [number for point in coords for number in point]
    return struct.pack(f"<I{len(numbers)}d", len(coords), *numbers)


def _from_address(address: int) -> BaseGeometry:
    if not address:
        raise ShapelyError("GEOS refused")
    made, _ = _parse(_LIBRARY[0].write(address).to_bytes(), 0)
    made.__dict__["address"] = address
    return made


def _parse(wkb: bytes, at: int) -> tuple[BaseGeometry, int]:
    """The geometry that begins at a byte, and the byte after it."""
    order = "<" if wkb[at] == 1 else ">"
    kind = struct.unpack_from(f"{order}I", wkb, at + 1)[0]
    at += 5
    if kind == _POINT:
        return PointGeometry(struct.unpack_from(f"{order}dd", wkb, at)), at + 16
    count = struct.unpack_from(f"{order}I", wkb, at)[0]
    if kind == _LINE:
        coords, at = _coords(wkb, at, order)
        return LineString(coords), at
    at += 4
    if kind == _POLYGON:
        rings = []
        for _ in range(count):
            ring, at = _coords(wkb, at, order)
            rings.append(ring)
        return Polygon(rings[0], rings[1:]) if rings else Polygon(), at
    if kind not in _COLLECTIONS:
        raise ShapelyError(f"geometry of kind {kind}")
    parts = []
    for _ in range(count):
        part, at = _parse(wkb, at)
        parts.append(part)
    return _Collection(parts, kind), at


def _coords(wkb: bytes, at: int, order: str) -> tuple[list[tuple[float, float]], int]:
    count = struct.unpack_from(f"{order}I", wkb, at)[0]
    numbers = struct.unpack_from(f"{order}{2 * count}d", wkb, at + 4)
    return list(zip(numbers[::2], numbers[1::2], strict=True)), at + 4 + 16 * count


class STRtree:
    """Geometries, asked which of them are near: one by one, since a kit has some dozens."""

    def __init__(self, geometries: Sequence[BaseGeometry]) -> None:
        self._all = list(geometries)

    def query(self, one: BaseGeometry, predicate: str, distance: float) -> list[int]:
        """Numbers of those within a distance."""
        if predicate != "dwithin":
            raise ShapelyError(predicate)
        near = _LIBRARY[0].call
        return [
            number
            for number, other in enumerate(self._all)
            if near("GEOSDistanceWithin", one.address, other.address, distance) == 1
        ]

    def query_nearest(
        self, points: Sequence["PointGeometry"], *, return_distance: bool, all_matches: bool
    ) -> tuple[None, list[float]]:
        """For each point, how far the nearest one is."""
        if not return_distance or all_matches:
            raise ShapelyError("only distances to the nearest one")
        whole = MultiLineString(self._all)
        ready = int(_LIBRARY[0].call("GEOSPrepare", whole.address))
        try:
            measure = _LIBRARY[0].number
            return None, [measure("GEOSPreparedDistance", ready, one.address) for one in points]
        finally:
            _LIBRARY[0].call("GEOSPreparedGeom_destroy", ready)


def linestrings(lines: Iterable[Coordinates]) -> list[LineString]:
    """A line for each list of points."""
    return [LineString(line) for line in lines]


def linearrings(coords: Coordinates) -> LinearRing:
    """A closed line through points, of which there are three at least."""
    return LinearRing(_closed(coords))


def polygons(ring: LinearRing, *, holes: Sequence[LinearRing] | None = None) -> Polygon:
    """What closed lines bound."""
    return Polygon(ring.coords, [hole.coords for hole in holes or ()])


def points(coords: Coordinates) -> list[PointGeometry]:
    """A point for each pair."""
    return [PointGeometry(at) for at in coords]


def line_merge(lines: BaseGeometry, *, directed: bool) -> BaseGeometry:
    """Lines that meet end to end, as one each; `directed` keeps their ways."""
    name = "GEOSLineMergeDirected" if directed else "GEOSLineMerge"
    return lines._made(name)


def orient(polygon: Polygon) -> Polygon:
    """The outline counter-clockwise, holes clockwise."""

    def turned(ring: LinearRing, *, ccw: bool) -> Coordinates:
        return ring.coords if ring.is_ccw == ccw else ring.coords[::-1]

    holes = [turned(hole, ccw=False) for hole in polygon.interiors]
    return Polygon(turned(polygon.exterior, ccw=True), holes)


def explain_validity(geometry: BaseGeometry) -> str:
    """Why a geometry is not valid, and where."""
    return _LIBRARY[0].reason(geometry.address)
