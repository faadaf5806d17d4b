"""Flat outlines with a thickness → solids in an oblique view, seen from the front and above."""

from dataclasses import dataclass
from itertools import pairwise
from math import hypot

from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Line, Point, Run
from guidegen.pictures.pen.canvas import Canvas, Stroke
from guidegen.pictures.pen.frames import polygon, polyline
from guidegen.pictures.pen.tints import NARROW, Tint

ACROSS = 0.36
"""How far a step to the back moves to the right on the drawing."""
UP = 0.42
"""How far a step to the back moves up on the drawing."""
BEND = 0.04
"""mm on the drawing; flattening of outlines, finer than a line is wide."""
CORNER = 0.35
"""Sine of the turn; a sharper turn of an outline shows an edge on the wall."""


@dataclass(frozen=True, slots=True)
class View:
    """An oblique view at one scale: x to the right, y to the back, height straight up."""

    scale: float
    x: float
    y: float
    """mm on the drawing; where the origin of the lowest face comes to lie."""

    def point(self, point: Point, lift: float = 0.0) -> Point:
        """A point of a face on the drawing; `lift` is in mm of the drawing."""
        x, y = point[0] * self.scale, point[1] * self.scale
        return (self.x + x + ACROSS * y, self.y + UP * y + lift)


def draw_solid(
    canvas: Canvas,
    rings: tuple[Run, ...],
    view: View,
    span: tuple[float, float],
    tint: Tint,
) -> None:
    """Draw a slab whose outline and holes are `rings`, from lift `span[0]` to `span[1]`.

    Walls that face the viewer come first, then the top face: it hides what lies behind it, also
    inside holes.
    """
    low, high = span
    # What may bend off is told in mm of the drawing, outlines are in mm of foam.
    flat = [_counter(flatten(ring, BEND / view.scale), hole=n > 0) for n, ring in enumerate(rings)]
    walls: list[Run] = []
    edges: list[Run] = []
    for points in flat:
        for chain in _front_chains(points):
            bottom = [view.point(point, low) for point in chain]
            top = [view.point(point, high) for point in chain]
            # Up one side and back along the other: one closed face for a chain of walls.
            walls.append(polygon([*bottom, *reversed(top)]))
            edges.append(polyline(bottom))
            edges.extend(
                (Line(bottom[number], top[number]),)
                for number in range(len(chain))
                # Upright edges at the ends of what is seen and at corners; along a curve they
                # would be a hatch.
                if number in {0, len(chain) - 1} or _corner(chain, number)
            )
    # Faces in the order of seeing: walls, their edges, then the top, which covers what is behind
    # it.
    for wall in walls:
        canvas.path([wall], None, fill=darker(tint.fill), css=f"{tint.css}-side", closed=True)
    canvas.path(edges, Stroke(0.35, cap="round"), css="ink")
    faces = [polygon([view.point(point, high) for point in points]) for points in flat]
    canvas.path(faces, Stroke(0.35), fill=tint.fill, css=f"{tint.css} ink", closed=True)


def draw_on_face(canvas: Canvas, runs: tuple[Run, ...], view: View, lift: float) -> None:
    """Draw closed lines on a face, narrow and dashed."""
    drawn = [
        polyline([view.point(point, lift) for point in flatten(run, BEND / view.scale)])
        for run in runs
    ]
    canvas.path(drawn, Stroke(NARROW.width, dash=(1.5, 0.75)), css="thin line-placement")


def _counter(points: list[Point], *, hole: bool) -> list[Point]:
    """Points without the repeated end, outline counter-clockwise, holes clockwise."""
    if points[0] == points[-1] or _near(points[0], points[-1]):
        points = points[:-1]
    area = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise([*points, points[0]]))
    return points if (area > 0) != hole else points[::-1]


def _near(first: Point, second: Point) -> bool:
    return abs(first[0] - second[0]) < 1e-6 and abs(first[1] - second[1]) < 1e-6


def _front_chains(points: list[Point]) -> list[list[Point]]:
    """Runs of neighbouring edges whose outward side faces the viewer.

    With the solid on the left of each edge, its outward normal is (dy, -dx). The viewer looks
    along the direction that the view shears away: a wall shows where its normal leans against it.
    """
    count = len(points)
    faces = []
    for number in range(count):
        (x0, y0), (x1, y1) = points[number], points[(number + 1) % count]
        normal = (y1 - y0, x0 - x1)
        # A step to the back goes right on the drawing, so one sees from the front and a little
        # from the right; walls along the line of sight are not seen.
        faces.append(normal[0] * ACROSS - normal[1] * 1.0 > 1e-9)
    if all(faces):
        return [[*points, points[0]]]
    chains: list[list[Point]] = []
    # Begun at an edge that is not seen, so that no chain is torn where the ring begins.
    start = next((n for n in range(count) if not faces[n]), 0)
    for step in range(1, count + 1):
        number = (start + step) % count
        if not faces[number]:
            continue
        if not chains or not faces[(number - 1) % count]:
            chains.append([points[number]])
        chains[-1].append(points[(number + 1) % count])
    return chains


def _corner(chain: list[Point], number: int) -> bool:
    """Whether a chain turns sharply at a point."""
    (x0, y0), (x1, y1), (x2, y2) = chain[number - 1 : number + 2]
    ax, ay, bx, by = x1 - x0, y1 - y0, x2 - x1, y2 - y1
    return abs(ax * by - ay * bx) > CORNER * hypot(ax, ay) * hypot(bx, by)


def darker(colour: str, share: float = 0.82) -> str:
    """A hex colour with less light: walls beside faces."""
    parts = (round(int(colour[at : at + 2], 16) * share) for at in (1, 3, 5))
    return "#" + "".join(f"{part:02x}" for part in parts)
