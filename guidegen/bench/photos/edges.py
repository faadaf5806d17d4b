"""Rings to half a millimetre in → their edges to a few hundredths, read from the photos.

Across each ring light is read along short lines in the photo itself, at places that the cameras
say, never rounded. An edge is where the light is half way between both sides; a drawn line is at
the middle of its darkness.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from scipy.ndimage import gaussian_filter1d, median_filter

from guidegen.bench.photos.arrays import Array, BenchMask, Pixels, Whole
from guidegen.bench.photos.flat import Flat
from guidegen.bench.photos.lens import PhotoCamera
from guidegen.bench.photos.sampling import half_way, light_at

SPACING = 0.5
"""mm between places on a ring."""
WINDOWS = (2.0, 1.2)
"""mm to either side where an edge is looked for, first and last."""
LINE_WINDOWS = (3.6, 1.6)
"""The same for a drawn line: the coarse ring runs along its wall, up to 2 mm beside its middle, and
the paper on both sides of it has to be seen."""
APART = 1.2
"""mm from the darkest place that belong to one drawn line."""
STRAY = 0.45
"""mm by which a place may differ from its neighbours; farther off it is dirt or a gap."""
FAINT, LOUD = 0.45, 2.2
"""Share of the usual difference of light between which an edge is this edge and not another."""


@dataclass(frozen=True, slots=True)
class Sight:
    """What is looked at, through which cameras."""

    pictures: tuple[Pixels, ...]
    cameras: tuple[PhotoCamera, ...]
    flat: Flat
    height: float
    """mm above the strips."""

    def light(self, points: Array, owners: Whole) -> Array:
        """Linear light of places on the bench, each in the photo that owns it."""
        found = np.zeros((len(points), 3))
        for number, (picture, camera) in enumerate(zip(self.pictures, self.cameras, strict=True)):
            own = owners == number
            if own.any():
                found[own] = light_at(picture, camera.pixels(points[own], self.height))
        return found


@dataclass(frozen=True, slots=True)
class Traced:
    """Places along an edge."""

    points: Array
    good: BenchMask
    """Whether the edge was seen there."""
    blur: float
    """mm from a quarter to three quarters of the way from dark to bright."""
    gap: float
    """Usual difference of light: of logarithms for an edge, of light for a drawn line."""


def respaced(points: Array, *, closed: bool, step: float = SPACING) -> Array:
    """Places at equal steps along a line of points."""
    line = np.vstack((points, points[:1])) if closed else points
    far = np.concatenate(([0.0], np.cumsum(np.linalg.norm(np.diff(line, axis=0), axis=1))))
    count = max(8, round(far[-1] / step))
    at = np.linspace(0, far[-1], count, endpoint=not closed)
    return np.column_stack((np.interp(at, far, line[:, 0]), np.interp(at, far, line[:, 1])))


def normals(points: Array, *, closed: bool, smooth: float = 2.0) -> Array:
    """Unit vectors to the right of the way, of a line smoothed over `smooth` places."""
    mode = "wrap" if closed else "nearest"
    soft = gaussian_filter1d(points, smooth, axis=0, mode=mode)
    way = (
        np.roll(soft, -1, axis=0) - np.roll(soft, 1, axis=0)
        if closed
        else np.gradient(soft, axis=0)
    )
    right = np.column_stack((way[:, 1], -way[:, 0]))
    return np.asarray(right / np.maximum(np.linalg.norm(right, axis=1), 1e-9)[:, None])


class Sort(IntEnum):
    """What is looked for along a ring."""

    EDGE = 0
    """Between two grounds."""
    DARK = 1
    """A drawn line, darker than what lies on both sides of it."""
    LIGHT = -1
    """A drawn line, lighter than what it is drawn on."""


def trace_edge(sight: Sight, ring: Array, *, closed: bool = True, sort: Sort = Sort.EDGE) -> Traced:
    """The edge, or the drawn line, that runs along a ring."""
    points = respaced(ring, closed=closed)
    points = _smooth(points, 1.5, closed=closed)
    traced = None
    for window in LINE_WINDOWS if sort else WINDOWS:
        if traced is not None:
            # As wide as the edge is soft: both levels have to be reached at the ends.
            window = max(window, 2.2 * traced.blur)  # noqa: PLW2901 - narrowed, not replaced
            points = _smooth(_bridged(traced), 0.6, closed=closed)
            points = respaced(points, closed=closed)
        traced = _look(sight, points, min(window, 4.0), closed=closed, sort=sort)
    assert traced is not None  # noqa: S101 - there are windows
    return traced


def look_across(sight: Sight, ring: Array, window: float, sort: Sort) -> Traced:
    """What is seen across a closed ring as it lies, never moved: to read an outline again."""
    return _look(sight, respaced(ring, closed=True), window, closed=True, sort=sort)


def _look(sight: Sight, points: Array, window: float, *, closed: bool, sort: Sort) -> Traced:
    out = normals(points, closed=closed)
    steps = np.linspace(-window, window, 49)
    places = (points[:, None] + steps[None, :, None] * out[:, None]).reshape(-1, 2)
    owners = np.repeat(sight.flat.owners(points), len(steps))
    light = sight.light(places, owners).reshape(len(points), len(steps), 3)
    mode = "wrap" if closed else "nearest"
    light = gaussian_filter1d(light, 0.8, axis=0, mode=mode)
    found, contrast, blur, gap = (
        _line_places(light, steps, sort) if sort else _edge_places(light, steps)
    )
    good = np.isfinite(found) & (owners[:: len(steps)] >= 0)
    good &= (contrast > FAINT) & (contrast < LOUD)
    moved = np.where(good, found, 0.0)
    steady = median_filter(moved, 9, mode=mode)
    good &= np.abs(moved - steady) < STRAY
    return Traced(points + np.where(good, moved, 0.0)[:, None] * out, good, blur, gap)


def _edge_places(light: Array, steps: Array) -> tuple[Array, Array, float, float]:
    """Where each row passes from one side to the other; share of contrast; blur; contrast."""
    ends = len(steps) // 4
    inner = np.median(light[:, :ends], axis=1)
    outer = np.median(light[:, -ends:], axis=1)
    # Colours are weighed by how much they tell both sides apart, over the whole ring.
    weights = np.median(outer - inner, axis=0)
    weights = weights / max(float(np.abs(weights).sum()), 1e-9)
    values = light @ weights
    found, _ = half_way(values, steps)
    logs = np.log(np.maximum(outer, 0) + 0.01) - np.log(np.maximum(inner, 0) + 0.01)
    usual = np.median(logs, axis=0)
    contrast = logs @ usual / max(float(usual @ usual), 1e-9)
    return found, contrast, _blur(values, found, steps), float(np.abs(usual).max())


def _blur(values: Array, found: Array, steps: Array) -> float:
    """mm from a quarter to three quarters of the way, the middle of all rows."""
    good = np.isfinite(found)
    if good.sum() < 8:
        return float(steps[-1])
    ends = len(steps) // 4
    first = np.median(values[:, :ends], axis=1)[good, None]
    last = np.median(values[:, -ends:], axis=1)[good, None]
    shares = (values[good] - first) / np.where(np.abs(last - first) < 1e-9, 1e-9, last - first)
    mean = np.median(shares, axis=0)
    inside = (mean > 0.25) & (mean < 0.75)
    return float(max(inside.sum(), 1) * (steps[1] - steps[0]))


def _line_places(light: Array, steps: Array, sort: Sort) -> tuple[Array, Array, float, float]:
    """Where each row is darkest, by the middle of its darkness; the other way for light lines.

    Which of both it is has to be known: beside a dark line, paper alone looks like a light one.
    """
    grey = light.mean(axis=2)
    ends = len(steps) // 5
    first, last = np.median(grey[:, :ends], axis=1), np.median(grey[:, -ends:], axis=1)
    share = (steps - steps[0]) / (steps[-1] - steps[0])
    plain = first[:, None] * (1 - share) + last[:, None] * share
    dark = sort * (plain - grey) / np.maximum(plain, 0.01)
    # Of several lines the darkest, and of equal ones the nearest; what lies apart from it is left
    # out, or the middle of its darkness would be drawn away from it.
    best = (dark * np.exp(-((steps / (1.2 * steps[-1])) ** 2))).argmax(axis=1)
    peak = dark[np.arange(len(dark)), best]
    usual = float(np.median(peak))
    body = np.clip(dark - 0.35 * peak[:, None], 0, None)
    body = body * (np.abs(steps[None] - steps[best][:, None]) < APART)
    total = body.sum(axis=1)
    found = np.where(total > 1e-6, (body * steps).sum(axis=1) / np.maximum(total, 1e-6), np.nan)
    half = float(np.median((dark > 0.5 * peak[:, None]).sum(axis=1))) * (steps[1] - steps[0])
    return found, peak / max(usual, 1e-9), half / 2, usual


def _smooth(points: Array, sigma: float, *, closed: bool) -> Array:
    return np.asarray(
        gaussian_filter1d(points, sigma, axis=0, mode="wrap" if closed else "nearest")
    )


def _bridged(traced: Traced) -> Array:
    """The places where the edge was seen; straight on over the others."""
    kept = traced.points[traced.good]
    return kept if len(kept) >= 8 else traced.points


def longest_gap(good: BenchMask, *, closed: bool) -> tuple[int, int]:
    """First place and number of the longest stretch that is not good."""
    bad = ~good
    if bad.all():
        return 0, len(bad)
    shift = int(np.flatnonzero(good)[0]) if closed else 0
    turned = np.roll(bad, -shift)
    best, start = (0, 0), None
    for place, one in enumerate([*turned, False]):
        if one and start is None:
            start = place
        elif not one and start is not None:
            if place - start > best[1]:
                best = ((start + shift) % len(bad), place - start)
            start = None
    return best


__all__: Sequence[str] = [
    "Sight",
    "Sort",
    "Traced",
    "longest_gap",
    "look_across",
    "normals",
    "respaced",
    "trace_edge",
]
