"""Rows of plates that move on one another, at one size: how far, and what ends it; in mm."""

from dataclasses import dataclass

from guidegen.geometry.parts.holding import StrapPiece
from guidegen.words import msg

LIMITS = {
    "overlap": msg("the overlap ends"),
    "plates": msg("the plates lie fully on one another"),
    "heads": msg("an edge meets the heads of the rivets"),
    "slot": msg("the rivets reach the ends of their slots"),
    "strap": msg("the strap is taut"),
    "elastic": msg("the elastic is pulled out"),
    "widest": msg("nothing but the limb"),
}
"""What ends the way of two plates, in words for readers."""


@dataclass(frozen=True, slots=True)
class MovedJoint:
    """Two neighbouring plates at one size, and how far they move. Lengths in mm along the row."""

    parts: tuple[str, str]
    labels: tuple[str, str]
    beyond: tuple[float, float]
    """From each plate's pivots, slots or rivets to its own lapping edge, at the crown."""
    plates: tuple[float, float]
    """Of each plate at its crown, from edge to edge."""
    thick: tuple[float, float]
    """Of the foam of each."""
    outer: int
    """0 where the first lies outside, 1 where the second does."""
    reach: float
    """From the axis of the pivots to the crown; 0 without pivots."""
    overlap: float
    """At rest."""
    room: tuple[float, float]
    """degrees or mm by which it can open, and close."""
    moves: tuple[float, float]
    """degrees or mm by which it opens, and closes, where the whole row has moved as it must."""
    laps: tuple[float, float]
    """Overlap where the row is open, and closed, as it must be."""
    limits: tuple[str, str]
    """What ends its way when it opens, and closes: keys of `LIMITS`."""
    pushed: float = 0.0
    """By which the edge of the inner plate pushes up the outer one, at the most."""
    between: float = 0.0
    """Of the strap from rivet to rivet, without pull; 0 without a strap."""


@dataclass(frozen=True, slots=True)
class FittedLinkage:
    """A row of plates that move on one another, at one size."""

    id: str
    name: str
    kind: str
    """pivots, slots or strap."""
    round: bool
    """Whether its plates are domed about their pivots."""
    joints: tuple[MovedJoint, ...]
    asked: tuple[float, float]
    """degrees or mm by which the whole row must open, and close."""
    least: float
    """mm of overlap at the least."""
    clearance: float
    """mm of air between two plates."""
    home: str
    """Part whose pages draw it: its first plate."""
    pieces: tuple[StrapPiece, ...] = ()
    """What is cut for its straps."""
    pull: float = 0.0
    """Per cent by which elastic is stretched where the row is open."""

    @property
    def room(self) -> tuple[float, float]:
        """degrees or mm by which the whole row can open, and close."""
        return sum(one.room[0] for one in self.joints), sum(one.room[1] for one in self.joints)
