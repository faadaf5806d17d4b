"""A harness → its straps as bands over the body, from place to place, and what hangs on them.

A place is where the row of a part holds it, or where its author says that it lies on the body; one
of which nothing is said lies in the middle of those that straps lead to.
"""

from collections.abc import Iterator
from itertools import pairwise

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.placing.harness import HarnessNode, place_point, strap_way, taut_way
from guidegen.assembly.placing.holds import strap_band
from guidegen.assembly.placing.scene import Placing
from guidegen.assembly.placing.spots import LEFT, RIGHT
from guidegen.assembly.records import PlacedSheet, Points3, Row
from guidegen.assembly.sheets.bends import UPRIGHT, Plane
from guidegen.assembly.sheets.made import bent
from guidegen.assembly.sheets.ribbons import PROUD, StrapBand, fair_strap
from guidegen.buildfile.records.constructions.harness import Harness
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.pieces.records import CutHarnessStrap, FittedHarness, Piece, PointRow

type BodySurface = tuple[Points3, Points3]
"""Points of the body, and unit normals there."""


def harnessed(scene: Placing, stock: Stock, surface: BodySurface) -> Iterator[PlacedSheet]:
    """The straps of all harnesses; plates that hang on them are placed."""
    for name, harness in scene.guide.harnesses.items():
        fitted = next((one for one in scene.kit.harnesses if one.id == name), None)
        if fitted is None:
            continue
        ways = [way for cut in fitted.straps for way in _ways(harness, cut)]
        nodes = _nodes(scene, fitted, ways, surface)
        for cut in fitted.straps:
            strap = harness.straps[cut.id]
            band = strap_band(scene, stock, name, strap.material or harness.material)
            for number, way in enumerate(_ways(harness, cut)):
                if band is not None and all(node in nodes for node in way):
                    key = f"{name}-{cut.id}-strap-{number + 1}"
                    yield _drawn(band, [nodes[node] for node in way], surface, key)


def _ways(harness: Harness, cut: CutHarnessStrap) -> list[list[HarnessNode]]:
    """Of each strap of a kind the nodes that it passes. One that is there on both sides goes over
    to the other at a place in the middle; one that is there once begins on the left."""
    strap = harness.straps[cut.id]
    sides = (LEFT, RIGHT) if strap.both else (LEFT,)
    return [strap_way(harness, strap, side) for side in sides]


def _nodes(
    scene: Placing, fitted: FittedHarness, ways: list[list[HarnessNode]], surface: BodySurface
) -> dict[HarnessNode, Row]:
    """Where each node lies in space, as far as it is known."""
    harness = scene.guide.harnesses[fitted.id]
    wanted = list(dict.fromkeys(node for way in ways for node in way))
    found: dict[HarnessNode, Row] = {}
    for node in wanted:
        point = place_point(scene, harness.places[node[0]], node[1])
        if point is not None:
            found[node] = point
    _hang(scene, fitted, ways, found)
    for node in wanted:
        near = [
            found[other]
            for way in ways
            for pair in pairwise(way)
            for here, other in (pair, pair[::-1])
            if here == node and other in found
        ]
        if node not in found and near:
            found[node] = _pushed(np.mean(near, axis=0), surface)
    return found


def _pushed(point: Row, surface: BodySurface) -> Row:
    """A point brought to the body."""
    points, normals = surface
    near = int(((points - point) ** 2).sum(1).argmin())
    return np.asarray(points[near] + normals[near] * PROUD)


HANGS_OFF = 12.0
"""mm between the body and the foam of a plate that hangs. Our choice: it swings over clothes."""
BESIDE = 60.0
"""mm above and below its holds at which the body keeps a plate off. Our choice: half a pouch."""


def _hang(
    scene: Placing,
    fitted: FittedHarness,
    ways: list[list[HarnessNode]],
    found: dict[HarnessNode, Row],
) -> None:
    """Place parts that nothing else places under the place from which a strap leads to them."""
    harness = scene.guide.harnesses[fitted.id]
    lengths = {
        frozenset((one.place, other.place)): other.at - one.at
        for cut in fitted.straps
        for one, other in pairwise(cut.marks)
    }
    for way in ways:
        for one, other in (*pairwise(way), *pairwise(way[::-1])):
            row = scene.kit.row(harness.places[other[0]].row)
            if one not in found or other in found or row is None or not row.spots:
                continue
            piece = next(iter(scene.pieces(row.part)), None)
            if piece is None:
                continue
            down = lengths.get(frozenset((one[0], other[0])), 0.0)
            plane, hold = _hung(scene, row, piece, found[one] - UPRIGHT * down)
            scene.add(bent(piece, plane))
            found[other] = hold


def _hung(scene: Placing, row: PointRow, piece: Piece, under: Row) -> tuple[Plane, Row]:
    """How a plate hangs before the body, the middle of its row at the height of a point, and where
    the strap lies on it there."""
    level = under * [1.0, 0.0, 1.0]
    out = unit(level + 1e-9)
    trunk = scene.figure.limbs["trunk"].rings().reshape(-1, 3)
    beside = trunk[np.abs(trunk[:, 1] - under[1]) < BESIDE]
    if len(beside):
        level = out * (float((beside @ out).max()) + HANGS_OFF)
    hold = level + UPRIGHT * under[1]
    right = np.cross(UPRIGHT, out)
    across, up = np.mean([spot.at for spot in row.spots], axis=0)
    plane = Plane(hold - right * across - UPRIGHT * up, right, UPRIGHT)
    return plane, hold - out * (piece.thickness / 2 + PROUD)


def _drawn(band: StrapBand, nodes: list[Row], surface: BodySurface, key: str) -> PlacedSheet:
    """A strap over the body through its nodes; it lies flat on what is under it."""
    from scipy.spatial import cKDTree  # noqa: PLC0415 - heavy, and only where there is a view

    parts = [taut_way(one, other, surface) for one, other in pairwise(nodes)]
    way = np.concatenate([parts[0], *(part[1:] for part in parts[1:])])
    points, normals = surface
    _, near = cKDTree(points).query(way)
    out = unit(normals[near] + 1e-9)
    lifted = way + out * (band.thickness / 2)
    return fair_strap(band, lifted, out, key)
