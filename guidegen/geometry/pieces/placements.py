"""Finished outlines and where they lie in → placement lines; the words for a textured face."""

from dataclasses import replace

from guidegen.geometry.outline.areas import (
    clip_line,
    farthest_outside,
    least_misfit,
    overlap_area,
)
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import bounds, flatten, run_length
from guidegen.geometry.outline.records import InnerLine, LineKind, Run, Shape


def lies_on(ring: Run, shape: Shape) -> bool:
    """True where a closed run covers at least some foam of a shape."""
    return overlap_area(flatten(ring), flatten(shape.ring())) > 1.0


OVERHANG = 0.04
"""Share of a layer's length by which each of its ends may stand out untold. Derived: on a bend of
115 mm, the hip of a slim adult, a layer 8 mm farther out is 7 per cent longer, half at each end."""

LEAST_OVERHANG = 2.0
"""mm that are never told. Our choice: what a knife and a hand are off."""


def tolerated(ring: Run) -> float:
    """mm by which a layer of this outline may stand out over the one below."""
    left, low, right, high = bounds((ring,))
    return max(LEAST_OVERHANG, OVERHANG * max(right - left, high - low))


def stands_out(ring: Run, shape: Shape) -> float:
    """mm by which a closed run stands out over the outline of a shape; 0 where it lies within."""
    return farthest_outside(flatten(ring), flatten(shape.ring()))


def lacks_room(ring: Run, below: Run) -> float:
    """mm by which an outline is too large for the box of the one below, at its best angle."""
    left, low, right, high = bounds((below,))
    return least_misfit(flatten(ring), right - left, high - low, range(0, 180, 5))[0]


def clip_to_outline(line: InnerLine, shape: Shape) -> tuple[InnerLine, ...]:
    """What of a line lies within an outline, over its holes too: paper ends at the outline."""
    return clip_to_half(line, Shape(shape.edges))


def clip_to_half(line: InnerLine, half: Shape) -> tuple[InnerLine, ...]:
    """The stretches of a line that lie on a half template; the line itself where it all does."""
    stretches = [lines_through(*points) for points in clip_line(flatten(line.run), half)]
    # Flattening shortens a curve by far less than a thousandth.
    if sum(map(run_length, stretches)) > 0.999 * run_length(line.run):
        return (line,)
    return tuple(replace(line, run=stretch) for stretch in stretches)


def texture_line(shape: Shape, words: str) -> InnerLine:
    """The rim of a textured face: the whole outline. Holes stay free of it."""
    return InnerLine(LineKind.TEXTURE, shape.ring(), words)
