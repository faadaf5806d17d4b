"""Benches with templates that never were: seeded pieces between strips, and how they are painted.

`photo_camera` takes photos of them.
"""

from dataclasses import dataclass
from itertools import pairwise
from math import atan2, cos, hypot, pi, radians, sin

import numpy as np
from PIL import Image, ImageDraw
from shapely.geometry import LineString, Polygon

from guidegen.bench.photos.solve import laid
from guidegen.bench.photos.strips import (
    CELLS,
    LENGTH,
    MARKERS,
    SIDE,
    WIDTH,
    marker_bits,
    marker_corners,
    strip_rim,
)  # fmt: skip
from guidegen.geometry.outline.records import Arc, Cubic, Line

FINE = 0.1
"""mm of a cell of the drawn bench."""

STEP = 0.2
"""mm between points of the truth."""


@dataclass(frozen=True)
class Scene:
    """What lies on the bench, in mm."""

    ring: tuple
    holes: tuple
    marks: tuple
    strips: dict
    kind: str
    """card or pen"""


def along(run, step=STEP):
    """Points along segments."""
    points = []
    for segment in run:
        if isinstance(segment, Line):
            count = max(1, int(np.hypot(*np.subtract(segment.end, segment.start)) / step))
            t = np.arange(count)[:, None] / count
            points.append(np.array(segment.start) * (1 - t) + np.array(segment.end) * t)
        elif isinstance(segment, Arc):
            count = max(4, int(abs(radians(segment.sweep)) * segment.radius / step))
            a = np.radians(segment.start_angle + segment.sweep * np.arange(count) / count)
            points.append(
                np.array(segment.centre) + segment.radius * np.column_stack((np.cos(a), np.sin(a)))
            )
        else:
            p = [
                np.array(q)
                for q in (segment.start, segment.control1, segment.control2, segment.end)
            ]
            size = sum(np.hypot(*(b - a)) for a, b in pairwise(p))
            t = np.linspace(0, 1, max(8, int(size / step)), endpoint=False)[:, None]
            points.append(
                (1 - t) ** 3 * p[0]
                + 3 * (1 - t) ** 2 * t * p[1]
                + 3 * (1 - t) * t * t * p[2]
                + t**3 * p[3]
            )
    return np.concatenate(points)


def bulged(a, b, sagitta):
    """An arc from a to b that bulges to the right by `sagitta` mm."""
    a, b = np.array(a), np.array(b)
    chord = np.hypot(*(b - a))
    radius = (chord**2 / 4 + sagitta**2) / (2 * abs(sagitta))
    right = np.array([(b - a)[1], -(b - a)[0]]) / chord
    centre = (a + b) / 2 + right * (sagitta - np.sign(sagitta) * radius)
    start, end = atan2(*(a - centre)[::-1]), atan2(*(b - centre)[::-1])
    turn = (end - start) % (2 * pi) if sagitta > 0 else -((start - end) % (2 * pi))
    return Arc(tuple(centre), float(radius), float(np.degrees(start)), float(np.degrees(turn)))


def ring_around(rng, wide, high):
    """A closed outline of lines, arcs and curves, counter-clockwise, about the origin."""
    while True:
        count = int(rng.integers(4, 8))
        angles = np.sort(rng.uniform(0, 2 * pi, count))
        if np.diff(np.append(angles, angles[0] + 2 * pi)).min() < 0.45:
            continue
        far = rng.uniform(0.72, 1.0, count)
        corners = (
            np.column_stack((np.cos(angles) * wide / 2, np.sin(angles) * high / 2))
            * far[:, None]
            * 1.05
        )
        run = []
        for a, b in zip(corners, np.roll(corners, -1, 0), strict=True):
            chord = hypot(*(b - a))
            kind = rng.choice(["line", "arc", "cubic"], p=[0.45, 0.3, 0.25])
            if kind == "line" or chord < 30:
                run.append(Line(tuple(a), tuple(b)))
            elif kind == "arc":
                run.append(
                    bulged(
                        a, b, chord * rng.uniform(0.06, 0.22) * rng.choice([-1, 1], p=[0.3, 0.7])
                    )
                )
            else:
                out = np.array([(b - a)[1], -(b - a)[0]])
                run.append(
                    Cubic(
                        tuple(a),
                        tuple(a + (b - a) * 0.3 + out * rng.uniform(-0.2, 0.3)),
                        tuple(a + (b - a) * 0.7 + out * rng.uniform(-0.2, 0.3)),
                        tuple(b),
                    )
                )
        points = along(run, 1.0)
        polygon = Polygon(points)
        size = np.ptp(points, axis=0)
        if not polygon.is_valid or polygon.area < 0.45 * wide * high:
            continue
        fits = polygon.buffer(-12).geom_type == "Polygon" and size[0] <= wide and size[1] <= high
        # No thinner than a finger anywhere, as templates are.
        if fits and polygon.buffer(-8).buffer(8.5).covers(polygon.buffer(-1.5)):
            return tuple(run), polygon


def inner(rng, polygon, holes, marks):
    """Holes and drawn lines well inside."""
    room = polygon.buffer(-14)
    found, lines = [], []
    left, low, right, high = room.bounds
    for _ in range(60):
        if len(found) == holes:
            break
        centre = rng.uniform((left, low), (right, high))
        radius = float(rng.uniform(2.5, 9))
        disc = Polygon(along((Arc(tuple(centre), radius + 8, 0, 360),), 1))
        if room.contains(disc):
            found.append((Arc(tuple(centre), radius, 0, -360),))
            room = room.difference(disc)
    for _ in range(60):
        if len(lines) == marks:
            break
        a = rng.uniform((left, low), (right, high))
        turn, far = rng.uniform(0, 2 * pi), rng.uniform(25, 70)
        b = a + far * np.array([cos(turn), sin(turn)])
        if room.contains(LineString([a, b]).buffer(5)):
            lines.append((Line(tuple(a), tuple(b)),))
            room = room.difference(LineString([a, b]).buffer(8))
    return tuple(found), tuple(lines)


def strips_around(rng, wide, high, layout):
    """Places of strips beside a piece of this size about the origin: x, y, turn."""
    gap = rng.uniform(14, 26)
    x, y = wide / 2 + gap, high / 2 + gap

    def spare(room):
        return rng.uniform(-1, 1) * max(0.0, room)

    sides = {
        "bottom": [(-LENGTH / 2 + spare(wide / 2 - LENGTH / 2), -y - WIDTH, 0)],
        "top": [(LENGTH / 2 + spare(wide / 2 - LENGTH / 2), y + WIDTH, pi)],
        "left": [(-x - WIDTH, LENGTH / 2 + spare(high / 2 - LENGTH / 2), -pi / 2)],
        "right": [(x + WIDTH, -LENGTH / 2 + spare(high / 2 - LENGTH / 2), pi / 2)],
    }
    if layout == "six" and wide > 2 * LENGTH * 0.75:
        sides["bottom"] = [(-LENGTH - 5, -y - WIDTH, 0), (5, -y - WIDTH, 0)]
        sides["top"] = [(LENGTH + 5, y + WIDTH, pi), (-5, y + WIDTH, pi)]
    if layout == "l":
        del sides["top"], sides["right"]
    if layout == "one":
        sides = {"bottom": sides["bottom"]}
    places = [place for side in sides.values() for place in side]
    order = rng.permutation(12)[: len(places)]
    jitter = lambda: rng.normal(0, [1.5, 1.5, 0.012])  # noqa: E731 - of one line
    return {int(n): np.array(place) + jitter() for n, place in zip(order, places, strict=True)}


def scene(rng, kind="card", layout="around", wide=400.0, high=280.0):
    """A piece with strips around it."""
    w, h = wide * rng.uniform(0.85, 1.0), high * rng.uniform(0.85, 1.0)
    ring, polygon = ring_around(rng, w, h)
    holes, marks = inner(rng, polygon, int(rng.integers(0, 4)), int(rng.integers(0, 3)))
    left, low, right, top = polygon.bounds
    shift = np.array([(left + right) / 2, (low + top) / 2])
    strips = strips_around(rng, right - left, top - low, layout)
    return Scene(ring, holes, marks, {n: p + np.append(shift, 0) for n, p in strips.items()}, kind)


def layers(made, box):
    """Cells of the bench: how much of each is card or ink, and the print of strips (-1: none)."""
    (left, low), (right, top) = box
    size = (int((right - left) / FINE), int((top - low) / FINE))

    def cells(points):
        return [
            (float(x), float(y))
            for x, y in np.column_stack(
                ((points[:, 0] - left) / FINE - 0.5, (top - points[:, 1]) / FINE - 0.5)
            )
        ]

    def painted(draw_on):
        big = Image.new("L", (size[0] * 2, size[1] * 2), 0)
        draw_on(ImageDraw.Draw(big), lambda p: [(2 * x + 0.5, 2 * y + 0.5) for x, y in cells(p)])
        return np.asarray(big.reduce(2))

    def body(pen, at):
        pen.polygon(at(along(made.ring, 0.05)), fill=255)
        for hole in made.holes:
            pen.polygon(at(along(hole, 0.05)), fill=0)

    def ink(pen, at):
        runs = [(made.ring, True), *((h, True) for h in made.holes)] if made.kind == "pen" else []
        runs += [(m, False) for m in made.marks]
        for run, closed in runs:
            points = along(run, 0.3)
            if not closed:
                points = np.vstack((points, [run[-1].end]))
            line = LineString([*points, points[0]] if closed else points).buffer(0.35)
            for part in getattr(line, "geoms", [line]):
                pen.polygon(at(np.array(part.exterior.coords)), fill=255)
                for hole in part.interiors:
                    pen.polygon(at(np.array(hole.coords)), fill=0)

    paper, black = np.zeros(size[::-1], np.uint8), np.zeros(size[::-1], np.uint8)
    for number, place in made.strips.items():
        rim = np.array(cells(laid(place, strip_rim())))
        x0, y0 = np.maximum(rim.min(0).astype(int) - 2, 0)
        x1, y1 = rim.max(0).astype(int) + 3
        part = (slice(y0, y1), slice(x0, x1))
        strip, print_ = (
            Image.new("L", (4 * (x1 - x0), 4 * (y1 - y0))),
            Image.new("L", (4 * (x1 - x0), 4 * (y1 - y0))),
        )

        def at(p, x0=x0, y0=y0, place=place):
            return [(4 * (x - x0) + 1.5, 4 * (y - y0) + 1.5) for x, y in cells(laid(place, p))]

        ImageDraw.Draw(strip).polygon(at(strip_rim()), fill=255)
        pen = ImageDraw.Draw(print_)
        for marker in range(number * MARKERS, (number + 1) * MARKERS):
            four = marker_corners(marker)
            pen.polygon(at(four), fill=255)
            cell = SIDE / CELLS
            for row, bits in enumerate(marker_bits(marker)):
                for column, white in enumerate(bits):
                    if white:
                        x, y = four[0] + (cell * (column + 1), -cell * (row + 1))
                        pen.polygon(
                            at(
                                np.array(
                                    [(x, y), (x + cell, y), (x + cell, y - cell), (x, y - cell)]
                                )
                            ),
                            fill=0,
                        )
        paper[part] = np.maximum(paper[part], np.asarray(strip.reduce(4)))
        black[part] = np.maximum(black[part], np.asarray(print_.reduce(4)))
    return painted(body), painted(ink), paper, black
