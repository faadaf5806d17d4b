"""What an author says on the command line about points and lengths in → those of the file.

`2:A=20,31.5` is the point A of page 2, `A-B=120 mm` says how far two points are apart, and
`width=300 mm` how wide all that is drawn is. Points are given as the program shows them in which
one reads them: for a PDF in mm from the upper left of its page, for a DXF in the file's own units.
"""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import inf

from guidegen.bench.vectors.records import FoundPage, LineBox
from guidegen.errors import UsageError
from guidegen.geometry.drawing.svg_reader import NUMBER
from guidegen.geometry.outline.crossings import meetings
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import Point
from guidegen.problems import did_you_mean
from guidegen.units import MM_PER_UNIT, mm_text

REACH = 2.0
"""mm within which a point that is read off a screen means the end or crossing of lines nearby. Our
choice: a reading is better, and ends of two lines are rarely nearer."""

SIDES = ("width", "height")
"""Lengths that need no points: those of all that is drawn."""

_POINT = re.compile(
    rf"(?:(\d{{1,4}}):)?([A-Za-z][\w-]{{0,20}})=\s*({NUMBER})\s*[,;]\s*({NUMBER})\s*"
)
_LENGTH = re.compile(
    rf"([A-Za-z]\w{{0,20}})(?:\s*-\s*([A-Za-z]\w{{0,20}}))?\s*=\s*({NUMBER})\s*([a-z]+)"
)


@dataclass(frozen=True, slots=True)
class NamedPoint:
    """A point as it was said."""

    page: int
    name: str
    at: Point


@dataclass(frozen=True, slots=True)
class StatedLength:
    """How long something is in the world."""

    said: str
    """As it was typed."""
    first: str
    """A point, or one of SIDES."""
    second: str
    """The other point; empty for a side."""
    length: float
    """mm."""


def read_point(text: str) -> NamedPoint:
    """A point of the command line. Raises UsageError."""
    found = _POINT.fullmatch(text.strip())
    if found is None:
        raise UsageError(f"--point {text}: expected PAGE:NAME=X,Y, such as 2:A=20,31.5")
    return NamedPoint(int(found[1] or 1), found[2], (float(found[3]), float(found[4])))


def read_stated(text: str) -> StatedLength:
    """A length of the command line. Raises UsageError."""
    found = _LENGTH.fullmatch(text.strip())
    if found is None or found[4] not in MM_PER_UNIT:
        expected = 'expected A-B="120 mm", width="300 mm" or height="12 in"'
        raise UsageError(f"--length {text}: {expected}")
    length = float(found[3]) * MM_PER_UNIT[found[4]]
    if length <= 0:
        raise UsageError(f"--length {text}: expected more than 0")
    first, second = found[1], found[2] or ""
    if not second and first not in SIDES:
        hint = did_you_mean(first, SIDES)
        raise UsageError(f"--length {text}: two points, width or height may have a length{hint}")
    return StatedLength(text, first, second, length)


def snap(page: FoundPage, point: NamedPoint, at: Point, reach: float) -> Point:
    """The end or crossing of lines that a point means. Raises UsageError where there is none.

    `at` is where it lies in the page's own axes, `reach` how far it may be off, in the same unit.
    """
    near = [path for path in page.paths if _aside(path.box(), at) <= reach]
    runs = [stroke.run for path in near for stroke in path.strokes][:200]
    ends = [p for run in runs for s in run for p in (segment_start(s), segment_end(s))]
    crossings = [
        meeting.point
        for number, run in enumerate(runs[:40])
        for other in runs[number + 1 : 40]
        for meeting in meetings(run, other)
    ]
    best = min([*crossings, *ends], key=lambda one: distance(one, at), default=None)
    if best is None or distance(best, at) > reach:
        gap = inf if best is None else distance(best, at)
        hint = f"; the nearest is {mm_text(gap, 1)} mm away" if gap < inf else ""
        raise UsageError(
            f"--point {point.page}:{point.name}: no line ends or crosses another within "
            f"{mm_text(reach, 1)} mm of it{hint}"
        )
    return best


def _aside(box: LineBox, point: Point) -> float:
    return max(box[0] - point[0], point[0] - box[2], box[1] - point[1], point[1] - box[3], 0.0)


def measured(
    stated: StatedLength, points: Mapping[int, Mapping[str, Point]], pages: Sequence[FoundPage]
) -> float:
    """How long that is in the file, in its own unit. Raises UsageError for names that are none."""
    if not stated.second:
        boxes = [path.box() for page in pages for path in page.paths]
        if not boxes:
            return 0.0
        side = SIDES.index(stated.first)
        return max(box[side + 2] for box in boxes) - min(box[side] for box in boxes)
    for named in points.values():
        if stated.first in named and stated.second in named:
            return distance(named[stated.first], named[stated.second])
    known = sorted({name for named in points.values() for name in named})
    missing = next((n for n in (stated.first, stated.second) if n not in known), "")
    if missing:
        hint = did_you_mean(missing, known) or "; name it with --point"
        raise UsageError(f"--length {stated.said}: no point {missing}{hint}")
    raise UsageError(f"--length {stated.said}: these two points are not on one page")
