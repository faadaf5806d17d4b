"""A spread line that closes in → the band around it drawn together smoothly.

Taking out a strip would leave steps wherever an edge passes the line at a slant. Instead, a band
three times as wide as the strip is drawn together: what lies in it and hangs together with a cut
moves by a share of the whole that grows from nothing at the near border to all at the far one
(3s² - 2s³), so that edges stay smooth and never cross one another. Where a corner of the piece is
nearer than the band's border, the band of that edge is moved or narrowed to end there, so that
the edge becomes shorter by the whole width.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import inf, pi, radians

from guidegen.geometry.drawing.curves import map_segment
from guidegen.geometry.grading.spread_cut import (
    CutLine,
    CutSegment,
    SpreadError,
    polar,
    rotated,
    shifted,
)
from guidegen.geometry.outline.curves import NEAR, cut_segment, distance
from guidegen.geometry.outline.measures import segment_end, segment_point, segment_start, tangent
from guidegen.geometry.outline.records import Line, Point, Run, Segment
from guidegen.geometry.outline.transforms import RigidMotion
from guidegen.units import mm_text

BAND = 3.0
"""Width of the band in widths of the strip. Our choice: nothing is squeezed to less than half
(the share grows by 1.5 / BAND at most)."""

LEAST_BAND = 1.8
"""Width of the narrowest band in widths of the strip. Our choice: squeezed to a sixth at most;
at 1.5 an edge would stand still, below it would turn back."""

WIDEST_BAND = 12.0
"""Width of the widest band, for an edge that runs along the line. Our choice."""

_PARTS = 4
"""Pieces that a curve in the band is divided into, so that cubics follow the map closely."""


@dataclass(frozen=True, slots=True)
class Band:
    """How far a band reaches from the line: mm, or radians around a hinge."""

    staying: float
    """Into the side that stays."""
    moving: float
    """Into the side that moves."""

    def share(self, across: float) -> float:
        """How much of the whole movement a place takes part in: 0 on the side that stays."""
        # Its slope is 0 at both borders: edges enter and leave the band without a kink.
        s = min(1.0, max(0.0, (across + self.staying) / (self.staying + self.moving)))
        return s * s * (3 - 2 * s)


@dataclass(frozen=True)
class ClosingZone:
    """The bands around a line that closes by `width` mm."""

    line: CutLine
    cuts: tuple[Point, ...]
    """Where the line passes the outline, in the line's order."""
    left_moves: bool
    width: float
    hinge: Point | None
    angle: float
    """degrees that the moving side turns about the hinge."""
    bands: tuple[tuple[Point, Band], ...] = ()
    """The band of each edge, by the place where the line cuts it."""

    def fitted(self, bits: Sequence[CutSegment]) -> "ClosingZone":
        """The zone with bands fitted to the outline, which is given cut at the line."""
        bands = tuple(
            (segment_start(bit.segment), self._fit(bits, index))
            for index, bit in enumerate(bits)
            if bit.cut
        )
        return replace(self, bands=bands)

    def borders(self) -> tuple[CutLine, ...]:
        """The lines along which all bands end."""
        bands = [self._plain(), *(band for _, band in self.bands)]
        # The side that moves is the positive one of `_across`; lines count from the left.
        left = 1 if self._left_positive() else -1
        reaches = {left * band.moving for band in bands} | {-left * band.staying for band in bands}
        if self.hinge is None:
            return tuple(shifted(self.line, reach) for reach in sorted(reaches))
        pivot, ray = self.hinge, self._ray()
        return tuple(rotated(ray, pivot, reach) for reach in sorted(reaches))

    def near_cuts(
        self, bits: Sequence[CutSegment], *, closed: bool, strict: bool = False
    ) -> dict[int, Band]:
        """The bits inside a band that hang together with its cut, by number, with that band.

        `strict`, for the outline: SpreadError where one side lies wholly in the band, since it
        could not come nearer by the whole width.
        """
        count = len(bits)
        near: dict[int, Band] = {}
        for start in [index for index, bit in enumerate(bits) if bit.cut]:
            band = self._band_at(segment_start(bits[start].segment))
            for first, step in ((start, 1), (start - 1, -1)):
                index = first
                while (closed or 0 <= index < count) and self._within(
                    bits[index % count], band, step
                ):
                    # The first band wins where two reach one bit, so that it moves once only.
                    near.setdefault(index % count, band)
                    index += step
                    if not closed or not bits[(index if step > 0 else index + 1) % count].cut:
                        continue
                    if strict:
                        raise self._no_room()
                    break
        return near

    def carry(self, segment: Segment, band: Band) -> Run:
        """A segment inside a band after closing."""

        def at(point: Point) -> Point:
            return self._moved(point, band.share(self._across(point)))

        if self.hinge is None and isinstance(segment, Line):
            x, y = tangent(segment, 0.0)
            # Square to the line all of it moves along itself, so it stays straight.
            if abs(x * self.line.direction[0] + y * self.line.direction[1]) < 1e-9:
                return (Line(at(segment.start), at(segment.end)),)
        parts = [
            cut_segment(segment, number / _PARTS, (number + 1) / _PARTS) for number in range(_PARTS)
        ]
        return tuple(new for part in parts for new in map_segment(part, at))

    def _no_room(self) -> SpreadError:
        width = mm_text(self.width, 1)
        return SpreadError(f"closes by {width} mm, more than there is room for beside it")

    def _ray(self) -> CutLine:
        """The line directed from the hinge to its open end."""
        if self.hinge == self.cuts[0]:
            return self.line
        x, y = self.line.direction
        return CutLine(self.cuts[-1], (-x, -y))

    def _left_positive(self) -> bool:
        """Whether the side that moves lies on the left of the line (or ray)."""
        # Closing turns the moving side against its own side of the ray.
        return self.left_moves if self.hinge is None else self.angle < 0

    def _across(self, point: Point) -> float:
        """How far a point lies on the side that moves: mm, or radians around the hinge."""
        if self.hinge is None:
            measure = self.line.aside(point)
        else:
            measure = polar(self._ray(), self.hinge, point)
        return measure if self._left_positive() else -measure

    def _whole(self) -> float:
        return self.width if self.hinge is None else abs(radians(self.angle))

    def _plain(self) -> Band:
        half = BAND * self._whole() / 2
        # Two such bands would be more than two thirds of half a turn: no side is left to move.
        if self.hinge is not None and half > pi / 3:
            width = mm_text(self.width, 1)
            raise SpreadError(f"closes by {width} mm, too much for the length of the line")
        return Band(half, half)

    def _fit(self, bits: Sequence[CutSegment], cut: int) -> Band:
        """The band of one edge: wider at a slant, and clear of the corners at its ends."""
        plain, whole = self._plain(), self._whole()
        after, before = self._clear(bits, cut, 1), self._clear(bits, cut - 1, -1)
        after_moves = bits[cut].left is self.left_moves
        (reach_m, room_m), (reach_s, room_s) = (after, before) if after_moves else (before, after)
        half = self._widening(tangent(bits[cut].segment, 0.0)) * whole / 2
        # As wide as the slant asks, but not past a corner, nor over more than 0.6 of how far the
        # edge gets from the line: beyond that it belongs to the next line.
        staying = min(half, room_s, max(plain.staying, 0.6 * reach_s))
        moving = min(half, room_m, max(plain.moving, 0.6 * reach_m))
        if staying + moving < BAND * whole:
            # What one side lacks the other takes over, as far as its own corner lets it.
            moving = min(room_m, BAND * whole - staying)
            staying = min(room_s, BAND * whole - moving)
        return Band(staying, moving) if staying + moving >= LEAST_BAND * whole else plain

    def _widening(self, direction: Point) -> float:
        """Width of the band in widths of the strip, for an edge in a direction at its cut.

        An edge that climbs by m along the line climbs by m / (1 - g) in the band, where the
        movement grows by g = 1.5 / width at most: so wide that this is 0.1 more than m.
        """
        (x, y), (dx, dy) = direction, self.line.direction
        # Along the line by across it; an edge that runs along the line has no end to its climb.
        climb = abs(x * dx + y * dy) / max(abs(x * dy - y * dx), 1e-6)
        return min(WIDEST_BAND, max(BAND, 1.5 * (climb + 0.1) / 0.1))

    def _clear(self, bits: Sequence[CutSegment], first: int, step: int) -> tuple[float, float]:
        """How far from the line an edge gets on one side of a cut, and where a corner ends it.

        Without a corner before the next cut, the second is infinite.
        """
        count, reach = len(bits), 0.0
        stretch = bits[first % count].stretch
        for offset in range(count):
            bit = bits[(first + step * offset) % count]
            passed = bits[(first + step * offset + (step < 0)) % count].cut and offset > 0
            if passed:
                return reach, inf
            # A corner of the piece: the band has to end there, or the corner would move by a
            # share.
            if bit.stretch != stretch:
                return reach, reach
            ends = (segment_start(bit.segment), segment_end(bit.segment))
            reach = max([reach, *(abs(self._across(end)) for end in ends)])
        return reach, inf

    def _band_at(self, cut: Point) -> Band:
        """The band of the edge that is cut at a point; the plain one for other lines."""
        fitted = (band for point, band in self.bands if distance(point, cut) < NEAR)
        return next(fitted, self._plain())

    def _within(self, bit: CutSegment, band: Band, step: int) -> bool:
        """Whether a bit that is entered in a direction lies in a band.

        Its middle has to, and the point where it is entered must not lie on the border.
        """
        middle = self._across(segment_point(bit.segment, 0.5))
        entry = self._across((segment_start if step > 0 else segment_end)(bit.segment))
        inside = -band.staying < middle < band.moving
        return inside and NEAR - band.staying < entry < band.moving - NEAR

    def _moved(self, point: Point, share: float) -> Point:
        if self.hinge is None:
            nx, ny = self.line.normal
            step = self.width * share * (-1 if self.left_moves else 1)
            return (point[0] + nx * step, point[1] + ny * step)
        turn = RigidMotion(angle=self.angle * share)
        x, y = turn.vector((point[0] - self.hinge[0], point[1] - self.hinge[1]))
        return (self.hinge[0] + x, self.hinge[1] + y)
