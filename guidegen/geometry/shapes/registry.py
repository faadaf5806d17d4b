"""The computed shapes by their name in the vocabulary. A new shape is a builder and a line here."""

from guidegen.geometry.shapes.bands import BELT, LAME, SCALE_ROW
from guidegen.geometry.shapes.building import ShapeBuilder
from guidegen.geometry.shapes.cap_halves import CAP_HALF
from guidegen.geometry.shapes.caps import DOME, GORE
from guidegen.geometry.shapes.curved_plates import CRESCENT, ELLIPSE, LEAF, STAR, SUPERELLIPSE
from guidegen.geometry.shapes.plates import (
    DISC,
    FRAME,
    POLYGON,
    RING,
    ROUNDED_RECTANGLE,
    STRIP,
)
from guidegen.geometry.shapes.solids import BOX, RIDGE, RING_SEGMENT
from guidegen.geometry.shapes.tapered_tube import TAPERED_TUBE

_WRAPS = (TAPERED_TUBE, BELT, LAME, SCALE_ROW, GORE, CAP_HALF, DOME)
_FLAT = (STRIP, DISC, RING, ROUNDED_RECTANGLE, FRAME, POLYGON)
_CURVED = (ELLIPSE, SUPERELLIPSE, STAR, CRESCENT, LEAF)
_SOLID = (RIDGE, RING_SEGMENT, BOX)

BUILDERS: dict[str, ShapeBuilder] = {
    builder.name: builder for builder in (*_WRAPS, *_FLAT, *_CURVED, *_SOLID)
}
