"""Records of the vocabulary: what a computed shape is called, takes and offers."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Dimension:
    """One measure of a computed shape."""

    name: str
    help: str
    """What it measures, with its unit where that is not mm."""
    default: float | None = None
    """Used where the author gives none; None when the author must give it."""


@dataclass(frozen=True, slots=True)
class ShapeKind:
    """A computed shape: its name, dimensions and the names of its edges."""

    name: str
    help: str
    dimensions: tuple[Dimension, ...]
    edges: tuple[str, ...]
    """Edges of the whole shape, counter-clockwise from the lower left."""
    half_edges: tuple[str, ...] = ()
    """Edges of the half template; 'centre' lies on the fold. Empty where no half is offered."""
    curved: bool = False
    """True where the flat piece is bent and has to keep its curve."""
    edges_vary: bool = False
    """True where dimensions decide which of the edges there are."""


NEUTRAL = Dimension("neutral", "where the foam keeps its length, from the inner face, 0 to 1", 0.5)
BACKING = Dimension("backing", "thickness of padding or lining between body and foam", 0)
EASE = Dimension("ease", "room added to the girth, all round", 0)
WRAP = (EASE, BACKING, NEUTRAL)
"""What every shape that goes around a body takes."""
