"""A skin cut into panels → its seams and free edges as chains of edges between corners out."""

import itertools
from collections import defaultdict
from dataclasses import dataclass

import numpy as np

from guidegen.bench.forms.records import Indices, Numbers, Skin
from guidegen.bench.forms.topology import Topology, edge_keys, key_ends, unit

CORNER = 50.0
"""degrees by which a free edge turns where it gets a corner. Our choice."""
REACH = 0.08
"""Share of a chain over which its way is looked at: a mesh's edges run in steps."""


@dataclass(frozen=True, slots=True)
class SeamChain:
    """A stretch of seam or of free edge between two corners."""

    points: tuple[int, ...]
    """Of the skin, from end to end."""
    free: bool


def find_chains(skin: Skin, topology: Topology) -> list[SeamChain]:
    """All chains, in the order of their lowest edges."""
    open_keys = topology.keys[topology.counts == 1]
    links: dict[int, list[int]] = defaultdict(list)
    for one, two in key_ends(np.union1d(skin.cut, open_keys)).tolist():
        links[one].append(two)
        links[two].append(one)
    free = set(open_keys.tolist())
    corners = {point for point, others in links.items() if len(others) != 2}
    found: list[SeamChain] = []
    seen: set[int] = set()

    def walk(point: int, nearest: int) -> list[int]:
        path = [point, nearest]
        seen.add(_key(point, nearest))
        while path[-1] not in corners:
            one, two = links[path[-1]]
            onward = two if one == path[-2] else one
            if _key(path[-1], onward) in seen:
                break
            seen.add(_key(path[-1], onward))
            path.append(onward)
        return path

    starts = sorted(corners) + sorted(set(links) - corners)
    for start in starts:
        for other in sorted(links[start]):
            if _key(start, other) in seen:
                continue
            path = walk(start, other)
            is_free = _key(path[0], path[1]) in free
            found += _divided(skin.points, path, free=is_free)
    return found


def _key(one: int, two: int) -> int:
    return int(edge_keys(np.int64(one), np.int64(two)))  # type: ignore[arg-type]


def _divided(points: Numbers, path: list[int], *, free: bool) -> list[SeamChain]:
    """A chain in parts: closed ones in two, free edges where they turn a corner."""
    places = points[path]
    passed = np.concatenate(([0.0], np.cumsum(np.linalg.norm(np.diff(places, axis=0), axis=1))))
    stops = {0, len(path) - 1}
    closed = path[0] == path[-1]
    if free:
        stops |= set(_turns(places, passed, closed=closed))
    if closed and len(stops) < 3:
        # An edge runs from one corner to another one: a ring gets two, opposite each other.
        half = int(np.argmin(np.abs(passed - passed[-1] / 2)))
        stops.add(min(max(half, 1), len(path) - 2))
    order = sorted(stops)
    return [
        SeamChain(tuple(path[first : last + 1]), free) for first, last in itertools.pairwise(order)
    ]


def _turns(places: Numbers, passed: Numbers, *, closed: bool) -> list[int]:
    """Where a chain turns a corner, as seen from some way off."""
    del closed  # a ring's first point is a corner of it anyway
    reach = REACH * passed[-1]
    found: list[tuple[float, int]] = []
    for place in range(1, len(places) - 1):
        before = int(np.searchsorted(passed, passed[place] - reach))
        after = min(int(np.searchsorted(passed, passed[place] + reach)), len(places) - 1)
        one, two = unit(places[place] - places[before]), unit(places[after] - places[place])
        turn = float(np.degrees(np.arccos(np.clip(one @ two, -1, 1))))
        if turn >= CORNER:
            found.append((turn, place))
    kept: list[int] = []
    for _, place in sorted(found, reverse=True):
        if all(abs(passed[place] - passed[other]) > reach for other in kept):
            kept.append(place)
    return kept


def chain_of_edges(chains: list[SeamChain]) -> dict[int, int]:
    """By key of an edge, the number of its chain."""
    owners: dict[int, int] = {}
    for number, chain in enumerate(chains):
        for one, two in zip(chain.points, chain.points[1:], strict=False):
            owners[_key(one, two)] = number
    return owners


def seam_turn(skin: Skin, topology: Topology, chain: SeamChain) -> tuple[float, float, float]:
    """degrees by which the surface turns across a seam: mean, least, most; outward bends above 0.

    By the smooth normals of both sides: a seam along a cylinder turns nowhere.
    """
    points = np.array(chain.points)
    wanted = edge_keys(points[:-1], points[1:])
    one, two = topology.pairs
    keys = topology.side_keys[one]
    place = np.searchsorted(keys[np.argsort(keys)], wanted)
    chosen = np.argsort(keys)[place]
    first, second = one[chosen], two[chosen]
    normals = skin.normals.reshape(-1, 3)

    def middle(sides: Indices) -> Numbers:
        return unit(normals[sides] + normals[3 * (sides // 3) + (sides + 1) % 3])

    left, right = middle(first), middle(second)
    way = skin.points[topology.ends[first]] - skin.points[topology.starts[first]]
    size = np.linalg.norm(way, axis=1)
    sine = np.einsum("ij,ij->i", np.cross(left, right), way / size[:, None])
    angle = np.degrees(np.arctan2(sine, np.einsum("ij,ij->i", left, right)))
    return float(np.average(angle, weights=size)), float(angle.min()), float(angle.max())
