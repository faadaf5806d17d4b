"""A guide and its stock in → the colour that each part has in the end, where paint gives one."""

from collections.abc import Mapping

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.stock import Stock


def paints_of(guide: Guide, stock: Stock) -> Mapping[str, str]:
    """Colour by part, as "#2f5d7c": that of the last paint that a step lays over it.

    Parts without paint, and paints of which nobody said the colour, are left out.
    """
    found: dict[str, str] = {}
    for step in guide.steps:
        for use in step.uses:
            material = stock.materials.get(use.material)
            if material is not None and material.tint is not None:
                mixed = [other for other in step.uses if other.material == use.tints]
                for covering in (use, *mixed):
                    found |= dict.fromkeys(covering.cover, material.tint)
    return found
