"""The computed shapes by their name in the vocabulary, as the modules of this folder make them.

A new shape is a `ShapeBuilder` in one of them and an entry in the vocabulary.
"""

from guidegen.buildfile.records.vocabulary import SHAPES
from guidegen.geometry.shapes import (
    bands,
    cap_halves,
    caps,
    curved_plates,
    gussets,
    horns,
    plates,
    solids,
    tapered_tube,
)
from guidegen.geometry.shapes.building import ShapeBuilder

_MODULES = (tapered_tube, horns, bands, caps, cap_halves, plates, gussets, curved_plates, solids)

_FOUND = {
    value.name: value
    for module in _MODULES
    for value in vars(module).values()
    if isinstance(value, ShapeBuilder)
}

BUILDERS: dict[str, ShapeBuilder] = {
    name: _FOUND[name] for name in sorted(_FOUND, key=[*SHAPES, *_FOUND].index)
}
"""In the order of the vocabulary."""
