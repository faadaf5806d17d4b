"""Parts that sit on a body → their sheets: tubes, plates round it, drawn pieces draped over it."""

from dataclasses import replace

import numpy as np

from guidegen.assembly.body.lofts import BodyLimb
from guidegen.assembly.placing.draping import drape_group
from guidegen.assembly.placing.following.rows import LinkedPlate, place_row, row_room
from guidegen.assembly.placing.hanging import plates_over, under_belt
from guidegen.assembly.placing.scene import ORDER, Placing, side_of, worn_of
from guidegen.assembly.placing.spots import (
    Spot,
    chord,
    facing,
    fitting,
    level,
    over_head,
    spot,
)
from guidegen.assembly.sheets.bends import Axes, Bend, Folded, Plane, Round, Tube
from guidegen.assembly.sheets.darted import darted
from guidegen.assembly.sheets.made import Made, bent, mirrored, piece_mesh
from guidegen.assembly.sheets.pleated import gathered, pleated
from guidegen.buildfile.records.guide import BodyPlace, Worn
from guidegen.geometry.outline.measures import bounds, flatten
from guidegen.geometry.pieces.records import Piece, Side

DRAPED = frozenset({BodyPlace.CHEST, BodyPlace.BACK, BodyPlace.SHOULDER})


def wear(scene: Placing) -> None:
    """Place every part that sits on the body itself."""
    parts = [(part, worn) for part in scene.guide.parts if (worn := worn_of(scene.guide, part))]
    parts.sort(key=lambda pair: ORDER.index(pair[1].on))
    for part, worn in parts:
        pieces = scene.pieces(part)
        if not pieces or any(True for _ in scene.made_of(part)):
            continue
        if worn.on in DRAPED and scene.part(part).shape == "drawing":
            drape_group(scene, part, worn)
        elif scene.part(part).shape in {"tapered-tube", "lame"}:
            for piece in _left(pieces):
                made = _tube(scene, piece, worn)
                scene.add(made)
                _other_hand(scene, made, pieces)
        else:
            for piece in _left(pieces):
                _plates(scene, piece, worn, pieces)


def _left(pieces: list[Piece]) -> list[Piece]:
    """Pieces that are placed by themselves: the right-hand ones follow."""
    return [piece for piece in pieces if piece.side is not Side.RIGHT]


def _other_hand(scene: Placing, made: Made | None, pieces: list[Piece]) -> None:
    right = next((piece for piece in pieces if piece.side is Side.RIGHT), None)
    if made is not None and right is not None and made.piece.side is Side.LEFT:
        scene.add(mirrored(made, right))


def _tube(scene: Placing, piece: Piece, worn: Worn) -> Made | None:
    """A tube or lame round a limb."""
    d = scene.dimensions(piece.part)
    at = _spot(scene, piece, worn)
    ends = {}
    for end in ("top", "bottom"):
        girth = d[f"girth-{end}"] + d["ease"] + d.get(f"flare-{end}", 0.0)
        ends[end] = girth + 2 * np.pi * (d["backing"] + 0.5 * piece.thickness)
    slope = d["length"]
    mesh = piece_mesh(piece)
    if mesh is None or min(*ends.values(), slope) <= 0:
        return None
    middle = np.abs(mesh.points[:, 0]) < 10
    low = float(mesh.points[middle, 1].min()) if middle.any() else float(mesh.points[:, 1].min())
    lean = min(0.99, abs(ends["top"] - ends["bottom"]) / (2 * np.pi * slope))
    high = slope * float(np.sqrt(1 - lean**2))
    if scene.part(piece.part).worn is None:
        # Nobody says how high: it slides along until the limb fits into it.
        inner = [ends[end] / (2 * np.pi) - piece.thickness / 2 for end in ("bottom", "top")]
        at = replace(at, at=fitting(at.limb, at.at, high, *inner))
    frame = chord(at.limb, at.at, high)
    bend = Tube(frame, ends["top"], ends["bottom"], slope, low, at.faces)
    made = bent(piece, bend, mesh=mesh)
    return scene.closed(made) if made is not None else None


def _spot(scene: Placing, piece: Piece, worn: Worn) -> Spot:
    side = side_of(piece)
    at = spot(scene.figure, worn.on, side)
    return replace(at, at=at.at + scene.number(worn.up), faces=facing(worn.faces, at.faces, side))


def _plates(scene: Placing, piece: Piece, worn: Worn, pieces: list[Piece]) -> None:
    """A plate that goes round the body, or a row of them."""
    at = _spot(scene, piece, worn)
    copies = scene.copies(piece)
    pitch = scene.number(worn.pitch)
    if copies > 1 and not pitch:
        return
    for k in range(copies):
        key = piece.key if copies == 1 else f"{piece.key}-{k + 1}"
        aside = scene.number(worn.aside) + (k - (copies - 1) / 2) * pitch
        bend = _round(scene, piece, worn, at, aside)
        made = _taken_in(scene, piece, bend, key)
        scene.add(made)
        if isinstance(bend, Round) and copies == 1:
            place_row(scene, LinkedPlate(piece, bend, at.at), at)
        if copies == 1:
            _other_hand(scene, made, pieces)


def _taken_in(scene: Placing, piece: Piece, bend: Bend, key: str) -> Made | None:
    """A plate of cloth with its pleats, gathers and darts as they are sewn."""
    full = pleated(piece, bend)
    if full is bend:
        full = gathered(piece, bend, scene.kit.seams)
    # Pleats and gathers have opened a piece evenly: beside them a dart is shown as it is cut.
    cut, lies = darted(piece, bend) if full is bend else (piece, full)
    mesh = piece_mesh(cut)
    return None if mesh is None else bent(piece, lies, key, mesh)


def round_bend(scene: Placing, piece: Piece) -> Bend | None:
    """How a plate that sits on the body goes round it; the middle one of a row."""
    worn = worn_of(scene.guide, piece.part)
    if worn is None:
        return None
    return _round(scene, piece, worn, _spot(scene, piece, worn), scene.number(worn.aside))


def _round(scene: Placing, piece: Piece, worn: Worn, at: Spot, aside: float) -> Bend:
    left, low, right, high = bounds((piece.shape.ring(),))
    if worn.on is BodyPlace.CROWN:
        off = scene.backing(piece.part, worn) + piece.thickness / 2
        return over_head(scene.figure, at.faces, off, aside, right - left)
    frame, wide, deep = level(at.limb, at.at, high - low)
    if row := row_room(scene, piece.part):
        # Plates of a row go round the limb with one another: where it is thickest, all of them.
        _, wide, deep = level(at.limb, at.at, row)
    square = _square(at.limb, at.at)
    off = scene.backing(piece.part, worn) + piece.thickness / 2
    around = Round(frame, wide, deep, off, at.faces, aside, square)
    plates = plates_over(scene, piece.part)
    belt = round_bend(scene, plates) if plates is not None else None
    if isinstance(belt, Round):
        around = replace(around, aside=under_belt(around, belt, at.faces, aside))
    if piece.grooves:
        return _folded(piece, around, frame)
    return around


def _square(limb: BodyLimb, at: float) -> float:
    stations = [section.at for section in limb.sections]
    return float(np.interp(at, stations, [section.square for section in limb.sections]))


def _folded(piece: Piece, around: Round, frame: Axes) -> Folded:
    """A stiff plate that is folded at its groove, tangent to the body in its middle."""
    middle, normal = around.place(np.zeros((1, 2)))
    up = frame.along
    right = np.cross(up, normal[0])
    groove = piece.grooves[0]
    line = np.array(flatten(groove.run))
    along = (line[-1] - line[0]) / np.sqrt(((line[-1] - line[0]) ** 2).sum())
    rise = 0.25 * float(bounds((piece.shape.ring(),))[2]) * np.sin(np.radians(groove.fold / 2))
    return Folded(
        Plane(middle[0] + normal[0] * (rise + 12), right, up),
        (float(line[0][0]), float(line[0][1])),
        (float(along[0]), float(along[1])),
        groove.fold,
    )
