"""Rings in → areas, validity, what covers what, limbs: everything that is asked of filled polygons.

Flattened rings, in mm; how far things are apart stands in `distances`.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import cos, hypot, inf, radians, sin

from shapely import LineString, MultiLineString, Polygon, line_merge
from shapely import Point as ShapelyPoint
from shapely.geometry.base import BaseGeometry
from shapely.geometry.polygon import orient
from shapely.validation import explain_validity

from guidegen.geometry.outline.measures import flatten, run_area
from guidegen.geometry.outline.polygons import Ring, parts_of, polygon_of
from guidegen.geometry.outline.records import Point, Shape

_FILM = 0.05
"""mm; rolling discs along curves leaves films of rounding thinner than this. Our choice."""


def polygon_area(ring: Ring, holes: Iterable[Ring] = ()) -> float:
    """mm² inside a ring and outside its holes."""
    return float(polygon_of(ring, holes).area)


def shape_area(shape: Shape) -> float:
    """mm² of foam in a shape, of the true curves: holes run clockwise and count as negative."""
    return run_area(shape.ring()) + sum(run_area(hole) for hole in shape.holes)


def fault_of(shape: Shape) -> tuple[str, Point | None] | None:
    """What is wrong with a shape's outline and holes, and where; None when they are sound.

    Sound: no line crosses or touches itself, every hole lies inside and clear of the others.
    """
    ring = flatten(shape.ring())
    if len(set(ring)) < 3:
        return ("the outline has no area", None)
    outline = polygon_of(ring)
    if not outline.is_valid:
        return ("the outline crosses itself", _where(outline))
    # A sliver passes every test of crossing; less than a square millimetre is a slip of the pen.
    if outline.area < 1:
        return ("the outline has no area worth cutting", None)
    whole = polygon_of(ring, [flatten(hole) for hole in shape.holes])
    if not whole.is_valid:
        return ("a hole crosses the outline or another hole", _where(whole))
    for hole in shape.holes:
        inner = polygon_of(flatten(hole))
        if not outline.covers(inner):
            return ("a hole lies outside the outline", flatten(hole)[0])
    return None


def _where(geometry: Polygon) -> Point | None:
    """The point that Shapely's explanation names, such as 'Self-intersection[5 5]'."""
    words = explain_validity(geometry)
    try:
        x, y = words[words.index("[") + 1 : words.index("]")].split()[:2]
        return (float(x), float(y))
    except ValueError:
        return None


def overlap_area(first: Ring, second: Ring) -> float:
    """mm² that two filled rings share."""
    return float(polygon_of(first).intersection(polygon_of(second)).area)


def convex_hull(points: Sequence[Point]) -> list[Point]:
    """Corners of the smallest convex ring around points, counter-clockwise, each once."""
    hull = LineString(points).convex_hull
    if not isinstance(hull, Polygon):
        return sorted(set(points))
    corners = [(float(x), float(y)) for x, y in hull.exterior.coords[:-1]]
    return corners if hull.exterior.is_ccw else corners[::-1]


def clip_line(line: Sequence[Point], shape: Shape) -> list[list[Point]]:
    """The stretches of a polyline that lie on the foam of a shape, in the line's order."""
    whole = polygon_of(flatten(shape.ring()), [flatten(hole) for hole in shape.holes])
    path = LineString(line)
    inside = path.intersection(whole)
    parts = inside.geoms if hasattr(inside, "geoms") else [inside]
    lines = [part for part in parts if isinstance(part, LineString) and part.length > 1e-6]
    lines = [part for part in _merged(lines) if part.length > 1e-6]
    lines.sort(key=lambda part: path.project(ShapelyPoint(part.coords[0])))
    return [[(float(x), float(y)) for x, y in part.coords] for part in lines]


def _merged(lines: list[LineString]) -> list[LineString]:
    if len(lines) < 2:
        return lines
    # Where a line touches a hole or a corner Shapely cuts it though foam lies on both sides.
    # Directed: the order of the author's line is kept, for arrows and for words along it.
    merged = line_merge(MultiLineString(lines), directed=True)
    parts = merged.geoms if hasattr(merged, "geoms") else [merged]
    return [part for part in parts if isinstance(part, LineString)]


def least_misfit(
    ring: Ring, width: float, height: float, angles: Iterable[float]
) -> tuple[float, float]:
    """How many mm a ring lacks to lie in a rectangle, at the best of `angles`, and that angle.

    Zero or less where it fits. The excess at an angle is the larger one of both directions.
    """
    # Only corners of the hull can be outermost at any angle: some twenty points instead of
    # thousands.
    hull = convex_hull(ring)
    best, best_angle = inf, 0.0
    for angle in angles:
        c, s = cos(radians(angle)), sin(radians(angle))
        xs = [x * c - y * s for x, y in hull]
        ys = [x * s + y * c for x, y in hull]
        excess = max(max(xs) - min(xs) - width, max(ys) - min(ys) - height)
        # Strictly better, and by more than rounding: among equal angles the first one wins on
        # every machine.
        if excess < best - 1e-9:
            best, best_angle = excess, angle
    return best, best_angle


def is_sound(ring: Ring, holes: Iterable[Ring] = ()) -> bool:
    """True where a ring with holes has an area and crosses or touches itself nowhere."""
    polygon = polygon_of(ring, holes)
    return bool(polygon.is_valid and polygon.area > 0)


def encloses(ring: Ring, point: Point) -> bool:
    """True where a point lies within a ring or on it."""
    return bool(polygon_of(ring).covers(ShapelyPoint(point)))


def swollen_area(ring: Ring, holes: Iterable[Ring], width: float) -> float:
    """mm² of a ring with holes once it has grown by `width` mm all around, corners rounded."""
    return float(polygon_of(ring, holes).buffer(width).area)


def shrunk(ring: Ring, holes: Iterable[Ring], width: float) -> list[list[list[Point]]]:
    """What is left of a ring with holes that loses `width` mm all round, largest piece first.

    Each piece is its outer ring and its holes, counter-clockwise and clockwise, the first point
    not repeated. Corners stay corners (mitres); what is narrower than twice the width is gone.
    """
    left = polygon_of(ring, holes).buffer(-width, join_style="mitre")
    pieces = []
    for polygon in parts_of(left):
        sound = orient(polygon)
        rings = [sound.exterior, *sound.interiors]
        pieces.append([[(float(x), float(y)) for x, y in one.coords[:-1]] for one in rings])
    return pieces


def lies_within(
    ring: Ring, holes: Iterable[Ring], outer: Ring, outer_holes: Iterable[Ring]
) -> bool:
    """True where no foam of the first polygon lies outside the second (to a millionth of a mm)."""
    # Rings that share an edge differ by rounding after a turn; a millionth of a mm forgives that
    # and nothing that a knife could do.
    return bool(polygon_of(outer, outer_holes).buffer(1e-6).covers(polygon_of(ring, holes)))


def stencil(rings: Iterable[Ring], bridge: float, upright: float) -> tuple[list[list[Point]], int]:
    """Rings to cut so that nothing within falls out (even-odd rule), and how many bridges hold it.

    A bar of `bridge` mm goes through the middle of each island, upright when the whole is turned
    back by `upright` degrees. Rings come counter-clockwise, the first point not repeated.
    """
    cut: BaseGeometry = Polygon()
    for ring in rings:
        cut = cut.symmetric_difference(polygon_of(ring))
    ux, uy = -sin(radians(upright)), cos(radians(upright))
    waiting, done, bridges = parts_of(cut), [], 0
    while waiting:
        one = waiting.pop(0)
        if not one.interiors:
            done.append([(float(x), float(y)) for x, y in orient(one).exterior.coords[:-1]])
            continue
        inner = one.interiors[0].coords
        xs, ys = [x for x, _ in inner], [y for _, y in inner]
        x, y = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        # As long as all around it: it has to pass the outline above and below the island.
        reach, half = float(one.length), bridge / 2
        sides = ((-half, -reach), (half, -reach), (half, reach), (-half, reach))
        bar = polygon_of([(x + a * uy + b * ux, y - a * ux + b * uy) for a, b in sides])
        bridges += len(parts_of(one.intersection(bar)))
        waiting += parts_of(one.difference(bar))
    return done, bridges


@dataclass(frozen=True, slots=True)
class Limb:
    """A thin limb of a polygon, or a narrow gap in it."""

    length: float
    """mm; diagonal of the smallest rectangle around it, however it is turned."""
    at: Point
    """A point of it."""


def thin_limbs(ring: Ring, width: float) -> list[Limb]:
    """What of a ring is nowhere `width` mm wide: spikes, slivers, necks, tips of sharp corners.

    What a disc of that width cannot reach from inside: the ring without its morphological opening.
    """
    polygon = polygon_of(ring)
    opened = polygon.buffer(-width / 2, join_style="mitre").buffer(width / 2, join_style="round")
    return _limbs(polygon.difference(opened.buffer(_FILM)))


def narrow_gaps(ring: Ring, width: float) -> list[Limb]:
    """Gaps in the outline less than `width` mm wide: notches and slits; the same from outside."""
    polygon = polygon_of(ring)
    closed = polygon.buffer(width / 2, join_style="mitre").buffer(-width / 2, join_style="round")
    return _limbs(closed.difference(polygon.buffer(_FILM)))


def widest_spot(
    rings: Sequence[Ring], precision: float, lines: Sequence[Ring] = ()
) -> tuple[Point, float]:
    """Middle of the largest circle inside an outline and outside its holes, and its radius in mm.

    Neither does it cross any of the `lines`. To `precision` mm: what is left of the area when it
    loses more and more all round, until nothing is. Rings that are no outline with holes count by
    the even-odd rule. Without any area it is the middle of the box around them, with a radius of 0.
    """
    area: BaseGeometry = polygon_of(rings[0], rings[1:])
    if not area.is_valid:
        area = Polygon()
        for ring in rings:
            area = area.symmetric_difference(polygon_of(ring).buffer(0))
    xs, ys = zip(*(point for ring in rings for point in ring), strict=True)
    if not parts_of(area):
        return ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2), 0.0
    if lines:
        drawn = MultiLineString([list(line) for line in lines]).buffer(precision / 4)
        free = area.difference(drawn)
        area = free if parts_of(free) else area
    # Not GEOS's search for the largest circle: it is another one in each of its versions, and
    # pages have to come out alike on all of them. What is left at one radius is what the next one
    # is tried on, so that each trial has less to do.
    left, radius, most = area, 0.0, min(max(xs) - min(xs), max(ys) - min(ys)) / 2
    while most - radius > precision:
        middle = (radius + most) / 2
        less = left.buffer(radius - middle)
        if parts_of(less):
            left, radius = less, middle
        else:
            most = middle
    point = parts_of(left)[0].representative_point()
    return (float(point.x), float(point.y)), radius


def _limbs(geometry: BaseGeometry) -> list[Limb]:
    found = []
    for polygon in parts_of(geometry):
        box = polygon.minimum_rotated_rectangle
        if isinstance(box, Polygon):
            (ax, ay), _, (cx, cy) = box.exterior.coords[:3]
            point = polygon.representative_point()
            found.append(Limb(hypot(cx - ax, cy - ay), (float(point.x), float(point.y))))
    return found
