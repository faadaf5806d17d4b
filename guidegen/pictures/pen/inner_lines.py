"""What is drawn on the face of a piece: inner lines, bevels, match marks, in small drawings."""

from math import hypot

from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Line, LineKind, MatchMark, Point, Run, Shape
from guidegen.pictures.pen.canvas import Canvas
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.linestyles import FAR_FACE, MARK, NEAR_FACE, inner_style

TICK = 3.0
"""mm on the drawing; length of a match mark."""


FOAM_LINES = frozenset(LineKind) - {LineKind.SPREAD, LineKind.RIM}
"""Kinds that small drawings show of cut foam: spread lines matter only on the template, and rims of
a groove would run together with its middle."""


def draw_inner_lines(
    canvas: Canvas, shape: Shape, frame: Frame, kinds: frozenset[LineKind] = FOAM_LINES
) -> None:
    """Inner lines of some kinds, and where bevels end on the far face."""
    for kind in LineKind:
        if kind not in kinds:
            continue
        runs = [frame.run(line.run) for line in shape.lines if line.kind is kind]
        if runs:
            canvas.path(runs, inner_style(kind).stroke, css=f"thin line-{kind}")
    # Which face is the smaller one is what the line type says (ISO 128-2): it is hidden behind or
    # lies in front.
    for direction, style in (("inward", FAR_FACE), ("outward", NEAR_FACE)):
        bevels = [frame.run(b.far_face) for b in shape.bevels if b.direction == direction]
        canvas.path(bevels, style.stroke, css="thin line-bevel")


def draw_marks(canvas: Canvas, shape: Shape, frame: Frame) -> None:
    """Match marks: one to three ticks across the edge, into the piece."""
    runs = [run for mark in shape.marks for run in _ticks(mark, frame)]
    canvas.path(runs, MARK.stroke, css="ink line-mark")


def busy_lines(shape: Shape, frame: Frame) -> list[list[Point]]:
    """Lines that a label should not stand on: marks, bevels, placements, rims of textures."""
    kinds = {
        LineKind.PLACEMENT,
        LineKind.TEXTURE,
        LineKind.FOLD,
        LineKind.GLUE,
        LineKind.STITCH,
        LineKind.HEM,
        LineKind.PLEAT,
        LineKind.LANDING,
        LineKind.GATHER,
        LineKind.LETTER,
        LineKind.GRAIN,
    }
    runs = [line.run for line in shape.lines if line.kind in kinds]
    runs += [bevel.far_face for bevel in shape.bevels]
    lines = [flatten(frame.run(run), 0.2) for run in runs if run]
    lines += [flatten(run, 0.2) for mark in shape.marks for run in _ticks(mark, frame)]
    return lines


def _ticks(mark: MatchMark, frame: Frame) -> list[Run]:
    x, y = frame.point(mark.point)
    dx, dy = frame.vector(mark.inward)
    # Unit length on the drawing: a tick is as long on a small drawing as on a large one.
    reach = hypot(dx, dy) or 1.0
    dx, dy = dx / reach, dy / reach
    runs: list[Run] = []
    for number in range(mark.ticks):
        # Ticks lie about the mark's own place, which is what has to meet.
        shift = (number - (mark.ticks - 1) / 2) * 1.2
        foot = (x - dy * shift, y + dx * shift)
        runs.append((Line(foot, (foot[0] + dx * TICK, foot[1] + dy * TICK)),))
    return runs
