"""Straps, hangers and laces of a guide → bands and cords over what is placed.

Where a strap begins and ends are rows of points on parts; between them it takes the nearest way
outside of body and foam. A patch holds it inside, where it is glued; a rivet outside, but for
hangers, which hang behind their part.
"""

from collections.abc import Iterator

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.placing.buckles import buckled
from guidegen.assembly.placing.hangers import hang
from guidegen.assembly.placing.holds import StrapHold, hand_of, holds_of, strap_band
from guidegen.assembly.placing.lacing import laced
from guidegen.assembly.placing.overlays import on_base
from guidegen.assembly.placing.scene import Placing, stands_of, worn_of
from guidegen.assembly.records import PlacedSheet, Points3, Row
from guidegen.assembly.sheets.made import Made, piece_mesh
from guidegen.assembly.sheets.ribbons import (
    PROUD,
    StrapBand,
    arch,
    even_way,
    fair_strap,
    pushed_out,
    ribbon_mesh,
)
from guidegen.assembly.sheets.solids import point_normals
from guidegen.buildfile.records.fastening import Strap
from guidegen.buildfile.records.guide import BodyPlace
from guidegen.buildfile.records.stock import Stock
from guidegen.geometry.pieces.records import FittedStrap


def strapped(scene: Placing, stock: Stock) -> list[PlacedSheet]:
    """All straps but belts, which are placed by their plates."""
    found: list[PlacedSheet] = []
    fitted = {strap.id: strap for strap in scene.kit.straps}
    # What hangs on other straps comes last.
    straps = sorted(scene.guide.straps.items(), key=lambda one: one[1].around is not None)
    for name, strap in straps:
        band = strap_band(scene, stock, name, strap.material)
        if name in fitted and band is not None and strap.start is not None:
            for sheet in _of_kind(scene, strap, fitted[name], band, found):
                buckle = buckled(scene, stock, strap, sheet)
                found += [sheet] if buckle is None else [sheet, buckle]
    return found


def lie_on_straps(scene: Placing) -> None:
    """Place what lies over the middle of a strap."""
    for part in scene.guide.parts:
        stands = stands_of(scene.guide, part)
        wanted = stands.strap if stands is not None else None
        strap = next((sheet for sheet in scene.straps if sheet.part == wanted), None)
        piece = next(iter(scene.pieces(part)), None)
        mesh = piece_mesh(piece) if piece is not None else None
        if strap is None or piece is None or mesh is None:
            continue
        low, high = mesh.points.min(0), mesh.points.max(0)
        middle = np.array([float(strap.flat[:, 0].mean()), 0.0])
        base = Made(piece, strap, ribbon_mesh(strap))
        there = mesh.points - (low + high) / 2 + middle
        scene.add(on_base(base, piece, mesh, there, f"{part}@{strap.key.replace('@', '-')}"))


def _of_kind(
    scene: Placing, strap: Strap, fitted: FittedStrap, band: StrapBand, made: list[PlacedSheet]
) -> Iterator[PlacedSheet]:
    """Straps of one kind, on each piece that holds them."""
    start = strap.start
    if start is None:
        return
    leaves = strap.way.leaves if strap.way is not None else ""
    for side in _sides(scene, start.row.partition(".")[0]):
        holds = list(holds_of(scene, start, leaves, side, band))
        if not holds:
            continue
        if strap.laced is not None:
            yield from laced(scene, holds[0].made, [hold.at[0] for hold in holds], band)
        elif strap.around is not None:
            yield from hang(scene, strap, holds, band, made)
        elif strap.end is not None:
            enters = (strap.way.enters or "") if strap.way is not None else ""
            others = list(holds_of(scene, strap.end, enters, side, band))
            for number, pair in enumerate(_nearest(holds, others)):
                yield _between(scene, pair, fitted, band, _key(band, side, number))
        elif strap.bridges is not None:
            yield _loop(scene, holds[0], fitted, band, _key(band, side, 0))
        else:
            for number, pair in enumerate(_across(holds)):
                yield _straight(scene, pair, band, _key(band, side, number))


def _key(band: StrapBand, side: str, number: int) -> str:
    return f"{band.part}@{side}strap-{number + 1}"


def _sides(scene: Placing, part: str) -> list[str]:
    """Names of the hands in which a part is placed."""
    return list(dict.fromkeys(hand_of(made) for made in scene.made_of(part)))


def _surface(sheet: PlacedSheet, off: float) -> tuple[Points3, Points3, float]:
    outer = sheet.middle + sheet.normals * sheet.thickness / 2
    return outer, sheet.normals, off


def _between(
    scene: Placing,
    pair: tuple[StrapHold, StrapHold],
    fitted: FittedStrap,
    band: StrapBand,
    key: str,
) -> PlacedSheet:
    """A strap from one part to another: over both foams, and outside of what is between them."""
    one, other = pair
    (a, na), (b, nb) = one.way(band.thickness), other.way(band.thickness)
    gap = float(np.sqrt(((a[-1] - b[-1]) ** 2).sum()))
    limb = scene.figure.limbs["arm-right" if "right-" in key else "arm-left"]
    worn = worn_of(scene.guide, one.made.piece.part)
    at_arm = worn is not None and worn.on in (BodyPlace.SHOULDER, BodyPlace.UPPER_ARM)
    if fitted.free > ROUND_FROM * gap and one.inside and at_arm:
        bridge, out = _round_limb(limb.solid(0).points, a[-1], b[-1], band)
        way, normals = np.concatenate([a, bridge, b[::-1]]), np.concatenate([na, out, nb[::-1]])
    elif one.inside:
        way, normals = _over_body(scene, (a, na), (b, nb), band)
    else:
        ends = even_way(np.stack([a[0], b[0]]))
        share = np.linspace(0.0, 1.0, len(ends))[:, None]
        off = band.thickness / 2 + PROUD
        surfaces = [_surface(hold.made.sheet, off) for hold in (one, other)]
        way, normals = pushed_out(ends, surfaces), unit(na[0] * (1 - share) + nb[0] * share)
    return fair_strap(band, way, normals, key)


ROUND_FROM = 1.5
"""How many times longer than the straight way a strap is that goes round the arm instead."""


def _round_limb(limb: Points3, start: Row, end: Row, band: StrapBand) -> tuple[Points3, Points3]:
    """The long way round a limb from one point to another, and normals outward."""
    near = limb[np.abs(limb[:, 1] - (start[1] + end[1]) / 2) < 40]
    middle = near.mean(0)
    turns = [float(np.arctan2(p[0] - middle[0], p[2] - middle[2])) for p in (start, end)]
    turn = (turns[1] - turns[0] + np.pi) % (2 * np.pi) - np.pi
    turn -= np.sign(turn) * 2 * np.pi
    t = np.linspace(0.0, 1.0, 40)[1:-1]
    angle = turns[0] + turn * t
    out = np.stack([np.sin(angle), np.zeros(len(t)), np.cos(angle)], axis=1)
    own = np.hypot(near[:, 0] - middle[0], near[:, 2] - middle[2])
    about = np.arctan2(near[:, 0] - middle[0], near[:, 2] - middle[2])
    apart = np.abs((angle[:, None] - about[None, :] + np.pi) % (2 * np.pi) - np.pi)
    radius = own[apart.argmin(1)] + band.thickness / 2 + 2
    level = start[1] + (end[1] - start[1]) * t
    ends = [np.hypot(p[0] - middle[0], p[2] - middle[2]) for p in (start, end)]
    # From the foam's inside down to the arm, and up to the foam again.
    lift = np.clip(1 - t / 0.2, 0, 1) * (ends[0] - radius[0]) + np.clip((t - 0.8) / 0.2, 0, 1) * (
        ends[1] - radius[-1]
    )
    way = np.array([middle[0], 0.0, middle[2]]) + out * (radius + lift)[:, None]
    way[:, 1] = level
    return way, out


def _loop(
    scene: Placing, hold: StrapHold, fitted: FittedStrap, band: StrapBand, key: str
) -> PlacedSheet:
    """A strap that comes back to its place: under the part, past its rims, over it in a loop."""
    row = next(
        row for row in scene.kit.rows if row.kind == "patch" and row.part == hold.made.piece.part
    )
    along = np.array(row.spots[0].along)
    across = np.array([-along[1], along[0]]) * row.length / 2
    under, down = hold.on_face(hold.at + across * np.linspace(-1, 1, 12)[:, None], band.thickness)
    sheet = hold.made.sheet
    up = unit(down.mean(0))
    tilt = unit(under[-1] - under[0])
    rise = up * (sheet.thickness + band.thickness / 2)
    beside = band.thickness + PROUD
    left, right = under[0] - tilt * beside + rise, under[-1] + tilt * beside + rise
    free = max(
        sum(fitted.asked) / 2 - 2 * sheet.thickness, 1.1 * float(np.abs((right - left) @ tilt))
    )
    over = arch(right, left, up, free)
    way = np.concatenate([under[6:], over, under[:6]])
    turned = np.cross(np.gradient(over, axis=0), np.cross(tilt, up))
    out = np.concatenate([-down[6:], unit(turned + 1e-9), -down[:6]])
    return fair_strap(band, way, out, key)


def _nearest(
    holds: list[StrapHold], others: list[StrapHold]
) -> Iterator[tuple[StrapHold, StrapHold]]:
    """Each place with the nearest one that is still free: of both halves of a part the one on its
    own side of the body."""
    free = [(hold, hold.on_face(hold.at, 0.0)[0][0]) for hold in others]
    for hold in holds:
        if not free:
            return
        here = hold.on_face(hold.at, 0.0)[0][0]
        best = min(range(len(free)), key=lambda k: float(((free[k][1] - here) ** 2).sum()))
        yield hold, free.pop(best)[0]


def _across(holds: list[StrapHold]) -> Iterator[tuple[StrapHold, StrapHold]]:
    """Places that face one another across an opening: one of each half, in the same order."""
    half = len(holds) // 2
    yield from zip(holds[:half], holds[half:], strict=False)


def _straight(
    scene: Placing, pair: tuple[StrapHold, StrapHold], band: StrapBand, key: str
) -> PlacedSheet:
    """A strap from the inside of one edge to the inside of another."""
    one, other = (hold.way(band.thickness) for hold in pair)
    return fair_strap(band, *_over_body(scene, one, other, band), key)


def _over_body(
    scene: Placing,
    one: tuple[Points3, Points3],
    other: tuple[Points3, Points3],
    band: StrapBand,
) -> tuple[Points3, Points3]:
    """From one hold over its edge and over the other's to that hold; between both edges outside of
    the body, and the normals outward."""
    (a, na), (b, nb) = one, other
    bridge = even_way(np.stack([a[-1], b[-1]]))
    share = np.linspace(0.0, 1.0, len(bridge))[:, None]
    if scene.worn:
        bridge = pushed_out(bridge, [(*body_surface(scene), band.thickness / 2 + PROUD)])
    out = unit(na[-1] * (1 - share) + nb[-1] * share + 1e-9)
    return np.concatenate([a[:-1], bridge, b[-2::-1]]), np.concatenate([na[:-1], out, nb[-2::-1]])


def body_surface(scene: Placing) -> tuple[Points3, Points3]:
    """Points of the figure, and unit normals there."""
    solids = [limb.solid(0) for limb in scene.figure.limbs.values()]
    normals = [point_normals(solid.points, solid.triangles) for solid in solids]
    return np.concatenate([solid.points for solid in solids]), np.concatenate(normals)
