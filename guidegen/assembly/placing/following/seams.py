"""Seams in → pieces that stand on a line of what is placed, and tubes that turn on from rim to rim.

Nobody has to say where these are: the line, the angle and the rims do.
"""

from collections.abc import Iterator
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.placing.scene import Placing
from guidegen.assembly.records import Points3, Row
from guidegen.assembly.sheets.bevels import bevelled
from guidegen.assembly.sheets.flat import FlatMesh, Points2, even_points, locate
from guidegen.assembly.sheets.made import Made, mirrored, piece_mesh, sheet_of
from guidegen.assembly.sheets.rolls import Rolled, rolled
from guidegen.geometry.outline.measures import flatten
from guidegen.geometry.outline.records import Run
from guidegen.geometry.pieces.records import EdgeRef, JoinedSeam, Piece, Side, Standing

RIM_PARTS = 40
"""Points round the rim of a tube that is rolled. Our choice: a tenth of a millimetre off on a horn
of 150 mm round."""
MOST_RULED = 0.03
"""Share by which a plate on a bent line may be longer or shorter than its flat piece. Our choice:
what proof lets pass."""
ON_LINE = 0.1
"""mm between start and end of a line that is a ring."""


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
            made = _ring_foot(scene, base, piece, seam, line)
            if made is None:
                made = _standing(base, piece, seam, line, standing)
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


def _on_face(base: Made, flat: Points2, share: float) -> tuple[Points3, Points3]:
    """Points of a flat piece in space, `share` of the foam outward from its middle, and normals."""
    found = locate(flat, base.mesh)
    normals = unit(found.value(base.sheet.normals, base.sheet.triangles))
    middle = found.value(base.sheet.middle, base.sheet.triangles)
    return middle + normals * (base.sheet.thickness * share), normals


def _standing(
    base: Made, piece: Piece, seam: JoinedSeam, line: Run, standing: Standing
) -> Made | None:
    """A plate whose edge stands on a line: ruled along it, each point as far from the line as it is
    from the edge. Where foot and line bend alike, that keeps its lengths."""
    mesh = piece_mesh(piece)
    edge = mesh.edges.get(seam.first.edge) if mesh is not None else None
    if mesh is None or edge is None or len(edge) < 2:
        return None
    foot = np.array(even_points([(x, y) for x, y in mesh.points[edge].tolist()], RIM_PARTS))
    way = np.array(even_points(flatten(line), RIM_PARTS))
    points, out = _on_face(base, way if seam.flipped else way[::-1], 0.5)
    along = unit(np.gradient(points, axis=0))
    aside = np.cross(out, along)
    angle = np.radians(standing.angle)
    rise = unit(out * np.sin(angle) + aside * np.cos(angle))
    face = unit(out * np.cos(angle) - aside * np.sin(angle))
    # The outline is that of the larger face: its foot is bevelled half way up, or is in a slot.
    sunk = standing.deep or abs(np.tan(np.pi / 2 - angle)) * piece.thickness / 2
    at, beyond, high = _beside(foot, mesh.points)
    number = np.arange(RIM_PARTS + 1)

    def there(values: Points3) -> Points3:
        return np.stack([np.interp(at, number, values[:, k]) for k in range(3)], axis=1)

    middle = there(points) + there(along) * beyond[:, None] + there(rise) * (high - sunk)[:, None]
    sheet = sheet_of(piece, mesh, middle, unit(there(face)))
    if sheet.strain > MOST_RULED:
        # What bends otherwise than its line stays flat, and the line gives way to it.
        middle, normal = _laid_flat(mesh.points, middle, edge)
        sheet = sheet_of(piece, mesh, middle, np.broadcast_to(normal, middle.shape).copy())
    return bevelled(Made(piece, sheet, mesh))


def _laid_flat(flat: Points2, near: Points3, edge: NDArray[np.int64]) -> tuple[Points3, Row]:
    """Flat points as a plane in space whose edge comes nearest to where it should be, and the
    normal of the plane: across the whole of `near`, turned in it as the edge is (Kabsch)."""
    own, goal = flat[edge] - flat[edge].mean(0), near[edge] - near[edge].mean(0)
    up = near.mean(0) - near[edge].mean(0)
    right = unit(near[edge[-1]] - near[edge[0]])
    up = unit(up - right * float(up @ right))
    place = np.stack([goal @ right, goal @ up], axis=1)
    turn = np.arctan2(
        (own[:, 0] * place[:, 1] - own[:, 1] * place[:, 0]).sum(), (own * place).sum()
    )
    off = flat - flat[edge].mean(0)
    x = off[:, 0] * np.cos(turn) - off[:, 1] * np.sin(turn)
    y = off[:, 0] * np.sin(turn) + off[:, 1] * np.cos(turn)
    middle = near[edge].mean(0) + x[:, None] * right + y[:, None] * up
    return middle, np.cross(right, up)


def _beside(foot: Points2, flat: Points2) -> tuple[Row, Row, Row]:
    """Where flat points lie beside an edge: its place along it, mm beyond its ends, mm to its left.

    Each point is taken to the side of the edge that is nearest to it.
    """
    start, side = foot[:-1], np.diff(foot, axis=0)
    long = np.sqrt((side**2).sum(1))
    direction = side / long[:, None]
    off = flat[:, None, :] - start[None, :, :]
    share = (off * direction).sum(2) / long
    last = len(start) - 1
    held = np.clip(share, 0.0, 1.0)
    gap = off - held[:, :, None] * side
    best = (gap**2).sum(2).argmin(1)
    rows = np.arange(len(flat))
    own = share[rows, best]
    beyond = np.where(best == 0, np.minimum(own, 0.0), 0.0) + np.where(
        best == last, np.maximum(own - 1, 0.0), 0.0
    )
    there, along = off[rows, best], direction[best]
    cross = along[:, 0] * there[:, 1] - along[:, 1] * there[:, 0]
    # In the wedge over a corner of the edge, as far as its corner is.
    over = np.sqrt((gap[rows, best] ** 2).sum(1))
    within = (own >= 0) & (own <= 1)
    high = np.where(within | (beyond != 0), cross, np.sign(cross) * over)
    return best + np.clip(own, 0.0, 1.0), beyond * long[best], high


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


def _ring_foot(
    scene: Placing, base: Made, piece: Piece, seam: JoinedSeam, line: Run
) -> Made | None:
    """A tube whose rim stands on a ring; None where it is none."""
    way = flatten(line)
    if np.hypot(way[0][0] - way[-1][0], way[0][1] - way[-1][1]) > ON_LINE:
        return None
    ring, _ = _on_face(base, np.array(even_points(way, RIM_PARTS)[:-1]), 0.5)
    made = _rolled_onto(scene, piece, seam.first.edge, ring if seam.flipped else _back(ring))
    if made is None:
        return None
    # On a face that is bent the rim is let in as far as it takes to leave no gap.
    foot = made.sheet.middle[made.mesh.edges[seam.first.edge]]
    out = unit(np.cross(foot - foot.mean(0), np.roll(foot, -1, axis=0) - foot.mean(0)).sum(0))
    deep = float(((foot[:-1] - (ring if seam.flipped else _back(ring))) @ out).max())
    middle = made.sheet.middle - out * max(0.0, deep)
    return bevelled(replace(made, sheet=replace(made.sheet, middle=middle)))


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


def _roll_on(scene: Placing, seam: JoinedSeam, own: EdgeRef, other: EdgeRef) -> None:
    """A tube that goes on from the rim of another."""
    pieces = scene.pieces(own.part)
    for base in _rolled_bases(scene, other):
        piece = _piece_for(pieces, base, second=False)
        if piece is None:
            continue
        ring, _ = _on_face(base, _rim(base.piece, other.edge), 0.0)
        # Outlines run counter-clockwise: rims that meet run against one another.
        made = _rolled_onto(scene, piece, own.edge, ring if seam.flipped else _back(ring))
        _keep(scene, base, piece, made, pieces, other_hand=_left(base.piece))


def _rolled_bases(scene: Placing, other: EdgeRef) -> Iterator[Made]:
    """Sheets of a part that are rolled up, and have this rim."""
    for base in scene.made_of(other.part):
        closing = _closing(scene, base.piece)
        names = {edge.name for edge in base.piece.shape.edges}
        if closing is not None and other.edge in names - {*closing}:
            yield base
