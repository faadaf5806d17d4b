"""A ring and corner marks in → the outline cut into stretches at those corners."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import inf

from guidegen.geometry.drawing.curves import nearest_on
from guidegen.geometry.drawing.records import DrawnPath
from guidegen.geometry.outline.curves import RunSpot, cut_run, distance, turn_between
from guidegen.geometry.outline.measures import bounds, segment_point, segment_start, tangent
from guidegen.geometry.outline.records import Point, Run
from guidegen.problems import Checked, Problem
from guidegen.units import mm_text

REACH = 2.0
"""mm; how far a corner mark may lie from the outline. Our choice: a hand-placed mark is nearer."""

KINK = 3.0
"""degrees; a sharper turn is a corner of the line itself, which a mark nearby means. Our choice."""

MAX_CORNERS = 200
"""Corner marks of one piece. Our choice."""


def named_twice(marks: Sequence[DrawnPath]) -> Iterator[Problem]:
    """Corner marks without a name of their own."""
    known: set[str] = set()
    for mark in marks[:MAX_CORNERS]:
        if not mark.name:
            cure = 'give it the label or id "corner-shoulder"'
            yield _problem("drawing-corner", mark, "is a corner without a name", cure)
        elif mark.name in known:
            message = f'is a second corner called "{mark.name}"'
            yield _problem("drawing-corner", mark, message, "give each its own name")
        known.add(mark.name)


def cut_at_corners(
    ring: Run, marks: Sequence[DrawnPath]
) -> Checked[tuple[tuple[str, ...], tuple[Run, ...]]]:
    """Corner names in the ring's order, and the stretch that begins at each one.

    Marks without a name of their own are left out: `named_twice` tells them.
    """
    spots: dict[str, tuple[RunSpot, Point, DrawnPath]] = {}
    # Made once for all marks: boxes and kinks of an outline of 2,000 points take longer than a
    # mark.
    outline = _Outline(ring)
    for mark in marks[:MAX_CORNERS]:
        if mark.name and mark.name not in spots:
            gap, spot = outline.snap(mark.middle)
            if gap > REACH:
                message = (
                    f"lies {_far(gap)} from the outline, so it names no corner; "
                    f"{mm_text(REACH)} mm are allowed"
                )
                cure = "put its middle on the outline"
                yield _problem("drawing-corner", mark, message, cure)
                continue
            spots[mark.name] = (spot, segment_point(ring[spot.index], spot.t), mark)
    if len(marks) > MAX_CORNERS:
        message = f"is one of more than {MAX_CORNERS} corners"
        yield _problem("drawing-too-large", marks[MAX_CORNERS], message, "")
    # In the order of the ring, not of the file: stretches run from each corner to the next.
    order = sorted(spots, key=lambda name: spots[name][0].order)
    order = yield from _distinct(order, spots)
    return _stretches(ring, [(name, spots[name][0]) for name in order])


def _problem(code: str, mark: DrawnPath, message: str, cure: str) -> Problem:
    return Problem(code, mark.place, "", f"{mark.title} {message}", cure)


def _far(gap: float) -> str:
    return f"{mm_text(gap, 1)} mm" if gap < inf else "far"


class _Outline:
    """A ring with what finding a point on it needs, made once for all marks."""

    def __init__(self, ring: Run) -> None:
        self.ring = ring
        self.kinks = [
            (segment_start(after), (index + 1) % len(ring))
            for index, (before, after) in enumerate(pairwise((*ring, ring[0])))
            if abs(turn_between(tangent(before, 1.0), tangent(after, 0.0))) > KINK
        ]
        self.boxes = [bounds(((segment,),)) for segment in ring]

    def snap(self, point: Point) -> tuple[float, RunSpot]:
        """Distance and spot of the corner that a mark means: a kink in reach, else the line."""
        # A kink in reach wins over a nearer place on the line: the hand aimed at the corner.
        gap, index = min(((distance(p, point), i) for p, i in self.kinks), default=(inf, 0))
        if gap <= REACH:
            return gap, RunSpot(index, 0.0)
        best, spot = inf, RunSpot(0, 0.0)
        near = sorted(
            (max(left - point[0], point[0] - right, low - point[1], point[1] - high, 0.0), index)
            for index, (left, low, right, high) in enumerate(self.boxes)
        )
        for aside, index in near:
            # Boxes are sorted by their distance, which no point inside can undercut.
            if aside >= best:
                break
            gap, t = nearest_on(self.ring[index], point)
            if gap < best:
                best, spot = gap, RunSpot(index, t)
        return best, _tidy_spot(self.ring, spot)


def _tidy_spot(ring: Run, spot: RunSpot) -> RunSpot:
    """A spot at (or a hair from) the end of a segment becomes the start of the next one."""
    point = segment_point(ring[spot.index], spot.t)
    # mm; a fifth of the finest print. A stretch would begin with a segment of that length, which
    # has no direction worth keeping once it is graded.
    if distance(point, segment_point(ring[spot.index], 1.0)) < 0.01:
        return RunSpot((spot.index + 1) % len(ring), 0.0)
    if distance(point, segment_start(ring[spot.index])) < 0.01:
        return RunSpot(spot.index, 0.0)
    return spot


def _distinct(
    order: list[str],
    spots: dict[str, tuple[RunSpot, Point, DrawnPath]],
) -> Checked[list[str]]:
    """Names without those that fall on the corner before them."""
    kept: list[str] = []
    for name in order:
        _, point, mark = spots[name]
        # mm; nearer marks cannot be told apart on paper, and leave a stretch without length
        # between them.
        before = next((k for k in kept if distance(spots[k][1], point) < 0.05), None)
        if before is None:
            kept.append(name)
        else:
            message = f'is at the same place as the corner "{before}"'
            yield _problem("drawing-corner", mark, message, "delete one of them")
    return kept


def _stretches(
    ring: Run, spots: list[tuple[str, RunSpot]]
) -> tuple[tuple[str, ...], tuple[Run, ...]]:
    if not spots:
        return (), (ring,)
    runs = [cut_run(ring, start, end) for (_, start), (_, end) in pairwise(spots)]
    last, first = spots[-1][1], spots[0][1]
    # The last stretch runs over the place where the ring begins, which is no corner.
    before = cut_run(ring, None, first) if first.order > (0, 0.0) else ()
    runs.append((*cut_run(ring, last, None), *before))
    return tuple(name for name, _ in spots), tuple(runs)
