"""Casings and gathered seams of a guide → wider edges of a part, and the lines beside them."""

from dataclasses import dataclass, replace

from guidegen.buildfile.derive.sizes import evaluate
from guidegen.buildfile.records.constructions.sewing import Casing
from guidegen.buildfile.yaml.expressions import Expression
from guidegen.geometry.outline.offsets import OffsetError, offset_run
from guidegen.geometry.outline.records import InnerLine, LineKind, Run, Shape
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.problems import collect

WIDEST = 150.0
"""mm of a casing. Our choice: more holds no elastic."""


@dataclass(frozen=True, slots=True)
class CasingEdge:
    """A casing at one edge, in mm."""

    width: float
    """From the fold to the stitches."""
    turn: float
    """Turned under at the raw edge."""

    @property
    def allowance(self) -> float:
        """What the edge is cut wider."""
        return self.width + self.turn


def casing_edges(asker: PartAsker) -> dict[str, CasingEdge]:
    """The edges of a part that are folded over; problems are noted by the asker."""
    found: dict[str, CasingEdge] = {}
    for name, casing in asker.file.guide.casings.items():
        edges = [ref.partition(".")[2] for ref in casing.along if _part(ref) == asker.part_id]
        if not edges:
            continue
        width, turn = casing_width(asker, name, casing), _number(asker, name, "turn", casing.turn)
        if width is None or turn is None or not 0 < width <= WIDEST or not 0 <= turn <= WIDEST:
            continue  # told where its goods are counted
        found.update(dict.fromkeys(edges, CasingEdge(width, turn)))
    return found


def _part(ref: str) -> str:
    return ref.partition(".")[0]


def casing_width(asker: PartAsker, name: str, casing: Casing) -> float | None:
    """mm from the fold of a casing to its stitches: as said, or what goes through and room."""
    if casing.width is not None:
        return _number(asker, name, "width", casing.width)
    room = _number(asker, name, "room", casing.room)
    material = asker.stock.materials.get(casing.goods) if asker.stock is not None else None
    across = material.width or material.thickness if material is not None else None
    if room is None or across is None:
        return None
    return across.value({}) + room


def _number(asker: PartAsker, name: str, key: str, quantity: Expression) -> float | None:
    # What has no value is told once, where the goods are counted, and not for each part.
    value, _ = collect(evaluate(asker.file, ("casings", name, key), quantity, asker.names))
    return value


def draw_casings(shape: Shape, finished: Shape, casings: dict[str, CasingEdge]) -> Shape:
    """A cut template with the lines of its casings: where it is turned under, and sewn."""
    runs = {edge.name: edge.run for edge in finished.edges}
    lines = [
        InnerLine(kind, moved)
        for name, casing in casings.items()
        if name in runs
        for kind, by in ((LineKind.HEM, casing.width), (LineKind.STITCH, -casing.width))
        for moved in _moved(runs[name], by)
    ]
    return replace(shape, lines=(*shape.lines, *lines))


def _moved(run: Run, by: float) -> list[Run]:
    try:
        return [offset_run(run, by)]
    except OffsetError:
        return []  # an edge that bends too tightly for it: its fold line is there all the same


GATHER_ROW = 3.0
"""mm from the finished edge to either of both rows of gathering stitches. Common practice, no
source."""


def gathered_edges(asker: PartAsker) -> tuple[str, ...]:
    """Edges of a part that are gathered to fit another one."""
    refs = [seam.join[0] for seam in asker.file.guide.seams.values() if seam.gathers is not None]
    return tuple(ref.partition(".")[2] for ref in refs if _part(ref) == asker.part_id)


def draw_gathers(shape: Shape, finished: Shape, edges: tuple[str, ...]) -> Shape:
    """A cut template with both rows of gathering stitches beside each gathered edge."""
    runs = {edge.name: edge.run for edge in finished.edges}
    lines = [
        InnerLine(LineKind.GATHER, moved)
        for name in edges
        if name in runs
        for by in (GATHER_ROW, -GATHER_ROW)
        for moved in _moved(runs[name], by)
    ]
    return replace(shape, lines=(*shape.lines, *lines))
