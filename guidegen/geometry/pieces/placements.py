"""Finished outlines and where they lie in → placement lines; the words for a textured face."""

from dataclasses import replace

from guidegen.geometry.outline.areas import clip_line, overlap_area
from guidegen.geometry.outline.curves import lines_through
from guidegen.geometry.outline.measures import flatten, run_length
from guidegen.geometry.outline.records import InnerLine, LineKind, Run, Shape


def lies_on(ring: Run, shape: Shape) -> bool:
    """True where a closed run covers at least some foam of a shape."""
    return overlap_area(flatten(ring), flatten(shape.ring())) > 1.0


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
