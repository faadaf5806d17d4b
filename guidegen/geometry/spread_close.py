"""A spread line that closes in → the band around it drawn together smoothly.

Taking out a strip would leave steps wherever an edge passes the line at a slant. Instead, a band
three times as wide as the strip is drawn together: what lies in it and hangs together with a cut
moves by a share of the whole that grows from nothing at the near border to all at the far one
(3s² - 2s³), so that edges stay smooth and never cross one another.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import pi, radians

from guidegen.geometry.curves import cut_segment
from guidegen.geometry.drawing_curves import map_segment
from guidegen.geometry.measures import segment_point, tangent
from guidegen.geometry.records import Line, Point, Run, Segment
from guidegen.geometry.spread_cut import Bit, CutLine, SpreadError, polar, rotated, shifted
from guidegen.geometry.transforms import Motion
from guidegen.units import mm_text

BAND = 3.0
"""Width of the band in widths of the strip. Our choice: nothing is squeezed to less than half
(the share grows by 1.5 / BAND at most)."""

_PARTS = 4
"""Pieces that a curve in the band is divided into, so that cubics follow the map closely."""


@dataclass(frozen=True)
class ClosingZone:
    """The band around a line that closes by `width` mm."""

    line: CutLine
    cuts: tuple[Point, ...]
    left_moves: bool
    width: float
    hinge: Point | None
    angle: float
    """degrees that the moving side turns about the hinge."""

    def borders(self) -> tuple[CutLine, CutLine]:
        """Both sides of the band."""
        if self.hinge is None:
            half = BAND * self.width / 2
            return shifted(self.line, half), shifted(self.line, -half)
        half = self._half_angle()
        ray = self._ray()
        return rotated(ray, self.hinge, half), rotated(ray, self.hinge, -half)

    def near_cuts(
        self, bits: Sequence[Bit], *, closed: bool, strict: bool = False
    ) -> frozenset[int]:
        """Numbers of the bits inside the band that hang together with a cut.

        `strict`, for the outline: SpreadError where one side lies wholly in the band, since it
        could not come nearer by the whole width.
        """
        count = len(bits)
        near: set[int] = set()
        for start in [index for index, bit in enumerate(bits) if bit.cut]:
            for first, step in ((start, 1), (start - 1, -1)):
                index = first
                while (closed or 0 <= index < count) and self._within(bits[index % count]):
                    near.add(index % count)
                    index += step
                    if not closed or not bits[(index if step > 0 else index + 1) % count].cut:
                        continue
                    if strict:
                        raise SpreadError(
                            f"closes by {mm_text(self.width, 1)} mm, more than there is room for "
                            "beside it"
                        )
                    break
        return frozenset(near)

    def carry(self, segment: Segment) -> Run:
        """A segment inside the band after closing."""
        if self.hinge is None and isinstance(segment, Line):
            x, y = tangent(segment, 0.0)
            if abs(x * self.line.direction[0] + y * self.line.direction[1]) < 1e-9:
                return (Line(self._at(segment.start), self._at(segment.end)),)
        parts = [
            cut_segment(segment, number / _PARTS, (number + 1) / _PARTS) for number in range(_PARTS)
        ]
        return tuple(new for part in parts for new in map_segment(part, self._at))

    def _ray(self) -> CutLine:
        """The line directed from the hinge to its open end."""
        if self.hinge == self.cuts[0]:
            return self.line
        x, y = self.line.direction
        return CutLine(self.cuts[-1], (-x, -y))

    def _half_angle(self) -> float:
        half = BAND * abs(radians(self.angle)) / 2
        if half > pi / 3:
            raise SpreadError(f"closes by {mm_text(self.width, 1)} mm, too much for its length")
        return half

    def _within(self, bit: Bit) -> bool:
        point = segment_point(bit.segment, 0.5)
        if self.hinge is None:
            return abs(self.line.aside(point)) < BAND * self.width / 2
        return abs(polar(self._ray(), self.hinge, point)) < self._half_angle()

    def _share(self, across: float, half: float) -> float:
        """How much of the whole movement a place takes part in, 0 on the side that stays."""
        s = min(1.0, max(0.0, (across + half) / (2 * half)))
        return s * s * (3 - 2 * s)

    def _at(self, point: Point) -> Point:
        if self.hinge is None:
            across = self.line.aside(point) * (1 if self.left_moves else -1)
            share = self._share(across, BAND * self.width / 2)
            nx, ny = self.line.normal
            step = -self.width * share * (1 if self.left_moves else -1)
            return (point[0] + nx * step, point[1] + ny * step)
        across = polar(self._ray(), self.hinge, point)
        # The side that moves turns against its own side of the ray: it lies at positive angles
        # where the turn is negative.
        across = across if self.angle < 0 else -across
        turn = Motion(angle=self.angle * self._share(across, self._half_angle()))
        x, y = turn.vector((point[0] - self.hinge[0], point[1] - self.hinge[1]))
        return (self.hinge[0] + x, self.hinge[1] + y)
