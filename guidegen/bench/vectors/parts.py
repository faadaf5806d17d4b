"""Lines of a sheet in → pieces: each an outline with its holes and all that is drawn in it.

What a line is for is said by its author (a layer or colour as a role), or by the name of its layer.
Of all other closed lines those that lie in no other are outlines, and those of the same layer or
colour inside are holes: a knife follows both.
"""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import floor

from guidegen.bench.vectors.records import LineBox, StrokeLook
from guidegen.geometry.drawing.records import Role, Subpath
from guidegen.geometry.drawing.roles import role_of_name
from guidegen.geometry.outline.measures import bounds, flatten, run_area, run_length, segment_point
from guidegen.geometry.outline.records import Point

SMALLEST = 100.0
"""mm² of a ring that is a piece by itself. Our choice: smaller ones are letters and crosses."""
MOST_RINGS = 500
"""Closed lines of a sheet that are sorted into pieces: as many as one piece may have lines."""
TWICE = 0.02
"""mm; lines nearer than this all along were drawn twice: as a face and as a line, for example."""

COLOURS = {
    "#000000": "black",
    "#ff0000": "red",
    "#00ff00": "green",
    "#0000ff": "blue",
    "#00ffff": "cyan",
    "#ff00ff": "magenta",
    "#ffff00": "yellow",
    "#808080": "grey",
    "#ffffff": "white",
}
"""Names of colours that have one; others go by their six digits."""


@dataclass(frozen=True, slots=True)
class FoundLine:
    """One line with what it is for."""

    name: str
    """Of its layer, or of its colour."""
    role: Role
    colour: str
    stroke: Subpath


@dataclass(frozen=True, slots=True)
class FoundPart:
    """Lines that belong together."""

    lines: tuple[FoundLine, ...]
    """The outline first, where there is one."""
    box: LineBox
    has_outline: bool


def look_name(look: StrokeLook) -> str:
    """What lines of a look are called: by their layer, else by their colour."""
    return look.layer or COLOURS.get(look.colour, look.colour)


def sort_into_parts(
    lines: Sequence[tuple[StrokeLook, Subpath]], roles: Mapping[str, Role]
) -> list[FoundPart]:
    """Pieces as one reads them, from the upper left; what belongs to none comes last."""
    drawn = [_line(look, stroke, roles) for look, stroke in _once(lines)]
    outlined = any(line.role is Role.OUTLINE for line in drawn)
    rings = [line for line in drawn if _may_be_cut(line, outlined=outlined)]
    rings.sort(key=lambda line: -abs(run_area(line.stroke.run)))
    holders: list[_Holder] = []
    taken = set(map(id, rings))
    inner = [line for line in drawn if id(line) not in taken]
    for ring in rings[:MOST_RINGS]:
        _settle(ring, holders, inner)
    inner += rings[MOST_RINGS:]
    rest: list[FoundLine] = []
    for line in inner:
        holder = _smallest_around([one for one in holders if one.is_outline], line)
        (holder.lines if holder else rest).append(line)
    pieces = [_part(one.lines, has_outline=True) for one in holders if one.is_outline]
    pieces.sort(key=_reading_order)
    return [*pieces, *([_part(rest, has_outline=False)] if rest else [])]


@dataclass
class _Holder:
    """A ring that others lie in."""

    line: FoundLine
    points: list[Point]
    box: LineBox
    is_outline: bool
    lines: list[FoundLine]
    """Of the piece, where the ring is an outline; shared with its holes."""


def _line(look: StrokeLook, stroke: Subpath, roles: Mapping[str, Role]) -> FoundLine:
    name = look_name(look)
    role = roles[name] if name in roles else role_of_name(name)
    colour = look.colour if look.colour != "#ffffff" else "#000000"
    return FoundLine(name, role, colour, stroke)


def _may_be_cut(line: FoundLine, *, outlined: bool) -> bool:
    return line.stroke.closed and (
        line.role is Role.OUTLINE or (line.role is Role.NONE and not outlined)
    )


def _settle(ring: FoundLine, holders: list[_Holder], inner: list[FoundLine]) -> None:
    """Say what a ring is, once all larger ones are settled."""
    box = bounds((ring.stroke.run,))
    around = _smallest_around([one for one in holders if one.line.name == ring.name], ring)
    outside = _smallest_around(holders, ring)
    if outside is not None and around is None:
        inner.append(ring)
        return
    points = flatten(ring.stroke.run)
    if around is None or not around.is_outline:
        # In no ring, or in a hole of one: whatever is cut out of a hole is a piece again.
        if abs(run_area(ring.stroke.run)) < SMALLEST:
            inner.append(ring)
            return
        line = replace(ring, role=Role.OUTLINE)
        holders.append(_Holder(line, points, box, True, [line]))
        return
    line = replace(ring, role=Role.HOLE)
    around.lines.append(line)
    holders.append(_Holder(line, points, box, False, around.lines))


def _smallest_around(holders: Sequence[_Holder], line: FoundLine) -> _Holder | None:
    """The last ring, so the smallest one, in which the middle of a line's first segment lies."""
    x, y = segment_point(line.stroke.run[0], 0.5)
    for one in reversed(holders):
        left, low, right, high = one.box
        if left <= x <= right and low <= y <= high and _is_inside((x, y), one.points):
            return one
    return None


def _is_inside(point: Point, ring: Sequence[Point]) -> bool:
    """Whether a ray from a point to the right passes a ring an odd number of times."""
    x, y = point
    inside = False
    # Closed here: of a circle the last point is the first one but for its last digit.
    for (x0, y0), (x1, y1) in pairwise((*ring, ring[0])):
        if (y0 > y) != (y1 > y) and x < x0 + (y - y0) / (y1 - y0) * (x1 - x0):
            inside = not inside
    return inside


def _part(lines: Sequence[FoundLine], *, has_outline: bool) -> FoundPart:
    return FoundPart(tuple(lines), bounds(tuple(one.stroke.run for one in lines)), has_outline)


def _reading_order(part: FoundPart) -> tuple[int, float, float]:
    # Rows of 50 mm: what stands side by side is counted from the left, whatever its height.
    return (-round(part.box[3] / 50), part.box[0], -part.box[3])


def _once(lines: Sequence[tuple[StrokeLook, Subpath]]) -> list[tuple[StrokeLook, Subpath]]:
    """Lines without those that lie on another; those drawn as lines before those of faces."""
    kept: list[tuple[StrokeLook, Subpath]] = []
    seen: dict[tuple[int, int], list[tuple[LineBox, float, bool]]] = defaultdict(list)
    for look, stroke in sorted(lines, key=lambda one: not one[0].width and bool(one[0].face)):
        box, length = bounds((stroke.run,)), run_length(stroke.run)
        # By cells of a millimetre: a box that lies a hair aside may be in the next one.
        x, y = floor(box[0]), floor(box[1])
        near = [
            one for dx in (-1, 0, 1) for dy in (-1, 0, 1) for one in seen.get((x + dx, y + dy), ())
        ]
        twin = any(
            other_closed == stroke.closed
            and abs(other_length - length) < TWICE
            and max(abs(a - b) for a, b in zip(box, other, strict=True)) < TWICE
            for other, other_length, other_closed in near
        )
        if not twin:
            kept.append((look, stroke))
            seen[x, y].append((box, length, stroke.closed))
    return kept
