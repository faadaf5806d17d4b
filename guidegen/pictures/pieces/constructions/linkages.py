"""A row of moving plates in → how it stands at both ends of its way, from the side, and in words.

Lengths along the row are to scale. Foam is drawn at least so thick that one sees which plate lies
outside.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, radians, sin

from guidegen.geometry.outline.records import Point
from guidegen.geometry.parts.linkages import LIMITS
from guidegen.geometry.pieces.records import FittedLinkage, MovedJoint
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.frames import polygon, polyline
from guidegen.pictures.pen.lettering import wrap
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.scales import reduction
from guidegen.pictures.pen.strips import STRIP, title_strip
from guidegen.pictures.pen.tints import PAPER, STRONG, WIDE, part_tint
from guidegen.pictures.pieces.detail_parts import WIDTH
from guidegen.words import SPACE, Words

LETTERS, LINE = 3.6, 5.0
"""mm; size of the words, and from one line to the next."""
ROOM = 52.0
"""mm; height of a row at one end of its way, at most."""
STEPS = 8
"""Chords of a drawn dome. Our choice: it is a sketch, not an outline to cut."""


@dataclass(frozen=True, slots=True)
class _Plate:
    """One plate of a row as it stands, in mm of the row."""

    ring: list[Point]
    label: str
    at: Point
    """Middle, for its label."""
    level: int
    """How far outside it lies: what is drawn later hides what is under it."""


@dataclass(frozen=True, slots=True)
class _Stand:
    """A row at one end of its way."""

    plates: list[_Plate]
    pins: list[Point]
    """Pivots, slots' rivets or rivets of the straps."""
    strap: list[Point]


def draw_linkage(one: FittedLinkage, lang: Words) -> Drawing:
    """The row open and closed, one above the other, at one scale, and what it can do in words."""
    stands = [_stand(one, way) for way in (0, 1)]
    boxes = [_box(stand) for stand in stands]
    wide = max(right - left for left, _, right, _ in boxes)
    high = max(top - low for _, low, _, top in boxes)
    scale = reduction(wide, high, WIDTH - 8, ROOM)
    said = [words for each in _words(one, lang) for words in wrap(each, WIDTH - 4, LETTERS)]
    foot = STRIP + LINE * len(said) + 3
    heads = (lang.say("Open as far as it must"), lang.say("Closed as far as it must"))
    tall = [(top - low) * scale + 2 * LINE + 3 for _, low, _, top in boxes]
    title = lang.say("{linkage} at both ends of its way", linkage=one.name)
    canvas = Canvas(WIDTH, foot + sum(tall) + 2, title, " ".join(_words(one, lang)), lang)
    level = foot
    for stand, box, height, head in reversed(list(zip(stands, boxes, tall, heads, strict=True))):
        left, low, right, _ = box
        shift = ((WIDTH - (right - left) * scale) / 2 - left * scale, level + 1 - low * scale)
        _draw_stand(canvas, stand, scale, shift)
        canvas.text((2, level + height - LINE + 0.6), head, LETTERS, weight=600, css="label strong")
        level += height
    for number, line in enumerate(said, 1):
        canvas.text((2, foot - 1 - LINE * number), line, LETTERS, css="label")
    title_strip(canvas, lang.say("Moving plates"), one.name, scale)
    return canvas.drawing()


def _words(one: FittedLinkage, lang: Words) -> list[str]:
    """What it can do and what ends it; each joint with its overlaps; straps and lean."""
    turns = one.kind == "pivots"

    def far(value: float) -> str:
        number = lang.number(value, 0 if turns else 1)
        return f"{number}°" if turns else f"{number}{SPACE}mm"

    words = []
    ends = (
        lang.say("It opens by {far}", far=far(one.room[0])),
        lang.say("It closes by {far}", far=far(one.room[1])),
    )
    for way, end in enumerate(ends):
        if one.asked[way] or way == 0:
            limits = dict.fromkeys(lang.say(LIMITS[joint.limits[way]]) for joint in one.joints)
            words.append(
                lang.say(
                    "{end}, and must by {asked}; then {limits}.",
                    end=end,
                    asked=far(one.asked[way]),
                    limits=lang.listed(limits),
                )
            )
    for joint in one.joints:
        words.append(
            lang.say(
                "{first} and {second} overlap by {rest} mm at rest, {open} mm open, {closed} mm "
                "closed; {outer} lies outside.",
                first=joint.labels[0],
                second=joint.labels[1],
                rest=lang.number(joint.overlap, 0),
                open=lang.number(joint.laps[0], 0),
                closed=lang.number(joint.laps[1], 0),
                outer=joint.labels[joint.outer],
            )
        )
    return [*words, *_held_words(one, lang)]


def _held_words(one: FittedLinkage, lang: Words) -> list[str]:
    words = [lang.say("Leave {air} mm of air between plates.", air=lang.number(one.clearance, 1))]
    for piece in one.pieces:
        gaps = [f"{lang.number(joint.between, 0)}{SPACE}mm" for joint in one.joints]
        words.append(
            lang.say(
                "Cut each strap {length} mm; from rivet to rivet leave {gaps}.",
                length=lang.number(piece.length, 0),
                gaps=lang.listed(gaps),
            )
        )
    if one.pull >= 1:
        share = lang.percent(one.pull / 100)
        words.append(lang.say("At the most it is pulled by {share}.", share=share))
    pushed = max(joint.pushed for joint in one.joints)
    if pushed >= 0.5:
        words.append(
            lang.say(
                "Turning pushes an outer edge up by {push} mm at the most.",
                push=lang.number(pushed, 0),
            )
        )
    return words


def _stand(one: FittedLinkage, way: int) -> _Stand:
    return _turned(one, way) if one.kind == "pivots" else _slid(one, way)


def _levels(joints: Sequence[MovedJoint]) -> list[int]:
    """How far outside each plate lies: one more than a neighbour that it laps over."""
    levels = [0]
    for joint in joints:
        levels.append(levels[-1] + (1 if joint.outer else -1))
    return [level - min(levels) for level in levels]


def _turned(one: FittedLinkage, way: int) -> _Stand:
    """Plates from the side, each turned about the pivot that it shares with the one before."""
    joints = one.joints
    plates: list[_Plate] = []
    pins: list[Point] = []
    levels = _levels(joints)
    # Where a plate begins, and the direction of its crown; the first lies level.
    start, turn = (0.0, 0.0), 0.0
    for number in range(len(joints) + 1):
        before = joints[number - 1] if number else None
        after = joints[number] if number < len(joints) else None
        length = before.plates[1] if before else joints[0].plates[0]
        low = before.beyond[1] if before else 0.0
        high = after.beyond[0] if after else 0.0
        # From its first pivot, or its free end, to its last.
        span = length - low - high
        reach = max(one.reach for one in (before, after) if one is not None)
        ring = _side(span, low, high, reach, domed=one.round)
        label = before.labels[1] if before else joints[0].labels[0]
        moved = [_moved(point, start, turn) for point in ring]
        # At the free ends of the row, where no neighbour hides it.
        share = 0.3 if before is None else 0.7 if after is None else 0.5
        middle = _moved((span * share, reach / 2), start, turn)
        plates.append(_Plate(moved, label, middle, levels[number]))
        if after is not None:
            start = _moved((span, 0.0), start, turn)
            pins.append(start)
            # Opening turns the next plate away from the crown.
            turn += -after.moves[0] if way == 0 else after.moves[1]
    return _Stand(plates, pins, [])


def _side(span: float, low: float, high: float, reach: float, *, domed: bool) -> list[Point]:
    """A plate from the side, its first pivot in the origin: down to its pivots, up to its crown."""
    if not domed:
        return [(-low, 0.0), (span + high, 0.0), (span + high, reach), (-low, reach)]
    left = low / reach if reach else 0.0
    right = high / reach if reach else 0.0
    shares = [step / STEPS for step in range(STEPS + 1)]
    end = [(span + reach * sin(right * s), reach * cos(right * s)) for s in reversed(shares)]
    start = [(-reach * sin(left * s), reach * cos(left * s)) for s in shares]
    return [(0.0, 0.0), (span, 0.0), *end, *start]


def _moved(point: Point, start: Point, turn: float) -> Point:
    c, s = cos(radians(turn)), sin(radians(turn))
    return (start[0] + point[0] * c - point[1] * s, start[1] + point[0] * s + point[1] * c)


def _slid(one: FittedLinkage, way: int) -> _Stand:
    """Plates cut through, each leaning from the one that it laps over to the one that laps it."""
    joints = one.joints
    plates: list[_Plate] = []
    pins: list[Point] = []
    thick = max(max(joint.thick) for joint in joints)
    place = 0.0
    levels = _levels(joints)
    for number in range(len(joints) + 1):
        before = joints[number - 1] if number else None
        after = joints[number] if number < len(joints) else None
        if before:
            place -= before.laps[way]
        length = before.plates[1] if before else joints[0].plates[0]
        low = thick if before and before.outer == 1 else 0.0
        high = thick if after and after.outer == 0 else 0.0
        ring = [
            (place, low), (place + length, high),
            (place + length, high + thick), (place, low + thick),
        ]  # fmt: skip
        label = before.labels[1] if before else joints[0].labels[0]
        share = 0.25 if before is None else 0.75 if after is None else 0.5
        middle = (place + length * share, low + (high - low) * share + thick / 2)
        plates.append(_Plate(ring, label, middle, levels[number]))
        if before:
            pins.append((place + before.beyond[1], thick / 2))
        if after:
            pins.append((place + length - after.beyond[0], thick / 2))
        place += length
    under = [(x, -0.4 * thick) for x, _ in pins] if one.pieces else []
    return _Stand(plates, pins, under)


def _box(stand: _Stand) -> tuple[float, float, float, float]:
    points = [point for plate in stand.plates for point in plate.ring] + stand.strap
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return min(xs), min(ys), max(xs), max(ys)


def _draw_stand(canvas: Canvas, stand: _Stand, scale: float, shift: Point) -> None:
    def at(point: Point) -> Point:
        return (point[0] * scale + shift[0], point[1] * scale + shift[1])

    for plate in sorted(stand.plates, key=lambda plate: plate.level):
        ring = polygon([at(point) for point in plate.ring])
        tint = part_tint(plate.level)
        canvas.path([ring], WIDE, fill=tint.fill, css=f"ink {tint.css}", closed=True)
    for plate in stand.plates:
        x, y = at(plate.at)
        ys = [y for _, y in plate.ring]
        # Thin foam has no room for letters: they stand over it.
        thin = (max(ys) - min(ys)) * scale < 2 * LINE
        up = LINE - 1.3 if thin else -1.3
        canvas.text((x, y + up), plate.label, LETTERS, anchor="middle", weight=600, css="label")
    if stand.strap:
        canvas.path([polyline([at(point) for point in stand.strap])], STRONG, css="glue")
    for pin in stand.pins:
        canvas.circle(at(pin), 1.1, WIDE, fill=PAPER, css="paper")
