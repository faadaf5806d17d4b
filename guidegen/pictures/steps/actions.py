"""The motion of a process and what a step does with it → the figure and the words of its drawing.

Glue goes on faces or on edges, and what is joined meets edge to edge or is set on a face: the step
says which, its process cannot.
"""

from dataclasses import dataclass

from guidegen.buildfile.records.motions import SAID, Motion
from guidegen.words import msg


@dataclass(frozen=True, slots=True)
class Action:
    """What the drawing of a step shows."""

    motion: Motion
    """The figure."""
    said: str
    """Its words, still to be said in the reader's language."""


_GLUED: dict[tuple[bool, bool], str] = {
    (True, False): msg("Spread the glue on the edges with letters"),
    (False, True): msg("Spread the glue over the hatched faces"),
    (True, True): msg("Spread the glue on lettered edges and hatched faces"),
}
"""Words of a motion that spreads glue, by whether edges and faces get it."""
_SET = Action(Motion.PRESS, msg("Set each piece on its place"))
"""What joins no two edges sets pieces on faces: studs on a plate."""


def usual(motion: Motion) -> Action:
    """A motion of which no step is known."""
    return Action(motion, SAID[motion])


def action_of(motion: Motion, *, edges: bool, faces: bool) -> Action:
    """What a step does that joins lettered edges, has hatched faces, both or neither."""
    if motion is Motion.JOIN and not edges:
        return _SET
    if motion is Motion.SPREAD:
        return Action(motion, _GLUED.get((edges, faces), SAID[motion]))
    return usual(motion)
