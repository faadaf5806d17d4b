"""Parts that stand on the ground or on one another → their sheets: plates, tubes, closed rings."""

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.placing.overlays import on_base
from guidegen.assembly.placing.scene import Placing, stands_of
from guidegen.assembly.records import Points3
from guidegen.assembly.sheets.bends import Axes, Bend, Folded, Plane, Tube
from guidegen.assembly.sheets.bevels import bevelled
from guidegen.assembly.sheets.made import Made, bent, lifted, mirrored, piece_mesh, sheet_of
from guidegen.assembly.sheets.solids import thickened
from guidegen.buildfile.records.guide import Stands
from guidegen.geometry.outline.measures import bounds, flatten
from guidegen.geometry.pieces.records import Piece, Side

SIDEWAYS, UPWARD, FORWARD = np.eye(3)
DEPTH = 40
"""Parts that stand on one another at most; a longer row is a circle."""


def stand(scene: Placing) -> None:
    """Place what stands, each after what it stands on."""
    waiting = {
        part: stands
        for part in scene.guide.parts
        if (stands := stands_of(scene.guide, part)) is not None
        and not (stands.along or stands.strap)
    }
    for _ in range(DEPTH):
        ready = [
            part
            for part, stands in waiting.items()
            if stands.on is None or any(True for _ in scene.made_of(stands.on))
        ]
        if not ready:
            return
        for part in ready:
            stands = waiting.pop(part)
            if not stands.behind and not any(True for _ in scene.made_of(part)):
                _stand(scene, part, stands)


def _stand(scene: Placing, part: str, stands: Stands) -> None:
    pieces = scene.pieces(part)
    base = next(scene.made_of(stands.on), None) if stands.on else None
    if not pieces:
        return
    if base is not None and scene.worn:
        for piece in pieces:
            if piece.side is not Side.RIGHT:
                made = _on_curved(scene, base, piece, stands)
                scene.add(made)
                _other_hand(scene, made, pieces)
        return
    foot = _foot(scene, stands)
    if scene.part(part).shape == "tapered-tube":
        scene.add(_tube(scene, pieces[0], foot))
        return
    copies = scene.copies(pieces[0])
    if copies > 2 and _closes(scene, part):
        _ring(scene, pieces[0], copies, foot)
    elif copies == 1:
        scene.add(bent(pieces[0], _plate(scene, pieces[0], stands, foot)))


def _other_hand(scene: Placing, made: Made | None, pieces: list[Piece]) -> None:
    right = next((piece for piece in pieces if piece.side is Side.RIGHT), None)
    if made is not None and right is not None and made.piece.side is Side.LEFT:
        scene.add(mirrored(made, right))


def _foot(scene: Placing, stands: Stands) -> Points3:
    """The point on which a part stands: on the ground, or over the middle of what is under it."""
    at = [scene.number(one) for one in stands.at]
    middle = np.array([at[0], 0.0, -at[1]])
    if stands.on is not None:
        under = np.concatenate([thickened(made.sheet).points for made in scene.made_of(stands.on)])
        low, high = under.min(0), under.max(0)
        middle += np.array([(low[0] + high[0]) / 2, high[1], (low[2] + high[2]) / 2])
    return middle + UPWARD * scene.number(stands.up)


def _closes(scene: Placing, part: str) -> bool:
    """Whether copies of a part are joined edge to edge into a ring."""
    return any(
        seam.first.part == part == seam.second.part and seam.first.edge != seam.second.edge
        for seam in scene.kit.seams
    )


def _ring(scene: Placing, piece: Piece, copies: int, foot: Points3) -> None:
    """Upright plates that close to a ring: outer faces meet at its corners."""
    left, low, right, _ = bounds((piece.shape.ring(),))
    # Half a side over the tangent of half its turn (regular polygon).
    apothem = (right - left) / 2 / np.tan(np.pi / copies) - piece.thickness / 2
    for number in range(copies):
        turn = 2 * np.pi * number / copies
        out = np.sin(turn) * SIDEWAYS + np.cos(turn) * FORWARD
        across = np.cos(turn) * SIDEWAYS - np.sin(turn) * FORWARD
        plane = Plane(foot + out * apothem - UPWARD * low, across, UPWARD)
        made = bent(piece, plane, f"{piece.key}-{number + 1}")
        scene.add(bevelled(made) if made is not None else None)


def _tube(scene: Placing, piece: Piece, foot: Points3) -> Made | None:
    """A tube or cone that stands on its lower rim."""
    d = scene.dimensions(piece.part)
    more = d["ease"] + 2 * np.pi * (d["backing"] + 0.5 * piece.thickness)
    top, bottom, slope = d["girth-top"] + more, d["girth-bottom"] + more, d["length"]
    mesh = piece_mesh(piece)
    lean = abs(top - bottom) / (2 * np.pi * slope) if slope > 0 else 1.0
    if mesh is None or lean >= 1:
        return None
    rise = slope * float(np.sqrt(1 - lean**2))
    inner = np.abs(mesh.points[:, 0]) < 10
    low = float(mesh.points[inner, 1].min()) if inner.any() else float(mesh.points[:, 1].min())
    axes = Axes(foot + UPWARD * rise / 2, SIDEWAYS, UPWARD, FORWARD)
    made = bent(piece, Tube(axes, top, bottom, slope, low), mesh=mesh)
    return bevelled(scene.closed(made)) if made is not None else None


def _plate(scene: Placing, piece: Piece, stands: Stands, foot: Points3) -> Bend:
    """A plate that lies, leans or stands upright on its lower edge."""
    turn, lean = (np.radians(scene.number(one)) for one in (stands.turned, stands.leans))
    right = np.cos(turn) * SIDEWAYS - np.sin(turn) * FORWARD
    back = np.cross(UPWARD, right)
    up = np.cos(lean) * back + np.sin(lean) * UPWARD
    low = bounds((piece.shape.ring(),))[1] if lean else 0.0
    normal = np.cross(right, up)
    lift = UPWARD * piece.thickness / 2 if not lean else -normal * piece.thickness / 2
    plane = Plane(foot + lift - up * low, right, up)
    if not piece.grooves:
        return plane
    line = np.array(flatten(piece.grooves[0].run))
    along = unit(line[-1] - line[0])
    start = (float(line[0][0]), float(line[0][1]))
    return Folded(plane, start, (float(along[0]), float(along[1])), piece.grooves[0].fold)


def _on_curved(scene: Placing, base: Made, piece: Piece, stands: Stands) -> Made | None:
    """A part on a worn one: flat on it, or leaning up from it on its lower edge."""
    mesh = piece_mesh(piece)
    if mesh is None:
        return None
    turn, lean = (np.radians(scene.number(one)) for one in (stands.turned, stands.leans))
    at = np.array([scene.number(one) for one in stands.at])
    along = np.array([np.cos(turn), np.sin(turn)])
    across = np.array([-along[1], along[0]])
    low = float(mesh.points[:, 1].min()) if lean else 0.0
    s, h = mesh.points[:, :1], mesh.points[:, 1:] - low
    there = at + s * along + h * np.cos(lean) * across
    if not lean:
        return on_base(base, piece, mesh, there, piece.key)
    points, out = lifted(base, there, 0.0)
    beside, _ = lifted(base, there + across, 0.0)
    lateral = unit(beside - points)
    normals = out * np.cos(lean) - lateral * np.sin(lean)
    points = points + out * (base.sheet.thickness / 2 + h * np.sin(lean))
    points -= normals * piece.thickness / 2
    return bevelled(Made(piece, sheet_of(piece, mesh, points, normals, piece.key), mesh))
