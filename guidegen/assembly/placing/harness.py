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
from guidegen.assembly.placing.spots import LEFT, RIGHT, facing, level, spot
from guidegen.assembly.records import Points3, Row
from guidegen.assembly.sheets.bends import Round
from guidegen.assembly.sheets.made import MIRROR
from guidegen.assembly.sheets.ribbons import PROUD, even_way, softened
from guidegen.buildfile.records.constructions.harness import Harness, HarnessPlace, HarnessStrap
from guidegen.buildfile.records.guide import Worn
from guidegen.geometry.pieces.records import CutHarnessStrap

ROUNDS = 60
"""Turns of pushing and shortening. Our choice: a way of half a metre moves by less than 1 mm in the
last ones."""
STEP = 15.0
"""mm between points of a way. Our choice: as fine as the figure."""


type HarnessNode = tuple[str, str]
"""A place, and the side on which it is: empty in the middle."""


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
    nodes = strap_way(harness, strap, LEFT)
    points = [place_point(scene, harness.places[place], side) for place, side in nodes]
    held = [number for number, point in enumerate(points) if point is not None]
    for start, end in pairwise(held):
        one, other = points[start], points[end]
        if one is None or other is None:
            continue
        said = cut.marks[end].at - cut.marks[start].at
        found = taut(one, other, surface)
        yield HarnessWay(cut.id, (strap.via[start], strap.via[end]), said, found)


def strap_way(harness: Harness, strap: HarnessStrap, side: str) -> list[HarnessNode]:
    """The nodes that a strap passes from a side on. What is there on both sides goes over to the
    other at a place in the middle."""
    found: list[HarnessNode] = []
    for number, place in enumerate(strap.via):
        if harness.places[place].both:
            found.append((place, side))
            continue
        found.append((place, ""))
        if number:
            side = RIGHT if side == LEFT else LEFT
    return found


def place_point(scene: Placing, place: HarnessPlace, side: str) -> Row | None:
    """Where a place lies in space on a side, or in the middle for an empty one: on the row that
    holds it, or on the body where its author says; None where neither is known."""
    point = _held(scene, place, side)
    return _on_body(scene, place.worn, side) if point is None and place.worn is not None else point


def _held(scene: Placing, place: HarnessPlace, side: str) -> Row | None:
    """Where the row of a part holds a strap: of several points the outermost of its side, for a
    place in the middle their middle."""
    row = scene.kit.row(place.row)
    if row is None:
        return None
    points = []
    for made in scene.made_of(row.part):
        signs = (1.0, -1.0) if row.halves > 1 else (-1.0 if made.piece.mirrored else 1.0,)
        for sign in signs:
            at = np.array([spot.at for spot in row.spots]) * [sign, 1.0]
            points.append(StrapHold(made, at, at, row.kind == "patch").on_face(at, 0.0)[0])
        if not side and hand_of(made):
            break
    if not points:
        return None
    every = np.concatenate(points)
    if not side:
        return np.asarray(every.mean(0))
    return np.asarray(every[(every[:, 0] * (1 if side == LEFT else -1)).argmax()])


def _on_body(scene: Placing, worn: Worn, side: str) -> Row:
    """The point of the body that a place lies on; of both sides the right mirrors the left."""
    at = spot(scene.figure, worn.on, LEFT)
    frame, wide, deep = level(at.limb, at.at + scene.number(worn.up), 20.0)
    faces = facing(worn.faces, at.faces, LEFT)
    around = Round(frame, wide, deep, PROUD, faces, scene.number(worn.aside))
    point = around.place(np.zeros((1, 2)))[0][0]
    return np.asarray(point * MIRROR if side == RIGHT else point)


def taut(start: Row, end: Row, surface: tuple[Points3, Points3]) -> float:
    """mm of a strap from one point to another, pulled taut over a surface."""
    way = taut_way(start, end, surface)
    return float(np.sqrt((np.diff(way, axis=0) ** 2).sum(1)).sum())


def taut_way(start: Row, end: Row, surface: tuple[Points3, Points3]) -> Points3:
    """The way of such a strap."""
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
    return pushed(way)
