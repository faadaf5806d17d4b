"""Strips in → the lengths to cut off a roll so that all of them come out of it, side by side.

First-fit decreasing height on shelves across the roll (Coffman, Garey, Johnson and Tarjan, SIAM
Journal on Computing 9 (1980), 808-826; from memory): a maker cuts each shelf off at once and slits
it.
"""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field

from guidegen.geometry.pieces.records import CutStrip

NEAR = 0.05
"""mm by which strips side by side may be wider than the roll."""


@dataclass
class _Filling:
    """A shelf while strips are laid on it."""

    length: float
    room: float
    strips: list[CutStrip] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Shelf:
    """A length that is cut off the roll, and the strips that it is slit into."""

    material: str
    length: float
    """mm."""
    strips: tuple[tuple[CutStrip, int], ...]
    """Each kind with how many lie side by side; the longest first."""
    count: int
    """How many such lengths."""


def shelve(strips: Sequence[CutStrip]) -> list[Shelf]:
    """Lengths for strips of one material, in the order in which they are cut: longest first."""
    single = [strip for strip in strips for _ in range(strip.count)]
    # Longest first, so that a shelf is as long as the strip that opens it and no later one is
    # longer.
    single.sort(key=lambda strip: (-strip.length, -strip.width, strip.id))
    shelves: list[_Filling] = []
    for strip in single:
        shelf = next((one for one in shelves if one.room >= strip.width - NEAR), None)
        if shelf is None:
            shelf = _Filling(strip.length, strip.roll)
            shelves.append(shelf)
        shelf.room -= strip.width
        shelf.strips.append(strip)
    alike = Counter(
        (one.length, tuple((strip, count) for strip, count in Counter(one.strips).items()))
        for one in shelves
    )
    return [
        Shelf(inside[0][0].material, length, inside, count)
        for (length, inside), count in alike.items()
    ]
