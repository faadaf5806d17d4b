"""A harness at one size: what is cut, where it is marked, what is bought; in mm."""

from dataclasses import dataclass

from guidegen.geometry.parts.holding import StrapPiece


@dataclass(frozen=True, slots=True)
class HarnessMark:
    """A place on a strap that lies flat."""

    place: str
    """Id of the place."""
    letter: str
    at: float
    """From the cut end at which the strap begins."""


@dataclass(frozen=True, slots=True)
class CutHarnessStrap:
    """One kind of strap of a harness."""

    id: str
    name: str
    count: int
    length: float
    """To cut."""
    marks: tuple[HarnessMark, ...]
    """All its places in order, the ends among them."""
    holds: tuple[float, float]
    """Of it that are held at both ends."""
    takes_in: float
    piece: StrapPiece


@dataclass(frozen=True, slots=True)
class FittedHarness:
    """All straps of a harness."""

    id: str
    name: str
    home: str
    """Part whose pages draw it: the first that it is held on."""
    straps: tuple[CutHarnessStrap, ...]
    places: tuple[tuple[str, str, str], ...]
    """Of each place its id, its letter and its name."""
    crossings: tuple[str, ...]
    """Ids of places at which straps are sewn on one another."""
    hardware: tuple[tuple[str, int], ...]
    """Rings and sliders with their counts."""

    @property
    def pieces(self) -> tuple[StrapPiece, ...]:
        """What is cut."""
        return tuple(strap.piece for strap in self.straps)
