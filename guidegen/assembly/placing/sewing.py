"""A piece and the seams of a kit in → all that is sewn to it, laid out flat, edge to edge."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.placing.scene import Placing, worn_of
from guidegen.assembly.sheets.flat import FlatMesh, Points2
from guidegen.assembly.sheets.made import piece_mesh
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.pieces.records import EdgeRef, JoinedSeam, Piece, Side

SEAM_STEP = 9.0
"""mm between points along a seam."""


@dataclass(frozen=True, eq=False)
class Member:
    """A piece of a group with its place in the common flat layout."""

    piece: Piece
    mesh: FlatMesh
    laid: Points2


@dataclass(frozen=True, eq=False)
class Join:
    """A seam between two members, points of both edges in the order in which they meet."""

    seam: str
    first: int
    first_points: NDArray[np.int64]
    second: int
    second_points: NDArray[np.int64]


@dataclass(eq=False)
class SewnGroup:
    """What is sewn together."""

    members: list[Member]
    joins: list[Join]


def sewn_group(scene: Placing, first: Piece, *, behind: bool) -> SewnGroup | None:
    """The piece and those sewn to it; None where it has no outline that could be bent.

    `behind` says that its middle looks to the back, where its right is the wearer's right.
    """
    seams = [seam for seam in scene.kit.seams if seam.first.part != seam.second.part]
    counts = _seam_counts(seams)
    mesh = _mesh(first, counts)
    if mesh is None:
        return None
    group = SewnGroup([Member(first, mesh, mesh.points)], [])
    number = 0
    while number < len(group.members):
        for seam, own, other in _seams_of(seams, group.members[number].piece.part):
            # A part that sits on the body itself is no follower.
            if worn_of(scene.guide, other.part) is None:
                _add_partners(scene, group, number, (seam, own, other), counts, behind=behind)
        number += 1
    return group


def _seam_counts(seams: list[JoinedSeam]) -> dict[tuple[str, str], int]:
    """Into how many parts each edge of a seam is divided: both into as many."""
    counts: dict[tuple[str, str], int] = {}
    for seam in seams:
        number = max(4, round(seam.second_length / SEAM_STEP))
        for ref in (seam.first, seam.second):
            for name in (ref.edge, f"{ref.edge}-2"):
                counts[ref.part, name] = number
    return counts


def _mesh(piece: Piece, counts: Mapping[tuple[str, str], int]) -> FlatMesh | None:
    own = {edge: number for (part, edge), number in counts.items() if part == piece.part}
    return piece_mesh(piece, own)


def _seams_of(seams: list[JoinedSeam], part: str) -> Iterator[tuple[JoinedSeam, EdgeRef, EdgeRef]]:
    """Seams of a part: its own edge, then the other."""
    for seam in seams:
        if seam.first.part == part:
            yield seam, seam.first, seam.second
        elif seam.second.part == part:
            yield seam, seam.second, seam.first


def _add_partners(
    scene: Placing,
    group: SewnGroup,
    number: int,
    at: tuple[JoinedSeam, EdgeRef, EdgeRef],
    counts: Mapping[tuple[str, str], int],
    *,
    behind: bool,
) -> None:
    seam, own, other = at
    here = group.members[number]
    for edge, piece in _partners(scene.pieces(other.part), here.piece, own.edge, behind=behind):
        if any(member.piece.key == piece.key for member in group.members):
            continue
        mesh = _mesh(piece, counts)
        if mesh is None:
            continue
        laid = _laid(seam, here, piece, mesh, (edge, other.edge))
        if laid is not None:
            group.members.append(Member(piece, mesh, laid[0]))
            last = len(group.members) - 1
            group.joins.append(Join(seam.id, number, here.mesh.edges[edge], last, laid[1]))


def _partners(
    pieces: list[Piece], here: Piece, edge: str, *, behind: bool
) -> Iterator[tuple[str, Piece]]:
    """Edges of a piece and the pieces that are sewn there: of its hand, or one on each side."""
    if here.side is not Side.ANY or len(pieces) == 1:
        for piece in pieces:
            if Side.ANY in (piece.side, here.side) or piece.side is here.side:
                yield edge, piece
        return
    names = {own.name for own in here.shape.edges}
    for piece in pieces:
        # Of a part drawn to its fold, the edge as drawn and its mirror image.
        for name in (edge, f"{edge}-2"):
            if name in names and (_on_right(here, name) != behind) == (piece.side is Side.LEFT):
                yield name, piece


def _on_right(piece: Piece, edge: str) -> bool:
    return float(np.array(flatten(piece.shape.edge(edge).run))[:, 0].mean()) > 0


def _laid(
    seam: JoinedSeam, here: Member, piece: Piece, mesh: FlatMesh, edges: tuple[str, str]
) -> tuple[Points2, NDArray[np.int64]] | None:
    """Where the second piece lies so that its edge meets the first's, and its points there."""
    one, two = here.mesh.edges.get(edges[0]), mesh.edges.get(edges[1])
    if one is None or two is None or len(one) != len(two):
        return None
    # Both outlines run counter-clockwise: edges that meet run against one another, but where one
    # of the two pieces is turned over.
    turned = seam.flipped and here.piece.side is piece.side
    order = two if turned else two[::-1]
    return _fit(mesh.points, mesh.points[order], here.laid[one]), order


def _fit(points: Points2, here: Points2, goal: Points2) -> Points2:
    """Points moved and turned so that `here` comes nearest to `goal` (Kabsch, Acta Cryst. A32,
    1976, in the plane)."""
    a, b = here - here.mean(0), goal - goal.mean(0)
    turn = np.arctan2((a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]).sum(), (a * b).sum())
    c, s = np.cos(turn), np.sin(turn)
    p = points - here.mean(0)
    return np.stack([p[:, 0] * c - p[:, 1] * s, p[:, 0] * s + p[:, 1] * c], axis=1) + goal.mean(0)


__all__ = ["Join", "Member", "SewnGroup", "sewn_group"]
