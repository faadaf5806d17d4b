"""Piece and kit in → sections of its bevels, joints, grooves and bends out, each once."""

from guidegen.geometry.outline.records import BevelledEdge
from guidegen.geometry.pieces.records import EdgeRef, Fastened, Kit, Piece
from guidegen.pictures.pen.records import Drawing
from guidegen.pictures.pieces.bevels import JointSection, draw_bevel, draw_joint
from guidegen.pictures.pieces.constructions.circuits import draw_circuit
from guidegen.pictures.pieces.constructions.harness import draw_harness
from guidegen.pictures.pieces.constructions.linkages import draw_linkage
from guidegen.pictures.pieces.constructions.sewing import draw_casing, draw_pleats
from guidegen.pictures.pieces.constructions.standing import draw_standing
from guidegen.pictures.pieces.curves import draw_curve
from guidegen.pictures.pieces.grooves import draw_groove
from guidegen.pictures.pieces.holds import draw_fastening, draw_strap
from guidegen.pictures.pieces.seam_words import edge_name, seam_labels, seam_words
from guidegen.words import Words

SHARPEST = 170.0
"""degrees; bevels that add up to more leave no corner to draw."""


def draw_details(piece: Piece, kit: Kit, lang: Words) -> tuple[Drawing, ...]:
    """Bevels, then the corners that they form at seams, then grooves, then the bends of its stacks,
    what its posts hold, its pleats, the straps, moving rows, casings and circuits that it is home
    to; empty for a flat piece with square edges.

    Equal bevels and equal grooves are drawn once.
    """
    drawings: list[Drawing] = []
    seen: set[tuple[float, str]] = set()
    plain = [one for bevel in piece.shape.bevels for one in bevel.at_ends()]
    for bevel, beside in plain:
        # To 0.01 degrees: edges that a reader would set the knife to alike share a section.
        kind = (round(bevel.angle, 2), bevel.direction)
        if kind in seen or bevel.angle <= 0:
            continue
        seen.add(kind)
        edges = list(dict.fromkeys(b.edge for b, _ in plain if _same(b, bevel)))
        names = ", ".join(edge_name(edge, lang) for edge in edges)
        where = (
            lang.say("edge {edges}", edges=names)
            if len(edges) == 1
            else lang.say("edges {edges}", edges=names)
        )
        title = f"{piece.label} {piece.name}, {where}"
        if beside:
            at = edge_name(beside.removesuffix("-2"), lang)
            title += ", " + lang.say("where it meets {edge}", edge=at)
        drawings.append(draw_bevel(bevel, piece.thickness, title, lang))
    drawings.extend(_joints(piece, kit, lang))
    drawn: set[tuple[float, float]] = set()
    for cut in piece.grooves:
        size = (round(cut.fold, 2), round(cut.depth, 2))
        if size not in drawn:
            drawn.add(size)
            title = f"{piece.label} {piece.name}"
            drawings.append(draw_groove(cut, piece.thickness, title, lang))
    drawings.extend(
        draw_curve(stack, kit, lang)
        for stack in kit.stacks
        # All layers are in one drawing: it stands by the lowest, on which the others are laid.
        if stack.radius and piece.part == stack.layers[0].part
    )
    rows = {f"{row.part}.{row.name}" for row in kit.rows if row.part == piece.part}
    held: dict[tuple[object, ...], Fastened] = {}
    for one in kit.fastened:
        if one.row in rows:
            # Rows that go through the same layers look alike.
            held.setdefault((one.fastening, one.layers, one.post), one)
    drawings.extend(draw_fastening(one, lang) for one in held.values())
    drawings.extend(
        draw_strap(strap, kit, lang) for strap in kit.straps if strap.home == piece.part
    )
    drawings.extend(draw_linkage(one, lang) for one in kit.linkages if one.home == piece.part)
    drawings.extend(draw_pleats(piece, one, lang) for one in piece.taken if one.kind != "dart")
    drawings.extend(draw_casing(one, lang) for one in kit.casings if one.home == piece.part)
    drawings.extend(draw_harness(one, lang) for one in kit.harnesses if one.home == piece.part)
    drawings.extend(draw_circuit(one, lang) for one in kit.circuits if one.home == piece.part)
    return tuple(drawings)


def _same(first: BevelledEdge, second: BevelledEdge) -> bool:
    return abs(first.angle - second.angle) < 0.005 and first.direction == second.direction


def _joints(piece: Piece, kit: Kit, lang: Words) -> list[Drawing]:
    """Corners at the seams that begin at this piece and whose edges are both bevelled."""
    drawings = []
    seen: set[tuple[float | str, ...]] = set()
    for seam in kit.seams:
        if seam.first.part != piece.part:
            continue
        if seam.standing is not None:
            drawings.append(draw_standing(seam, kit, lang))
            continue
        first, second = _bevel(kit, seam.first), _bevel(kit, seam.second)
        # Of unlike directions no corner can be drawn; the check of seams tells of it.
        if first is None or second is None or first.direction != second.direction:
            continue
        other = next(kit.built(seam.second.part))
        joint = JointSection(
            (first.angle, second.angle),
            first.direction,
            (piece.thickness, other.thickness),
            seam.meeting.flush if seam.meeting is not None else "both",
        )
        kind = (*joint.angles, joint.direction, *joint.foam)
        if kind in seen or first.angle + second.angle >= SHARPEST:
            continue
        seen.add(kind)
        near, far = seam_labels(seam, kit)
        title = seam_words(seam, (near, far), lang)
        drawings.append(draw_joint(joint, title, lang))
    return drawings


def _bevel(kit: Kit, ref: EdgeRef) -> BevelledEdge | None:
    piece = next(kit.built(ref.part), None)
    if piece is None:
        return None
    return next((bevel for bevel in piece.shape.bevels if bevel.edge == ref.edge), None)
