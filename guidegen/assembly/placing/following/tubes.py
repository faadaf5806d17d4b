"""Pieces whose own two edges close → tubes on a ring of a face, or on the rim of another tube."""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from guidegen.assembly.placing.scene import Placing
from guidegen.assembly.records import Points3
from guidegen.assembly.sheets.bevels import bevelled
from guidegen.assembly.sheets.flat import FlatMesh, Points2, even_points
from guidegen.assembly.sheets.made import Made, lifted, piece_mesh, sheet_of
from guidegen.assembly.sheets.rolls import Rolled, ring_axes, rolled
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Run
from guidegen.geometry.pieces.records import EdgeRef, JoinedSeam, Piece

RIM_PARTS = 40
"""Points round the rim of a tube that is rolled. Our choice: a tenth of a millimetre off on a horn
of 150 mm round."""


def tube_on_ring(
    scene: Placing, base: Made, piece: Piece, seam: JoinedSeam, line: Run
) -> Made | None:
    """A tube whose rim stands on a ring of a face; None where the piece is no tube."""
    flat = np.array(even_points(flatten(line), RIM_PARTS)[:-1])
    ring, _ = lifted(base, flat, base.sheet.thickness / 2)
    goal = ring if seam.flipped else _back(ring)
    made = _rolled_onto(scene, piece, seam.first.edge, goal)
    if made is None:
        return None
    # On a face that is bent the rim is let in as far as it takes to leave no gap.
    foot = made.sheet.middle[made.mesh.edges[seam.first.edge]]
    _, (_, out, _) = ring_axes(foot[:-1])
    deep = float(((foot[:-1] - goal) @ out).max())
    middle = made.sheet.middle - out * max(0.0, deep)
    return bevelled(replace(made, sheet=replace(made.sheet, middle=middle)))


def tubes_with(scene: Placing, rim: EdgeRef) -> Iterator[Made]:
    """Placed tubes that have this rim."""
    for base in scene.made_of(rim.part):
        closing = _closing(scene, base.piece)
        names = {edge.name for edge in base.piece.shape.edges}
        if closing is not None and rim.edge in names - {*closing}:
            yield base


def tube_on_tube(
    scene: Placing, base: Made, rim: str, piece: Piece, edge: str, *, flipped: bool
) -> Made | None:
    """A tube that goes on from the rim of another."""
    ring, _ = lifted(base, _rim(base.piece, rim), 0.0)
    # Outlines run counter-clockwise: rims that meet run against one another.
    return _rolled_onto(scene, piece, edge, ring if flipped else _back(ring))


def _closing(scene: Placing, piece: Piece) -> tuple[str, str] | None:
    """The two edges of a piece that are joined to each other."""
    for seam in scene.kit.seams:
        if seam.first.part == seam.second.part == piece.part and seam.first.edge != (
            seam.second.edge
        ):
            return seam.first.edge, seam.second.edge
    return None


def _roll(scene: Placing, piece: Piece) -> tuple[Rolled, FlatMesh] | None:
    """How a piece is rolled, and its mesh with even rims."""
    closing = _closing(scene, piece)
    if closing is None:
        return None
    edges = {edge.name: edge.run for edge in piece.shape.edges}
    if not edges.keys() >= set(closing):
        return None
    roll = rolled(*(edges[name] for name in closing))
    mesh = piece_mesh(piece, {name: RIM_PARTS for name in edges if name not in closing})
    return (roll, mesh) if roll is not None and mesh is not None else None


def _rim(piece: Piece, edge: str) -> Points2:
    """Points round a rim on the flat piece; its end, which is its start, left out."""
    return np.array(even_points(flatten(piece.shape.edge(edge).run), RIM_PARTS)[:-1])


def _back(ring: Points3) -> Points3:
    """A closed ring the other way round from the same start."""
    return np.roll(ring[::-1], 1, axis=0)


def _rolled_onto(scene: Placing, piece: Piece, edge: str, ring: Points3) -> Made | None:
    """A piece rolled up, with a rim of it on a ring in space."""
    found = _roll(scene, piece)
    if found is None or edge not in found[1].edges:
        return None
    roll, mesh = found
    middle, normals = roll.onto(_rim(piece, edge), ring).place(mesh.points)
    sheet = replace(sheet_of(piece, mesh, middle, normals), light=normals)
    return scene.closed(Made(piece, sheet, mesh))
