"""Pieces and seams in → the same with bevels where the form turns, out."""

from collections.abc import Sequence
from dataclasses import replace
from math import radians, tan

import numpy as np

from guidegen.bench.forms.pieces import FormPiece, FormSeam
from guidegen.geometry.outline.measures import run_length
from guidegen.geometry.outline.offsets import OffsetError, offset_edges
from guidegen.geometry.outline.records import Edge

LEAST_BEVEL = 5.0
"""degrees from square. Our choice: glue and sanding take up less."""
MOST_BEVEL = 75.0
"""degrees from square: a knife cannot be led flatter."""


def bevelled(
    pieces: Sequence[FormPiece], seams: Sequence[FormSeam], foam: float
) -> tuple[list[FormPiece], list[FormSeam], list[str]]:
    """The same with bevels where seams turn, their outlines those of the outer face; and the pieces
    whose bevelled outlines cannot be drawn.

    Both sides are cut to half of the turn. In the middle of the foam the edges lie where they did:
    the outer face ends thickness / 2 * tan(angle) farther out, or farther in where it turns inward.
    """
    angles: dict[str, dict[str, float]] = {piece.id: {} for piece in pieces}
    for seam in seams:
        half = float(np.clip(seam.turn / 2, -MOST_BEVEL, MOST_BEVEL))
        if abs(half) >= LEAST_BEVEL:
            for owner, name in seam.ends:
                angles[owner][name] = round(half, 1)
    made, failed = list[FormPiece](), list[str]()
    for piece in pieces:
        own = angles[piece.id]
        widths = {edge: foam / 2 * tan(radians(angle)) for edge, angle in own.items()}
        edges = piece.edges
        if widths and foam:
            try:
                moved = offset_edges(tuple(Edge(e.name, e.run) for e in edges), widths)
                runs = {edge.name: edge.run for edge in moved}
                edges = tuple(replace(edge, run=runs[edge.name]) for edge in edges)
            except OffsetError:
                failed.append(piece.id)
                own = {}
        made.append(replace(piece, edges=edges, bevels=tuple(own.items())))
    return made, [_eased(seam, made) for seam in seams], failed


def _eased(seam: FormSeam, pieces: Sequence[FormPiece]) -> FormSeam:
    """The seam with what its first edge is longer by as drawn."""
    runs = {(piece.id, edge.name): edge.run for piece in pieces for edge in piece.edges}
    first, second = (run_length(runs[end]) for end in seam.ends)
    more = first - second
    return replace(seam, ease=round(more, 1) if abs(more) > 0.5 else 0.0)
