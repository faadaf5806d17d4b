"""Cells of a picture in → the lines between them: shared chains, rings made of them, smooth.

A line between two regions is followed and thinned once, for both of them: what lies side by side
has one border, with neither a slit nor a second line beside it.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from guidegen.assembly.views.thinning import CellMask, CellRing, smooth_lines

type CellCodes = NDArray[np.int64]
"""A number for each cell: what is seen there."""

NOTHING = -1
"""The number of cells in which nothing is seen, and of all beyond the picture."""
RIGHT, UP, LEFT, DOWN = 1, 2, 4, 8
"""Sides of cells that leave a corner."""
OPPOSITE = {RIGHT: LEFT, UP: DOWN, LEFT: RIGHT, DOWN: UP}


@dataclass(frozen=True, eq=False)
class CellChain:
    """A line between two regions from corner to corner of cells; its ends are corners at which
    three or more regions meet, or it closes."""

    corners: CellRing
    """All corners of cells on its way; the first is not repeated where it closes."""
    left: int
    right: int
    """What is seen on both its sides."""
    closed: bool
    start: int
    end: int
    """Numbers of its first and last corner."""

    def turned(self) -> "CellChain":
        """The same the other way."""
        return CellChain(
            self.corners[::-1], self.right, self.left, self.closed, self.end, self.start
        )  # fmt: skip


def chains_of(codes: CellCodes) -> list[CellChain]:
    """All lines between cells of different numbers, each once."""
    rows, columns = codes.shape
    stride = columns + 1
    around = np.pad(codes, 1, constant_values=NOTHING)
    # Sides that leave a corner to the right, and upward, with the cells on both sides.
    level = around[1:, 1:-1] != around[:-1, 1:-1]
    upright = around[1:-1, 1:] != around[1:-1, :-1]
    ways = np.zeros((rows + 1, stride), dtype=np.uint8)
    ways[:, :-1] |= level.astype(np.uint8) * RIGHT
    ways[:, 1:] |= level.astype(np.uint8) * LEFT
    ways[:-1] |= upright.astype(np.uint8) * UP
    ways[1:] |= upright.astype(np.uint8) * DOWN
    count = (ways & 1) + (ways >> 1 & 1) + (ways >> 2 & 1) + (ways >> 3)
    joints = np.flatnonzero(count > 2)
    left = bytearray(ways.tobytes())
    is_joint = bytearray((count > 2).tobytes())
    walk = _walker(left, is_joint, stride)
    found: list[CellChain] = []

    def keep(nodes: list[int], way: int) -> None:
        closed = nodes[0] == nodes[-1] and not is_joint[nodes[0]]
        at = np.array(nodes[:-1] if closed else nodes)
        corners = np.stack([at % stride, at // stride], axis=1).astype(np.float64)
        row, column = nodes[0] // stride, nodes[0] % stride
        # Cells above left, above right, below left, below right of the first corner.
        above, below = around[row + 1], around[row]
        sides = {
            RIGHT: (above[column + 1], below[column + 1]),
            UP: (above[column], above[column + 1]),
            LEFT: (below[column], above[column]),
            DOWN: (below[column + 1], below[column]),
        }[way]
        found.append(
            CellChain(corners, int(sides[0]), int(sides[1]), closed, nodes[0], nodes[-1])
        )  # fmt: skip

    for joint in joints.tolist():
        for way in (RIGHT, UP, LEFT, DOWN):
            if left[joint] & way:
                keep(walk(joint, way), way)
    for corner in np.flatnonzero(count == 2).tolist():
        if left[corner]:
            way = left[corner] & -left[corner]
            keep(walk(corner, way), way)
    return found


def _walker(left: bytearray, is_joint: bytearray, stride: int) -> Callable[[int, int], list[int]]:
    """How one follows a line from a corner in a direction; sides that were gone are taken away."""
    steps = {RIGHT: 1, UP: stride, LEFT: -1, DOWN: -stride}

    def walk(here: int, way: int) -> list[int]:
        nodes = [here]
        while way:
            left[here] &= ~way
            here += steps[way]
            left[here] &= ~OPPOSITE[way]
            nodes.append(here)
            if is_joint[here]:
                break
            way = left[here]
        return nodes

    return walk


def rings_from(chains: Iterable[CellChain], inside: Callable[[int], bool]) -> list[list[CellChain]]:
    """Chains round all regions that are inside, those on the left, in an order that closes."""
    ready: dict[int, list[CellChain]] = {}
    rings: list[list[CellChain]] = []
    for chain in chains:
        one, other = inside(chain.left), inside(chain.right)
        if one == other:
            continue
        turned = chain if one else chain.turned()
        if turned.closed:
            rings.append([turned])
        else:
            ready.setdefault(turned.start, []).append(turned)
    while ready:
        ring = [_take(ready, next(iter(ready)), None)]
        while ring[-1].end != ring[0].start:
            ring.append(_take(ready, ring[-1].end, ring[-1]))
        rings.append(ring)
    return rings


def _take(ready: dict[int, list[CellChain]], node: int, before: CellChain | None) -> CellChain:
    """The chain that goes on from a corner; where two do, the one that turns left: regions that
    touch at a corner stay apart."""
    some = ready[node]
    best = 0
    if before is not None and len(some) > 1:
        x, y = before.corners[-1] - before.corners[-2]
        best = max(
            range(len(some)),
            key=lambda k: float(x * (some[k].corners[1] - some[k].corners[0])[1]
                                - y * (some[k].corners[1] - some[k].corners[0])[0]),
        )  # fmt: skip
    taken = some.pop(best)
    if not some:
        del ready[node]
    return taken


def rings_of(mask: CellMask, *, least: float = 12.0, off: float = 0.4) -> list[CellRing]:
    """Smooth rings round the cells of a mask, those inside on the left, within `off` cells of them;
    none of less than `least` cells."""
    rows = np.flatnonzero(mask.any(1))
    if not len(rows):
        return []
    columns = np.flatnonzero(mask.any(0))
    corner = np.array([columns[0], rows[0]])
    part = mask[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    chains = chains_of(np.where(part, 0, NOTHING))
    found = []
    for ring in rings_from(chains, lambda code: code >= 0):
        corners = np.concatenate([c.corners if c.closed else c.corners[:-1] for c in ring])
        if abs(area_of(corners)) >= least:
            found.append(corners)
    lines = smooth_lines(found, [True] * len(found), off)
    return [line + corner for line in lines if len(line) > 2]


def stretches(kept: CellMask, *, closed: bool) -> list[tuple[int, int]]:
    """Runs of what is kept in a row, by first and one past the last; the last may wrap."""
    if kept.all():
        return [(0, len(kept))]
    first = int(np.flatnonzero(~kept)[0]) if closed else 0
    turned = np.roll(kept, -first)
    change = np.flatnonzero(np.diff(np.concatenate([[False], turned, [False]]).astype(int)))
    return [(int(a) + first, int(b) + first) for a, b in change.reshape(-1, 2)]


def area_of(ring: CellRing) -> float:
    """Signed area of a ring; positive counter-clockwise."""
    after = np.roll(ring, -1, axis=0)
    return float((ring[:, 0] * after[:, 1] - after[:, 0] * ring[:, 1]).sum() / 2)


def joined(lines: Sequence[CellChain]) -> list[list[CellChain]]:
    """Chains that follow one another, as long as no third one ends where two meet."""
    ends: dict[int, list[int]] = {}
    for number, chain in enumerate(lines):
        if not chain.closed:
            ends.setdefault(chain.start, []).append(number)
            ends.setdefault(chain.end, []).append(number)
    used = [False] * len(lines)
    found: list[list[CellChain]] = []

    def follow(chain: CellChain) -> list[CellChain]:
        line = [chain]
        while len(some := ends[line[-1].end]) == 2:
            fresh = [number for number in some if not used[number]]
            if not fresh:
                break
            used[fresh[0]] = True
            after = lines[fresh[0]]
            line.append(after if after.start == line[-1].end else after.turned())
        return line

    for number, chain in enumerate(lines):
        if used[number]:
            continue
        used[number] = True
        if chain.closed:
            found.append([chain])
            continue
        ahead = follow(chain)
        behind = follow(chain.turned())[1:]
        found.append([*(one.turned() for one in reversed(behind)), *ahead])
    return found
