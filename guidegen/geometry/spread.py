"""A piece, a spread line and a width in → the piece cut along the line and opened there.

One side of the line stays, the other moves away by the width, or turns about the end of the line
that stays shut. What the line passes (outline, holes, inner lines) is joined again by a curve that
keeps the directions of both cut ends; all else moves along rigidly. A negative width closes: see
`spread_close`.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from math import asin, degrees

from guidegen.geometry.curves import cut_segment, distance, turn_between
from guidegen.geometry.drawing_corners import KINK, REACH
from guidegen.geometry.drawing_curves import chord_gap
from guidegen.geometry.drawing_records import DrawnPiece, SpreadLine
from guidegen.geometry.measures import flatten_segment, segment_end, segment_start, tangent
from guidegen.geometry.records import Point, Run
from guidegen.geometry.spread_bridge import bridge, joined, merged, rounded
from guidegen.geometry.spread_close import Band, ClosingZone
from guidegen.geometry.spread_cut import (
    Bit,
    CutLine,
    SpreadError,
    cut_line,
    label_sides,
    runs_of,
    side_area,
    split_at,
)
from guidegen.geometry.transforms import Motion, transform_segment
from guidegen.units import mm_text

NOTHING = 1e-9
"""mm; a width below this leaves the piece as it is."""

TIE = 0.01
"""Share by which two sides may differ in area and still count as equal. Our choice."""


@dataclass(frozen=True)
class _Opening:
    """One cut, ready to be carried out."""

    line: CutLine
    bits: tuple[Bit, ...]
    """Of the outline, with their sides."""
    cuts: tuple[Point, ...]
    """Where the line passes the outline, in the line's order."""
    left_moves: bool
    motion: Motion
    """Of the side that moves."""
    hinge: Point | None = None
    zone: ClosingZone | None = None

    def reach(self) -> tuple[float, float]:
        """Between which distances along the line there is a cut."""
        return (self.line.along(self.cuts[0]) - 1e-6, self.line.along(self.cuts[-1]) + 1e-6)

    @cached_property
    def _rims(self) -> dict[bool, list[tuple[Point, Point]]]:
        """The straightened outline of each side, by whether that is the left one."""
        return {
            left: [edge for bit in self.bits if bit.left is left for edge in _edges(bit)]
            for left in (True, False)
        }

    def is_left(self, point: Point) -> bool:
        """The side of a point: that of the foam around it, or of the nearest edge outside."""
        chords = list(zip(self.cuts[::2], self.cuts[1::2], strict=False))
        for left, rim in self._rims.items():
            if _inside(point, [*rim, *chords]):
                return left
        gaps = {left: min(chord_gap(point, *e) for e in rim) for left, rim in self._rims.items()}
        return gaps[True] < gaps[False]

    def moves(self, point: Point) -> Point:
        """A free point after the opening."""
        return self.motion.point(point) if self.is_left(point) is self.left_moves else point


def left_stays(piece: DrawnPiece, spread: SpreadLine, fold: frozenset[int]) -> bool:
    """Which side of a spread line stays where it is, judged on the drawing as drawn.

    The side with the whole edge on the fold (its stretches are `fold`); otherwise the larger
    side; of equal sides the left one, or the lower one where the line is nearer to level. So a
    symmetrical piece with lines on both sides of its middle grows evenly, and the fold rests.
    Raises SpreadError.
    """
    line = cut_line(spread.start, spread.end)
    bits = _outline_bits(piece, line, distance(spread.start, spread.end), ())
    sides = {bit.left for bit in bits if bit.stretch in fold}
    if len(sides) == 1:
        return sides.pop()
    left, right = (side_area(bits, line, side) for side in (True, False))
    if abs(left - right) > TIE * (left + right):
        return left > right
    nx, ny = line.normal
    return nx < 0 if abs(nx) >= abs(ny) else ny < 0


def spread_piece(
    piece: DrawnPiece, spread: SpreadLine, opens: float, hinge: str, stays_left: bool
) -> DrawnPiece:
    """The piece opened by `opens` mm at a line; negative closes. Raises SpreadError.

    `hinge` is 'none' (the same width all along), 'start' or 'end': that end stays shut and
    `opens` is the straight distance of the cut ends at the other end.
    """
    if abs(opens) < NOTHING:
        return piece
    opening = _prepare(piece, spread, opens, hinge, stays_left)
    stretches = _carry(opening, opening.bits, len(piece.stretches), strict=True)
    return replace(
        piece,
        stretches=stretches,
        holes=tuple(_carry_run(opening, hole, closed=True) for hole in piece.holes),
        lines=tuple(
            replace(line, run=_carry_run(opening, line.run, closed=_closes(line.run)))
            for line in piece.lines
        ),
        spreads=tuple(
            other
            if other.name == spread.name
            else replace(other, start=opening.moves(other.start), end=opening.moves(other.end))
            for other in piece.spreads
        ),
    )


def _outline_bits(
    piece: DrawnPiece, line: CutLine, length: float, borders: Sequence[CutLine]
) -> tuple[Bit, ...]:
    bits = split_at(runs_of(piece.stretches), [line, *borders])
    return tuple(label_sides(bits, line, (-REACH, length + REACH), closed=True))


def _cuts(bits: Sequence[Bit], line: CutLine) -> tuple[Point, ...]:
    points = [segment_start(bit.segment) for bit in bits if bit.cut]
    return tuple(sorted(points, key=line.along))


def _prepare(
    piece: DrawnPiece, spread: SpreadLine, opens: float, hinge: str, stays_left: bool
) -> _Opening:
    line = cut_line(spread.start, spread.end)
    length = distance(spread.start, spread.end)
    bits = _outline_bits(piece, line, length, ())
    cuts = _cuts(bits, line)
    left_moves = not stays_left
    if hinge == "none":
        nx, ny = line.normal if left_moves else (-line.normal[0], -line.normal[1])
        opening = _Opening(line, bits, cuts, left_moves, Motion(nx * opens, ny * opens))
    else:
        pivot, far = (cuts[0], cuts[-1]) if hinge == "start" else (cuts[-1], cuts[0])
        if abs(opens) > distance(pivot, far):
            raise SpreadError(
                f"opens by {mm_text(opens, 1)} mm, more than the cut is long "
                f"({mm_text(distance(pivot, far), 1)} mm)"
            )
        turn = degrees(2 * asin(opens / (2 * distance(pivot, far))))
        # Seen from the hinge, the side that moves turns away from the other.
        turn = turn if left_moves is (hinge == "start") else -turn
        opening = _Opening(line, bits, cuts, left_moves, _turn_about(pivot, turn), pivot)
    if opens > 0:
        return opening
    zone = ClosingZone(line, cuts, left_moves, -opens, opening.hinge, opening.motion.angle)
    zone = zone.fitted(bits)
    bits = _outline_bits(piece, line, length, zone.borders())
    return replace(opening, bits=bits, zone=zone)


def _turn_about(pivot: Point, angle: float) -> Motion:
    x, y = Motion(angle=angle).point(pivot)
    return Motion(pivot[0] - x, pivot[1] - y, angle)


def _carry_run(opening: _Opening, run: Run, *, closed: bool) -> Run:
    """A hole or an inner line after the opening."""
    borders = opening.zone.borders() if opening.zone else ()
    bits = split_at(runs_of((run,)), [opening.line, *borders])
    bits = label_sides(
        bits, opening.line, opening.reach(), closed=closed, otherwise=opening.is_left
    )
    if not any(bit.cut for bit in bits):
        if bits[0].left is not opening.left_moves:
            return run
        return tuple(transform_segment(segment, opening.motion) for segment in run)
    return _carry(opening, bits, 1, closed=closed)[0]


def _carry(
    opening: _Opening,
    bits: Sequence[Bit],
    stretches: int,
    *,
    closed: bool = True,
    strict: bool = False,
) -> tuple[Run, ...]:
    """Bits after the opening, joined where they were cut, by stretch."""
    if closed and stretches == 1 and bits[0].cut:
        bits = _begin_elsewhere(bits)
    near: dict[int, Band] = {}
    if opening.zone is not None:
        near = opening.zone.near_cuts(bits, closed=closed, strict=strict)
    runs: list[Run] = [() for _ in range(stretches)]
    moved = [_moved(opening, bit, near.get(index)) for index, bit in enumerate(bits)]
    for index, bit in enumerate(bits):
        new, before = moved[index], bits[index - 1]
        if index and bit.cut and before.stretch == bit.stretch:
            runs[bit.stretch] = _rejoin(opening, before, bit, runs[bit.stretch], new)
        elif index and bit.cut:
            _bridge_corner(opening, bit, runs, before.stretch, new)
        else:
            runs[bit.stretch] += new
    if closed and bits[0].cut:
        first = bits[0].stretch
        whole, runs[first] = runs[first], ()
        _bridge_corner(opening, bits[0], runs, bits[-1].stretch, whole)
    return tuple(merged(run) for run in runs)


def _moved(opening: _Opening, bit: Bit, band: Band | None) -> Run:
    if band is not None and opening.zone is not None:
        return opening.zone.carry(bit.segment, band)
    if bit.left is opening.left_moves:
        return (transform_segment(bit.segment, opening.motion),)
    return (bit.segment,)


def _rejoin(opening: _Opening, before: Bit, after: Bit, run: Run, new: Run) -> Run:
    """Both sides of a cut inside one stretch put together; a smooth edge stays smooth."""
    turn = turn_between(tangent(before.segment, 1.0), tangent(after.segment, 0.0))
    at_hinge = opening.hinge is not None and (
        distance(segment_start(after.segment), opening.hinge) < 1e-6
    )
    if at_hinge and abs(turn) < KINK:
        return rounded(run, new)
    return joined(run, new)


def _bridge_corner(opening: _Opening, bit: Bit, runs: list[Run], before: int, new: Run) -> None:
    """A cut through a corner: the corner stays with the side that stays."""
    last = runs[before]
    middle = bridge(
        segment_end(last[-1]), tangent(last[-1], 1.0), segment_start(new[0]), tangent(new[0], 0.0)
    )
    if bit.left is opening.left_moves:
        runs[bit.stretch] = (*middle, *new, *runs[bit.stretch])
    else:
        runs[before] = (*last, *middle)
        runs[bit.stretch] = (*new, *runs[bit.stretch])


def _begin_elsewhere(bits: Sequence[Bit]) -> list[Bit]:
    """A ring without corners begun in the middle of its first bit, so not at a cut."""
    first = bits[0]
    early = replace(first, segment=cut_segment(first.segment, 0.0, 0.5))
    late = replace(first, segment=cut_segment(first.segment, 0.5, 1.0), cut=False)
    return [late, *bits[1:], early]


def _closes(run: Run) -> bool:
    return distance(segment_start(run[0]), segment_end(run[-1])) < 1e-6


def _edges(bit: Bit) -> list[tuple[Point, Point]]:
    return list(pairwise(flatten_segment(bit.segment, 0.1)))


def _inside(point: Point, edges: Sequence[tuple[Point, Point]]) -> bool:
    """Even-odd rule along a ray to the right."""
    x, y = point
    inside = False
    for (x0, y0), (x1, y1) in edges:
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            inside = not inside
    return inside
