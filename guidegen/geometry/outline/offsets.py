"""Edges of an outline and a width for each in → the outline with those edges moved sideways.

Positive widths lie outside a counter-clockwise outline, negative ones inside. Lines give lines,
arcs give arcs, Bézier curves give Bézier curves within OFFSET_TOLERANCE. Where two moved edges
meet at a corner they are lengthened or cut back to their meeting point (a mitre); where that
point lies farther from the corner than MITRE_LIMIT times the width, the corner is rounded, or
closed straight when the widths differ.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Self

from guidegen.geometry.outline.crossings import meetings
from guidegen.geometry.outline.curves import (
    CORNER_ANGLE,
    NEAR,
    RunSpot,
    along,
    cut_run,
    cut_segment,
    distance,
    end_direction,
    split_at_corners,
    spot_at,
    start_direction,
    tidy_run,
    turn_between,
    velocity,
)
from guidegen.geometry.outline.measures import (
    heading,
    run_length,
    segment_end,
    segment_point,
    segment_start,
    tangent,
)
from guidegen.geometry.outline.records import Arc, Cubic, Edge, Line, Point, Run, Segment

MITRE_LIMIT = 4.0
"""Times the width; SVG 2 (painting, stroke-miterlimit) has the same value as its default."""

OFFSET_TOLERANCE = 0.005
"""mm; how far an offset Bézier curve may leave the true one. Our choice: a quarter of
FLATTEN_TOLERANCE, so that it is lost in it."""


class OffsetError(ValueError):
    """An edge cannot be moved so far; the message is for the author."""

    def __init__(self, edge: str, message: str) -> None:
        super().__init__(message)
        self.edge = edge


def offset_run(run: Run, width: float, edge: str = "") -> Run:
    """A run moved `width` mm to its right, outside a counter-clockwise outline.

    Corners inside the run are left open. Raises OffsetError where a curve is too tight.
    """
    moved: list[Segment] = []
    for segment in run:
        moved.extend(_offset_segment(segment, width, edge))
    return tuple(moved)


def _outward(direction: Point) -> Point:
    return (direction[1], -direction[0])


def _offset_segment(segment: Segment, width: float, edge: str) -> Run:
    if width == 0:
        return (segment,)
    match segment:
        case Line(start=start, end=end):
            normal = _outward(tangent(segment, 0.0))
            return (Line(along(start, normal, width), along(end, normal, width)),)
        case Arc(radius=radius, sweep=sweep):
            # A left turn bulges to the right, where a positive width lies: its circle grows. A
            # right turn has its centre on that side: its circle shrinks.
            wider = radius + (width if sweep > 0 else -width)
            if wider <= NEAR:
                raise _too_tight(edge, width, radius)
            return (replace(segment, radius=wider),)
        case Cubic():
            return tuple(_offset_cubic(segment, width, edge, 0))


def _too_tight(edge: str, width: float, radius: float) -> OffsetError:
    return OffsetError(
        edge,
        f"the edge bends with a radius of {radius:.1f} mm, too tight to be moved "
        f"{abs(width):.1f} mm sideways",
    )


def _bend(curve: Cubic, t: float) -> float:
    """Curvature in 1/mm, positive where the curve turns left."""
    dx, dy = velocity(curve, t)
    p0, p1, p2, p3 = curve.start, curve.control1, curve.control2, curve.end
    ex = 6 * ((1 - t) * (p0[0] - 2 * p1[0] + p2[0]) + t * (p1[0] - 2 * p2[0] + p3[0]))
    ey = 6 * ((1 - t) * (p0[1] - 2 * p1[1] + p2[1]) + t * (p1[1] - 2 * p2[1] + p3[1]))
    speed = (dx * dx + dy * dy) ** 0.5
    return (dx * ey - dy * ex) / speed**3 if speed > 1e-6 else 0.0


def _offset_cubic(curve: Cubic, width: float, edge: str, depth: int) -> list[Segment]:
    """Offset of a Bézier curve by Hermite pieces, halved until they fit.

    The parallel of a curve at distance w to the right has the speed (1 + w * bend) times the
    curve's own (do Carmo, Differential Geometry of Curves and Surfaces, 1-5), which gives the
    length of the handles.
    """
    growths = []
    for t in (0.0, 0.25, 0.5, 0.75, 1.0):
        bend = _bend(curve, t)
        growths.append(1 + width * bend)
        # Speed of the parallel at this point: at 0 it stands still in a cusp, below 0 it runs
        # backwards and the offset would loop. That is the author's to cure: no offset exists
        # there.
        if growths[-1] <= 0:
            raise _too_tight(edge, width, 1 / abs(bend))
    start = along(curve.start, _outward(tangent(curve, 0.0)), width)
    end = along(curve.end, _outward(tangent(curve, 1.0)), width)
    # Handles of a cubic are a third of the speed at its ends, so they grow as the speed does; with
    # the directions kept, position and tangent are exact at both ends.
    first = distance(curve.start, curve.control1) * growths[0]
    last = distance(curve.control2, curve.end) * growths[-1]
    moved = Cubic(
        start,
        along(start, tangent(curve, 0.0), first),
        along(end, tangent(curve, 1.0), -last),
        end,
    )
    # Each halving divides the error by about 16 (Hermite pieces are of fourth order): eight are
    # more than any drawn curve needs, and end what will never fit, such as a hidden cusp.
    if depth >= 8 or _offset_error(curve, moved, width) <= OFFSET_TOLERANCE:
        return [moved]
    left, right = cut_segment(curve, 0.0, 0.5), cut_segment(curve, 0.5, 1.0)
    # A cut of a cubic is a cubic; the test is for the type checker alone.
    halves = (part for part in (left, right) if isinstance(part, Cubic))
    return [piece for half in halves for piece in _offset_cubic(half, width, edge, depth + 1)]


def _offset_error(curve: Cubic, moved: Cubic, width: float) -> float:
    """How far, across the curve, the moved one is from `width` mm beside it."""
    worst = 0.0
    for t in (0.25, 0.5, 0.75):
        normal = _outward(tangent(curve, t))
        true, got = along(segment_point(curve, t), normal, width), segment_point(moved, t)
        aside = abs((got[0] - true[0]) * normal[0] + (got[1] - true[1]) * normal[1])
        slip = distance(true, got)
        # A slip along the curve harms only by the bend of it.
        worst = max(worst, aside, slip * slip * abs(_bend(curve, t)))
    return worst


# A whole outline.


@dataclass
class _Stretch:
    """A smooth stretch of one edge, moved, with straight leads before and after it."""

    edge: int
    width: float
    base: Run
    run: Run
    """A lead, the moved stretch, a lead."""
    start: RunSpot
    end: RunSpot
    closing: tuple[Segment, ...] = ()
    """Segments that lead from its end to the next stretch."""

    @classmethod
    def moved(cls, edge: int, name: str, base: Run, width: float, reach: float) -> Self:
        body = offset_run(base, width, name)
        first, last = segment_start(body[0]), segment_end(body[-1])
        # Straight leads as long as any mitre may be: two moved stretches that do not reach each
        # other meet on their leads, those that overlap meet on their bodies. One search finds
        # both.
        before = Line(along(first, start_direction(body), -reach), first)
        after = Line(last, along(last, end_direction(body), reach))
        run = (before, *body, after)
        # Until a neighbour says otherwise a stretch is its body: from the start of segment 1,
        # after the lead, to the end of the last before the other lead.
        return cls(edge, width, base, run, RunSpot(1, 0.0), RunSpot(len(body), 1.0))

    def finished(self, name: str) -> Run:
        run = cut_run(self.run, self.start, self.end)
        if not run:
            size = distance(segment_start(self.base[0]), segment_end(self.base[-1]))
            raise OffsetError(
                name, f"moving the edges swallows a stretch of this one that is {size:.1f} mm long"
            )
        return _straightened(run + self.closing)


def offset_edges(
    edges: tuple[Edge, ...], widths: Mapping[str, float], fold: str = ""
) -> tuple[Edge, ...]:
    """The outline with each edge moved outward by its width in mm; 0 where none is given.

    The neighbours of an edge that moves are lengthened or cut back along their own direction.
    Corners at the edge called `fold` are never rounded: both halves have to meet there.
    Raises OffsetError where a curve is too tight or a short edge disappears.
    """
    widest = max((abs(widths.get(edge.name, 0.0)) for edge in edges), default=0.0)
    if widest <= NEAR:
        return edges
    # Leads must be as long as the longest join that is accepted below, or it would be missed.
    reach = widest * (_FOLD_LIMIT if fold else MITRE_LIMIT)
    stretches = [
        _Stretch.moved(index, edge.name, base, widths.get(edge.name, 0.0), reach)
        for index, edge in enumerate(edges)
        for base in _smooth_stretches(edge.run, len(edges))
    ]
    for number, stretch in enumerate(stretches):
        after = stretches[(number + 1) % len(stretches)]
        # Rounding a corner on the fold would leave a notch or a tip on the line where the piece is
        # unfolded: both halves have to end on it.
        at_fold = bool(fold) and fold in {edges[stretch.edge].name, edges[after.edge].name}
        _join(stretch, after, _FOLD_LIMIT if at_fold else MITRE_LIMIT)
    runs: list[list[Segment]] = [[] for _ in edges]
    for stretch in stretches:
        runs[stretch.edge].extend(stretch.finished(edges[stretch.edge].name))
    return tuple(
        Edge(edge.name, tidy_run(tuple(run))) for edge, run in zip(edges, runs, strict=True)
    )


_SMOOTH = 0.01
"""degrees; the smallest turn that gets a join of its own: at 50 mm it opens by a hundredth."""

_FOLD_LIMIT = 100.0
"""Times the width: as good as no limit, since a fold may be met at a slant."""


def _smooth_stretches(run: Run, edges: int) -> tuple[Run, ...]:
    """Smooth stretches; the only one of an outline is halved, so that its ends can be joined."""
    stretches = split_at_corners(run, _SMOOTH)
    if edges == 1 and len(stretches) == 1:
        middle = spot_at(run, run_length(run) / 2)
        return (cut_run(run, None, middle), cut_run(run, middle, None))
    return stretches


def _join(before: _Stretch, after: _Stretch, limit: float) -> None:
    """Make one moved stretch end where the next begins."""
    width = max(abs(before.width), abs(after.width))
    end, start = segment_end(before.run[-2]), segment_start(after.run[1])
    # Neither side has moved, or both have moved onto the same point: the ends are joined.
    if width == 0 or distance(end, start) <= NEAR:
        return
    corner = segment_end(before.base[-1])
    turn = turn_between(end_direction(before.base), start_direction(after.base))
    # A smooth border between two allowances: their parallels hardly converge, and a mitre would
    # lie far away or nowhere. A square step is what one would cut.
    if abs(turn) <= CORNER_ANGLE and abs(before.width - after.width) > NEAR:
        before.closing = (Line(end, start),)
        return
    shared = [
        # Runs can cross more than once, on a lead and on a body: the crossing nearest to the
        # corner is the mitre, others are loops that a later cut takes away.
        (distance(meeting.point, corner), meeting)
        for meeting in meetings(before.run, after.run)
    ]
    far, nearest = min(shared, key=lambda pair: pair[0], default=(limit * width + 1, None))
    if nearest is None or far > limit * width:
        before.closing = _close(before, after, turn)
        return
    before.end = nearest.first
    after.start = nearest.second


def _close(before: _Stretch, after: _Stretch, turn: float) -> tuple[Segment, ...]:
    """From one moved stretch to the next without a mitre."""
    end, start = segment_end(before.run[-2]), segment_start(after.run[1])
    # A round join is an arc about the corner, which both ends touch only if their widths agree,
    # and only on the open side: outside a left turn, inside a right one.
    if abs(before.width - after.width) > NEAR or (turn > 0) != (before.width > 0):
        return (Line(end, start),)
    corner = segment_end(before.base[-1])
    first = heading((end[0] - corner[0], end[1] - corner[1]))
    return (Arc(corner, abs(before.width), first, turn),)


def _straightened(run: Run) -> Run:
    """The run with a line and its lengthening made one line."""
    parts: list[Segment] = []
    for segment in run:
        last = parts[-1] if parts else None
        if isinstance(segment, Line) and isinstance(last, Line):
            whole = Line(last.start, segment.end)
            # Two lines are one where going over the shared point is no detour. NEAR squared: the
            # detour grows with the square of how far that point lies aside.
            way = distance(last.start, last.end) + distance(segment.start, segment.end)
            if way - distance(whole.start, whole.end) <= NEAR * NEAR:
                parts[-1] = whole
                continue
        parts.append(segment)
    return tuple(parts)
