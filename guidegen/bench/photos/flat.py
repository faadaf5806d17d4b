"""Photos and their cameras in → the bench seen from straight above, one picture of all, out.

Of several photos each place is taken from the one that shows it farthest from its rim. This
picture is for finding and for showing; what is measured is read from the photos themselves.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.spatial import ConvexHull

from guidegen.bench.photos import vision
from guidegen.bench.photos.arrays import Array, BenchMask, Pixels, Whole
from guidegen.bench.photos.lens import PhotoCamera
from guidegen.bench.photos.solve import Solved

FINEST, COARSEST = 0.25, 0.5
"""mm of a cell: about a pixel of the photo, between these."""
MOST_CELLS = 14_000_000
"""Cells of the whole; a longer piece gets coarser ones. Our choice: a gigabyte at work."""
REACH = 260.0
"""mm beyond strips that do not go around that is looked at, where a photo shows it."""
AROUND = 25.0
"""mm beyond strips that go around."""
RIM = 6.0
"""px at a photo's rim that are not used."""


@dataclass(frozen=True, slots=True)
class Flat:
    """The bench in cells, y downward as in pictures."""

    picture: Pixels
    owner: Whole
    """Which photo each cell is from; -1 for none."""
    left: float
    """mm of the first column's middle."""
    top: float
    """mm of the first row's middle."""
    step: float
    """mm of a cell."""
    strips: BenchMask
    """Where strips lie."""

    def to_mm(self, cells: Array) -> Array:
        """Places in cells (column, row) as places on the bench."""
        return np.column_stack(
            (self.left + cells[:, 0] * self.step, self.top - cells[:, 1] * self.step)
        )

    def to_cells(self, points: Array) -> Array:
        """Places on the bench as columns and rows."""
        return np.column_stack(
            ((points[:, 0] - self.left) / self.step, (self.top - points[:, 1]) / self.step)
        )

    def window(self, rows: slice, columns: slice) -> "Flat":
        """A part of it."""
        return Flat(
            self.picture[rows, columns],
            self.owner[rows, columns],
            self.left + columns.start * self.step,
            self.top - rows.start * self.step,
            self.step,
            self.strips[rows, columns],
        )

    def owners(self, points: Array) -> Whole:
        """Which photo shows each place on the bench best; -1 for none."""
        cells = np.round(self.to_cells(points)).astype(np.int64)
        high, wide = self.owner.shape
        column, row = np.clip(cells[:, 0], 0, wide - 1), np.clip(cells[:, 1], 0, high - 1)
        return np.asarray(self.owner[row, column])


def lay_flat(pictures: Sequence[Pixels], solved: Solved, height: float) -> Flat:
    """The bench, `height` mm above its strips: there lies the upper face of a thick template."""
    rims = np.concatenate([solved.rim(strip) for strip in solved.strips])
    low, high = rims.min(axis=0), rims.max(axis=0)
    # Strips on all sides span their whole box; two in an L about half of it.
    around = ConvexHull(rims).volume > 0.75 * float(np.prod(high - low))
    reach = AROUND if around and len(solved.strips) > 2 else REACH
    low, high = low - reach, high + reach
    low, high = _seen_box(solved.cameras, low, high, height)
    step = float(np.clip(_pixel(solved, rims), FINEST, COARSEST))
    step = max(step, float(np.sqrt(np.prod(high - low) / MOST_CELLS)))
    wide, tall = (int(one) for one in np.ceil((high - low) / step) + 1)
    picture = np.zeros((tall, wide, 3), np.uint8)
    owner = np.full((tall, wide), -1)
    best = np.full((tall, wide), RIM)
    # In bands, so that a long bench does not take its places all at once.
    for first in range(0, tall, 256):
        last = min(first + 256, tall)
        corner = (float(low[0]), float(high[1]) - first * step)
        for number, (camera, photo) in enumerate(zip(solved.cameras, pictures, strict=True)):
            places = _places(camera, corner, step, (last - first, wide), height)
            inside = rim_distance(camera, places).reshape(last - first, wide)
            better = inside > best[first:last]
            if better.any():
                part = vision.flatten(photo, places, (last - first, wide))
                picture[first:last][better] = part[better]
                owner[first:last][better] = number
                best[first:last][better] = inside[better]
    flat = Flat(picture, owner, float(low[0]), float(high[1]), step, np.zeros((tall, wide), bool))
    rings = [flat.to_cells(solved.rim(strip)) for strip in solved.strips]
    strips = vision.filled((tall, wide), rings)
    return Flat(picture, owner, flat.left, flat.top, step, strips)


def _pixel(solved: Solved, rims: Array) -> float:
    """mm that a pixel of the sharpest photo has at the strips, usually."""
    sizes = []
    for camera in solved.cameras:
        here = camera.pixels(rims)
        inside = rim_distance(camera, here) > 0
        if inside.any():
            gap = camera.pixels(rims[inside] + [1.0, 0.0]) - here[inside]
            sizes.append(1 / float(np.median(np.linalg.norm(gap, axis=1))))
    return min(sizes, default=FINEST)


def _places(
    camera: PhotoCamera,
    corner: tuple[float, float],
    step: float,
    shape: tuple[int, int],
    height: float,
) -> Array:
    """Where cells stand in a photo: worked out for every eighth, straight between them."""
    every = 8
    rows, columns = np.arange(0, shape[0] + every, every), np.arange(0, shape[1] + every, every)
    x, y = np.meshgrid(corner[0] + columns * step, corner[1] - rows * step)
    coarse = camera.pixels(np.column_stack((x.ravel(), y.ravel())), height)
    coarse = coarse.reshape(len(rows), len(columns), 2)
    at, share = np.divmod(np.arange(shape[1]), every)
    across = (share / every)[:, None]
    wide = coarse[:, at] * (1 - across) + coarse[:, at + 1] * across
    at, share = np.divmod(np.arange(shape[0]), every)
    down = (share / every)[:, None, None]
    return np.asarray(wide[at] * (1 - down) + wide[at + 1] * down).reshape(-1, 2)


def rim_distance(camera: PhotoCamera, places: Array) -> Array:
    """How far places are from the photo's rim, px; negative outside."""
    x, y = places[:, 0], places[:, 1]
    return np.asarray(
        np.minimum(np.minimum(x, camera.width - 1 - x), np.minimum(y, camera.height - 1 - y))
    )


def _seen_box(
    cameras: Sequence[PhotoCamera], low: Array, high: Array, height: float
) -> tuple[Array, Array]:
    """The part of a box that some photo shows, to 4 mm."""
    x, y = np.arange(low[0], high[0] + 4, 4.0), np.arange(low[1], high[1] + 4, 4.0)
    points = np.column_stack([one.ravel() for one in np.meshgrid(x, y)])
    seen = np.zeros(len(points), bool)
    for camera in cameras:
        seen |= rim_distance(camera, camera.pixels(points, height)) > RIM
    kept = points[seen] if seen.any() else points
    return kept.min(axis=0) - 4, kept.max(axis=0) + 4
