"""What goes to the solver's process and what comes back, as JSON, a line each (mm, degrees)."""

import json
from collections import Counter
from dataclasses import asdict, dataclass
from math import ceil, isfinite

from guidegen.errors import SolverError


@dataclass(frozen=True, slots=True)
class SolverSheet:
    """A size of sheet that the solver may use."""

    width: float
    height: float
    price: float
    """Of one sheet; what the solver makes small."""
    copies: int
    """No plan needs more of it."""
    pack: int
    pack_price: float


@dataclass(frozen=True, slots=True)
class SolverItem:
    """A polygon to place."""

    outline: tuple[tuple[float, float], ...]
    """Counter-clockwise."""
    holes: tuple[tuple[tuple[float, float], ...], ...]
    """Each counter-clockwise, as the solver wants them."""
    copies: int


PATIENCE = 3.0
"""How many times its seconds a search may take on a busy machine. Our choice."""

type Turns = tuple[tuple[float, float, bool], ...]
"""Ranges of turns in degrees, from and to, and whether the piece is flipped before."""


@dataclass(frozen=True, slots=True)
class Search:
    """One way to search."""

    turns: Turns
    mix: tuple[int, ...]
    """How many of each size of sheet to use; empty to find that out."""
    share: float
    """Of the time that is left, in proportion to the shares of the searches to come."""


@dataclass(frozen=True, slots=True)
class NestRequest:
    """A nesting problem."""

    sheets: tuple[SolverSheet, ...]
    items: tuple[SolverItem, ...]
    spacing: float
    rim: float
    searches: tuple[Search, ...]
    """One after the other."""
    seconds: float
    """On an idle machine; a busy one may take up to PATIENCE times as long."""
    enough: tuple[float, int]
    """Price of packs and number of sheets that no plan can go below: the search ends there."""


@dataclass(frozen=True, slots=True)
class SolverPlace:
    """Where one copy lies: flipped across the y axis, turned about its origin, then moved."""

    item: int
    x: float
    y: float
    angle: float
    flipped: bool


@dataclass(frozen=True, slots=True)
class NestAnswer:
    """What the solver found."""

    sheets: tuple[tuple[int, tuple[SolverPlace, ...]], ...]
    """Index of the size, and what lies on it; none where no whole plan was found in time."""


def write_message(message: NestRequest | NestAnswer) -> str:
    """A message as JSON in one line."""
    return json.dumps(asdict(message), allow_nan=False)


def read_request(text: str) -> NestRequest:
    """The request that `write_message` wrote."""
    data = json.loads(text)
    return NestRequest(
        sheets=tuple(SolverSheet(**sheet) for sheet in data["sheets"]),
        items=tuple(
            SolverItem(_points(item["outline"]), tuple(map(_points, item["holes"])), item["copies"])
            for item in data["items"]
        ),
        spacing=data["spacing"],
        rim=data["rim"],
        searches=tuple(
            Search(
                tuple((start, end, flipped) for start, end, flipped in search["turns"]),
                tuple(search["mix"]),
                search["share"],
            )
            for search in data["searches"]
        ),
        seconds=data["seconds"],
        enough=(data["enough"][0], data["enough"][1]),
    )


def _points(ring: list[list[float]]) -> tuple[tuple[float, float], ...]:
    return tuple((x, y) for x, y in ring)


def answer_key(answer: NestAnswer, request: NestRequest) -> tuple[float, int]:
    """Price of the packs and number of sheets of a whole plan: the lower, the better."""
    counts = Counter(kind for kind, _ in answer.sheets)
    cost = sum(
        ceil(counts[number] / sheet.pack) * sheet.pack_price
        for number, sheet in enumerate(request.sheets)
    )
    return round(cost, 6), len(answer.sheets)


def is_enough(answer: NestAnswer, request: NestRequest) -> bool:
    """True where no plan can be better than an answer."""
    cost, sheets = answer_key(answer, request)
    return cost <= request.enough[0] + 1e-6 and sheets <= request.enough[1]


def read_answer(text: str, request: NestRequest) -> NestAnswer:
    """The last answer in full lines to a request. Raises SolverError where there is none."""
    try:
        # What follows the last line end is a line that was cut off when the process was stopped.
        *lines, _ = text.split("\n")
        if not lines:
            raise ValueError("no whole line")
        data = json.loads(lines[-1])
        return NestAnswer(
            tuple(
                (
                    _index(kind, len(request.sheets)),
                    tuple(_place(place, request) for place in places),
                )
                for kind, places in data["sheets"]
            )
        )
    except (ValueError, TypeError, KeyError, RecursionError) as error:
        raise SolverError(f"the nesting solver's answer cannot be read ({error})") from error


def _place(place: dict[str, object], request: NestRequest) -> SolverPlace:
    return SolverPlace(
        _index(place["item"], len(request.items)),
        _number(place["x"]),
        _number(place["y"]),
        _number(place["angle"]),
        bool(place["flipped"]),
    )


def _index(value: object, count: int) -> int:
    # The process is ours but its library is not: an index out of range would place another piece.
    if not isinstance(value, int) or not 0 <= value < count:
        raise ValueError(f"no number {value!r}")
    return value


def _number(value: object) -> float:
    if not isinstance(value, int | float) or not isfinite(value):
        raise ValueError(f"{value!r} is not a number")
    return float(value)
