"""Half axes of an ellipse in → lengths along it."""

from math import cos, hypot, pi, sin

# Nodes and weights of the 8-point Gauss-Legendre rule on [-1, 1]; Abramowitz and Stegun, 25.4.30.
_GAUSS = (
    (0.1834346424956498, 0.3626837833783620),
    (0.5255324099163290, 0.3137066458778873),
    (0.7966664774136267, 0.2223810344533745),
    (0.9602898564975363, 0.1012285362903763),
)
_PANELS = 12
"""Stretches of the quadrature. Our choice: to 1e-9 of the length at axes of 1 to 10."""


def oval_arc(a: float, b: float, turn: float) -> float:
    """mm along the ellipse (a*sin(v), b*cos(v)) from v = 0 to `turn` radians; odd in turn.

    The incomplete elliptic integral of the second kind, by Gauss-Legendre quadrature.
    """
    # Exact for a circle.
    if a == b:
        return a * turn
    step, total = turn / _PANELS, 0.0
    for panel in range(_PANELS):
        middle = (panel + 0.5) * step
        for node, weight in _GAUSS:
            for v in (middle - node * step / 2, middle + node * step / 2):
                total += weight * hypot(a * cos(v), b * sin(v))
    return total * step / 2


def oval_turn(a: float, b: float, length: float) -> float:
    """Turn in radians, up to half round, at which `length` mm lie behind: oval_arc inverted."""
    low, high = 0.0, pi
    # Sixty halvings of pi pass the last bit of a double; Newton would be quicker, but leaves its
    # way where the ellipse is flat.
    for _ in range(60):
        middle = (low + high) / 2
        if oval_arc(a, b, middle) < length:
            low = middle
        else:
            high = middle
    return (low + high) / 2
