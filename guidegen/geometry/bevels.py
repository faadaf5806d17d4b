"""A cut line and bevels by edge in → where the smaller face of each bevelled edge ends."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import radians, tan

from guidegen.geometry.offsets import offset_edges
from guidegen.geometry.records import BevelledEdge, Shape

STEEPEST = 75.0
"""degrees from square. Our choice: a knife cannot be led flatter through foam."""


@dataclass(frozen=True, slots=True)
class EdgeBevel:
    """A bevel in numbers."""

    angle: float
    """degrees from square, more than 0."""
    direction: str
    """inward: the inner face ends smaller; outward: the outer face ends smaller."""


def bevel_setback(angle: float, thickness: float) -> float:
    """mm that the smaller face ends before the larger: thickness * tan(angle), from the right
    triangle that the cut makes with the foam's edge."""
    return thickness * tan(radians(angle))


def bevel_for_dihedral(dihedral: float) -> float:
    """degrees from square for each of two equal edges that meet at an angle of `dihedral`
    degrees between the faces: (180 - dihedral) / 2, half of the turn for each."""
    return (180 - dihedral) / 2


def bevelled_edges(
    shape: Shape, bevels: Mapping[str, EdgeBevel], thickness: float, fold: str = ""
) -> tuple[BevelledEdge, ...]:
    """Far faces of all bevelled edges, joined where neighbours are bevelled too.

    `fold` is the edge of a half template that lies on the fold. Raises OffsetError where the
    smaller face would vanish.
    """
    setbacks = {name: -bevel_setback(bevel.angle, thickness) for name, bevel in bevels.items()}
    far = {edge.name: edge.run for edge in offset_edges(shape.edges, setbacks, fold)}
    return tuple(
        BevelledEdge(name, bevels[name].angle, bevels[name].direction, far[name])
        for name in (edge.name for edge in shape.edges)
        if name in bevels
    )
