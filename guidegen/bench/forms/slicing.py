"""A skin and a field over some of its faces → the skin with edges along the line where it is 0.

Triangles that the line passes are divided there, so that a seam runs smoothly and not in steps from
edge to edge. New points lie on the smooth surface.
"""

from dataclasses import dataclass, replace

import numpy as np

from guidegen.bench.forms.records import FaceMask, Indices, Numbers, Skin
from guidegen.bench.forms.skin import between
from guidegen.bench.forms.topology import Topology, edge_keys, is_in, key_ends, unit

SNAP = 0.06
"""Share of an edge within which the line goes through its end instead: no slivers are made."""


@dataclass(frozen=True, slots=True)
class Sliced:
    """A skin after it was divided."""

    skin: Skin
    line: Indices
    """Keys of the edges along the line, sorted; not cut yet."""
    parents: Indices
    """By face, the face of the former skin that it is a part of."""


def slice_skin(skin: Skin, inside: FaceMask, labels: Indices, values: Numbers) -> Sliced:
    """Divide the faces `inside` where the field is 0.

    `labels` number the corners of all faces, apart on both sides of cuts; `values` has the field by
    label, and may be nan where it is not known.
    """
    topology = Topology(skin.faces)
    skin, values = _snapped(skin, topology, inside, labels, values)
    corner_values = np.where(inside[:, None], values[labels], np.nan)
    start, end = corner_values.ravel(), np.roll(corner_values, -1, axis=1).ravel()
    crossing = np.flatnonzero(start * end < 0)
    edges, first = np.unique(topology.side_edges[crossing], return_index=True)
    sides = crossing[first]  # of two sides of a cut edge the first says where it is divided
    split = np.full(len(topology.keys), -1)
    split[edges] = len(skin.points) + np.arange(len(edges))
    shares = start[sides] / (start[sides] - end[sides])
    points = np.concatenate((skin.points, _places(skin, sides, shares)))
    # By the side that is looked at, the share runs from its own start.
    forward = np.zeros(len(topology.keys))
    ahead = topology.starts[sides] < topology.ends[sides]
    forward[edges] = np.where(ahead, shares, 1 - shares)
    made = _divided(skin, topology, split, forward, corner_values)
    cut, sharp = (_divided_keys(keys, topology, split) for keys in (skin.cut, skin.sharp))
    new = replace(
        skin,
        points=points,
        faces=made.faces,
        normals=made.normals,
        materials=skin.materials[made.parents],
        cut=cut,
        sharp=sharp,
    )
    on = made.values == 0
    along = (on & np.roll(on, -1, axis=1)).ravel()
    line = np.unique(Topology(made.faces).side_keys[along])
    return Sliced(new, np.setdiff1d(line, cut), made.parents)


def _snapped(
    skin: Skin, topology: Topology, inside: FaceMask, labels: Indices, values: Numbers
) -> tuple[Skin, Numbers]:
    """The skin with points that the line all but passes through moved onto it, and the field with 0
    there. Points of seams and rims stay where they are."""
    values = values.copy()
    sides = np.flatnonzero(np.repeat(inside, 3))
    ahead = 3 * (sides // 3) + (sides + 1) % 3
    flat = labels.ravel()
    points, normals = skin.points.copy(), skin.normals.reshape(-1, 3).copy()
    fixed = np.union1d(skin.cut, topology.keys[topology.counts == 1])
    held = np.zeros(len(points), bool)
    held[key_ends(fixed)] = True
    for near, far in ((sides, ahead), (ahead, sides)):
        one, two = values[flat[near]], values[flat[far]]
        with np.errstate(divide="ignore", invalid="ignore"):
            share = one / (one - two)
        close = np.flatnonzero((one * two < 0) & (share < SNAP))
        close = close[np.argsort(-share[close], kind="stable")]  # the nearest is written last
        values[flat[near[close]]] = 0.0
        own, other = topology.starts[near[close]], topology.starts[far[close]]
        free = ~held[own]
        n0, n1 = normals[near[close]], normals[far[close]]
        places = between(skin.points[own], skin.points[other], n0, n1, share[close])
        points[own[free]] = places[free]
        held[own[free]] = True  # moved once
    return replace(skin, points=points), values


def _places(skin: Skin, sides: Indices, shares: Numbers) -> Numbers:
    corners = skin.points[skin.faces].reshape(-1, 3)
    normals = skin.normals.reshape(-1, 3)
    nexts = 3 * (sides // 3) + (sides + 1) % 3
    return between(corners[sides], corners[nexts], normals[sides], normals[nexts], shares)


@dataclass(frozen=True, slots=True)
class _Divided:
    faces: Indices
    normals: Numbers
    parents: Indices
    values: Numbers


def _divided(
    skin: Skin, topology: Topology, split: Indices, forward: Numbers, values: Numbers
) -> _Divided:
    """All faces, those with a divided side in parts."""
    of_faces = split[topology.side_edges].reshape(-1, 3)
    touched = (of_faces >= 0).any(axis=1)
    kept = np.flatnonzero(~touched)
    shares = forward[topology.side_edges].reshape(-1, 3)
    faces, normals, found = list[list[int]](), list[list[Numbers]](), list[list[float]]()
    parents: list[int] = []
    for face in np.flatnonzero(touched).tolist():
        ring = _ring(skin, values, face, of_faces[face], shares[face])
        for triangle in _cut_up(ring, [point >= len(skin.points) for point, _, _ in ring]):
            faces.append([ring[place][0] for place in triangle])
            normals.append([ring[place][1] for place in triangle])
            found.append([ring[place][2] for place in triangle])
            parents.append(face)
    count = len(faces)
    return _Divided(
        np.concatenate((skin.faces[kept], np.array(faces, np.int64).reshape(count, 3))),
        np.concatenate((skin.normals[kept], np.array(normals, float).reshape(count, 3, 3))),
        np.concatenate((kept, np.array(parents, np.int64))),
        np.concatenate((values[kept], np.array(found, float).reshape(count, 3))),
    )


def _ring(
    skin: Skin, values: Numbers, face: int, new: Indices, shares: Numbers
) -> list[tuple[int, Numbers, float]]:
    """Point, normal and field around a face, those of its divided sides among them."""
    ring: list[tuple[int, Numbers, float]] = []
    for corner in range(3):
        here, there = int(skin.faces[face, corner]), int(skin.faces[face, (corner + 1) % 3])
        n0, n1 = skin.normals[face, corner], skin.normals[face, (corner + 1) % 3]
        v0, v1 = float(values[face, corner]), float(values[face, (corner + 1) % 3])
        ring.append((here, n0, v0))
        if new[corner] >= 0:
            share = float(shares[corner] if here < there else 1 - shares[corner])
            value = 0.0 if v0 * v1 < 0 else v0 + share * (v1 - v0)
            ring.append((int(new[corner]), unit(n0 + share * (n1 - n0)), value))
    return ring


def _cut_up(ring: list[tuple[int, Numbers, float]], new: list[bool]) -> list[tuple[int, int, int]]:
    """Triangles of a face whose ring has new points in it; a line of 0 is one of their sides."""
    count = len(ring)
    zeros = [place for place in range(count) if ring[place][2] == 0]
    if count == 4:
        place = new.index(True)
        return [
            (place, (place + 1) % 4, (place + 2) % 4),
            (place, (place + 2) % 4, (place + 3) % 4),
        ]
    if count == 5:
        # The corner between both new points is cut off; what is left has four corners.
        lone = next(place for place in range(5) if new[place - 1] and new[(place + 1) % 5])
        a, b, c, d = (lone + 1) % 5, (lone + 2) % 5, (lone + 3) % 5, (lone + 4) % 5
        corner = [(d, lone, a)]
        if set(zeros) >= {b, d} and a not in zeros:
            return [*corner, (a, b, d), (b, c, d)]
        return [*corner, (a, b, c), (a, c, d)]
    a, b, c = (place for place in range(6) if new[place])
    return [(a, b, c), (c, (c + 1) % 6, a), (a, (a + 1) % 6, b), (b, (b + 1) % 6, c)]


def _divided_keys(keys: Indices, topology: Topology, split: Indices) -> Indices:
    """The same edges, those that were divided as two."""
    place = np.searchsorted(topology.keys, keys)
    middle = split[place]
    whole = keys[middle < 0]
    ends, points = key_ends(keys[middle >= 0]), middle[middle >= 0]
    halves = (edge_keys(ends[:, 0], points), edge_keys(ends[:, 1], points))
    return np.unique(np.concatenate((whole, *halves)))


def with_cut(skin: Skin, keys: Indices) -> Skin:
    """The skin, cut along more edges."""
    return replace(skin, cut=np.union1d(skin.cut, keys[is_in(keys, Topology(skin.faces).keys)]))
