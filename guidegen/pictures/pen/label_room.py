"""Boxes of words and leaders on a drawing → which places are free, and what a leader may touch."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import cos, radians, sin

from guidegen.geometry.outline.areas import widest_spot
from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.label_places import Rings, enters_box, inside, meets_box

NEAREST, STEP, FARTHEST = 3.0, 1.5, 60.0
"""mm from a template to the name that a leader joins to it. Our choice."""
WAYS = tuple((cos(radians(turn)), sin(radians(turn))) for turn in range(0, 360, 15))
"""In which a place for a name is looked for: every 15 degrees."""
ALONG = (1 / 2, 1 / 4, 3 / 4, 1 / 8, 7 / 8)
"""Where along a template a leader may end, beside its widest place."""

type Leader = tuple[Point, Point]


@dataclass(frozen=True, slots=True)
class LabelBox:
    """A level box of words; mm."""

    centre: Point
    width: float
    height: float

    def meets(self, other: "LabelBox") -> bool:
        """Whether the two cover something together."""
        (x, y), (x2, y2) = self.centre, other.centre
        return (
            abs(x - x2) * 2 < self.width + other.width
            and abs(y - y2) * 2 < self.height + other.height
        )

    def sides(self) -> tuple[float, float, float, float]:
        """Its left, right, low and high side."""
        (x, y), across, up = self.centre, self.width / 2, self.height / 2
        return x - across, x + across, y - up, y + up

    def leader_to(self, to: Point) -> Leader:
        """A line from the place of its rim that is nearest to a point."""
        (x, y), across, up = self.centre, self.width / 2, self.height / 2
        return (
            (min(max(to[0], x - across), x + across), min(max(to[1], y - up), y + up)),
            to,
        )

    def corners(self) -> list[Point]:
        """Its corners, counter-clockwise."""
        (x, y), across, up = self.centre, self.width / 2, self.height / 2
        return [
            (x - across, y - up),
            (x + across, y - up),
            (x + across, y + up),
            (x - across, y + up),
        ]


@dataclass
class MapRoom:
    """What a map has room for: its sheet, and the boxes and leaders that are there."""

    sheet: LabelBox
    taken: list[LabelBox] = field(default_factory=list)
    leaders: list[Leader] = field(default_factory=list)

    def free(self, box: LabelBox) -> bool:
        """Whether nothing stands there yet, and no leader runs there."""
        # Loops here and below: thousands of places are asked for, and most are refused at once.
        for other in self.taken:
            if box.meets(other):
                return False
        if self.leaders:
            sides = box.sides()
            for leader in self.leaders:
                if enters_box(*leader, sides):
                    return False
        return True

    def clear(self, leader: Leader) -> bool:
        """Whether a leader would run through no words and cross no other leader."""
        for box in self.taken:
            if enters_box(*leader, box.sides()):
                return False
        return not any(crosses(leader, other) for other in self.leaders)

    def add(self, box: LabelBox, leader: Leader | None) -> None:
        """Take the room of words and their leader."""
        self.taken.append(box)
        if leader:
            self.leaders.append(leader)

    def holds(self, box: LabelBox) -> bool:
        """Whether all of it lies on the sheet."""
        (x, y), (x0, y0) = box.centre, self.sheet.centre
        return (
            abs(x - x0) * 2 + box.width <= self.sheet.width
            and abs(y - y0) * 2 + box.height <= self.sheet.height
        )


def around(target: Point, farthest: float = FARTHEST) -> Iterator[Point]:
    """Places about a point: itself, then from the nearest outward."""
    x, y = target
    yield target
    for step in range(int((farthest - NEAREST) / STEP)):
        far = NEAREST + step * STEP
        for across, up in WAYS:
            yield x + far * across, y + far * up


def targets(rings: Rings, near_ends: float = 0.0) -> list[Point]:
    """Points of a shape at which a leader may end: its widest place, then some along it.

    `near_ends` adds points so many mm from both ends of one that is long enough.
    """
    outline = rings[0]
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    wide = max(xs) - min(xs) > max(ys) - min(ys)
    low, high = (min(xs), max(xs)) if wide else (min(ys), max(ys))
    places = [low + share * (high - low) for share in ALONG]
    if near_ends and high - low > 4 * near_ends:
        places += [low + near_ends, high - near_ends]
    along = [spot for at in places for spot in _middle_across(rings, at, upright=wide)]
    return [widest_spot([outline], 0.5)[0], *(spot for spot in along if inside(rings, spot))]


def _middle_across(rings: Rings, at: float, *, upright: bool) -> list[Point]:
    """The middle of the first stretch of a line through rings at x, or at y."""
    cuts = []
    for points in rings:
        for (x0, y0), (x1, y1) in pairwise([*points, points[0]]):
            (a0, b0), (a1, b1) = ((x0, y0), (x1, y1)) if upright else ((y0, x0), (y1, x1))
            if (a0 > at) != (a1 > at):
                cuts.append(b0 + (b1 - b0) * (at - a0) / (a1 - a0))
    if len(cuts) < 2:
        return []
    first, second = sorted(cuts)[:2]
    middle = (first + second) / 2
    return [(at, middle) if upright else (middle, at)]


def crosses(one: Leader, other: Leader) -> bool:
    """Whether two straight lines cross."""
    (a, b), (c, d) = one, other
    return _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0


def _turn(a: Point, b: Point, c: Point) -> float:
    """Above 0 where the way from a over b to c turns left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def bounds(ring: Sequence[Point]) -> LabelBox:
    """The level box around a line."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    return LabelBox(((left + right) / 2, (low + high) / 2), right - left, high - low)


def covers(ring: list[Point], box: LabelBox) -> bool:
    """Whether a closed line runs through a box, or all around it."""
    closed = [*ring, ring[0]]
    return meets_box(closed, box.centre, box.width, box.height) or inside([ring], box.centre)
