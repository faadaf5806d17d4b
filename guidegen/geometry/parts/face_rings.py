"""Circles on faces on which tubes stand: the circle, and how a tube's wall leans where it does."""

from collections.abc import Mapping
from itertools import pairwise
from math import asin, degrees, tau

from guidegen.buildfile.derive.sizes import evaluate
from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.records.guide import FaceRing
from guidegen.geometry.outline.curves import end_direction, start_direction, turn_between
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Arc, Run
from guidegen.problems import Checked

LEAST_RING = 20.0
"""mm round a circle at least. Our choice: foam is rolled no tighter."""


def ring_line(
    file: GuideFile, names: Mapping[str, float], part: str, name: str, ring: FaceRing
) -> Checked[Run | None]:
    """The circle, counter-clockwise from where it starts: so what is outside looks to its right.

    None, and problems, where its numbers make none.
    """
    trail = ("parts", part, "lines", name, "ring")
    x = yield from evaluate(file, (*trail, "at", 0), ring.at[0], names)
    y = yield from evaluate(file, (*trail, "at", 1), ring.at[1], names)
    girth = yield from evaluate(file, (*trail, "girth"), ring.girth, names)
    start = yield from evaluate(file, (*trail, "start"), ring.start, names)
    if x is None or y is None or girth is None or start is None:
        return None
    if girth < LEAST_RING:
        message = f"expected a girth of {LEAST_RING:g} mm or more, found {girth:g}"
        yield file.source.problem("bad-line", (*trail, "girth"), message)
        return None
    return (Arc((x, y), girth / tau, start, 360.0),)


def standing_angle(rim: Run) -> float:
    """degrees between the wall of a rolled tube, inside, and the face on which its rim stands.

    On the flat piece the rim of a cone turns by the angle of its development, which is 360 degrees
    times the sine of the angle between wall and axis (development of a right circular cone).
    """
    way = flatten(rim)
    steps = [(two[0] - one[0], two[1] - one[1]) for one, two in pairwise(way) if one != two]
    directions = (start_direction(rim), *steps, end_direction(rim))
    turned = sum(turn_between(one, two) for one, two in pairwise(directions))
    return 90.0 - degrees(asin(max(-1.0, min(1.0, turned / 360.0))))
