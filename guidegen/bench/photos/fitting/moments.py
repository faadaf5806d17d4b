"""Sums over measured places → how well one line or one arc fits any stretch of them, at once.

Sums up to the fourth power of all places from the first are kept, so that a stretch costs as much
as two places. Lines are fitted by total least squares, arcs by the circle of Kåsa (IEEE
Transactions on Instrumentation and Measurement 25, 1976), which suits exact places.
"""

import numpy as np

from guidegen.bench.photos.arrays import Array, Whole

SCALE = 100.0
"""mm that count as one, so that fourth powers stay near one."""
_POWERS = (
    (1, 0),
    (0, 1),
    (2, 0),
    (1, 1),
    (0, 2),
    (3, 0),
    (2, 1),
    (1, 2),
    (0, 3),
    (4, 0),
    (2, 2),
    (0, 4),
)
_AT = {power: number for number, power in enumerate(_POWERS)}


class Moments:
    """Sums of powers over the places of a run; places with weight 0 are not counted."""

    def __init__(self, points: Array, weights: Array) -> None:
        self._middle = points.mean(axis=0)
        x, y = ((points - self._middle) / SCALE).T
        rows = np.column_stack([weights] + [weights * x**a * y**b for a, b in _POWERS])
        self._sums = np.vstack((np.zeros(rows.shape[1]), np.cumsum(rows, axis=0)))

    def _between(self, first: Whole, last: Whole) -> tuple[Array, Array]:
        sums = self._sums[last + 1] - self._sums[first]
        count = np.maximum(sums[:, 0], 1e-9)
        return count, sums[:, 1:] / count[:, None]

    def counts(self, first: Whole, last: Whole) -> Array:
        """Weight of the places from first to last, both counted."""
        return np.asarray(self._between(first, last)[0])

    def line_error(self, first: Whole, last: Whole) -> Array:
        """Sum of squared distances (mm²) from the best line of each stretch."""
        count, mean = self._between(first, last)
        sxx = mean[:, _AT[2, 0]] - mean[:, 0] ** 2
        syy = mean[:, _AT[0, 2]] - mean[:, 1] ** 2
        sxy = mean[:, _AT[1, 1]] - mean[:, 0] * mean[:, 1]
        least = (sxx + syy) / 2 - np.sqrt(((sxx - syy) / 2) ** 2 + sxy**2)
        return np.asarray(count * np.maximum(least, 0) * SCALE**2)

    def arc_error(self, first: Whole, last: Whole) -> Array:
        """Sum of squared distances (mm²) from the best circle of each stretch."""
        count, mean = self._between(first, last)
        circle, square = self._circle(mean)
        radius = np.sqrt(np.maximum(circle[:, 2], 1e-12))
        return np.asarray(count * np.maximum(square, 0) / (4 * radius**2) * SCALE**2)

    def circle(self, first: int, last: int) -> tuple[Array, float]:
        """Middle and radius of the best circle of a stretch, mm."""
        _, mean = self._between(np.array([first]), np.array([last]))
        circle, _ = self._circle(mean)
        return circle[0, :2] * SCALE + self._middle, float(np.sqrt(max(circle[0, 2], 0.0))) * SCALE

    @staticmethod
    def _circle(mean: Array) -> tuple[Array, Array]:
        """Rows of middle and squared radius; mean of squared (x²+y²-2ax-2by-c)."""

        def m(a: int, b: int) -> Array:
            return np.asarray(mean[:, _AT[a, b]])

        x, y = m(1, 0), m(0, 1)
        q = m(2, 0) + m(0, 2)
        qx, qy = m(3, 0) + m(1, 2), m(2, 1) + m(0, 3)
        qq = m(4, 0) + 2 * m(2, 2) + m(0, 4)
        sxx, sxy, syy = m(2, 0) - x * x, m(1, 1) - x * y, m(0, 2) - y * y
        cx, cy = qx - q * x, qy - q * y
        room = np.maximum(sxx * syy - sxy**2, 1e-14)
        a, b = (cx * syy - cy * sxy) / room, (cy * sxx - cx * sxy) / room
        c = q - a * x - b * y
        square = (qq - q * q) - a * cx - b * cy
        middle = np.column_stack((a / 2, b / 2))
        return np.column_stack((middle, c + (middle**2).sum(axis=1))), square
