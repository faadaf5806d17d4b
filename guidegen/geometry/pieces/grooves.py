"""A shape and the line of a V-groove in → the groove's section and where it runs on the foam."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import cos, hypot, radians, sin, tan

from guidegen.geometry.outline.areas import clip_line
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import bounds
from guidegen.geometry.outline.records import Point, Run, Shape
from guidegen.geometry.outline.transforms import MIRROR, transform_run
from guidegen.geometry.pieces.records import GrooveCut

WIDEST_FOLD = 150.0
"""degrees. Our choice: at more, the mouth is over seven times as wide as the groove is deep."""


def groove_depth(thickness: float, floor: float) -> float:
    """mm that the blade goes in: what the floor leaves."""
    return thickness - floor


def groove_mouth(depth: float, fold: float) -> float:
    """mm between the walls at the surface: 2 * depth * tan(fold / 2).

    The walls meet when the foam has turned by `fold` degrees, so that is the angle between
    them: an isosceles triangle of this height.
    """
    return 2 * depth * tan(radians(fold) / 2)


@dataclass(frozen=True, slots=True)
class GrooveLine:
    """A groove in numbers."""

    fold: float
    """degrees that the foam will turn."""
    floor: float
    """mm of foam left under it."""
    at: float = 0.0
    """mm to the left of the line through the origin at the same angle."""
    angle: float = 0.0
    """degrees of its line from the x axis, counter-clockwise."""


def cut_groove(shape: Shape, line: GrooveLine, thickness: float) -> tuple[GrooveCut, ...]:
    """A groove across a shape: one cut for each stretch that lies on foam, none where it misses."""
    return tuple(
        net_groove(run, line.fold, line.floor, thickness)
        for run in line_on_foam(shape, line.at, line.angle)
    )


def net_groove(run: Run, fold: float, floor: float, thickness: float) -> GrooveCut:
    """A groove along a run, with its section."""
    depth = groove_depth(thickness, floor)
    return GrooveCut(fold, depth, floor, groove_mouth(depth, fold), run)


def mirror_grooves(grooves: Iterable[GrooveCut]) -> tuple[GrooveCut, ...]:
    """The grooves of the other hand of a pair."""
    return tuple(replace(groove, run=transform_run(groove.run, MIRROR)) for groove in grooves)


def line_on_foam(shape: Shape, at: float, angle: float) -> tuple[Run, ...]:
    """Stretches of an endless straight line that lie on the foam of a shape."""
    ux, uy = cos(radians(angle)), sin(radians(angle))
    left, low, right, high = bounds((shape.ring(),))
    # From the origin past the farthest point of the box, whichever way the line runs: the clip
    # below then meets both ends of every stretch. The last mm keeps ends off the outline.
    reach = hypot(right - left, high - low) + hypot(*_middle(shape)) + abs(at) + 1

    def point(length: float) -> Point:
        return (ux * length - uy * at, uy * length + ux * at)

    stretches = clip_line((point(-reach), point(reach)), shape)
    # Ends alone: clipping may leave points in between, which lie on the line anyway.
    return tuple(lines_through(stretch[0], stretch[-1]) for stretch in stretches)


def _middle(shape: Shape) -> Point:
    left, low, right, high = bounds((shape.ring(),))
    return ((left + right) / 2, (low + high) / 2)
