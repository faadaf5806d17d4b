"""A drawn piece and all that is sewn to it → how they lie on trunk and shoulders."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from guidegen.assembly.body.lofts import unit
from guidegen.assembly.placing.drape import Loose, Sewn, Under, drape, outer_points
from guidegen.assembly.placing.scene import Placing, side_of
from guidegen.assembly.placing.sewing import SewnGroup, sewn_group
from guidegen.assembly.placing.spots import facing, spot
from guidegen.assembly.records import Points3
from guidegen.assembly.sheets.bends import Axes, Round
from guidegen.assembly.sheets.made import Made, mirrored, sheet_of
from guidegen.assembly.sheets.solids import point_normals
from guidegen.buildfile.records.guide import BodyPlace, Worn
from guidegen.geometry.pieces.records import Side

CLOSED = 1.5
"""mm between two edges that are glued to each other up to which they are shown closed; what stays
farther apart is shown as it is, and told. Our choice."""
SHOULDER_GAP = 20.0
"""mm between front and back on the shoulder, bridged by a strap. Common practice, no source."""
CAP_HUG = 0.1
"""How closely a cap lies on the shoulder: it stands off as a dome. Our choice, looked at."""
BARREL, SUNK = 92.0, 52.0
"""mm; radius of the barrel on which a cap begins, and its axis under the top of the shoulder."""


def drape_group(scene: Placing, part: str, worn: Worn) -> None:
    """Place a drawn part, and the parts that are sewn to it, over the body."""
    first = scene.pieces(part)[0]
    faces = facing(worn.faces, spot(scene.figure, worn.on, "left").faces, side_of(first))
    on_shoulder = worn.on is BodyPlace.SHOULDER
    if on_shoulder and worn.faces is None:
        faces = 0.0
    group = sewn_group(scene, first, behind=90 < faces < 270)
    if group is None:
        return
    start = _on_shoulder if on_shoulder else _round_trunk
    starts = start(scene, group, worn, faces)
    loose = [
        Loose(member.mesh, begin, member.piece.thickness)
        for member, begin in zip(group.members, starts, strict=True)
    ]
    sewn = [Sewn(j.first, j.first_points, j.second, j.second_points) for j in group.joins]
    points = drape(loose, sewn, _under(scene, worn, part), CAP_HUG if on_shoulder else 1.0)
    _keep(scene, group, points)
    if first.side is Side.LEFT:
        _mirror_all(scene, group)


def _keep(scene: Placing, group: SewnGroup, points: Sequence[Points3]) -> None:
    welded: list[set[int]] = [set() for _ in group.members]
    for join in group.joins:
        one, other = points[join.first][join.first_points], points[join.second][join.second_points]
        gap = np.sqrt(((one - other) ** 2).sum(1))
        scene.gaps.append((join.seam, float(gap.max())))
        # What glue closes is closed: both edges run through the middle between them, as one.
        near = gap < CLOSED
        for at, some in ((join.first, join.first_points), (join.second, join.second_points)):
            points[at][some[near]] = ((one + other) / 2)[near]
            welded[at].update(int(point) for point in some[near])
    normals = _normals(group, points)
    for number, (member, place, normal) in enumerate(
        zip(group.members, points, normals, strict=True)
    ):
        sheet = sheet_of(member.piece, member.mesh, place, normal)
        sheet = replace(sheet, welded=tuple(sorted(welded[number])))
        scene.add(Made(member.piece, sheet, member.mesh))


def _mirror_all(scene: Placing, group: SewnGroup) -> None:
    for member in group.members:
        right = next((p for p in scene.pieces(member.piece.part) if p.side is Side.RIGHT), None)
        if right is not None:
            scene.add(mirrored(scene.made[member.piece.key], right))


def _round_trunk(scene: Placing, group: SewnGroup, worn: Worn, faces: float) -> list[Points3]:
    """To begin with, an upright wall round the chest; its top then falls on the shoulders."""
    at = spot(scene.figure, worn.on, "left")
    wide, deep = at.limb.half_axes(at.at)
    first = group.members[0]
    bottom, top = float(first.laid[:, 1].min()), float(first.laid[:, 1].max())
    off = scene.backing(first.piece.part, worn) + first.piece.thickness / 2
    hem = _hem_height(scene, top - bottom + SHOULDER_GAP / 2, off, back=90 < faces < 270)
    middle = np.array([0.0, hem + scene.number(worn.up) - bottom, 0.0])
    frame = Axes(middle, *(np.eye(3)[k] for k in range(3)))
    wall = Round(frame, wide, deep, off + 4, faces, scene.number(worn.aside), 2.35)
    return [wall.place(member.laid)[0] for member in group.members]


def _hem_height(scene: Placing, height: float, off: float, *, back: bool) -> float:
    """mm over the ground of a hem `height` mm below the top of the shoulders, measured along the
    trunk `off` mm outside of it, where a shoulder seam lies."""
    x = scene.figure.body.lengths["shoulder_width"] * 0.3
    line = []
    for ring in scene.figure.limbs["trunk"].rings(6.0)[::-1]:
        there = ring[:, 2] < ring[:, 2].mean() if back else ring[:, 2] >= ring[:, 2].mean()
        side = ring[there][np.argsort(ring[there][:, 0])]
        if side[-1, 0] >= x:
            line.append([np.interp(x, side[:, 0], side[:, k]) for k in (1, 2)])
    way = np.array(line)
    tangent = unit(np.gradient(way, axis=0))
    # Out of the body: to the front, or on the back to the rear, and upward on the shoulder.
    way += np.stack([tangent[:, 1], -tangent[:, 0]], axis=1) * (-off if back else off)
    length = np.concatenate([[0.0], np.cumsum(np.sqrt((np.diff(way, axis=0) ** 2).sum(1)))])
    return float(np.interp(height, length, way[:, 0]))


def _on_shoulder(scene: Placing, group: SewnGroup, worn: Worn, faces: float) -> list[Points3]:
    """To begin with, a barrel over the left shoulder; the first seam runs along its top."""
    body = scene.figure.body
    tip, high = body.lengths["shoulder_width"] / 2, body.heights["shoulder"]
    inner, outer = (
        np.array([tip * 0.42, high + 30, -14.0]),
        np.array([tip * 1.22, high - 34, -14.0]),
    )
    along = unit(outer - inner)
    sign = -1.0 if 90 < faces < 270 else 1.0
    front = np.array([0.0, 0.0, sign])
    up = np.cross(front, along) * sign
    first = group.members[0]
    crown = first.laid[group.joins[0].first_points] if group.joins else first.laid
    top = float(crown[len(crown) // 2, 1]) if group.joins else float(crown[:, 1].max())
    middle = float(crown[:, 0].mean())
    centre = (inner + outer) / 2 + along * scene.number(worn.aside)
    centre = centre + up * (scene.number(worn.up) - SUNK)
    starts = []
    for member in group.members:
        u, angle = sign * (member.laid[:, 0] - middle), (top - member.laid[:, 1]) / BARREL
        round_up, round_front = BARREL * np.cos(angle), BARREL * np.sin(angle)
        starts.append(
            centre + u[:, None] * along + round_up[:, None] * up + round_front[:, None] * front
        )
    return starts


def _under(scene: Placing, worn: Worn, part: str) -> Under:
    """The body, and the sheets that lie there already."""
    off = scene.backing(part, worn)
    points, normals, offs = [], [], []
    for name in ("trunk", "arm-left") if worn.on is BodyPlace.SHOULDER else ("trunk",):
        solid = scene.figure.limbs[name].solid(0)
        points.append(solid.points)
        normals.append(point_normals(solid.points, solid.triangles))
        offs.append(np.full(len(solid.points), off))
    for made in scene.made.values():
        outer, normal = outer_points(made.sheet.middle, made.sheet.triangles, made.sheet.thickness)
        points.append(outer)
        normals.append(normal)
        offs.append(np.full(len(outer), 0.5))
    return Under(np.concatenate(points), np.concatenate(normals), np.concatenate(offs))


def _normals(group: SewnGroup, points: Sequence[Points3]) -> list[Points3]:
    """Normals at all points; along a seam both sheets share theirs, so that their foam meets."""
    found = [
        point_normals(place, member.mesh.triangles)
        for member, place in zip(group.members, points, strict=True)
    ]
    for join in group.joins:
        both = unit(found[join.first][join.first_points] + found[join.second][join.second_points])
        found[join.first][join.first_points] = both
        found[join.second][join.second_points] = both
    return found
