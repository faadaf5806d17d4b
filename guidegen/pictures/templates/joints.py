"""A template sheet of several pages in → its joints out: match lines and half figures.

Where two pages meet, a match line runs in the middle of what both show. The page to the left (or
above) stays whole; the page to the right (or below) is cut along the match line and laid on it.
Each page carries half of a figure at the match line; a joint's halves complete only each other.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from math import cos, pi, sin

from guidegen.geometry.outline.records import Point
from guidegen.layout.records import TemplatePage
from guidegen.pictures.pen.label_fields import LabelField
from guidegen.pictures.templates.notes import turned_box

FIGURE = 4.6
"""mm; reach of a half figure from its match line: inside the overlap of 10 mm."""

WORDS = 56.0
"""mm; length of the words about joining."""

type FigureRing = tuple[Point, ...]


def _regular(corners: int, turn: float = 90.0, inner: float = 1.0) -> FigureRing:
    """A regular polygon, or a star where `inner` is less than 1, of radius 1."""
    points: list[Point] = []
    steps = corners if inner == 1.0 else corners * 2
    for number in range(steps):
        reach = 1.0 if inner == 1.0 or number % 2 == 0 else inner
        angle = turn * pi / 180 + 2 * pi * number / steps
        points.append((reach * cos(angle), reach * sin(angle)))
    return tuple(points)


_SQUARE = ((-0.85, -0.85), (0.85, -0.85), (0.85, 0.85), (-0.85, 0.85))
_CROSS = tuple(
    (x, y)
    for x, y in (
        (-0.35, -1),
        (0.35, -1),
        (0.35, -0.35),
        (1, -0.35),
        (1, 0.35),
        (0.35, 0.35),
        (0.35, 1),
        (-0.35, 1),
        (-0.35, 0.35),
        (-1, 0.35),
        (-1, -0.35),
        (-0.35, -0.35),
    )
)
_GLASS = ((-0.9, -0.9), (0.9, -0.9), (0.25, 0.0), (0.9, 0.9), (-0.9, 0.9), (-0.25, 0.0))
_BARREL = ((-0.55, -1), (0.55, -1), (1.0, 0.0), (0.55, 1), (-0.55, 1), (-1.0, 0.0))
_ARROW = (
    (-0.9, -0.1),
    (0.0, -1.0),
    (0.9, -0.1),
    (0.4, -0.1),
    (0.4, 0.95),
    (-0.4, 0.95),
    (-0.4, -0.1),
)

FIGURES: tuple[tuple[str, FigureRing], ...] = (
    ("circle", _regular(48)),
    ("square", _SQUARE),
    ("triangle up", _regular(3)),
    ("cross", _CROSS),
    ("star", _regular(5, inner=0.45)),
    ("triangle down", _regular(3, 270)),
    ("hourglass", _GLASS),
    ("diamond", _regular(4)),
    ("arrow", _ARROW),
    ("barrel", _BARREL),
    ("star with six points", _regular(6, inner=0.5)),
    ("arrow up", tuple((x, -y) for x, y in _ARROW)),
)
"""Figures of joints, drawn for a match line along y. Neighbouring joints get different ones, and
no two among them share a half."""


@dataclass(frozen=True, slots=True)
class Joint:
    """Where two printed pages of a sheet meet."""

    number: int
    """From 0, over the sheet: chooses the figure."""
    first: TemplatePage
    """Left or upper page: stays whole."""
    second: TemplatePage
    """Right or lower page: cut along the match line and laid on top."""
    upright: bool
    """True where the match line is vertical."""
    at: float
    """mm on the sheet; x of an upright match line, y of a level one."""
    start: float
    end: float
    """mm on the sheet; the stretch that both pages show."""
    marks: tuple[float, ...] = ()
    """mm on the sheet, along the match line: centres of the half figures."""
    words: float | None = None
    """mm on the sheet, along the match line: middle of the words about joining; None where lines
    of templates leave no room for them. The half figures say enough."""
    butt: bool = False
    """True where pages do not overlap: both are cut along the match line."""

    def point(self, along: float, across: float) -> Point:
        """A point by its distance along the match line, and across it toward `second`."""
        return (self.at + across, along) if self.upright else (along, self.at - across)

    def ends(self) -> tuple[Point, Point]:
        """The match line on the sheet."""
        return self.point(self.start, 0), self.point(self.end, 0)


def find_joints(
    pages: Sequence[TemplatePage], overlap: float, ink: LabelField | None = None
) -> list[Joint]:
    """The joints of one sheet's pages, upright ones first, row by row.

    With `ink`, the lines on the sheet, half figures stand where no line crosses them if they can.
    """
    places = {(page.column, page.row): page for page in pages}
    joints: list[Joint] = []
    for upright in (True, False):
        for page in pages:
            # Each page asks only to the right and below: every joint is met once.
            step = (1, 0) if upright else (0, 1)
            other = places.get((page.column + step[0], page.row + step[1]))
            if other is None:
                continue
            if upright:
                # In the middle of what both show: half of the overlap on either side holds figures
                # and glue.
                at = other.x + overlap / 2
                start = max(page.y, other.y)
                end = min(page.y + page.height, other.y + other.height)
            else:
                at = page.y + overlap / 2
                start = max(page.x, other.x)
                end = min(page.x + page.width, other.x + other.width)
            joint = Joint(len(joints), page, other, upright, at, start, end, butt=not overlap)
            joints.append(_with_marks(joint, ink))
    return joints


def _with_marks(joint: Joint, ink: LabelField | None) -> Joint:
    length = joint.end - joint.start
    # A figure with the partner's code beyond it; then the words, which keep off the figures.
    figure = (-FIGURE, FIGURE + 7)
    # Two figures: one alone would let the page turn about it.
    wishes = [joint.start + length * share for share in (0.25, 0.75)]
    marks = tuple(
        wish if found is None else found
        for wish in wishes
        for found in [_clear_place(joint, wish, figure, ink, ())]
    )
    # Of a short joint words get the half between both figures.
    half = min(WORDS / 2, length / 4)
    taken = tuple((mark + figure[0], mark + figure[1]) for mark in marks)
    words = _clear_place(joint, joint.start + length / 2, (-half, half), ink, taken)
    return replace(joint, marks=marks, words=words)


def _clear_place(
    joint: Joint,
    wish: float,
    reach: tuple[float, float],
    ink: LabelField | None,
    taken: Sequence[tuple[float, float]],
) -> float | None:
    """Nearest to the wish where a stretch of the joint meets no line; None where there is none.

    `reach` is the stretch before and after the place, in mm.
    """
    if ink is None:
        return wish
    # Away from the wish by cells of the page, alternately to both sides: the nearest free place.
    for step in range(int((joint.end - joint.start) / 2.5)):
        for sign in (1, -1):
            along = wish + sign * step * 2.5
            low, high = along + reach[0], along + reach[1]
            # Not at the very end: half a figure that the rim cuts off would fit any other.
            if low < joint.start + 2 or high > joint.end - 2:
                continue
            if any(low < end and high > start for start, end in taken):
                continue
            size = (2 * FIGURE, high - low) if joint.upright else (high - low, 2 * FIGURE)
            if ink.is_free(turned_box(joint.point((low + high) / 2, 0), *size, 0)):
                return along
    return None


def half_figure(joint: Joint, along: float, *, second: bool, scale: float) -> list[list[Point]]:
    """Half of the joint's figure as open lines on the sheet, `scale` mm in radius.

    The half of `first` lies before the match line, that of `second` beyond it.
    """
    side = 1.0 if second else -1.0
    lines: list[list[Point]] = [[]]
    ring = FIGURES[joint.number % len(FIGURES)][1]
    corners = [(x * side, y) for x, y in ring]
    # The ring is opened where the other half is, or a line of ours would come in two.
    begin = next((n for n, (x, _) in enumerate(corners) if x < 0), 0)
    turned = [*corners[begin:], *corners[: begin + 1]]
    for (x0, y0), (x1, y1) in pairwise(turned):
        cut = _cut_positive(x0, y0, x1, y1)
        if cut is None:
            continue
        start, end = cut
        if lines[-1] and lines[-1][-1] != start:
            lines.append([])
        if not lines[-1]:
            lines[-1].append(start)
        lines[-1].append(end)
    return [
        [joint.point(along + y * scale, x * side * scale) for x, y in line]
        for line in lines
        if len(line) > 1
    ]


def _cut_positive(x0: float, y0: float, x1: float, y1: float) -> tuple[Point, Point] | None:
    """The part of a segment with x >= 0; None where it has none."""
    if x0 < 0 and x1 < 0:
        return None
    if x0 >= 0 and x1 >= 0:
        return (x0, y0), (x1, y1)
    # Where the segment passes the match line.
    t = x0 / (x0 - x1)
    middle = (0.0, y0 + (y1 - y0) * t)
    return ((x0, y0), middle) if x0 >= 0 else (middle, (x1, y1))
