"""Rows of plates that move → each plate at rest on its neighbour, from the one that is worn."""

from dataclasses import dataclass, replace

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.placing.scene import Placing, worn_of
from guidegen.assembly.placing.spots import Spot, chord
from guidegen.assembly.records import Row
from guidegen.assembly.sheets.bends import Axes, Round
from guidegen.assembly.sheets.made import bent, mirrored
from guidegen.buildfile.records.constructions.linkages import Linkage, LinkEnd, LinkJoint
from guidegen.geometry.outline.measures import bounds, flatten
from guidegen.geometry.pieces.records import MovedJoint, Piece, Side


@dataclass(frozen=True, eq=False)
class LinkedPlate:
    """A plate of a row that is placed."""

    piece: Piece
    bend: Round
    at: float
    """mm along the limb's axis of the middle of the piece."""
    upside: bool = False
    """True where it is turned half round in its plane."""


def place_row(scene: Placing, first: LinkedPlate, spot: Spot) -> None:
    """Place the other plates of the rows in which a plate is, outward from it."""
    placed = {first.piece.part: first}
    for name, linkage in scene.guide.linkages.items():
        fitted = next((one for one in scene.kit.linkages if one.id == name), None)
        if fitted is None:
            continue
        # Twice: from the plate that is worn to the end of the row, and back to its beginning.
        joints = list(zip(linkage.joints, fitted.joints, strict=False))
        for joint, moved in (*joints, *reversed(joints)):
            _place_beside(scene, (linkage, joint, moved), placed, spot)


def _place_beside(
    scene: Placing,
    at: tuple[Linkage, LinkJoint, MovedJoint],
    placed: dict[str, LinkedPlate],
    spot: Spot,
) -> None:
    linkage, joint, moved = at
    known = [part in placed for part in moved.parts]
    if known not in ([True, False], [False, True]):
        return
    own = known.index(False)
    pieces = scene.pieces(moved.parts[own])
    piece = next((one for one in pieces if one.side is not Side.RIGHT), None)
    if piece is None or any(True for _ in scene.made_of(piece.part)):
        return
    ends = (joint.first, joint.second) if own else (joint.second, joint.first)
    base = placed[moved.parts[1 - own]]
    apart = sum(moved.beyond) - moved.overlap
    air = sum(moved.thick) / 2 + scene.number(linkage.clearance)
    plate = _beside(scene, base, piece, ends, (apart, air if own == moved.outer else -air), spot)
    if plate is None:
        return
    placed[piece.part] = plate
    made = bent(piece, plate.bend)
    scene.add(made)
    right = next((one for one in pieces if one.side is Side.RIGHT), None)
    if made is not None and right is not None and piece.side is Side.LEFT:
        scene.add(mirrored(made, right))


def _beside(  # noqa: PLR0917 - a plate with all that says where it hangs
    scene: Placing,
    base: LinkedPlate,
    piece: Piece,
    ends: tuple[LinkEnd, LinkEnd],
    off: tuple[float, float],
    spot: Spot,
) -> LinkedPlate | None:
    """A plate hinged to one that is placed: rows on one another, or as far apart as on a strap."""
    held = _height(scene, base.piece, ends[0]), _height(scene, piece, ends[1])
    if held[0] is None or held[1] is None:
        return None
    row, edge = held[0] if not base.upside else (-held[0][0], -held[0][1])
    way = 1.0 if edge > row else -1.0
    # Its own lapping edge looks back at the base: where it is drawn the other way it is turned.
    upside = (held[1][1] > held[1][0]) == (way > 0)
    own = -held[1][0] if upside else held[1][0]
    hinge = row + way * off[0] / 2
    middle = row + way * off[0] - own
    frame = base.bend.frame
    # From the hinge on it follows the limb, which may be bent there.
    _, low, _, high = bounds((piece.shape.ring(),))
    along = chord(spot.limb, base.at + middle, high - low).along
    pivot = frame.middle + frame.along * hinge
    turned = _turned(frame, along, pivot + along * (middle - hinge))
    bend = replace(
        base.bend,
        frame=turned,
        off=base.bend.off + off[1],
        turned=180.0 if upside else 0.0,
    )
    return LinkedPlate(piece, bend, base.at + middle, upside)


def _turned(frame: Axes, along: Row, middle: Row) -> Axes:
    front = unit(frame.front - along * float(frame.front @ along))
    return Axes(middle, np.cross(along, front), along, front)


def _height(scene: Placing, piece: Piece, end: LinkEnd) -> tuple[float, float] | None:
    """mm up from the middle of a piece to its row of points, and to its lapping edge."""
    row = scene.kit.row(end.row)
    edges = {edge.name: edge.run for edge in piece.shape.edges}
    if row is None or not row.spots or end.edge not in edges:
        return None
    line = np.array(flatten(edges[end.edge]))
    return float(np.mean([spot.at[1] for spot in row.spots])), float(line[:, 1].mean())


def row_room(scene: Placing, part: str) -> float:
    """mm along the limb of all plates of the row in which a part is; 0 where it is in none."""
    found = 0.0
    for fitted in scene.kit.linkages:
        parts = {one for joint in fitted.joints for one in joint.parts}
        if part in parts:
            laps = sum(joint.overlap for joint in fitted.joints)
            heights = 0.0
            for one in sorted(parts):
                piece = next(iter(scene.pieces(one)), None)
                if piece is not None and worn_of(scene.guide, one) in {None, scene.part(part).worn}:
                    _, low, _, high = bounds((piece.shape.ring(),))
                    heights += high - low
            found = max(found, heights - laps)
    return found
