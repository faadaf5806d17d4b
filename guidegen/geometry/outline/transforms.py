"""Shapes in → the same shapes moved, turned or mirrored; outlines stay counter-clockwise.

A motion keeps lengths: it mirrors across the y axis first (if at all), then turns about the
origin, then moves. Mirroring would turn outlines clockwise, so their runs are reversed too.
"""

from dataclasses import dataclass, replace
from math import cos, radians, sin

from guidegen.geometry.outline.measures import heading
from guidegen.geometry.outline.records import (
    Arc,
    BevelledEdge,
    Cubic,
    Edge,
    InnerLine,
    Line,
    MatchMark,
    Point,
    Run,
    Segment,
    Shape,
)


@dataclass(frozen=True, slots=True)
class RigidMotion:
    """A rigid motion of the plane: mirror across the y axis, then turn, then move."""

    dx: float = 0.0
    """mm to the right."""
    dy: float = 0.0
    """mm upward."""
    angle: float = 0.0
    """degrees about the origin, counter-clockwise."""
    mirrored: bool = False
    """True: x becomes -x before all else."""

    def vector(self, vector: Point) -> Point:
        """A direction or difference after the motion (not moved)."""
        x, y = (-vector[0] if self.mirrored else vector[0]), vector[1]
        if not self.angle:
            return (x, y)
        c, s = cos(radians(self.angle)), sin(radians(self.angle))
        return (x * c - y * s, x * s + y * c)

    def point(self, point: Point) -> Point:
        """A point after the motion."""
        x, y = self.vector(point)
        return (x + self.dx, y + self.dy)


def mirror_across(start: Point, end: Point) -> RigidMotion:
    """The motion that mirrors across the line through two different points."""
    # Mirroring across a line at angle a through the origin takes a direction b to 2a - b;
    # across the y axis b becomes 180 - b, so a turn by 2a - 180 remains.
    angle = 2 * heading((end[0] - start[0], end[1] - start[1])) - 180
    turned = RigidMotion(angle=angle, mirrored=True).vector(start)
    return RigidMotion(start[0] - turned[0], start[1] - turned[1], angle, mirrored=True)


def transform_segment(segment: Segment, motion: RigidMotion) -> Segment:
    """A segment after the motion, run through in the same order."""
    match segment:
        case Line(start=start, end=end):
            return Line(motion.point(start), motion.point(end))
        case Arc(centre=centre, radius=radius, start_angle=start_angle, sweep=sweep):
            if motion.mirrored:
                # In a mirror a point at angle a stands at 180 - a, and what turned left turns
                # right.
                start_angle, sweep = 180 - start_angle, -sweep
            return Arc(motion.point(centre), radius, start_angle + motion.angle, sweep)
        case Cubic(start=start, control1=control1, control2=control2, end=end):
            return Cubic(
                motion.point(start),
                motion.point(control1),
                motion.point(control2),
                motion.point(end),
            )


def transform_run(run: Run, motion: RigidMotion) -> Run:
    """A run after the motion, in the same order: a mirrored ring changes its orientation."""
    return tuple(transform_segment(segment, motion) for segment in run)


def reverse_segment(segment: Segment) -> Segment:
    """The same curve from its other end."""
    match segment:
        case Line(start=start, end=end):
            return Line(end, start)
        case Arc(centre=centre, radius=radius, start_angle=start_angle, sweep=sweep):
            return Arc(centre, radius, start_angle + sweep, -sweep)
        case Cubic(start=start, control1=control1, control2=control2, end=end):
            return Cubic(end, control2, control1, start)


def reverse_run(run: Run) -> Run:
    """The same run from its other end."""
    return tuple(reverse_segment(segment) for segment in reversed(run))


def transform_ring(run: Run, motion: RigidMotion) -> Run:
    """A closed run after the motion, its orientation kept."""
    moved = transform_run(run, motion)
    # Everything downstream takes the foam to lie on the left of a ring: offsets, bevels, marks.
    return reverse_run(moved) if motion.mirrored else moved


def transform_edges(edges: tuple[Edge, ...], motion: RigidMotion) -> tuple[Edge, ...]:
    """The edges of an outline after the motion, counter-clockwise, the first still first."""
    moved = tuple(Edge(edge.name, transform_ring(edge.run, motion)) for edge in edges)
    # Each edge is reversed already; reversing their order too keeps the ring closed. The first
    # stays first, so that left and right of a pair count their edges alike.
    return moved[:1] + moved[:0:-1] if motion.mirrored else moved


def transform_line(line: InnerLine, motion: RigidMotion) -> InnerLine:
    """An inner line after the motion."""
    return replace(line, run=transform_run(line.run, motion))


def transform_mark(mark: MatchMark, motion: RigidMotion) -> MatchMark:
    """A match mark after the motion."""
    return replace(mark, point=motion.point(mark.point), inward=motion.vector(mark.inward))


def transform_bevel(bevel: BevelledEdge, motion: RigidMotion) -> BevelledEdge:
    """A bevelled edge after the motion; its far face keeps the direction of the outline."""
    moved = replace(bevel, far_face=transform_ring(bevel.far_face, motion))
    return moved.turned() if motion.mirrored else moved


def transform_shape(shape: Shape, motion: RigidMotion) -> Shape:
    """A whole shape after the motion, with all that is drawn on it."""
    return Shape(
        edges=transform_edges(shape.edges, motion),
        holes=tuple(transform_ring(hole, motion) for hole in shape.holes),
        lines=tuple(transform_line(line, motion) for line in shape.lines),
        marks=tuple(transform_mark(mark, motion) for mark in shape.marks),
        bevels=tuple(transform_bevel(bevel, motion) for bevel in shape.bevels),
    )


def move_shape(shape: Shape, dx: float, dy: float) -> Shape:
    """A shape moved by `dx` mm to the right and `dy` mm upward."""
    return transform_shape(shape, RigidMotion(dx, dy))


MIRROR = RigidMotion(mirrored=True)
"""Left becomes right: mirrored across the y axis."""


def mirror_shape(shape: Shape) -> Shape:
    """A shape mirrored across the y axis: the other hand of a pair."""
    return transform_shape(shape, MIRROR)
