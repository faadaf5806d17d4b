"""A harness on the placed parts → how far its straps go over the figure, from part to part.

Between two places on parts a strap is pulled taut over the body: a straight line, pushed out of it
and shortened in turn, until it lies on it.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from guidegen.assembly.placing.holds import StrapHold, hand_of
from guidegen.assembly.placing.scene import Placing
from guidegen.assembly.records import Points3, Row
from guidegen.assembly.sheets.ribbons import PROUD, even_way, softened
from guidegen.buildfile.records.constructions.harness import Harness, HarnessStrap
from guidegen.geometry.pieces.records import CutHarnessStrap, Side

ROUNDS = 60
"""Turns of pushing and shortening. Our choice: a way of half a metre moves by less than 1 mm in the
last ones."""
STEP = 15.0
"""mm between points of a way. Our choice: as fine as the figure."""


@dataclass(frozen=True, slots=True)
class HarnessWay:
    """A stretch of a strap between two places on parts."""

    strap: str
    places: tuple[str, str]
    said: float
    """mm that the guide says."""
    found: float
    """mm over the figure."""


def harness_ways(
    scene: Placing, name: str, surface: tuple[Points3, Points3]
) -> Iterator[HarnessWay]:
    """Of one harness every stretch between two places on parts that are placed.

    `surface` are points of the body and normals there.
    """
    harness = scene.guide.harnesses[name]
    fitted = next((one for one in scene.kit.harnesses if one.id == name), None)
    for cut in fitted.straps if fitted is not None else ():
        yield from _stretches(scene, harness, harness.straps[cut.id], cut, surface)


def _stretches(
    scene: Placing,
    harness: Harness,
    strap: HarnessStrap,
    cut: CutHarnessStrap,
    surface: tuple[Points3, Points3],
) -> Iterator[HarnessWay]:
    points = [_point(scene, harness, place) for place in strap.via]
    held = [number for number, point in enumerate(points) if point is not None]
    for start, end in pairwise(held):
        one, other = points[start], points[end]
        if one is None or other is None:
            continue
        said = cut.marks[end].at - cut.marks[start].at
        found = taut(one, other, surface)
        yield HarnessWay(cut.id, (strap.via[start], strap.via[end]), said, found)


def _point(scene: Placing, harness: Harness, place: str) -> Row | None:
    """Where a place lies in space: of several points of its row the first, of a pair the left."""
    ref = harness.places[place].row
    if ref is None:
        return None
    part, _, name = ref.partition(".")
    row = next((one for one in scene.kit.rows if one.part == part and one.name == name), None)
    made = next((one for one in scene.made_of(part) if hand_of(one) in {"", "left-"}), None)
    if row is None or made is None or made.piece.side is Side.RIGHT:
        return None
    at = np.array([row.spots[0].at])
    points, _ = StrapHold(made, at, at, row.kind == "patch").on_face(at, 0.0)
    return np.asarray(points[0])


def taut(start: Row, end: Row, surface: tuple[Points3, Points3]) -> float:
    """mm of a strap from one point to another, pulled taut over a surface."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy, and only where it is asked for

    points, normals = surface
    # One tree for all turns: it takes longer to make than all of them to ask.
    tree = cKDTree(points)

    def pushed(way: Points3) -> Points3:
        _, nearest = tree.query(way)
        over = ((way - points[nearest]) * normals[nearest]).sum(1)
        lifted = way + normals[nearest] * np.maximum(PROUD - over, 0.0)[:, None]
        # Both ends are held: only what is between gives way.
        lifted[0], lifted[-1] = way[0], way[-1]
        return np.asarray(lifted)

    way = even_way(np.stack([start, end]), STEP)
    for _ in range(ROUNDS):
        way = softened(even_way(pushed(way), STEP), 1)
    return float(np.sqrt((np.diff(pushed(way), axis=0) ** 2).sum(1)).sum())
