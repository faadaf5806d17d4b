"""What is seen in each cell → the borders between things, faces and limbs, each followed once."""

from collections.abc import Callable, Sequence
from functools import cached_property

import numpy as np

from guidegen.assembly.records import Row
from guidegen.assembly.views.contours import (
    NOTHING,
    CellChain,
    CellCodes,
    chains_of,
    joined,
    rings_from,
    stretches,
)
from guidegen.assembly.views.surface import FACES
from guidegen.assembly.views.thinning import CellMask, CellRing, smooth_lines

OFF = 0.7
"""Cells that a thinned line may be off: 0.07 mm of a picture."""
JUMP = 9.0
"""mm by which one limb passes before another for a line to be drawn."""
FAR = -1e6
LEAST_LIMB = 28
"""Cells of such a line."""
GROWN = ({"trunk", "leg"}, {"trunk", "neck"}, {"neck", "head"}, {"leg", "foot"}, {"arm", "thumb"})
"""Limbs that go over into one another: no line parts them."""


class Border:
    """All borders of a picture. Things are told by number: limbs first, then sheets."""

    def __init__(self, codes: CellCodes, depth: Row, limbs: Sequence[str]) -> None:
        self._limbs = limbs
        # Beyond the thing there is no depth: far behind, so that differences are numbers.
        self._depth = np.maximum(depth, FAR)
        self._chains = chains_of(codes)

    @cached_property
    def _thin(self) -> list[CellChain]:
        """The same lines with few points."""
        chains = self._chains
        lines = smooth_lines([c.corners for c in chains], [c.closed for c in chains], OFF)
        return [
            CellChain(
                line,
                chain.left // FACES,
                chain.right // FACES,
                chain.closed,
                chain.start,
                chain.end,
            )
            for chain, line in zip(chains, lines, strict=True)
        ]

    def rings(self, inside: Callable[[int], bool]) -> list[CellRing]:
        """Closed rings round things that are inside."""
        return [
            np.concatenate([c.corners if c.closed else c.corners[:-1] for c in ring])
            for ring in rings_from(self._thin, inside)
        ]

    def lines(self, wanted: Callable[[int, int], bool]) -> list[CellRing]:
        """Borders of which the things on both sides are wanted, as long as they go on; what closes
        ends where it begins."""
        some = [chain for chain in self._thin if wanted(chain.left, chain.right)]
        return [_one(line) for line in joined(some)]

    def limb_lines(self) -> list[CellRing]:
        """Where the rim of a limb lies well before another limb that it does not grow out of."""
        kinds = [name.partition("-")[0] for name in self._limbs]
        found: list[CellRing] = []
        for chain in self._chains:
            one, other = chain.left // FACES, chain.right // FACES
            if NOTHING in (one, other) or max(one, other) >= len(kinds) or one == other:
                continue
            if {kinds[one], kinds[other]} in GROWN:
                continue
            corners = chain.corners
            if chain.closed:
                corners = np.concatenate([corners, corners[:1]])
            for start, end in stretches(self._jumps(corners), closed=chain.closed):
                if end - start >= LEAST_LIMB:
                    at = np.arange(start, end + 1) % len(corners)
                    found.append(corners[at])
        return smooth_lines(found, [False] * len(found), OFF)

    def _jumps(self, corners: CellRing) -> CellMask:
        """Sides of cells along a line on which one side lies well before the other."""
        middle, step = (corners[:-1] + corners[1:]) / 2, np.diff(corners, axis=0)
        left = np.stack([-step[:, 1], step[:, 0]], axis=1) / 2
        here, there = (np.floor(middle + sign * left).astype(int) for sign in (1, -1))
        depth = self._depth
        gap = depth[here[:, 1], here[:, 0]] - depth[there[:, 1], there[:, 0]]
        return np.asarray(np.abs(gap) > JUMP)


def _one(line: list[CellChain]) -> CellRing:
    """Chains that follow one another as one line; a ring repeats its first point at its end."""
    if line[0].closed:
        return np.concatenate([line[0].corners, line[0].corners[:1]])
    return np.concatenate([line[0].corners, *(chain.corners[1:] for chain in line[1:])])
