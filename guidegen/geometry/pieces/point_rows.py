"""All parts of a size in → what lies on each of them, every row of points, its holes and lines."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from guidegen.buildfile.records.fastening import PointKind
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import heading, segment_end, segment_start
from guidegen.geometry.outline.records import Arc, InnerLine, Line, LineKind, Run, Shape
from guidegen.geometry.outline.transforms import RigidMotion, mirror_across, transform_run
from guidegen.geometry.outline.unfold import fold_line
from guidegen.geometry.parts.finished import Finished
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.parts.things import POLES, ThingShape, thing_shapes
from guidegen.geometry.pieces.placing import LaidPart, lay
from guidegen.geometry.pieces.points import place_row, through_rows
from guidegen.geometry.pieces.records import PointRow, RowPoint


@dataclass(frozen=True, slots=True)
class OnPart:
    """What is on one part."""

    laid: Mapping[int, LaidPart]
    """By number of the placement."""
    rows: tuple[PointRow, ...] = ()
    """Its own rows, and those that come through from below."""
    things: Mapping[str, ThingShape] = field(default_factory=dict)
    """What sits on the points of its own rows, by row."""


def place_on_parts(
    askers: Mapping[str, PartAsker], finished: Mapping[str, Finished], stock: Stock
) -> dict[str, OnPart]:
    """What is on each part that has an outline."""
    things = {part: thing_shapes(askers[part], stock) for part in finished}
    laid = {part: _laid(askers[part], finished, one) for part, one in finished.items()}
    rows: dict[str, list[PointRow]] = {part: [] for part in finished}
    for part, one in finished.items():
        # A row on the drawn half can come under a part that lies across the fold.
        around = [*laid[part].values(), *_mirrored(one, laid[part])]
        for name in askers[part].part.points:
            row = place_row(askers[part], name, one, around)
            if row is None:
                continue
            rows[part].append(row)
            for through in through_rows(row, around, finished):
                rows[through.part].append(through)
    return {part: OnPart(laid[part], tuple(rows[part]), things[part]) for part in finished}


def _laid(asker: PartAsker, finished: Mapping[str, Finished], own: Finished) -> dict[int, LaidPart]:
    found = {}
    for number in range(len(asker.part.placements)):
        one = lay(asker, number, own, finished)
        if one is not None:
            found[number] = one
    return found


def _mirrored(finished: Finished, laid: Mapping[int, LaidPart]) -> list[LaidPart]:
    """What lies on the other half of a folded part, as seen from this one."""
    if finished.half is None:
        return []
    mirror = mirror_across(*fold_line(finished.half, finished.fold))
    return [
        replace(
            one,
            ring=transform_run(one.ring, mirror),
            holes=tuple(transform_run(hole, mirror) for hole in one.holes),
            motion=None,
        )
        for one in laid.values()
    ]


def row_rings(row: PointRow) -> tuple[Run, ...]:
    """What is cut for a row: rings that run clockwise, as holes do."""
    if not row.is_hole:
        return ()
    return tuple(_ring(spot, row.diameter, row.length) for spot in row.spots)


def row_lines(row: PointRow, others: Mapping[str, Finished], label: str) -> list[InnerLine]:
    """What is drawn for studs: the part that lies on each point, or a circle."""
    if row.is_hole:
        return []
    other = others.get(row.laid)
    lines = []
    for number, spot in enumerate(row.spots):
        if row.kind is PointKind.PATCH:
            ring = _patch(spot, row.diameter, row.length)
        elif other is None:
            ring = _ring(spot, row.diameter, 0.0)
        else:
            ring = transform_run(other.whole.ring(), RigidMotion(*spot.at))
        # One label for the row: eight alike would hide the line.
        lines.append(InnerLine(LineKind.PLACEMENT, ring, "" if number else label))
    return lines


def thing_lines(row: PointRow, thing: ThingShape) -> list[InnerLine]:
    """What is drawn for things: the outline of each, with its pole; the first with its name."""
    pole = POLES.get(row.pole, "")
    names = [", ".join(filter(None, (thing.name, pole)))] + [pole] * (len(row.spots) - 1)
    return [
        InnerLine(LineKind.PLACEMENT, thing.at(spot.at, spot.along), name)
        for spot, name in zip(row.spots, names, strict=True)
    ]


def _patch(spot: RowPoint, width: float, length: float) -> Run:
    """Where a strap lies: `width` mm along the row, `length` mm across it."""
    (x, y), (dx, dy) = spot.at, spot.along
    sides = ((-1, -1), (1, -1), (1, 1), (-1, 1), (-1, -1))
    return lines_through(
        *(
            (
                x + dx * a * width / 2 - dy * b * length / 2,
                y + dy * a * width / 2 + dx * b * length / 2,
            )
            for a, b in sides
        )
    )


def _ring(spot: RowPoint, width: float, length: float) -> Run:
    (x, y), radius = spot.at, width / 2
    if length <= width:
        # Holes run clockwise: the foam lies on the left of every cut.
        return (Arc((x, y), radius, 0.0, -360.0),)
    reach = (length - width) / 2
    dx, dy = spot.along
    left, right = (x - dx * reach, y - dy * reach), (x + dx * reach, y + dy * reach)
    turn = heading((dx, dy))
    # Clockwise round the slot: over its far end, back along it, over the near end.
    first = Arc(right, radius, turn + 90, -180.0)
    last = Arc(left, radius, turn - 90, -180.0)
    return (
        first,
        Line(segment_end(first), segment_start(last)),
        last,
        Line(segment_end(last), segment_start(first)),
    )


def holed(shape: Shape, rings: tuple[Run, ...], lines: Sequence[InnerLine]) -> Shape:
    """A template with its rows cut and drawn."""
    return replace(shape, holes=(*shape.holes, *rings), lines=(*shape.lines, *lines))
