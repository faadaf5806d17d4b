"""A mesh in → the layer of its foam that keeps its length when it is bent, with normals, out.

Foam of thickness t on a body lies with its middle t/2 outside it, foam whose outside a mesh shows
has it t/2 inside. Where a surface is smooth each point moves along its normal, so that a cylinder
of radius r becomes one of r ± t/2; where faces meet sharply, points move so far that all faces do,
as a mitre has it.
"""

import numpy as np

from guidegen.bench.forms.records import (
    FormWishes,
    Indices,
    Mesh,
    Numbers,
    Shown,
    Skin,
    at_words,
    refuse,
)
from guidegen.bench.forms.topology import Topology, face_normals, opened, unit

FARTHEST = 3.0
"""Times the offset that a mitre moves a point at most: that of a corner of 39 degrees."""


def make_skin(mesh: Mesh, wishes: FormWishes, cut: Indices, name: str) -> Skin:
    """The skin in the middle of the foam. Raises FormError where foam cannot bend so tightly."""
    topology = Topology(mesh.faces)
    sharp = sharp_keys(mesh.points, topology, wishes.sharp)
    groups = opened(topology, sharp)
    normals, spiky = _corner_normals(mesh.points, mesh.faces, groups, wishes.sharp)
    side = {Shown.INSIDE: 0.5, Shown.OUTSIDE: -0.5}.get(wishes.shows or Shown.MIDDLE, 0.0)
    points = mesh.points
    if side and wishes.foam:
        points = _moved(mesh, normals, spiky, groups, side * wishes.foam)
        _refuse_tight(mesh, points, wishes, name)
    return Skin(points, mesh.faces, normals, mesh.materials, cut, sharp)


def turns(points: Numbers, topology: Topology) -> Numbers:
    """degrees by which the surface turns at each of the topology's pairs; outward bends above 0."""
    one, two = topology.pairs
    normals = unit(face_normals(points, topology.faces))
    first, second = normals[one // 3], normals[two // 3]
    way = unit(points[topology.ends[one]] - points[topology.starts[one]])
    sine = np.einsum("ij,ij->i", np.cross(first, second), way)
    return np.asarray(np.degrees(np.arctan2(sine, np.einsum("ij,ij->i", first, second))))


def sharp_keys(points: Numbers, topology: Topology, least: float) -> Indices:
    """Keys of edges that turn by `least` degrees or more, sorted."""
    bent = np.abs(turns(points, topology)) >= least
    return np.unique(topology.side_keys[topology.pairs[0]][bent])


def _corner_normals(
    points: Numbers, faces: Indices, groups: Indices, sharp: float
) -> tuple[Numbers, Indices]:
    """Unit normals by face and corner, weighted by angles (Thürmer and Wüthrich 1998), and the
    groups that are points of a cone: no normal there stands for all faces."""
    flat = unit(face_normals(points, faces))
    weights = _angles(points, faces)
    count = int(groups.max()) + 1
    sums = np.zeros((count, 3))
    np.add.at(sums, groups.ravel(), (weights[:, :, None] * flat[:, None, :]).reshape(-1, 3))
    smooth = unit(sums)[groups]
    away = np.einsum("fcx,fx->fc", smooth, flat)
    least = np.ones(count)
    np.minimum.at(least, groups.ravel(), away.ravel())
    spiky = least < np.cos(np.radians(sharp))
    return np.where(spiky[groups][:, :, None], flat[:, None, :], smooth), np.flatnonzero(spiky)


def _angles(points: Numbers, faces: Indices) -> Numbers:
    corners = points[faces]
    before = unit(np.roll(corners, 1, axis=1) - corners)
    after = unit(np.roll(corners, -1, axis=1) - corners)
    return np.asarray(np.arccos(np.einsum("fcx,fcx->fc", before, after).clip(-1, 1)))


def _moved(mesh: Mesh, normals: Numbers, spiky: Indices, groups: Indices, width: float) -> Numbers:
    """Points moved so that each smooth surface around them moves by `width` mm."""
    owners = mesh.faces.ravel()
    kinds, first = np.unique(groups.ravel(), return_index=True)
    plain = ~np.isin(kinds, spiky)
    points, ways = owners[first[plain]], normals.reshape(-1, 3)[first[plain]]
    moved = mesh.points.copy()
    counts = np.bincount(owners[first], minlength=len(moved))
    alone = counts[points] == 1
    moved[points[alone]] += width * ways[alone]
    # Corners, mitres and points of cones: the least movement that moves all faces there.
    rows: dict[int, list[Numbers]] = {}
    for point, way in zip(points[~alone].tolist(), ways[~alone], strict=True):
        rows.setdefault(point, []).append(way)
    pointed = np.isin(groups.ravel(), spiky)
    for point, way in zip(owners[pointed].tolist(), normals.reshape(-1, 3)[pointed], strict=True):
        rows.setdefault(point, []).append(way)
    for point, listed in rows.items():
        step = np.linalg.pinv(np.array(listed), rcond=0.15) @ np.full(len(listed), width)
        size = float(np.linalg.norm(step))
        most = FARTHEST * abs(width)
        moved[point] += step * min(1.0, most / size) if size else step
    return moved


def _refuse_tight(mesh: Mesh, points: Numbers, wishes: FormWishes, name: str) -> None:
    before, after = face_normals(mesh.points, mesh.faces), face_normals(points, mesh.faces)
    size = np.linalg.norm(before, axis=1)
    turned = (np.einsum("ij,ij->i", before, after) <= 0) & (size > 1e-6)
    if turned.any():
        where = at_words(mesh.points[mesh.faces[turned]].mean(axis=1))
        message = (
            f"foam of {wishes.foam:g} mm cannot follow it at {where} mm: there it bends more "
            f"tightly than {wishes.foam / 2:g} mm, half of its thickness. Smooth the form or "
            "use thinner foam"
        )
        raise refuse("form-tight", name, message)


def smooth_lengths(start: Numbers, end: Numbers, first: Numbers, second: Numbers) -> Numbers:
    """mm between points along a smooth surface with these unit normals at both ends.

    With a the angle between the normals, p and q how far each point lies off the tangent plane of
    the other, and s = 2 sin(a/2), the square of the straight way grows by
    -p q · 4 (a²/s² - 1) / s², about -p q / 3. Exact on cylinders and spheres, where -4 p q / s² is
    the square of the chord across; on cones to the fourth power of a (law of cosines in the
    development). Nothing is added where the surface bends both ways between the points.
    """
    way = end - start
    off = np.einsum("...i,...i->...", way, first) * np.einsum("...i,...i->...", way, second)
    size = np.linalg.norm(second - first, axis=-1)
    angle = 2 * np.arcsin((size / 2).clip(max=0.5))  # beyond 60 degrees no arc is a good guess
    small = size < 1e-3
    safe = np.where(small, 1, np.minimum(size, 1))
    share = np.where(small, 1 / 3, 4 * ((angle / safe) ** 2 - 1) / safe**2)
    return np.asarray(np.sqrt(np.einsum("...i,...i->...", way, way) + np.maximum(-off, 0) * share))


def side_lengths(skin: Skin) -> Numbers:
    """mm of each side of each face, from its corner to the next."""
    corners = skin.points[skin.faces]
    return smooth_lengths(
        corners, np.roll(corners, -1, axis=1), skin.normals, np.roll(skin.normals, -1, axis=1)
    )


def between(
    start: Numbers, end: Numbers, first: Numbers, second: Numbers, share: Numbers
) -> Numbers:
    """Points on the smooth surface at a share of the way between two: a cubic that leaves both at
    right angles to their normals (Vlachos and others 2001)."""
    way = end - start
    one = start + (way - np.sum(way * first, axis=-1, keepdims=True) * first) / 3
    two = end - (way - np.sum(way * second, axis=-1, keepdims=True) * second) / 3
    t = share[..., None]
    u = 1 - t
    return np.asarray(u**3 * start + 3 * u * u * t * one + 3 * u * t * t * two + t**3 * end)
