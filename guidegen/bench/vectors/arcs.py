"""Curves as PDF has them in → circular arcs where they stand for such.

PDF knows no arcs: each program writes a circle as curves of its own making. Their ends lie on the
circle and their ends' directions along it, so the circle is found exactly, though the curves
themselves leave it by up to 0.03 % of its radius.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from math import atan2, degrees, sin, tan

from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import segment_point
from guidegen.geometry.outline.records import Arc, Cubic, Line, Point, Run, Segment

SIDEWAYS = 0.006
"""mm that a control point may lie beside the direction of the circle, and a joint beside it: what
rounding to two decimals of a point leaves. Our choice."""
HANDLE = 0.001
"""Share by which a control point may be nearer or farther than the textbook has it: 0.5519 and
0.5523 are both in use for a quarter (a difference of 0.0007)."""
LOOSE = 0.1
"""mm that a curve may leave the circle by where three in a row are on the same one: some programs
write a circle as parabolas. Our choice."""
ROUND = 0.008
"""Share of the radius that curves may leave a circle by that they go round as a whole: some
programs take 0.5642 for a quarter, which bulges by 0.0065."""
MOST = 400
"""Curves of one arc. Our choice: the most that was seen in a whole circle is 128."""
LARGEST = 20_000.0
"""mm of radius: a flatter arc is a line to any knife."""


@dataclass(frozen=True, slots=True)
class _Guess:
    """The circle that a curve may stand for."""

    arc: Arc
    sure: bool
    """True where the curve is the textbook's for this arc."""


type _Curve = tuple[Cubic, _Guess]


def with_arcs(run: Run) -> Run:
    """The run with arcs for the curves that stand for them."""
    found: list[Segment] = []
    waiting: list[_Curve] = []
    for segment in run:
        guess = _guess(segment) if isinstance(segment, Cubic) else None
        if guess is not None and isinstance(segment, Cubic):
            waiting.append((segment, guess))
            continue
        found.extend(_settled(waiting))
        waiting = []
        found.append(_straightened(segment))
    found.extend(_settled(waiting))
    return tuple(found)


def _settled(curves: list[_Curve]) -> Iterator[Segment]:
    """Neighbouring curves as arcs, each as long as can be, or as they were."""
    index = 0
    while index < len(curves):
        count, arc = 1, None
        # One curve more as long as all lie on one circle: their own guesses differ by more, since
        # a short curve says little of a large circle.
        while index + count < len(curves) and count < MOST:
            longer = _common(curves[index : index + count + 1])
            if longer is None:
                break
            count, arc = count + 1, longer
        group = curves[index : index + count]
        curve, guess = group[0]
        if arc is not None and _is_meant(group, arc):
            yield arc
        else:
            count = 1
            yield guess.arc if guess.sure else curve
        index += count


def _is_meant(group: list[_Curve], arc: Arc) -> bool:
    """Whether curves that lie on one circle stand for an arc of it."""
    if all(guess.sure for _, guess in group):
        return True
    return len(group) >= 3 and (
        abs(arc.sweep) >= 360 or _aside(group, arc.centre, arc.radius) <= LOOSE
    )


def _aside(group: list[_Curve], centre: Point, radius: float) -> float:
    """mm that the middle of a curve lies beside a circle at most."""
    return max(abs(distance(segment_point(one, 0.5), centre) - radius) for one, _ in group)


def _common(group: list[_Curve]) -> Arc | None:
    """The one circle on which curves lie end to end, as the arc that they are; None without one."""
    turns = [guess.arc.sweep for _, guess in group]
    if min(turns) < 0 < max(turns) or abs(sum(turns)) > 361:
        return None
    joints = [group[0][0].start, *(curve.end for curve, _ in group)]
    whole = distance(joints[0], joints[-1]) < 3 * SIDEWAYS
    if whole and len(group) < 3:
        return None
    third = len(joints) // 3
    three = (joints[third], joints[2 * third]) if whole else (joints[len(joints) // 2], joints[-1])
    circle = _through(joints[0], *three)
    if circle is None:
        return None
    centre, radius = circle
    if any(abs(distance(joint, centre) - radius) > SIDEWAYS for joint in joints):
        return None
    if _aside(group, centre, radius) > max(LOOSE, ROUND * radius):
        return None
    first, last = _angle(centre, joints[0]), _angle(centre, joints[-1])
    left = turns[0] > 0
    sweep = (last - first) % 360 if left else -((first - last) % 360)
    return Arc(centre, radius, first, (360.0 if left else -360.0) if whole else sweep)


def _through(p: Point, q: Point, r: Point) -> tuple[Point, float] | None:
    """Centre and radius in mm of the circle through three points; None where they are in line."""
    ax, ay, bx, by = q[0] - p[0], q[1] - p[1], r[0] - p[0], r[1] - p[1]
    double = 2 * (ax * by - ay * bx)
    if abs(double) < 1e-9:
        return None
    aa, bb = ax * ax + ay * ay, bx * bx + by * by
    x, y = (by * aa - ay * bb) / double, (ax * bb - bx * aa) / double
    radius = (x * x + y * y) ** 0.5
    return ((p[0] + x, p[1] + y), radius) if radius <= LARGEST else None


def _guess(curve: Cubic) -> _Guess | None:
    """The circle through both ends along both directions, where one circle does that."""
    chord = distance(curve.start, curve.end)
    h0, h1 = distance(curve.start, curve.control1), distance(curve.control2, curve.end)
    if min(chord, h0, h1) < 1e-3:
        return None
    ux, uy = (curve.end[0] - curve.start[0]) / chord, (curve.end[1] - curve.start[1]) / chord

    def turned(p: Point, q: Point) -> tuple[float, float]:
        """A difference along the chord and to its left."""
        x, y = q[0] - p[0], q[1] - p[1]
        return (x * ux + y * uy, y * ux - x * uy)

    first, last = turned(curve.start, curve.control1), turned(curve.control2, curve.end)
    # Half of the turn, on either side of the chord: the same for a circle.
    alpha = atan2(first[1] - last[1], first[0] + last[0])
    if not 0.002 < abs(alpha) < 1.58:
        return None
    radius = chord / 2 / sin(abs(alpha))
    handle = 4 / 3 * tan(abs(alpha) / 2) * radius
    if radius > LARGEST:
        return None
    # What is not alike on both sides is no circle.
    if max(abs(first[0] - last[0]), abs(first[1] + last[1])) > 2 * SIDEWAYS + HANDLE * handle:
        return None
    mean = (h0 + h1) / 2
    # From the chord to the centre.
    rise = chord / 2 / tan(abs(alpha))
    # A curve leaves its chord by three quarters of what its control points do.
    aside = abs(0.75 * abs(first[1] - last[1]) / 2 - (radius - rise))
    sure = abs(mean - handle) <= SIDEWAYS + HANDLE * handle
    if not sure and (aside > max(LOOSE, ROUND * radius) or abs(alpha) > 0.8):
        return None
    # To the left of the chord where the curve turns left: it starts out to the right then.
    side = -1.0 if alpha > 0 else 1.0
    middle = (
        (curve.start[0] + curve.end[0]) / 2 - uy * rise * side,
        (curve.start[1] + curve.end[1]) / 2 + ux * rise * side,
    )
    sweep = -degrees(2 * alpha)
    return _Guess(Arc(middle, radius, _angle(middle, curve.start), sweep), sure)


def _angle(centre: Point, point: Point) -> float:
    return degrees(atan2(point[1] - centre[1], point[0] - centre[0]))


def _straightened(segment: Segment) -> Segment:
    """A curve that is a line to any knife as a line."""
    if not isinstance(segment, Cubic):
        return segment
    chord = distance(segment.start, segment.end)
    if chord < 1e-6:
        return segment
    ux, uy = (
        (segment.end[0] - segment.start[0]) / chord,
        (segment.end[1] - segment.start[1]) / chord,
    )
    for control in (segment.control1, segment.control2):
        x, y = control[0] - segment.start[0], control[1] - segment.start[1]
        # Forward too: a handle that leads back makes a line run over itself.
        if abs(y * ux - x * uy) > 1e-4 or not -1e-4 <= x * ux + y * uy <= chord + 1e-4:
            return segment
    return Line(segment.start, segment.end)
