"""Places of a strap and what lies between them → mm that it must bridge, at least and at most.

Both ways over the foam are measured on the flat pieces: foam that bends keeps its lengths.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import batched

from guidegen.buildfile.records.fastening import Strap, StrapEnd, Way
from guidegen.buildfile.yaml.expressions import ExpressionError
from guidegen.geometry.fastening.answers import run_of_edge
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.outline.curves import along
from guidegen.geometry.outline.distances import distance_to_line
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Point
from guidegen.geometry.pieces.records import PointRow, RowPoint


@dataclass(frozen=True, slots=True)
class Reach:
    """What all straps of one kind bridge, in mm."""

    least: float
    most: float
    from_place: float = 0.0
    """mm over the foam from the first place to its edge, on the strap that has farthest to go."""
    to_place: float = 0.0
    """The same from the other edge to the other place."""


def reach(holding: Holding, name: str, strap: Strap) -> Reach | None:
    """mm between both places; None, and problems, where they have no value.

    Straps of one kind are cut alike: the least is that of the shortest way, the most that of the
    longest.
    """
    given = strap.bridges or strap.girth
    if given is not None:
        key = "bridges" if strap.bridges is not None else "girth"
        least, most = (holding.asked(one, "straps", name, key, at) for at, one in enumerate(given))
        return None if least is None or most is None else Reach(least, most)
    way, start = strap.way, strap.start
    if way is None or start is None:
        raise AssertionError("the model wants a reach, and a place for a way")
    return _over_foam(holding, name, strap, way, start)


def _over_foam(
    holding: Holding, name: str, strap: Strap, way: Way, start: StrapEnd
) -> Reach | None:
    place = ("straps", name, "way")
    # Between the edges: the part of the way that the body decides.
    low, high = (holding.asked(one, *place, "apart", at) for at, one in enumerate(way.apart))
    comes_back = strap.end is None and strap.around is None
    one = _ways(holding, name, "from", start, way.leaves, comes_back=comes_back)
    if strap.end is not None:
        two = _ways(holding, name, "to", strap.end, way.enters or "")
    else:
        # A strap that comes back passes the same foam again; a hanger has no second place.
        two = one if comes_back else [0.0] * len(one or ())
    if low is None or high is None or not one or not two:
        return None
    # The order of both rows says which places belong together; a row on a pair stands for both.
    pairs = list(zip(one, two, strict=True)) if len(one) == len(two) else _all(one, two)
    ways = [first + second for first, second in pairs]
    farthest = max(pairs, key=sum)
    return Reach(min(ways) + low, max(ways) + high, *farthest)


def _all(one: list[float], two: list[float]) -> list[tuple[float, float]]:
    # Without an order that says which places belong together only the extremes matter.
    return [(first, second) for first in (min(one), max(one)) for second in (min(two), max(two))]


def _ways(
    holding: Holding, name: str, key: str, end: StrapEnd, edge: str, *, comes_back: bool = False
) -> list[float] | None:
    """mm from each place of a row to an edge of its part; None, and a problem, without it."""
    row = holding.row(end.row)
    each = holding.number(end.points, "straps", name, key, "points")
    if row is None or each is None:
        return None  # told where it stands
    try:
        line = flatten(run_of_edge(holding.kit, row.part, edge))
    except ExpressionError as error:
        field = "leaves" if key == "from" else "enters"
        holding.refuse("unknown-edge", str(error), "straps", name, "way", field)
        return None
    # On a half template a strap that comes back is held by both halves: one shows half its points.
    here = round(each) // (row.halves if comes_back else 1)
    return [distance_to_line(line, point) for point in _places(row, here, line)]


def _places(row: PointRow, each: int, line: list[Point]) -> Iterator[Point]:
    """Where each strap of a row begins to be free.

    Of two rivets that hold one strap the middle between them; of a patch the end that is nearer to
    the edge.
    """
    if row.kind == "patch":
        for spot in row.spots:
            yield min(_ends(row, spot), key=lambda end: distance_to_line(line, end))
        return
    # Points of a row come in its order, so those of one strap stand side by side.
    for group in batched(row.spots, max(1, each)):
        xs, ys = [spot.at[0] for spot in group], [spot.at[1] for spot in group]
        yield (sum(xs) / len(xs), sum(ys) / len(ys))


def _ends(row: PointRow, spot: RowPoint) -> tuple[Point, Point]:
    across = (-spot.along[1], spot.along[0])
    return along(spot.at, across, row.length / 2), along(spot.at, across, -row.length / 2)
