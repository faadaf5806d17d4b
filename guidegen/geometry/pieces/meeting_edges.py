"""Seams, stacks and pieces of one size in → edges and layers that do not meet as they are meant to.

Two edges of a seam lie against each other with their cut faces. Foam of two thicknesses leaves a
step, and a slanted face against a square one leaves a wedge of air that no glue fills.
"""

from collections.abc import Iterable, Iterator, Mapping

from guidegen.buildfile.read.content import GuideFile
from guidegen.geometry.outline.bevels import (
    BLADE,
    LEAST_FACE,
    SLENDEREST,
    bevel_cut,
    smaller_face_room,
)
from guidegen.geometry.parts.finished import Finished
from guidegen.geometry.pieces.placements import lacks_room, tolerated
from guidegen.geometry.pieces.records import JoinedSeam, Piece
from guidegen.problems import Problem
from guidegen.units import mm_text

FORGIVEN = 0.05
"""degrees or mm; what rounding of a computed bevel may decide by."""

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


def audit_bevels(file: GuideFile, pieces: Iterable[Piece]) -> list[Problem]:
    """Warnings for bevels that a knife cannot cut well, or that leave nothing to glue."""
    problems: list[Problem] = []
    for piece in pieces:
        if not piece.mirrored and piece.shape.bevels:
            problems += _slender(file, piece)
    return problems


def _slender(file: GuideFile, piece: Piece) -> Iterator[Problem]:
    own = file.guide.parts[piece.part].bevels
    thick = piece.thickness
    for bevel in piece.template.bevels:
        trail = (
            "parts",
            piece.part,
            *(("bevels", bevel.edge) if bevel.edge in own else ("shape",)),
        )
        wedge, cut = 90 - bevel.angle, bevel_cut(bevel.angle, thick)
        says = f"{mm_text(bevel.angle, 1)}° from square on {mm_text(thick, 1)} mm foam"
        if wedge < SLENDEREST - FORGIVEN:
            message = (
                f"{says}: the cut is {mm_text(cut, 1)} mm long and leaves a rim of "
                f"{mm_text(wedge, 1)}°, which frays"
            )
            yield file.source.problem("bevel-slender", trail, message)
        elif cut > BLADE + FORGIVEN:
            message = (
                f"{says}: the cut is {mm_text(cut, 1)} mm long, more than the {BLADE:g} mm that a "
                "blade stands out"
            )
            yield file.source.problem("bevel-slender", trail, message)
    if not smaller_face_room(piece.shape, thick):
        message = f"its bevels leave less than {LEAST_FACE:g} mm of the smaller face"
        yield file.source.problem("bevel-slender", ("parts", piece.part), message)


def audit_layers(file: GuideFile, finished: Mapping[str, Finished]) -> list[Problem]:
    """Warnings for layers of a stack that no placement puts anywhere, and that are larger than the
    largest layer below them. Trim allowances do not count: they are cut off."""
    placed = {place.part for part in file.guide.parts.values() for place in part.placements}
    problems: list[Problem] = []
    for stack_id, stack in file.guide.stacks.items():
        rings = {
            layer.part: finished[layer.part].whole.ring()
            for layer in stack.layers
            if layer.part in finished
        }
        for number, layer in enumerate(stack.layers[1:], 1):
            below = [rings[one.part] for one in stack.layers[:number] if one.part in rings]
            if layer.part in placed or layer.part not in rings or not below:
                continue
            # The largest of those below carries it: a small layer in between hides nothing.
            lacks = min(lacks_room(rings[layer.part], ring) for ring in below)
            # An excess in the middle stands out at both ends.
            if lacks > 2 * tolerated(rings[layer.part]):
                message = f"{layer.part} is {mm_text(lacks, 1)} mm larger than what lies below it"
                trail = ("stacks", stack_id, "layers", number)
                problems.append(file.source.problem("layer-overhangs", trail, message))
    return problems


def _judge(file: GuideFile, seam: JoinedSeam, one: Piece, two: Piece) -> Iterator[Problem]:
    trail = ("seams", seam.id, "join")
    names = f"{seam.first.part}.{seam.first.edge}", f"{seam.second.part}.{seam.second.edge}"
    if seam.standing is not None or seam.meeting is not None:
        return  # bevelled to meet, with what is left of a step told where it is drawn
    if abs(one.thickness - two.thickness) > STEP:
        message = (
            f"{names[0]} is {mm_text(one.thickness, 1)} mm thick and {names[1]} "
            f"{mm_text(two.thickness, 1)} mm: edge to edge they leave a step"
        )
        yield file.source.problem("seam-thickness", trail, message)
    angles = _bevel(one, seam.first.edge), _bevel(two, seam.second.edge)
    # Two unlike bevels are let pass: mitres of unequal angles are how a corner is turned.
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
