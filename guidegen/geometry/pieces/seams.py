"""Finished outlines and seams in → joined edges with their lengths, and match marks on both.

Edges of two counter-clockwise outlines that lie face up and are pushed together run opposite
ways, so what is a share `s` of the way along the first edge meets `1 - s` of the second. The
same holds for two edges of one piece that is rolled into a tube. Where one of two pieces is turned
over, a flipped seam, both edges run the same way, and `s` meets `s`.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import ceil, floor

from guidegen.geometry.outline.curves import distance, inward_normal, point_at, split_at_corners
from guidegen.geometry.outline.measures import run_length, segment_start, tangent
from guidegen.geometry.outline.records import MatchMark, Point, Run
from guidegen.geometry.outline.transforms import mirror_across, transform_mark
from guidegen.geometry.outline.unfold import drawn_edge, fold_line, twin
from guidegen.geometry.parts.darts import gone, left_of, place_at
from guidegen.geometry.parts.finished import Finished

MARK_EVERY = 100.0
"""mm between match marks at most. Common practice, no source: one every 80 to 100 mm."""
MARK_SHORTEST = 40.0
"""mm; shorter edges get no mark. Our choice: their ends are guide enough."""
MARK_TWO = 120.0
"""mm; from here on two marks, so that they tell the direction. Our choice."""
MARK_CLOSEST = 12.0
"""mm between marks at least. Our choice: ticks and their letters have to be told apart."""


def mark_count(length: float, wanted: int | None = None) -> int:
    """How many match marks an edge of `length` mm gets; fewer than wanted where it is short."""
    # The last digits of an arc length must not decide.
    length = round(length, 6)
    if wanted is not None:
        return max(0, min(wanted, floor(length / MARK_CLOSEST) - 1))
    if length < MARK_SHORTEST:
        return 0
    # n marks part an edge into n + 1 stretches, hence the one less.
    return max(2 if length >= MARK_TWO else 1, ceil(length / MARK_EVERY) - 1)


def marks_within(length: float, spacing: float) -> int:
    """How many marks an edge of `length` mm needs for at most `spacing` mm between them."""
    return max(0, ceil(round(length / spacing, 6)) - 1)


def tick_sequence(count: int, *, symmetrical: bool = False) -> tuple[int, ...]:
    """Ticks of the marks along an edge: 1, 2, 3, 1, …

    From two marks on it never reads the same from both ends, unless it must because the edge is
    its own partner or mirror image: then ticks count from either end to the middle.
    """
    if symmetrical:
        # Counted from the nearer end, so that it reads the same from either.
        return tuple(min(n, count - 1 - n) % 3 + 1 for n in range(count))
    # Three kinds are enough to tell direction and are still read at a glance.
    return tuple(n % 3 + 1 for n in range(count))


def corner_shares(run: Run) -> list[float]:
    """Where, as shares of its length, an edge turns sharply between its ends."""
    whole = run_length(run)
    shares, passed = [], 0.0
    for stretch in split_at_corners(run)[:-1]:
        passed += run_length(stretch)
        shares.append(passed / whole)
    return shares


def mark_shares(
    first: Run,
    second: Run,
    wanted: int | None,
    *,
    symmetrical: bool,
    flipped: bool = False,
) -> list[float]:
    """Shares of the first edge's length where marks lie: evenly, and at corners of either edge."""
    # By the shorter edge: the longer is eased in, and marks must not crowd on either.
    length = min(run_length(first), run_length(second))
    count = mark_count(length, wanted)
    if not count:
        return []
    others = corner_shares(second)
    # All as shares of the first edge. A seam with ease keeps shares, not distances: the longer
    # edge is taken in evenly.
    corners = corner_shares(first) + (others if flipped else [1 - share for share in others])
    if symmetrical:
        corners += [1 - share for share in corners]
    gap = MARK_CLOSEST / length - 1e-9
    chosen: list[float] = []
    # Corners first: an even mark too near to one gives way, since corners show by themselves.
    for share in corners + [(n + 1) / (count + 1) for n in range(count)]:
        if gap <= share <= 1 - gap and all(abs(share - other) >= gap for other in chosen):
            chosen.append(share)
    return sorted(chosen)


@dataclass(frozen=True, slots=True)
class SeamEnd:
    """One of the two edges of a seam, with what matters for its marks."""

    outline: Finished
    edge: str
    pair: bool
    """True where its part is cut left and right."""
    line: Run | None = None
    """Where it is no edge: a line of the part's face, on which the other edge stands."""
    sides: int = 1
    """2 where the line lies on both halves of a part drawn to its fold."""

    @property
    def is_edge(self) -> bool:
        """Whether the part has such an edge."""
        return any(own.name == self.edge for own in self.outline.whole.edges)

    @property
    def mirrors_itself(self) -> bool:
        """Whether nobody can tell its ends apart: an edge that crosses the fold of its part."""
        return self.line is None and self.outline.crosses_fold(self.edge)

    @property
    def run(self) -> Run:
        """The finished edge, or the line."""
        if self.line is not None:
            return self.line
        return self.outline.whole.edge(self.edge).run

    @property
    def gone(self) -> list[tuple[float, float]]:
        """mm along the edge between which darts take it away."""
        darts = self.outline.darts
        if darts and self.outline.half is not None:
            mirror = mirror_across(*fold_line(self.outline.half, self.outline.fold))
            darts = (*darts, *(dart.mirrored(mirror) for dart in darts))
        return gone(self.run, darts)

    @property
    def length(self) -> float:
        """mm of the edge when its darts are sewn."""
        return left_of(self.run, self.gone)

    @property
    def twin(self) -> str:
        """Its mirror image across the fold of its part; empty where it has none."""
        names = {edge.name for edge in self.outline.whole.edges}
        if self.outline.half is None or self.line is not None:
            return ""
        other, mirrored = drawn_edge(self.edge, self.outline.half)
        name = other if mirrored else twin(self.edge)
        return name if name in names else ""


def joins_both_sides(one: SeamEnd, two: SeamEnd) -> bool:
    """True for a seam between a symmetrical piece and a pair: the twin edge is joined too."""
    return one.pair != two.pair and bool((two if one.pair else one).twin)


def seam_marks(
    seam: str, one: SeamEnd, two: SeamEnd, wanted: int | None, *, flipped: bool = False
) -> list[tuple[str, MatchMark]]:
    """Match marks of one seam, each with the part whose whole outline it lies on.

    An edge that is joined to itself: of a pair, left to right, the marks are mirrored with the
    piece; of copies cut as drawn, both run opposite ways, so ticks have to be symmetrical. They
    are too where an edge is its own mirror image, and where either hand of a pair may be meant.
    """
    itself = (one.outline.part, one.edge) == (two.outline.part, two.edge)
    both = joins_both_sides(one, two)
    # Three cases in which nobody can tell at the bench from which end a mark counts.
    symmetrical = (
        (itself and not one.pair)
        or (one.pair != two.pair and not both and two.line is None)
        or any(end.mirrors_itself for end in (one, two))
    )
    shares = mark_shares(one.run, two.run, wanted, symmetrical=symmetrical, flipped=flipped)
    ticks = tick_sequence(len(shares), symmetrical=symmetrical)
    marks: list[tuple[str, MatchMark]] = []
    # An edge joined to itself has its marks once; the other piece is cut from the same template.
    ends = ((one, False),) if itself else ((one, False), (two, not flipped))
    for end, backward in ends:
        for share, tick in zip(shares, ticks, strict=True):
            mark = _mark(seam, end, 1 - share if backward else share, tick)
            marks.append((end.outline.part, mark))
            if (both and not end.pair) or end.sides > 1:
                marks.append((end.outline.part, _twin_mark(end, mark)))
    return marks


def _twin_mark(end: SeamEnd, mark: MatchMark) -> MatchMark:
    """The same mark on the other side of the fold, for the other hand."""
    half = end.outline.template
    mirror = mirror_across(*fold_line(half, end.outline.fold))
    return replace(transform_mark(mark, mirror), edge=end.twin or end.edge)


def _mark(seam: str, end: SeamEnd, share: float, ticks: int) -> MatchMark:
    point, direction = point_at(end.run, place_at(end.run, end.gone, share * end.length))
    return MatchMark(end.edge, seam, point, _inward(end.run, point, direction), ticks)


def _inward(run: Run, point: Point, direction: Point) -> Point:
    """Into the piece; at a corner, halfway between both sides."""
    nx, ny = inward_normal(direction)
    for segment in run:
        if distance(segment_start(segment), point) < 1e-6:
            # The tick has to point into the foam on both sides of the corner.
            mx, my = inward_normal(tangent(segment, 0.0))
            size = ((nx + mx) ** 2 + (ny + my) ** 2) ** 0.5
            return ((nx + mx) / size, (ny + my) / size) if size > 1e-9 else (nx, ny)
    return (nx, ny)


def template_marks(part: Finished, marks: Iterable[MatchMark]) -> tuple[MatchMark, ...]:
    """The marks of a whole outline as its template shows them.

    On a half template, marks of the mirrored side are drawn on the side that they come from, and
    edges that cross the fold keep the marks of the drawn half.
    """
    if part.half is None:
        return tuple(marks)
    start, end = fold_line(part.half, part.fold)
    mirror = mirror_across(start, end)
    drawn: list[MatchMark] = []
    for mark in marks:
        name, mirrored = drawn_edge(mark.edge, part.half)
        own = transform_mark(mark, mirror) if mirrored else mark
        own = MatchMark(name, own.seam, own.point, own.inward, own.ticks)
        if _left_of(own.point, start, end) > -0.02 and not any(_same(own, m) for m in drawn):
            drawn.append(own)
    return tuple(drawn)


def _left_of(point: Point, start: Point, end: Point) -> float:
    """mm from a line through two points; positive to its left."""
    cross = (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (
        point[0] - start[0]
    )
    return cross / distance(start, end)


def _same(first: MatchMark, second: MatchMark) -> bool:
    return (first.edge, first.seam, first.ticks) == (
        second.edge,
        second.seam,
        second.ticks,
    ) and distance(first.point, second.point) < 0.05
