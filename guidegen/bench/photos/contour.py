"""The template's coarse region in → its rings, outline and holes, to about half a millimetre.

A cell is template where its light is nearer to the template's light around it than to the ground's.
Both levels are local: one level for all goes far wrong where a shadow lies on a part.
"""

from dataclasses import dataclass

import numpy as np

from guidegen.bench.photos import vision
from guidegen.bench.photos.arrays import Array, BenchMask
from guidegen.bench.photos.flat import Flat
from guidegen.bench.photos.region import Region

SCALES = (120.0, 40.0, 12.0, 5.0)
"""mm over which light is averaged, from afar to near: where there is none near, the far counts."""
BLOCK = 6
"""Cells of which levels are worked out as one."""
SLIT = 0.9
"""mm: a dark place that is nowhere farther from its rim is a drawn line, not a hole."""
LEAST_HOLE = 6.0
"""mm² of the smallest hole."""
PALE = 0.14
"""Difference in logarithms of light below which template and ground are the same paper."""


@dataclass(frozen=True, slots=True)
class TemplateRings:
    """Rings on the bench in mm, the outline counter-clockwise, holes clockwise."""

    outline: Array
    holes: tuple[Array, ...]


def is_drawn(flat: Flat, log: Array, region: Region) -> bool:
    """Whether what walls the region in is a line: there is the same ground on both sides of it."""
    wide = round(2.5 / flat.step)
    inner, outer = vision.grown(region.mask, -wide), vision.grown(region.mask, wide)
    inside = inner & ~vision.grown(inner, -2 * wide)
    outside = vision.grown(outer, 2 * wide) & ~outer & ~flat.strips & (flat.owner >= 0)
    if not inside.any() or not outside.any():
        return False
    gap = np.median(log[inside], axis=0) - np.median(log[outside], axis=0)
    return bool(np.abs(gap).max() < PALE)


def card_rings(flat: Flat, log: Array, region: Region) -> TemplateRings | None:
    """Rings of a piece that is cut out; None where it has no body."""
    wide = round(3.0 / flat.step)
    body = vision.grown(region.mask, -wide)
    ground = ~vision.grown(region.mask, round(1.5 / flat.step)) & (flat.owner >= 0)
    ground &= ~vision.grown(flat.strips, round(2.0 / flat.step))
    if not body.any() or not ground.any():
        return None
    share = _share(log, body, ground, SCALES[:2], flat.step)
    holes = vision.grown(region.mask & (share < 0.5), 3)
    share = _share(log, body & ~holes, ground, SCALES, flat.step)
    mask = vision.grown(region.mask, 1) & (share > 0.5)
    slit = round(SLIT / flat.step)
    mask = vision.grown(vision.grown(mask, slit), -slit)
    labels, boxes = vision.patches(mask)
    if len(boxes) < 2:
        return None
    mask = labels == 1 + int(boxes[1:, 4].argmax())
    mask |= vision.grown(region.mask, -wide) & _thin(flat, ~mask)
    return _as_rings(flat, mask)


def drawn_rings(flat: Flat, steep: Array, region: Region) -> TemplateRings | None:
    """Rings of a piece that is drawn with a pen: closed lines; None where nothing is inside."""
    inner = vision.grown(region.mask, -round(1.5 / flat.step))
    if not inner.any():
        return None
    level = 0.4 * float(np.percentile(steep[region.mask & ~inner], 90))
    labels, boxes = vision.patches(inner & (steep < level))
    if len(boxes) < 2:
        return None
    order = np.argsort(-boxes[1:, 4], kind="stable") + 1
    mask = region.mask.copy()
    for number in order[1:]:
        if boxes[number, 4] * flat.step**2 >= LEAST_HOLE / 2:
            mask &= ~vision.grown(labels == number, 1)
    return _as_rings(flat, mask)


def _as_rings(flat: Flat, mask: BenchMask) -> TemplateRings | None:
    rings = vision.rims(mask)
    outer = [ring for ring, hole in rings if not hole and len(ring) > 8]
    if not outer:
        return None
    outline = max(outer, key=lambda ring: abs(_area(ring)))
    holes = [ring for ring, hole in rings if hole and abs(_area(ring)) * flat.step**2 > LEAST_HOLE]
    return TemplateRings(
        _turned(flat.to_mm(outline), 1), tuple(_turned(flat.to_mm(hole), -1) for hole in holes)
    )


def _share(
    log: Array, body: BenchMask, ground: BenchMask, scales: tuple[float, ...], step: float
) -> Array:
    """How near each cell is to the light of the template: 0 is the ground's, 1 the template's."""
    inside, outside = (_level(log, one, scales, step) for one in (body, ground))
    gap = inside - outside
    square = np.maximum((gap * gap).sum(axis=2), 1e-4)
    return np.asarray(((log - outside) * gap).sum(axis=2) / square)


def _level(log: Array, where: BenchMask, scales: tuple[float, ...], step: float) -> Array:
    """The light of a part of the bench at each cell, carried on to where it is not."""
    shape = (max(2, log.shape[0] // BLOCK), max(2, log.shape[1] // BLOCK))
    weight = vision.resized(where.astype(np.float64), shape)
    total = vision.resized(log * where[..., None], shape)
    level = np.broadcast_to(log[where].mean(axis=0), (*shape, 3)).astype(np.float64)
    for scale in scales:
        sigma = scale / (BLOCK * step)
        much = vision.blur(weight, sigma)[..., None]
        near = vision.blur(total, sigma) / np.maximum(much, 1e-6)
        trust = np.clip(much / 0.05, 0, 1)
        level = level * (1 - trust) + near * trust
    return vision.resized(level, (log.shape[0], log.shape[1]))


def _thin(flat: Flat, mask: BenchMask) -> BenchMask:
    """The patches of a mask that are lines or specks."""
    labels, boxes = vision.patches(mask)
    deepest = np.zeros(len(boxes))
    np.maximum.at(deepest, labels.ravel(), vision.depth(mask).ravel())
    small = (deepest * flat.step < SLIT) | (boxes[:, 4] * flat.step**2 < LEAST_HOLE)
    small[0] = False
    return np.asarray(small[labels])


def _area(ring: Array) -> float:
    x, y = ring.T
    return float(x @ np.roll(y, -1) - y @ np.roll(x, -1)) / 2


def _turned(ring: Array, way: int) -> Array:
    return ring if _area(ring) * way > 0 else ring[::-1]
