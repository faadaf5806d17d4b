"""A skin and its pieces in → where each piece sits on the form, seen from four sides, out."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.ndimage import distance_transform_edt

from guidegen.assembly.views.borders import Border
from guidegen.assembly.views.raster import Camera, Raster, Window, rasterise
from guidegen.assembly.views.surface import FACES, Surface
from guidegen.bench.forms.pieces import FormPiece
from guidegen.bench.forms.records import Numbers, Skin
from guidegen.geometry.outline.records import Line, Run
from guidegen.pictures.pen.records import Drawing, Item, Lettering, Path, Stroke
from guidegen.words import Words, msg

SIDES = ((msg("From the front"), 0.0), (msg("From its left"), 90.0),
         (msg("From behind"), 180.0), (msg("From its right"), 270.0))  # fmt: skip
HEIGHT = 90.0
"""mm of the longest side of a view."""
CELLS = 420
"""Cells of that side."""
GREYS = ("#f4f1ea", "#dcd8ce", "#ece8de", "#cfcabe", "#e4dfd4")
LEAST = 60
"""Cells of a piece that gets its number: smaller ones have no room for it."""


def form_views(skin: Skin, pieces: Sequence[FormPiece], up: str, words: Words) -> Drawing:
    """Four views side by side, each piece with its number."""
    points = skin.points @ _axes(up).T
    owners = np.zeros(len(skin.faces), np.int64)
    for number, one in enumerate(pieces):
        owners[one.panel.faces] = number
    surface = Surface(points, skin.faces, owners * FACES, skin.normals @ _axes(up).T)
    items: list[Item] = []
    left, most = 0.0, 0.0
    cell = float(np.ptp(points, axis=0).max()) / CELLS
    scale = HEIGHT / (CELLS * cell)
    for name, turn in SIDES:
        camera = Camera("side", turn)
        flat = camera.project(points)[:, :2]
        low, high = flat.min(axis=0) - 3 * cell, flat.max(axis=0) + 3 * cell
        wide, tall = (float(value) for value in high - low)
        window = Window(float(low[0]), float(low[1]), wide, tall, cell)
        raster = rasterise(surface, camera, window)
        items += _one(raster, len(pieces), _ViewPlace(cell * scale, left), words)
        room = max(wide * scale, 26.0)
        items.append(Lettering((left, 1.5), words.say(name), 4.2, weight=600))
        left += room + 6.0
        most = max(most, tall * scale)
    title = words.say("Where each piece sits")
    text = words.say("The form from four sides, with the numbers of the pieces.")
    return Drawing(left, most + 8.0, title, text, tuple(items))


def _axes(up: str) -> Numbers:
    """Rows: to the right, up, to the eye, for a form with this axis upward."""
    return np.array(
        {
            "x": [[0, 1, 0], [1, 0, 0], [0, 0, -1]],
            "y": [[1, 0, 0], [0, 1, 0], [0, 0, 1]],
            "z": [[1, 0, 0], [0, 0, 1], [0, -1, 0]],
        }[up],
        float,
    )


@dataclass(frozen=True, slots=True)
class _ViewPlace:
    """Where a view stands: mm of a cell, mm of its left."""

    unit: float
    left: float


def _one(raster: Raster, count: int, place: _ViewPlace, words: Words) -> Iterator[Item]:
    ids, unit, left = raster.ids, place.unit, place.left
    border = Border(ids.astype(np.int64), raster.depth, ())
    for number in range(count):
        rings = border.rings(lambda code, wanted=number: code == wanted)  # type: ignore[misc]
        runs = tuple(_run(ring * unit + (left, 7.0)) for ring in rings if len(ring) > 2)
        if runs:
            yield Path(runs, Stroke(0.3), fill=GREYS[number % len(GREYS)], closed=True)
    for number in range(count):
        seen = ids // FACES == number
        seen &= ids >= 0
        if seen.sum() < LEAST:
            continue
        room = distance_transform_edt(np.pad(seen, 1))[1:-1, 1:-1]
        row, column = np.unravel_index(int(np.argmax(room)), room.shape)
        size = float(min(5.0, max(2.4, room.max() * unit * 1.1)))
        at = (left + (float(column) + 0.5) * unit, 7.0 + (float(row) + 0.5) * unit - 0.35 * size)
        yield Lettering(at, words.number(number + 1), size, anchor="middle", weight=600)


def _run(ring: Numbers) -> Run:
    places = [(float(x), float(y)) for x, y in ring]
    return tuple(Line(one, two) for one, two in zip(places, [*places[1:], places[0]], strict=True))
