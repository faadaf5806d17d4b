"""Points that a hand would join by eye → smooth runs through them."""

from guidegen.geometry.outline.records import Cubic, Point, Run


def smooth(points: list[Point], *, closed: bool = True, tension: float = 1.0) -> Run:
    """A run of cubics through all points (Catmull and Rom, 1974); 0 makes it straight."""
    count = len(points)

    def at(number: int) -> Point:
        return points[number % count] if closed else points[min(max(number, 0), count - 1)]

    def control(near: Point, before: Point, after: Point, way: float) -> Point:
        # A sixth of the chord over both neighbours: a third of the half of it, as Hermite asks.
        share = way * tension / 6
        return (near[0] + (after[0] - before[0]) * share, near[1] + (after[1] - before[1]) * share)

    return tuple(
        Cubic(
            at(number),
            control(at(number), at(number - 1), at(number + 1), 1),
            control(at(number + 1), at(number), at(number + 2), -1),
            at(number + 1),
        )
        for number in range(count if closed else count - 1)
    )
