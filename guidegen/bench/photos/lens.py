"""A camera in numbers → where a point of the bench stands in its photo.

Lengths in the photo are in halves of its longer side, from its middle, y downward. The lens bends
by the radial and tangential terms of Brown, Decentering distortion of lenses (Photogrammetric
Engineering 32, 1966), measured about the middle of the picture instead of in angles, so that they
do not trade off against the focal length.
"""

from dataclasses import dataclass

import numpy as np

from guidegen.bench.photos.arrays import Array

COUNT = 13
"""Numbers of a camera."""


@dataclass(frozen=True, slots=True)
class PhotoCamera:
    """One photo's camera."""

    values: Array
    """Logarithm of the focal length, middle (2), k1, k2, p1, p2, turn vector (3), place (3, mm)."""
    width: int
    height: int

    def pixels(self, points: Array, height: float = 0.0) -> Array:
        """Where points of the bench (mm, `height` mm above it) stand; middles of pixels are .0."""
        flat = project(self.values, np.column_stack((points, np.full(len(points), height))))
        return to_pixels(flat, self.width, self.height)


def half_side(width: int, height: int) -> float:
    """Half of the longer side, the unit of lengths in a photo."""
    return max(width, height) / 2


def to_pixels(flat: Array, width: int, height: int) -> Array:
    """Places in a photo in pixels."""
    return np.asarray(flat * half_side(width, height) + _middle(width, height))


def to_flat(pixels: Array, width: int, height: int) -> Array:
    """Pixels as places in a photo."""
    return np.asarray((pixels - _middle(width, height)) / half_side(width, height))


def _middle(width: int, height: int) -> Array:
    """The photo's middle in pixels, whose own middles are whole numbers."""
    return np.array([(width - 1) / 2, (height - 1) / 2])


def turn_matrix(vector: Array) -> Array:
    """Rodrigues' formula: a turn about `vector` by its length in radians."""
    angle = float(np.linalg.norm(vector))
    if angle < 1e-12:
        return np.eye(3)
    x, y, z = vector / angle
    cross = np.array([[0, -z, y], [z, 0, -x], [-y, x, 0]])
    return np.asarray(np.eye(3) + np.sin(angle) * cross + (1 - np.cos(angle)) * cross @ cross)


def project(values: Array, points: Array) -> Array:
    """Where points in space (rows of x, y, z in mm) stand in the photo."""
    seen = points @ turn_matrix(values[7:10]).T + values[10:13]
    # What lies behind the camera is put far out instead of being mirrored into the picture.
    depth = np.maximum(seen[:, 2:], 1e-3)
    return bend(values, np.exp(values[0]) * seen[:, :2] / depth)


def bend(values: Array, straight: Array) -> Array:
    """What the lens makes of a place in the photo of a camera without faults."""
    k1, k2, p1, p2 = values[3:7]
    # Beyond the picture's corners the polynomial may turn back; nothing there is ever looked at.
    x, y = np.clip(straight, -4, 4).T
    square = x * x + y * y
    radial = 1 + square * (k1 + k2 * square)
    across = 2 * p1 * x * y + p2 * (square + 2 * x * x)
    along = p1 * (square + 2 * y * y) + 2 * p2 * x * y
    return np.column_stack((x * radial + across, y * radial + along)) + values[1:3]
