"""What every computed shape is made with: its builder, its refusal, and checks of dimensions."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import tau

from guidegen.geometry.outline.bevels import EdgeBevel
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Edge, InnerLine, Measure, Run, Shape
from guidegen.geometry.outline.transforms import move_shape

type Dimensions = Mapping[str, float]
"""Numbers by dimension name, defaults filled in; mm unless the vocabulary says otherwise."""


class ShapeError(ValueError):
    """The dimensions make no shape that can be cut; the message is for the author."""

    def __init__(self, dimension: str, message: str) -> None:
        super().__init__(message)
        self.dimension = dimension
        """Name of the dimension to look at first; empty where it is the shape as a whole."""


@dataclass(frozen=True, slots=True)
class NetFold:
    """A V-groove that belongs to a shape, where two faces of a solid meet."""

    run: Run
    fold: float
    """degrees that the foam will turn."""
    floor: float
    """mm of foam left under it."""


@dataclass(frozen=True, slots=True)
class ShapeBuilder:
    """How one kind of shape is computed. All take dimensions and the foam's thickness in mm.

    The origin of every shape is the middle of its bounding box; a half template keeps the
    origin of the whole, with its fold on the y axis and the drawn half to the right.
    """

    name: str
    """Its name in the vocabulary."""
    whole: Callable[[Dimensions, float], Shape]
    """The whole outline. Raises ShapeError."""
    measures: Callable[[Dimensions, float], tuple[Measure, ...]]
    """Finished lengths that a tape can check."""
    half: Callable[[Dimensions, float], Shape] | None = None
    """The half template, where there is one. Raises ShapeError."""
    bevels: Callable[[Dimensions, float], dict[str, EdgeBevel]] | None = None
    """Bevels that make the shape, by edge; those that the author gives come before them."""
    folds: Callable[[Dimensions, float], tuple[NetFold, ...]] | None = None
    """V-grooves at which the shape is folded up."""


def positive(dimensions: Dimensions, *names: str) -> None:
    """Refuse dimensions that are zero or negative. Raises ShapeError."""
    for name in names:
        if dimensions[name] <= 0:
            raise ShapeError(name, f"expected more than 0, found {dimensions[name]:g}")


def not_negative(dimensions: Dimensions, *names: str) -> None:
    """Refuse negative dimensions. Raises ShapeError."""
    for name in names:
        if dimensions[name] < 0:
            raise ShapeError(name, f"expected 0 or more, found {dimensions[name]:g}")


def whole_number(dimensions: Dimensions, name: str, least: int, most: int) -> int:
    """A count. Raises ShapeError where it is none, or outside its limits."""
    value = dimensions[name]
    if abs(value - round(value)) > 1e-6 or not least <= round(value) <= most:
        raise ShapeError(name, f"expected a whole number from {least} to {most}, found {value:g}")
    return round(value)


def wrap_length(girth: float, dimensions: Dimensions, thickness: float) -> float:
    """Length in mm of foam that closes around a girth: girth + 2*pi*(backing + k*thickness) + ease.

    The tube outside a convex section at distance d is 2*pi*d longer than it (Steiner's formula
    for parallel curves; handbooks have it as outer minus inner girth of a tube of wall t,
    2*pi*t). k is where the foam keeps its length, measured from its inner face: the K factor
    of sheet bending; no published value for foam was found, so 0.5 unless a strip was tested.
    """
    layers = dimensions["backing"] + dimensions["neutral"] * thickness
    return girth + tau * layers + dimensions["ease"]


def check_layers(dimensions: Dimensions) -> None:
    """Refuse a backing or neutral layer that cannot be. Raises ShapeError."""
    not_negative(dimensions, "backing")
    if not 0 <= dimensions["neutral"] <= 1:
        found = dimensions["neutral"]
        raise ShapeError("neutral", f"expected a share from 0 to 1, found {found:g}")


def centred(
    edges: tuple[Edge, ...], holes: tuple[Run, ...] = (), lines: tuple[InnerLine, ...] = ()
) -> Shape:
    """A shape with the middle of its bounding box in the origin."""
    left, low, right, high = bounds(tuple(edge.run for edge in edges))
    return move_shape(Shape(edges, holes, lines), -(left + right) / 2, -(low + high) / 2)


def centred_half(half: tuple[Edge, ...], whole: tuple[Edge, ...]) -> Shape:
    """The right half of a shape, moved as `centred` moves its whole; its fold on the y axis."""
    # Only up and down, by the whole's box: sideways the fold must stay on the y axis, where the
    # middle of the half itself does not lie.
    _, low, _, high = bounds(tuple(edge.run for edge in whole))
    return move_shape(Shape(half), 0.0, -(low + high) / 2)
