"""The numbers of one strap → what is cut for it, and what it bridges: each kind of strap."""

from collections.abc import Callable
from dataclasses import dataclass
from math import hypot

from guidegen.buildfile.records.fastening import Strap
from guidegen.geometry.fastening.asker import Holding
from guidegen.geometry.pieces.records import BeltRound, FittedStrap, Lacing, Loop, StrapPiece

NEAR = 0.05
"""mm under which two lengths are the same."""


@dataclass(frozen=True)
class Chain:
    """The numbers of one strap, in mm."""

    bridges: tuple[float, float]
    holds: tuple[float, float]
    short: float
    turned: float
    closest: float
    tail: float
    overlap: tuple[float, float]
    free: float | None
    takes: float
    """mm of the way that the closure takes up."""
    stretch: float
    """Share by which the material may be stretched."""
    ways: tuple[float, float] = (0.0, 0.0)
    """mm over the foam from both places to the edges."""


def buckled(name: str, strap: Strap, chain: Chain, count: int) -> FittedStrap:
    """Two pieces and a closure: the long one is as long as the loosest way needs."""
    # The short end and the closure lie in the way already, however tight the long end is pulled.
    away = chain.short + chain.takes
    # The tail is what still stands out of the closure on the loosest way: to be gripped.
    free = max(chain.bridges[1] - away, chain.closest) + chain.tail
    pieces = (
        StrapPiece(strap.material, chain.holds[0] + free, count, strap.name),
        StrapPiece(strap.material, chain.holds[1] + chain.short + chain.turned, count, strap.name),
    )
    return FittedStrap(
        name,
        strap.name,
        count,
        pieces,
        _hardware(strap, count),
        free,
        least=away + chain.closest,
        most=away + free - chain.tail,
        asked=chain.bridges,
        pull=0.0,
    )


def single(name: str, strap: Strap, chain: Chain, count: int) -> FittedStrap:
    """One piece: glued at both ends, or closed by what overlaps; elastic or not."""
    least, most = chain.overlap
    if strap.overlap is not None:
        # It must still overlap by the least where the way is longest, elastic pulled out or not.
        reach = chain.free if chain.free is not None else _reach(chain)
    else:
        reach = chain.free if chain.free is not None else chain.bridges[0]
    # It overlaps by the most when it is tightest, and by the least when it is loosest.
    shortest, longest = reach - most, (reach - least) * (1 + chain.stretch)
    relaxed = reach - least
    # Per cent by which it is pulled out where the way is longest: what the wearer feels.
    pull = max(0.0, chain.bridges[1] / relaxed - 1) * 100 if chain.stretch and relaxed > 0 else 0.0
    pieces = [StrapPiece(strap.material, sum(chain.holds) + reach, count, strap.name)]
    if strap.tape is not None:
        pieces.append(StrapPiece(strap.tape, most, count, strap.name))
    return FittedStrap(
        name,
        strap.name,
        count,
        tuple(pieces),
        _hardware(strap, count),
        reach,
        least=shortest,
        most=longest,
        asked=chain.bridges,
        pull=pull,
    )


def _reach(chain: Chain) -> float:
    """mm of a strap that overlaps itself, without pull."""
    if chain.stretch:
        # Elastic is cut for the shortest way and pulled out on longer ones; what does not stretch
        # is cut for the longest and overlaps more on shorter ones.
        return chain.bridges[0] + chain.overlap[1]
    return chain.bridges[1] + chain.overlap[0]


def hanger(holding: Holding, name: str, strap: Strap, chain: Chain, count: int) -> FittedStrap:
    """A loop over a belt: down its front, under it, up its back, and closed on itself."""
    width = next(holding.material_number(strap.around or "", "width"), 0.0)
    thick = next(holding.material_number(strap.around or "", "thickness"), 0.0)
    # The loop goes round the belt and whatever lies on the belt.
    thick += sum(holding.thickness(part) for part in strap.over)
    drop = chain.bridges[1]
    loop = 2 * (width + thick)
    length = chain.holds[0] + drop + loop + chain.overlap[0]
    pieces = [StrapPiece(strap.material, length, count, strap.name)]
    if strap.tape is not None:
        pieces.append(StrapPiece(strap.tape, chain.overlap[1], count, strap.name))
    return FittedStrap(
        name,
        strap.name,
        count,
        tuple(pieces),
        _hardware(strap, count),
        drop + loop,
        least=drop,
        most=drop,
        asked=chain.bridges,
        pull=0.0,
        loop=Loop(width, thick),
    )


def belt(holding: Holding, name: str, strap: Strap, chain: Chain) -> FittedStrap:
    """One piece round the body: the fixed half folded in at one end, the tail behind the other."""
    rigid = holding.asked(strap.rigid, "straps", name, "rigid") or 0.0
    free = max(chain.bridges[1] - chain.takes, rigid + chain.closest)
    length = chain.turned + free + chain.tail
    return FittedStrap(
        name,
        strap.name,
        1,
        (StrapPiece(strap.material, length, 1, strap.name),),
        _hardware(strap, 1),
        free,
        least=rigid + chain.takes + chain.closest,
        most=free + chain.takes,
        asked=chain.bridges,
        pull=0.0,
        belt=BeltRound(rigid, chain.turned, chain.tail, chain.takes),
    )


def lace(holding: Holding, name: str, strap: Strap, chain: Chain, count: int) -> FittedStrap:
    """A cord crosswise through n pairs of holes: one bar and 2 (n - 1) diagonals.

    That is the crisscross lacing of B. Polster, Nature 420 (2002), 476; from memory. Elastic cord
    is cut for the closed opening and pulled by the open one, other cord is cut for the open one.
    """
    row = holding.row(strap.start.row) if strap.start is not None else None
    ends = holding.number(strap.laced, "straps", name, "laced") if strap.laced is not None else None
    if row is None or ends is None:
        return single(name, strap, chain, count)  # told where it stands

    def crossed(wide: float) -> float:
        return wide + 2 * (len(row.spots) - 1) * hypot(row.pitch, wide)

    low, high = chain.bridges
    free = crossed(low) if chain.stretch else crossed(high)
    stretched = free * (1 + chain.stretch)
    pull = max(0.0, crossed(high) / free - 1) * 100 if free > 0 else 0.0
    return FittedStrap(
        name,
        strap.name,
        count,
        (StrapPiece(strap.material, free + 2 * ends, count, strap.name),),
        (),
        free,
        least=0.0 if not chain.stretch else low,
        most=high if crossed(high) <= stretched + NEAR else _widest(crossed, high, stretched),
        asked=chain.bridges,
        pull=pull,
        lacing=Lacing(len(row.spots), row.pitch, ends),
    )


def _widest(crossed: Callable[[float], float], most: float, length: float) -> float:
    """mm of the widest opening that a cord of so much length lets go; it grows with the opening."""
    low, high = 0.0, most
    # Forty halvings of some metres end far below NEAR; the crossed length only grows with the
    # opening, so halving finds the one place.
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if crossed(middle) <= length else (low, middle)
    return low


def _hardware(strap: Strap, count: int) -> tuple[tuple[str, int], ...]:
    return tuple((one, count) for one in (strap.closure, strap.slider) if one is not None)
