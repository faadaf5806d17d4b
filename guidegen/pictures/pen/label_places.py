"""Rings → where a label fits inside them."""

from collections.abc import Iterator
from itertools import pairwise

from guidegen.geometry.outline.areas import widest_spot
from guidegen.geometry.outline.records import Point

type Rings = list[list[Point]]
"""Flattened closed rings; an outline and its holes."""


def inside(rings: Rings, point: Point) -> bool:
    """Whether a point lies inside rings, by the even-odd rule."""
    x, y = point
    odd = False
    for points in rings:
        for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
            if (y0 > y) != (y1 > y) and x < x0 + (x1 - x0) * (y - y0) / (y1 - y0):
                odd = not odd
    return odd


def label_spot(
    rings: Rings, width: float, height: float, avoid: Rings | None = None
) -> Point | None:
    """Centre for a level box of `width` by `height` mm inside rings; None where none is found.

    The middle is tried first, since it looks calm. Else the rings are squeezed until the box is
    a square: the point farthest from the rims is then the best place for the box, not for a
    circle. Where lines to `avoid` cross both, a grid of other places is tried, the middle first.
    """
    for centre in _candidates(rings, width, height, bool(avoid)):
        if box_fits(rings, centre, width, height) and not any(
            meets_box(line, centre, width, height) for line in avoid or []
        ):
            return centre
    return None


def _candidates(rings: Rings, width: float, height: float, more: bool) -> Iterator[Point]:
    xs, ys = [x for x, _ in rings[0]], [y for _, y in rings[0]]
    across, up = max(xs) - min(xs), max(ys) - min(ys)
    middle = (min(xs) + across / 2, min(ys) + up / 2)
    # Before its width is compared: a label that fits nowhere is asked for once only.
    yield middle
    if width > across or height > up:
        return
    squeeze = height / width
    # Squeezed until the label is square, the largest circle inside is nearly its room.
    squeezed = [[(x * squeeze, y) for x, y in points] for points in rings]
    (x, y), _ = widest_spot(squeezed, max(0.1, height / 10))
    yield (x / squeeze, y)
    if more:
        steps = [(column, row) for column in range(-6, 7) for row in range(-6, 7)]
        # From the middle outward; of equally far ones the upper, then the left: where one begins
        # to read.
        steps.sort(key=lambda step: (step[0] ** 2 + step[1] ** 2, -step[1], step[0]))
        for column, row in steps:
            yield (middle[0] + column * across / 14, middle[1] + row * up / 14)


def box_fits(rings: Rings, centre: Point, width: float, height: float) -> bool:
    """Whether a level box lies inside rings and touches none."""
    # A box wholly outside meets no rim either.
    if not inside(rings, centre):
        return False
    return not any(meets_box([*points, points[0]], centre, width, height) for points in rings)


def meets_box(line: list[Point], centre: Point, width: float, height: float) -> bool:
    """Whether a line through points meets a level box."""
    box = (
        centre[0] - width / 2,
        centre[0] + width / 2,
        centre[1] - height / 2,
        centre[1] + height / 2,
    )
    return any(enters_box(start, end, box) for start, end in pairwise(line))


def enters_box(start: Point, end: Point, box: tuple[float, float, float, float]) -> bool:
    """Whether a segment meets a box of left, right, low, high (Liang and Barsky's clipping)."""
    left, right, low, high = box
    (x, y), (x1, y1) = start, end
    # Most segments lie wholly at one side of the box, which is told without any clipping.
    if (
        (x < left and x1 < left)
        or (x > right and x1 > right)
        or (y < low and y1 < low)
        or (y > high and y1 > high)
    ):
        return False
    dx, dy = x1 - x, y1 - y
    least, most = 0.0, 1.0
    for step, room in ((-dx, x - left), (dx, right - x), (-dy, y - low), (dy, high - y)):
        if step == 0:
            if room < 0:
                return False
        elif step < 0:
            least = max(least, room / step)
        else:
            most = min(most, room / step)
    return least <= most
