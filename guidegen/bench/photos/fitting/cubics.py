"""Stretches of places → the cubic from end to end that fits each best, many at once.

Places get their share of the curve by their distance along it, then by the nearest point of the
last curve, three times (Plass and Stone, Curve-fitting with piecewise parametric cubics, SIGGRAPH
1983).
"""

import numpy as np

from guidegen.bench.photos.arrays import Array, Whole

SAMPLES = 24
"""Places of a stretch that are looked at."""
ROUNDS = 3


def sampled(points: Array, first: Whole, last: Whole, count: int = SAMPLES) -> Array:
    """Stretches × places × 2: some places of each stretch, both ends among them."""
    share = np.linspace(0, 1, count)
    at = np.round(first[:, None] + (last - first)[:, None] * share).astype(np.int64)
    return np.asarray(points[at])


def fit_cubics(places: Array) -> tuple[Array, Array]:
    """Stretches × 4 × 2 points of cubics, and the mean squared distance (mm²) of each."""
    steps = np.linalg.norm(np.diff(places, axis=1), axis=2)
    far = np.concatenate((np.zeros((len(places), 1)), np.cumsum(steps, axis=1)), axis=1)
    share = far / np.maximum(far[:, -1:], 1e-9)
    curves = _controls(places, share)
    for _ in range(ROUNDS):
        at, way = cubic_at(curves, share)
        left = places - at
        along = (left * way).sum(axis=2) / np.maximum((way * way).sum(axis=2), 1e-9)
        share = np.maximum.accumulate(np.clip(share + along, 0, 1), axis=1)
        curves = _controls(places, share)
    at, way = cubic_at(curves, share)
    cross = (places - at)[..., 0] * way[..., 1] - (places - at)[..., 1] * way[..., 0]
    away = cross / np.maximum(np.linalg.norm(way, axis=2), 1e-9)
    return curves, np.asarray((away**2).mean(axis=1))


def cubic_at(curves: Array, share: Array) -> tuple[Array, Array]:
    """Points and directions (per whole share) of cubics at shares (stretches × places)."""
    t = share[..., None]
    p0, p1, p2, p3 = (curves[:, number, None, :] for number in range(4))
    u = 1 - t
    at = u**3 * p0 + 3 * u * u * t * p1 + 3 * u * t * t * p2 + t**3 * p3
    way = 3 * (u * u * (p1 - p0) + 2 * u * t * (p2 - p1) + t * t * (p3 - p2))
    return at, way


def _controls(places: Array, share: Array) -> Array:
    """Least squares for both inner points; the ends are the first and last place."""
    t, u = share, 1 - share
    a, b = 3 * u * u * t, 3 * u * t * t
    ends = (u**3)[..., None] * places[:, :1] + (t**3)[..., None] * places[:, -1:]
    left = places - ends
    aa, ab, bb = ((one * two).sum(axis=1) for one, two in ((a, a), (a, b), (b, b)))
    al = (a[..., None] * left).sum(axis=1)
    bl = (b[..., None] * left).sum(axis=1)
    room = np.maximum(aa * bb - ab * ab, 1e-9)[:, None]
    first = (bb[:, None] * al - ab[:, None] * bl) / room
    second = (aa[:, None] * bl - ab[:, None] * al) / room
    return np.stack((places[:, 0], first, second, places[:, -1]), axis=1)
