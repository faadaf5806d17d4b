"""The angle at which two edges meet, and their thicknesses → the bevels of both.

All angles in degrees, thicknesses in mm.
"""

from math import atan2, cos, degrees, radians, sin

from guidegen.geometry.pieces.records import MeetingAngle

FLAT = 0.5
"""degrees from lying flat within which no bevel can take up a step. Our choice."""


def standing_bevel(angle: float) -> float:
    """degrees of bevel of a foot whose inner face stands at `angle` to the face below.

    Positive leaves the inner face smaller. The foot lies flat where the cut is parallel to the
    face: 90 - angle from square.
    """
    return 90.0 - angle


def meet(angle: float, first: float, second: float, flush: str) -> MeetingAngle:
    """Bevels of two edges of foam `first` and `second` thick whose inner faces meet at `angle`.

    The faces turn by s = 180 - angle. Equal foam is mitred by s / 2 on each edge, as
    every mitre is. Of two thicknesses both corners lie on one cut where
    cos(a) / first = cos(b) / second with a + b = s, since the cut is as long in both: so
    tan(a) = (second / first - cos s) / sin s. `flush` other than both halves the turn and leaves a
    step of the difference in thickness along the cut, measured across the faces.
    """
    turn = 180.0 - angle
    if flush == "both" and abs(turn) > FLAT:
        s = radians(abs(turn))
        one = degrees(atan2(second / first - cos(s), sin(s)))
        sign = 1.0 if turn > 0 else -1.0
        return MeetingAngle(angle, flush, (sign * one, turn - sign * one))
    step = abs(first - second) / (2.0 if flush == "middle" else 1.0)
    return MeetingAngle(angle, flush, (turn / 2, turn / 2), step)
