"""Strokes that touch end to end in → whole lines, arcs where a PDF has curves for them."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from math import floor

from guidegen.bench.vectors.arcs import with_arcs
from guidegen.bench.vectors.records import FoundPath, StrokeLook
from guidegen.geometry.drawing.records import Subpath
from guidegen.geometry.outline.curves import distance
from guidegen.geometry.outline.measures import segment_end, segment_start
from guidegen.geometry.outline.records import Point, Run
from guidegen.geometry.outline.transforms import reverse_run

TOUCH = 0.02
"""mm; ends nearer than this are one point: what rounding leaves. Wider gaps stay for the author to
see; the reading of drawings closes them up to half a millimetre."""


def whole_lines(paths: Sequence[FoundPath], *, arcs: bool) -> list[tuple[StrokeLook, Subpath]]:
    """All lines by their look, in the order of the file; `arcs` looks for circles in curves."""
    by_look: dict[StrokeLook, list[Subpath]] = defaultdict(list)
    for path in paths:
        # Faces that have a line and faces that have none may be one outline.
        by_look[path.look].extend(path.strokes)
    found: list[tuple[StrokeLook, Subpath]] = []
    for look, strokes in by_look.items():
        for stroke in chained(strokes):
            run = with_arcs(stroke.run) if arcs else stroke.run
            found.append((look, Subpath(run, stroke.closed)))
    return found


def chained(strokes: Iterable[Subpath]) -> list[Subpath]:
    """Closed strokes as they are; open ones put together where exactly two ends meet."""
    found = [stroke for stroke in strokes if stroke.closed]
    runs: dict[int, Run] = {}
    for stroke in (one for one in strokes if not one.closed):
        if (
            _touch(segment_start(stroke.run[0]), segment_end(stroke.run[-1]))
            and len(stroke.run) > 1
        ):
            found.append(Subpath(stroke.run, closed=True))
        else:
            runs[len(runs)] = stroke.run
    left = dict(runs)
    ends = _Ends(runs)
    while left:
        number = next(iter(left))
        run = ends.grow(left.pop(number), number, left)
        run = reverse_run(ends.grow(reverse_run(run), number, left))
        closed = _touch(segment_start(run[0]), segment_end(run[-1])) and len(run) > 1
        found.append(Subpath(run, closed))
    return found


def _touch(first: Point, second: Point) -> bool:
    return distance(first, second) <= TOUCH


class _Ends:
    """Ends of open strokes by cells of the plane, so that partners are found at once."""

    def __init__(self, runs: dict[int, Run]) -> None:
        self.runs = runs
        self.cells: dict[tuple[int, int], list[tuple[Point, int]]] = defaultdict(list)
        for number, run in runs.items():
            for point in (segment_start(run[0]), segment_end(run[-1])):
                self.cells[_cell(point)].append((point, number))

    def grow(self, run: Run, number: int, left: dict[int, Run]) -> Run:
        """Append strokes to the end of a run as long as one alone goes on there."""
        while True:
            end = segment_end(run[-1])
            near = self._near(end)
            # Where three ends meet, nobody can tell which two belong together.
            others = {other for _, other in near if other in left}
            if len(near) != 2 or len(others) != 1:
                return run
            number = others.pop()
            following = left.pop(number)
            if not _touch(segment_start(following[0]), end):
                following = reverse_run(following)
            run = (*run, *following)

    def _near(self, point: Point) -> list[tuple[Point, int]]:
        x, y = _cell(point)
        return [
            found
            for dx in (-1, 0, 1)
            for dy in (-1, 0, 1)
            for found in self.cells.get((x + dx, y + dy), ())
            if _touch(found[0], point)
        ]


def _cell(point: Point) -> tuple[int, int]:
    return floor(point[0] / TOUCH), floor(point[1] / TOUCH)
