"""Rows of points of a part and its outline in → where each point lies, or why it cannot."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from guidegen.buildfile.records.fastening import PointKind, Points
from guidegen.buildfile.yaml.expressions import parse_expression
from guidegen.geometry.outline.areas import encloses
from guidegen.geometry.outline.curves import (
    along,
    distance,
    inward_normal,
    lines_through,
    point_at,
)
from guidegen.geometry.outline.measures import flatten, run_length, segment_end, segment_start
from guidegen.geometry.outline.records import Arc, Point, Run
from guidegen.geometry.outline.transforms import RigidMotion, transform_run
from guidegen.geometry.parts.finished import Finished
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.pieces.placing import LaidPart, back
from guidegen.geometry.pieces.point_checks import fits
from guidegen.geometry.pieces.records import PointRow, RowPoint
from guidegen.problems import did_you_mean

MOST_POINTS = 400
"""Points of one row. Our choice: twice what laces a coat."""


def place_row(
    asker: PartAsker, name: str, finished: Finished, laid: Sequence[LaidPart]
) -> PointRow | None:
    """One row of a part; None, and problems, where it does not fit."""
    points = asker.part.points[name]
    width = asker.between(points.diameter, 0.5, 200, "points", name, "diameter")
    length = asker.between(points.length, 0, 500, "points", name, "length")
    if width is None or length is None:
        return None
    if points.corners is not None:
        spots, pitch = _corners(asker, name, points, finished, laid), 0.0
    else:
        track = _track(asker, name, points, finished, laid)
        spaced = _spaced(asker, name, points, track) if track else None
        if track is None or spaced is None:
            return None
        stations, pitch = spaced
        spots = _spread_out(asker, name, points, track, stations)
    if spots is None:
        return None
    if points.across:
        # A slot is drawn along its direction, so that is turned and not the row.
        spots = [RowPoint(spot.at, (-spot.along[1], spot.along[0])) for spot in spots]
    row = PointRow(
        asker.part_id,
        name,
        points.kind,
        tuple(spots),
        width,
        length,
        pitch,
        2 if finished.half is not None else 1,
        points.through,
        points.part or "",
        thing=points.thing or "",
        pole=points.pole or "",
    )
    return row if fits(asker, row, points, finished, laid) else None


def through_rows(
    row: PointRow, laid: Sequence[LaidPart], others: Mapping[str, Finished]
) -> list[PointRow]:
    """The same holes on the parts that a row goes through, on their own templates."""
    rows = []
    for one in laid:
        # Without a motion the part is bent along an edge: its own place of a hole is not known.
        if one.part not in row.through or one.motion is None:
            continue
        other = others[one.part]
        motion = one.motion
        moved = (
            RowPoint(back(motion, spot.at), RigidMotion(angle=-motion.angle).vector(spot.along))
            for spot in row.spots
        )
        ring = flatten(other.template.ring())
        # A half template keeps the points of its half; unfolding brings the others.
        spots = tuple(spot for spot in moved if encloses(ring, spot.at))
        halves = 2 if other.half is not None else 1
        made = replace(row, part=one.part, spots=spots, halves=halves, through=(), source=row.part)
        made = replace(made, thing="", pole="")
        rows.append(made)
    return rows


def _motion_of(
    asker: PartAsker, name: str, points: Points, laid: Sequence[LaidPart]
) -> RigidMotion | None:
    """From the coordinates that the author means to those of the part."""
    if points.on is None:
        return RigidMotion()
    for one in laid:
        if one.part == points.on and one.motion is not None:
            return one.motion
    hint = did_you_mean(points.on, [one.part for one in laid if one.motion is not None])
    asker.refuse(
        "bad-points", f'"{points.on}" is not placed on this part{hint}', "points", name, "on"
    )
    return None


def _track(
    asker: PartAsker, name: str, points: Points, finished: Finished, laid: Sequence[LaidPart]
) -> tuple[Run, bool] | None:
    """The line that a row follows, and whether it is closed."""
    place = ("points", name)
    if points.along is not None:
        names = [edge.name for edge in finished.template.edges]
        if points.along not in names:
            hint = did_you_mean(points.along, names)
            message = f'no edge "{points.along}" on this part{hint}'
            asker.refuse("unknown-edge", message, *place, "along")
            return None
        run = finished.template.edge(points.along).run
        # An edge that goes all the way round has no ends, so its points have no margins.
        return run, distance(segment_start(run[0]), segment_end(run[-1])) < 0.02
    motion = _motion_of(asker, name, points, laid)
    if motion is None:
        return None
    if points.line is not None:
        ends = [
            [asker.number(end[axis], *place, "line", key, axis) for axis in (0, 1)]
            for key, end in (("from", points.line.start), ("to", points.line.end))
        ]
        (x0, y0), (x1, y1) = ends
        if x0 is None or y0 is None or x1 is None or y1 is None:
            return None
        if distance((x0, y0), (x1, y1)) < 0.02:
            # A single point is a line that goes nowhere; it has a direction all the same.
            x1 += 0.01
        return transform_run(lines_through((x0, y0), (x1, y1)), motion), False
    circle = points.circle
    if circle is None:
        raise AssertionError("the model wants one of the four")
    wide = asker.between(circle.diameter, 1, 5000, *place, "circle", "diameter")
    start = asker.number(circle.start, *place, "circle", "start")
    x = asker.number(circle.at[0], *place, "circle", "at", 0)
    y = asker.number(circle.at[1], *place, "circle", "at", 1)
    if wide is None or start is None or x is None or y is None:
        return None
    return transform_run((Arc((x, y), wide / 2, start, 360.0),), motion), True


def _spaced(
    asker: PartAsker, name: str, points: Points, track: tuple[Run, bool]
) -> tuple[list[float], float] | None:
    """mm from the start of the track to each point, and from point to point."""
    place, (run, closed) = ("points", name), track
    before = asker.number(points.margin, *place, "margin")
    given = points.margin_end if points.margin_end is not None else points.margin
    after = asker.number(given, *place, "margin-end")
    if before is None or after is None:
        return None
    whole = run_length(run)
    room = whole - before - after
    if room < -0.01:
        message = (
            f"the line is {whole:.1f} mm long: margins of {before:g} and {after:g} mm are longer"
        )
        asker.refuse("bad-points", message, *place, "margin")
        return None
    if points.count is not None:
        count = asker.count(points.count, 1, MOST_POINTS, *place, "count")
        if count is None:
            return None
        if closed and not before and not after:
            # On a ring the last point is followed by the first: count gaps, not count - 1.
            return [whole * n / count for n in range(count)], whole / count
        if count == 1:
            return [before + room / 2], 0.0
        even = room / (count - 1)
        return [before + n * even for n in range(count)], even
    if points.pitch is None:
        raise AssertionError("the model wants count or pitch")
    gap = asker.between(points.pitch, 1, 2000, *place, "pitch")
    if gap is None:
        return None
    # A room of exactly n gaps may come to a hair less by rounding.
    steps = int(room / gap + 1e-9)
    if steps + 1 > MOST_POINTS:
        asker.refuse("bad-points", f"more than {MOST_POINTS} points", *place, "pitch")
        return None
    # What does not fill a gap is shared by both ends.
    first = before + (room - steps * gap) / 2
    return [first + n * gap for n in range(steps + 1)], gap


def _spread_out(
    asker: PartAsker, name: str, points: Points, track: tuple[Run, bool], stations: list[float]
) -> list[RowPoint] | None:
    """Points at their stations, moved inward, staggered or paired."""
    place = ("points", name)
    inset = asker.number(points.inset, *place, "inset")
    stagger = asker.number(points.stagger, *place, "stagger")
    paired = asker.between(points.paired, 0, 500, *place, "paired")
    if inset is None or stagger is None or paired is None:
        return None
    length = asker.number(points.length, *place, "length")
    if points.kind is PointKind.PATCH and points.along is not None:
        # At an edge a strap is glued from the edge inwards; on a line it lies across its middle.
        inset += (length or 0.0) / 2
    spots = []
    for number, station in enumerate(stations):
        point, direction = point_at(track[0], station)
        inward = inward_normal(direction)
        # From the first point on, so that a row begins at its inset and every other steps aside.
        reach = inset + (stagger if number % 2 else 0.0)
        for aside in (-paired / 2, paired / 2) if paired else (0.0,):
            spots.append(RowPoint(along(point, inward, reach + aside), direction))
    return spots


def _corners(
    asker: PartAsker, name: str, points: Points, finished: Finished, laid: Sequence[LaidPart]
) -> list[RowPoint] | None:
    """One point in each corner of the box around the part, or around the part that lies on it."""
    inset = asker.between(points.corners or parse_expression(0), 0, 2000, "points", name, "corners")
    motion = _motion_of(asker, name, points, laid)
    if inset is None or motion is None:
        return None
    ring = finished.whole.ring()
    if points.on is not None:
        # The laid outline, put back to where its middle is the origin.
        placed = next(one for one in laid if one.part == points.on)
        # In the laid part's own position: its box is upright there, and the corners turn with it.
        box = [back(motion, point) for point in flatten(placed.ring)]
    else:
        box = flatten(ring)
    xs, ys = [x for x, _ in box], [y for _, y in box]
    left, right, low, high = min(xs) + inset, max(xs) - inset, min(ys) + inset, max(ys) - inset
    corners: tuple[Point, ...] = ((right, high), (left, high), (left, low), (right, low))
    if finished.half is not None:
        half = flatten(finished.template.ring())
        corners = tuple(corner for corner in corners if encloses(half, motion.point(corner)))
    return [RowPoint(motion.point(corner), motion.vector((1.0, 0.0))) for corner in corners]
