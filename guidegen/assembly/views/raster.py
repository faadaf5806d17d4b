"""Solids and a camera in → which face is seen in each cell of a picture, how deep, how lit.

A depth buffer (Catmull, 1974): every triangle is drawn, the nearest one stays.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from weakref import WeakKeyDictionary

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.records import WALL, Points3, Row, Solid
from guidegen.assembly.sheets.solids import face_normals

CHUNK = 400_000
"""Cells that are looked at at once: bounds memory to some 50 MB."""
LIGHT = np.array([-0.45, 0.62, 0.64])
"""Where light comes from, in the picture: from above, left, before. Lambert's law."""
FACES = 8
"""Numbers that the faces of one solid may have."""


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
        return np.stack([(points * axis).sum(1) for axis in self.axes()], axis=1)


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

    def __init__(self, rows: int, columns: int) -> None:
        self.ids = np.full((rows, columns), -1, dtype=np.int32)
        """Number of the solid times FACES, and the face; -1 for nothing."""
        self.depth = np.full((rows, columns), -np.inf)
        """mm toward the eye."""
        self.light = np.zeros((rows, columns))
        """0 to 1."""

    def put(self, cell: NDArray[np.int64], depth: Row, code: NDArray[np.int64], light: Row) -> None:
        """Draw cells by their number; of several in one place the nearest."""
        buffer = self.depth.ravel()
        np.maximum.at(buffer, cell, depth)
        nearest = depth >= buffer[cell]
        # Of several just as near the last in order stays.
        self.ids.ravel()[cell[nearest]] = code[nearest]
        self.light.ravel()[cell[nearest]] = light[nearest]


def rasterise(solids: Sequence[Solid], camera: Camera, window: Window) -> Raster:
    """Draw closed solids; what looks away from the eye is left out."""
    raster = Raster(*window.shape)
    right, up, toward = camera.axes()
    light = (LIGHT[0] * right + LIGHT[1] * up + LIGHT[2] * toward) / np.sqrt((LIGHT**2).sum())
    corners, codes, lights = [], [], []
    origin = np.array([window.x, window.y, 0.0])
    unit = np.array([window.cell, window.cell, 1.0])
    for number, solid in enumerate(solids):
        normals, bent = _normals(solid)
        seen = (normals * toward).sum(1) > 1e-9
        flat = (camera.project(solid.points) - origin) / unit
        corners.append(flat[solid.triangles[seen]])
        lights.append(np.clip((bent[seen] * light).sum(2), 0.0, 1.0))
        codes.append(number * FACES + solid.faces[seen])
    if corners:
        _Drawn(np.concatenate(corners), np.concatenate(codes), np.concatenate(lights)).on(raster)
    return raster


_NORMALS: WeakKeyDictionary[Solid, tuple[Points3, Row]] = WeakKeyDictionary()
"""Normals of solids that still exist: each is drawn from many sides."""


def _normals(solid: Solid) -> tuple[Points3, Row]:
    """Normals of triangles, and unit normals at the corners of each for the light: smooth within a
    face and sharp between faces."""
    if solid not in _NORMALS:
        normals = face_normals(solid.points, solid.triangles)
        keys = solid.triangles + (solid.faces * len(solid.points))[:, None]
        total = np.zeros((len(solid.points) * (int(solid.faces.max(initial=0)) + 1), 3))
        for k in range(3):
            for axis in range(3):
                total[:, axis] += np.bincount(keys[:, k], normals[:, axis], minlength=len(total))
        bent = (total / np.maximum(np.sqrt((total**2).sum(1, keepdims=True)), 1e-12))[keys]
        if solid.normals is not None:
            bent = np.where(
                (solid.faces == WALL)[:, None, None], bent, solid.normals[solid.triangles]
            )
        _NORMALS[solid] = normals, bent
    return _NORMALS[solid]


@dataclass(frozen=True, eq=False)
class _Drawn:
    """Triangles in cells of the picture."""

    corners: NDArray[np.float64]
    codes: NDArray[np.int64]
    lights: NDArray[np.float64]

    def on(self, raster: Raster) -> None:
        """Draw triangles of like size together, so that one step of arithmetic serves many."""
        rows, columns = raster.ids.shape
        low = np.ceil(self.corners[:, :, :2].min(1) - 0.5).astype(np.int64)
        high = np.floor(self.corners[:, :, :2].max(1) - 0.5).astype(np.int64)
        low, high = np.maximum(low, 0), np.minimum(high, np.array([columns - 1, rows - 1]))
        span = high - low + 1
        kept = np.flatnonzero((span > 0).all(1))
        level = np.ceil(np.log2(np.maximum(span[kept].max(1), 1))).astype(np.int64)
        for power in np.unique(level):
            side = 1 << int(power)
            group = kept[level == power]
            step = max(1, CHUNK // (side * side))
            for start in range(0, len(group), step):
                some = group[start : start + step]
                self._some(some, low[some], high[some], side, raster)

    def _some(
        self,
        some: NDArray[np.int64],
        low: NDArray[np.int64],
        high: NDArray[np.int64],
        side: int,
        raster: Raster,
    ) -> None:
        """Draw triangles that fit in `side` by `side` cells: those whose middle lies within."""
        grid = np.arange(side)
        x, y = low[:, :1] + grid + 0.5, low[:, 1:] + grid + 0.5
        a, b, c = (self.corners[some, k, :2] for k in range(3))
        area = _turn(b - a, c - a)
        area = np.where(np.abs(area) < 1e-12, 1e-12, area)
        # Weights are linear in x and y: one addition for each cell.
        u, v = (
            ((_turn(m, n) + (m[:, 1] - n[:, 1]) * x.T) / area).T[:, None, :]
            + ((n[:, 0] - m[:, 0]) * y.T / area).T[:, :, None]
            for m, n in ((b, c), (c, a))
        )
        inside = (u >= -1e-9) & (v >= -1e-9) & (u + v <= 1 + 1e-9)
        inside &= (x <= high[:, :1] + 1)[:, None, :] & (y <= high[:, 1:] + 1)[:, :, None]
        one, row, column = np.nonzero(inside)
        weights = np.stack([u[inside], v[inside], 1 - u[inside] - v[inside]], axis=1)
        mine = some[one]
        cell = (low[one, 1] + row) * raster.ids.shape[1] + low[one, 0] + column
        depth = (weights * self.corners[mine, :, 2]).sum(1)
        raster.put(cell, depth, self.codes[mine], (weights * self.lights[mine]).sum(1))


def _turn(one: Row, other: Row) -> Row:
    return np.asarray(one[..., 0] * other[..., 1] - one[..., 1] * other[..., 0])
