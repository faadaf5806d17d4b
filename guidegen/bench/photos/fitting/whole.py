"""Measured places of a ring or a drawn line → its segments, its corners and what is left over."""

from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from scipy.signal import savgol_filter
from scipy.spatial import cKDTree

from guidegen.bench.photos.arrays import Array, BenchMask
from guidegen.bench.photos.fitting.corners import find_corners
from guidegen.bench.photos.fitting.joined import join_parts
from guidegen.bench.photos.fitting.moments import Moments
from guidegen.bench.photos.fitting.split import EXACT, divide
from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run, Segment

ROUND = 0.12
"""mm: a ring whose places lie so near to one circle, in the root mean square, is a circle."""
ROUNDED = 1.6
ROUNDED_LINE = 3.2
"""mm beside a corner that are not fitted at the least: every lens rounds it, and where two drawn
lines meet the darkness of both is in the way."""
DENSE = 0.1
"""mm between places at which a run is compared with what was measured."""


@dataclass(frozen=True, slots=True)
class Fitted:
    """A run through measured places."""

    run: Run
    corners: tuple[Point, ...]
    left_over: Array
    """Distance of each measured place from the run, mm."""


def fit_run(
    points: Array,
    good: BenchMask,
    spacing: float,
    blur: float,
    *,
    closed: bool,
    rounded: float = ROUNDED,
) -> Fitted:
    """Few segments through places at even steps; places that are not good do not pull."""
    noise = max(usual_error(points[good]), EXACT)
    if closed and (circle := _circle(points, good)):
        run: Run = (circle,)
        return Fitted(run, (), distances(points, run))
    sharp = find_corners(points, spacing, closed=closed)
    weights = np.where(good, 1.0, 0.0)
    reach = round(max(rounded, 1.3 * blur) / spacing)
    for corner in np.flatnonzero(sharp):
        around = np.arange(corner - reach, corner + reach + 1)
        weights[around % len(points) if closed else around.clip(0, len(points) - 1)] = 0.0
    if closed:
        start = int(np.flatnonzero(sharp)[0]) if sharp.any() else 0
        if not sharp.any():
            # Where nothing says where to begin, begin where a first try is divided.
            turned = _Turned(points, sharp, weights, 0)
            cuts = divide(turned.points, turned.sharp, turned.weights, spacing, noise).cuts
            start = cuts[len(cuts) // 2] % len(points) if len(cuts) > 2 else 0
        turned = _Turned(points, sharp, weights, start)
    else:
        turned = _Turned(points, sharp, weights, None)
    parts = divide(turned.points, turned.sharp, turned.weights, spacing, noise)
    if closed and len(parts.kinds) == 1:
        parts = divide(turned.points, turned.halved(), turned.weights, spacing, noise)
    segments = join_parts(turned.points, turned.weights, parts, noise, closed=closed)
    run = tuple(segments)
    return Fitted(run, _corners_of(run, closed=closed), distances(points, run))


class _Turned:
    """A ring as an open run that begins and ends at one place; an open run as it is."""

    def __init__(self, points: Array, sharp: BenchMask, weights: Array, start: int | None) -> None:
        if start is None:
            self.points, self.sharp, self.weights = points, sharp, weights
            return
        order = np.append(np.roll(np.arange(len(points)), -start), start)
        self.points, self.sharp, self.weights = points[order], sharp[order], weights[order]

    def halved(self) -> BenchMask:
        """Corners, with one more half way, so that a ring has two parts at least."""
        more = self.sharp.copy()
        more[len(more) // 2] = True
        return more


def usual_error(points: Array) -> float:
    """mm by which places scatter about a smooth line through 10 mm of them, at most places."""
    window = 21
    if len(points) < 3 * window:  # half a window at either end is left out, and some must be left
        return EXACT
    smooth = savgol_filter(points, window, 2, axis=0)
    away = np.linalg.norm(points - smooth, axis=1)[window:-window]
    # Only what lies across the line scatters, so a length is a share of one deviation.
    return float(1.4826 * np.median(away))


def _circle(points: Array, good: BenchMask) -> Arc | None:
    kept = points[good]
    if len(kept) < 8:
        return None
    moments = Moments(kept, np.ones(len(kept)))
    middle, radius = moments.circle(0, len(kept) - 1)
    away = np.linalg.norm(kept - middle, axis=1) - radius
    if np.sqrt(np.mean(away**2)) > ROUND or np.abs(away).max() > 4 * ROUND:
        return None
    x, y = points.T
    turn = float(x @ np.roll(y, -1) - y @ np.roll(x, -1))
    return Arc((float(middle[0]), float(middle[1])), radius, 0.0, 360.0 if turn > 0 else -360.0)


def _corners_of(run: Run, *, closed: bool) -> tuple[Point, ...]:
    """Where segments meet at an angle that is meant."""
    found = []
    for number in range(0 if closed else 1, len(run)):
        before, after = _way(run[number - 1], at_end=True), _way(run[number], at_end=False)
        cross = before[0] * after[1] - before[1] * after[0]
        if abs(np.degrees(np.arctan2(cross, before @ after))) > 6.0:
            found.append(segment_start(run[number]))
    return tuple(found)


def _way(segment: Segment, *, at_end: bool) -> Array:
    match segment:
        case Arc(sweep=sweep, start_angle=first):
            angle = np.radians(first + (sweep if at_end else 0))
            return np.asarray(np.array([-np.sin(angle), np.cos(angle)]) * np.sign(sweep))
        case Cubic(control1=one, control2=two):
            ends = (two, segment.end) if at_end else (segment.start, one)
            return np.asarray(np.subtract(ends[1], ends[0]))
    return np.asarray(np.subtract(segment_end(segment), segment_start(segment)))


def dense(run: Run, step: float = DENSE) -> Array:
    """Places along a run, both ends among them."""
    found = []
    for segment in run:
        match segment:
            case Line(start=start, end=end):
                share = np.linspace(0, 1, max(2, int(np.hypot(*np.subtract(end, start)) / step)))
                found.append(np.outer(1 - share, start) + np.outer(share, end))
            case Arc(centre=centre, radius=radius, start_angle=first, sweep=sweep):
                count = max(8, int(abs(np.radians(sweep)) * radius / step))
                angle = np.radians(np.linspace(first, first + sweep, count))
                found.append(np.column_stack((np.cos(angle), np.sin(angle))) * radius + centre)
            case Cubic():
                p = [
                    np.array(q)
                    for q in (segment.start, segment.control1, segment.control2, segment.end)
                ]
                size = sum(float(np.linalg.norm(b - a)) for a, b in pairwise(p))
                t = np.linspace(0, 1, max(8, int(size / step)))[:, None]
                u = 1 - t
                found.append(
                    u**3 * p[0] + 3 * u * u * t * p[1] + 3 * u * t * t * p[2] + t**3 * p[3]
                )
    return np.concatenate(found)


def distances(points: Array, run: Run) -> Array:
    """mm from each place to the nearest of a run."""
    return np.asarray(cKDTree(dense(run)).query(points)[0])
