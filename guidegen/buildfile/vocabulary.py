"""Which computed shapes there are, and which dimensions each one takes.

Data only: the check of names, the JSON Schema and the handbook read it; geometry/shapes computes.
"""

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


DRAWING = "drawing"
"""Shape name of a part whose outline is drawn in an SVG file."""

_WRAP = (
    Dimension("ease", "room added to the girth, all round", 0),
    Dimension("backing", "thickness of padding or lining between body and foam", 0),
    Dimension("neutral", "where the foam keeps its length, from the inner face, 0 to 1", 0.5),
)

SHAPES: dict[str, ShapeKind] = {
    kind.name: kind
    for kind in (
        ShapeKind(
            "tapered-tube",
            "A tube around a limb, wider at one end; a cylinder where both girths agree.",
            (
                Dimension("girth-top", "body girth at the upper rim"),
                Dimension("girth-bottom", "body girth at the lower rim"),
                Dimension("length", "length along the slope"),
                *_WRAP,
                Dimension("gap", "opening left between the closing edges", 0),
                Dimension("overlap", "extra length that lies over the other side", 0),
            ),
            ("bottom", "side", "top", "side-2"),
            ("bottom", "side", "top", "centre"),
        ),
        ShapeKind(
            "strip",
            "A straight band.",
            (
                Dimension("length", "along the band"),
                Dimension("width", "across the band"),
            ),
            ("bottom", "right", "top", "left"),
            ("bottom", "right", "top", "centre"),
        ),
        ShapeKind(
            "disc",
            "A round plate.",
            (Dimension("diameter", "across the disc"),),
            ("rim",),
        ),
        ShapeKind(
            "ring",
            "A round plate with a round hole in its middle.",
            (
                Dimension("outside", "outer diameter"),
                Dimension("inside", "diameter of the hole"),
            ),
            ("rim",),
        ),
        ShapeKind(
            "rounded-rectangle",
            "A plate with rounded corners.",
            (
                Dimension("width", "across"),
                Dimension("height", "upright"),
                Dimension("radius", "of the corners", 0),
            ),
            ("bottom", "right", "top", "left"),
        ),
        ShapeKind(
            "frame",
            "A plate with rounded corners and a window in its middle.",
            (
                Dimension("width", "across, outside"),
                Dimension("height", "upright, outside"),
                Dimension("web", "width of the foam around the window"),
                Dimension("radius", "of the outer corners", 0),
            ),
            ("bottom", "right", "top", "left"),
        ),
        ShapeKind(
            "polygon",
            "A plate with equal sides and equal corners.",
            (
                Dimension("sides", "number of sides, 3 or more"),
                Dimension("across", "diameter of the circle through the corners"),
            ),
            ("rim",),
        ),
    )
}
