"""A piece and how far each corner moves in → the piece with its outline following smoothly.

Along each stretch the displacement is blended by arc length: linearly, so that straight edges stay
straight; where the outline runs smoothly through a corner, the blends of both sides meet with one
slope, so that it stays smooth. Curves keep their kind: end points move by the displacement at their
place, control points by the displacement at the arc length that their handle reaches, which keeps
neighbouring curves tangent. Inner lines follow by mean value coordinates; holes keep their size.
"""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from guidegen.geometry.drawing.corners import KINK
from guidegen.geometry.drawing.curves import map_segment
from guidegen.geometry.drawing.records import DrawnPiece
from guidegen.geometry.grading.blend import Blend, added, move_run
from guidegen.geometry.grading.inside import Inside
from guidegen.geometry.outline.curves import straight_ends, turn_between
from guidegen.geometry.outline.measures import (
    bounds,
    flatten_segment,
    run_length,
    segment_length,
    tangent,
)
from guidegen.geometry.outline.records import Line, Point, Run
from guidegen.geometry.outline.transforms import RigidMotion, transform_run

BOUNDARY_STEP = 2.0
"""mm; how finely the outline's displacement is sampled for what lies inside. Our choice."""


def move_corners(piece: DrawnPiece, moves: Mapping[str, Point]) -> DrawnPiece:
    """The piece with corners moved by (dx, dy) mm; corners that are not named stay."""
    shifts = [moves.get(corner, (0.0, 0.0)) for corner in piece.corners]
    if not any(dx or dy for dx, dy in shifts):
        return piece
    blends = _blends(piece.stretches, shifts)
    moved = [move_run(run, blend) for run, blend in zip(piece.stretches, blends, strict=True)]
    # From the outline before it moved: inner lines are asked where they were drawn.
    inside = Inside(_boundary(piece.stretches, blends))

    def at(point: Point) -> Point:
        dx, dy = inside.displacement(point)
        return (point[0] + dx, point[1] + dy)

    def carried(run: Run) -> Run:
        return tuple(new for segment in run for new in map_segment(segment, at))

    return replace(
        piece,
        stretches=tuple(moved),
        holes=tuple(_move_hole(hole, inside) for hole in piece.holes),
        lines=tuple(replace(line, run=carried(line.run)) for line in piece.lines),
        spreads=tuple(replace(s, start=at(s.start), end=at(s.end)) for s in piece.spreads),
    )


def _blends(stretches: Sequence[Run], shifts: Sequence[Point]) -> list[Blend]:
    count = len(stretches)
    lengths = [run_length(run) for run in stretches]
    plain: list[Point] = []
    for index in range(count):
        (x0, y0), (x1, y1) = shifts[index], shifts[(index + 1) % count]
        plain.append(((x1 - x0) / lengths[index], (y1 - y0) / lengths[index]))
    straight = [straight_ends(run) is not None for run in stretches]
    starts, ends = list(plain), list(plain)
    for index in range(count):
        # The corner where stretch `index` begins and the one before it ends.
        before = (index - 1) % count
        turn = turn_between(tangent(stretches[before][-1], 1.0), tangent(stretches[index][0], 0.0))
        if abs(turn) > KINK or (straight[before] and straight[index]):
            continue
        # A straight edge sets the slope, since it must stay straight; between two curves each
        # gives way by half.
        if straight[before] or straight[index]:
            slope = plain[before] if straight[before] else plain[index]
        else:
            (x0, y0), (x1, y1) = plain[before], plain[index]
            slope = ((x0 + x1) / 2, (y0 + y1) / 2)
        ends[before] = starts[index] = slope
    return [
        Blend(lengths[i], shifts[i], shifts[(i + 1) % count], starts[i], ends[i])
        for i in range(count)
    ]


def _boundary(stretches: Sequence[Run], blends: Sequence[Blend]) -> list[tuple[Point, Point]]:
    """Points of the outline with their displacements, each once."""
    found: list[tuple[Point, Point]] = []
    for run, blend in zip(stretches, blends, strict=True):
        s = 0.0
        for segment in run:
            length = segment_length(segment)
            points = flatten_segment(segment, 0.1)
            # A straight segment has two points when it is flattened, between which its
            # displacement bends.
            if isinstance(segment, Line) and not blend.linear:
                count = max(1, min(50, round(length / BOUNDARY_STEP)))
                points = [added(segment.start, _part(segment, n / count)) for n in range(count + 1)]
            for number, point in enumerate(points[:-1]):
                found.append((point, blend.at(s + length * number / (len(points) - 1))))
            s += length
    return found


def _part(line: Line, share: float) -> Point:
    return ((line.end[0] - line.start[0]) * share, (line.end[1] - line.start[1]) * share)


def _move_hole(hole: Run, inside: Inside) -> Run:
    """A hole moves as a whole, by the displacement of its middle."""
    left, low, right, high = bounds((hole,))
    dx, dy = inside.displacement(((left + right) / 2, (low + high) / 2))
    return transform_run(hole, RigidMotion(dx, dy))
