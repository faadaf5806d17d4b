"""A shape and the line of a V-groove in → the groove's section and where it runs on the foam."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from math import cos, hypot, radians, sin, tan

from guidegen.geometry.outline.areas import clip_line
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import bounds, segment_end, segment_start
from guidegen.geometry.outline.records import Point, Run, Shape
from guidegen.geometry.outline.transforms import MIRROR, RigidMotion, transform_run
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
        _groove(shape, run, (line.fold, line.floor), thickness, beyond=_size(shape))
        for run in line_on_foam(shape, line.at, line.angle)
    )


def net_groove(shape: Shape, run: Run, fold: float, floor: float, thickness: float) -> GrooveCut:
    """A groove along a run of a shape, with its section: rims are as long as the run at most."""
    return _groove(shape, run, (fold, floor), thickness)


def _groove(
    shape: Shape, run: Run, section: tuple[float, float], thickness: float, beyond: float = 0.0
) -> GrooveCut:
    fold, floor = section
    depth = groove_depth(thickness, floor)
    mouth = groove_mouth(depth, fold)
    return GrooveCut(fold, depth, floor, mouth, run, tuple(_rims(shape, run, mouth, beyond)))


def _rims(shape: Shape, run: Run, mouth: float, beyond: float) -> Iterator[Run]:
    """Both rims of a straight groove where they lie on foam beside it, the right one first.

    A rim may reach `beyond` mm farther than the middle line: where an outline is slanted, one does.
    """
    (x0, y0), (x1, y1) = segment_start(run[0]), segment_end(run[-1])
    long = hypot(x1 - x0, y1 - y0)
    ux, uy = (x1 - x0) / long, (y1 - y0) / long
    for off in (-mouth / 2, mouth / 2):
        start = (x0 - uy * off - ux * beyond, y0 + ux * off - uy * beyond)
        end = (x1 - uy * off + ux * beyond, y1 + ux * off + uy * beyond)
        for stretch in clip_line((start, end), shape):
            low, high = ((x - x0) * ux + (y - y0) * uy for x, y in (stretch[0], stretch[-1]))
            # Foam farther along the line belongs to another stretch of the groove.
            if min(high, long) - max(low, 0.0) > 0:
                yield lines_through(stretch[0], stretch[-1])


def mirror_grooves(grooves: Iterable[GrooveCut]) -> tuple[GrooveCut, ...]:
    """The grooves of the other hand of a pair."""
    return tuple(move_groove(groove, MIRROR) for groove in grooves)


def move_groove(groove: GrooveCut, motion: RigidMotion) -> GrooveCut:
    """The groove at another place."""
    rims = tuple(transform_run(rim, motion) for rim in groove.rims)
    return replace(groove, run=transform_run(groove.run, motion), rims=rims)


def line_on_foam(shape: Shape, at: float, angle: float) -> tuple[Run, ...]:
    """Stretches of an endless straight line that lie on the foam of a shape."""
    ux, uy = cos(radians(angle)), sin(radians(angle))
    # From the origin past the farthest point of the box, whichever way the line runs: the clip
    # below then meets both ends of every stretch. The last mm keeps ends off the outline.
    reach = _size(shape) + hypot(*_middle(shape)) + abs(at) + 1

    def point(length: float) -> Point:
        return (ux * length - uy * at, uy * length + ux * at)

    stretches = clip_line((point(-reach), point(reach)), shape)
    # Ends alone: clipping may leave points in between, which lie on the line anyway.
    return tuple(lines_through(stretch[0], stretch[-1]) for stretch in stretches)


def _size(shape: Shape) -> float:
    left, low, right, high = bounds((shape.ring(),))
    return hypot(right - left, high - low)


def _middle(shape: Shape) -> Point:
    left, low, right, high = bounds((shape.ring(),))
    return ((left + right) / 2, (low + high) / 2)
