"""Finished outlines and where they lie in → placement lines, layers that cross, textured faces."""

from collections.abc import Iterator, Mapping
from dataclasses import replace
from itertools import combinations

from guidegen.buildfile.records.guide import Guide
from guidegen.geometry.outline.areas import clip_line, least_misfit, overlap_area
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.distances import farthest_outside
from guidegen.geometry.outline.measures import bounds, flatten, run_length
from guidegen.geometry.outline.records import InnerLine, LineKind, Run, Shape
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.pieces.placing import LaidPart
from guidegen.units import mm_text


def lies_on(ring: Run, shape: Shape) -> bool:
    """True where a closed run covers at least some foam of a shape."""
    # A square millimetre: outlines that merely touch share an area of rounding.
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
    # Every fifth degree is enough: by less than that off its angle a layer of 300 mm looks some 13
    # mm wider, and what is told has to exceed twice the tolerance anyway.
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


LEAST_SHARED = 20.0
"""mm² under which an overlap is not told. Our choice: 0.2 mm, a knife's width, along 100 mm."""


def foam_shared(one: LaidPart, other: LaidPart) -> float:
    """mm² on which the foam of both lies; what lies in a window of the other shares none there.

    Windows lie within their outlines and apart from one another, so areas add up.
    """
    ring, far = flatten(one.ring), flatten(other.ring)
    windows = [flatten(hole) for hole in one.holes]
    others = [flatten(hole) for hole in other.holes]
    shared = overlap_area(ring, far)
    # What lies in a window of either is no foam; where two windows overlap it was taken away
    # twice, so it is added again (inclusion and exclusion).
    shared -= sum(overlap_area(window, far) for window in windows)
    shared -= sum(overlap_area(ring, window) for window in others)
    return shared + sum(overlap_area(a, b) for a in windows for b in others)


def _ordered(guide: Guide, one: str, other: str) -> bool:
    """Whether a stack says which of two parts lies farther out."""
    layers = ({layer.part for layer in stack.layers} for stack in guide.stacks.values())
    return any({one, other} <= parts for parts in layers)


def _crossing(guide: Guide, laid: Mapping[int, LaidPart]) -> Iterator[tuple[int, LaidPart, float]]:
    for (_, one), (number, other) in combinations(sorted(laid.items()), 2):
        # Copies of one part, such as scales, overlap by design.
        if one.part == other.part or _ordered(guide, one.part, other.part):
            continue
        shared = foam_shared(one, other)
        if shared > LEAST_SHARED:
            yield number, one, shared


def tell_crossings(asker: PartAsker, laid: Mapping[int, LaidPart]) -> None:
    """A warning for the first two parts that want one place on the part of `asker`."""
    guide = asker.file.guide
    found = next(_crossing(guide, laid), None)
    if found is not None:
        number, one, shared = found
        label = guide.parts[laid[number].part].label
        message = (
            f"{label} and {guide.parts[one.part].label} share {mm_text(shared, 0)} mm² of "
            f"{asker.part.label}, and no stack says which lies over which"
        )
        asker.refuse("layers-cross", message, "placements", number)
