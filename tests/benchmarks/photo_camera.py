"""Drawn scenes in, photos of them out: camera, light and grain, with the truth beside them.

The camera is made in another way than the one that `guidegen trace` solves for: pixels are bent
outward by a division model (Fitzgibbon, CVPR 2001) with a second term, the sensor may lean, and all
is worked out from the photo to the bench, never the other way. No real photo is among them.
"""

import io
from dataclasses import dataclass
from math import cos, hypot, pi, radians, sin

import cv2
import numpy as np
from benchmarks.photo_scenes import FINE, along, layers
from PIL import Image

from guidegen.bench.photos.solve import laid
from guidegen.bench.photos.strips import (
    strip_rim,
)  # fmt: skip


@dataclass(frozen=True)
class Photo:
    """One photo of a scene."""

    data: bytes
    ending: str


@dataclass(frozen=True)
class View:
    """How a photo is taken."""

    width: int = 1400
    height: int = 1050
    lean: float = 15.0
    """degrees at most"""
    bent: tuple = (0.0, 0.0)
    blur: float = 0.7
    """px"""
    noise: float = 0.01
    shadow: str = "soft"
    jpeg: int = 0
    """quality; 0 writes PNG"""
    card: tuple = (0.75, 0.7, 0.6)
    ground: tuple = (0.08, 0.1, 0.09)
    grain: float = 0.06
    bow: float = 0.0
    """mm by which the bench is not flat"""


def take(rng, made, view, target=None, reach=None):  # noqa: PLR0915 - a camera, step by step
    """A photo of a scene, or of the part of it about `target`."""
    rims = np.concatenate([laid(p, strip_rim()) for p in made.strips.values()])
    points = np.vstack((rims, along(made.ring, 5.0)))
    low, top = points.min(0) - 3, points.max(0) + 3
    focus = (low + top) / 2 if target is None else np.array(target)
    size = np.ptp(points, axis=0) if reach is None else np.array(reach)
    width, height = view.width, view.height
    focal = float(width * rng.uniform(0.68, 1.05))
    lean, way = radians(view.lean) * rng.uniform(0.2, 1), rng.uniform(0, 2 * pi)
    spin = rng.uniform(-0.15, 0.15)
    ahead = np.array([sin(lean) * cos(way), sin(lean) * sin(way), -cos(lean)])
    right = np.cross(ahead, [-sin(spin), cos(spin), 0])
    right /= np.linalg.norm(right)
    down = np.cross(ahead, right)
    turn = np.array([right, down, ahead])
    lens = [float(one) for one in rng.normal(0, 0.006, 2) * width]
    sensor = [float(one) for one in rng.normal(0, 0.004, 2)]
    half = hypot(width, height) / 2
    corners = (
        np.array([(low[0], low[1]), (top[0], low[1]), (top[0], top[1]), (low[0], top[1])])
        if reach is None
        else focus + np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)]) * size / 2
    )
    distance = 100.0
    while True:  # farther until all is in the picture
        eye = np.append(focus, 0) - ahead * distance
        seen = (np.column_stack((corners, np.zeros(4))) - eye) @ turn.T
        flat = seen[:, :2] / seen[:, 2:] * focal
        if (np.abs(flat) < np.array([width, height]) * 0.455).all() and (seen[:, 2] > 0).all():
            break
        distance *= 1.02
    eye += turn.T @ np.array([*(rng.normal(0, 0.004, 2) * distance), 0])
    over = 2
    y, x = np.mgrid[0 : height * over, 0 : width * over].astype(np.float32)
    u = ((x + 0.5) / over - width / 2 - lens[0]) / half
    v = ((y + 0.5) / over - height / 2 - lens[1]) / half
    square = u * u + v * v
    bend = 1 / (1 + view.bent[0] * square + view.bent[1] * square * square)
    lean_of_sensor = 1 + sensor[0] * u + sensor[1] * v
    u, v = u * bend / lean_of_sensor * half / focal, v * bend / lean_of_sensor * half / focal
    m, (ex, ey, ez) = turn.tolist(), (float(one) for one in eye)
    ray = [u * m[0][n] + v * m[1][n] + m[2][n] for n in range(3)]
    far = -ez / ray[2]
    bx, by = ex + far * ray[0], ey + far * ray[1]
    if view.bow:
        lift = view.bow * np.cos((bx - float(focus[0])) / float(size[0] / 2) * pi / 2)
        far = (lift - ez) / ray[2]
        bx, by = ex + far * ray[0], ey + far * ray[1]
    box = (low - 12, top + 12)
    cells = layers(made, box)
    cx, cy = (
        ((bx - box[0][0]) / FINE - 0.5).astype(np.float32),
        ((box[1][1] - by) / FINE - 0.5).astype(np.float32),
    )
    body, ink, paper, black = (
        cv2.remap(layer, cx, cy, cv2.INTER_LINEAR).astype(np.float32) / 255 for layer in cells
    )
    grain = _grain(rng, bx, by, view.grain)
    ground, card = np.array(view.ground, np.float32), np.array(view.card, np.float32)
    if made.kind == "pen":
        card = ground
    # Light changes slowly: it is worked out for every fourth place.
    shade = _light(rng, bx[::4, ::4], by[::4, ::4], focus, size, shadow=view.shadow)
    x0, y0 = (x[::4, ::4] / over - width / 2) / half, (y[::4, ::4] / over - height / 2) / half
    shade = shade * (1 - rng.uniform(0, 0.35) * (x0 * x0 + y0 * y0))
    shade = cv2.resize(shade.astype(np.float32), x.shape[::-1], interpolation=cv2.INTER_LINEAR)
    warm = 1 + rng.normal(0, 0.04, 3)
    picture = np.empty((height, width, 3), np.float32)
    for band in range(3):
        value = float(ground[band]) * grain
        value = value * (1 - body) + float(card[band]) * (1 + (grain - 1) * 0.15) * body
        value = value * (1 - ink) + 0.05 * ink
        value = value * (1 - paper) + 0.85 * paper
        value = value * (1 - black) + 0.035 * black
        value = value * shade * float(warm[band])
        picture[..., band] = cv2.resize(value, (width, height), interpolation=cv2.INTER_AREA)
    picture = cv2.GaussianBlur(picture, (0, 0), view.blur)
    picture = picture * float(rng.uniform(0.85, 1.1))
    picture += rng.standard_normal(picture.shape, np.float32) * np.sqrt(
        view.noise**2 * (0.05 + np.clip(picture, 0, 1))
    )
    picture = np.clip(picture, 0, 1)
    tone = rng.uniform(-0.12, 0.12)
    picture = picture + tone * picture * (1 - picture)
    levels = np.linspace(0, 1, 4096)
    coded = np.where(
        levels <= 0.0031308, 12.92 * levels, 1.055 * np.maximum(levels, 1e-6) ** (1 / 2.4) - 0.055
    )
    table = np.round(coded * 255).astype(np.uint8)
    image = Image.fromarray(table[np.clip(np.round(picture * 4095), 0, 4095).astype(np.int64)])
    stream = io.BytesIO()
    if view.jpeg:
        image.save(stream, "JPEG", quality=view.jpeg)
        return Photo(stream.getvalue(), "jpg")
    image.save(stream, "PNG", compress_level=1)
    return Photo(stream.getvalue(), "png")


def _grain(rng, x, y, much):
    """Wood, felt or a mat with a faint grid: what a bench may look like, about 1."""
    kind = rng.choice(["plain", "wood", "mat"])
    turn = float(rng.uniform(0, pi))
    p, q = x * cos(turn) + y * sin(turn), -x * sin(turn) + y * cos(turn)
    if kind == "wood":
        waves = np.sin(p / 3.1 + 2 * np.sin(q / 90)) + 0.6 * np.sin(p / 1.3 + q / 60)
        return 1 + much * 0.6 * waves
    if kind == "mat":
        lines = np.maximum(
            np.exp(-((((p + 5) % 10 - 5) / 0.3) ** 2)), np.exp(-((((q + 5) % 10 - 5) / 0.3) ** 2))
        )
        return 1 + 2.5 * much * lines
    return 1 + much * np.sin(p / 23) * np.sin(q / 31)


def _light(rng, x, y, focus, size, *, shadow):
    """How bright each place is: a slope, and the shadow of a hand or a telephone."""
    turn = rng.uniform(0, 2 * pi)
    p = ((x - focus[0]) * cos(turn) + (y - focus[1]) * sin(turn)) / max(size)
    light = 1 + rng.uniform(0, 0.5) * p
    if shadow != "none":
        width = {"soft": rng.uniform(12, 50), "hard": rng.uniform(2.5, 6)}[shadow]
        turn = rng.uniform(0, 2 * pi)
        line = (
            (x - focus[0]) * cos(turn)
            + (y - focus[1]) * sin(turn)
            - rng.uniform(-0.35, 0.35) * max(size)
        )
        line = line + 12 * np.sin(((y - focus[1]) * cos(turn) - (x - focus[0]) * sin(turn)) / 70)
        light = light * (
            1 - rng.uniform(0.15, 0.5) / (1 + np.exp(-np.clip(line / width * 2, -30, 30)))
        )
    return light
