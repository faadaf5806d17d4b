"""A reader's body and that of the nearest size → both from the front, over one another.

For a look at what was measured: a slip of the tape shows. Plain figures without numpy, since
browsers draw them; what was not measured follows by the proportions of `assembly/body`. Breadths
are those of ellipses; how deep they are for their width is our choice, as in `assembly/body`.
"""

from collections.abc import Sequence
from math import cos, pi, radians, sin, sqrt

from guidegen.assembly.body.proportions import Body
from guidegen.geometry.outline.records import Point, Run
from guidegen.pictures.bodies.body import BODY
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pen.splines import smooth
from guidegen.pictures.pen.tints import ACCENT, SOFT
from guidegen.words import Words

WIDTH, HIGH, FOOT = 110.0, 104.0, 14.0
"""mm: of the drawing, of the taller figure, and of the key below."""
MINE = Stroke(0.35, colour=SOFT)
SIZE = Stroke(0.4, dash=(2.4, 1.0), colour=ACCENT)
LETTER = 3.6
ARM = (15.0, 9.0)
"""degrees of upper arm and forearm away from the trunk."""


def draw_own_body(own: Body, size: Body, name: str, words: Words) -> Drawing:
    """A body, filled, and the size called `name`, dashed, both standing on one line."""
    description = words.say(
        "Two plain figures from the front, standing on one line: yours filled, size {size} dashed.",
        size=name,
    )
    canvas = Canvas(
        WIDTH, HIGH + FOOT + 4, words.say("You and size {size}", size=name), description, words
    )
    scale = HIGH / max(own.lengths["stature"], size.lengths["stature"])
    frame = Frame(scale, WIDTH / 2, FOOT)
    for body, stroke, fill in ((own, MINE, BODY), (size, SIZE, "none")):
        with canvas.group(css="body"):
            for run in (*_arms(body), _trunk(body)):
                canvas.path([frame.run(run)], stroke, fill=fill, css="body-outline", closed=True)
    _draw_key(canvas, name, words)
    return canvas.drawing()


def _draw_key(canvas: Canvas, name: str, words: Words) -> None:
    size = words.say("size {size}", size=name)
    for x, stroke, said in ((8.0, MINE, words.say("yours")), (58.0, SIZE, size)):
        canvas.line((x, 5), (x + 14, 5), stroke)
        canvas.text((x + 17, 3.8), said, LETTER)


def half_breadth(girth: float, ratio: float) -> float:
    """mm; half the breadth of an ellipse with a girth, `ratio` times as deep as broad.

    Ramanujan, Quarterly Journal of Mathematics 45 (1914): off by less than 0.1 % at ratios here.
    """
    return girth / (pi * (3 * (1 + ratio) - sqrt((3 + ratio) * (1 + 3 * ratio))))


def _trunk(body: Body) -> Run:
    """Head, trunk and legs as one outline."""
    right = [*_head(body), *_sides(body), *_leg(body)]
    crotch = (0.0, body.heights["crotch"])
    return smooth([*right, crotch, *((-x, y) for x, y in reversed(right[1:]))], tension=0.8)


def _head(body: Body) -> list[Point]:
    stature, neck = body.lengths["stature"], body.girths["neck"] / (2 * pi)
    head = half_breadth(body.girths["head"], 1.289)
    scale = head / 76
    shares = ((0, 0), (0.62, 14), (0.93, 52), (1.0, 92), (0.9, 146), (0.62, 192))
    found = [(head * share, stature - down * scale) for share, down in shares]
    return [*found, (neck * 0.98, stature - 228 * scale)]


def _sides(body: Body) -> list[Point]:
    girths, heights = body.girths, body.heights
    scale = body.lengths["stature"] / 1692.3
    shoulder, waist, hip = heights["shoulder"], heights["waist"], heights["hip"]
    tip, neck = body.lengths["shoulder_width"] / 2, girths["neck"] / (2 * pi)
    chest_at = shoulder - 118 * scale
    chest = half_breadth(girths["chest"], 0.74)
    middle = half_breadth((girths["waist"] + girths["chest"]) / 2 * 0.985, 0.74)
    low = half_breadth(girths["waist"] * 0.42 + girths["hip"] * 0.58, 0.74)
    return [
        (neck * 1.24, shoulder + 30 * scale),
        (tip * 0.62, shoulder + 12 * scale),
        (tip * 0.95, shoulder - 20 * scale),
        (max(chest, tip * 0.9), shoulder - 70 * scale),
        (chest, chest_at),
        (middle, (chest_at + waist) / 2),
        (half_breadth(girths["waist"], 0.72), waist),
        (low, (waist + hip) / 2),
        (half_breadth(girths["hip"], 0.73), hip),
    ]


def _leg(body: Body) -> list[Point]:
    girths, heights = body.girths, body.heights
    thigh = girths["thigh"] / (2 * pi)
    middle = max(half_breadth(girths["hip"], 0.73) - thigh, thigh * 0.9)
    knee, ankle = heights["knee"], heights["ankle"] * 1.5
    calf = ankle + (knee - ankle) * 0.68
    places = {"thigh": heights["crotch"] - 20, "knee": knee, "calf": calf, "ankle": ankle}
    rows = [(girths[name] / (2 * pi), at) for name, at in places.items()]
    outer = [(middle + half, at) for half, at in rows]
    inner = [(max(middle - half, 2.0), at) for half, at in reversed(rows)]
    return [*outer, (middle + 46, 8.0), (middle - 30, 8.0), *inner]


def _arms(body: Body) -> list[Run]:
    """Both arms, each a limb that narrows along two straight stretches."""
    girths, lengths = body.girths, body.lengths
    upper, fore, hand = (
        lengths[name] for name in ("upper_arm_length", "forearm_length", "hand_length")
    )
    arm, forearm, wrist = (girths[name] / (2 * pi) for name in ("upper_arm", "forearm", "wrist"))
    start = (
        lengths["shoulder_width"] / 2 - 0.42 * arm,
        body.heights["shoulder"] - 44 * lengths["stature"] / 1692.3,
    )
    elbow = _along(start, ARM[0], upper - 20)
    rows = [
        (_along(start, ARM[0], -0.6 * arm), arm * 0.5, ARM[0]),
        (start, arm * 0.95, ARM[0]),
        (_along(start, ARM[0], upper * 0.5), arm, ARM[0]),
        (elbow, forearm * 0.92, ARM[0]),
        (_along(elbow, ARM[1], fore * 0.3), forearm, ARM[1]),
        (_along(elbow, ARM[1], fore), wrist, ARM[1]),
        (_along(elbow, ARM[1], fore + hand * 0.45), girths["hand"] * 0.13, ARM[1]),
        (_along(elbow, ARM[1], fore + hand), girths["hand"] * 0.05, ARM[1]),
    ]
    right = [_beside(at, angle, half) for at, half, angle in rows]
    left = [_beside(at, angle, -half) for at, half, angle in reversed(rows)]
    ring: Sequence[Point] = [*right, *left]
    return [smooth([(sign * x, y) for x, y in ring], tension=0.8) for sign in (1, -1)]


def _along(start: Point, angle: float, length: float) -> Point:
    """Down and outward."""
    return (start[0] + sin(radians(angle)) * length, start[1] - cos(radians(angle)) * length)


def _beside(at: Point, angle: float, half: float) -> Point:
    return (at[0] + cos(radians(angle)) * half, at[1] + sin(radians(angle)) * half)
