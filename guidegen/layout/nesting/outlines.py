"""True outlines in → simpler outlines around them out, so that a nesting solver is fast (mm).

Foam is only ever added, so what keeps its distance in the simple outline does so in the true one,
and straight edges stay where they are.
"""

from math import hypot

from guidegen.geometry.outline.areas import is_sound, lies_within
from guidegen.geometry.outline.records import Point
from guidegen.layout.nesting.pieces import NestPiece, NestRing

GROWTH = 0.3
"""mm that a simple outline may stand off from the true one. Our choice: the width of a pencil
line, so less than a person cuts with."""

_STEPS = (0.02, 0.05, 0.1, 0.2, 1.0)
"""Shares of the growth, one pass each: small detail goes first, so that it goes evenly."""


def simple_outline(piece: NestPiece, least_hole: float) -> tuple[NestRing, tuple[NestRing, ...]]:
    """Outline and holes with few corners around a piece's foam.

    Holes narrower than `least_hole` mm are closed: nothing could be cut from them. Where the
    simple outline would touch itself, such as in a slit, the true one is returned.
    """
    holes = tuple(hole for hole in piece.holes if _narrow_side(hole) >= least_hole)
    outline = grow_ring(piece.outline)
    if not (is_sound(outline) and lies_within(piece.outline, (), outline, ())):
        outline = piece.outline
    simple = tuple(
        grown if is_sound(grown) else hole for hole in holes for grown in [grow_ring(hole)]
    )
    if is_sound(outline, simple) and lies_within(piece.outline, piece.holes, outline, simple):
        return outline, simple
    return piece.outline, holes


def grow_ring(ring: NestRing, growth: float = GROWTH) -> NestRing:
    """A ring with fewer corners, nowhere more than `growth` mm to the right of the given one.

    The foam lies to the left: outlines run counter-clockwise, holes clockwise. A corner that
    points into the foam may go (its notch is filled); an edge between two corners that point
    outward may go (its neighbours are drawn out until they meet).
    """
    corners = list(ring)
    errors = [0.0] * len(ring)  # of the edge that leaves the corner
    for share in _STEPS:
        before = -1
        # Until a pass changes nothing: each takes every second corner only, so that errors do not
        # pile up on one side.
        while len(corners) > 4 and before != len(corners):
            before = len(corners)
            _one_pass(corners, errors, growth * share)
    return tuple(corners)


def _one_pass(corners: list[Point], errors: list[float], limit: float) -> None:
    """Remove every second corner or edge at most, where the error stays within `limit`."""
    index = 0
    while index < len(corners) and len(corners) > 4:
        if _fill_notch(corners, errors, index, limit) or _drop_edge(corners, errors, index, limit):
            index += 1
        index += 1


def _fill_notch(corners: list[Point], errors: list[float], index: int, limit: float) -> bool:
    """Remove a corner that points into the foam, if its notch is shallow."""
    before = corners[index - 1]
    here = corners[index]
    after = corners[(index + 1) % len(corners)]
    depth = -_height(before, after, here)
    # A corner that stands outward by no more than rounding is straight.
    if depth < -1e-9 or not _between(before, after, here):
        return False
    # Errors add up: the edges beside a corner may have moved before, so the new edge is off by
    # theirs and by the notch.
    error = max(errors[index - 1], errors[index]) + max(depth, 0.0)
    if error > limit:
        return False
    errors[index - 1] = error
    del corners[index], errors[index]
    return True


def _drop_edge(corners: list[Point], errors: list[float], index: int, limit: float) -> bool:
    """Remove the edge that leaves a corner, if its neighbours meet close outside of it."""
    count = len(corners)
    second = (index + 1) % count
    before, start, end = corners[index - 1], corners[index], corners[second]
    after = corners[(index + 2) % count]
    # Both ends must point outward, or drawing the neighbours on would cut into foam.
    if _height(before, start, end) >= 0 or _height(start, end, after) >= 0:
        return False
    meeting = _meeting(before, start, after, end)
    if meeting is None:
        return False
    error = errors[index] + _height(start, end, meeting)
    # Not below the edge's own error either: `meeting` would lie inside of the true outline there.
    if not errors[index] <= error <= limit:
        return False
    errors[index - 1] = max(errors[index - 1], error)
    errors[second] = max(errors[second], error)
    corners[second] = meeting
    del corners[index], errors[index]
    return True


def _height(start: Point, end: Point, point: Point) -> float:
    """mm by which a point lies to the right of the line from start to end (left: negative)."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = hypot(dx, dy)
    if not length:
        return 0.0
    return (dy * (point[0] - start[0]) - dx * (point[1] - start[1])) / length


def _between(start: Point, end: Point, point: Point) -> bool:
    """True where the foot of a point lies between start and end."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    along = dx * (point[0] - start[0]) + dy * (point[1] - start[1])
    return 0 <= along <= dx * dx + dy * dy


def _meeting(a: Point, b: Point, c: Point, d: Point) -> Point | None:
    """Where the line from a through b, drawn on, meets the line from c through d, drawn on."""
    ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]
    cross = ux * vy - uy * vx
    if abs(cross) < 1e-12:
        return None
    t = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross
    s = ((c[0] - a[0]) * uy - (c[1] - a[1]) * ux) / cross
    # Both lines have to be drawn on, forward; they met behind, and the corner would turn inside
    # out.
    if t < 1 or s < 1:
        return None
    return (a[0] + t * ux, a[1] + t * uy)


def _narrow_side(ring: NestRing) -> float:
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return min(max(xs) - min(xs), max(ys) - min(ys))
