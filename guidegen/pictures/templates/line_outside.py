"""Words of a line for which a template has no room inside → words beside it, or a number out.

Words stand along the outside of an edge; or level, with a leader that ends at the cut line and
never crosses one; or a number stands at the line, and its words with that number in free room.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise, product
from math import cos, hypot, pi, sin

from guidegen.geometry.outline.measures import flatten, nearest_share
from guidegen.geometry.outline.records import Point, Run
from guidegen.pictures.pen.frames import Frame
from guidegen.pictures.pen.label_fields import LabelField
from guidegen.pictures.templates.line_words import (
    SHARES,
    LineWords,
    is_clear,
    place_along,
    point_along,
)
from guidegen.pictures.templates.notes import LEAST, KeyNote, NoteBlock, WordLine

REACH = 60.0
"""mm around the end of a leader in which its words are looked for."""

TOUCH = 0.3
"""mm within which a line ends at an outline."""

NUMBER_SHARES = tuple((number + 0.5) / 24 for number in range(24))
"""Where along a line a number is tried."""


@dataclass(frozen=True, slots=True)
class TemplateField:
    """A template on a page."""

    field: LabelField
    area: Sequence[int]
    rings: Sequence[Sequence[Point]]
    """Its outlines on the window, flattened."""
    frame: Frame
    """From the template to the window."""


def place_beside(spot: TemplateField, words: LineWords) -> KeyNote | None:
    """Words outside a template, along its edge or with a leader to it; None: no room."""
    field = spot.field
    free = field.off_templates()
    outer = spot.frame.run(words.outer)
    if outer:
        note = place_along(field, free, outer, words.block, SHARES)
        if note:
            return note
    found = [note for tip in _tips(spot, words) for note in _leads(field, free, words.block, tip)]
    # Of all places the one with the shortest leader: long ones are taken for lines to cut.
    return min(found, key=_length, default=None)


def place_numbered(
    spot: TemplateField, words: LineWords, number: int, code: str
) -> tuple[KeyNote, ...]:
    """A number at the line, and its words with that number anywhere on the page; (): no room."""
    field = spot.field
    mark = NoteBlock((WordLine(str(number), LEAST, 700),))
    free = field.off_templates()
    run = spot.frame.run(words.outer or words.run)
    at = (
        # Inside, outside, and last of all on the line itself, which then breaks.
        place_along(field, spot.area, run, mark, NUMBER_SHARES)
        or place_along(field, free, run, mark, NUMBER_SHARES)
        or _on_line(spot, spot.frame.run(words.run), mark)
    )
    if at is None:
        return ()
    first = words.block.lines[0]
    block = replace(words.block, lines=(replace(first, text=f"{code} · {number}: {first.text}"),))
    region = (0.0, 0.0, field.width, field.height)
    room = field.outside(region)
    centre = room.nearest(block.width + 1.6, block.height + 1.6, at.centre) if room else None
    return (at, KeyNote(block, centre)) if centre else ()


def _on_line(spot: TemplateField, run: Run, mark: NoteBlock) -> KeyNote | None:
    """A number that breaks a line, inside the template and clear of all else."""
    own = LabelField(spot.field.width, spot.field.height)
    own.add_lines([flatten(run, 0.2)])
    cut = LabelField(spot.field.width, spot.field.height)
    cut.add_lines(spot.rings, 0.2)
    # The line's own cells are free for its number, but where it meets the outline: nothing may
    # break a cut line.
    ink = [(a & ~b) | c for a, b, c in zip(spot.field.ink, own.ink, cut.ink, strict=True)]
    probe = LabelField(spot.field.width, spot.field.height, ink)
    for share in NUMBER_SHARES:
        point, angle = point_along(run, share)
        note = KeyNote(mark, point, angle, backed=True)
        if probe.is_free(note.ring(0.1), spot.area):
            return note
    return None


def _tips(spot: TemplateField, words: LineWords) -> Iterator[Point]:
    """Where a leader from outside may end: on an edge, or where a line meets the outline."""
    field = spot.field
    run = spot.frame.run(words.outer)
    if run:
        tips = [point_along(run, share)[0] for share in SHARES]
    else:
        line = flatten(spot.frame.run(words.run), 0.2)
        tips = [end for end in (line[0], line[-1]) if _touches(end, spot.rings)]
    for x, y in dict.fromkeys(tips):
        if 0 < x < field.width and 0 < y < field.height:
            yield x, y


def _touches(point: Point, rings: Sequence[Sequence[Point]]) -> bool:
    return any(
        nearest_share(start, end, point)[0] < TOUCH
        for ring in rings
        for start, end in pairwise(ring)
    )


def _around(tip: Point) -> Iterator[Point]:
    # Near the tip first, in eight directions; then farther off, past what stands close to it.
    for away, turn in product((9.0, 24.0), range(8)):
        yield tip[0] + away * cos(turn * pi / 4), tip[1] + away * sin(turn * pi / 4)


def _leads(
    field: LabelField, free: Sequence[int], block: NoteBlock, tip: Point
) -> Iterator[KeyNote]:
    """Level words about a tip, each with a leader that crosses nothing on its way to it."""
    room = field.outside((tip[0] - REACH, tip[1] - REACH, 2 * REACH, 2 * REACH))
    if room is None:
        return
    places = (room.nearest(block.width + 1.6, block.height + 1.6, near) for near in _around(tip))
    for centre in dict.fromkeys(places):
        note = _lead(field, free, block, tip, centre) if centre else None
        if note:
            yield note


def _lead(
    field: LabelField, free: Sequence[int], block: NoteBlock, tip: Point, centre: Point
) -> KeyNote | None:
    """Level words at a place, with a leader to the tip; None where that would cross something."""
    half_width, half_height = block.width / 2 + 0.8, block.height / 2 + 0.8
    # On the rim of the words with their air, where the tip is nearest.
    start = (
        min(max(tip[0], centre[0] - half_width), centre[0] + half_width),
        min(max(tip[1], centre[1] - half_height), centre[1] + half_height),
    )
    note = KeyNote(block, centre, leader=(start, tip))
    # Free cells are not enough: a leader over a cut line would be cut.
    return note if _length(note) > 1.5 and is_clear(field, free, start, tip) else None


def _length(note: KeyNote) -> float:
    if note.leader is None:
        return 0.0
    (x0, y0), (x1, y1) = note.leader
    return hypot(x1 - x0, y1 - y0)
