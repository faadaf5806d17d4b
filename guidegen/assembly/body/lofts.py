"""Sections along an axis in → closed surfaces through them: limbs, trunk, head."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from guidegen.assembly.records import Points3, Row, Solid, Triangles

AROUND = 56
"""Points round a section. Our choice: chords of 18 mm on a chest, less than 0.3 mm off."""


@dataclass(frozen=True, eq=False)
class Section:
    """A section across a limb: an oval (superellipse) between ellipse and rectangle."""

    at: float
    """mm along the axis."""
    wide: float
    """mm; half its width."""
    deep: float
    """mm; half its depth."""
    square: float = 2.0
    """Exponent: 2 is an ellipse, more is squarer."""
    ahead: float = 0.0
    """mm by which its middle lies before the axis."""
    aside: float = 0.0
    """mm by which its middle lies beside the axis, to the left."""


@lru_cache(maxsize=64)
def unit_girth(ratio: float, square: float) -> float:
    """Girth of an oval that is 2 wide and 2·ratio deep: chords of 720 points."""
    angle = np.linspace(0.0, 2 * np.pi, 721)
    x, z = _oval(angle, square)
    return float(np.hypot(np.diff(x), np.diff(z * ratio)).sum())


def oval(at: float, girth: float, ratio: float, square: float = 2.0, **more: float) -> Section:
    """The section whose girth is `girth` mm, `ratio` times as deep as wide."""
    wide = girth / unit_girth(round(ratio, 4), square)
    return Section(at, wide, wide * ratio, square, **more)


def _oval(angle: Row, square: Row | float) -> tuple[Row, Row]:
    """Points of the oval that is 2 wide and 2 deep; angle 0 is the front, then to the left."""
    sine, cosine = np.sin(angle), np.cos(angle)
    power = 2.0 / square
    return np.sign(sine) * np.abs(sine) ** power, np.sign(cosine) * np.abs(cosine) ** power


def between(at: Row, values: Row, wanted: Row) -> Row:
    """Values at `wanted` places, without overshoot: cubic Hermite with the slopes of Fritsch and
    Carlson (SIAM J. Numer. Anal. 17, 1980)."""
    step = np.diff(at)
    slope = np.diff(values) / step
    tangent = np.zeros_like(values)
    tangent[0], tangent[-1] = slope[0], slope[-1]
    for j in range(1, len(values) - 1):
        if slope[j - 1] * slope[j] > 0:
            one, two = 2 * step[j] + step[j - 1], step[j] + 2 * step[j - 1]
            tangent[j] = (one + two) / (one / slope[j - 1] + two / slope[j])
    k = np.clip(np.searchsorted(at, wanted, side="right") - 1, 0, len(step) - 1)
    t = (wanted - at[k]) / step[k]
    h = step[k]
    return np.asarray(
        (1 + 2 * t) * (1 - t) ** 2 * values[k]
        + t * (1 - t) ** 2 * h * tangent[k]
        + t**2 * (3 - 2 * t) * values[k + 1]
        + t**2 * (t - 1) * h * tangent[k + 1]
    )


@dataclass(frozen=True, eq=False)
class BodyLimb:
    """A limb: an axis through points, and sections along it."""

    name: str
    axis: Points3
    """Corners of its axis; it is rounded at them."""
    sections: tuple[Section, ...]
    front: tuple[float, float, float] = (0.0, 0.0, 1.0)
    """Which way its front looks."""
    round_start: float = 0.0
    round_end: float = 0.0
    """mm over which its ends are rounded off; 0 is cut flat."""

    @property
    def length(self) -> float:
        """mm along the axis."""
        return float(_steps(self.axis).sum())

    def frame(self, at: float) -> tuple[Row, Row, Row, Row]:
        """Middle of the axis there, and unit vectors to the left, along and to the front."""
        point, left, along, front = self.frames(np.array([at]))
        return point[0], left[0], along[0], front[0]

    def frames(self, at: Row) -> tuple[Points3, Points3, Points3, Points3]:
        """The same at several places."""
        stations = np.concatenate([[0.0], np.cumsum(_steps(self.axis))])
        wanted = np.concatenate([at, at + 1.0, at - 1.0])
        points = np.stack([between(stations, self.axis[:, k], wanted) for k in range(3)], axis=1)
        point, ahead, behind = (
            points[: len(at)],
            points[len(at) : 2 * len(at)],
            points[2 * len(at) :],
        )
        along = unit(ahead - behind)
        front = np.array(self.front)
        front = unit(front - along * (along * front).sum(1, keepdims=True))
        return point, np.cross(along, front), along, front

    def half_axes(self, at: float) -> tuple[float, float]:
        """Half width and half depth of the section there, in mm."""
        where = np.array([section.at for section in self.sections])
        found = [
            float(between(where, np.array(values), np.array([at]))[0])
            for values in (
                [section.wide for section in self.sections],
                [section.deep for section in self.sections],
            )
        ]
        return found[0], found[1]

    def rings(self, spacing: float = 13.0, around: int = AROUND) -> Points3:
        """Rows of points round the limb, m by `around` by 3."""
        where = np.array([section.at for section in self.sections])
        count = max(2, int(np.ceil((where[-1] - where[0]) / spacing)) + 1)
        stations = np.linspace(where[0], where[-1], count)
        for start, length in ((where[0], self.round_start), (where[-1], -self.round_end)):
            # Closer together where an end is rounded off.
            more = [start + length * t for t in (0.0, 0.02, 0.08, 0.18, 0.32, 0.5, 0.75) if length]
            stations = np.union1d(stations, np.array(more))
        wide, deep, square, ahead, aside = (
            between(where, np.array([getattr(one, name) for one in self.sections]), stations)[
                :, None
            ]
            for name in ("wide", "deep", "square", "ahead", "aside")
        )
        shrink = self._shrink(stations - where[0], where[-1] - stations)[:, None]
        angle: Row = np.arange(around, dtype=np.float64)[None, :] * (2 * np.pi / around)
        x, z = _oval(angle, square)
        point, left, _, front = self.frames(stations)
        return np.asarray(
            point[:, None, :]
            + (aside + wide * shrink * x)[:, :, None] * left[:, None, :]
            + (ahead + deep * shrink * z)[:, :, None] * front[:, None, :]
        )

    def _shrink(self, from_start: Row, to_end: Row) -> Row:
        """How much smaller sections are near a rounded end: a quarter of an ellipse."""
        shrink = np.ones_like(from_start)
        for room, length in ((from_start, self.round_start), (to_end, self.round_end)):
            if length:
                near = np.clip(1 - room / length, 0.0, 1.0)
                shrink = shrink * np.maximum(0.02, np.sqrt(np.maximum(0.0, 1 - near**2)))
        return shrink

    def solid(self, face: int, spacing: float = 13.0, around: int = AROUND) -> Solid:
        """Its closed surface, of rings of `around` points about `spacing` mm apart."""
        rings = self.rings(spacing, around)
        count = len(rings)
        points = np.concatenate(
            [rings.reshape(-1, 3), rings[0].mean(0)[None], rings[-1].mean(0)[None]]
        )
        triangles = np.concatenate(
            [
                _band(count, around),
                _fan(count * around, 0, around)[:, [0, 2, 1]],
                _fan(count * around + 1, (count - 1) * around, around),
            ]
        )
        outward = _outward(points, triangles)
        return Solid(points, outward, np.full(len(outward), face, dtype=np.int64))


def _band(count: int, around: int) -> Triangles:
    row = np.arange(count - 1)[:, None] * around
    k = np.arange(around)[None, :]
    a, b = (row + k).ravel(), (row + (k + 1) % around).ravel()
    one = np.stack([a, b, b + around], axis=1)
    other = np.stack([a, b + around, a + around], axis=1)
    return np.concatenate([one, other])


def _fan(middle: int, first: int, around: int) -> Triangles:
    k = np.arange(around)
    return np.stack([np.full(around, middle), first + k, first + (k + 1) % around], axis=1)


def _outward(points: Points3, triangles: Triangles) -> Triangles:
    """The same surface turned so that its volume counts positive."""
    a, b, c = (points[triangles[:, k]] for k in range(3))
    volume = float((a * np.cross(b, c)).sum())
    return triangles if volume > 0 else triangles[:, [0, 2, 1]]


def _steps(points: Points3) -> Row:
    return np.asarray(np.sqrt((np.diff(points, axis=0) ** 2).sum(1)))


def unit(vector: Row) -> Row:
    """The same direction, 1 long."""
    return np.asarray(vector / np.sqrt((vector**2).sum(-1, keepdims=True)))


def dot(one: Row, other: Row) -> float:
    """Product of two vectors."""
    return float((one * other).sum())


def bent_axis(corners: Sequence[Sequence[float] | Row], rounding: float = 30.0) -> Points3:
    """Points of an axis through corners, rounded `rounding` mm before and after each."""
    points = [np.array(corner, dtype=float) for corner in corners]
    found = [points[0]]
    for before, here, after in zip(points, points[1:], points[2:], strict=False):
        one, two = here - before, after - here
        r = min(
            rounding, 0.45 * float(np.sqrt((one**2).sum())), 0.45 * float(np.sqrt((two**2).sum()))
        )
        start, end = here - unit(one) * r, here + unit(two) * r
        found += [
            (1 - t) ** 2 * start + 2 * t * (1 - t) * here + t * t * end
            for t in (0.0, 0.25, 0.5, 0.75, 1.0)
        ]
    found.append(points[-1])
    return np.array(found)
