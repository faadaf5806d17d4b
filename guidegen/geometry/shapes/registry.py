"""The computed shapes by their name in the vocabulary. A new shape is a builder and a line here."""

from guidegen.geometry.shapes.building import ShapeBuilder
from guidegen.geometry.shapes.plates import (
    DISC,
    FRAME,
    POLYGON,
    RING,
    ROUNDED_RECTANGLE,
    STRIP,
)
from guidegen.geometry.shapes.tapered_tube import TAPERED_TUBE

BUILDERS: dict[str, ShapeBuilder] = {
    builder.name: builder
    for builder in (TAPERED_TUBE, STRIP, DISC, RING, ROUNDED_RECTANGLE, FRAME, POLYGON)
}
