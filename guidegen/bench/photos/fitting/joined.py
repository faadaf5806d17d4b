"""A divided run → its lines, arcs and cubics, moved together until all places lie nearest to them.

Parts share their ends, so that nothing opens. An arc is its ends and its height over their chord:
so it may become as flat as a line. Where parts met smoothly, they are kept smooth.
"""

from dataclasses import dataclass

import numpy as np

from guidegen.bench.photos.arrays import Array, BenchMask, Whole
from guidegen.bench.photos.fitting.cubics import cubic_at, fit_cubics, sampled
from guidegen.bench.photos.fitting.split import PartKind, Parts
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Segment

SMOOTH = 6.0
"""degrees: parts that meet with less of a bend are meant to be smooth."""
STIFF = 0.25
"""degrees that a smooth joint may keep, against a place that is off by its usual error."""
LOOSE = 4.0
"""mm that an end may wander along the edge, which itself does not hold it."""
EVEN = 0.15
"""Share of its chord by which an inner point of a cubic usually stands off its third, along the
chord. Our choice: so weak that places decide, but where they do not, nothing runs past an end."""
FLAT = 0.02
"""mm: an arc no higher than that is a line."""
STEPS = 14
NUDGE = 1e-5
"""mm by which a number is changed to see what follows."""
MOST_PLACES = 60
"""Of each part that are looked at."""


@dataclass(frozen=True, slots=True)
class _Part:
    kind: PartKind
    start: int
    """Number of the node at its start."""
    end: int
    extra: slice
    """Where its own numbers stand."""
    places: Array


def join_parts(
    points: Array, weights: Array, parts: Parts, noise: float, *, closed: bool
) -> list[Segment]:
    """Segments through all nodes; of a ring the last ends where the first starts."""
    run = _Run.of(points, weights, parts, closed=closed)
    row = run.first
    for smooth in (False, True):
        joints = run.smooth_joints(row) if smooth else []
        for _ in range(2):
            row = _settled(run, row, run.feet(row), joints, noise)
    return run.segments(row)


def _settled(
    run: "_Run", row: Array, shares: list[Array], joints: list[int], noise: float
) -> Array:
    """The row of numbers that leaves least over: steps of Levenberg and Marquardt."""
    held, damping = row, 1e-3
    left, slopes = run.linear(row, shares, joints, held, noise)
    for _ in range(STEPS):
        square = slopes.T @ slopes
        square[np.diag_indices_from(square)] *= 1 + damping
        step = np.linalg.lstsq(square, -slopes.T @ left, rcond=None)[0]
        tried = run.residuals(row + step, shares, joints, held, noise)
        if tried @ tried < left @ left:
            row, damping = row + step, damping / 5
            if np.abs(step).max() < 1e-4:
                break
            left, slopes = run.linear(row, shares, joints, held, noise)
        else:
            damping *= 10
    return row


class _Run:
    """Nodes and parts as one row of numbers."""

    def __init__(self, parts: list[_Part], first: Array, nodes: int, *, closed: bool) -> None:
        self._parts, self.first, self._nodes, self._closed = parts, first, nodes, closed

    @classmethod
    def of(cls, points: Array, weights: Array, parts: Parts, *, closed: bool) -> "_Run":
        count = len(parts.kinds)
        nodes = points[list(parts.cuts[:count] if closed else parts.cuts)]
        made, extras, at = [], [], 2 * len(nodes)
        for number, kind in enumerate(parts.kinds):
            first, last = parts.cuts[number], parts.cuts[number + 1]
            own = _some(points, weights, first, last)
            start, end = number, (number + 1) % len(nodes)
            if kind is PartKind.ARC:
                u = nodes[end] - nodes[start]
                left = np.array([-u[1], u[0]]) / max(float(np.linalg.norm(u)), 1e-9)
                extra = np.array([(points[(first + last) // 2] - nodes[start]) @ left])
            elif kind is PartKind.CUBIC:
                curves, _ = fit_cubics(sampled(points, np.array([first]), np.array([last]), 60))
                extra = curves[0, 1:3].ravel()
            else:
                extra = np.zeros(0)
            made.append(_Part(kind, start, end, slice(at, at + len(extra)), own))
            extras.append(extra)
            at += len(extra)
        return cls(made, np.concatenate([nodes.ravel(), *extras]), len(nodes), closed=closed)

    def _node(self, row: Array, number: int) -> Array:
        return row[2 * number : 2 * number + 2]

    def _curve(self, row: Array, part: _Part) -> Array:
        inner = row[part.extra].reshape(2, 2)
        return np.vstack((self._node(row, part.start), inner, self._node(row, part.end)))[None]

    def feet(self, row: Array) -> list[Array]:
        """For each cubic the shares at which it is nearest to its places."""
        found = []
        for part in self._parts:
            if part.kind is not PartKind.CUBIC or not len(part.places):
                found.append(np.zeros(0))
                continue
            curve = self._curve(row, part)
            grid = np.linspace(0, 1, 120)
            at, _ = cubic_at(curve, grid[None])
            gaps = ((part.places[:, None] - at) ** 2).sum(axis=2)
            share = grid[gaps.argmin(axis=1)]
            for _ in range(2):
                at, way = cubic_at(curve, share[None])
                along = ((part.places - at[0]) * way[0]).sum(axis=1)
                share = np.clip(share + along / np.maximum((way[0] ** 2).sum(axis=1), 1e-9), 0, 1)
            found.append(share)
        return found

    def residuals(
        self, row: Array, shares: list[Array], joints: list[int], held: Array, noise: float
    ) -> Array:
        """All that is to be small, each by how large it usually is."""
        found = [
            self._away(row, part, share) / noise
            for part, share in zip(self._parts, shares, strict=True)
        ]
        wander = (row[: 2 * self._nodes] - held[: 2 * self._nodes]) / LOOSE
        bends = np.array([self._bend(row, joint) for joint in joints]) / STIFF
        return np.concatenate([*found, wander, bends, self._uneven(row).ravel()])

    def _uneven(self, row: Array) -> Array:
        """How far the inner points of each cubic (rows) stand off the thirds of its chord."""
        found = []
        for part in self._cubics():
            start, end = self._node(row, part.start), self._node(row, part.end)
            way = end - start
            inner = row[part.extra].reshape(2, 2)
            share = (inner - start) @ way / max(float(way @ way), 1e-9)
            found.append((share - [1 / 3, 2 / 3]) / EVEN)
        return np.asarray(found).reshape(-1, 2)

    def _cubics(self) -> list[_Part]:
        return [part for part in self._parts if part.kind is PartKind.CUBIC]

    def linear(
        self, row: Array, shares: list[Array], joints: list[int], held: Array, noise: float
    ) -> tuple[Array, Array]:
        """Residuals and how each changes with each number: a part knows only its own."""
        left = self.residuals(row, shares, joints, held, noise)
        slopes = np.zeros((len(left), len(row)))
        at = 0
        for part, share in zip(self._parts, shares, strict=True):
            rows = slice(at, at + len(part.places))
            at = rows.stop
            for number in self._numbers(part):
                moved = row.copy()
                moved[number] += NUDGE
                slopes[rows, number] = (self._away(moved, part, share) / noise - left[rows]) / NUDGE
        ends = 2 * self._nodes
        slopes[at : at + ends, :ends] = np.eye(ends) / LOOSE
        at += ends
        for place, joint in enumerate(joints):
            for number in {
                *self._numbers(self._parts[joint - 1]),
                *self._numbers(self._parts[joint]),
            }:
                moved = row.copy()
                moved[number] += NUDGE
                slopes[at + place, number] = (
                    self._bend(moved, joint) / STIFF - left[at + place]
                ) / NUDGE
        at += len(joints)
        for place, part in enumerate(self._cubics()):
            rows = slice(at + 2 * place, at + 2 * place + 2)
            for number in self._numbers(part):
                moved = row.copy()
                moved[number] += NUDGE
                slopes[rows, number] = (self._uneven(moved)[place] - left[rows]) / NUDGE
        return left, slopes

    @staticmethod
    def _numbers(part: _Part) -> list[int]:
        ends = (2 * part.start, 2 * part.start + 1, 2 * part.end, 2 * part.end + 1)
        return [*ends, *range(part.extra.start, part.extra.stop)]

    def _away(self, row: Array, part: _Part, share: Array) -> Array:
        """Signed distances of a part's places, mm."""
        if not len(part.places):
            return np.zeros(0)
        if part.kind is PartKind.CUBIC:
            at, way = cubic_at(self._curve(row, part), share[None])
            left = part.places - at[0]
            cross = way[0, :, 0] * left[:, 1] - way[0, :, 1] * left[:, 0]
            return np.asarray(cross / np.maximum(np.linalg.norm(way[0], axis=1), 1e-9))
        height = float(row[part.extra][0]) if part.kind is PartKind.ARC else 0.0
        start, end = self._node(row, part.start), self._node(row, part.end)
        return arc_distance(part.places, start, end, height)

    def smooth_joints(self, row: Array) -> list[int]:
        """Numbers of the parts that go on smoothly from the one before."""
        first = 0 if self._closed and len(self._parts) > 1 else 1
        return [n for n in range(first, len(self._parts)) if abs(self._bend(row, n)) < SMOOTH]

    def _bend(self, row: Array, number: int) -> float:
        """degrees between the end of the part before and the start of this one."""
        before, after = self._parts[number - 1], self._parts[number]
        one, two = self._way(row, before, at_end=True), self._way(row, after, at_end=False)
        return float(np.degrees(np.arctan2(one[0] * two[1] - one[1] * two[0], one @ two)))

    def _way(self, row: Array, part: _Part, *, at_end: bool) -> Array:
        start, end = self._node(row, part.start), self._node(row, part.end)
        if part.kind is PartKind.CUBIC:
            curve = self._curve(row, part)[0]
            return np.asarray(curve[3] - curve[2] if at_end else curve[1] - curve[0])
        way = end - start
        if part.kind is PartKind.LINE:
            return way
        # An arc leaves its chord by half the angle that it turns: twice the angle of its height.
        height = float(row[part.extra][0])
        half = 2 * np.arctan2(2 * height, max(float(np.linalg.norm(way)), 1e-9))
        turn = -half if at_end else half
        cos, sin = np.cos(turn), np.sin(turn)
        return np.asarray([way[0] * cos - way[1] * sin, way[0] * sin + way[1] * cos])

    def segments(self, row: Array) -> list[Segment]:
        """What readers of outlines take."""
        return [self._segment(row, part) for part in self._parts]

    def _segment(self, row: Array, part: _Part) -> Segment:
        start, end = self._node(row, part.start), self._node(row, part.end)
        if part.kind is PartKind.CUBIC:
            a, b, c, d = (_point(one) for one in self._curve(row, part)[0])
            return Cubic(a, b, c, d)
        height = float(row[part.extra][0]) if part.kind is PartKind.ARC else 0.0
        return line_or_arc(start, end, height)


def line_or_arc(start: Array, end: Array, height: float) -> Segment:
    """An arc through both ends whose middle stands `height` mm to the left of the chord."""
    way = end - start
    chord = float(np.linalg.norm(way))
    if abs(height) < FLAT or chord < FLAT:
        return Line(_point(start), _point(end))
    radius = (chord**2 / 4 + height**2) / (2 * abs(height))
    left = np.array([-way[1], way[0]]) / chord
    centre = (start + end) / 2 + left * (height - np.sign(height) * radius)
    first = float(np.degrees(np.arctan2(*(start - centre)[::-1])))
    last = float(np.degrees(np.arctan2(*(end - centre)[::-1])))
    sweep = -((first - last) % 360) if height > 0 else (last - first) % 360
    return Arc(_point(centre), radius, first, sweep)


def arc_distance(points: Array, start: Array, end: Array, height: float) -> Array:
    """Signed distances from the circle through both ends and the height over their chord, mm.

    In the form of Pratt (Direct least-squares fitting of algebraic surfaces, SIGGRAPH 1987), which
    stays exact where the circle becomes a line.
    """
    way = end - start
    chord = max(float(np.linalg.norm(way)), 1e-9)
    u = (points - (start + end) / 2) @ way / chord
    w = (points - start) @ np.array([-way[1], way[0]]) / chord - height
    curve = 8 * height / (chord**2 + 4 * height**2)
    value = curve * (u * u + w * w) / 2 + w
    return np.asarray(2 * value / (1 + np.sqrt(np.maximum(1 + 2 * curve * value, 0))))


def _some(points: Array, weights: Array, first: int, last: int) -> Array:
    own: Whole = np.arange(first, last + 1)
    kept: BenchMask = weights[own] > 0
    own = own[kept]
    if len(own) > MOST_PLACES:
        own = own[np.round(np.linspace(0, len(own) - 1, MOST_PLACES)).astype(np.int64)]
    return np.asarray(points[own])


def _point(place: Array) -> Point:
    return float(place[0]), float(place[1])
