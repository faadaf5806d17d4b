"""A fitted row of plates in → problems where a gap opens, plates clash, bind or are pushed up."""

from collections.abc import Sequence
from itertools import pairwise

from guidegen.buildfile.records.constructions.linkages import Linkage
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.fastening.linkages.ends import HeldPlate
from guidegen.geometry.fastening.linkages.moving import longer_hoop
from guidegen.geometry.parts.linkages import LIMITS
from guidegen.geometry.pieces.records import FittedLinkage
from guidegen.units import mm_text

WAYS = (
    ("opens", "open", "a gap opens"),
    ("closes", "close", "its plates clash"),
)
"""Key of the build file, and the words of a finding, for both ways of a row."""
NEAR = 0.05
"""mm or degrees under which two are the same."""


def check_room(holding: Holding, name: str, fitted: FittedLinkage) -> None:
    """The row opens and closes as far as it must."""
    unit = "degrees" if fitted.kind == "pivots" else "mm"
    for way, (key, verb, fault) in enumerate(WAYS):
        asked, room = fitted.asked[way], fitted.room[way]
        if asked > room + NEAR:
            limits = "; ".join(
                f"{one.labels[0]} and {one.labels[1]}: {LIMITS[one.limits[way]]}"
                for one in fitted.joints
            )
            message = (
                f"it must {verb} by {mm_text(asked, 1)} {unit} and can by {mm_text(room, 1)} "
                f"before {fault} ({limits})"
            )
            holding.refuse(
                "linkage-clash" if way else "linkage-gap", message, "linkages", name, key
            )


def check_hoops(
    holding: Holding,
    name: str,
    linkage: Linkage,
    ends: Sequence[tuple[HeldPlate, HeldPlate]],
    *,
    clearance: float,
    wraps: float,
) -> None:
    """The outer plate of each joint goes round the inner one with air between them."""
    for at, (joint, pair) in enumerate(zip(linkage.joints, ends, strict=True)):
        outer = 0 if joint.outer == "first" else 1
        over, under = pair[outer], pair[1 - outer]
        needed = longer_hoop((over.thick, under.thick), clearance, wraps)
        found = over.spacing - under.spacing
        if found < needed - 0.5:
            message = (
                f"from pivot to pivot {over.row.part} must be {mm_text(needed, 1)} mm longer than "
                f"{under.row.part}, which lies inside it, and is {mm_text(found, 1)} mm longer"
            )
            holding.refuse("linkage-tight", message, "linkages", name, "joints", at, "outer")


def check_inner(holding: Holding, name: str, fitted: FittedLinkage) -> None:
    """Two plates under the same outer one have room beside each other, when the row is closed as it
    must be: both lie in one layer."""
    if fitted.asked[1] > fitted.room[1] + NEAR:
        return  # told: it never closes so far
    for at, (one, two) in enumerate(pairwise(fitted.joints)):
        if not (one.outer == 1 and two.outer == 0 and one.parts[1] == two.parts[0]):
            continue
        # What each covers of the outer plate from its own end, along the crown.
        over = one.laps[1] + two.laps[1] - one.plates[1]
        if over > NEAR:
            message = (
                f"{one.labels[0]} and {two.labels[1]} both lie inside {one.labels[1]}, and lie "
                f"{mm_text(over, 1)} mm over one another where the row is closed: expected the "
                f"rows of {one.labels[1]} that much farther apart, or so much less overlap"
            )
            holding.refuse("linkage-inner", message, "linkages", name, "joints", at)


def check_pushed(holding: Holding, name: str, fitted: FittedLinkage, gives: float) -> None:
    """Foam gives way to the edges of straight plates, but not without end."""
    for at, one in enumerate(fitted.joints):
        if one.pushed > gives + NEAR:
            message = (
                f"{one.labels[one.outer]} is pushed up by {mm_text(one.pushed, 1)} mm where it "
                f"turns over {one.labels[1 - one.outer]}, more than {mm_text(gives, 1)} mm"
            )
            holding.refuse("linkage-pushes", message, "linkages", name, "joints", at)
