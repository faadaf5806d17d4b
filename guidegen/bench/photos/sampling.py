"""A photo and places in it in → its light there, and corners of markers to parts of a pixel, out.

Light is linear: half way from dark to bright is where an edge lies, and only sums of light are
what a blurred lens makes (IEC 61966-2-1 says how sRGB codes it). Places are never rounded.
"""

from collections.abc import Sequence

import numpy as np

from guidegen.bench.photos.arrays import Array, Pixels
from guidegen.bench.photos.strips import CELLS, SeenMarker

_CODES = np.arange(256) / 255
LINEAR: Array = np.where(_CODES <= 0.04045, _CODES / 12.92, ((_CODES + 0.055) / 1.055) ** 2.4)
"""Light of each value of sRGB, 0 to 1."""

GREY = np.array([0.2126, 0.7152, 0.0722])
"""Shares of red, green and blue in brightness; ITU-R BT.709."""

ALONG = 24
"""Places on each side of a marker where its edge is looked for."""
ACROSS = 0.75
"""Cells of a marker to either side: its rim is one wide, the white around it wider."""


def light_at(picture: Pixels, places: Array) -> Array:
    """Linear red, green and blue at places (rows of x, y in px), between pixels in proportion."""
    high, wide = picture.shape[:2]
    x = np.clip(places[:, 0], 0, wide - 1.001)
    y = np.clip(places[:, 1], 0, high - 1.001)
    left, above = x.astype(np.int64), y.astype(np.int64)
    dx, dy = (x - left)[:, None], (y - above)[:, None]
    flat = picture.reshape(-1, picture.shape[2])
    corner = above * wide + left
    upper = LINEAR[flat[corner]] * (1 - dx) + LINEAR[flat[corner + 1]] * dx
    lower = LINEAR[flat[corner + wide]] * (1 - dx) + LINEAR[flat[corner + wide + 1]] * dx
    return np.asarray(upper * (1 - dy) + lower * dy)


def half_way(profiles: Array, steps: Array, share: float = 0.25) -> tuple[Array, Array]:
    """Where each row of light passes half way from its first level to its last, and their gap.

    `steps` are the places of the columns. Levels are medians of the outer `share` at either end. Of
    several passes the one nearest to 0 counts; where there is none, the place is NaN.
    """
    ends = max(2, int(len(steps) * share))
    first, last = (np.median(part, axis=1) for part in (profiles[:, :ends], profiles[:, -ends:]))
    gap = last - first
    safe = np.where(np.abs(gap) < 1e-9, 1e-9, gap)
    share_of = (profiles - first[:, None]) / safe[:, None] - 0.5
    before, after = share_of[:, :-1], share_of[:, 1:]
    passes = (before <= 0) & (after > 0)
    at = steps[:-1] + (steps[1:] - steps[:-1]) * (-before / np.where(passes, after - before, 1))
    far = np.where(passes, np.abs(at), np.inf)
    nearest = far.argmin(axis=1)
    rows = np.arange(len(profiles))
    found = np.where(np.isfinite(far[rows, nearest]), at[rows, nearest], np.nan)
    return found, gap


def sharpen_corners(picture: Pixels, markers: Sequence[SeenMarker]) -> tuple[SeenMarker, ...]:
    """Markers whose corners are where straight lines along their sides cross.

    A corner itself is rounded by every lens; its sides are not.
    """
    sharp = []
    for marker in markers:
        corners = marker.corners
        for _ in range(2):
            corners = _crossed(picture, corners)
        moved = np.linalg.norm(corners - marker.corners, axis=1).max()
        side = np.linalg.norm(marker.corners[0] - marker.corners[1])
        fine = bool(np.isfinite(moved)) and moved < side / CELLS
        sharp.append(SeenMarker(marker.number, corners if fine else marker.corners))
    return tuple(sharp)


def _crossed(picture: Pixels, corners: Array) -> Array:
    """Corners from the edges found near the sides between them; NaN where one is not seen."""
    lines = []
    middle = corners.mean(axis=0)
    for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        side = end - start
        length = float(np.linalg.norm(side))
        out = np.array([side[1], -side[0]]) / max(length, 1e-9)
        out = out if out @ (start - middle) > 0 else -out
        shares = np.linspace(0.1, 0.9, ALONG)
        steps = np.linspace(-1, 1, 31) * ACROSS * length / CELLS
        points = start + shares[:, None] * side
        places = points[:, None] + steps[None, :, None] * out
        light = (light_at(picture, places.reshape(-1, 2)) @ GREY).reshape(ALONG, -1)
        found, _ = half_way(light, steps)
        good = np.isfinite(found)
        if good.sum() < ALONG / 2:
            return np.full((4, 2), np.nan)
        # Twice: the first line tells which places are dirt or another strip.
        for _ in range(2):
            slope, rise = np.polyfit(shares[good], found[good], 1)
            left = np.abs(found - slope * shares - rise)
            good = left <= max(3 * float(np.nanmedian(left)), 0.05)
        lines.append((start + out * rise, side + out * slope))
    return np.array([_meet(*lines[n - 1], *lines[n]) for n in range(4)])


def _meet(at: Array, way: Array, other: Array, other_way: Array) -> Array:
    """Where two lines cross."""
    cross = way[0] * other_way[1] - way[1] * other_way[0]
    if abs(cross) < 1e-9:
        return np.array([np.nan, np.nan])
    far = other - at
    return np.asarray(at + way * (far[0] * other_way[1] - far[1] * other_way[0]) / cross)
