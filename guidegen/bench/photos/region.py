"""The bench from above in → which part of it is the template, coarsely, out.

The ground is what can be reached from the strips and from the rim without crossing a steep place,
and the template what cannot. So light that changes slowly, as a soft shadow does, moves nothing.
How steep is steep is tried over the whole range: the answer that stays the same longest is taken.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from guidegen.bench.photos import vision
from guidegen.bench.photos.arrays import Array, BenchMask, Pixels
from guidegen.bench.photos.flat import Flat
from guidegen.bench.photos.sampling import LINEAR

BESIDE = 2.0
"""mm around a strip where nothing is looked for: its own edge is there."""
LEVELS = 18
"""How many degrees of steepness are tried."""
SAME = 0.04
"""By which share an area may change from one degree to the next and still be the same."""
LEAST = 400.0
"""mm² of the smallest template."""
STEADY = 1.7
"""By which factor the steepness may change at least without another answer."""
INK = 3.0
"""mm: the widest drawn line."""


@dataclass(frozen=True, slots=True)
class Region:
    """The template as cells."""

    mask: BenchMask
    steady: float
    """By which factor the steepness may change without another answer."""
    others: int
    """Other things on the bench at least a quarter as large."""
    touches: bool
    """Whether it reaches a strip."""


def log_light(picture: Pixels) -> Array:
    """Logarithm of the light of each cell and colour: there a shadow is a plain difference."""
    return np.asarray(np.log(LINEAR + 0.01).astype(np.float32)[picture])


def edge_steepness(flat: Flat, log: Array) -> Array:
    """How steeply the light changes at each cell, for an edge between two grounds."""
    return _open(flat, vision.slopes(vision.blur(log, max(0.8, 0.3 / flat.step))))


def line_steepness(flat: Flat, log: Array, *, light: bool = False) -> Array:
    """How much darker each cell is than what lies on both sides of it, for a drawn line."""
    plain = vision.blur(log.mean(axis=2), max(0.7, 0.2 / flat.step))
    plain = -plain if light else plain
    return _open(flat, vision.closed_up(plain, round(INK / flat.step)) - plain)


def _open(flat: Flat, steep: Array) -> Array:
    """Without the steps of strips and of the seams between photos."""
    hidden = vision.grown(flat.strips, max(1, round(BESIDE / flat.step)))
    cut = vision.grown(flat.owner < 0, 4)
    for number in range(flat.owner.max() + 1 if flat.owner.max() > 0 else 0):
        own = flat.owner == number
        cut |= vision.grown(own, 3) & ~own & (flat.owner >= 0) & (steep < 0)
    return np.where(hidden | cut, 0.0, steep)


def find_region(fine: Flat, fine_steep: Array) -> Region | None:
    """The largest thing that is walled in by steep places; None where nothing is."""
    flat, steep = _coarse(fine, fine_steep)
    seeds = _seeds(flat)
    used = steep[(flat.owner >= 0) & ~flat.strips]
    low = max(float(np.median(used)), float(steep.max()) / 400, 1e-6)
    levels = np.geomspace(low, max(float(steep.max()), low * 1.01), LEVELS)
    tries = [_walled(flat, steep, seeds, level) for level in levels]
    areas = np.array([0.0 if one is None else float(one.sum()) * flat.step**2 for one in tries])
    first, last = _longest(areas)
    if last < first:
        return None
    mask = tries[(first + last) // 2]
    if mask is None:
        return None
    ratio = float(levels[1] / levels[0])
    found = np.sort(_walled_all(flat, steep, seeds, float(levels[(first + last) // 2])))[::-1]
    others = int((found[1:] > found[0] / 4).sum()) if len(found) else 0
    near = vision.grown(flat.strips, round((BESIDE + 1) / flat.step))
    touches = bool((vision.grown(mask, 1) & near).any())
    wide = np.repeat(np.repeat(mask, 2, axis=0), 2, axis=1)
    whole = np.zeros(fine.owner.shape, bool)
    whole[: wide.shape[0], : wide.shape[1]] = wide
    return Region(whole, ratio ** (last - first + 1), others, touches)


def _coarse(flat: Flat, steep: Array) -> tuple[Flat, Array]:
    """Cells twice as large, for speed; the steepest of four counts, so that no wall gets a gap."""
    high, wide = (one // 2 * 2 for one in steep.shape)

    def four[T: np.generic](values: NDArray[T]) -> NDArray[T]:
        return values[:high, :wide].reshape(high // 2, 2, wide // 2, 2).swapaxes(1, 2)

    half = flat.step / 2
    coarse = Flat(
        flat.picture[:high:2, :wide:2],
        four(flat.owner).min(axis=(2, 3)),
        flat.left + half,
        flat.top - half,
        flat.step * 2,
        four(flat.strips).any(axis=(2, 3)),
    )
    return coarse, four(steep).max(axis=(2, 3))


def _seeds(flat: Flat) -> BenchMask:
    """Where the ground is known to be: under the strips, at the rim, where no photo looks."""
    seeds = flat.strips | (flat.owner < 0)
    seeds[[0, -1], :] = True
    seeds[:, [0, -1]] = True
    return seeds


def _outside(flat: Flat, steep: Array, seeds: BenchMask, level: float) -> BenchMask:
    """What is not reached from the seeds."""
    labels, _ = vision.patches((steep < level) | seeds)
    reached = np.zeros(int(labels.max()) + 1, bool)
    reached[labels[seeds]] = True
    reached[0] = False
    return ~reached[labels] & ~seeds & (flat.owner >= 0)


def _walled(flat: Flat, steep: Array, seeds: BenchMask, level: float) -> BenchMask | None:
    left = _outside(flat, steep, seeds, level)
    # Whiskers of steep places that hang on the template's edge are worn off.
    left = vision.grown(vision.grown(left, -2), 2) & left
    labels, boxes = vision.patches(left)
    if len(boxes) < 2:
        return None
    largest = 1 + int(boxes[1:, 4].argmax())
    if boxes[largest, 4] * flat.step**2 < LEAST:
        return None
    return np.asarray(labels == largest)


def _walled_all(flat: Flat, steep: Array, seeds: BenchMask, level: float) -> Array:
    """Areas of all things that are walled in, mm²."""
    left = vision.grown(_outside(flat, steep, seeds, level), -2)
    _, boxes = vision.patches(left)
    return np.asarray(boxes[1:, 4] * flat.step**2, dtype=np.float64)


def _longest(areas: Array) -> tuple[int, int]:
    """First and last place of the longest stretch of equal areas; later ones win ties."""
    best, start = (0, -1), 0
    for place in range(1, len(areas) + 1):
        ended = (
            place == len(areas) or abs(areas[place] - areas[place - 1]) > SAME * areas[place - 1]
        )
        if ended:
            if areas[start] > 0 and place - 1 - start >= best[1] - best[0]:
                best = (start, place - 1)
            start = place
    return best
