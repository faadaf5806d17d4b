"""A guide and one size in → numbers for every measurement and named value out."""

from collections import deque
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from enum import IntEnum

from guidegen.buildfile.read.content import GuideFile
from guidegen.buildfile.yaml.expressions import (
    Expression,
    ExpressionError,
    LengthMissingError,
)
from guidegen.buildfile.yaml.tree import Trail
from guidegen.problems import Checked, Problem, collect

MAX_NAMED = 8
"""Names in the message about a circle of values. Our choice: one line."""
EVEN = 1.0
"""mm by which left and right may differ and still share a template. Our choice: a tape shows no
less."""
MAX_TOLD = 50
"""Values of circles that are told. Our choice: nobody reads more."""


@dataclass(frozen=True, slots=True)
class SizeNumbers:
    """What arithmetic may use in one size."""

    size: str
    measurements: dict[str, float]
    """mm, in the guide's order."""
    values: dict[str, float]
    """Named results, in the guide's order; but those that ask for lengths of parts."""
    drawn: dict[str, float]
    """Measurements of the size that the drawings fit, as drawn_…; empty without one."""
    sides: dict[str, float] = field(default_factory=dict)
    """What names of two sides stand for: one of both, or the larger."""

    def names(self) -> dict[str, float]:
        """All of them together."""
        return {**self.drawn, **self.measurements, **self.sides, **self.values}


class BodySide(IntEnum):
    """Whose measurement a name of two sides stands for; LEFT and RIGHT are places in its pair."""

    LEFT = 0
    RIGHT = 1
    BOTH = 2
    """The larger of both."""


def size_numbers(
    file: GuideFile,
    size: str,
    body: Mapping[str, float] | None = None,
    side: BodySide = BodySide.BOTH,
) -> tuple[SizeNumbers, list[Problem]]:
    """Numbers of `size`, or of one `body` (mm by measurement), and what cannot be worked out."""
    return collect(_size_numbers(file, size, body, side))


def uneven(file: GuideFile, numbers: SizeNumbers) -> bool:
    """Whether some measurement differs from left to right by more than a tape shows."""
    known = numbers.measurements
    return any(
        left in known and right in known and abs(known[left] - known[right]) >= EVEN
        for left, right in file.guide.sides.values()
    )


def _sides(
    file: GuideFile, measured: Mapping[str, float], side: BodySide
) -> Iterator[tuple[str, float]]:
    """Names of two sides that are known, and what they stand for."""
    for name, pair in file.guide.sides.items():
        if set(pair) <= measured.keys():
            both = [measured[one] for one in pair]
            yield name, max(both) if side is BodySide.BOTH else both[side]


def _size_numbers(
    file: GuideFile, size: str, body: Mapping[str, float] | None, side: BodySide
) -> Checked[SizeNumbers]:
    guide = file.guide
    measured = dict(body) if body is not None else (yield from _row(file, size))
    drawn = {}
    if guide.drawn_for is not None and guide.drawn_for in guide.sizes:
        # A slip in that row is reported when that size itself is worked out.
        row, _ = collect(_row(file, guide.drawn_for))
        row |= dict(_sides(file, row, side))
        drawn = {f"drawn_{name}": number for name, number in row.items()}
    sides = dict(_sides(file, measured, side))
    values = yield from _values(file, {**drawn, **measured, **sides})
    order = [name for name in guide.measurements if name in measured]
    return SizeNumbers(size, {name: measured[name] for name in order}, values, drawn, sides)


def _row(file: GuideFile, size: str) -> Checked[dict[str, float]]:
    """One row of the size table; its cells are plain lengths, not arithmetic on each other."""
    row: dict[str, float] = {}
    for name, quantity in file.guide.sizes.get(size, {}).items():
        number = yield from evaluate(file, ("sizes", size, name), quantity, {})
        if number is not None:
            # A table may give one length for both sides; who is measured has two.
            row.update(dict.fromkeys(file.guide.sides.get(name, (name,)), number))
    return row


def _values(file: GuideFile, known: dict[str, float]) -> Checked[dict[str, float]]:
    """Named values, each worked out as soon as all that it needs is there.

    Those that ask for lengths of parts wait for the parts: a kit has them.
    """
    later = asking_values(file)
    values = {name: value for name, value in file.guide.values.items() if name not in later}
    names = dict(known)
    open_names = {name: values[name].names & values.keys() for name in values}
    users: dict[str, list[str]] = {name: [] for name in values}
    for name, needed in open_names.items():
        for other in needed:
            users[other].append(name)
    left = {name: len(needed) for name, needed in open_names.items()}
    ready = deque(name for name in values if not left[name])
    while ready:
        name = ready.popleft()
        number = yield from evaluate(file, ("values", name), values[name], names)
        if number is not None:
            names[name] = number
        for user in users[name]:
            left[user] -= 1
            if not left[user]:
                ready.append(user)
    yield from _cycle(file, [name for name in values if left[name]])
    return {name: names[name] for name in values if not left[name] and name in names}


def asking_values(file: GuideFile) -> frozenset[str]:
    """Named values that ask for lengths of parts, themselves or by way of other values."""
    values = file.guide.values
    users: dict[str, list[str]] = {}
    for name, value in values.items():
        for other in value.names & values.keys():
            users.setdefault(other, []).append(name)
    found: set[str] = set()
    waiting = [name for name, value in values.items() if value.asks]
    while waiting:
        name = waiting.pop()
        if name not in found:
            found.add(name)
            waiting += users.get(name, ())
    return frozenset(found)


def _cycle(file: GuideFile, waiting: list[str]) -> Iterator[Problem]:
    """Values that wait for one another, each at its place; of very many the first."""
    named = ", ".join(waiting[:MAX_NAMED]) + (" …" if len(waiting) > MAX_NAMED else "")
    for name in waiting[:MAX_TOLD]:
        message = f"needs itself, by way of {named}"
        yield file.source.problem("value-cycle", ("values", name), message)


def evaluate(
    file: GuideFile, trail: Trail, quantity: Expression, names: Mapping[str, float]
) -> Checked[float | None]:
    """The number of a quantity; None, and a problem at `trail`, where it has none.

    Nothing is said of a length that is missing since its part failed: that is told already.
    """
    try:
        return quantity.value(names)
    except LengthMissingError:
        return None
    except ExpressionError as error:
        yield file.source.problem("arithmetic", trail, f'"{quantity.text}": {error}')
        return None
