"""A surface and a camera in → which face is seen in each cell of a picture, how deep, how lit.

A depth buffer (Catmull, 1974): every triangle is drawn, the nearest one stays. Light falls on the
normal between those of a triangle's corners (Phong, Communications of the ACM 18(6), 1975).
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.records import Points3, Row
from guidegen.assembly.views.surface import Surface
from guidegen.assembly.views.thinning import each

CHUNK = 400_000
"""Cells that are looked at at once: bounds memory to some 50 MB."""
LIGHT = np.array([-0.45, 0.62, 0.64])
"""Where light comes from, in the picture: from above, left, before. Lambert's law."""
LEAST_AREA = 1e-4
"""Cells² of a triangle that is drawn: one seen along its face covers no middle of a cell."""
TOUCH = 1e-9
"""Cells beyond its rim at which a triangle still covers a middle: neighbours leave no gap."""


@dataclass(frozen=True, slots=True)
class Camera:
    """A parallel view: `turn` degrees round the thing to its left, `tilt` degrees from above."""

    name: str
    turn: float
    tilt: float = 0.0

    def axes(self) -> tuple[Points3, Points3, Points3]:
        """To the right, up, and toward the eye."""
        t, e = np.radians(self.turn), np.radians(self.tilt)
        toward = np.array([np.sin(t) * np.cos(e), np.sin(e), np.cos(t) * np.cos(e)])
        right = np.array([np.cos(t), 0.0, -np.sin(t)])
        return right, np.cross(toward, right), toward

    def project(self, points: Points3) -> Points3:
        """x to the right, y up, z toward the eye; mm."""
        return np.stack([_along(points, axis) for axis in self.axes()], axis=1)


def _along(points: Points3, axis: Points3) -> Row:
    """Products with an axis, added in one order: no library's choice of kernel shows."""
    x, y, z = (points[..., k] * axis[k] for k in range(3))
    return np.asarray(x + y + z)


def _middle(cell: NDArray[np.int64]) -> Row:
    """The middle of cells in a row or column of them."""
    return np.asarray(cell, dtype=np.float64) + 0.5


@dataclass(frozen=True, slots=True)
class Window:
    """The part of the projection that is drawn."""

    x: float
    y: float
    width: float
    height: float
    """mm of the thing."""
    cell: float
    """mm of the thing in one cell."""

    @property
    def shape(self) -> tuple[int, int]:
        """Rows and columns."""
        return round(self.height / self.cell), round(self.width / self.cell)


class Raster:
    """What is seen, cell by cell, the lowest row first."""

    def __init__(self, surface: Surface, camera: Camera, window: Window) -> None:
        shape = window.shape
        self.depth = np.full(shape, -np.inf)
        """mm toward the eye."""
        self._shown = np.full(shape, -1, dtype=np.int64)
        self._drawn = _drawn(surface, camera, window)
        for cell, depth, number in self._drawn.cells(*shape):
            self._put(cell, depth, number)
        codes = np.append(surface.codes[self._drawn.which], -1)
        self.ids = codes[self._shown].astype(np.int64)
        """Number of the solid times FACES, and the face; -1 for nothing."""
        self._bent, self._camera = surface.bent, camera

    def _put(self, cell: NDArray[np.int64], depth: Row, number: NDArray[np.int64]) -> None:
        """Draw cells by their number; of several in one place the nearest."""
        buffer = self.depth.ravel()
        np.maximum.at(buffer, cell, depth)
        nearest = depth >= buffer[cell]
        # Of several just as near the last in order stays.
        self._shown.ravel()[cell[nearest]] = number[nearest]

    def light(self, step: int = 1) -> NDArray[np.float64]:
        """0 to 1 in each cell, or in the first of each `step` by `step` cells."""
        right, up, toward = self._camera.axes()
        from_there = LIGHT[0] * right + LIGHT[1] * up + LIGHT[2] * toward
        from_there = from_there / np.sqrt((LIGHT**2).sum())
        shown = self._shown[::step, ::step]
        row, column = np.nonzero(shown >= 0)
        number = shown[row, column]
        weights = self._drawn.weights(number, _middle(column * step), _middle(row * step))
        which = self._drawn.which[number]
        normal = np.zeros((len(number), 3))
        for k in range(3):
            normal += self._bent[which, k] * weights[k][:, None]
        x, y, z = (normal[:, k] for k in range(3))
        long = np.sqrt(x * x + y * y + z * z)
        found = np.zeros(shown.shape)
        lit = _along(normal, from_there) / np.maximum(long, 1e-12)
        found[row, column] = np.clip(lit, 0.0, 1.0)
        return found


def rasterise(surface: Surface, camera: Camera, window: Window) -> Raster:
    """Draw a surface of closed solids; what looks away from the eye is left out."""
    return Raster(surface, camera, window)


def _drawn(surface: Surface, camera: Camera, window: Window) -> "_Drawn":
    flat = camera.project(surface.points)
    flat[:, 0] = (flat[:, 0] - window.x) / window.cell
    flat[:, 1] = (flat[:, 1] - window.y) / window.cell
    x, y, z = (flat[:, k][surface.triangles] for k in range(3))
    area = (x[:, 1] - x[:, 0]) * (y[:, 2] - y[:, 0]) - (x[:, 2] - x[:, 0]) * (y[:, 1] - y[:, 0])
    which = np.flatnonzero(area > LEAST_AREA)
    return _Drawn(which, x[which], y[which], z[which], area[which])


@dataclass(frozen=True, eq=False)
class _Drawn:
    """Triangles that look toward the eye, in cells of the picture; three corners each."""

    which: NDArray[np.int64]
    """Their numbers in the surface."""
    x: NDArray[np.float64]
    y: NDArray[np.float64]
    z: NDArray[np.float64]
    area: Row
    """Twice, in cells²."""

    def cells(
        self, rows: int, columns: int
    ) -> Iterator[tuple[NDArray[np.int64], Row, NDArray[np.int64]]]:
        """Cells whose middle a triangle covers, the depth there, and the triangle: row by row of
        each triangle, some hundred thousand cells at a time."""
        low = np.maximum(np.ceil(self.y.min(1) - 0.5 - TOUCH), 0).astype(np.int64)
        high = np.minimum(np.floor(self.y.max(1) - 0.5 + TOUCH), rows - 1).astype(np.int64)
        number, within = each(np.maximum(high - low + 1, 0))
        row = low[number] + within
        left, right = self._span(number, _middle(row))
        first = np.maximum(np.ceil(left - 0.5 - TOUCH), 0).astype(np.int64)
        last = np.minimum(np.floor(right - 0.5 + TOUCH), columns - 1).astype(np.int64)
        kept = last >= first
        number, row, first, last = (one[kept] for one in (number, row, first, last))
        across, upward = self._slopes()
        start = self.z[number, 0] + across[number] * (first + 0.5 - self.x[number, 0])
        start += upward[number] * (row + 0.5 - self.y[number, 0])
        across, place = across[number], row * columns + first
        count = last - first + 1
        upto = np.cumsum(count)
        begin = 0
        while begin < len(count):
            done = int(upto[begin - 1]) if begin else 0
            end = max(begin + 1, int(np.searchsorted(upto, done + CHUNK, side="right")))
            line, step = each(count[begin:end])
            line += begin
            yield place[line] + step, start[line] + across[line] * step, number[line]
            begin = end

    def _span(self, number: NDArray[np.int64], y: Row) -> tuple[Row, Row]:
        """From where to where a triangle lies at a height: corners run counter-clockwise, so edges
        that fall are to the left of it and edges that rise to the right."""
        left, right = np.full(len(y), -np.inf), np.full(len(y), np.inf)
        for k in range(3):
            m = (k + 1) % 3
            rise = self.y[:, m] - self.y[:, k]
            slope = (self.x[:, m] - self.x[:, k]) / np.where(rise == 0, 1.0, rise)
            at = self.x[:, k][number] + slope[number] * (y - self.y[:, k][number])
            left = np.where((rise < 0)[number], np.maximum(left, at), left)
            right = np.where((rise > 0)[number], np.minimum(right, at), right)
        return left, right

    def _slopes(self) -> tuple[Row, Row]:
        """How depth grows for a cell to the right, and for one up."""
        dx, dy, dz = (one[:, 1:] - one[:, :1] for one in (self.x, self.y, self.z))
        across = (dz[:, 0] * dy[:, 1] - dz[:, 1] * dy[:, 0]) / self.area
        upward = (dz[:, 1] * dx[:, 0] - dz[:, 0] * dx[:, 1]) / self.area
        return across, upward

    def weights(self, number: NDArray[np.int64], x: Row, y: Row) -> list[Row]:
        """How much of each corner of a triangle there is at a place on it."""
        ax, bx, cx = (self.x[:, k][number] for k in range(3))
        ay, by, cy = (self.y[:, k][number] for k in range(3))
        area = self.area[number]
        first = ((bx - x) * (cy - y) - (cx - x) * (by - y)) / area
        second = ((cx - x) * (ay - y) - (ax - x) * (cy - y)) / area
        return [first, second, 1 - first - second]
