"""Cameras, edges and segments in → how far the outline may be off, in mm."""

import numpy as np

from guidegen.bench.photos.arrays import Array
from guidegen.bench.photos.edges import Sight
from guidegen.bench.photos.lens import COUNT, PhotoCamera, project, to_pixels
from guidegen.bench.photos.solve import Solved

PLACES = 48
"""Places of the outline at which the camera's error is worked out."""


EAST, NORTH = np.array([1.0, 0.0, 0.0]), np.array([0.0, 1.0, 0.0])
"""A millimetre each."""


def camera_error(sight: Sight, solved: Solved, points: Array) -> Array:
    """mm: the standard deviation at some places that cameras and strips leave open.

    All that the markers do not settle is tried, one way after another, and moved and turned so that
    it fits best: an outline that lies elsewhere as a whole is not wrong.
    """
    some = points[np.round(np.linspace(0, len(points) - 1, PLACES)).astype(np.int64)]
    owners = np.maximum(sight.flat.owners(some), 0)
    moves = np.zeros((PLACES, 2, solved.spread.shape[1]))
    for number, camera in enumerate(solved.cameras):
        own = owners == number
        if not own.any():
            continue
        flat = np.column_stack((some[own], np.full(own.sum(), sight.height)))
        here = _seen(camera, camera.values, flat)
        east = _seen(camera, camera.values, flat + EAST) - here
        north = _seen(camera, camera.values, flat + NORTH) - here
        back = np.linalg.inv(np.stack((east, north), axis=2))
        for column in range(solved.spread.shape[1]):
            step = solved.spread[number * COUNT : (number + 1) * COUNT, column]
            # A hundredth of it: what is hardly settled would leave the range where it is even.
            off = (_seen(camera, camera.values + step / 100, flat) - here) * 100
            moves[own, :, column] = (back @ off[:, :, None])[:, :, 0]
    centred = some - some.mean(axis=0)
    rigid = np.zeros((PLACES, 2, 3))
    rigid[:, 0, 0] = rigid[:, 1, 1] = 1
    rigid[:, 0, 2], rigid[:, 1, 2] = -centred[:, 1], centred[:, 0]
    basis = rigid.reshape(-1, 3)
    rows = moves.reshape(2 * PLACES, -1)
    rows = rows - basis @ np.linalg.lstsq(basis, rows, rcond=None)[0]
    return np.asarray(np.sqrt((rows.reshape(PLACES, 2, -1) ** 2).sum(axis=(1, 2))))


def _seen(camera: PhotoCamera, values: Array, points: Array) -> Array:
    return to_pixels(project(values, points), camera.width, camera.height)


def detail(sight: Sight, points: Array) -> float:
    """px that a mm has along an outline, on average."""
    owners = np.maximum(sight.flat.owners(points), 0)
    found = []
    for number, camera in enumerate(sight.cameras):
        own = points[owners == number]
        if len(own):
            gap = camera.pixels(own + EAST[:2], sight.height) - camera.pixels(own, sight.height)
            found.append(np.linalg.norm(gap, axis=1))
    return float(np.concatenate(found).mean())
