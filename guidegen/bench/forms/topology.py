"""Triangles in → their edges, which faces meet there, what hangs together out."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from scipy.sparse import coo_matrix
from scipy.sparse.csgraph import connected_components

from guidegen.bench.forms.records import FaceMask, Indices, Numbers


def edge_keys(first: Indices, second: Indices) -> Indices:
    """One number for each edge, whichever of its points is named first."""
    return np.asarray(np.minimum(first, second) << 32 | np.maximum(first, second), np.int64)


def key_ends(keys: Indices) -> Indices:
    """Both points of each edge."""
    return np.stack((keys >> 32, keys & 0xFFFFFFFF), axis=-1)


@dataclass(frozen=True)
class Topology:
    """What borders on what. Sides are numbered 3·face + corner: from that corner to the next."""

    faces: Indices

    @cached_property
    def starts(self) -> Indices:
        """Point at which each side begins."""
        return self.faces.ravel()

    @cached_property
    def ends(self) -> Indices:
        """Point at which each side ends."""
        return np.roll(self.faces, -1, axis=1).ravel()

    @cached_property
    def side_keys(self) -> Indices:
        """Key of the edge of each side."""
        return edge_keys(self.starts, self.ends)

    @cached_property
    def _unique(self) -> tuple[Indices, Indices, Indices]:
        keys, side_edges, counts = np.unique(
            self.side_keys, return_inverse=True, return_counts=True
        )
        return keys, side_edges.astype(np.int64), counts.astype(np.int64)

    @property
    def keys(self) -> Indices:
        """Keys of all edges, sorted."""
        return self._unique[0]

    @property
    def side_edges(self) -> Indices:
        """Edge of each side, an index of `keys`."""
        return self._unique[1]

    @property
    def counts(self) -> Indices:
        """Faces of each edge."""
        return self._unique[2]

    @cached_property
    def pairs(self) -> tuple[Indices, Indices]:
        """The two sides of each edge that has two faces."""
        order = np.argsort(self.side_edges, kind="stable")
        first = np.cumsum(self.counts) - self.counts
        two = first[self.counts == 2]
        return order[two], order[two + 1]

    def across(self, keys: Indices) -> FaceMask:
        """For each of `pairs`, whether its edge is none of `keys`, which are sorted."""
        return ~is_in(self.side_keys[self.pairs[0]], keys)


def is_in(keys: Indices, among: Indices) -> FaceMask:
    """Which keys are in a sorted array."""
    if len(among) == 0:
        return np.zeros(len(keys), bool)
    place = np.searchsorted(among, keys).clip(max=len(among) - 1)
    return np.asarray(among[place] == keys)


def components(count: int, first: Indices, second: Indices) -> Indices:
    """Label of each of `count` things, where those joined in pairs are of one kind."""
    links = coo_matrix((np.ones(len(first), bool), (first, second)), shape=(count, count))
    return np.asarray(connected_components(links, directed=False)[1], np.int64)


def charts(topology: Topology, cut: Indices) -> Indices:
    """Chart of each face: what hangs together across edges that are not cut."""
    one, two = topology.pairs
    kept = topology.across(cut)
    return components(len(topology.faces), one[kept] // 3, two[kept] // 3)


def opened(topology: Topology, cut: Indices) -> Indices:
    """By face and corner, a number for each point, apart on both sides of what is cut.

    Two corners are one where a chain of faces around their point joins them without crossing a cut.
    Fans that touch in a point alone come apart too.
    """
    one, two = topology.pairs
    kept = topology.across(cut)
    one, two = one[kept], two[kept]
    nexts = (
        3 * (np.arange(3 * len(topology.faces)) // 3) + (np.arange(3 * len(topology.faces)) + 1) % 3
    )
    same = topology.starts[one] == topology.starts[two]
    # Sides of one edge run opposite ways where faces are turned alike.
    first = np.concatenate((one, nexts[one]))
    second = np.concatenate((np.where(same, two, nexts[two]), np.where(same, nexts[two], two)))
    return components(3 * len(topology.faces), first, second).reshape(-1, 3)


def face_normals(points: Numbers, faces: Indices) -> Numbers:
    """Normals as long as twice the area of each face."""
    a, b, c = (points[faces[:, corner]] for corner in range(3))
    return np.asarray(np.cross(b - a, c - a))


def unit(vectors: Numbers) -> Numbers:
    """Of length 1; what has none stays."""
    size = np.linalg.norm(vectors, axis=-1, keepdims=True)
    return np.asarray(vectors / np.where(size > 0, size, 1))
