"""A trace in → the drawing that guides read, and the picture that lies over the photo, out."""

from collections.abc import Iterator
from string import ascii_lowercase

import numpy as np

from guidegen.bench.photos.records import Trace
from guidegen.geometry.outline.records import Line
from guidegen.pictures.pen.records import Circle, Drawing, Group, Item, Lettering, Path, Stroke
from guidegen.words import Words

LINE = Stroke(0.3)
THIN = Stroke(0.2)
SCALE_LENGTH = 50.0
"""mm of the line that tells how large the drawing is."""
MAGNIFIED = 20.0
"""Times that what is left over is drawn larger."""
OUTLINE, HOLE, MARK, LEFT = "#d4002a", "#0060c0", "#7a2ea0", "#007a3d"
"""Colours over the photo. They stand beside words and kinds of line."""


def corner_name(number: int) -> str:
    """a to z, then a2 to z2, …"""
    turn, letter = divmod(number, 26)
    return ascii_lowercase[letter] + (str(turn + 1) if turn else "")


def template_drawing(trace: Trace, marks: str, words: Words) -> Drawing:
    """The outline with layers as the handbook names them, in mm."""
    items: list[Item] = [
        Group((Path((trace.outline.run,), LINE, closed=True, css="outline"),), id="outline")
    ]
    if trace.holes:
        rings = tuple(Path((one.run,), LINE, closed=True, css="hole") for one in trace.holes)
        items.append(Group(rings, id="holes"))
    if trace.marks:
        lines = tuple(Path((one.run,), THIN, css=marks) for one in trace.marks)
        items.append(Group(lines, id=f"{marks}-marks"))
    for number, corner in enumerate(trace.outline.corners):
        items.append(Group((Circle(corner, 0.6, THIN),), id=f"corner-{corner_name(number)}"))
    ruler = Line((5.0, 3.0), (5.0 + SCALE_LENGTH, 3.0))
    items.append(Group((Path(((ruler,),), THIN),), id=f"scale-{SCALE_LENGTH:.0f}-mm"))
    title = words.say("Template traced from a photo")
    return Drawing(trace.size[0], trace.size[1], title, "", tuple(items))


def overlay(trace: Trace, words: Words) -> Drawing:
    """The outline as it lies over the photo, with what is left over drawn twenty times larger."""
    title = words.say("The outline over the photo")
    description = words.say(
        "Red: the outline. Blue, dashed: holes. Violet, dotted: drawn lines. Green whiskers: where "
        "the edge was measured, {n} times as far off as it is.",
        n=words.number(MAGNIFIED),
    )
    return Drawing(*trace.size, title, description, tuple(_overlaid(trace)))


def _overlaid(trace: Trace) -> Iterator[Item]:
    wide = max(trace.size) / 700
    for on, seen in trace.whiskers:
        tip = on + (seen - on) * MAGNIFIED
        if np.hypot(*(tip - on)) > 0.2:
            line = Line((float(on[0]), float(on[1])), (float(tip[0]), float(tip[1])))
            yield Path(((line,),), Stroke(wide / 2, colour=LEFT))
    yield Path((trace.outline.run,), Stroke(wide, colour=OUTLINE), closed=True)
    for hole in trace.holes:
        yield Path((hole.run,), Stroke(wide, (2, 1), HOLE), closed=True)
    for mark in trace.marks:
        yield Path((mark.run,), Stroke(wide, (0.6, 1), MARK))
    for number, (x, y) in enumerate(trace.outline.corners):
        yield Circle((x, y), 2 * wide, Stroke(wide / 2, colour=OUTLINE))
        yield Lettering(
            (x + 3 * wide, y + 3 * wide), corner_name(number), 12 * wide, weight=700, colour=OUTLINE
        )
