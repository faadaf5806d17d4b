"""Quantities of a part → numbers of one size; what cannot be worked out is told elsewhere."""

from collections.abc import Mapping

from guidegen.buildfile.records.guide import Guide
from guidegen.buildfile.records.vocabulary import SHAPES
from guidegen.buildfile.yaml.expressions import Expression, ExpressionError


def number(quantity: Expression | None, names: Mapping[str, float], default: float = 0.0) -> float:
    """The number of a quantity; the default where it has none."""
    if quantity is None:
        return default
    try:
        return quantity.value(names)
    except ExpressionError:
        return default


def dimensions_of(guide: Guide, part: str, names: Mapping[str, float]) -> dict[str, float]:
    """Dimensions of a computed shape with their defaults; empty for drawings and linings."""
    kind = SHAPES.get(guide.parts[part].shape)
    if kind is None:
        return {}
    given = guide.parts[part].dimensions
    return {
        one.name: number(given.get(one.name), names, one.default or 0.0) for one in kind.dimensions
    }


def names_asked(guide: Guide, part: str, *dimensions: str) -> frozenset[str]:
    """Names in the arithmetic of some dimensions of a part."""
    given = guide.parts[part].dimensions
    return frozenset(name for key in dimensions if key in given for name in given[key].names)
