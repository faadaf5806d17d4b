"""A text in → the living numbers in it: arithmetic between braces, how it is rounded and read.

`{belt_free}` is a length; `{edge(chest-front, armhole)/8 : to 5 mm}` is rounded to the next 5 mm;
`{belt_plates : count}` is a whole number. `{{` is a brace and nothing more.
"""

import math
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import lru_cache

from guidegen.buildfile.yaml.asks import LENGTHS, NAME, Ask
from guidegen.buildfile.yaml.expressions import Expression, ExpressionError, parse_expression

__all__ = [
    "ASKS", "MOST_HOLES", "Ask", "Hole", "HoleError", "Living", "Reads", "RoundingWay",
    "fill_holes", "find_holes", "parse_living",
]  # fmt: skip


class Reads(StrEnum):
    """What a living number is, and so how readers see it."""

    LENGTH = "length"
    """mm, shown in the reader's unit."""
    BARE = "bare"
    """A length whose unit follows another number, as the first of '20 to 40 mm'."""
    COUNT = "count"
    """A whole number; an error where it is none."""
    NUMBER = "number"
    """A number without unit, two decimals at most."""
    DEGREES = "degrees"
    """An angle."""


class RoundingWay(StrEnum):
    """Which way a number is rounded."""

    NEAREST = "to"
    UP = "up to"
    DOWN = "down to"


ASKS: dict[str, tuple[str, ...]] = {
    **LENGTHS,
    "pieces": ("part",),
    "lean": ("part",),
    "rise": ("part",),
    "marks": ("seam",),
    "points": ("part", "row"),
    "pitch": ("part", "row"),
    "inset": ("part", "row", "edge"),
    "hole": ("part", "row"),
    "spares": ("part",),
    "bevel": ("part", "edge"),
    "fold": ("part",),
    "depth": ("part",),
    "mouth": ("part",),
    "holds": ("strap",),
    "stack": ("fastening",),
    "post": ("fastening",),
    "fastened": ("fastening",),
    "cut": ("strap",),
    "short": ("strap",),
    "free": ("strap",),
    "least": ("strap",),
    "most": ("strap",),
    "pull": ("strap",),
    "straps": ("strap",),
    "round": ("strap",),
    "strip": ("strip",),
    "strips": ("strip",),
    "wide": ("strip",),
    "opens": ("linkage",),
    "closes": ("linkage",),
    "between": ("linkage",),
    "ohms": ("circuit",),
    "hours": ("circuit",),
}
"""What words may ask of the things of a guide, and the names that each question takes.

Those of LENGTHS (yaml/asks.py) may be asked while parts are made too. pieces: how many are worn,
spares left out. lean: degrees by which the wall of a tapered tube leans, and the bevel with which
its rims stand flat. rise: mm of its height. marks: match marks of a seam. points: how many points a
row has on one piece. pitch: mm from one of them to the next. inset: mm from their middles to an
edge of the part, at the least. hole: mm of their diameter. spares: how many pieces are cut in case
some are lost. bevel: degrees from square of an edge. fold, depth, mouth: degrees by which a
V-groove folds, mm that it is deep, and wide at the surface. stack: mm that a fastener goes through,
at most. post: mm of its post. fastened: how many fasteners. cut, short: mm to cut of a strap's only
or long piece, and of its short one. holds: mm of it that lie on the first part. free: mm of it
between its places, without pull. least, most: mm that it bridges at its tightest and its loosest.
pull: per cent by which it is stretched where it bridges the most. straps: how many there are.
round: mm round the outer faces of what a belt is worn over. strip, wide: mm to cut of one strip,
and its width. strips: how many. opens, closes: degrees or mm by which a row of plates can open and
close from rest. between: mm of its strap from rivet to rivet, without pull. ohms, hours:
Ω of a circuit's resistors, and h that its cells last.
"""

_HOLE = re.compile(r"\{\{|\}\}|\{([^{}\n]*)\}")
_ASK = re.compile(rf"\b([a-z]+)\(\s*({NAME}(?:\s*,\s*{NAME})*)\s*\)")
_FORMAT = re.compile(rf"(?:({'|'.join(Reads)})\b)?\s*(?:(up to|down to|to)\s+(\S.*))?")
MOST_HOLES = 200
"""Living numbers in one text. Our choice: nobody reads more."""


class HoleError(ValueError):
    """A hole cannot be read; the message is for the author."""


@dataclass(frozen=True, slots=True)
class Living:
    """One living number."""

    text: str
    """As the author wrote it, without braces."""
    expression: Expression
    """Its arithmetic; `ask_0`, `ask_1`, … stand for `asks`."""
    asks: tuple[Ask, ...] = ()
    reads: Reads = Reads.LENGTH
    way: RoundingWay = RoundingWay.NEAREST
    step: float = 0.0
    """mm, degrees or units to which it is rounded; 0 for the usual."""

    @property
    def names(self) -> frozenset[str]:
        """Measurements and values that it needs."""
        return self.expression.names - {f"ask_{number}" for number in range(len(self.asks))}

    def value(self, names: dict[str, float], answer: Callable[[Ask], float]) -> float:
        """The number, rounded. Raises ExpressionError; and what `answer` raises."""
        asked = {f"ask_{number}": answer(ask) for number, ask in enumerate(self.asks)}
        return self.rounded(self.expression.value({**names, **asked}))

    def rounded(self, value: float) -> float:
        """`value` as the author wants it rounded. Raises ExpressionError where it is no count."""
        if self.reads is Reads.COUNT and not self.step:
            if abs(value - round(value)) > 1e-6:
                raise ExpressionError(f"expected a whole number, found {value:.6g}")
            return float(round(value))
        step = self.step or _USUAL[self.reads]
        # A hair is taken off first: 3 * 0.1 is no reason to round up.
        steps = value / step
        match self.way:
            case RoundingWay.UP:
                whole = math.ceil(steps - 1e-9)
            case RoundingWay.DOWN:
                whole = math.floor(steps + 1e-9)
            case RoundingWay.NEAREST:
                whole = math.floor(steps + 0.5 + 1e-9)
        return whole * step


_USUAL = {
    Reads.LENGTH: 1.0,
    Reads.BARE: 1.0,
    Reads.COUNT: 1.0,
    Reads.NUMBER: 0.01,
    Reads.DEGREES: 0.5,
}
"""To what numbers are rounded where the author does not say. Our choice: a tape shows whole mm,
and a blade is not led truer than half a degree."""


@dataclass(frozen=True, slots=True)
class Hole:
    """Where a living number stands."""

    start: int
    end: int
    """Letters of the text, braces included."""
    text: str
    """What stands between the braces; empty for a brace that only stands for itself."""


def find_holes(text: str) -> Iterator[Hole]:
    """Every hole of a text, and every doubled brace, from left to right."""
    for match in _HOLE.finditer(text):
        yield Hole(match.start(), match.end(), match[1] or "")


@lru_cache(maxsize=4096)
def parse_living(text: str) -> Living:
    """A living number from what stands between braces. Raises HoleError."""
    sums, _, form = text.partition(":")
    match = _FORMAT.fullmatch(form.strip())
    if match is None:
        choices = ", ".join(Reads)
        raise HoleError(
            f'expected after the colon {choices}, or "to 5 mm", "up to 5", "down to 1/8 in", '
            f'found "{form.strip()[:40]}"'
        )
    asks: list[Ask] = []

    def ask(found: re.Match[str]) -> str:
        about, names = found[1], tuple(name.strip() for name in found[2].split(","))
        if about not in ASKS:
            return found[0]
        asks.append(_ask(about, names))
        return f"ask_{len(asks) - 1}"

    try:
        expression = parse_expression(_ASK.sub(ask, sums))
        step = parse_expression(match[3]).value({}) if match[3] else 0.0
    except ExpressionError as error:
        raise HoleError(str(error)) from None
    if match[3] and not 0 < step <= 1000:
        raise HoleError(f"expected to round to more than 0 and at most 1000, found {step:g}")
    reads = Reads(match[1]) if match[1] else Reads.LENGTH
    way = RoundingWay(match[2]) if match[2] else RoundingWay.NEAREST
    return Living(text.strip(), expression, tuple(asks), reads, way, step)


def _ask(about: str, names: tuple[str, ...]) -> Ask:
    wanted = ASKS[about]
    if len(names) != len(wanted):
        raise HoleError(f"expected {about}({', '.join(wanted)}), found {about}({', '.join(names)})")
    return Ask(about, names)


def fill_holes(text: str, say: Callable[[Living], str]) -> str:
    """`text` with each living number as `say` writes it, and doubled braces as one.

    A hole that cannot be read stays as it is: the check of texts tells of it.
    """
    if "{" not in text and "}" not in text:
        return text
    parts: list[str] = []
    place = 0
    for hole in find_holes(text):
        parts.append(text[place : hole.start])
        place = hole.end
        written = text[hole.start : hole.end]
        if not hole.text:
            parts.append(written[:1] if written in {"{{", "}}"} else written)
            continue
        try:
            parts.append(say(parse_living(hole.text)))
        except HoleError:
            parts.append(written)
    return "".join((*parts, text[place:]))
