"""The finished thing and a camera in → what is seen of it: closed rings, hidden lines removed."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.records import FIGURE, OUTER, Assembly, Contour, Seen, SeenLines
from guidegen.assembly.sheets.solids import thickened
from guidegen.assembly.views.contours import CellMask, CellRing, lines_of, rings_of
from guidegen.assembly.views.raster import Camera, Raster, Window, rasterise

FRONT = Camera("front", 0.0, 4.0)
THREE_QUARTER = Camera("three-quarter", 36.0, 10.0)
BACK = Camera("back", 180.0, 4.0)
VIEWS = (FRONT, THREE_QUARTER, BACK)

ROWS = 750
"""Cells from foot to top of a picture. Our choice: 0.2 mm each at 150 mm, less than a line."""
HEIGHT = 150.0
"""mm of a picture at most."""
WIDTH = 120.0
MARGIN = 0.06
"""Share of the thing's height that the figure is seen beyond it."""
TONES = (0.66, 0.46, 0.24)
"""Shares of full light below which a tone is laid over foam. Our choice, looked at."""
SOFT_TONES = (0.6, 0.3)
"""The same over the figure, which stays pale."""
JUMP = 9.0
"""mm by which one limb passes before another for a line to be drawn."""


@dataclass(frozen=True, slots=True)
class _Unit:
    """From cells to mm of the picture."""

    size: float
    """mm of a cell."""
    digits: int

    def lines(self, rings: Sequence[CellRing]) -> SeenLines:
        """Points in mm of the picture, in which rounding leaves no two that follow one another."""
        found = (np.round(ring * self.size, self.digits).tolist() for ring in rings)
        return tuple(tuple(p for p, _ in groupby((x, y) for x, y in ring)) for ring in found)


def see(
    assembly: Assembly,
    camera: Camera,
    window: Window | None = None,
    *,
    digits: int = 2,
    height: float = HEIGHT,
    marked: frozenset[str] = frozenset(),
) -> Seen | None:
    """One view; None where nothing is placed. `window` is the part that is shown: by itself all
    foam, and as much of the figure as belongs to it. `digits` are decimals of a mm, `height`
    mm of the picture, `marked` keys of sheets that it is about."""
    if not assembly.sheets:
        return None
    limbs = [solid for _, solid in assembly.figure]
    sheets = assembly.sheets
    window = window or window_of(assembly, camera)
    raster = rasterise([*limbs, *(thickened(sheet) for sheet in sheets)], camera, window)
    scale = height / window.height
    unit = _Unit(window.cell * scale, digits)
    number = raster.ids >> 3
    number[raster.ids < 0] = -1
    body = (number >= 0) & (number < len(limbs))
    foam = number >= len(limbs)
    looks = [(sheet.material, assembly.paints.get(sheet.part, "")) for sheet in sheets]
    kinds = list(dict.fromkeys(looks))
    of = np.array([kinds.index(look) for look in looks])
    which = np.full(number.shape, -1)
    which[foam] = of[number[foam] - len(limbs)]
    about = foam & np.isin(number, [k for k, s in enumerate(sheets, len(limbs)) if s.key in marked])
    parts = [sheets[k - len(limbs)].part for k in np.unique(number[foam])]
    return Seen(
        view=camera.name,
        width=round(window.width * scale, 2),
        height=round(window.height * scale, 2),
        scale=scale,
        figure=unit.lines(rings_of(body, off=0.6)),
        fills=tuple(
            Contour(name, unit.lines(rings_of(which == k, off=0.6)), paint)
            for k, (name, paint) in enumerate(kinds)
        ),
        shades=tuple(_shades(raster, foam, TONES, unit)),
        soft=tuple(_shades(raster, body, SOFT_TONES, unit)),
        limbs=unit.lines(_limb_lines(raster, number, [name for name, _ in assembly.figure])),
        creases=unit.lines(_creases(raster, foam)),
        outlines=unit.lines(_each(number, foam)),
        silhouette=unit.lines(rings_of(number >= 0)),
        parts=tuple(dict.fromkeys(parts)),
        marked=unit.lines(_each(np.where(about, number, -1), foam & about)),
    )


def window_of(assembly: Assembly, camera: Camera, rows: int = 0) -> Window:
    """What the picture shows: the foam, and as much of the figure as belongs to it."""
    foam = camera.project(np.concatenate([sheet.middle for sheet in assembly.sheets]))
    thick = max(sheet.thickness for sheet in assembly.sheets)
    low, high = foam[:, :2].min(0) - thick, foam[:, :2].max(0) + thick
    if assembly.figure:
        shown = camera.project(np.concatenate([solid.points for _, solid in assembly.figure]))
        rim = MARGIN * (high[1] - low[1]) + 25
        tall = float(high[1] - low[1])
        # Whole hands and heads where they are near; else the figure is cut off.
        ends = [camera.project(solid.points)[:, 1] for _, solid in assembly.figure]
        feet = min(
            (float(y.min()) for y in ends if y.min() > low[1] - max(0.3 * tall, 210.0)),
            default=low[1],
        )
        top = min((float(shown[:, 1].max()), float(high[1]) + max(rim, 0.5 * tall)))
        bottom = min(float(low[1]) - rim, feet - 4)
        around = shown[(shown[:, 1] > bottom) & (shown[:, 1] < top)]
        high = np.array([max(high[0], around[:, 0].max()), top])
        low = np.array([min(low[0], around[:, 0].min()), max(bottom, float(shown[:, 1].min()))])
    edge = 0.02 * float(high[1] - low[1])
    low, high = low - edge, high + edge
    if assembly.figure:
        # The figure is cut off at the lower rim: no empty strip under it.
        low = np.array([low[0], low[1] + edge])
    height = max(float(high[1] - low[1]), float(high[0] - low[0]) * HEIGHT / WIDTH)
    middle = (low + high) / 2
    width = float(high[0] - low[0])
    if height > high[1] - low[1] and not assembly.figure:
        low = np.array([low[0], middle[1] - height / 2])
    cell = height / (rows or ROWS)
    return Window(float(low[0]), float(low[1]), np.ceil(width / cell) * cell, height, cell)


def _shades(
    raster: Raster, there: CellMask, tones: Sequence[float], unit: _Unit
) -> Iterable[SeenLines]:
    for tone in tones:
        yield unit.lines(rings_of(there & (raster.light < tone), least=80, off=0.9))


GROWN = ({"trunk", "leg"}, {"trunk", "neck"}, {"neck", "head"}, {"leg", "foot"}, {"arm", "thumb"})
"""Limbs that go over into one another: no line parts them."""


def _limb_lines(raster: Raster, number: NDArray[np.int32], names: Sequence[str]) -> list[CellRing]:
    """Where the rim of a limb lies well before another limb that it does not grow out of."""
    found: list[CellRing] = []
    depth = np.where(raster.ids >= 0, raster.depth, -1e6)
    kinds = [name.partition("-")[0] for name in names]
    for limb, kind in enumerate(kinds):
        mask = number == limb
        if not mask.any():
            continue
        apart = [k for k, other in enumerate(kinds) if k != limb and {kind, other} not in GROWN]
        front = np.zeros_like(mask)
        for axis, step in ((0, 1), (0, -1), (1, 1), (1, -1)):
            beside = np.isin(np.roll(number, step, axis), apart)
            front |= mask & beside & (depth - np.roll(depth, step, axis) > JUMP)
        found += lines_of(mask, front)
    return found


def _creases(raster: Raster, foam: CellMask) -> list[CellRing]:
    """Round the walls and inner faces of each sheet."""
    found: list[CellRing] = []
    side = foam & ((raster.ids & 7) != OUTER)
    for code in np.unique(raster.ids[side]):
        found += rings_of(raster.ids == code, least=25, off=0.7)
    return found


def _each(number: NDArray[np.int32], foam: CellMask) -> list[CellRing]:
    found: list[CellRing] = []
    for one in np.unique(number[foam]):
        found += rings_of(number == one, off=0.5)
    return found


__all__ = ["BACK", "FIGURE", "FRONT", "THREE_QUARTER", "VIEWS", "see", "window_of"]
