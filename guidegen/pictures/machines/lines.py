"""Pieces and cut plans in → drawings for machines out: as cut, unfolded, right-hand mirrored."""

from collections.abc import Iterator, Mapping, Sequence

from guidegen.geometry.outline.areas import widest_spot
from guidegen.geometry.outline.measures import bounds, flatten
from guidegen.geometry.outline.records import LineKind, Run
from guidegen.geometry.pieces.records import Kit, Piece
from guidegen.layout.records import CutSheet
from guidegen.pictures.machines.records import COLOURS, HAIR, LASER_NOTE, MachineLayer
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.templates.lines import tick_runs
from guidegen.words import Words

LAYER_OF: dict[LineKind, MachineLayer] = {
    LineKind.FOLD: MachineLayer.SCORE,
    LineKind.ENGRAVE: MachineLayer.SCORE,
    LineKind.GROOVE: MachineLayer.GROOVE,
    LineKind.RIM: MachineLayer.RIM,
    LineKind.PLACEMENT: MachineLayer.GUIDE,
    LineKind.TEXTURE: MachineLayer.GUIDE,
    LineKind.CENTRE: MachineLayer.GUIDE,
    LineKind.GLUE: MachineLayer.GUIDE,
    LineKind.STITCH: MachineLayer.GUIDE,
    LineKind.HEM: MachineLayer.GUIDE,
    LineKind.PLEAT: MachineLayer.GUIDE,
    LineKind.LANDING: MachineLayer.GUIDE,
    LineKind.GATHER: MachineLayer.GUIDE,
    LineKind.LETTER: MachineLayer.GUIDE,
    LineKind.GRAIN: MachineLayer.GUIDE,
    LineKind.SPREAD: MachineLayer.GUIDE,
}
"""The layer of each kind of inner line."""

LEAST_ROOM = 5.0
"""mm; radius of the circle that a code of 3 mm wants. Our choice."""


def draw_piece_for_machine(piece: Piece, kit: Kit, lang: Words) -> Drawing:
    """One piece as cut, in true size, a group for each layer."""
    left, low, right, high = bounds((piece.shape.ring(),))
    # True size, its lower left in the origin: where machines begin.
    frame = Frame(1.0, -left, -low)
    title = f"{piece.label} {piece.name}, {kit.guide} size {kit.size}"
    return _draw(title, (right - left, high - low), [(piece, frame)], lang)


def draw_sheet_for_machine(  # noqa: PLR0917 - a sheet and its words
    sheet: CutSheet,
    pieces: Mapping[str, Piece],
    kit: Kit,
    number: int,
    material: str,
    lang: Words,
) -> Drawing:
    """One foam sheet of a cut plan; `pieces` by key, `number` counts from 1."""
    placed = [
        (pieces[one.piece], Frame(1.0, one.x, one.y, one.angle, one.flipped))
        for one in sheet.placed
    ]
    title = f"{kit.guide} size {kit.size}: {material}, sheet {number}, {sheet.name}"
    return _draw(title, (sheet.width, sheet.height), placed, lang)


def _draw(
    title: str,
    size: tuple[float, float],
    placed: Sequence[tuple[Piece, Frame]],
    lang: Words,
) -> Drawing:
    """Pieces on a drawing of `size` mm; its description is the laser note."""
    canvas = Canvas(*size, f"{title}, in mm", LASER_NOTE, lang)
    lines = [line for piece, frame in placed for line in _lines(piece, frame)]
    # In the order of the layers, not of the pieces: programs work through layers, and a machine
    # changes its tool once for each.
    for layer in MachineLayer:
        own = [(run, closed) for on, run, closed in lines if on is layer]
        if own:
            with canvas.group(id=layer, css=f"layer-{layer}", layer=layer):
                for run, closed in own:
                    canvas.path([run], Stroke(HAIR, colour=COLOURS[layer]), closed=closed)
    with canvas.group(
        id=MachineLayer.LABEL, css=f"layer-{MachineLayer.LABEL}", layer=MachineLayer.LABEL
    ):
        for piece, frame in placed:
            _write_label(canvas, piece, frame)
    return canvas.drawing()


def _lines(piece: Piece, frame: Frame) -> Iterator[tuple[MachineLayer, Run, bool]]:
    """Layer and run of each line, and whether it is closed."""
    shape = piece.shape
    for ring in (shape.ring(), *shape.holes):
        yield MachineLayer.CUT, frame.run(ring), True
    for line in shape.lines:
        if line.run:
            # Drawn open also where it goes round: closed are only the lines that part foam from
            # foam.
            yield LAYER_OF[line.kind], frame.run(line.run), False
    for bevel in shape.bevels:
        yield MachineLayer.BEVEL, frame.run(bevel.far_face), False
    for mark in shape.marks:
        for run in tick_runs(mark):
            yield MachineLayer.MARK, frame.run(run), False


def _write_label(canvas: Canvas, piece: Piece, frame: Frame) -> None:
    """The code at the point of the piece that is farthest from its rim."""
    shape = piece.shape
    rings = [flatten(frame.run(run), 0.3) for run in (shape.ring(), *shape.holes)]
    drawn = [line.run for line in shape.lines if line.run]
    drawn += [bevel.far_face for bevel in shape.bevels]
    lines = [flatten(frame.run(run), 0.3) for run in drawn]
    (x, y), room = widest_spot(rings, 0.5, lines)
    if room < LEAST_ROOM:  # a code across a line is better than one that nobody can read
        (x, y), room = widest_spot(rings, 0.5)
    # A share of the largest circle: letters of some mm burn well and still fit.
    size = max(3.0, min(10.0, room * 0.6))
    colour = COLOURS[MachineLayer.LABEL]
    canvas.text((x, y - size * 0.35), piece.label, size, anchor="middle", colour=colour)
