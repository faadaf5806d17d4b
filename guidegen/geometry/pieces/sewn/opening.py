"""A shape and a straight line → the shape cut there and its right side moved away.

Both cut edges are joined by straight stretches, so that every edge keeps its name and grows by what
it was opened. What is drawn on the shape goes with its side.
"""

from dataclasses import dataclass, replace
from itertools import groupby

from guidegen.geometry.grading.spread_cut import CutLine, runs_of, split_at
from guidegen.geometry.outline.measures import segment_end, segment_point, segment_start
from guidegen.geometry.outline.records import Edge, Line, Run, Segment, Shape
from guidegen.geometry.outline.transforms import RigidMotion, transform_run, transform_segment


class OpeningError(ValueError):
    """A shape cannot be opened at a line; the message ends a sentence about the line."""


@dataclass(frozen=True, slots=True)
class PleatOpening:
    """A cut and how far its right side moves."""

    line: CutLine
    width: float
    """mm to the right of the line."""

    @property
    def motion(self) -> RigidMotion:
        """What the right side does."""
        x, y = self.line.normal
        return RigidMotion(-x * self.width, -y * self.width)

    def moves(self, run: Run) -> bool:
        """Whether a run lies on the right. Raises OpeningError where it lies on both sides."""
        sides = {self.is_right(bit.segment) for bit in split_at(runs_of([run]), [self.line])}
        if len(sides) > 1:
            raise OpeningError("passes through a hole; move it aside")
        return sides.pop()

    def is_right(self, segment: Segment) -> bool:
        """Whether a bit lies on the right."""
        # Its middle decides: the ends of a bit may lie on the line itself.
        return self.line.aside(segment_point(segment, 0.5)) < 0

    def parts(self, run: Run) -> list[Run]:
        """The stretches of an open run, those on the right moved."""
        bits = split_at(runs_of([run]), [self.line])
        return [
            transform_run(stretch, self.motion) if right else stretch
            for right, group in groupby(bits, key=lambda bit: self.is_right(bit.segment))
            for stretch in [tuple(bit.segment for bit in group)]
        ]


def open_shape(shape: Shape, opening: PleatOpening) -> Shape:
    """The shape with its right side moved. Raises OpeningError where the line does not pass twice,
    or passes a hole."""
    return replace(
        shape,
        edges=_edges(shape, opening),
        holes=tuple(
            transform_run(hole, opening.motion) if opening.moves(hole) else hole
            for hole in shape.holes
        ),
        lines=tuple(
            replace(line, run=run, label=line.label if number == 0 else "")
            for line in shape.lines
            for number, run in enumerate(opening.parts(line.run))
        ),
        marks=tuple(
            replace(mark, point=opening.motion.point(mark.point))
            if opening.line.aside(mark.point) < 0
            else mark
            for mark in shape.marks
        ),
        bevels=tuple(
            replace(bevel, far_face=tuple(s for run in opening.parts(bevel.far_face) for s in run))
            for bevel in shape.bevels
        ),
    )


def _edges(shape: Shape, opening: PleatOpening) -> tuple[Edge, ...]:
    bits = split_at(runs_of([edge.run for edge in shape.edges]), [opening.line])
    rights = [opening.is_right(bit.segment) for bit in bits]
    turns = sum(rights[n - 1] != rights[n] for n in range(len(bits)))
    if turns != 2:
        raise OpeningError(f"passes the outline {turns} times; expected a line that passes twice")
    moved = [
        transform_segment(bit.segment, opening.motion) if right else bit.segment
        for bit, right in zip(bits, rights, strict=True)
    ]
    runs: list[list[Segment]] = [[] for _ in shape.edges]
    for number, (bit, segment) in enumerate(zip(bits, moved, strict=True)):
        if rights[number - 1] != rights[number]:
            # Where the line passes between two edges, the bridge belongs to the later one.
            runs[bit.stretch].append(Line(segment_end(moved[number - 1]), segment_start(segment)))
        runs[bit.stretch].append(segment)
    return tuple(Edge(edge.name, tuple(run)) for edge, run in zip(shape.edges, runs, strict=True))
