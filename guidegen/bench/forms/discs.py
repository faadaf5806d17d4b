"""A skin with its cuts → the same with as many more as lay each chart flat, and why out.

A chart lies flat if it hangs together, has a border, and no handle. One with several borders is
slit from one to the next, unless they are windows in a panel that is nearly flat; one without
border, or with a handle, is parted by a plane across.
"""

from dataclasses import dataclass

import numpy as np
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import dijkstra

from guidegen.bench.forms.records import FaceMask, Indices, Numbers, Skin, at_words
from guidegen.bench.forms.slicing import slice_skin, with_cut
from guidegen.bench.forms.topology import (
    Topology,
    charts,
    components,
    edge_keys,
    face_normals,
    is_in,
    key_ends,
    opened,
)

MOST_CUTS = 120
"""Cuts that are added at most. Our choice: a form of more pieces is none to build."""
WINDOW = 0.8
"""Length of the mean normal of a panel in which borders may be windows."""


class TooManyCuts(Exception):
    """The form does not fall into discs."""


@dataclass(frozen=True, slots=True)
class Chart:
    """Faces that hang together, with their borders."""

    faces: FaceMask
    borders: tuple[Indices, ...]
    """Points of the skin along each border, the longest first."""
    handles: int


def look_at(skin: Skin, topology: Topology, labels: Indices, inside: FaceMask) -> Chart:
    """Borders and handles of a chart."""
    sides = np.flatnonzero(np.repeat(inside, 3))
    keys, edges, counts = np.unique(
        edge_keys(labels.ravel()[sides], np.roll(labels, -1, axis=1).ravel()[sides]),
        return_inverse=True,
        return_counts=True,
    )
    rim = sides[counts[edges] == 1]
    points = len(np.unique(labels[inside]))
    euler = points - len(keys) + int(inside.sum())
    if not len(rim):
        return Chart(inside, (), (2 - euler) // 2)
    ends = np.stack((labels.ravel()[rim], np.roll(labels, -1, axis=1).ravel()[rim]), axis=1)
    used, index = np.unique(ends, return_inverse=True)
    index = index.reshape(-1, 2)
    rings = components(len(used), index[:, 0], index[:, 1])[index[:, 0]]
    starts = topology.starts[rim]
    size = np.linalg.norm(skin.points[starts] - skin.points[topology.ends[rim]], axis=1)
    order = np.argsort(-np.bincount(rings, weights=size), kind="stable")
    borders = tuple(starts[rings == ring] for ring in order)
    return Chart(inside, borders, (2 - len(borders) - euler) // 2)


def make_discs(skin: Skin) -> tuple[Skin, tuple[str, ...]]:
    """The skin with all cuts it needs. Raises TooManyCuts."""
    notes: list[str] = []
    for _ in range(MOST_CUTS):
        topology = Topology(skin.faces)
        kinds, labels = charts(topology, skin.cut), opened(topology, skin.cut)
        for kind in range(int(kinds.max()) + 1):
            chart = look_at(skin, topology, labels, kinds == kind)
            if chart.handles or not chart.borders:
                skin, note = _parted(skin, labels, chart)
                notes.append(note)
                break
            if len(chart.borders) > 1 and not _windows(skin, topology, chart):
                skin, note = _slit(skin, topology, labels, chart)
                notes.append(note)
                break
        else:
            return skin, tuple(notes)
    raise TooManyCuts


def _windows(skin: Skin, topology: Topology, chart: Chart) -> bool:
    """Whether all borders but the longest are holes in a panel that hardly bends."""
    normals = face_normals(skin.points, skin.faces[chart.faces])
    size = np.linalg.norm(normals, axis=1).sum()
    if float(np.linalg.norm(normals.sum(axis=0))) < WINDOW * size:
        return False
    # A seam has to lie on the outline; a window is open.
    inner = np.unique(np.concatenate(chart.borders[1:]))
    return not np.isin(key_ends(skin.cut), inner).any()


def _parted(skin: Skin, labels: Indices, chart: Chart) -> tuple[Skin, str]:
    """Cut by the plane through its middle that lies across its shortest way."""
    middles = skin.points[skin.faces[chart.faces]].mean(axis=1)
    areas = np.linalg.norm(face_normals(skin.points, skin.faces[chart.faces]), axis=1)
    centre = np.average(middles, axis=0, weights=areas)
    away = middles - centre
    _, axes = np.linalg.eigh((away * areas[:, None]).T @ away)
    # With a handle the longest way: across it a ring falls into halves without one.
    way = axes[:, 2] if chart.handles else axes[:, 0]
    way = way * np.sign(way[np.argmax(np.abs(way))])
    skin = cut_by(skin, chart.faces, labels, skin.points @ way - centre @ way)
    kind = "has a handle" if chart.handles else "has no border"
    return skin, f"a part that {kind} was cut by a plane through {at_words(centre[None])}"


def cut_by(skin: Skin, inside: FaceMask, labels: Indices, by_point: Numbers) -> Skin:
    """Cut a chart where a field over the points of the skin is 0."""
    values = np.full(int(labels.max()) + 1, np.nan)
    values[labels[inside]] = by_point[skin.faces[inside]]
    sliced = slice_skin(skin, inside, labels, values)
    return with_cut(sliced.skin, sliced.line)


def _slit(skin: Skin, topology: Topology, labels: Indices, chart: Chart) -> tuple[Skin, str]:
    """Cut from the second border to the nearest other one, as straight as a plane does."""
    path = _path(skin, labels, chart)
    points = skin.points[path]
    where = at_words(points[[0, -1]])
    note = f"a part with {len(chart.borders)} borders was slit from one to another, {where}"
    keys = edge_keys(path[:-1], path[1:])
    normals = np.zeros((len(skin.points), 3))
    np.add.at(normals, skin.faces[chart.faces], skin.normals[chart.faces])
    across = np.cross(points[-1] - points[0], normals[path].sum(axis=0))
    values = (skin.points - points[0]) @ across
    by_label = np.full(int(labels.max()) + 1, np.nan)
    by_label[labels[chart.faces]] = values[skin.faces[chart.faces]]
    by_label[np.isclose(by_label, 0, atol=1e-9 * float(np.abs(values).max() or 1))] = 0
    sliced = slice_skin(skin, chart.faces, labels, by_label)
    straight = _joining(sliced.skin, sliced.line, chart, points)
    if straight is not None:
        return with_cut(sliced.skin, straight), note
    return with_cut(skin, keys), note


def _path(skin: Skin, labels: Indices, chart: Chart) -> Indices:
    """Points along edges from the second border to another, the shortest way."""
    faces = skin.faces[chart.faces]
    one, two = faces.ravel(), np.roll(faces, -1, axis=1).ravel()
    size = np.linalg.norm(skin.points[one] - skin.points[two], axis=1)
    # Edges that are cut already lead along a border, and no way across.
    free = ~is_in(edge_keys(one, two), skin.cut)
    graph = csr_matrix(
        (np.maximum(size, 1e-9)[free], (one[free], two[free])), shape=(len(skin.points),) * 2
    )
    start = np.unique(chart.borders[1])
    ends = np.setdiff1d(np.concatenate([chart.borders[0], *chart.borders[2:]]), start)
    away, before, _ = dijkstra(
        graph, directed=False, indices=start, min_only=True, return_predecessors=True
    )
    place = int(ends[np.argmin(away[ends])])
    path = [place]
    while before[place] >= 0:
        place = int(before[place])
        path.append(place)
    return np.array(path[::-1])


def _joining(skin: Skin, line: Indices, chart: Chart, ends: Numbers) -> Indices | None:
    """Of a plane's line, the stretch that leads from the second border to another; None if none."""
    if not len(line):
        return None
    one, two = key_ends(line).T
    used, index = np.unique(np.stack((one, two)), return_inverse=True)
    index = index.reshape(2, -1)
    kinds = components(len(used), index[0], index[1])
    of_edges = kinds[index[0]]
    borders = _rim_points(skin, chart)
    best, found = np.inf, None
    for kind in range(int(kinds.max()) + 1):
        points = used[kinds == kind]
        touched = [np.isin(points, border).any() for border in borders]
        if not touched[1] or sum(touched) < 2:
            continue
        near = float(
            np.linalg.norm(skin.points[points] - ends[0], axis=1).min()
            + np.linalg.norm(skin.points[points] - ends[-1], axis=1).min()
        )
        if near < best:
            best, found = near, line[of_edges == kind]
    return found


def _rim_points(skin: Skin, chart: Chart) -> tuple[Indices, ...]:
    """Points of each border, those that slicing added among them."""
    topology = Topology(skin.faces)
    rim = np.concatenate((skin.cut, topology.keys[topology.counts == 1]))
    ends = key_ends(rim)
    found = []
    for border in chart.borders:
        points = np.unique(border)
        new = ends[np.isin(ends, points).any(axis=1)]
        found.append(np.union1d(points, new[new >= int(points.max()) + 1]))
    return tuple(found)
