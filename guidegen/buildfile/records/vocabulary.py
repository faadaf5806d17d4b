"""Which computed shapes there are, and which dimensions each one takes.

Data only: the check of names, the JSON Schema and the handbook read it; geometry/shapes computes.
"""

from guidegen.buildfile.records.shape_kinds import Dimension, ShapeKind
from guidegen.buildfile.records.shape_kinds_plates import PLATES
from guidegen.buildfile.records.shape_kinds_wraps import WRAPS

__all__ = ["DRAWING", "LINING", "SHAPES", "Dimension", "ShapeKind"]

DRAWING = "drawing"
"""Shape name of a part whose outline is drawn in an SVG file."""

LINING = "lining"
"""Shape name of a part that takes its outline from the part that it lines."""

SHAPES: dict[str, ShapeKind] = {kind.name: kind for kind in (*WRAPS, *PLATES)}
