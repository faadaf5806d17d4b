"""Templates on a page map → a name for each, none over another or over the number of a page.

Leaders are kept off all of them too: one that runs through another name seems to come from it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import islice, pairwise
from math import cos, radians, sin

from guidegen.geometry.outline.areas import widest_spot
from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.label_places import Rings, enters_box, inside, label_spot, meets_box
from guidegen.pictures.pen.lettering import LEAST, text_width
from guidegen.pictures.pen.tints import NARROW

GAP = 0.6
"""mm kept free between two names."""
NEAREST, STEP, FARTHEST = 3.0, 1.5, 60.0
"""mm from a template to the name that a leader joins to it. Our choice."""
TURNS = range(0, 360, 15)
"""degrees of the ways in which a place for a name is looked for."""
MOST_PLACES = 300
"""Free places that are looked at for one on bare paper. Our choice."""
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

    def met_by(self, leader: Leader) -> bool:
        """Whether a straight line meets it."""
        (x, y), across, up = self.centre, self.width / 2, self.height / 2
        return enters_box(*leader, (x - across, x + across, y - up, y + up))

    def corners(self) -> list[Point]:
        """Its corners, counter-clockwise."""
        (x, y), across, up = self.centre, self.width / 2, self.height / 2
        return [
            (x - across, y - up),
            (x + across, y - up),
            (x + across, y + up),
            (x - across, y + up),
        ]


@dataclass(frozen=True, slots=True)
class Nameable:
    """A template on the map."""

    name: str
    code: str
    rings: Rings
    """Its outline and holes, on the drawing."""


@dataclass(frozen=True, slots=True)
class PlacedName:
    """Words on the map."""

    words: str
    size: float
    box: LabelBox
    to: Point | None = None
    """Where its leader ends, on the template; None where the words stand on it."""

    def leader(self) -> Leader | None:
        """Its leader, from the side of the words that is nearest."""
        if self.to is None:
            return None
        (x, y), across, up = self.box.centre, self.box.width / 2, self.box.height / 2
        near = (
            min(max(self.to[0], x - across), x + across),
            min(max(self.to[1], y - up), y + up),
        )
        return near, self.to


@dataclass
class MapRoom:
    """What a map has room for: its sheet, and the boxes and leaders that are there."""

    sheet: LabelBox
    taken: list[LabelBox] = field(default_factory=list)
    leaders: list[Leader] = field(default_factory=list)

    def free(self, box: LabelBox) -> bool:
        """Whether nothing stands there yet, and no leader runs there."""
        return not any(box.meets(other) for other in self.taken) and not any(
            box.met_by(leader) for leader in self.leaders
        )

    def clear(self, leader: Leader) -> bool:
        """Whether a leader would run through no words and cross no other leader."""
        return not any(box.met_by(leader) for box in self.taken) and not any(
            _cross(leader, other) for other in self.leaders
        )

    def add(self, name: PlacedName) -> None:
        """Take the room of a name and its leader."""
        self.taken.append(name.box)
        if leader := name.leader():
            self.leaders.append(leader)

    def holds(self, box: LabelBox) -> bool:
        """Whether all of it lies on the sheet."""
        (x, y), (x0, y0) = box.centre, self.sheet.centre
        return (
            abs(x - x0) * 2 + box.width <= self.sheet.width
            and abs(y - y0) * 2 + box.height <= self.sheet.height
        )


def place_names(things: Sequence[Nameable], room: MapRoom) -> list[PlacedName]:
    """A place for the name of each, the smallest template first: it has the fewest."""
    placed = []
    for thing in sorted(things, key=_extent):
        others = [other.rings for other in things if other is not thing]
        one = _on_it(thing, room) or _beside_it(thing, room, others)
        room.add(one)
        placed.append(one)
    return placed


def draw_name(canvas: Canvas, name: PlacedName) -> None:
    """Draw words, and the leader to what they name."""
    if leader := name.leader():
        canvas.line(*leader, NARROW, css="leader")
    x, y = name.box.centre
    at = (x, y - name.size * 0.35)
    canvas.text(at, name.words, name.size, anchor="middle", weight=600, css="label")


def _extent(thing: Nameable) -> tuple[float, str]:
    xs, ys = [x for x, _ in thing.rings[0]], [y for _, y in thing.rings[0]]
    return (max(xs) - min(xs)) * (max(ys) - min(ys)), thing.code


def _box(words: str, size: float, centre: Point) -> LabelBox:
    return LabelBox(centre, text_width(words, size, 600) + GAP, size)


def _on_it(thing: Nameable, room: MapRoom) -> PlacedName | None:
    """From the most telling words to the least; the code comes last in its smallest letters."""
    avoid = [[*box.corners(), box.corners()[0]] for box in room.taken]
    for words, size in (
        (f"{thing.code} {thing.name}", 3.4),
        (thing.name, 3.0),
        (thing.code, 3.4),
        (thing.code, LEAST),
    ):
        width = text_width(words, size, 600) + GAP
        for lines in ([], avoid) if avoid else ([],):
            spot = label_spot(thing.rings, width, size, lines)
            if spot and room.free(_box(words, size, spot)):
                return PlacedName(words, size, _box(words, size, spot))
    return None


def _beside_it(thing: Nameable, room: MapRoom, others: Sequence[Rings]) -> PlacedName:
    """The code with a leader: on bare paper, else wherever nothing is written.

    A template of a pair is drawn once: where the codes of both hands have no place, what they have
    in common says as much in half the room.
    """
    outlines = [(ring, _bounds(ring)) for rings in (thing.rings, *others) for ring in rings]
    for words in dict.fromkeys((thing.code, _common(thing.code))):
        second = None
        # Bare paper that is farther than so many free places is too far.
        for name in islice(_places_beside(words, thing, room), MOST_PLACES):
            if not any(name.box.meets(box) and _covers(ring, name.box) for ring, box in outlines):
                return name
            second = second or name
        if second:
            return second
    return PlacedName(thing.code, LEAST, _box(thing.code, LEAST, _targets(thing)[0]))


def _places_beside(words: str, thing: Nameable, room: MapRoom) -> Iterator[PlacedName]:
    """Free places for words that lie on a template or lead to it, the nearest first."""
    targets = _targets(thing)
    for spots in zip(*map(_around, targets), strict=True):
        for target, spot in zip(targets, spots, strict=True):
            box = _box(words, LEAST, spot)
            # A box over the template itself needs no leader.
            to = None if inside(thing.rings, spot) else target
            name = PlacedName(words, LEAST, box, to)
            leader = name.leader()
            if room.holds(box) and room.free(box) and (leader is None or room.clear(leader)):
                yield name


def _targets(thing: Nameable) -> list[Point]:
    """Points of a template at which a leader may end: its widest place, then some along it."""
    outline = thing.rings[0]
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    wide = max(xs) - min(xs) > max(ys) - min(ys)
    along = []
    for share in ALONG:
        at = (
            min(xs) + share * (max(xs) - min(xs)) if wide else min(ys) + share * (max(ys) - min(ys))
        )
        along += _middle_across(thing.rings, at, upright=wide)
    return [widest_spot([outline], 0.5)[0], *(spot for spot in along if inside(thing.rings, spot))]


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


def _common(code: str) -> str:
    """What the codes of both hands have in common: 'F3' of 'F3L F3R'; all of any other."""
    names = code.split()
    stems = {name[:-1] for name in names}
    hands = {name[-1] for name in names}
    return stems.pop() if len(stems) == 1 and hands == {"L", "R"} else code


def _cross(one: Leader, other: Leader) -> bool:
    """Whether two straight lines cross."""
    (a, b), (c, d) = one, other
    return _turn(a, b, c) * _turn(a, b, d) < 0 and _turn(c, d, a) * _turn(c, d, b) < 0


def _turn(a: Point, b: Point, c: Point) -> float:
    """Above 0 where the way from a over b to c turns left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _bounds(ring: Sequence[Point]) -> LabelBox:
    """The level box around a line."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    left, right, low, high = min(xs), max(xs), min(ys), max(ys)
    return LabelBox(((left + right) / 2, (low + high) / 2), right - left, high - low)


def _covers(ring: list[Point], box: LabelBox) -> bool:
    """Whether a closed line runs through a box, or all around it."""
    closed = [*ring, ring[0]]
    return meets_box(closed, box.centre, box.width, box.height) or inside([ring], box.centre)


def _around(target: Point) -> Iterator[Point]:
    """Places about a point: itself, then from the nearest outward."""
    yield target
    for step in range(int((FARTHEST - NEAREST) / STEP)):
        far = NEAREST + step * STEP
        for turn in TURNS:
            yield target[0] + far * cos(radians(turn)), target[1] + far * sin(radians(turn))
