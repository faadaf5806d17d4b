"""A mesh as read in → a sound one out, with a word and a place for all that was mended.

Points in one place are made one, faces without area dropped, faces that look the wrong way turned.
Edges of three or more faces and surfaces with one side alone are refused: nobody can say what they
mean.
"""

from collections import deque

import numpy as np

from guidegen.bench.forms.records import (
    FaceMask,
    Indices,
    Mesh,
    Numbers,
    ReadMesh,
    at_words,
    counted,
    refuse,
)
from guidegen.bench.forms.topology import (
    Topology,
    components,
    edge_keys,
    face_normals,
    is_in,
    key_ends,
    opened,
)

SAME = 0.002
"""mm between points that count as one. Our choice: STL rounds to 7 digits, 0.0002 mm on 5 m."""
MOST_PARTS = 200
"""Parts that do not hang together, in one file."""
NO_CUTS = np.zeros(0, np.int64)


def mended(read: ReadMesh, name: str) -> Mesh:
    """The sound mesh. Raises FormError."""
    notes: list[str] = []
    points, faces, lines, kept = _welded(read, notes)
    if len(faces) < 1:
        raise refuse("form-empty", name, "no face of it has an area")
    faces, kept = _without_twins(points, faces, kept, notes)
    topology = Topology(faces)
    _refuse_shared(topology, points, name)
    turned = _turned(topology, points, name, notes)
    faces = np.where(turned[:, None], faces[:, ::-1], faces)
    points, faces = _fans_apart(points, faces, notes)
    islands = None if read.islands is None else read.islands[kept]
    if islands is not None:
        islands = np.where(turned[:, None, None], islands[:, ::-1], islands)
    none = np.zeros(len(faces), np.int64)
    materials = none if read.materials is None else read.materials[kept]
    _tell_open(Topology(faces), points, notes)
    names = read.names or ("",)
    return Mesh(points, faces, islands, materials, names, lines, tuple(notes))


def _welded(read: ReadMesh, notes: list[str]) -> tuple[Numbers, Indices, Indices, Indices]:
    """Points, faces, lines, and which faces they were."""
    used = np.unique(read.faces)
    origin = read.points[used].min(axis=0)
    spots = np.round((read.points - origin) / SAME)
    spots = np.where(np.isfinite(spots), spots, 0)
    _, first, index = np.unique(spots, axis=0, return_index=True, return_inverse=True)
    order = np.argsort(first, kind="stable")  # as they stand in the file
    rank = np.empty(len(order), np.int64)
    rank[order] = np.arange(len(order))
    points, index = read.points[first[order]], rank[index.ravel()]
    faces = index[read.faces]
    area = np.linalg.norm(face_normals(points, faces), axis=1)
    apart = (
        (faces[:, 0] != faces[:, 1]) & (faces[:, 1] != faces[:, 2]) & (faces[:, 2] != faces[:, 0])
    )
    # A face of three points in a row stays: without it a gap would be left.
    kept = np.flatnonzero(apart)
    if len(kept) < len(faces):
        gone = points[faces[~apart][:, 0]]
        count = counted(int((~apart).sum()), "face")
        notes.append(f"{count} without area left out, at {at_words(gone)}")
    faces = faces[kept]
    if len(kept) and not (area[kept] > 0).any():
        kept, faces = kept[:0], faces[:0]
    lines = np.zeros((0, 2), np.int64) if read.lines is None else index[read.lines]
    return points, faces, lines[lines[:, 0] != lines[:, 1]], kept


def _without_twins(
    points: Numbers, faces: Indices, kept: Indices, notes: list[str]
) -> tuple[Indices, Indices]:
    """Of faces on the same three points the first stays, whichever way the others look."""
    _, first = np.unique(np.sort(faces, axis=1), axis=0, return_index=True)
    if len(first) == len(faces):
        return faces, kept
    first.sort()
    gone = np.setdiff1d(np.arange(len(faces)), first)
    places = at_words(points[faces[gone]].mean(axis=1))
    notes.append(f"{counted(len(gone), 'face')} twice in one place, left out once, at {places}")
    return faces[first], kept[first]


def _refuse_shared(topology: Topology, points: Numbers, name: str) -> None:
    many = topology.keys[topology.counts > 2]
    if len(many):
        places = at_words(points[key_ends(many)].mean(axis=1))
        message = (
            f"{counted(len(many), 'edge')} with three faces or more, at {places} mm; expected one "
            "or two: take walls inside the form away"
        )
        raise refuse("form-shared", name, message)


def _turned(topology: Topology, points: Numbers, name: str, notes: list[str]) -> FaceMask:
    """Which faces are turned, so that all look to the outside."""
    faces = topology.faces
    one, two = topology.pairs
    against = topology.starts[one] == topology.starts[two]
    turn = _alike(len(faces), one // 3, two // 3, against)
    if turn is None:
        bad = points[topology.keys[topology.counts == 2][against] >> 32]
        message = f"its surface has one side alone, as a twisted band; see {at_words(bad)} mm"
        raise refuse("form-one-sided", name, message)
    parts = components(len(faces), one // 3, two // 3)
    if parts.max() >= MOST_PARTS:
        message = f"more than {MOST_PARTS} parts that do not hang together; keep the form alone"
        raise refuse("form-large", name, message)
    size = np.linalg.norm(face_normals(points, faces), axis=1)
    closed = np.ones(parts.max() + 1, bool)
    closed[parts[np.flatnonzero(topology.counts[topology.side_edges] == 1) // 3]] = False
    for part in range(parts.max() + 1):
        inside = parts == part
        few = turn & inside
        # What most of its area says is what its author meant.
        if size[few].sum() > size[inside & ~few].sum():
            few = inside & ~few
        turn = np.where(inside, few, turn)
        if few.any():
            where = at_words(points[faces[few]].mean(axis=1))
            notes.append(f"{counted(int(few.sum()), 'face')} turned to look outside, at {where}")
        seen = np.where(few[inside, None], faces[inside][:, ::-1], faces[inside])
        inward = _volume(points, seen) < 0
        where = at_words(points[seen].mean(axis=1).mean(axis=0)[None])
        if inward and closed[part]:
            turn = np.where(inside, ~turn, turn)
            notes.append(f"a closed part was inside out and was turned, at {where}")
        elif inward and _hollow(points, seen):
            notes.append(
                f"an open part seems to look to its hollow side, at {where}: turn it in your "
                "editor if that is not its outside"
            )
    return turn


def _alike(count: int, first: Indices, second: Indices, against: FaceMask) -> FaceMask | None:
    """Which faces to turn so that all neighbours are turned alike; None where none can be."""
    links: list[list[tuple[int, bool]]] = [[] for _ in range(count)]
    if not against.any():
        return np.zeros(count, bool)
    for one, two, turned in zip(first.tolist(), second.tolist(), against.tolist(), strict=True):
        links[one].append((two, turned))
        links[two].append((one, turned))
    turn: list[bool | None] = [None] * count
    for start in range(count):
        if turn[start] is not None:
            continue
        turn[start] = False
        queue = deque([start])
        while queue:
            face = queue.popleft()
            for other, turned in links[face]:
                wanted = bool(turn[face]) is not turned
                if turn[other] is None:
                    turn[other] = wanted
                    queue.append(other)
                elif turn[other] is not wanted:
                    return None
    return np.array(turn, bool)


def _volume(points: Numbers, faces: Indices) -> float:
    """Six times the volume between faces and the middle of their points."""
    used = points[np.unique(faces)]
    a, b, c = (points[faces[:, corner]] - used.mean(axis=0) for corner in range(3))
    return float(np.sum(a * np.cross(b, c)))


def _hollow(points: Numbers, faces: Indices) -> bool:
    """Whether an open part is bent enough for a hollow side to be told from the other."""
    size = points[np.unique(faces)]
    longest = float((size.max(axis=0) - size.min(axis=0)).max())
    area = float(np.linalg.norm(face_normals(points, faces), axis=1).sum())
    return -_volume(points, faces) > 0.02 * longest * area


def _fans_apart(points: Numbers, faces: Indices, notes: list[str]) -> tuple[Numbers, Indices]:
    """Parts that touch in a point alone get a point each."""
    apart = opened(Topology(faces), NO_CUTS)
    count = int(apart.max()) + 1
    first = np.zeros(count, np.int64)
    first[apart.ravel()] = faces.ravel()
    owners, fans = np.unique(first, return_counts=True)
    if (fans > 1).any():
        where = at_words(points[owners[fans > 1]])
        notes.append(f"parts that touch in a point alone were taken apart, at {where}")
    if count == len(owners):
        return points, faces  # numbered as in the file
    return points[first], apart


def _tell_open(topology: Topology, points: Numbers, notes: list[str]) -> None:
    """Open borders: they become free edges of panels, if they are meant."""
    open_keys = topology.keys[topology.counts == 1]
    if not len(open_keys):
        return
    ends = key_ends(open_keys)
    used, index = np.unique(ends, return_inverse=True)
    index = index.reshape(-1, 2)
    rings = components(len(used), index[:, 0], index[:, 1])
    size = np.linalg.norm(points[ends[:, 0]] - points[ends[:, 1]], axis=1)
    around = np.bincount(rings[index[:, 0]], weights=size)
    order = np.argsort(around)
    told = []
    for ring in order[:3]:
        middle = points[used[rings == ring]].mean(axis=0)
        told.append(f"{around[ring]:.1f} mm around {at_words(middle[None])}")
    notes.append(
        f"open along {counted(len(around), 'border')}, free edges of its pieces; the shortest: "
        f"{'; '.join(told)}"
    )


def lines_on_edges(mesh: Mesh) -> tuple[Indices, int]:
    """Keys of drawn lines that run along edges, sorted, and how many lines run elsewhere."""
    if not len(mesh.lines):
        return NO_CUTS, 0
    drawn = np.unique(edge_keys(mesh.lines[:, 0], mesh.lines[:, 1]))
    on = is_in(drawn, Topology(mesh.faces).keys)
    return drawn[on], int((~on).sum())
