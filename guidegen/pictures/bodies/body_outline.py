"""The outline of a standing body, front and back, and where each measurement is taken on it.

Drawn for this project: an average build without sex or age, a hundred units high, feet at 0, the
middle at x = 0. Levels of the measurements follow ISO 8559-1 in words; the figure is a sketch.
"""

from dataclasses import dataclass

from guidegen.geometry.outline.records import Point

HALF: tuple[Point, ...] = (
    # Crown, face, neck, shoulder.
    (0, 100), (3.1, 99.2), (4.9, 96.4), (5.1, 93), (4.5, 89.6), (3, 87), (2.7, 84.8), (3.3, 83.2),
    (7, 82), (10.6, 81), (12.6, 78.8),
    # Outside of the arm, hand, inside of the arm.
    (13.6, 75), (14.7, 70.5), (16.2, 65.5), (18.1, 61), (20, 56), (21.6, 51.4), (22.6, 49),
    (24.2, 46.8), (25.2, 43.8), (25.2, 41), (24.4, 39.6), (23.4, 40.4), (22.6, 43), (21.9, 44.6),
    (21.3, 43.2), (20.5, 43.4), (20.5, 46.2), (20.4, 49.2), (18.4, 53.2), (16.3, 57.6),
    (14.6, 61.8), (12.8, 66.4), (11.2, 70.4), (9.9, 73.6),
    # Trunk.
    (9.2, 72.4), (8.6, 68.6), (7.8, 64.6), (7.5, 61.6), (8.1, 57.4), (9.1, 53.4), (9.6, 50),
    # Outside of the leg, foot, inside of the leg.
    (9.6, 46), (9.2, 41), (8.3, 35), (7.3, 30.5), (7.1, 27.4), (7.6, 23), (7.1, 17.6), (6, 11),
    (5.5, 6.8), (5.7, 4), (7.2, 2), (7.9, 0.7), (6.9, 0), (4.4, 0), (3.6, 1.2), (3.4, 4),
    (3.2, 6.8), (2.7, 12), (2.1, 18), (2.1, 23), (2.9, 28), (2.3, 33), (1.3, 40), (0.6, 45.4),
)  # fmt: skip
"""The right half as one sees it, from the crown down to the crotch."""

CROTCH: Point = (0, 46.8)
"""Where both halves meet below."""


@dataclass(frozen=True, slots=True)
class Tape:
    """One measurement on the figure."""

    names: tuple[str, ...]
    """Names of measurements that are taken here."""
    view: str
    """front or back."""
    start: Point
    end: Point
    badge: Point
    """Where its number stands."""
    girth: bool = True
    """True where the tape goes around, False where it goes along."""


TAPES: tuple[Tape, ...] = (
    Tape(("head", "head_girth"), "front", (-5, 95), (5, 95), (-9.5, 96)),
    Tape(("neck", "neck_girth", "neck_base"), "front", (-2.9, 84.6), (2.9, 84.6), (-8, 87)),
    Tape(("chest", "chest_girth", "bust"), "front", (-9.4, 73), (9.4, 73), (0, 72.2)),
    Tape(("underbust",), "front", (-8.7, 69), (8.7, 69), (-3.5, 68.3)),
    Tape(("waist", "waist_girth"), "front", (-7.5, 61.6), (7.5, 61.6), (0, 60.9)),
    Tape(("hip", "hips", "hip_girth"), "front", (-9.6, 50.4), (9.6, 50.4), (0, 49.6)),
    Tape(("upper_arm", "biceps", "bicep"), "front", (11.4, 70), (14.8, 70.8), (18.6, 72)),
    Tape(("elbow",), "front", (14.2, 62.6), (17.6, 62.8), (21.6, 64)),
    Tape(("forearm", "lower_arm"), "front", (16.2, 57.8), (19.4, 57.9), (23.4, 59)),
    Tape(("wrist",), "front", (20.4, 49.4), (22.5, 49.4), (16.4, 46.6)),
    Tape(("hand", "hand_girth"), "front", (-25.2, 44), (-20.6, 46), (-15.6, 43)),
    Tape(("thigh", "upper_leg"), "front", (1.2, 42), (9.3, 42), (13.4, 42)),
    Tape(("knee",), "front", (2.8, 28.6), (7.1, 28.6), (11.2, 28.6)),
    Tape(("calf", "lower_leg"), "front", (2.1, 22.6), (7.6, 22.6), (11.6, 22)),
    Tape(("ankle",), "front", (3.2, 7), (5.5, 7), (9.6, 8)),
    Tape(("foot", "foot_length"), "front", (-7.9, 0.6), (-3.6, 0.6), (-11.6, 2), girth=False),
    Tape(("shoulder", "shoulder_length"), "front", (3.3, 83.2), (12, 80), (9.6, 86), girth=False),
    Tape(("torso", "torso_length", "front_length"), "front", (3.4, 82.4), (3.4, 61.6), (3.4, 66.6),
         girth=False),
    Tape(("forearm_length", "lower_arm_length"), "front", (-15.4, 60.8), (-21.4, 49.2),
         (-22.6, 57.4), girth=False),
    Tape(("upper_arm_length",), "front", (-12.2, 79.6), (-16.4, 63.4), (-18.2, 74), girth=False),
    Tape(("arm_length", "sleeve_length"), "back", (12.2, 79.6), (22.2, 49.4), (21, 68),
         girth=False),
    Tape(("thigh_length", "upper_leg_length"), "front", (-6, 47), (-5, 29), (-11.8, 39),
         girth=False),
    Tape(("shin_length", "lower_leg_length", "calf_length"), "front", (-4.8, 26.6), (-4.4, 7),
         (-10.6, 17), girth=False),
    Tape(("back", "back_length"), "back", (0, 83.4), (0, 61.6), (0, 71), girth=False),
    Tape(("shoulder_width", "shoulders", "shoulder_breadth"), "back", (-12, 80), (12, 80),
         (6.4, 80), girth=False),
    Tape(("inside_leg", "inseam"), "back", (1, 45.6), (1.4, 0.4), (1.2, 20), girth=False),
    Tape(("height", "stature", "body_height"), "back", (-29, 0), (-29, 100), (-29, 56),
         girth=False),
)  # fmt: skip
"""Every place that the figure knows."""


def find_tape(name: str) -> Tape | None:
    """The place of a measurement; None where the figure does not know it."""
    # A side's own measurement is taken where that of both is.
    names = {name, name.removesuffix("_left").removesuffix("_right")}
    return next((tape for tape in TAPES if names & set(tape.names)), None)
