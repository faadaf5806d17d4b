"""What is drawn on the face of a piece: inner lines, bevels, match marks, in small drawings."""

from math import hypot

from guidegen.geometry.measures import flatten
from guidegen.geometry.records import Line, LineKind, MatchMark, Point, Run, Shape
from guidegen.pictures.canvas import Canvas, Stroke
from guidegen.pictures.frames import Frame
from guidegen.pictures.tints import CHAIN, HIDDEN, NARROW, SOFT

STROKES: dict[LineKind, Stroke] = {
    # Line types after ISO 128-2: 01.1 bending lines, 02.1 hidden, 04.1 centre, 05.1 outline
    # of adjoining parts.
    LineKind.FOLD: NARROW,
    LineKind.GROOVE: Stroke(0.35, dash=(1.6, 0.8)),
    LineKind.PLACEMENT: Stroke(0.25, dash=(6.0, 0.75, 0.125, 0.75, 0.125, 0.75)),
    LineKind.TEXTURE: Stroke(0.25, dash=(0.25, 0.9), colour=SOFT),
    LineKind.CENTRE: CHAIN,
    LineKind.ENGRAVE: NARROW,
    LineKind.GLUE: HIDDEN,
    LineKind.SPREAD: Stroke(0.25, dash=(3.0, 0.75, 0.125, 0.75), colour=SOFT),
}
TICK = 3.0
"""mm on the drawing; length of a match mark."""


def draw_inner_lines(canvas: Canvas, shape: Shape, frame: Frame) -> None:
    """Inner lines by kind, and where bevels end on the far face."""
    for kind in LineKind:
        runs = [frame.run(line.run) for line in shape.lines if line.kind is kind]
        if runs:
            canvas.path(runs, STROKES[kind], css=f"thin line-{kind}")
    bevels = [frame.run(bevel.far_face) for bevel in shape.bevels]
    if bevels:
        canvas.path(bevels, HIDDEN, css="thin line-bevel")


def draw_marks(canvas: Canvas, shape: Shape, frame: Frame) -> None:
    """Match marks: one to three ticks across the edge, into the piece."""
    runs = [run for mark in shape.marks for run in _ticks(mark, frame)]
    canvas.path(runs, Stroke(0.4), css="ink line-mark")


def busy_lines(shape: Shape, frame: Frame) -> list[list[Point]]:
    """Lines that a label should not stand on: marks, bevels, placements, rims of textures."""
    kinds = {LineKind.PLACEMENT, LineKind.TEXTURE, LineKind.FOLD, LineKind.GLUE}
    runs = [line.run for line in shape.lines if line.kind in kinds]
    runs += [bevel.far_face for bevel in shape.bevels]
    lines = [flatten(frame.run(run), 0.2) for run in runs if run]
    lines += [flatten(run, 0.2) for mark in shape.marks for run in _ticks(mark, frame)]
    return lines


def _ticks(mark: MatchMark, frame: Frame) -> list[Run]:
    x, y = frame.point(mark.point)
    dx, dy = frame.vector(mark.inward)
    reach = hypot(dx, dy) or 1.0
    dx, dy = dx / reach, dy / reach
    runs: list[Run] = []
    for number in range(mark.ticks):
        shift = (number - (mark.ticks - 1) / 2) * 1.2
        foot = (x - dy * shift, y + dx * shift)
        runs.append((Line(foot, (foot[0] + dx * TICK, foot[1] + dy * TICK)),))
    return runs
