"""Parts near a joint of the body → those that stop it from bending: elbow, knee, neck."""

from collections.abc import Iterable, Iterator

import numpy as np

from guidegen.assembly.placing.scene import Placing, worn_of
from guidegen.assembly.placing.spots import LEFT
from guidegen.assembly.sheets.made import Made
from guidegen.buildfile.records.guide import BodyPlace
from guidegen.units import mm_text

LIMB = 25.0
"""mm that foam keeps from a bent elbow or knee (the rules of one group of events)."""
CHIN = 50.0
"""mm that stiff foam round the neck keeps below the chin, so that it can nod (the same rules)."""
AHEAD = 45.0
"""degrees to both sides of the front within which a rim lies under the chin. Our choice."""

type Blocked = tuple[str, str, float]
"""A part, what is wrong, and mm that are missing."""


def blocked_joints(scene: Placing, sheets: Iterable[Made]) -> Iterator[Blocked]:
    """Parts that stop a joint, with what is wrong."""
    for made in sheets:
        worn = worn_of(scene.guide, made.piece.part)
        if worn is None:
            continue
        if worn.on is BodyPlace.NECK:
            yield from _under_chin(scene, made)
        else:
            yield from _at_limb(scene, made, worn.on)


def _at_limb(scene: Placing, made: Made, on: BodyPlace) -> Iterator[Blocked]:
    """Tubes and plates that reach an elbow or a knee."""
    body = scene.figure.body
    elbow = body.lengths["hand_length"] + body.lengths["forearm_length"]
    joints = {
        BodyPlace.FOREARM: ("arm", elbow, "elbow"),
        BodyPlace.UPPER_ARM: ("arm", elbow, "elbow"),
        BodyPlace.THIGH: ("leg", body.heights["knee"], "knee"),
        BodyPlace.SHIN: ("leg", body.heights["knee"], "knee"),
    }
    if on not in joints:
        return
    limb, at, joint = joints[on]
    middle, _, along, _ = scene.figure.limbs[f"{limb}-{LEFT}"].frame(at)
    over = ((made.sheet.middle - middle) * along).sum(1)
    above = on in (BodyPlace.UPPER_ARM, BodyPlace.THIGH)
    free = float(over.min() if above else -over.max())
    if free < LIMB:
        ends = mm_text(max(free, 0.0), 0)
        message = f"ends {ends} mm from the {joint}, which needs {LIMB:g} mm to bend"
        yield made.piece.part, message, LIMB - free


def _under_chin(scene: Placing, made: Made) -> Iterator[Blocked]:
    """What goes round the neck, but for foam that gives way by itself."""
    if scene.part(made.piece.part).flexes:
        return
    points = made.sheet.middle
    middle = (points.min(0) + points.max(0)) / 2
    turn = np.degrees(np.arctan2(points[:, 0] - middle[0], points[:, 2] - middle[2]))
    front = points[np.abs(turn) < AHEAD]
    head = scene.figure.limbs["head"].solid(0).points
    if not len(front):
        return
    free = float(head[:, 1].min() - front[:, 1].max())
    if free < CHIN:
        message = (
            f"ends {mm_text(max(free, 0.0), 0)} mm below the chin, which needs {CHIN:g} mm to nod"
        )
        yield made.piece.part, message, CHIN - free
