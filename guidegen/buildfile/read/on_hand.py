"""A file of what is at hand in → offcuts by sheet material, amounts by any other.

foam-6: [{width: 50 cm, height: 300, count: 2}]
sealer: 250            # ml
lacing-cord: 3 m
buckle-25: 4
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.buildfile.read.mapping_file import read_mapping
from guidegen.buildfile.records.materials import MaterialKind
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.yaml.expressions import ExpressionError, parse_expression
from guidegen.buildfile.yaml.tree import Source, Trail, Value
from guidegen.problems import Checked, Problem, did_you_mean

MOST_OFFCUTS = 100
"""Kinds of offcut of one material. Our choice: bounds the search for a cut plan."""
MOST_COUNT = 1000
"""Of one offcut."""
SHORTEST, LONGEST = 1.0, 10_000.0
"""mm; sides of an offcut."""
MOST_AMOUNT = 1_000_000.0
"""ml, mm or pieces of one material, as of the packs in stock."""


@dataclass(frozen=True, slots=True)
class Offcut:
    """A rectangle of foam that is there already."""

    width: float
    height: float
    """mm, usable."""
    count: int = 1


@dataclass(frozen=True)
class OnHand:
    """What need not be bought."""

    offcuts: Mapping[str, tuple[Offcut, ...]] = field(default_factory=dict)
    """By sheet material."""
    amounts: Mapping[str, float] = field(default_factory=dict)
    """ml, mm or pieces, by any other material."""


NOTHING = OnHand()


def read_on_hand(path: Path, stock: Stock) -> Checked[OnHand]:
    """A YAML file of materials at hand; problems with their places."""
    expected = "materials with what is there, such as sealer: 250"
    value, source = yield from read_mapping(path, expected)
    reader = _Reader(source)
    offcuts: dict[str, tuple[Offcut, ...]] = {}
    amounts: dict[str, float] = {}
    for name, given in value.items():
        material = stock.materials.get(name)
        if material is None:
            hint = did_you_mean(name, stock.materials)
            message = f'no material "{name}" in stock{hint}'
            yield source.problem("unknown-name", (name,), message, key=True)
        elif material.kind is MaterialKind.SHEET:
            offcuts[name] = yield from reader.offcuts((name,), given)
        else:
            amounts[name] = yield from reader.number((name,), given, MOST_AMOUNT)
    return OnHand(offcuts, amounts)


@dataclass
class _Reader:
    """Reads values of one file."""

    source: Source

    def refuse(self, trail: Trail, message: str) -> Problem:
        """What is wrong at a place."""
        return self.source.problem("out-of-range", trail, message)

    def number(self, trail: Trail, given: Value, most: float, least: float = 0.0) -> Checked[float]:
        """A number over 0 from `least`, or a length with its unit; 0 where it is none."""
        try:
            number = parse_expression(given).value({})
        except ExpressionError as error:
            yield self.source.problem("arithmetic", trail, str(error))
            return 0.0
        if not 0 < number <= most or number < least:
            from_ = f"at least {least:g}" if least else "more than 0"
            yield self.refuse(trail, f"expected {from_}, at most {most:g}")
            return 0.0
        return number

    def offcuts(self, trail: Trail, given: Value) -> Checked[tuple[Offcut, ...]]:
        """A list of rectangles, or one alone."""
        listed = given if isinstance(given, list) else [given]
        if not listed or len(listed) > MOST_OFFCUTS:
            yield self.refuse(trail, f"expected 1 to {MOST_OFFCUTS} offcuts")
            return ()
        found = []
        for number, entry in enumerate(listed):
            here = (*trail, number) if isinstance(given, list) else trail
            offcut = yield from self._offcut(here, entry)
            if offcut is not None:
                found.append(offcut)
        return tuple(found)

    def _offcut(self, trail: Trail, entry: Value) -> Checked[Offcut | None]:
        if not isinstance(entry, dict) or not {"width", "height"} <= entry.keys():
            yield self.refuse(trail, "expected offcuts such as {width: 500, height: 300, count: 2}")
            return None
        for key in entry.keys() - {"width", "height", "count"}:
            hint = did_you_mean(key, ("width", "height", "count"))
            yield self.refuse((*trail, key), f'an offcut has no "{key}"{hint}')
        width = yield from self.number((*trail, "width"), entry["width"], LONGEST, SHORTEST)
        height = yield from self.number((*trail, "height"), entry["height"], LONGEST, SHORTEST)
        count = entry.get("count", 1)
        if isinstance(count, bool) or not isinstance(count, int) or not 0 < count <= MOST_COUNT:
            yield self.refuse((*trail, "count"), f"expected a whole number from 1 to {MOST_COUNT}")
            return None
        return Offcut(width, height, count) if width and height else None
