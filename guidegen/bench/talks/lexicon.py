"""A stock in → the phrases by which a talk may name its things, each with all that it may mean."""

import re
from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

from guidegen.buildfile.records.materials import Material
from guidegen.buildfile.records.stock import Process, Stock, Tool

type EntryKind = Literal["material", "tool", "process"]

_NUMBERS = {
    word: number
    for number, words in {
        1: "one a an", 2: "two", 3: "three", 4: "four", 5: "five", 6: "six", 7: "seven", 8: "eight",
        9: "nine", 10: "ten", 12: "twelve", 15: "fifteen", 16: "sixteen", 18: "eighteen",
        20: "twenty", 25: "twentyfive", 30: "thirty", 40: "forty", 50: "fifty", 100: "hundred",
    }.items()
    for word in words.split()
}  # fmt: skip
_TENS = {"twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "eighty": 80}
_PARTS = {"half": 0.5, "quarter": 0.25, "eighth": 0.125}
_UNITS = {
    "mm": 1.0, "mil": 1.0, "mill": 1.0, "mils": 1.0, "millimetre": 1.0, "millimeter": 1.0,
    "cm": 10.0, "centimetre": 10.0, "centimeter": 10.0, "grit": 1.0, "inch": 25.4,
}  # fmt: skip
"""mm of a unit as it is said; the grit of an abrasive is no length, but is said the same way."""


@dataclass(frozen=True, slots=True)
class Meant:
    """Something of the stock that a phrase may mean."""

    kind: EntryKind
    id: str

    @property
    def family(self) -> str:
        """The id up to its size: things of one family differ by size alone."""
        return re.split(r"-\d", self.id)[0]


@dataclass(frozen=True)
class Lexicon:
    """Phrases, and what each may mean."""

    things: Mapping[tuple[str, ...], frozenset[Meant]]
    """Of materials and tools: words as they are said, in one and in several."""
    work: Mapping[tuple[str, ...], frozenset[Meant]]
    """Of kinds of work: words without the endings of verbs."""
    called: Mapping[tuple[str, ...], frozenset[Meant]]
    """Of the things, phrases that mean them where no more is said: their name, their other words
    and the first of their spoken words."""
    sizes: Mapping[Meant, frozenset[float]]
    """mm by which things of one name differ: thickness, width, grit."""
    tools: Mapping[str, frozenset[str]]
    """Ids of the tools that a kind of work needs."""
    cautions: Mapping[Meant, frozenset[str]]
    """Ids of the cautions of each thing, by which glues and gluing belong together."""

    @cached_property
    def longest(self) -> int:
        """Words of the longest phrase."""
        return max(map(len, (*self.things, *self.work)), default=0)

    def of_size(self, size: float) -> frozenset[Meant]:
        """Things of families that differ by size, of this size in mm or this grit."""
        several = Counter(named.family for named in self.sizes if named.kind == "material")
        return frozenset(
            named
            for named, own in self.sizes.items()
            if named.kind == "material" and several[named.family] > 1 and size in own
        )


def words_of(text: str) -> list[str]:
    """A text as plain words in small letters; figures stand alone, apostrophes are left out."""
    return re.findall(r"\d+(?:\.\d+)?|[a-z]+", text.lower().replace("'", "").replace("\u2019", ""))


def plain(word: str) -> str:
    """A word without the endings that speech changes: clamps, clamped, clamping → clamp."""
    for ending, least in (("ing", 6), ("ed", 5)):
        if word.endswith(ending) and len(word) >= least:
            word = word[: -len(ending)]
            if len(word) > 3 and word[-1] == word[-2] and word[-1] not in "ls":
                word = word[:-1]
            break
    if len(word) > 3 and word.endswith("s") and not word.endswith(("ss", "us")):
        word = word[:-1]
    return word[:-1] if len(word) > 3 and word.endswith("e") else word


def make_lexicon(stock: Stock) -> Lexicon:
    """The phrases of all materials, tools and kinds of work."""
    names: dict[tuple[str, ...], set[Meant]] = {}
    things: dict[tuple[str, ...], set[Meant]] = {}
    work: dict[tuple[str, ...], set[Meant]] = {}
    called: dict[tuple[str, ...], set[Meant]] = {}
    sizes: dict[Meant, frozenset[float]] = {}
    cautions: dict[Meant, frozenset[str]] = {}
    tables: tuple[tuple[EntryKind, Mapping[str, Material | Tool | Process]], ...] = (
        ("material", stock.materials), ("tool", stock.tools), ("process", stock.processes),
    )  # fmt: skip
    for kind, table in tables:
        for id_, entry in table.items():
            named = Meant(kind, id_)
            sizes[named] = _sizes_of(id_, entry.name)
            cautions[named] = frozenset(entry.cautions)
            if kind == "process":
                for phrase in (*entry.also, *entry.spoken):
                    work.setdefault(tuple(map(plain, words_of(phrase))), set()).add(named)
                continue
            for phrase in _names(entry):
                _keep(names, phrase, named)
            for phrase in entry.spoken:
                _keep(things, phrase, named)
            for phrase in (*_names(entry), *entry.spoken[:1]):
                _keep(called, phrase, named)
    needs = {name: frozenset(process.tools) for name, process in stock.processes.items()}
    # What is written for talks goes before names and words for searching: those are wider.
    return Lexicon(
        _frozen({**names, **things}), _frozen(work), _frozen(called), sizes, needs, cautions
    )


def _sizes_of(id_: str, name: str) -> frozenset[float]:
    """Sizes of a thing whose id has one: those of the id, and mm of its name (a rivet's post)."""
    own = re.findall(r"\d+", id_)
    told = re.findall(r"(\d+(?:\.\d+)?) mm", name) if own else []
    return frozenset(float(one) for one in (*own, *told))


def _keep(phrases: dict[tuple[str, ...], set[Meant]], phrase: str, named: Meant) -> None:
    """A phrase in one and in several; "glue gun" as "gluegun" too, as recognisers write it."""
    if "'s " in phrase:
        _keep(phrases, phrase.replace("'s ", " s "), named)
    words = words_of(phrase)
    for key in _in_one_and_several(words):
        phrases.setdefault(key, set()).add(named)
        if len(key) == 2 and len(key[0] + key[1]) > 6:
            phrases.setdefault(("".join(key),), set()).add(named)


def _frozen(
    phrases: Mapping[tuple[str, ...], set[Meant]],
) -> dict[tuple[str, ...], frozenset[Meant]]:
    return {key: frozenset(found) for key, found in phrases.items() if key}


def _names(entry: Material | Tool | Process) -> Iterable[str]:
    """How an entry is called: by its name up to the first detail, and by its other words."""
    yield from entry.also
    head = re.split(r"[,(]| with | for | to | of | over ", entry.name)[0]
    # A name of one word, such as Scissors or Blades, is said in many senses: then `spoken` decides.
    yield from (one for one in head.split(" or ") if not entry.spoken or " " in one.strip())


def _in_one_and_several(words: list[str]) -> Iterable[tuple[str, ...]]:
    """A phrase as it stands, and in several. A single word that stands in several is only meant so:
    pins are a thing, to pin is work. A tin with a lid is the tin with the lid as well.
    """
    if {"a", "an"} & {*words[1:]}:
        definite = ["the" if word in {"a", "an"} else word for word in words[1:]]
        yield from _in_one_and_several([words[0], *definite])
    yield tuple(words)
    last = words[-1] if words else ""
    if last.endswith("s") and len(words) > 1 and not last.endswith("ss"):
        yield (*words[:-1], last[:-1])
    elif last.endswith("y") and last[-2:-1] not in {"a", "e", "o", "u"}:
        yield (*words[:-1], f"{last[:-1]}ies")
    elif last.endswith(("sh", "ch", "x")):
        yield (*words[:-1], f"{last}es")
    elif last and not last.endswith("s"):
        yield (*words[:-1], f"{last}s")


def length_at(words: list[str], at: int) -> tuple[float, int] | None:
    """A length that is said from a word on, in mm, and how many words say it; None for none."""
    if (broken := _broken(words, at)) is not None:
        return broken
    if words[at] in _PARTS:
        # "half an inch", "quarter of an inch", "half inch"
        for skipped in range(1, 4):
            unit = words[at + skipped] if at + skipped < len(words) else ""
            if unit in {"inch", "cm", "centimetre", "centimeter"}:
                return _PARTS[words[at]] * _UNITS[unit], skipped + 1
            if unit not in {"of", "a", "an"}:
                return None
    number, used = _number(words, at)
    if number is None:
        # "Inch webbing" is one inch wide.
        return (25.4, 1) if words[at] == "inch" else None
    unit = words[at + used] if at + used < len(words) else ""
    singular = unit[:-1] if unit not in _UNITS and unit.endswith("s") else unit
    if singular in _UNITS:
        return number * _UNITS[singular], used + 1
    return None


def _broken(words: list[str], at: int) -> tuple[float, int] | None:
    """A length of a whole and a part: "an inch and a half", "two and a half mil", "three quarter
    inch"; None for another."""
    said = " ".join(words[at : at + 7])
    for pattern in _BROKEN:
        found = pattern.match(said)
        if found is None:
            continue
        whole, _ = _number(words, at)
        unit = _UNITS.get(found["unit"].removesuffix("s"), _UNITS.get(found["unit"]))
        if whole is None or unit is None:
            return None
        part = _PARTS[found["part"].removesuffix("s")]
        used = len(found[0].split())
        return (whole * part if found["times"] else whole + part) * unit, used
    return None


_BROKEN = tuple(
    re.compile(pattern)
    for pattern in (
        r"\w+ (?P<unit>[a-z]+) and an? (?P<part>half|quarter)\b(?P<times>)",
        r"\w+ and an? (?P<part>half|quarter) (?P<unit>[a-z]+)\b(?P<times>)",
        r"\w+(?P<times> )(?P<part>quarters?|eighths?) (?:of an )?(?P<unit>inch)\b",
    )
)
"""Ways to say a broken length."""


def number_at(words: list[str], at: int) -> tuple[float | None, int]:
    """A number that is said from a word on, and how many words say it; "a" and "an" are none."""
    return (None, 0) if words[at] in {"a", "an"} else _number(words, at)


def _number(words: list[str], at: int) -> tuple[float | None, int]:
    word = words[at]
    after = words[at + 1] if at + 1 < len(words) else ""
    if re.fullmatch(r"\d+(\.\d+)?", word):
        return float(word), 1
    # "one twenty grit", "two forty", "hundred and twenty"
    if word in {"one", "two"} and after in _TENS:
        return (2 if word == "two" else 1) * 100.0 + _TENS[after], 2
    if word in _TENS and after in _NUMBERS and 0 < _NUMBERS[after] < 10:
        return _TENS[word] + float(_NUMBERS[after]), 2
    if after == "hundred" and word in _NUMBERS:
        rest = words[at + 2 : at + 4]
        tens = next((_TENS[one] for one in rest if one in _TENS), 0)
        return _NUMBERS[word] * 100.0 + tens, 2 + (
            rest.index(next(w for w in rest if w in _TENS)) + 1 if tens else 0
        )
    if word == "hundred":
        behind = at + (2 if after == "and" else 1)
        if behind < len(words) and words[behind] in _TENS:
            return 100.0 + _TENS[words[behind]], behind - at + 1
        return 100.0, 1
    number = _TENS.get(word, _NUMBERS.get(word))
    return (None, 0) if number is None else (float(number), 1)
