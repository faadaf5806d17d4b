"""Girths and lengths of a size in → a plain figure at rest: limbs, without face or sex.

Sections are ovals whose girths are the measurements. How deep an oval is for its width, and how
limbs hang, are our choice (looked at, not measured), but for what names its source.
"""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from guidegen.assembly.body.lofts import BodyLimb, Section, bent_axis, oval
from guidegen.assembly.body.proportions import Body, find_body

HAND_SLIM = 0.44
"""Thickness of a hand at rest for its breadth, fingers a little bent: our choice, looked at. Mean
breadth is 0.417 of its girth (ANSUR II, 2012)."""
HEAD_RATIO = 1.289
"""Length of a head for its breadth: means 194.7 and 151.1 mm (ANSUR II, 2012)."""
WAIST_RATIO = 0.72
"""Depth of a waist for its breadth: means 225.4 and 313.2 mm (ANSUR II, 2012)."""
CHEST_RATIO = 0.74
SQUARE = 2.35
"""Exponent of the trunk's sections: a little squarer than an ellipse."""


@dataclass(frozen=True, eq=False)
class BodyFigure:
    """All limbs by name, and the measures that they were made from."""

    body: Body
    limbs: Mapping[str, BodyLimb]

    def limb(self, name: str, side: str = "left") -> BodyLimb:
        """A limb that the body has twice, or once."""
        return (
            self.limbs.get(f"{name}-{side}", self.limbs[name])
            if name not in self.limbs
            else self.limbs[name]
        )


def make_figure(measurements: Mapping[str, float]) -> BodyFigure:
    """The figure of a size. Measurements that it does not know, or that are slips, are left out."""
    body = find_body(measurements)
    limbs = [_trunk(body), _neck(body), _head(body)]
    for side, sign in (("left", 1.0), ("right", -1.0)):
        limbs += [
            _arm(body, side, sign),
            _thumb(body, side, sign),
            _leg(body, side, sign),
            _foot(body, side, sign),
        ]
    return BodyFigure(body, {limb.name: limb for limb in limbs})


def _trunk(body: Body) -> BodyLimb:
    girths, heights = body.girths, body.heights
    shoulder, waist, hip = heights["shoulder"], heights["waist"], heights["hip"]
    tip = body.lengths["shoulder_width"] / 2
    scale = body.lengths["stature"] / 1692.3
    chest_at = shoulder - 118 * scale
    chest = oval(0, girths["chest"], CHEST_RATIO, SQUARE)
    mid = (girths["waist"] * 0.5 + girths["chest"] * 0.5) * 0.985
    low = girths["waist"] * 0.42 + girths["hip"] * 0.58
    neck = girths["neck"] / (2 * np.pi)
    sections = (
        oval(heights["crotch"] - 12, girths["hip"] * 0.86, 0.74, 2.3, ahead=-6),
        oval(hip, girths["hip"], 0.73, 2.3, ahead=-8),
        oval(hip + (waist - hip) * 0.52, low, 0.74, 2.3, ahead=-3),
        oval(waist, girths["waist"], WAIST_RATIO, 2.25),
        oval(waist + (chest_at - waist) * 0.5, mid, 0.74, SQUARE, ahead=3),
        oval(chest_at, girths["chest"], CHEST_RATIO, SQUARE, ahead=2),
        Section(chest_at + 45 * scale, chest.wide * 0.985, chest.deep * 0.93, 2.3, ahead=-2),
        Section(shoulder - 30 * scale, tip * 0.95, chest.deep * 0.70, 2.1, ahead=-14),
        Section(shoulder - 4 * scale, tip * 0.78, chest.deep * 0.58, 2.0, ahead=-16),
        Section(shoulder + 13 * scale, tip * 0.47, chest.deep * 0.54, 2.0, ahead=-15),
        Section(shoulder + 28 * scale, neck * 1.24, neck * 1.22, 2.0, ahead=-13),
        Section(shoulder + 44 * scale, neck * 1.0, neck * 1.02, 2.0, ahead=-10),
        Section(shoulder + 52 * scale, neck * 0.7, neck * 0.7, 2.0, ahead=-10),
    )
    axis = np.array([[0.0, 0.0, 0.0], [0.0, heights["nape"] + 300, 0.0]])
    return BodyLimb("trunk", axis, sections, round_start=40.0)


def _neck(body: Body) -> BodyLimb:
    scale = body.lengths["stature"] / 1692.3
    low = body.heights["shoulder"] + 14 * scale
    top = body.lengths["stature"] - 150 * scale
    radius = body.girths["neck"] / (2 * np.pi)
    length = top - low
    axis = np.array([[0.0, low, -20.0], [0.0, top, 10.0]])
    sections = (
        Section(0, radius * 1.1, radius * 1.1),
        Section(length * 0.3, radius * 1.02, radius * 1.02),
        Section(length * 0.6, radius * 0.97, radius),
        Section(length, radius * 0.9, radius * 0.9),
    )
    return BodyLimb("neck", axis, sections)


def _head(body: Body) -> BodyLimb:
    stature = body.lengths["stature"]
    widest = oval(0, body.girths["head"], HEAD_RATIO)
    scale = widest.wide / 76
    chin = stature - 216 * scale
    axis = np.array([[0.0, chin, 14.0], [0.0, stature, 14.0]])
    high = stature - chin
    sections = (
        Section(0, 30 * scale, 26 * scale, ahead=48 * scale),
        Section(high * 0.06, 42 * scale, 40 * scale, ahead=38 * scale),
        Section(high * 0.2, 58 * scale, 66 * scale, ahead=19 * scale),
        Section(high * 0.38, 68 * scale, 86 * scale, ahead=6 * scale),
        Section(high * 0.6, widest.wide, widest.deep),
        Section(high * 0.8, widest.wide * 0.97, widest.deep * 0.98, ahead=-3 * scale),
        Section(high, widest.wide * 0.93, widest.deep * 0.93, ahead=-4 * scale),
    )
    return BodyLimb("head", axis, sections, round_start=12 * scale, round_end=100 * scale)


ABDUCTED, FOREARM_OUT, FOREARM_AHEAD = 15.0, 9.0, 17.0
"""degrees of the arm at rest: away from the trunk, and of the forearm away and to the front. Our
choice: hands clear of plates on the hip."""


def arm_points(body: Body, sign: float) -> dict[str, np.ndarray]:
    """Joints of an arm: shoulder, elbow, wrist and the tip of the fingers."""
    lengths = body.lengths
    scale = lengths["stature"] / 1692.3
    radius = body.girths["upper_arm"] / (2 * np.pi)
    shoulder = np.array(
        [
            lengths["shoulder_width"] / 2 - 0.42 * radius,
            body.heights["shoulder"] - 44 * scale,
            -14.0,
        ]
    )
    upper = _direction(ABDUCTED, -2.0)
    fore = _direction(FOREARM_OUT, FOREARM_AHEAD)
    elbow = shoulder + upper * (lengths["upper_arm_length"] - 20)
    wrist = elbow + fore * lengths["forearm_length"]
    tip = wrist + _direction(FOREARM_OUT - 4, FOREARM_AHEAD + 4) * lengths["hand_length"]
    points = {"shoulder": shoulder, "elbow": elbow, "wrist": wrist, "tip": tip}
    return {name: point * np.array([sign, 1.0, 1.0]) for name, point in points.items()}


def _direction(out: float, ahead: float) -> np.ndarray:
    """Downward, so many degrees outward and to the front."""
    x, z = np.sin(np.radians(out)), np.sin(np.radians(ahead))
    return np.array([x, -np.sqrt(1 - x * x - z * z), z])


def _arm(body: Body, side: str, sign: float) -> BodyLimb:
    points = arm_points(body, sign)
    girths, hand = body.girths, body.lengths["hand_length"]
    fore, upper = body.lengths["forearm_length"], body.lengths["upper_arm_length"] - 20
    breadth = girths["hand"] * 0.417 / 2
    wrist, elbow = hand, hand + fore
    arm = girths["upper_arm"] * 0.95
    top = elbow + upper
    sections = (
        Section(0, breadth * 0.34, breadth * 0.5, 2.2),
        Section(hand * 0.2, breadth * 0.4, breadth * 0.8, 2.4),
        Section(hand * 0.5, breadth * HAND_SLIM, breadth, 2.5),
        Section(hand * 0.78, breadth * 0.5, breadth * 0.88, 2.3),
        oval(wrist, girths["wrist"], 1.28, 2.1),
        oval(wrist + fore * 0.22, girths["wrist"] * 0.62 + girths["forearm"] * 0.38, 1.16),
        oval(wrist + fore * 0.68, girths["forearm"], 1.06),
        oval(wrist + fore * 0.86, girths["forearm"] * 0.985, 1.04),
        oval(elbow + 6, girths["forearm"] * 0.5 + arm * 0.44, 1.05),
        oval(elbow + upper * 0.5, arm, 1.08),
        oval(elbow + upper * 0.78, arm * 1.05, 1.1),
        oval(top + arm * 0.07, arm * 0.98, 1.06),
        oval(top + arm * 0.15, arm * 0.86, 1.02),
    )
    axis = bent_axis(
        [points["tip"], points["wrist"], points["elbow"],
         points["shoulder"] + (points["shoulder"] - points["elbow"]) * 0.3]
    )  # fmt: skip
    return BodyLimb(f"arm-{side}", axis, sections, round_start=hand * 0.12, round_end=arm * 0.2)


def _thumb(body: Body, side: str, sign: float) -> BodyLimb:
    points = arm_points(body, sign)
    along = (points["tip"] - points["wrist"]) / body.lengths["hand_length"]
    breadth = body.girths["hand"] * 0.417 / 2
    ahead = np.array([0.0, 0.0, 1.0])
    start = points["wrist"] + along * body.lengths["hand_length"] * 0.14 + ahead * breadth * 0.42
    end = points["wrist"] + along * body.lengths["hand_length"] * 0.52 + ahead * breadth * 1.12
    end = end - np.array([sign * breadth * 0.25, 0, 0])
    length = float(np.sqrt(((end - start) ** 2).sum()))
    sections = (
        Section(0, breadth * 0.22, breadth * 0.22),
        Section(length * 0.35, breadth * 0.27, breadth * 0.27),
        Section(length, breadth * 0.36, breadth * 0.42),
    )
    return BodyLimb(f"thumb-{side}", np.array([end, start]), sections, round_start=breadth * 0.3)


def _leg(body: Body, side: str, sign: float) -> BodyLimb:
    girths, heights = body.girths, body.heights
    hip = oval(0, girths["hip"], 0.73, 2.3)
    thigh = girths["thigh"] / (2 * np.pi)
    x = max(hip.wide - thigh * 1.0, thigh * 0.9)
    low, knee, top = 0.0, heights["knee"], heights["crotch"] + 40
    ankle = heights["ankle"] * 1.5
    axis = bent_axis(
        [[sign * x * 1.02, low, -24.0], [sign * x, knee, -2.0], [sign * x * 0.98, top + 60, -6.0]],
        60,
    )
    sections = (
        oval(low + 18, girths["ankle"] * 1.1, 1.15),
        oval(ankle, girths["ankle"], 1.12),
        oval(ankle + (knee - ankle) * 0.68, girths["calf"], 1.05, ahead=-8),
        oval(knee - 40, girths["knee"] * 0.92, 1.03),
        oval(knee, girths["knee"] * 0.97, 1.04, ahead=4),
        oval(
            knee + (top - knee) * 0.5, girths["thigh"] * 0.5 + girths["knee"] * 0.5, 1.04, ahead=4
        ),
        oval(heights["crotch"] - 20, girths["thigh"], 1.02),
        oval(top + 40, girths["thigh"] * 0.97, 1.0),
    )
    return BodyLimb(f"leg-{side}", axis, sections, round_end=40.0)


def _foot(body: Body, side: str, sign: float) -> BodyLimb:
    leg_x = _leg(body, side, sign).axis[0][0]
    length = body.lengths["foot"]
    axis = np.array(
        [[leg_x, 30.0, -24.0 - 0.26 * length], [leg_x + sign * 16, 22.0, -24 + 0.74 * length]]
    )
    sections = (
        Section(0, 28, 28), Section(length * 0.25, 34, 44, ahead=8), Section(length * 0.55, 42, 32),
        Section(length * 0.75, 48, 22, ahead=-6), Section(length, 34, 15, ahead=-10),
    )  # fmt: skip
    return BodyLimb(
        f"foot-{side}", axis, sections, front=(0.0, 1.0, 0.0), round_start=24, round_end=40
    )
