"""Pieces and cut plans in → drawings for machines out: as cut, unfolded, right-hand mirrored."""

from collections.abc import Iterator, Mapping

from guidegen.geometry.outline.measures import bounds, flatten
from guidegen.geometry.outline.records import LineKind
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.layout.records import CutSheet
from guidegen.pictures.machines.records import Layer, MachineDrawing, MachineLabel, MachineLine
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.label_places import inner_spot
from guidegen.pictures.templates.lines import tick_runs

LAYER_OF: dict[LineKind, Layer] = {
    LineKind.FOLD: Layer.SCORE,
    LineKind.ENGRAVE: Layer.SCORE,
    LineKind.GROOVE: Layer.GROOVE,
    LineKind.PLACEMENT: Layer.GUIDE,
    LineKind.TEXTURE: Layer.GUIDE,
    LineKind.CENTRE: Layer.GUIDE,
    LineKind.GLUE: Layer.GUIDE,
    LineKind.SPREAD: Layer.GUIDE,
}
"""The layer of each kind of inner line."""


def draw_piece_for_machine(piece: Piece, kit: Kit) -> MachineDrawing:
    """One piece as cut."""
    left, low, right, high = bounds((piece.shape.ring(),))
    frame = Frame(1.0, -left, -low)
    return MachineDrawing(
        f"{piece.label} {piece.name}, {kit.guide} size {kit.size}",
        right - left,
        high - low,
        tuple(_lines(piece, frame)),
        (_label(piece, frame),),
    )


def draw_sheet_for_machine(
    sheet: CutSheet, pieces: Mapping[str, Piece], kit: Kit, number: int, material: str
) -> MachineDrawing:
    """One foam sheet of a cut plan; `pieces` by key, `number` counts from 1."""
    placed = [
        (pieces[one.piece], Frame(1.0, one.x, one.y, one.angle, one.flipped))
        for one in sheet.placed
    ]
    return MachineDrawing(
        f"{kit.guide} size {kit.size}: {material}, sheet {number}, {sheet.name}",
        sheet.width,
        sheet.height,
        tuple(line for piece, frame in placed for line in _lines(piece, frame)),
        tuple(_label(piece, frame) for piece, frame in placed),
    )


def _lines(piece: Piece, frame: Frame) -> Iterator[MachineLine]:
    shape = piece.shape
    for ring in (shape.ring(), *shape.holes):
        yield MachineLine(Layer.CUT, frame.run(ring), closed=True)
    for line in shape.lines:
        if line.run:
            yield MachineLine(LAYER_OF[line.kind], frame.run(line.run), closed=False)
    for bevel in shape.bevels:
        yield MachineLine(Layer.BEVEL, frame.run(bevel.far_face), closed=False)
    for mark in shape.marks:
        for run in tick_runs(mark):
            yield MachineLine(Layer.MARK, frame.run(run), closed=False)


def _label(piece: Piece, frame: Frame) -> MachineLabel:
    """The code at the point of the piece that is farthest from its rim."""
    shape = piece.shape
    rings = [flatten(frame.run(run), 0.3) for run in (shape.ring(), *shape.holes)]
    (x, y), room = inner_spot(rings)
    size = max(3.0, min(10.0, room * 0.6))
    return MachineLabel(piece.label, x, y - size * 0.35, size)
