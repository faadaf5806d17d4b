"""Seams in → pieces that stand on a line of what is placed, and tubes that turn on from rim to rim.

Nobody has to say where these are: the line, the angle and the rims do.
"""

from dataclasses import replace

from guidegen.assembly.placing.following.ruled import ruled_plate
from guidegen.assembly.placing.following.tubes import tube_on_ring, tube_on_tube, tubes_with
from guidegen.assembly.placing.scene import Placing
from guidegen.assembly.sheets.made import Made, mirrored
from guidegen.geometry.outline.measures import flatten, is_closed
from guidegen.geometry.outline.records import Run
from guidegen.geometry.pieces.records import EdgeRef, JoinedSeam, Piece, Side, Standing


def follow(scene: Placing) -> bool:
    """Place what seams join to parts that are placed; whether anything was."""
    before = len(scene.made)
    for seam in scene.kit.seams:
        parts = seam.first.part, seam.second.part
        placed = [any(True for _ in scene.made_of(part)) for part in parts]
        if seam.standing is not None:
            if placed == [False, True]:
                _stand_on_line(scene, seam, seam.standing)
        elif placed in ([False, True], [True, False]):
            own, other = (seam.first, seam.second) if placed[1] else (seam.second, seam.first)
            _roll_on(scene, seam, own, other)
    return len(scene.made) > before


def _stand_on_line(scene: Placing, seam: JoinedSeam, standing: Standing) -> None:
    pieces = scene.pieces(seam.first.part)
    for base in scene.made_of(seam.second.part):
        lines = _lines_of(base.piece, standing)
        for number, line in enumerate(lines):
            piece = _piece_for(pieces, base, second=number > 0)
            if piece is None:
                continue
            made = tube_on_ring(scene, base, piece, seam, line) if is_closed(line) else None
            if made is None:
                made = ruled_plate(base, piece, seam, line, standing)
            _keep(scene, base, piece, made, pieces, other_hand=len(lines) > 1 or _left(base.piece))


def _lines_of(base: Piece, standing: Standing) -> list[Run]:
    """The line on a piece, and where it is drawn to its fold that of the other half."""
    if not standing.twin:
        return [standing.line(mirrored=base.mirrored)]
    # What is to the right of a piece is at the wearer's left: the left hand's own.
    return sorted([standing.run, standing.twin], key=lambda run: -flatten(run)[0][0])


def _left(piece: Piece) -> bool:
    return piece.side is Side.LEFT


def _piece_for(pieces: list[Piece], base: Made, *, second: bool) -> Piece | None:
    """What stands on a base: of a pair the left one, which the right one mirrors."""
    if len(pieces) < 2:
        return next(iter(pieces), None)
    if second or base.piece.side is Side.RIGHT:
        return None
    return next((piece for piece in pieces if _left(piece)), None)


def _keep(
    scene: Placing,
    base: Made,
    piece: Piece,
    made: Made | None,
    pieces: list[Piece],
    *,
    other_hand: bool,
) -> None:
    if made is None:
        return
    key = piece.key
    number = 1
    while key in scene.made:
        # Further ones of a part that has one hand alone, on the other side.
        number += 1
        key = f"{piece.key}-{number}"
    made = replace(made, sheet=replace(made.sheet, key=key))
    scene.add(made)
    scene.under[key] = base.sheet.key
    right = next((one for one in pieces if one.side is Side.RIGHT), None)
    if right is not None and _left(piece) and other_hand:
        twin = mirrored(made, right)
        scene.add(twin)
        scene.under[twin.sheet.key] = base.sheet.key.replace("-left", "-right")


def _roll_on(scene: Placing, seam: JoinedSeam, own: EdgeRef, other: EdgeRef) -> None:
    pieces = scene.pieces(own.part)
    for base in tubes_with(scene, other):
        piece = _piece_for(pieces, base, second=False)
        if piece is not None:
            made = tube_on_tube(scene, base, other.edge, piece, own.edge, flipped=seam.flipped)
            _keep(scene, base, piece, made, pieces, other_hand=_left(base.piece))
