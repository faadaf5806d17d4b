"""Words in → the lengths that they are sure to speak of.

Lengths that guidegen writes have a no-break space before their unit; lengths that authors type are
recognised where they can be nothing else, and left alone otherwise: `2 × 340 mm` may be two lengths
or two times one.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from guidegen.units import MM_PER_UNIT
from guidegen.words import SPACE


@dataclass(frozen=True, slots=True)
class Found:
    """A length in a text."""

    start: int
    end: int
    """Where it stands: from its first digit to the end of its unit."""
    mm: float
    unit: str = "mm"
    """As it is written."""
    bare: bool = False
    """True for a number whose unit follows another number: the 5 of '5 to 10 mm'."""


NUMBER = r"\d{1,5}(?:[.,]\d{1,2})?"
_FRACTION = r"(?:\d{1,3}[ \u00a0])?\d{1,2}/(?:2|4|8|16|32|64)"
APART = r"(?<![\w.,/×·±+−–-])"
"""Nothing before a number that would make it part of something else: a code, a sum, a fraction."""
_METRIC = r"(?P<unit>mm|cm)(?![\w²³/])"
_INCHES = r"[\s-]?(?:″|inches\b|inch\b|Zoll\b)"
_WAYS = (
    # 300 × 200 mm, 300 by 200 by 10 mm.
    rf"(?P<sides>(?:{NUMBER}\s?(?:×|x|by|mal)\s?){{1,2}}{NUMBER})\s?{_METRIC}",
    # 5 to 10 mm, 5–10 mm.
    rf"(?P<low>{NUMBER})(?:\s?[–-]\s?|\s(?:to|or|bis|oder)\s)(?P<high>{NUMBER})\s?{_METRIC}",
    rf"(?:(?<=between )|(?<=zwischen ))(?P<low>{NUMBER})\s(?:and|und)\s(?P<high>{NUMBER})"
    rf"\s?{_METRIC}",
    rf"(?P<one>{NUMBER})\s?{_METRIC}",
    # Metres only as guidegen writes them: an author's '5 m' is how much is sold.
    rf"(?P<one>{NUMBER})\u00a0(?P<unit>m)(?![\w²³/])",
    # 'in' is a word as well: it needs a fraction or a no-break space before it.
    rf"(?P<one>{_FRACTION})(?:{_INCHES}|\s(?P<unit>in)\b"
    r"(?!\s(?:the|each|a|an|this|that|every|one|both|all|place|order|der|die|das|den|dem)\b))",
    rf"(?P<one>{NUMBER})(?:{_INCHES}|\u00a0(?P<unit>in)\b)",
)
"""How lengths are written; of several ways that fit at one place, the first is meant."""
_NAME_OF_GROUP = re.compile(r"\(\?P<(\w+)>")
_NUMBERED = (_NAME_OF_GROUP.sub(rf"(?P<\g<1>{at}>", way) for at, way in enumerate(_WAYS))
_LENGTH = re.compile(f"{APART}(?:{'|'.join(_NUMBERED)})")
_COUNTED = re.compile(r"(?<!\w)\d+(?:[.,]\d+)?\s?(?:[,×x*&+/–-]|[^\W\d]{1,4})?\s$")
"""A number and a short word before a length: '3 × ', '3 at ', '5 and '. Either may be meant."""
_TWICE = re.compile(r"\s?[(/=]\s?")
LEAST_SIDE = 100
"""mm; from here on the first number of '300 × 200 mm' is no count. Our choice."""


def find_lengths(text: str) -> Iterator[Found]:
    """Every length that `text` is sure to speak of, from left to right."""
    matches = list(_LENGTH.finditer(text))
    # '20 mm (3/4 in)' says itself in both systems, and stays so.
    twice = {
        number
        for number, (one, other) in enumerate(pairwise(matches))
        if _TWICE.fullmatch(text, one.end(), other.start())
    }
    for number, match in enumerate(matches):
        if not {number - 1, number} & twice:
            yield from _lengths(text, match)


def _lengths(text: str, match: re.Match[str]) -> Iterator[Found]:
    parts = {name.rstrip("0123456789"): name for name, said in match.groupdict().items() if said}
    unit = match[parts["unit"]] if "unit" in parts else "in"
    if "sides" in parts:
        numbers = [
            (match.start(parts["sides"]) + number.start(), number[0])
            for number in re.finditer(NUMBER, match[parts["sides"]])
        ]
        if all(read_number(words) >= LEAST_SIDE for _, words in numbers[:2]):
            yield from _in_one_unit(numbers, match.end(), unit)
        elif text[match.end() - len(unit) - 1] == SPACE:
            # guidegen writes so how often one length is cut: only the last number is one.
            yield from _in_one_unit(numbers[-1:], match.end(), unit)
    elif "low" in parts:
        ends = [(match.start(parts[name]), match[parts[name]]) for name in ("low", "high")]
        yield from _in_one_unit(ends, match.end(), unit)
    elif SPACE in match[0][-3:] or not _COUNTED.search(
        text, max(0, match.start() - 16), match.start()
    ):
        mm = read_number(match[parts["one"]]) * MM_PER_UNIT[unit]
        yield Found(*match.span(), mm, unit)


def _in_one_unit(numbers: list[tuple[int, str]], end: int, unit: str) -> Iterator[Found]:
    """Lengths whose unit stands once, after the last, and ends at `end`."""
    *others, (last, words) = numbers
    for start, other in others:
        mm = read_number(other) * MM_PER_UNIT[unit]
        yield Found(start, start + len(other), mm, unit, bare=True)
    yield Found(last, end, read_number(words) * MM_PER_UNIT[unit], unit)


def read_number(words: str) -> float:
    """'2,5' and '1 3/4' as numbers."""
    whole, _, rest = words.replace(SPACE, " ").rpartition(" ")
    above, _, below = rest.partition("/")
    value = float(above.replace(",", ".")) / (float(below) if below else 1.0)
    return value + (float(whole) if whole else 0.0)
