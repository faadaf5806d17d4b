"""Templates on a page map → a name for each, none over another or over the number of a page."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from math import cos, radians, sin

from guidegen.geometry.outline.areas import widest_spot
from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.label_places import Rings, inside, label_spot, meets_box
from guidegen.pictures.pen.lettering import LEAST, text_width
from guidegen.pictures.pen.tints import NARROW

GAP = 0.6
"""mm kept free between two names."""
NEAREST, STEP, FARTHEST = 3.0, 1.5, 60.0
"""mm from a template to the name that a leader joins to it. Our choice."""
TURNS = range(0, 360, 15)
"""degrees of the ways in which a place for a name is looked for."""


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


@dataclass
class MapRoom:
    """What a map has room for: its sheet, and the boxes that are taken."""

    sheet: LabelBox
    taken: list[LabelBox] = field(default_factory=list)

    def free(self, box: LabelBox) -> bool:
        """Whether nothing stands there yet."""
        return not any(box.meets(other) for other in self.taken)

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
        room.taken.append(one.box)
        placed.append(one)
    return placed


def draw_name(canvas: Canvas, name: PlacedName) -> None:
    """Draw words, and the leader to what they name."""
    x, y = name.box.centre
    if name.to is not None:
        near = (
            min(max(name.to[0], x - name.box.width / 2), x + name.box.width / 2),
            min(max(name.to[1], y - name.box.height / 2), y + name.box.height / 2),
        )
        canvas.line(near, name.to, NARROW, css="leader")
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
    """The code with a leader: on bare paper, else wherever nothing is written."""
    target = widest_spot(thing.rings[:1], 0.5)[0]
    boxes = [_box(thing.code, LEAST, spot) for spot in _around(target)]
    free = [box for box in boxes if room.holds(box) and room.free(box)]
    outlines = [ring for rings in (thing.rings, *others) for ring in rings]
    bare = (box for box in free if not any(_covers(ring, box) for ring in outlines))
    box = next(bare, free[0] if free else _box(thing.code, LEAST, target))
    # A box over the template itself needs no leader.
    to = None if inside(thing.rings, box.centre) else target
    return PlacedName(thing.code, LEAST, box, to)


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
