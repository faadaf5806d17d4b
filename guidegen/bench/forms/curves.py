"""Points along a border in → few lines, arcs and cubics through them out.

The points of a mesh lie on a smooth line that nobody has drawn: its sides cut the bends short. A
run through them bends as much as the points say, and stays straight where they do.
"""

import itertools

import numpy as np

from guidegen.bench.forms.records import Numbers
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run, Segment

CLOSE = 0.08
"""mm between a point and the run through it at most. Our choice: a fifth of a pencil line."""
STRAIGHT = 0.02
"""mm that points of a straight line may lie beside it."""
SAMPLES = 24
WIDEST = 170.0
"""degrees of one arc at most: a longer one is cut in two, so that writing it cannot spoil it."""


def smooth_run(points: Numbers, corner: float) -> Run:
    """A run through points, with a corner where they turn by `corner` degrees or more."""
    points = _apart(points)
    ways = np.diff(points, axis=0)
    turned = np.degrees(
        np.abs(np.arctan2(_cross(ways[:-1], ways[1:]), np.sum(ways[:-1] * ways[1:], axis=1)))
    )
    stops = [0, *(np.flatnonzero(turned >= corner) + 1).tolist(), len(points) - 1]
    run: list[Segment] = []
    for first, last in itertools.pairwise(stops):
        run += _fitted(points[first : last + 1], None, None)
    return tuple(run)


def _apart(points: Numbers) -> Numbers:
    """Points without those that lie on their neighbours; the ends stay."""
    size = np.linalg.norm(np.diff(points, axis=0), axis=1)
    kept = np.concatenate(([True], size > 1e-6))
    kept[-1] = True
    found = points[kept]
    if len(found) > 2 and np.linalg.norm(found[-1] - found[-2]) <= 1e-6:
        found = np.delete(found, -2, axis=0)
    return np.asarray(found)


def _cross(one: Numbers, two: Numbers) -> Numbers:
    return np.asarray(one[..., 0] * two[..., 1] - one[..., 1] * two[..., 0])


def _point(value: Numbers) -> Point:
    return float(value[0]), float(value[1])


def _fitted(points: Numbers, first: Numbers | None, last: Numbers | None) -> list[Segment]:
    """Segments through points that turn nowhere sharply; ways at the ends where they are set."""
    if len(points) == 2 or _beside(points) <= STRAIGHT:
        return [Line(_point(points[0]), _point(points[-1]))]
    arc = _arc(points)
    if arc is not None:
        return arc
    first = _way(points[:3]) if first is None else first
    last = -_way(points[:-4:-1]) if last is None else last
    curve, worst = _cubic(points, first, last)
    if curve is not None:
        return [curve]
    middle = min(max(worst, 1), len(points) - 2)
    way = _way(points[middle - 1 : middle + 2], at=1)
    return [*_fitted(points[: middle + 1], first, way), *_fitted(points[middle:], way, last)]


def _beside(points: Numbers) -> float:
    """mm that points lie beside the straight line from the first to the last at most; inf where
    they run back."""
    way = points[-1] - points[0]
    size = float(np.linalg.norm(way))
    if size < 1e-9:
        return np.inf
    along = (points - points[0]) @ way / size
    if (np.diff(along) < -STRAIGHT).any():
        return np.inf
    return float(np.abs(_cross(way / size, points - points[0])).max())


def _way(three: Numbers, at: int = 0) -> Numbers:
    """Unit vector along the circle through three points, at the first or the middle one."""
    before, after = three[1] - three[0], three[2] - three[1]
    one, two = np.linalg.norm(before), np.linalg.norm(after)
    # Of the parabola through them by the lengths of both sides: the circle's to second order.
    slope = (before / one * two + after / two * one) / (one + two)
    way = slope if at else 2 * before / one - slope
    return np.asarray(way / np.linalg.norm(way))


def _allowed(points: Numbers) -> Numbers:
    """mm that a run may bulge over each side of the polygon: as its turns at both ends say."""
    ways = np.diff(points, axis=0)
    turn = np.arctan2(_cross(ways[:-1], ways[1:]), np.sum(ways[:-1] * ways[1:], axis=1))
    before, after = np.concatenate((turn[:1], turn)), np.concatenate((turn, turn[-1:]))
    same = before * after > 0
    least = np.where(same, np.minimum(np.abs(before), np.abs(after)), 0)
    return np.asarray(CLOSE + 1.6 * np.linalg.norm(ways, axis=1) * least / 8)


def _holds(points: Numbers, samples: Numbers) -> tuple[bool, int]:
    """Whether a run goes through all points and bulges nowhere, and the point farthest from it."""
    away = _to_segments(points, samples[:-1], samples[1:])[0]
    worst = int(np.argmax(away[1:-1])) + 1
    if away.max() > CLOSE:
        return False, worst
    bulge, nearest = _to_segments(samples, points[:-1], points[1:])
    over = bulge - _allowed(points)[nearest]
    place = int(np.argmax(over))
    return bool(over[place] <= 0), int(nearest[place]) + 1


def _to_segments(points: Numbers, starts: Numbers, ends: Numbers) -> tuple[Numbers, np.ndarray]:
    """mm from each point to the nearest of some straight segments, and which that is."""
    way = ends - starts
    size = np.maximum(np.sum(way**2, axis=1), 1e-18)
    share = np.einsum("psx,sx->ps", points[:, None] - starts[None], way) / size
    foot = starts[None] + share.clip(0, 1)[:, :, None] * way[None]
    away = np.linalg.norm(points[:, None] - foot, axis=2)
    nearest = np.argmin(away, axis=1)
    return away[np.arange(len(points)), nearest], nearest


def _arc(points: Numbers) -> list[Segment] | None:
    """One arc, or two halves of a long one, through all points; None where there is none."""
    start, end = points[0], points[-1]
    middle = points[len(points) // 2]
    a, b = middle - start, end - start
    twice = 2 * float(_cross(a, b))
    if abs(twice) < 1e-9:
        return None
    squares = np.array([a @ a, b @ b])
    offset = np.array(
        [b[1] * squares[0] - a[1] * squares[1], a[0] * squares[1] - b[0] * squares[0]]
    )
    centre = start + offset / twice
    radius = float(np.linalg.norm(start - centre))
    if radius > 1e5 or np.abs(np.linalg.norm(points - centre, axis=1) - radius).max() > STRAIGHT:
        return None
    away = points - centre
    steps = np.degrees(
        np.arctan2(_cross(away[:-1], away[1:]), np.sum(away[:-1] * away[1:], axis=1))
    )
    if (steps * steps.sum() <= 0).any() or abs(steps.sum()) >= 350:
        return None
    first, sweep = float(np.degrees(np.arctan2(away[0, 1], away[0, 0]))), float(steps.sum())
    angles = np.radians(first + sweep * np.linspace(0, 1, SAMPLES * max(1, len(points) // 8)))
    samples = centre + radius * np.column_stack((np.cos(angles), np.sin(angles)))
    if not _holds(points, samples)[0]:
        return None
    count = int(abs(sweep) // WIDEST) + 1
    return [
        Arc(_point(centre), radius, first + sweep * n / count, sweep / count) for n in range(count)
    ]


def _cubic(points: Numbers, first: Numbers, last: Numbers) -> tuple[Cubic | None, int]:
    """A cubic through points by least squares (Schneider 1990), or the point where to divide."""
    start, end = points[0], points[-1]
    size = np.concatenate(([0.0], np.cumsum(np.linalg.norm(np.diff(points, axis=0), axis=1))))
    t, worst = size / size[-1], len(points) // 2
    for _ in range(5):
        u = 1 - t
        b0, b1, b2, b3 = u**3, 3 * u * u * t, 3 * u * t * t, t**3
        rest = points - (b0 + b1)[:, None] * start - (b2 + b3)[:, None] * end
        one, two = b1[:, None] * first, -b2[:, None] * last
        system = np.array(
            [[np.sum(one * one), np.sum(one * two)], [np.sum(one * two), np.sum(two * two)]]
        )
        right = np.array([np.sum(one * rest), np.sum(two * rest)])
        third = size[-1] / 3
        if len(points) < 4 or np.linalg.det(system) < 1e-9 * third**4:
            reach = np.array([third, third])
        else:
            reach = np.linalg.solve(system, right)
        if (reach < 0.05 * third).any() or (reach > 6 * third).any():
            reach = np.array([third, third])
        controls = np.array([start, start + reach[0] * first, end - reach[1] * last, end])
        s = np.linspace(0, 1, max(SAMPLES, 3 * len(points)))[:, None]
        samples = _bezier(controls, s)
        good, worst = _holds(points, samples)
        if good:
            return Cubic(*(_point(control) for control in controls)), worst
        t = _nearer(controls, points, t)
    return None, worst


def _bezier(controls: Numbers, t: Numbers) -> Numbers:
    u = 1 - t
    return np.asarray(
        u**3 * controls[0]
        + 3 * u * u * t * controls[1]
        + 3 * u * t * t * controls[2]
        + t**3 * controls[3]
    )


def _nearer(controls: Numbers, points: Numbers, t: Numbers) -> Numbers:
    """Places on the curve nearer to the points: one step of Newton's."""
    at = _bezier(controls, t[:, None])
    ways = 3 * np.diff(controls, axis=0)
    u = 1 - t[:, None]
    slope = u * u * ways[0] + 2 * u * t[:, None] * ways[1] + t[:, None] ** 2 * ways[2]
    bend = 2 * (u * (ways[1] - ways[0]) + t[:, None] * (ways[2] - ways[1]))
    away = at - points
    below = np.sum(slope**2, axis=1) + np.sum(away * bend, axis=1)
    step = np.sum(away * slope, axis=1) / np.where(np.abs(below) > 1e-12, below, 1)
    return np.asarray(np.maximum.accumulate((t - step).clip(0, 1)))
