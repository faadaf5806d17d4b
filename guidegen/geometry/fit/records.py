"""What fitting a body puts out: advice, doubts, coverage. Lengths in mm."""

from dataclasses import dataclass
from enum import StrEnum


@dataclass(frozen=True, slots=True)
class MeasurementGap:
    """How far one measurement of a body is from that of a size."""

    measurement: str
    body: float
    size: float

    step: float
    """What the measurement changes from one size to the next, on average."""

    @property
    def difference(self) -> float:
        """mm by which the body is larger than the size."""
        return self.body - self.size

    @property
    def steps(self) -> float:
        """The same in size steps."""
        return self.difference / self.step


@dataclass(frozen=True, slots=True)
class EdgeGrowth:
    """An edge that would be longer if it were made for the body, and what there is for it."""

    part: str
    edge: str
    growth: float
    """mm by which the edge of the body's own piece is longer than that of the size."""
    room: float
    """mm of trim allowance at both of its ends."""

    @property
    def covered(self) -> bool:
        """True where the trim allowance is enough."""
        return self.growth <= self.room + 0.5


@dataclass(frozen=True, slots=True)
class SizeAdvice:
    """The size that fits a body best."""

    size: str
    score: float
    """Root of the mean square of its misfits in size steps: 0 fits, 0.5 is between two sizes. Of
    the leading measurements alone, where the guide marks any and the body has one."""
    misfits: tuple[MeasurementGap, ...]
    """Of that size, the farthest off first."""
    ranking: tuple[tuple[str, float], ...]
    """Every size with its score, the best first."""
    growths: tuple[EdgeGrowth, ...] = ()
    """Edges that would have to grow, those without enough allowance first."""
    short: tuple[str, ...] = ()
    """Leading measurements that even this size is too small in: then it does not close, and no
    other size does better."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """A measurement that is questioned before anything is cut."""

    measurement: str
    message: str
    stops: bool = False
    """True where no piece can be made with it: it is missing, unknown or not above 0."""


class Verdict(StrEnum):
    """How the sizes serve a person."""

    SERVED = "served"
    SMALLER = "smaller"
    """All that is too far off lies below the size of least misfit."""
    LARGER = "larger"
    """All that is too far off lies above it."""
    MIXED = "other proportions"
    """Too far above in one measurement and below in another, or with none to compare."""


@dataclass(frozen=True, slots=True)
class Served:
    """One person of a population."""

    size: str | None
    """The size of least misfit; None without a measurement in common."""
    verdict: Verdict
    off: tuple[str, ...]
    """Measurements that are too far off, the farthest first."""


@dataclass(frozen=True, slots=True)
class SizeReach:
    """What one size serves in two measurements: a box from its least to its greatest values."""

    size: str
    least: tuple[float, float]
    """mm."""
    most: tuple[float, float]
    """mm."""


@dataclass(frozen=True, slots=True)
class SizeShare:
    """How many people one size serves."""

    size: str
    people: int
    share: float
    """0 to 1, of all people asked about."""


@dataclass(frozen=True, slots=True)
class Coverage:
    """Which share of a population the sizes of a guide serve."""

    people: int
    served: tuple[SizeShare, ...]
    """By size, in the guide's order."""
    too_small: int
    """People whose measurements that are too far off all lie below their size."""
    too_large: int
    """People whose measurements that are too far off all lie above their size."""
    mixed: int
    """People of other proportions: too far above in one measurement, below in another."""

    @property
    def share(self) -> float:
        """0 to 1; served by any size."""
        return sum(size.share for size in self.served)
