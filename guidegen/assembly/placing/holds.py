"""Rows of points at which straps are held → where each strap begins on the sheets that hold it."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import batched

import numpy as np

from guidegen.assembly.placing.scene import Placing
from guidegen.assembly.records import Points3, Row
from guidegen.assembly.sheets.flat import Points2
from guidegen.assembly.sheets.made import Made, lifted
from guidegen.assembly.sheets.ribbons import PROUD, StrapBand
from guidegen.buildfile.records.fastening import StrapEnd
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.pieces.records import PointRow, Side

CORD = 3.0
"""mm of webbing without a thickness, which is a cord: as thick as wide."""


@dataclass(frozen=True, eq=False)
class StrapHold:
    """Where one strap is held: a patch holds it inside, where it is glued; a rivet outside, but for
    hangers, which hang behind their part."""

    made: Made
    at: Points2
    """On the flat piece; one row."""
    edge: Points2
    """The nearest point of the edge over which it leaves; the place itself without one."""
    inside: bool
    """Whether it lies on the inner face."""

    def way(self, thickness: float) -> tuple[Points3, Points3]:
        """From the place to the edge, over the foam, and the normals outward of the strap."""
        share = np.linspace(0.0, 1.0, 12)[:, None]
        return self.on_face(self.at + (self.edge - self.at) * share, thickness)

    def on_face(self, flat: Points2, thickness: float) -> tuple[Points3, Points3]:
        """Points of the flat piece on the face on which the strap lies."""
        off = (self.made.sheet.thickness + thickness) / 2 + PROUD
        return lifted(self.made, flat, -off if self.inside else off)


def holds_of(
    scene: Placing, end: StrapEnd, edge: str, side: str, band: StrapBand
) -> Iterator[StrapHold]:
    """Places of a row on one piece, or of both its halves."""
    row = scene.kit.row(end.row)
    if row is None:
        return
    sheets = [made for made in scene.made_of(row.part) if hand_of(made) in ("", side) or not side]
    if not sheets:
        return
    each = max(1, round(scene.number(end.points, 1.0)))
    inside = row.kind == "patch" or scene.guide.straps[band.part].around is not None
    for made in sheets[:1] if side else sheets:
        mirrored = made.piece.side is Side.RIGHT
        for half in range(row.halves):
            sign = -1.0 if mirrored != bool(half) else 1.0
            spots = [np.array(spot.at) * [sign, 1.0] for spot in row.spots]
            for some in batched(spots, each if row.kind != "patch" else 1):
                at = _centred(scene, row, np.mean(some, axis=0), sign, band)
                yield StrapHold(made, at[None, :], _edge(made, edge, at)[None, :], inside)


def _centred(scene: Placing, row: PointRow, at: Row, sign: float, band: StrapBand) -> Row:
    """A rivet, or the middle between it and others within the strap's width that hold it too."""
    if row.kind == "patch":
        return at
    near = [
        point
        for other in scene.kit.rows
        if other.part == row.part and other.kind == row.kind and not other.source
        for spot in other.spots
        if np.hypot(*((point := np.array(spot.at) * [sign, 1.0]) - at)) < band.width
    ]
    return np.mean(near, axis=0) if near else at


def _edge(made: Made, edge: str, at: Row) -> Row:
    """The place on an edge that is nearest to another; of an edge that is there twice, on both."""
    runs = [own.run for own in made.piece.shape.edges if own.name in (edge, f"{edge}-2")]
    lines = [np.array(flatten(run)) for run in runs]
    if not lines:
        return at
    start = np.concatenate([line[:-1] for line in lines])
    side = np.concatenate([np.diff(line, axis=0) for line in lines])
    share = ((at - start) * side).sum(1) / np.maximum((side**2).sum(1), 1e-12)
    feet = start + side * np.clip(share, 0.0, 1.0)[:, None]
    return np.asarray(feet[((feet - at) ** 2).sum(1).argmin()])


def strap_band(scene: Placing, stock: Stock, name: str, key: str) -> StrapBand | None:
    """What a strap of a material is like; None where the stock has none."""
    material = stock.materials.get(key)
    if material is None:
        return None
    width = scene.number(material.width)
    thickness = scene.number(material.thickness)
    if not thickness:
        thickness = width = width or CORD
    return StrapBand(name, key, width, thickness)


def hand_of(made: Made) -> str:
    """Which hand of a pair a sheet is, as its key says; empty for a single one."""
    return "" if made.piece.side is Side.ANY else f"{made.piece.side}-"
