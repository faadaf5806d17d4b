"""A shape and a straight line → the two shapes on its sides, each closed along the line.

The new edge of both is called as the caller says; an edge that the line passes keeps its name on
both sides. What is drawn on the shape stays on its side, cut where the line passes it.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import groupby

from guidegen.geometry.grading.spread_cut import CutLine, CutSegment, runs_of, split_at
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import segment_end, segment_point, segment_start
from guidegen.geometry.outline.records import (
    BevelledEdge,
    Edge,
    InnerLine,
    Line,
    LineKind,
    Run,
    Shape,
)

CLOSED = 0.02
"""mm; a run whose ends are nearer goes round. Our choice: the flattening tolerance."""


class SplitError(ValueError):
    """A shape cannot be split at a line; the message ends a sentence about the line."""


def split_shape(shape: Shape, line: CutLine, name: str) -> tuple[Shape, Shape] | None:
    """What lies left and right of the line; None where the line misses the shape.

    `name` is that of the new edge. Raises SplitError where the line passes the outline more than
    twice, or a hole.
    """
    # Every segment is cut where it passes the line, so that each bit lies on one side of it.
    bits = split_at(runs_of([edge.run for edge in shape.edges]), [line])
    turns = _turns(bits, line)
    if not turns:
        return None
    if len(turns) > 2:
        raise SplitError(
            f"passes the outline {len(turns)} times; expected a line that passes twice"
        )
    return (
        _side(shape, line, _between(bits, turns, left=True, line=line), (name, True)),
        _side(shape, line, _between(bits, turns, left=False, line=line), (name, False)),
    )


def _left(bit: CutSegment, line: CutLine) -> bool:
    # Its middle decides: the ends of a bit may lie on the line itself.
    return line.aside(segment_point(bit.segment, 0.5)) > 0


def _turns(bits: Sequence[CutSegment], line: CutLine) -> list[int]:
    """Numbers of the bits of a ring that begin on the other side of the line."""
    return [n for n in range(len(bits)) if _left(bits[n - 1], line) != _left(bits[n], line)]


def _between(
    bits: Sequence[CutSegment], turns: list[int], *, left: bool, line: CutLine
) -> list[CutSegment]:
    """The bits of a ring on one side, from where they begin."""
    start = next(turn for turn in turns if _left(bits[turn], line) is left)
    # There are exactly two turns here, so what is not the start is the end.
    end = next(turn for turn in turns if turn != start)
    count = (end - start) % len(bits)
    return [bits[(start + step) % len(bits)] for step in range(count)]


def _side(shape: Shape, line: CutLine, ring: list[CutSegment], closing: tuple[str, bool]) -> Shape:
    name, left = closing
    edges: list[Edge] = []
    for number, group in groupby(ring, key=lambda bit: bit.stretch):
        known = shape.edges[number].name
        if known in {edge.name for edge in edges}:
            # Names are unique in a shape: seams and allowances find edges by them.
            known = f"{known}-b"  # the line cuts the middle out of this edge
        edges.append(Edge(known, tuple(bit.segment for bit in group)))
    end, start = segment_end(ring[-1].segment), segment_start(ring[0].segment)
    # Closed along the line, from the last point back to the first: counter-clockwise on both
    # sides, since each side keeps the direction of the outline.
    edges.append(Edge(name, (Line(end, start),)))
    return Shape(
        edges=tuple(edges),
        holes=tuple(hole for hole in shape.holes if _hole_side(hole, line) is left),
        lines=tuple(
            replace(drawn, run=run)
            for drawn in shape.lines
            for run in side_runs(drawn.run, line, left=left, close=_is_area(drawn))
        ),
        marks=tuple(mark for mark in shape.marks if (line.aside(mark.point) > 0) is left),
        bevels=tuple(_side_bevels(shape.bevels, line, {edge.name for edge in edges}, left=left)),
    )


def _is_area(line: InnerLine) -> bool:
    return line.kind is LineKind.TEXTURE


def _hole_side(hole: Run, line: CutLine) -> bool:
    sides = {_left(bit, line) for bit in split_at(runs_of([hole]), [line])}
    if len(sides) > 1:
        raise SplitError("passes through a hole; move it aside")
    return sides.pop()


def _side_bevels(
    bevels: Iterable[BevelledEdge], line: CutLine, names: set[str], *, left: bool
) -> Iterable[BevelledEdge]:
    for bevel in bevels:
        runs = side_runs(bevel.far_face, line, left=left) if bevel.edge in names else ()
        if runs:
            yield replace(bevel, far_face=runs[0])


def side_runs(run: Run, line: CutLine, *, left: bool, close: bool = False) -> tuple[Run, ...]:
    """The stretches of a run on one side of a line.

    A run that goes round is begun where it passes the line; `close` closes what is left of it.
    """
    bits = split_at(runs_of([run]), [line])
    ring = distance(segment_start(run[0]), segment_end(run[-1])) <= CLOSED
    turns = _turns(bits, line)
    if ring and turns:
        # A ring has no first point of its own; begun elsewhere, one stretch would come in two.
        bits = [*bits[turns[0] :], *bits[: turns[0]]]
    runs = []
    for side, group in groupby(bits, key=lambda bit: _left(bit, line)):
        if side is left:
            segments = tuple(bit.segment for bit in group)
            if close and ring and turns:
                segments += (Line(segment_end(segments[-1]), segment_start(segments[0])),)
            runs.append(segments)
    return tuple(runs)
