"""Measurements of a size in → all that a plain figure needs, the missing ones by proportion.

Means of ANSUR II (US Army anthropometric survey, 2012: Gordon et al., NATICK/TR-15/007), half of
4,082 men and 1,986 women each; our computation. What is not in that survey says so.
"""

from collections.abc import Mapping
from dataclasses import dataclass

STATURE = 1692.3
"""mm; the mean to which all others here belong."""

GIRTHS: Mapping[str, tuple[float, tuple[str, ...]]] = {
    "head": (567.7, ("head_girth",)),
    "neck": (363.7, ("neck_girth", "neck_base")),
    "chest": (1002.8, ("chest_girth", "bust")),
    "waist": (900.8, ("waist_girth",)),
    "hip": (1020.4, ("hips", "hip_girth")),
    "thigh": (620.6, ("upper_leg",)),
    "knee": (405.0, ("knee_girth",)),
    "calf": (382.8, ("lower_leg",)),
    "ankle": (222.5, ("ankle_girth",)),
    "upper_arm": (331.8, ("biceps", "bicep")),
    "forearm": (287.1, ("lower_arm",)),
    "wrist": (165.4, ("wrist_girth",)),
    "hand": (199.4, ("hand_girth",)),
}
"""mm and further names of a measurement; knee is the survey's lower thigh."""

SPREADS: Mapping[str, float] = {
    "head": 0.032,
    "neck": 0.062,
    "chest": 0.085,
    "waist": 0.118,
    "hip": 0.074,
    "thigh": 0.092,
    "knee": 0.083,
    "calf": 0.076,
    "ankle": 0.067,
    "upper_arm": 0.099,
    "forearm": 0.070,
    "wrist": 0.051,
    "hand": 0.048,
}
"""Standard deviation of these girths as a share of their mean, of men and of women, averaged: heads
and hands differ far less than waists."""

LENGTHS: Mapping[str, tuple[float, tuple[str, ...]]] = {
    "stature": (STATURE, ("height", "body_height")),
    "back_length": (451.5, ("back",)),
    "shoulder_length": (142.6, ("shoulder",)),
    "shoulder_width": (390.5, ("shoulders", "shoulder_breadth")),
    "upper_arm_length": (323.2, ()),
    "forearm_length": (254.6, ("lower_arm_length",)),
    "hand_length": (187.2, ()),
    "inside_leg": (814.1, ("inseam",)),
    "foot": (258.7, ("foot_length",)),
}
"""mm, as above; shoulder_width from tip to tip (biacromial), inside_leg up to the crotch."""

HEIGHTS: Mapping[str, float] = {
    "ankle": 67.8,
    "knee": 468.8,
    "crotch": 814.1,
    "hip": 873.1,
    "waist": 1018.3,
    "shoulder": 1387.9,
    "nape": 1456.5,
}
"""mm over the ground at that stature: malleolus, patella, crotch, trochanter, navel, acromion,
cervicale."""

SLIM, STOUT = 0.55, 1.8
"""Limits of a proportion that follows from others. Our choice: beyond them it was a slip."""


@dataclass(frozen=True)
class Body:
    """Girths, lengths and heights in mm, all of them."""

    girths: Mapping[str, float]
    lengths: Mapping[str, float]
    heights: Mapping[str, float]


def find_body(measurements: Mapping[str, float]) -> Body:
    """The figure's measures: those given, and the rest in proportion to them.

    A girth that is not given stands as far from its mean as those that are do on average, in
    standard deviations; a length follows the mean ratio of lengths.
    """
    lengths_given = _given(LENGTHS, measurements)
    girths_given = _given(GIRTHS, measurements)
    tall = _ratio(LENGTHS, lengths_given)
    stout = _deviation(girths_given)
    lengths = {name: lengths_given.get(name, mean * tall) for name, (mean, _) in LENGTHS.items()}
    girths = {
        name: girths_given.get(name, mean * (1 + stout * SPREADS[name]))
        for name, (mean, _) in GIRTHS.items()
    }
    scale = lengths["stature"] / STATURE
    heights = {name: mean * scale for name, mean in HEIGHTS.items()}
    heights["crotch"] = lengths["inside_leg"]
    # The tape follows the spine, which is a little longer than it is high.
    heights["waist"] = heights["nape"] - lengths["back_length"] * _BACK_RISE
    return Body(girths, lengths, heights)


_BACK_RISE = (HEIGHTS["nape"] - HEIGHTS["waist"]) / LENGTHS["back_length"][0]
"""Height from waist to nape for each mm along the spine."""


def _given(
    known: Mapping[str, tuple[float, tuple[str, ...]]], measurements: Mapping[str, float]
) -> dict[str, float]:
    found: dict[str, float] = {}
    for name, (mean, others) in known.items():
        for own in (name, *others):
            value = measurements.get(own)
            if value is not None and SLIM * mean <= value <= STOUT * mean:
                found[name] = value
                break
    return found


def _deviation(given: Mapping[str, float]) -> float:
    """Mean distance of girths from their means, in standard deviations, within what people are."""
    if not given:
        return 0.0
    found = [(value / GIRTHS[name][0] - 1) / SPREADS[name] for name, value in given.items()]
    return max(-WIDEST, min(WIDEST, sum(found) / len(found)))


WIDEST = 4.0
"""Standard deviations. Our choice: one in thirty thousand is beyond."""


def _ratio(known: Mapping[str, tuple[float, tuple[str, ...]]], given: Mapping[str, float]) -> float:
    if not given:
        return 1.0
    return sum(value / known[name][0] for name, value in given.items()) / len(given)
