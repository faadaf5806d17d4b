"""A cut line and bevels by edge in → where the smaller face of each bevelled edge ends."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from math import cos, radians, tan

from guidegen.geometry.outline.areas import clip_line, shrunk
from guidegen.geometry.outline.crossings import meetings
from guidegen.geometry.outline.curves import (
    along,
    cut_run,
    inward_normal,
    lines_through,
    point_at,
)
from guidegen.geometry.outline.measures import flatten, run_length
from guidegen.geometry.outline.offsets import OffsetError, offset_edges
from guidegen.geometry.outline.records import BevelledEdge, Run, Shape

STEEPEST = 75.0
"""degrees from square. Our choice: a knife cannot be led flatter through foam."""


SLENDEREST = 30.0
"""degrees of foam that stay at the rim of a bevel; less frays and is dented by a thumb. Common
practice, no source: bevels are cut freehand up to 60 degrees from square."""

BLADE = 20.0
"""mm of a cut through foam at most. Common practice, no source: as far as the blade of a craft
knife stands out without bending."""

LEAST_FACE = 3.0
"""mm of the smaller face that stay at its widest place. Our choice: glue holds on no less."""


@dataclass(frozen=True, slots=True)
class EdgeBevel:
    """A bevel in numbers."""

    angle: float
    """degrees from square, more than 0."""
    direction: str
    """inward: the inner face ends smaller; outward: the outer face ends smaller."""
    ends: tuple[float, float] | None = None
    """Of a bevel that turns: degrees at the start and at the end, negative the other way round;
    `angle` is then the steeper of both."""


def turning_bevel(start: float, end: float, direction: str) -> EdgeBevel:
    """A bevel that turns evenly from `start` to `end` degrees, both counted in `direction`."""
    steepest = max(start, end, key=abs)
    if steepest < 0:
        other = {"inward": "outward", "outward": "inward"}[direction]
        return EdgeBevel(-steepest, other, (-start, -end))
    return EdgeBevel(steepest, direction, (start, end))


def bevel_setback(angle: float, thickness: float) -> float:
    """mm that the smaller face ends before the larger: thickness * tan(angle), from the right
    triangle that the cut makes with the foam's edge."""
    return thickness * tan(radians(angle))


def bevel_cut(angle: float, thickness: float) -> float:
    """mm of the cut itself, thickness / cos(angle): the long side of the same triangle."""
    return thickness / cos(radians(angle))


def smaller_face_room(shape: Shape, thickness: float) -> bool:
    """Whether the smaller face between the bevels of a shape is LEAST_FACE mm wide somewhere."""
    setbacks = {one.edge: -bevel_setback(one.angle, thickness) for one in shape.bevels}
    try:
        face = offset_edges(shape.edges, setbacks)
    except OffsetError:
        return False
    ring = flatten(tuple(segment for edge in face for segment in edge.run))
    return bool(shrunk(ring, (), LEAST_FACE / 2))


def stop_at_folds(bevel: BevelledEdge, folds: Iterable[Run]) -> BevelledEdge:
    """The bevel with its far face cut off where it would run on over a fold: its longer part."""
    face = bevel.far_face
    for fold in folds:
        for meeting in meetings(face, fold):
            # A bevel ends at the fold: beyond it lies the other half, which has its own. The
            # shorter rest is the corner where both cross.
            before, after = cut_run(face, None, meeting.first), cut_run(face, meeting.first, None)
            longer = before if run_length(before) > run_length(after) else after
            if longer:
                return replace(bevel, far_face=longer)
    return bevel


def bevelled_edges(
    shape: Shape, bevels: Mapping[str, EdgeBevel], thickness: float, fold: str = ""
) -> tuple[BevelledEdge, ...]:
    """Far faces of all bevelled edges, joined where neighbours are bevelled too.

    `fold` is the edge of a half template that lies on the fold. Raises OffsetError where the
    smaller face would vanish.
    """
    # Inward: the larger face is the outline itself, so the smaller one can only lie inside it.
    # Edges without a bevel keep width 0 and are cut back by their neighbours alone.
    setbacks = {
        name: -bevel_setback(bevel.angle, thickness)
        for name, bevel in bevels.items()
        # Neighbours of a bevel that turns end at the outline: its own line is no parallel of it.
        if bevel.ends is None
    }
    far = {edge.name: edge.run for edge in offset_edges(shape.edges, setbacks, fold)}
    return tuple(
        BevelledEdge(name, bevel.angle, bevel.direction, far[name])
        if bevel.ends is None
        else _turning(shape, name, bevel, thickness)
        for name in (edge.name for edge in shape.edges)
        if (bevel := bevels.get(name)) is not None
    )


STEPS = 24
"""Into how many steps a bevel that turns is divided. Our choice: from -45 to 45 degrees a step is
less than four degrees, and the line between two steps misses a tangent by less than 0.02 mm on 10
mm."""


def _turning(shape: Shape, name: str, bevel: EdgeBevel, thickness: float) -> BevelledEdge:
    """A bevel whose angle grows evenly along its edge. Raises OffsetError where no face is left."""
    start, end = bevel.ends or (bevel.angle, bevel.angle)
    angles = tuple(start + (end - start) * step / STEPS for step in range(STEPS + 1))
    run = shape.edge(name).run
    whole = run_length(run)
    points = []
    for step, angle in enumerate(angles):
        point, direction = point_at(run, whole * step / STEPS)
        points.append(along(point, inward_normal(direction), bevel_setback(abs(angle), thickness)))
    inside = clip_line(points, Shape(shape.edges, shape.holes))
    if not inside:
        raise OffsetError(name, f"a bevel of {bevel.angle:g}° is wider than the piece")
    names = [edge.name for edge in shape.edges]
    at = names.index(name)
    return BevelledEdge(
        name,
        bevel.angle,
        bevel.direction,
        lines_through(*max(inside, key=len)),
        angles,
        (names[at - 1], names[(at + 1) % len(names)]),
    )
