"""Pages of a tiled drawing in → one sheet, joined at points that stand on both.

Two points that two pages share say how one lies to the other. Between two pages that show the same
strip, the line through those points parts what is taken from either.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import combinations, pairwise
from math import atan2, degrees

from guidegen.bench.vectors.records import FoundPage, FoundPath, VectorError
from guidegen.geometry.drawing.records import Subpath
from guidegen.geometry.outline.curves import cut_segment, distance
from guidegen.geometry.outline.measures import segment_point
from guidegen.geometry.outline.records import Point, Run, Segment
from guidegen.geometry.outline.transforms import RigidMotion, transform_run
from guidegen.problems import Place, Problem
from guidegen.units import mm_text

SLACK = 0.5
"""mm by which two pages may disagree on the distance of two points: as for gaps of outlines."""
LEAST = 20.0
"""mm that two points of a join must be apart. Our choice: nearer ones turn the page."""
STRAIGHT = 0.3
"""degrees; a page that lies this straight was meant to lie straight."""


@dataclass(frozen=True, slots=True)
class PageSeam:
    """Where two pages of a sheet meet."""

    first: int
    second: int
    """Numbers of pages."""
    upright: bool
    at: float
    """mm on the sheet; x of an upright line, y of a level one."""


@dataclass(frozen=True, slots=True)
class JoinedSheet:
    """Pages that make up one drawing, or one page by itself."""

    pages: tuple[int, ...]
    paths: tuple[FoundPath, ...]


def join_by_points(
    file: str, pages: Sequence[FoundPage], points: Mapping[int, Mapping[str, Point]]
) -> list[JoinedSheet]:
    """Sheets of pages that share two points, and all other pages alone. Raises VectorError."""
    problems = [*_problems(file, points)]
    motions: dict[int, RigidMotion] = {}
    sheets: list[list[int]] = []
    for page in pages:
        if page.number in motions:
            continue
        motions[page.number] = RigidMotion()
        sheets.append([page.number])
        # One after another, each by a page that has its place already.
        waiting = [page.number]
        while waiting:
            here = waiting.pop(0)
            for other in sorted(points):
                common = _common(points, here, other)
                if other in motions or len(common) < 2:
                    continue
                placed = {name: motions[here].point(points[here][name]) for name in common}
                motions[other] = _motion(points[other], placed, common)
                sheets[-1].append(other)
                waiting.append(other)
    problems += _closing(file, points, motions, sheets)
    if problems:
        raise VectorError(*problems)
    by_number = {page.number: page for page in pages}
    return [_sheet([by_number[n] for n in sorted(one)], points, motions) for one in sheets]


def _common(points: Mapping[int, Mapping[str, Point]], first: int, second: int) -> list[str]:
    """Points that two pages share: the two that are farthest apart."""
    here, there = points.get(first, {}), points.get(second, {})
    names = sorted(set(here) & set(there)) if first != second else []
    if len(names) < 2:
        return names
    pairs = combinations(names, 2)
    return [*max(pairs, key=lambda pair: distance(here[pair[0]], here[pair[1]]))]


def _problems(file: str, points: Mapping[int, Mapping[str, Point]]) -> list[Problem]:
    """What is wrong with the points of pairs of pages."""
    found: list[Problem] = []
    for first, second in combinations(sorted(points), 2):
        common = _common(points, first, second)
        where = f"pages {first} and {second}"
        if len(common) == 1:
            message = f"{where} share the point {common[0]} alone, and one may turn about it"
            found.append(_problem(file, message, "name a second one on both with --point"))
        elif common:
            a, b = common
            lengths = [distance(points[page][a], points[page][b]) for page in (first, second)]
            if min(lengths) < LEAST:
                message = f"{where}: {a} and {b} lie only {mm_text(min(lengths), 1)} mm apart"
                found.append(_problem(file, message, f"take points {LEAST:g} mm apart or more"))
            elif abs(lengths[0] - lengths[1]) > SLACK:
                both = f"{mm_text(lengths[0], 1)} and {mm_text(lengths[1], 1)} mm"
                message = f"{where}: from {a} to {b} there are {both}"
                cure = "take the same points on both, and pages of one scale"
                found.append(_problem(file, message, cure))
    return found


def _problem(file: str, message: str, cure: str) -> Problem:
    return Problem("vector-join", Place(file), "", message, cure)


def _motion(
    own: Mapping[str, Point], placed: Mapping[str, Point], common: Sequence[str]
) -> RigidMotion:
    """How a page moves so that both of its points come to where they are on the sheet."""
    (ax, ay), (bx, by) = (own[name] for name in common)
    (px, py), (qx, qy) = (placed[name] for name in common)
    angle = degrees(atan2(qy - py, qx - px) - atan2(by - ay, bx - ax))
    straight = round(angle / 90) * 90.0
    # Points that were read off a screen turn a page by a hair, which metres of line would show.
    if abs(angle - straight) < STRAIGHT:
        angle = straight
    turn = RigidMotion(angle=angle % 360)
    middle = turn.point(((ax + bx) / 2, (ay + by) / 2))
    return replace(turn, dx=(px + qx) / 2 - middle[0], dy=(py + qy) / 2 - middle[1])


def _closing(
    file: str,
    points: Mapping[int, Mapping[str, Point]],
    motions: Mapping[int, RigidMotion],
    sheets: Sequence[Sequence[int]],
) -> list[Problem]:
    """Points that come to lie in two places once all pages have theirs."""
    found: list[Problem] = []
    for sheet in sheets:
        for first, second in combinations(sorted(sheet), 2):
            for name in sorted(set(points.get(first, {})) & set(points.get(second, {}))):
                gap = distance(
                    motions[first].point(points[first][name]),
                    motions[second].point(points[second][name]),
                )
                if gap > 2 * SLACK:
                    message = (
                        f"the point {name} of page {second} comes to lie {mm_text(gap, 1)} mm from "
                        f"that of page {first}"
                    )
                    cure = "take the same points on all pages that show them"
                    found.append(_problem(file, message, cure))
    return found


def _sheet(
    pages: Sequence[FoundPage],
    points: Mapping[int, Mapping[str, Point]],
    motions: Mapping[int, RigidMotion],
) -> JoinedSheet:
    """Pages of one sheet in their places, each cut where the next one begins."""
    seams = [
        _seam(first.number, second.number, points, motions, common)
        for first, second in combinations(pages, 2)
        if len(common := _common(points, first.number, second.number)) == 2
    ]
    paths: list[FoundPath] = []
    for page in pages:
        motion = motions[page.number]
        middle = motion.point((page.size[0] / 2, page.size[1] / 2))
        moved = [move_path(path, motion) for path in page.paths]
        for seam in seams:
            if page.number in (seam.first, seam.second):
                below = (middle[0] if seam.upright else middle[1]) < seam.at
                moved = [kept for path in moved if (kept := cut_path(path, seam, below=below))]
        paths.extend(moved)
    return JoinedSheet(tuple(page.number for page in pages), tuple(paths))


def _seam(
    first: int,
    second: int,
    points: Mapping[int, Mapping[str, Point]],
    motions: Mapping[int, RigidMotion],
    common: Sequence[str],
) -> PageSeam:
    (ax, ay), (bx, by) = (motions[first].point(points[first][name]) for name in common)
    upright = abs(by - ay) >= abs(bx - ax)
    return PageSeam(first, second, upright, (ax + bx) / 2 if upright else (ay + by) / 2)


def move_path(path: FoundPath, motion: RigidMotion) -> FoundPath:
    """A path moved and turned; of its window only a box about it is left."""
    strokes = tuple(replace(one, run=transform_run(one.run, motion)) for one in path.strokes)
    clip = None
    if path.clip is not None:
        left, low, right, high = path.clip
        corners = [
            motion.point(p) for p in ((left, low), (right, low), (right, high), (left, high))
        ]
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        clip = (min(xs), min(ys), max(xs), max(ys))
    return FoundPath(strokes, path.look, clip)


def cut_path(path: FoundPath, seam: PageSeam, *, below: bool) -> FoundPath | None:
    """What lies on one side of a seam; None where nothing does."""
    strokes = [part for stroke in path.strokes for part in _cut_stroke(stroke, seam, below=below)]
    return replace(path, strokes=tuple(strokes)) if strokes else None


def _cut_stroke(stroke: Subpath, seam: PageSeam, *, below: bool) -> list[Subpath]:
    axis = 0 if seam.upright else 1
    sign = 1.0 if below else -1.0

    def side(point: Point) -> float:
        return (point[axis] - seam.at) * sign

    parts: list[list[Segment]] = [[]]
    whole = True
    for segment in stroke.run:
        stops = [0.0, *_passes(segment, side), 1.0]
        for start, end in pairwise(stops):
            if side(segment_point(segment, (start + end) / 2)) <= 0:
                kept = segment if (start, end) == (0.0, 1.0) else cut_segment(segment, start, end)
                parts[-1].append(kept)
            else:
                whole = False
                if parts[-1]:
                    parts.append([])
    if whole:
        return [stroke]
    runs = [tuple(part) for part in parts if part]
    # A ring that was cut elsewhere than where it begins: its first and last part are one.
    if len(runs) > 1 and stroke.closed and _meet(runs[-1], runs[0]):
        runs = [(*runs[-1], *runs[0]), *runs[1:-1]]
    return [Subpath(run, closed=False) for run in runs]


def _meet(first: Run, second: Run) -> bool:
    return distance(segment_point(first[-1], 1.0), segment_point(second[0], 0.0)) < 1e-6


def _passes(segment: Segment, side: Callable[[Point], float]) -> list[float]:
    """Parameters at which a segment passes a line, by bisection between 64 points of it."""
    steps = 64
    values = [side(segment_point(segment, n / steps)) for n in range(steps + 1)]
    found: list[float] = []
    for number, (before, after) in enumerate(pairwise(values)):
        if (before > 0) == (after > 0):
            continue
        low, high = number / steps, (number + 1) / steps
        for _ in range(50):
            middle = (low + high) / 2
            if (side(segment_point(segment, middle)) > 0) == (before > 0):
                low = middle
            else:
                high = middle
        found.append((low + high) / 2)
    return [t for t in found if 1e-9 < t < 1 - 1e-9]
