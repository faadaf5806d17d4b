"""The finished thing and a camera in → what is seen of it: closed rings, hidden lines removed."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.records import FIGURE, Assembly, Contour, Seen, SeenLines
from guidegen.assembly.views.borders import Border
from guidegen.assembly.views.contours import NOTHING, CellCodes, rings_of
from guidegen.assembly.views.raster import Camera, Raster, Window, rasterise
from guidegen.assembly.views.surface import FACES, whole_surface
from guidegen.assembly.views.thinning import CellMask, CellRing
from guidegen.assembly.views.tidying import evened, relit, tidied, without_specks

FRONT = Camera("front", 0.0, 4.0)
THREE_QUARTER = Camera("three-quarter", 36.0, 10.0)
BACK = Camera("back", 180.0, 4.0)
VIEWS = (FRONT, THREE_QUARTER, BACK)
ARM_VIEWS = (FRONT, Camera("three-quarter", 62.0, 10.0), Camera("back", 208.0, 4.0))
"""Where nothing but an arm is shown: its outside and its inside, rather than its rims."""


def cameras(assembly: Assembly) -> tuple[Camera, ...]:
    """From where a thing is looked at: front, three quarters and back."""
    kinds = {name.partition("-")[0] for name, _ in assembly.figure}
    return ARM_VIEWS if kinds and kinds <= {"arm", "thumb"} else VIEWS


THINNEST = 2.2
"""Cells that a sheet is thick at least: one that is seen along its face would else come and go."""
ROWS = 1500
"""Cells from foot to top of a picture. Our choice: 0.1 mm each at 150 mm, a third of a line."""
HEIGHT = 150.0
"""mm of a picture at most."""
WIDTH = 120.0
NEAR_END = 300.0
"""mm below the foam within which a hand or foot is shown whole: a hand below a wrist."""
MARGIN = 0.06
"""Share of the thing's height that the figure is seen beyond it."""
TONES = (0.66, 0.46, 0.24)
"""Shares of full light below which a tone is laid over foam. Our choice, looked at."""
SOFT_TONES = (0.6, 0.3)
"""The same over the figure, which stays pale."""


SHADE_ROWS = 500
"""Cells from foot to top from which on shade is followed on every other cell alone."""
EVENED = 12
"""Rounds in which light takes the mean of its neighbours: grain of a mesh is no shade."""
LEAST_SHADE = 14.0
"""mm² of a picture of shade that are drawn: smaller islands would be specks."""
SPECK = 0.6
"""mm² of a picture of full height below which a region is a speck, and shows what is beside it; of
a small one a share, where a stud takes no more."""
OFF = 0.7
"""Cells that a thinned line may be off: 0.07 mm of a picture."""


@dataclass(frozen=True, slots=True)
class _Unit:
    """From cells to mm of the picture."""

    size: float
    """mm of a cell."""
    step: float
    """mm to which points are rounded: twice the last decimal, so that the middle between two points
    has no more decimals than they have."""

    def lines(self, lines: Sequence[CellRing], cells: float = 1.0) -> SeenLines:
        """Points in mm of the picture, in which rounding leaves no two that follow one another.
        `cells` are cells of the picture for one of the lines."""
        size = self.size * cells / self.step
        found = (np.round(line * size).astype(np.int64).tolist() for line in lines)
        return tuple(
            tuple((round(x * self.step, 3), round(y * self.step, 3)) for (x, y), _ in groupby(line))
            for line in found
        )


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
    sheets = assembly.sheets
    window = window or window_of(assembly, camera)
    raster = rasterise(whole_surface(assembly, THINNEST * window.cell), camera, window)
    scale = height / window.height
    unit = _Unit(window.cell * scale, 2 * 10.0**-digits)
    speck = SPECK * min(1.0, height / HEIGHT) / unit.size**2
    codes = without_specks(tidied(raster.ids), speck)
    border = Border(codes, raster.depth, [name for name, _ in assembly.figure])
    shades = _Shades(raster, codes, unit)
    first = len(assembly.figure)
    looks = [(sheet.material, assembly.paints.get(sheet.part, "")) for sheet in sheets]
    kinds = list(dict.fromkeys(looks))
    of = [kinds.index(look) for look in looks]
    about = frozenset(k for k, sheet in enumerate(sheets, first) if sheet.key in marked)
    foam = codes >= first * FACES
    parts = [sheets[k - first].part for k in np.unique(codes[foam] // FACES)]

    def filled(kind: int) -> SeenLines:
        return unit.lines(border.rings(lambda n: n >= first and of[n - first] == kind))

    return Seen(
        view=camera.name,
        width=round(window.width * scale, 2),
        height=round(window.height * scale, 2),
        scale=scale,
        figure=unit.lines(border.rings(lambda n: 0 <= n < first)),
        fills=tuple(Contour(name, filled(k), paint) for k, (name, paint) in enumerate(kinds)),
        shades=shades.on(foam, TONES),
        soft=shades.on((codes >= 0) & ~foam, SOFT_TONES),
        limbs=unit.lines(border.limb_lines()),
        creases=unit.lines(border.lines(lambda a, b: a == b >= first)),
        outlines=unit.lines(
            border.lines(lambda a, b: a != b and max(a, b) >= first and min(a, b) > NOTHING)
        ),
        silhouette=unit.lines(border.lines(lambda a, b: min(a, b) == NOTHING)),
        parts=tuple(dict.fromkeys(parts)),
        marked=unit.lines(border.lines(lambda a, b: a != b and (a in about or b in about))),
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
            (float(y.min()) for y in ends if y.min() > low[1] - max(0.3 * tall, NEAR_END)),
            default=low[1],
        )
        top = min((float(shown[:, 1].max()), float(high[1]) + max(rim, 0.5 * tall)))
        top = max(top, float(high[1]))
        bottom = min(float(low[1]) - rim, feet - 4)
        around = shown[(shown[:, 1] > bottom) & (shown[:, 1] < top)]
        high = np.array([max(high[0], around[:, 0].max()), top])
        low = np.array([min(low[0], around[:, 0].min()), max(bottom, float(shown[:, 1].min()) - 4)])
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


class _Shades:
    """Where light falls less and less, followed on every other cell alone where cells are small."""

    def __init__(self, raster: Raster, codes: CellCodes, unit: _Unit) -> None:
        self._step = 2 if len(codes) > SHADE_ROWS else 1
        codes, drawn = self._some(codes), self._some(raster.ids)
        self._light = evened(relit(raster.light(self._step), codes, drawn), codes, EVENED)
        self._unit = unit

    def _some(self, cells: NDArray[Any]) -> NDArray[Any]:
        return cells[:: self._step, :: self._step]

    def on(self, there: CellMask, tones: Sequence[float]) -> tuple[SeenLines, ...]:
        """Rings round what is darker than each tone."""
        there, least = self._some(there), LEAST_SHADE / (self._unit.size * self._step) ** 2
        dark = (rings_of(there & (self._light < tone), least=least, off=OFF) for tone in tones)
        return tuple(self._unit.lines(rings, self._step) for rings in dark)


__all__ = ["BACK", "FIGURE", "FRONT", "THREE_QUARTER", "VIEWS", "cameras", "see", "window_of"]
