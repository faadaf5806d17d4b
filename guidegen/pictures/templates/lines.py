"""A template at its place → its lines on a page, each in its line type."""

from collections.abc import Iterator

from guidegen.geometry.outline.records import Line, LineKind, MatchMark, Run, Shape
from guidegen.geometry.pieces.records import Piece
from guidegen.layout.records import Drawn
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.hatches import hatch_lines
from guidegen.pictures.pen.linestyles import CREASE, CUT, FAR_FACE, HATCH, INNER, MARK, NEAR_FACE

TICK = 6.0
"""mm; length of a match mark. Common practice, no source: long enough to copy onto foam."""

TICK_GAP = 2.0
"""mm between the ticks of one mark."""


def frame_of(drawn: Drawn, dx: float, dy: float) -> Frame:
    """Where a template lies on a page whose window has its sheet's origin at (dx, dy)."""
    return Frame(1.0, drawn.x + dx, drawn.y + dy, drawn.angle, drawn.flipped)


def cut_runs(piece: Piece) -> list[Run]:
    """What is cut: the outline without the edge on the fold, unbroken where it can be."""
    shape = piece.template
    if not piece.fold:
        return [shape.ring(), *shape.holes]
    names = [edge.name for edge in shape.edges]
    at = names.index(piece.fold)
    # Begun after the fold and ended before it: one stroke, so that its dashes run on round
    # corners.
    around = shape.edges[at + 1 :] + shape.edges[:at]
    return [tuple(segment for edge in around for segment in edge.run), *shape.holes]


def draw_template(canvas: Canvas, piece: Piece, frame: Frame, cut: Stroke = CUT.stroke) -> None:
    """All lines of a template, without any words; `cut` is the stroke of its cut lines."""
    shape = piece.template
    # Under all lines: its hatch must hide no mark that is to be copied.
    _draw_texture(canvas, shape, frame)
    for kind in LineKind:
        runs = [frame.run(line.run) for line in shape.lines if line.kind is kind]
        canvas.path(runs, INNER[kind].stroke, css=f"line-{kind}")
    for bevel in shape.bevels:
        style = FAR_FACE if bevel.direction == "inward" else NEAR_FACE
        canvas.path([frame.run(bevel.far_face)], style.stroke, css="line-bevel")
    canvas.path(
        [frame.run(run) for mark in shape.marks for run in tick_runs(mark)],
        MARK.stroke,
        css="line-mark",
    )
    if piece.fold:
        canvas.path([frame.run(shape.edge(piece.fold).run)], CREASE.stroke, css="line-centre")
        canvas.path([frame.run(run) for run in cut_runs(piece)], cut, css="line-cut")
    else:
        # Cut lines last, over all others: nothing may hide where the knife goes.
        canvas.path([frame.run(run) for run in cut_runs(piece)], cut, css="line-cut", closed=True)


def _draw_texture(canvas: Canvas, shape: Shape, frame: Frame) -> None:
    rims = tuple(frame.run(line.run) for line in shape.lines if line.kind is LineKind.TEXTURE)
    if rims:
        canvas.path(hatch_lines(rims, 45, 3.0), HATCH, css="hatch")


def tick_runs(mark: MatchMark) -> Iterator[Run]:
    """The strokes of a match mark, side by side along the edge."""
    (x, y), (dx, dy) = mark.point, mark.inward
    for number in range(mark.ticks):
        # Ticks stand about the point of the mark: their middle is what meets the other edge's.
        shift = (number - (mark.ticks - 1) / 2) * TICK_GAP
        foot = (x - dy * shift, y + dx * shift)
        yield (Line(foot, (foot[0] + dx * TICK, foot[1] + dy * TICK)),)


def all_runs(piece: Piece) -> list[Run]:
    """Every line of a template, for measuring what is free of lines."""
    shape = piece.template
    runs = [shape.ring(), *shape.holes, *(line.run for line in shape.lines)]
    runs += [bevel.far_face for bevel in shape.bevels]
    runs += [run for mark in shape.marks for run in tick_runs(mark)]
    return [run for run in runs if run]
