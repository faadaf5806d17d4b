"""Templates on a page map → a name for each, none over another or over the number of a page.

Leaders are kept off all of them too: one that runs through another name seems to come from it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import islice

from guidegen.geometry.outline.records import Point
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.label_places import Rings, inside, label_spot
from guidegen.pictures.pen.label_room import (
    LabelBox,
    Leader,
    MapRoom,
    around,
    bounds,
    covers,
    targets,
)
from guidegen.pictures.pen.lettering import LEAST, text_width
from guidegen.pictures.pen.tints import NARROW

GAP = 0.6
"""mm kept free between two names."""
MOST_PLACES = 300
"""Free places that are looked at for one on bare paper. Our choice."""


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
        return self.box.leader_to(self.to)


def place_names(things: Sequence[Nameable], room: MapRoom) -> list[PlacedName]:
    """A place for the name of each, the smallest template first: it has the fewest."""
    placed = []
    for thing in sorted(things, key=_extent):
        others = [other.rings for other in things if other is not thing]
        one = _on_it(thing, room) or _beside_it(thing, room, others)
        room.add(one.box, one.leader())
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
    outlines = [(ring, bounds(ring)) for rings in (thing.rings, *others) for ring in rings]
    for words in dict.fromkeys((thing.code, _common(thing.code))):
        second = None
        # Bare paper that is farther than so many free places is too far.
        for name in islice(_places_beside(words, thing, room), MOST_PLACES):
            if not any(name.box.meets(box) and covers(ring, name.box) for ring, box in outlines):
                return name
            second = second or name
        if second:
            return second
    return PlacedName(thing.code, LEAST, _box(thing.code, LEAST, targets(thing.rings)[0]))


def _places_beside(words: str, thing: Nameable, room: MapRoom) -> Iterator[PlacedName]:
    """Free places for words that lie on a template or lead to it, the nearest first."""
    ends, reach = targets(thing.rings), bounds(thing.rings[0])
    wide = text_width(words, LEAST, 600) + GAP
    for spots in zip(*map(around, ends), strict=True):
        for target, spot in zip(ends, spots, strict=True):
            box = LabelBox(spot, wide, LEAST)
            if not room.holds(box) or not room.free(box):
                continue
            # A box over the template itself needs no leader.
            over = reach.meets(LabelBox(spot, 0, 0)) and inside(thing.rings, spot)
            to = None if over else target
            if to is None or room.clear(box.leader_to(to)):
                yield PlacedName(words, LEAST, box, to)


def _common(code: str) -> str:
    """What the codes of both hands have in common: 'F3' of 'F3L F3R'; all of any other."""
    names = code.split()
    stems = {name[:-1] for name in names}
    hands = {name[-1] for name in names}
    return stems.pop() if len(stems) == 1 and hands == {"L", "R"} else code
