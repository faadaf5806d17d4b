"""Flat points in → points in space and their normals: tubes, plates round a body, folded plates.

Each is a developable surface (cylinder, cone, planes): lengths on it are those of the flat piece.
"""

from dataclasses import dataclass, replace
from typing import Protocol

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.records import Points3, Row
from guidegen.assembly.sheets.flat import Points2


class Bend(Protocol):
    """A way in which a flat sheet lies in space."""

    def place(self, flat: Points2) -> tuple[Points3, Points3]:
        """Points of the middle face, and unit normals outward."""


@dataclass(frozen=True, eq=False)
class Axes:
    """Where something is: its middle, and unit vectors to the left, along and to the front."""

    middle: Row
    left: Row
    along: Row
    front: Row

    def point(self, left: Row, along: Row, front: Row) -> Points3:
        """Points by mm in each direction."""
        return np.asarray(
            self.middle
            + left[:, None] * self.left
            + along[:, None] * self.along
            + front[:, None] * self.front
        )

    def vector(self, left: Row, along: Row, front: Row) -> Points3:
        """The same without the middle, 1 long."""
        return unit(self.point(left, along, front) - self.middle)


@dataclass(frozen=True, eq=False)
class Tube:
    """A cone or cylinder round an axis (FlatTube the other way round)."""

    frame: Axes
    """Its middle on the axis, half way between the rims."""
    top: float
    bottom: float
    """mm round the closed tube at both rims, at the middle of the foam."""
    slope: float
    """mm from rim to rim along the wall."""
    low: float
    """y of the lower rim's middle on the flat piece."""
    faces: float = 0.0
    """degrees from the front to the left of where the middle of the piece looks."""

    def place(self, flat: Points2) -> tuple[Points3, Points3]:
        """Points of the middle face, and unit normals outward."""
        lean = np.clip((self.top - self.bottom) / (2 * np.pi * self.slope), -0.999, 0.999)
        rise = float(np.sqrt(1 - lean**2))
        if abs(self.top - self.bottom) < 1e-6 * self.slope:
            height, turn = flat[:, 1] - self.low, flat[:, 0] * (2 * np.pi / self.top)
        else:
            side = 1.0 if self.top > self.bottom else -1.0
            factor = self.slope / abs(self.top - self.bottom)
            apex = self.low - side * self.bottom * factor
            away = np.hypot(flat[:, 0], flat[:, 1] - apex)
            height = side * (away - self.bottom * factor)
            turn = np.arctan2(flat[:, 0], side * (flat[:, 1] - apex)) * (2 * np.pi * factor)
        radius = (self.bottom + (self.top - self.bottom) * height / self.slope) / (2 * np.pi)
        angle = turn + np.radians(self.faces)
        sine, cosine = np.sin(angle), np.cos(angle)
        along = (height - self.slope / 2) * rise
        points = self.frame.point(radius * sine, along, radius * cosine)
        normals = self.frame.vector(sine * rise, np.full(len(flat), -lean), cosine * rise)
        return points, normals


@dataclass(frozen=True, eq=False)
class Round:
    """A plate that goes round a body: an upright wall on an oval, its middle at a place on it."""

    frame: Axes
    wide: float
    deep: float
    """mm; half axes of the oval at the inner face."""
    off: float
    """mm from there to the middle of the foam."""
    faces: float
    """degrees from the front to the left."""
    aside: float = 0.0
    """mm along the oval, to the right as seen from outside."""
    square: float = 2.0
    turned: float = 0.0
    """degrees by which the plate is turned, counter-clockwise as seen from outside."""

    def curve(self) -> tuple[Row, Points2, Points2]:
        """Lengths along the oval from the front, its points (left, front) and normals there."""
        angle = np.linspace(-2 * np.pi, 4 * np.pi, 3 * 720 + 1)
        sine, cosine = np.sin(angle), np.cos(angle)
        power = 2.0 / self.square
        x = self.wide * np.sign(sine) * np.abs(sine) ** power
        z = self.deep * np.sign(cosine) * np.abs(cosine) ** power
        inside = np.stack([x, z], axis=1)
        tangent = unit(np.gradient(inside, axis=0))
        normal = np.stack([-tangent[:, 1], tangent[:, 0]], axis=1)
        points = inside + normal * self.off
        steps = np.sqrt((np.diff(points, axis=0) ** 2).sum(1))
        length = np.concatenate([[0.0], np.cumsum(steps)])
        return length - length[720], points, normal

    def under(self, deep: float) -> "Round":
        """The same `deep` mm nearer to the body."""
        return replace(self, off=self.off - deep)

    def girth(self) -> float:
        """mm round the oval at the middle of the foam."""
        length, _, _ = self.curve()
        return float(length[1440] - length[720])

    def place(self, flat: Points2) -> tuple[Points3, Points3]:
        """Points of the middle face, and unit normals outward."""
        length, points, normals = self.curve()
        start = np.interp(720 + self.faces * 2, np.arange(len(length)), length) + self.aside
        turn = np.radians(self.turned)
        u = flat[:, 0] * np.cos(turn) - flat[:, 1] * np.sin(turn)
        v = flat[:, 0] * np.sin(turn) + flat[:, 1] * np.cos(turn)
        at = start + u
        x, z = (np.interp(at, length, points[:, k]) for k in range(2))
        nx, nz = (np.interp(at, length, normals[:, k]) for k in range(2))
        zero = np.zeros(len(flat))
        return self.frame.point(x, v, z), self.frame.vector(nx, zero, nz)


@dataclass(frozen=True, eq=False)
class Over:
    """A plate that goes over a body: along a line in an upright plane, straight across it."""

    way: Points3
    """Points of the middle of the foam, from the end at the piece's left to that at its right."""
    out: Points3
    """Unit normals there."""
    middle: float
    """mm along the way of the middle of the piece."""
    across: Row
    """Unit vector along the piece's up."""

    @classmethod
    def through(cls, line: Points3, ahead: Row, off: float, aside: float, long: float) -> "Over":
        """Over a line of points that runs to `ahead`: `off` mm from it, a piece `long` mm long in
        such a place that its ends are as high, or `aside` mm further ahead."""
        across = np.cross(UPRIGHT, ahead)
        flat = np.stack([line @ ahead, line[:, 1]], axis=1)
        kept = np.concatenate([[True], (np.diff(flat, axis=0) ** 2).sum(1) > 1.0])
        flat = flat[kept]
        tangent = unit(np.gradient(flat, axis=0))
        normal = np.stack([-tangent[:, 1], tangent[:, 0]], axis=1)
        flat = flat + normal * off
        step = np.sqrt((np.diff(flat, axis=0) ** 2).sum(1))
        length = np.concatenate([[0.0], np.cumsum(step)])

        def fall(at: float) -> float:
            ends = np.interp([at - long / 2, at + long / 2], length, flat[:, 1])
            return float(ends[1] - ends[0])

        low, high = long / 2, max(long / 2, length[-1] - long / 2)
        for _ in range(40):
            half = (low + high) / 2
            low, high = (half, high) if fall(half) > 0 else (low, half)
        side = across * float(line.mean(0) @ across)
        way = flat[:, :1] * ahead + flat[:, 1:] * UPRIGHT + side
        out = normal[:, :1] * ahead + normal[:, 1:] * UPRIGHT
        return cls(way, out, (low + high) / 2 + aside, across)

    def place(self, flat: Points2) -> tuple[Points3, Points3]:
        """Points of the middle face, and unit normals outward."""
        steps = np.sqrt((np.diff(self.way, axis=0) ** 2).sum(1))
        length = np.concatenate([[0.0], np.cumsum(steps)])
        at = self.middle + flat[:, 0]
        point, out = (
            np.stack([np.interp(at, length, values[:, k]) for k in range(3)], axis=1)
            for values in (self.way, self.out)
        )
        return point + flat[:, 1:] * self.across, unit(out)


UPRIGHT = np.array([0.0, 1.0, 0.0])


@dataclass(frozen=True, eq=False)
class Plane:
    """A flat plate: its middle, and unit vectors to its right, up and out of its face."""

    middle: Row
    right: Row
    up: Row

    def place(self, flat: Points2) -> tuple[Points3, Points3]:
        """Points of the middle face, and unit normals outward."""
        points = self.middle + flat[:, :1] * self.right + flat[:, 1:] * self.up
        normal = np.cross(self.right, self.up)
        return points, np.broadcast_to(normal, points.shape).copy()


@dataclass(frozen=True, eq=False)
class Folded:
    """A flat plate folded along one line: each half leans back by half of the fold."""

    plane: Plane
    start: tuple[float, float]
    along: tuple[float, float]
    """Unit vector of the line on the flat piece."""
    fold: float
    """degrees."""

    def off(self, flat: Points2) -> Row:
        """mm of flat points to the left of the line; negative to its right."""
        dx, dy = flat[:, 0] - self.start[0], flat[:, 1] - self.start[1]
        return np.asarray(-dx * self.along[1] + dy * self.along[0])

    def place(self, flat: Points2) -> tuple[Points3, Points3]:
        """Points of the middle face, and unit normals outward."""
        dx, dy = flat[:, 0] - self.start[0], flat[:, 1] - self.start[1]
        on = dx * self.along[0] + dy * self.along[1]
        off = self.off(flat)
        half = np.radians(self.fold / 2)
        across = off * np.cos(half)
        back = -np.abs(off) * np.sin(half)
        x = self.start[0] + on * self.along[0] - across * self.along[1]
        y = self.start[1] + on * self.along[1] + across * self.along[0]
        points, normals = self.plane.place(np.stack([x, y], axis=1))
        lean = np.sign(off) * np.sin(half)
        in_plane = -lean[:, None] * self.along[1] * self.plane.right + (
            lean[:, None] * self.along[0] * self.plane.up
        )
        return points + back[:, None] * normals, unit(normals * np.cos(half) + in_plane)
