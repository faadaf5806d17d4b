"""Darts of a cloth part → legs and tips on its finished edge, and what is left of the edge."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import pairwise

from guidegen.geometry.outline.curves import along, distance, point_at
from guidegen.geometry.outline.measures import flatten, nearest_share, run_length
from guidegen.geometry.outline.records import Point, Run, Shape
from guidegen.geometry.outline.transforms import RigidMotion
from guidegen.geometry.parts.part_context import PartAsker
from guidegen.geometry.parts.sewing import TakenIn

ON_IT = 0.05
"""mm by which the leg of a dart may lie beside its edge: edges are flattened to 0.02."""


@dataclass(frozen=True, slots=True)
class DartPlace:
    """A dart on the finished edge."""

    edge: str
    start: float
    end: float
    """mm from the beginning of the edge to both legs."""
    legs: tuple[Point, Point]
    """Where they begin on the finished edge, in the order of the outline."""
    tip: Point
    to_start: bool
    """Whether it is pressed towards the beginning of the edge."""

    def mirrored(self, mirror: RigidMotion) -> "DartPlace":
        """The same on the other side of a fold."""
        first, second = (mirror.point(leg) for leg in self.legs)
        return replace(
            self, legs=(second, first), tip=mirror.point(self.tip), to_start=not self.to_start
        )


def darts_of(asker: PartAsker, template: Shape) -> list[DartPlace]:
    """All darts of a part; problems are noted by the asker."""
    found = []
    runs = {edge.name: edge.run for edge in template.edges}
    for number, dart in enumerate(asker.part.darts):
        place = ("darts", number)
        run = runs.get(dart.edge)
        if run is None:
            message = f'no edge "{dart.edge}" on this part; there are {", ".join(runs)}'
            asker.refuse("unknown-edge", message, *place, "edge")
            continue
        length = run_length(run)
        at = length / 2 if dart.at is None else asker.number(dart.at, *place, "at")
        width = asker.between(dart.width, 1, 500, *place, "width")
        deep = asker.between(dart.length, 1, 2000, *place, "length")
        if at is None or width is None or deep is None:
            continue
        start, end = at - width / 2, at + width / 2
        if start <= 0 or end >= length:
            message = f"it takes {width:g} mm at {at:.1f} mm of an edge of {length:.1f} mm"
            asker.refuse("bad-dart", message, *place, "at")
            continue
        legs = (point_at(run, start)[0], point_at(run, end)[0])
        wide = distance(*legs)
        inward = (-(legs[1][1] - legs[0][1]) / wide, (legs[1][0] - legs[0][0]) / wide)
        middle = ((legs[0][0] + legs[1][0]) / 2, (legs[0][1] + legs[1][1]) / 2)
        # On the perpendicular of its mouth: both legs are equally long, whatever the edge does.
        tip = along(middle, inward, deep)
        found.append(DartPlace(dart.edge, start, end, legs, tip, dart.toward == "start"))
    return found


def taken_by(places: list[DartPlace]) -> list[TakenIn]:
    """What darts take, for readers."""
    return [
        TakenIn("dart", one.edge, 1, distance(one.legs[0], one.tip), one.end - one.start)
        for one in places
    ]


def gone(run: Run, darts: Iterable[DartPlace]) -> list[tuple[float, float]]:
    """mm from the beginning of an edge between which darts take it away, in its order."""
    found = []
    for dart in darts:
        places = [_place_on(run, leg) for leg in dart.legs]
        first, second = places
        if first is not None and second is not None:
            found.append((min(first, second), max(first, second)))
    return sorted(found)


def _place_on(run: Run, point: Point) -> float | None:
    """mm along a run at which a point lies; None beside it."""
    passed = 0.0
    for start, end in pairwise(flatten(run)):
        away, share = nearest_share(start, end, point)
        if away <= ON_IT:
            return passed + share * distance(start, end)
        passed += distance(start, end)
    return None


def left_of(run: Run, taken: Iterable[tuple[float, float]]) -> float:
    """mm of an edge when its darts are sewn."""
    return run_length(run) - sum(end - start for start, end in taken)


def place_at(run: Run, taken: Iterable[tuple[float, float]], length: float) -> float:
    """mm along an edge as it is cut, of a place `length` mm along it when its darts are sewn."""
    for start, end in taken:
        # On the mouth of a dart itself the mark stands at its beginning.
        if length > start:
            length += end - start
    return length
