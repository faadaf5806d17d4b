"""A part that is laid on another → where it comes to lie: from the middle, an edge or a corner."""

from collections.abc import Mapping
from dataclasses import dataclass

from guidegen.buildfile.records.guide import Placement
from guidegen.geometry.outline.curves import inward_normal, lines_through, point_at, straight_ends
from guidegen.geometry.outline.distances import gap_between
from guidegen.geometry.outline.measures import (
    bounds,
    flatten,
    heading,
    run_length,
    segment_end,
    segment_start,
)
from guidegen.geometry.outline.offsets import OffsetError, offset_run
from guidegen.geometry.outline.records import Point, Run
from guidegen.geometry.outline.transforms import RigidMotion, reverse_run, transform_run
from guidegen.geometry.parts.finished import Finished
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.problems import did_you_mean
from guidegen.units import mm_text

LED_FROM = 2.0
"""mm from which a part is led to a curved edge. Our choice: rims bend little over it."""
STEPS, CLOSE = 20, 0.005
"""Corrections at most, and mm that are near enough: a quarter of what outlines are flattened to."""

SLIDES, HALVINGS = 24, 24
"""Places tried along a curved rim, and halvings between two of them: 1 m is found to 0.01 mm with
fewer. Our choice."""


@dataclass(frozen=True, slots=True)
class LaidPart:
    """A part as it lies on another one."""

    part: str
    ring: Run
    """Its outline there."""
    holes: tuple[Run, ...] = ()
    motion: RigidMotion | None = None
    """From its own place to there; None where it is bent along an edge."""


def lay(
    asker: PartAsker, number: int, finished: Finished, others: Mapping[str, Finished]
) -> LaidPart | None:
    """Where the placement `number` of a part lies; None, and problems, where it cannot."""
    placement = asker.part.placements[number]
    other = others.get(placement.part)
    place = ("placements", number)
    x = asker.number(placement.at[0], *place, "at", 0)
    y = asker.number(placement.at[1], *place, "at", 1)
    angle = asker.number(placement.angle, *place, "angle")
    if x is None or y is None or angle is None or other is None:
        return None  # what is missing has been told where it stands
    if placement.along is not None:
        return _band(asker, number, placement, finished, other)
    motion: RigidMotion | None = RigidMotion(x, y, angle)
    if placement.from_edge is not None:
        motion = _from_edge(asker, number, placement.from_edge, finished, other, at=(x, y, angle))
    elif placement.from_corner is not None:
        motion = _from_corner(
            asker, number, placement.from_corner, finished, other, at=(x, y, angle)
        )
    if motion is None:
        return None
    holes = tuple(transform_run(hole, motion) for hole in other.whole.holes)
    return LaidPart(placement.part, transform_run(other.whole.ring(), motion), holes, motion)


def back(motion: RigidMotion, point: Point) -> Point:
    """The point that a motion takes to `point`; the motion does not mirror."""
    return RigidMotion(angle=-motion.angle).vector((point[0] - motion.dx, point[1] - motion.dy))


def _edge_run(asker: PartAsker, finished: Finished, edge: str, *steps: str | int) -> Run | None:
    names = [own.name for own in finished.whole.edges]
    if edge not in names:
        hint = did_you_mean(edge, names)
        asker.refuse("unknown-edge", f'no edge "{edge}" on this part{hint}', *steps)
        return None
    return finished.whole.edge(edge).run


def _nearest_side(other: Finished, angle: float, inward: Point) -> float:
    """mm from the middle of a turned part to its side that looks against `inward`; negative."""
    turned = transform_run(other.whole.ring(), RigidMotion(angle=angle))
    # The part's origin is its middle, so the side that looks at the edge is negative.
    return min(x * inward[0] + y * inward[1] for x, y in flatten(turned))


def _from_edge(
    asker: PartAsker,
    number: int,
    edge: str,
    finished: Finished,
    other: Finished,
    *,
    at: tuple[float, float, float],
) -> RigidMotion | None:
    """at: mm to the right of the edge's middle, mm free from the edge, degrees.

    The part lies along the edge with its upper side up, as on the limb.
    """
    run = _edge_run(asker, finished, edge, "placements", number, "from-edge")
    if run is None:
        return None
    _, tangent = point_at(run, run_length(run) / 2)
    # "To the right" is meant as one looks at the drawing, but an edge may be run through from
    # right to left; the sign follows its direction in the middle.
    forward = -90 < heading(tangent) <= 90
    length = run_length(run) / 2 + (at[0] if forward else -at[0])
    if not 0 <= length <= run_length(run):
        message = f"the edge is {run_length(run):.1f} mm long: that place lies beside it"
        asker.refuse("bad-placement", message, "placements", number, "at", 0)
        return None
    return _along_edge(run, other, length, at[1], at[2] + (0 if forward else 180))


def _along_edge(run: Run, other: Finished, length: float, free: float, turn: float) -> RigidMotion:
    """The part `free` mm inside an edge, beside the point `length` mm along it.

    `turn` is in degrees from the edge's own direction there: half a turn where it runs leftward, or
    the part would lie on its head.
    """
    point, tangent = point_at(run, length)
    inward = inward_normal(tangent)
    angle = heading(tangent) + turn
    # As if the edge were straight, along its tangent; exact for straight ones.
    reach = free - _nearest_side(other, angle, inward)
    first = RigidMotion(point[0] + inward[0] * reach, point[1] + inward[1] * reach, angle)
    if straight_ends(run) is not None:
        return first
    return _free_of_curve(run, other, first, inward, free)


def _free_of_curve(
    run: Run, other: Finished, first: RigidMotion, inward: Point, free: float
) -> RigidMotion:
    """Moved along `inward` until the part is `free` mm from a curved edge where it is nearest.

    A rim that bulges comes nearer beside the middle, one that is hollow stays farther away. Parts
    that touch the edge are led there from a little way off, since what overlaps has no distance.
    """
    away = max(free, LED_FROM)
    lead = away - free
    line, ring = flatten(run), other.whole.ring()
    motion = RigidMotion(first.dx + inward[0] * lead, first.dy + inward[1] * lead, first.angle)
    for _ in range(STEPS):
        # Moving by what is missing overshoots a little where the nearest point lies to one side,
        # so it is repeated: each round the rest shrinks.
        off = away - gap_between(line, flatten(transform_run(ring, motion)))
        if abs(off) < CLOSE:
            break
        motion = RigidMotion(motion.dx + inward[0] * off, motion.dy + inward[1] * off, motion.angle)
    return RigidMotion(motion.dx - inward[0] * lead, motion.dy - inward[1] * lead, motion.angle)


def _from_corner(
    asker: PartAsker,
    number: int,
    edges: tuple[str, str],
    finished: Finished,
    other: Finished,
    *,
    at: tuple[float, float, float],
) -> RigidMotion | None:
    """at: mm free from the first edge, mm free from the second, degrees."""
    place = ("placements", number, "from-corner")
    runs = [_edge_run(asker, finished, edge, *place) for edge in edges]
    if runs[0] is None or runs[1] is None:
        return None
    lines = [_line_of(run) for run in runs if run is not None]
    if lines[0] is None and lines[1] is None:
        message = f"{edges[0]} and {edges[1]} are both curved: measure from-edge instead"
        asker.refuse("bad-placement", message, *place)
        return None
    for line, rim, gaps in (
        (lines[0], runs[1], (at[0], at[1])),
        (lines[1], runs[0], (at[1], at[0])),
    ):
        if line is not None and _line_of(rim) is None:
            motion = _in_curved_corner(rim, line, other, gaps, at[2])
            if motion is None:
                message = f"there is no such place between {edges[0]} and {edges[1]}"
                asker.refuse("bad-placement", message, *place)
            return motion
    rows = [
        (line[0], line[1] + gap - _nearest_side(other, at[2], line[0]))
        for line, gap in zip(lines, at[:2], strict=True)
        if line is not None
    ]
    (first, one), (second, two) = rows
    # Two distances from two lines fix a point: the lines' equations solved by Cramer's rule, whose
    # denominator is the sine of the angle between them; 0.05 is about 3 degrees.
    turn = first[0] * second[1] - first[1] * second[0]
    if abs(turn) < 0.05:
        message = f"{edges[0]} and {edges[1]} are nearly parallel: they make no corner"
        asker.refuse("bad-placement", message, "placements", number, "from-corner")
        return None
    x = (one * second[1] - two * first[1]) / turn
    y = (first[0] * two - second[0] * one) / turn
    return RigidMotion(x, y, at[2])


def _line_of(run: Run) -> tuple[Point, float] | None:
    """Unit vector into the foam, and mm of a straight edge along it; None for a curved edge."""
    ends = straight_ends(run)
    if ends is None:
        return None
    length = run_length(lines_through(*ends))
    inward = inward_normal(((ends[1][0] - ends[0][0]) / length, (ends[1][1] - ends[0][1]) / length))
    return inward, ends[0][0] * inward[0] + ends[0][1] * inward[1]


def _in_curved_corner(
    rim: Run, line: tuple[Point, float], other: Finished, gaps: tuple[float, float], turn: float
) -> RigidMotion | None:
    """Along a curved rim, as from-edge lays it, where a straight edge is `gaps[0]` mm away.

    `gaps[1]` mm stay free of the rim. The part slides along it out of the corner, until it has left
    the edge so far; on a rim that turns on, it would come back later. None where it never does.
    """
    inward, reach = line
    whole = run_length(rim)
    _, tangent = point_at(rim, whole / 2)
    turn += 0 if -90 < heading(tangent) <= 90 else 180
    ends = [segment_start(rim[0]), segment_end(rim[-1])]
    first, last = (abs(x * inward[0] + y * inward[1] - reach) for x, y in ends)

    def laid(share: float) -> RigidMotion:
        length = whole * (share if first <= last else 1 - share)
        return _along_edge(rim, other, length, gaps[1], turn)

    def away(share: float) -> float:
        ring = flatten(transform_run(other.whole.ring(), laid(share)))
        return min(x * inward[0] + y * inward[1] for x, y in ring) - reach - gaps[0]

    if away(0.0) > 0:
        return None
    found = next((n for n in range(1, SLIDES + 1) if away(n / SLIDES) >= 0), None)
    if found is None:
        return None
    low, high = (found - 1) / SLIDES, found / SLIDES
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if away(middle) >= 0 else (middle, high)
    return laid(high)


def _band(
    asker: PartAsker, number: int, placement: Placement, finished: Finished, other: Finished
) -> LaidPart | None:
    """A strip that is bent along an edge, flush with it or `at` so many mm from it."""
    run = _edge_run(asker, finished, placement.along or "", "placements", number, "along")
    gap = asker.number(placement.at[1], "placements", number, "at", 1)
    if run is None or gap is None:
        return None
    _, low, _, high = bounds((other.whole.ring(),))
    try:
        # Inward is negative. The band's own length is not asked: drawn is where it lies, which is
        # as long as the edge there.
        near, far = offset_run(run, -gap), offset_run(run, -(gap + high - low))
    except OffsetError as error:
        message = f"a band of {mm_text(high - low, 1)} mm does not lie there: {error}"
        asker.refuse("bad-placement", message, "placements", number, "along")
        return None
    # Round the band: out along the near side, across, back along the far one, across again.
    there = lines_through(segment_end(near[-1]), segment_end(far[-1]))
    again = lines_through(segment_start(far[0]), segment_start(near[0]))
    return LaidPart(placement.part, (*near, *there, *reverse_run(far), *again))
