"""Seams and pieces of one size in → edges that are as long as one another and yet do not meet.

Two edges of a seam lie against each other with their cut faces. Foam of two thicknesses leaves a
step, and a slanted face against a square one leaves a wedge of air that no glue fills.
"""

from collections.abc import Iterable, Iterator

from guidegen.buildfile.read.content import GuideFile
from guidegen.geometry.pieces.records import JoinedSeam, Piece
from guidegen.problems import Problem
from guidegen.units import mm_text

STEP = 1.0
"""mm by which foam of two edges may differ. Our choice: what sheets of one thickness differ by."""


def audit_meeting(
    file: GuideFile, pieces: Iterable[Piece], seams: Iterable[JoinedSeam]
) -> list[Problem]:
    """Warnings for seams of unlike thickness, or with one edge bevelled and one square."""
    shapes = {piece.part: piece for piece in pieces if not piece.mirrored}
    problems: list[Problem] = []
    for seam in seams:
        if {seam.first.part, seam.second.part} <= shapes.keys():
            one, two = shapes[seam.first.part], shapes[seam.second.part]
            problems += _judge(file, seam, one, two)
    return problems


def _judge(file: GuideFile, seam: JoinedSeam, one: Piece, two: Piece) -> Iterator[Problem]:
    trail = ("seams", seam.id, "join")
    names = f"{seam.first.part}.{seam.first.edge}", f"{seam.second.part}.{seam.second.edge}"
    if abs(one.thickness - two.thickness) > STEP:
        message = (
            f"{names[0]} is {mm_text(one.thickness, 1)} mm thick and {names[1]} "
            f"{mm_text(two.thickness, 1)} mm: edge to edge they leave a step"
        )
        yield file.source.problem("seam-thickness", trail, message)
    angles = _bevel(one, seam.first.edge), _bevel(two, seam.second.edge)
    if (angles[0] > 0) is not (angles[1] > 0):
        slanted, square = names if angles[0] else names[::-1]
        message = (
            f"{slanted} is bevelled by {max(angles):g}° and {square} is cut square: they meet in "
            "a line, with a wedge of air beside it"
        )
        yield file.source.problem("seam-bevel", trail, message)


def _bevel(piece: Piece, edge: str) -> float:
    """degrees from square of an edge; 0 where it is square."""
    return next((bevel.angle for bevel in piece.shape.bevels if bevel.edge == edge), 0.0)
