"""What hands do in a step, as drawings show it: a small set that a process names one of."""

from enum import StrEnum

from guidegen.words import msg


class Motion(StrEnum):
    """What is done to the foam; the drawing of a step shows it where it happens."""

    CUT = "cut"
    SCORE = "score"
    GROOVE = "groove"
    BEVEL = "bevel"
    PUNCH = "punch"
    BRUSH = "brush"
    SPREAD = "spread"
    JOIN = "join"
    PRESS = "press"
    HEAT = "heat"
    BEND = "bend"
    ROLL = "roll"
    SAND = "sand"
    FILL = "fill"
    PAINT = "paint"
    SPRAY = "spray"
    STITCH = "stitch"
    RIVET = "rivet"
    MEASURE = "measure"
    MARK = "mark"
    DRY = "dry"


SAID: dict[Motion, str] = {
    Motion.CUT: msg("Cut along the edge, the way of the arrow"),
    Motion.SCORE: msg("Score along the line, not through"),
    Motion.GROOVE: msg("Cut the V-groove from both rims to its middle"),
    Motion.BEVEL: msg("Tilt the blade and cut the edge slanted"),
    Motion.PUNCH: msg("Punch straight down"),
    Motion.BRUSH: msg("Brush to and fro, thin and even"),
    Motion.SPREAD: msg("Spread the glue, thin and even"),
    Motion.JOIN: msg("Join edge to edge, as the arrows point"),
    Motion.PRESS: msg("Press down evenly"),
    Motion.HEAT: msg("Heat here, and keep the hot air moving"),
    Motion.BEND: msg("Bend from flat to shape, as the arrows turn"),
    Motion.ROLL: msg("Roll over it with pressure"),
    Motion.SAND: msg("Sand to and fro, lightly"),
    Motion.FILL: msg("Fill along the joint"),
    Motion.PAINT: msg("Paint in one direction"),
    Motion.SPRAY: msg("Spray from a distance, past the edges"),
    Motion.STITCH: msg("Stitch along the line"),
    Motion.RIVET: msg("Set the rivet from both sides"),
    Motion.MEASURE: msg("Measure from end to end"),
    Motion.MARK: msg("Trace along the edge"),
    Motion.DRY: msg("Leave it to dry"),
}
"""What a drawing says that shows it, in at most 50 letters."""
