"""Displacements on an outline in → the displacement of any point inside it.

Mean value coordinates (Hormann and Floater, 'Mean Value Coordinates for Arbitrary Planar
Polygons', ACM Transactions on Graphics 25(4), 2006, algorithm of section 5): smooth inside, equal
to the given displacements on the outline, and exact wherever those come from a linear map.
"""

from collections.abc import Sequence
from math import hypot

from guidegen.geometry.outline.records import Point

MAX_POINTS = 600
"""Points of the outline that are used, evenly thinned beyond. Our choice: bounds the work."""

_CLOSE = 1e-9


class Inside:
    """The displacement field inside an outline."""

    def __init__(self, boundary: Sequence[tuple[Point, Point]]) -> None:
        """`boundary`: points of the outline in order, each with its displacement."""
        step = -(-len(boundary) // MAX_POINTS)
        self._boundary = list(boundary[::step])

    def displacement(self, point: Point) -> Point:
        """How far a point moves, in mm."""
        count = len(self._boundary)
        spokes = [(p[0] - point[0], p[1] - point[1]) for p, _ in self._boundary]
        radii = [hypot(*spoke) for spoke in spokes]
        for index, radius in enumerate(radii):
            # On a point of the outline the weights have no end; its own displacement is exact.
            if radius < _CLOSE:
                return self._boundary[index][1]
        halves: list[float] = []
        for index in range(count):
            after = (index + 1) % count
            (x0, y0), (x1, y1) = spokes[index], spokes[after]
            area, dot = x0 * y1 - x1 * y0, x0 * x1 + y0 * y1
            # Between two points that lie on opposite sides in one line: on the edge itself.
            if abs(area) < _CLOSE * radii[index] * radii[after] and dot < 0:
                return self._on_edge(index, radii[index], radii[after])
            # tan of half the angle between two spokes.
            turn = radii[index] * radii[after] + dot
            halves.append(area / turn if turn else 0.0)
        total, x, y = 0.0, 0.0, 0.0
        for index in range(count):
            weight = (halves[index - 1] + halves[index]) / radii[index]
            dx, dy = self._boundary[index][1]
            total, x, y = total + weight, x + weight * dx, y + weight * dy
        return (x / total, y / total) if total else (0.0, 0.0)

    def _on_edge(self, index: int, before: float, after: float) -> Point:
        (x0, y0), (x1, y1) = (
            self._boundary[index][1],
            self._boundary[(index + 1) % len(self._boundary)][1],
        )
        share = before / (before + after)
        return (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
