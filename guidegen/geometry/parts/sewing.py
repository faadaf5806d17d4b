"""What is folded and drawn together in cloth, at one size, in mm."""

from dataclasses import dataclass

from guidegen.geometry.parts.holding import StrapPiece
from guidegen.words import msg

PLEATS = {
    "knife": msg("knife pleats"),
    "box": msg("box pleats"),
    "inverted": msg("inverted pleats"),
}
"""Kinds of pleats in words for readers."""


@dataclass(frozen=True, slots=True)
class TakenIn:
    """Cloth of a piece that is folded away along one edge."""

    kind: str
    """dart, or a key of `PLEATS`."""
    edge: str
    count: int
    depth: float
    """Of a pleat; of a dart its length."""
    taken: float
    """Of the edge, by all of them."""


@dataclass(frozen=True, slots=True)
class FittedCasing:
    """A tunnel along edges, and what goes through it."""

    id: str
    name: str
    home: str
    """Part whose pages draw it: that of its first edge."""
    material: str
    width: float
    """From the fold to the stitches."""
    goods: float
    """Of what goes through, across."""
    turn: float
    """Turned under at the raw edge."""
    edges: float
    """Of all its edges together, on all worn pieces."""
    length: float
    """Of one elastic or cord, without its ends."""
    ends: float
    count: int
    stretch: float
    """Per cent by which the goods may be stretched; 0 for cord."""

    @property
    def pieces(self) -> tuple[StrapPiece, ...]:
        """What is cut."""
        return (StrapPiece(self.material, self.length + self.ends, self.count, self.name),)

    @property
    def gathers(self) -> float:
        """How many times longer the cloth is than what it is drawn up to."""
        return self.edges / (self.length * self.count)
