"""A place of the body → where on the figure that is, and which way a part there looks."""

from dataclasses import dataclass

import numpy as np

from guidegen.assembly.body.figure import BodyFigure
from guidegen.assembly.body.lofts import BodyLimb
from guidegen.assembly.sheets.bends import Axes, Over
from guidegen.buildfile.records.guide import BodyPlace, Facing

LEFT, RIGHT = "left", "right"

ON_ARM = frozenset({BodyPlace.UPPER_ARM, BodyPlace.ELBOW, BodyPlace.FOREARM, BodyPlace.HAND})
ON_LEG = frozenset({BodyPlace.THIGH, BodyPlace.KNEE, BodyPlace.SHIN, BodyPlace.INSTEP})

ELBOW_OUT = 35.0
"""degrees outward from the back in which the point of an elbow looks at rest. Our choice."""

GIRTHS_OF: dict[BodyPlace, frozenset[str]] = {
    BodyPlace.FOREARM: frozenset({"forearm", "wrist", "lower_arm", "wrist_girth"}),
    BodyPlace.UPPER_ARM: frozenset({"upper_arm", "biceps", "bicep"}),
    BodyPlace.NECK: frozenset({"neck", "neck_girth", "neck_base"}),
    BodyPlace.SHIN: frozenset({"calf", "ankle", "lower_leg", "ankle_girth"}),
    BodyPlace.THIGH: frozenset({"thigh", "upper_leg"}),
    BodyPlace.HEAD: frozenset({"head", "head_girth"}),
    BodyPlace.WAIST: frozenset({"waist", "waist_girth"}),
    BodyPlace.CHEST: frozenset({"chest", "chest_girth", "bust"}),
    BodyPlace.HAND: frozenset({"hand", "hand_girth"}),
}
"""Measurements that tell where a tube of their girth goes, in the order in which it is asked."""


@dataclass(frozen=True, eq=False)
class Spot:
    """Where on a limb."""

    limb: BodyLimb
    at: float
    """mm along the limb's axis."""
    faces: float
    """degrees from the front to the left."""


def spot(figure: BodyFigure, place: BodyPlace, side: str) -> Spot:
    """The middle of a place by itself."""
    body = figure.body
    hand, fore = body.lengths["hand_length"], body.lengths["forearm_length"]
    upper = body.lengths["upper_arm_length"] - 20
    heights = body.heights
    outside = 90.0 if side == LEFT else 270.0
    behind = 180.0 - ELBOW_OUT if side == LEFT else 180.0 + ELBOW_OUT
    scale = body.lengths["stature"] / 1692.3
    trunk = figure.limbs["trunk"]
    places: dict[BodyPlace, tuple[BodyLimb, float, float]] = {
        BodyPlace.CROWN: (figure.limbs["head"], figure.limbs["head"].length, 0.0),
        BodyPlace.HEAD: (figure.limbs["head"], figure.limbs["head"].length * 0.6, 0.0),
        # Along the neck, which leans: a collar is lower in front than behind.
        BodyPlace.NECK: (figure.limbs["neck"], 36 * scale, 0.0),
        BodyPlace.CHEST: (trunk, heights["shoulder"] - 118 * scale, 0.0),
        BodyPlace.BACK: (trunk, heights["shoulder"] - 118 * scale, 180.0),
        BodyPlace.WAIST: (trunk, heights["waist"], 0.0),
        BodyPlace.HIP: (trunk, (heights["waist"] + heights["hip"]) / 2, outside),
    }
    if place in places:
        return Spot(*places[place])
    arm, leg = figure.limbs[f"arm-{side}"], figure.limbs[f"leg-{side}"]
    knee, crotch, ankle = heights["knee"], heights["crotch"], heights["ankle"]
    further: dict[BodyPlace, tuple[BodyLimb, float, float]] = {
        BodyPlace.HAND: (arm, hand * 0.5, outside),
        BodyPlace.FOREARM: (arm, hand + fore * 0.5, outside),
        BodyPlace.ELBOW: (arm, hand + fore, behind),
        BodyPlace.UPPER_ARM: (arm, hand + fore + upper * 0.5, outside),
        BodyPlace.SHOULDER: (arm, hand + fore + upper, outside),
        BodyPlace.THIGH: (leg, (knee + crotch) / 2 + 20, 0.0),
        BodyPlace.KNEE: (leg, knee, 0.0),
        BodyPlace.SHIN: (leg, (ankle * 1.5 + knee) / 2, 0.0),
        BodyPlace.INSTEP: (figure.limbs[f"foot-{side}"], body.lengths["foot"] * 0.5, 0.0),
    }
    return Spot(*further[place])


def facing(faces: Facing | None, usual: float, side: str) -> float:
    """degrees from the front to the left."""
    outside = 90.0 if side == LEFT else 270.0
    known = {
        Facing.FRONT: 0.0,
        Facing.BACK: 180.0,
        Facing.LEFT: 90.0,
        Facing.RIGHT: 270.0,
        Facing.OUTSIDE: outside,
        Facing.INSIDE: 360.0 - outside,
    }
    return usual if faces is None else known[faces]


def over_head(figure: BodyFigure, faces: float, off: float, aside: float, long: float) -> Over:
    """The way over the head, as long as a piece that lies on it `off` mm from the body and whose
    right end looks `faces` degrees from the front: both ends as high, or `aside` mm moved there."""
    head = figure.limbs["head"]
    rings = head.rings(8.0)
    turn = np.radians(faces)
    ahead = np.array([np.sin(turn), 0.0, np.cos(turn)])
    # The outermost point of each ring to both sides: up behind, over the top, down before.
    sides = [
        ring[(ring @ (ahead * sign)).argmax()] for sign, row in ((-1, rings), (1, rings[::-1]))
        for ring in row
    ]  # fmt: skip
    return Over.through(np.array(sides), ahead, off, aside, long)


def chord(limb: BodyLimb, at: float, length: float) -> Axes:
    """A straight axis through a limb, `length` mm long: what a tube sits on."""
    low, _, _, front = limb.frame(at - length / 2)
    high, _, _, _ = limb.frame(at + length / 2)
    along = (high - low) / np.sqrt(((high - low) ** 2).sum())
    front = front - along * float((front * along).sum())
    front = front / np.sqrt((front**2).sum())
    return Axes((low + high) / 2, np.cross(along, front), along, front)


def level(limb: BodyLimb, at: float, length: float) -> tuple[Axes, float, float]:
    """The frame of a plate that goes round a limb, and half axes that clear it over a length."""
    frame = chord(limb, at, length)
    # What reaches beyond a limb, as a skirt below the trunk, goes round its end.
    ends = limb.sections[0].at, limb.sections[-1].at
    stations = [at + length * t for t in (-0.5, -0.25, 0.0, 0.25, 0.5)]
    found = [limb.half_axes(min(max(one, ends[0]), ends[1])) for one in stations]
    return frame, max(wide for wide, _ in found), max(deep for _, deep in found)


SLIDES, SLIDE = 16, 5.0
"""Places on each side of the middle at which a tube is tried, and mm between them. Our choice."""


def fitting(limb: BodyLimb, at: float, length: float, low: float, high: float) -> float:
    """Where along a limb a tube of inner radii `low` and `high` at its rims has room for it: the
    place nearest to `at`, or the one at which least is missing."""
    shares = np.linspace(0.0, 1.0, 9)
    radii = low + (high - low) * shares

    def room(middle: float) -> float:
        stations = middle + (shares - 0.5) * length
        return min(
            float(radius) - max(limb.half_axes(float(station)))
            for radius, station in zip(radii, stations, strict=True)
        )

    tried = [at + sign * SLIDE * k for k in range(SLIDES + 1) for sign in (-1, 1)]
    found = next((middle for middle in tried if room(middle) >= 0), None)
    return max(tried, key=room) if found is None else found
