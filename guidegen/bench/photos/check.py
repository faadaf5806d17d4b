"""A fitted outline and the photos again in → whether it lies where the photos have it.

Nothing is taken from how it was fitted: so a mistake there, too, ends in a refusal.
"""

from collections.abc import Iterator

import numpy as np
from scipy.spatial import cKDTree

from guidegen.bench.photos.arrays import Array
from guidegen.bench.photos.edges import SPACING, Sight, Sort, Traced, look_across, respaced
from guidegen.bench.photos.fitting.whole import Fitted, dense
from guidegen.bench.photos.refusals import LEAST_CONTRAST, MOST_HIDDEN, problem
from guidegen.problems import Problem

MOST_APART = 1.0
"""mm between the outline and the nearest measured place, or between that and the outline."""
CORNER = 4.0
"""mm beside a corner where it is not measured: lenses and pens round it, the outline goes on."""
MOST_AT_CORNER = 2.5
"""mm that a sharp corner may stand out beyond its rounded edge."""
AGAIN = 3.0
"""mm to either side of the outline that are looked at again."""
MOST_AGAIN = 0.6
"""mm by which the edge may be seen elsewhere then."""
ELSEWHERE = 0.04
"""Share of the outline where it may be seen elsewhere: at crossing lines, dirt, a shadow."""


def outline_problems(
    sight: Sight, fitted: Fitted, edge: Traced, sort: Sort, name: str
) -> Iterator[Problem]:
    """Where outline and photo do not agree, both ways."""
    line = dense(fitted.run, SPACING / 2)
    off = max(astray(line, fitted, edge), float(fitted.left_over[edge.good].max(initial=0.0)))
    if off > MOST_APART:
        message = (
            f"the fitted outline runs up to {off:.1f} mm from the measured edge; expected at most "
            f"{MOST_APART:.1f} mm: take another photo, with even light and a clean edge"
        )
        yield problem("trace-astray", name, message)
    elif crosses_itself(respaced(line, closed=True)):
        message = (
            "the fitted outline crosses itself; expected one closed edge: parts that are thinner "
            "than 2 mm, or an edge that is torn"
        )
        yield problem("trace-astray", name, message)
    else:
        yield from _again(sight, line, sort, name)


def _again(sight: Sight, line: Array, sort: Sort, name: str) -> Iterator[Problem]:
    """Where the photos, read far and wide across the outline, show its edge elsewhere or not."""
    again = look_across(sight, line, AGAIN, sort)
    moved = np.linalg.norm(again.points - respaced(line, closed=True), axis=1)
    elsewhere, hidden = float((moved > MOST_AGAIN).mean()), float((~again.good).mean())
    if again.gap < LEAST_CONTRAST:
        hidden = 1.0
    if elsewhere > ELSEWHERE or hidden > 2 * MOST_HIDDEN:
        message = (
            f"read again, {elsewhere:.0%} of the edge is seen more than {MOST_AGAIN:.1f} mm from "
            f"the outline and {hidden:.0%} is not seen; expected at most {ELSEWHERE:.0%} and "
            f"{2 * MOST_HIDDEN:.0%}: another line, a shadow or the rim of the paper runs beside it"
        )
        yield problem("trace-astray", name, message)


def astray(line: Array, fitted: Fitted, edge: Traced) -> float:
    """mm by which the outline strays from all that was measured; less is asked at corners."""
    gaps = cKDTree(respaced(edge.points, closed=True, step=SPACING / 2)).query(line)[0]
    if fitted.corners:
        beside = cKDTree(np.array(fitted.corners)).query(line)[0] < CORNER
        gaps = np.where(beside, gaps * MOST_APART / MOST_AT_CORNER, gaps)
    return float(gaps.max())


def crosses_itself(ring: Array) -> bool:
    """Whether sides of a closed ring of places at even steps cross: looked for among near ones."""
    count, way = len(ring), np.roll(ring, -1, axis=0) - ring
    longest = float(np.linalg.norm(way, axis=1).max())
    # Sides that cross have their middles no farther apart than one of them is long.
    pairs = cKDTree(ring + way / 2).query_pairs(longest, output_type="ndarray")
    between = pairs[:, 1] - pairs[:, 0]
    one, two = pairs[(between > 1) & (between < count - 1)].T
    gap = ring[two] - ring[one]
    room = _cross(way[one], way[two])
    room = np.where(np.abs(room) < 1e-12, np.inf, room)  # sides along one line do not cross
    t, u = _cross(gap, way[two]) / room, _cross(gap, way[one]) / room
    return bool(((t > 0) & (t < 1) & (u > 0) & (u < 1)).any())


def _cross(a: Array, b: Array) -> Array:
    return np.asarray(a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0])
