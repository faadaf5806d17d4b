"""A straight line and runs in → the runs cut where they cross it, every bit on its side.

Side is a matter of connection, not of position: what hangs together without passing the line
between its ends is on one side, even where the piece bends around.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import atan2, ceil, cos, floor, hypot, pi, radians, sin, sqrt

from guidegen.geometry.outline.curves import NEAR, cut_segment, distance
from guidegen.geometry.outline.measures import segment_length, segment_point, segment_start
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run, Segment


class SpreadError(ValueError):
    """A piece cannot be spread at a line; the message ends a sentence about the line."""


@dataclass(frozen=True, slots=True)
class CutLine:
    """A directed straight line; its left side is the positive one."""

    origin: Point
    direction: Point
    """Unit vector."""

    def along(self, point: Point) -> float:
        """mm from the origin along the line."""
        dx, dy = point[0] - self.origin[0], point[1] - self.origin[1]
        return dx * self.direction[0] + dy * self.direction[1]

    def aside(self, point: Point) -> float:
        """mm to the left of the line; negative to its right."""
        dx, dy = point[0] - self.origin[0], point[1] - self.origin[1]
        return dy * self.direction[0] - dx * self.direction[1]

    @property
    def normal(self) -> Point:
        """Unit vector to the left."""
        return (-self.direction[1], self.direction[0])


def cut_line(start: Point, end: Point) -> CutLine:
    """The line from one point to another."""
    length = distance(start, end)
    return CutLine(start, ((end[0] - start[0]) / length, (end[1] - start[1]) / length))


@dataclass(frozen=True, slots=True)
class CutSegment:
    """A part of a run that does not cross the line."""

    segment: Segment
    stretch: int
    """Which stretch of the outline it belongs to."""
    left: bool = False
    """True on the line's left side."""
    cut: bool = False
    """True where the run passes the line just before this bit."""
    source: int = -1
    """Number of the segment that it is a part of."""
    origin: Segment | None = None
    """That segment."""


def crossings(segment: Segment, line: CutLine) -> list[float]:
    """Parameters inside a segment where it passes the line, in order."""
    if isinstance(segment, Arc):
        # A quick test first: most segments are far from the line.
        if abs(line.aside(segment.centre)) > segment.radius:
            return []
    else:
        points = _polygon(segment)
        sides = [line.aside(point) for point in points]
        if min(sides) > 0 or max(sides) < 0:
            return []
    breaks = [0.0, *_extremes(segment, line), 1.0]
    found = []
    for t0, t1 in pairwise(breaks):
        # Between two extremes the distance from the line only grows or only shrinks: one change of
        # sign, one crossing, and bisection cannot jump to another.
        f0, f1 = (line.aside(segment_point(segment, t)) for t in (t0, t1))
        if f0 * f1 < 0:
            found.append(_bisect(segment, line, t0, t1))
    # A crossing at an end belongs to the joint, not to the segment: both neighbours would claim it
    # and leave a bit without length between them.
    length = segment_length(segment)
    ends = (segment_point(segment, 0.0), segment_point(segment, 1.0))
    return [
        t
        for t in found
        if all(distance(segment_point(segment, t), end) > NEAR for end in ends) or length <= NEAR
    ]


def _polygon(segment: Line | Cubic) -> list[Point]:
    if isinstance(segment, Line):
        return [segment.start, segment.end]
    return [segment.start, segment.control1, segment.control2, segment.end]


def _extremes(segment: Segment, line: CutLine) -> list[float]:
    """Parameters where the distance from the line stops growing or shrinking."""
    match segment:
        case Line():
            return []
        case Arc(start_angle=start, sweep=sweep):
            normal = line.normal
            first = atan2(normal[1], normal[0])
            begin, turn = radians(start), radians(sweep)
            low, high = sorted((begin, begin + turn))
            numbers = range(ceil((low - first) / pi), floor((high - first) / pi) + 1)
            found = [(first + number * pi - begin) / turn for number in numbers]
        case Cubic():
            d0, d1, d2, d3 = (line.aside(point) for point in _polygon(segment))
            found = _quadratic(d3 - 3 * d2 + 3 * d1 - d0, 2 * (d2 - 2 * d1 + d0), d1 - d0)
    return sorted(t for t in found if 0 < t < 1)


def _quadratic(a: float, b: float, c: float) -> list[float]:
    """Real roots of a*t² + b*t + c."""
    if abs(a) < 1e-12 * (abs(b) + abs(c) + 1e-300):
        return [-c / b] if b else []
    root = b * b - 4 * a * c
    if root < 0:
        return []
    # Both roots without the difference of near numbers (Press et al., Numerical Recipes, 5.6).
    q = -(b + (sqrt(root) if b >= 0 else -sqrt(root))) / 2
    return [q / a, c / q] if q else [0.0]


def _bisect(segment: Segment, line: CutLine, low: float, high: float) -> float:
    rising = line.aside(segment_point(segment, low)) < 0
    # Sixty halvings pass the last bit of a double: the same spot on every machine.
    for _ in range(60):
        middle = (low + high) / 2
        if (line.aside(segment_point(segment, middle)) < 0) == rising:
            low = middle
        else:
            high = middle
    return (low + high) / 2


def split_at(segments: Iterable[tuple[int, Segment]], lines: Sequence[CutLine]) -> list[CutSegment]:
    """Numbered segments, cut wherever they pass one of the lines."""
    bits = []
    for source, (number, segment) in enumerate(segments):
        cuts = sorted(t for line in lines for t in crossings(segment, line))
        for t0, t1 in pairwise([0.0, *cuts, 1.0]):
            whole = t0 == 0.0 and t1 == 1.0
            part = segment if whole else cut_segment(segment, t0, t1)
            if whole or segment_length(part) > NEAR:
                bits.append(CutSegment(part, number, source=source, origin=segment))
    return bits


def label_sides(
    bits: Sequence[CutSegment],
    line: CutLine,
    reach: tuple[float, float],
    *,
    closed: bool,
    otherwise: Callable[[Point], bool] | None = None,
) -> list[CutSegment]:
    """The bits with their sides and cuts.

    Only crossings between the distances `reach` along the line are cuts. `otherwise` tells the
    side of a run that is not cut at all; without it that is a SpreadError.
    """
    sides = _geometric_sides(bits, line)
    cuts = [
        index
        for index in range(0 if closed else 1, len(bits))
        if sides[index - 1] != sides[index]
        # The author's line is a stretch, not endless: an arm of a bent piece that lies in its
        # continuation is not cut.
        and reach[0] <= line.along(segment_start(bits[index].segment)) <= reach[1]
    ]
    if not cuts:
        if otherwise is None:
            raise SpreadError("does not cross the outline")
        left = otherwise(segment_point(bits[len(bits) // 2].segment, 0.5))
        return [replace(bit, left=left) for bit in bits]
    labelled: dict[int, CutSegment] = {}
    ends = [*cuts[1:], cuts[0] + len(bits) if closed else len(bits)]
    for begin, end in zip(cuts, ends, strict=True):
        # Between two cuts a ring must stay on one side. If it does not, the line ends inside the
        # piece, and opening it would tear the foam.
        if closed and otherwise is None and sides[begin] != sides[(end - 1) % len(bits)]:
            raise SpreadError("stops inside the piece, so it does not cut it in two")
        for index in range(begin, end):
            position = index % len(bits)
            labelled[position] = replace(bits[position], left=sides[begin], cut=index == begin)
    for index in range(0 if closed else cuts[0]):
        if not closed:
            labelled[index] = replace(bits[index], left=sides[cuts[0] - 1])
    return [labelled[index] for index in range(len(bits))]


def _geometric_sides(bits: Sequence[CutSegment], line: CutLine) -> list[bool]:
    """True left of the line; what runs along the line counts with what comes before it."""
    measures = [line.aside(segment_point(bit.segment, 0.5)) for bit in bits]
    # What runs along the line has no side of its own; it takes that of what comes before it, so
    # the first of a ring looks at the last.
    known = next((m for m in reversed(measures) if abs(m) > NEAR), -1.0)
    sides = []
    for measure in measures:
        known = measure if abs(measure) > NEAR else known
        sides.append(known > 0)
    return sides


def side_area(bits: Sequence[CutSegment], line: CutLine, left: bool) -> float:
    """mm² of the part of a ring on one side: the integral of its distance along the line."""
    total = 0.0
    for bit in bits:
        if bit.left is left:
            # The trapezium rule is exact for lines; sixteen chords of a curve are far nearer than
            # TIE asks.
            count = 1 if isinstance(bit.segment, Line) else 16
            points = [segment_point(bit.segment, number / count) for number in range(count + 1)]
            for p, q in pairwise(points):
                total += (line.aside(p) + line.aside(q)) / 2 * (line.along(q) - line.along(p))
    return abs(total)


def rotated(line: CutLine, pivot: Point, angle: float) -> CutLine:
    """The line through `pivot` at an angle in radians from `line`."""
    (x, y), c, s = line.direction, cos(angle), sin(angle)
    return CutLine(pivot, (x * c - y * s, x * s + y * c))


def shifted(line: CutLine, width: float) -> CutLine:
    """The line moved to its left by `width` mm."""
    nx, ny = line.normal
    return CutLine((line.origin[0] + nx * width, line.origin[1] + ny * width), line.direction)


def polar(line: CutLine, pivot: Point, point: Point) -> float:
    """Angle in radians of a point around `pivot`, from the line's direction, left positive."""
    dx, dy = point[0] - pivot[0], point[1] - pivot[1]
    x = dx * line.direction[0] + dy * line.direction[1]
    y = dy * line.direction[0] - dx * line.direction[1]
    # The pivot itself has no direction.
    return atan2(y, x) if hypot(x, y) > 1e-12 else 0.0


def runs_of(segments: Iterable[Run]) -> list[tuple[int, Segment]]:
    """Stretches as numbered segments."""
    return [(number, segment) for number, run in enumerate(segments) for segment in run]
