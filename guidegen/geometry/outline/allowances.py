"""A finished outline and allowances by edge in → the cut line, with the finished line kept inside.

The edge keeps its name on the cut line; where it was is drawn as a glue line, on cloth as a stitch
line or as the line of a hem.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from guidegen.geometry.outline.offsets import offset_edges
from guidegen.geometry.outline.records import InnerLine, LineKind, Shape
from guidegen.units import mm_text

_WORDS = {
    "seam": "seam allowance",
    "overlap": "overlap",
    "trim": "trim allowance",
    "tab": "goes into the slot",
    "casing": "casing",
}


@dataclass(frozen=True, slots=True)
class EdgeAllowance:
    """Extra foam along one edge, in numbers."""

    kind: str
    """seam, overlap, trim, casing, or tab: what goes into a slot of another part."""
    width: float
    """mm, outside the finished line; 0 or more."""


def add_allowances(
    shape: Shape, allowances: Mapping[str, EdgeAllowance], fold: str = "", *, sewn: bool = False
) -> Shape:
    """The shape with its edges moved outward and the finished lines drawn.

    `fold` is the edge of a half template that must stay on the fold; `sewn` is true for cloth.
    Raises OffsetError.
    """
    widths = {name: allowance.width for name, allowance in allowances.items()}
    finished = tuple(
        InnerLine(_line(allowances[edge.name], sewn), edge.run, _label(allowances[edge.name]))
        # The old edge is drawn before the edges move: on the cut line nothing would show any more
        # where the glue ends or the neighbour comes to lie.
        for edge in shape.edges
        if widths.get(edge.name)
    )
    # All edges at once, not one by one: where two neighbours both move, their new corner is that
    # of the two moved lines, which no order of single moves would find.
    edges = offset_edges(shape.edges, widths, fold)
    return replace(shape, edges=edges, lines=shape.lines + finished)


def _line(allowance: EdgeAllowance, sewn: bool) -> LineKind:
    """What the finished line asks for: cloth is sewn along it, or folded under and then sewn."""
    if not sewn:
        return LineKind.GLUE
    return LineKind.HEM if allowance.kind in {"trim", "casing"} else LineKind.STITCH


def _label(allowance: EdgeAllowance) -> str:
    return f"{_WORDS[allowance.kind]} {mm_text(allowance.width, 1)} mm"
