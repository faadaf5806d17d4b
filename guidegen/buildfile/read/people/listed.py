"""A file of the people of a class in → names, each with a size or with measurements of their own.

Robin: M
Kim: {forearm: 26 cm, wrist: 165}
Alex: {size: M, age: 14, brings: [heat-gun, craft-knife=2]}
"""

import re
import unicodedata
from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from guidegen.buildfile.read.mapping_file import read_mapping
from guidegen.buildfile.yaml.expressions import ExpressionError, parse_expression
from guidegen.buildfile.yaml.tree import Source, Trail, Value
from guidegen.problems import Checked, Place, did_you_mean

MOST_PEOPLE = 60
"""People of one class. Our choice: bounds the time that nesting takes."""
MOST_LETTERS = 60
"""Letters of a name. Our choice: what a heading takes."""
MOST_BROUGHT = 12
"""Things that one person brings. Our choice: two lines of a sheet."""
OF_AGE = 18
"""Years from which somebody is an adult here: that of most laws; local rules come first."""
OLDEST = 120
"""years. Our choice."""


@dataclass(frozen=True, slots=True)
class Listed:
    """Somebody of the file."""

    name: str
    size: str
    """Empty for own measurements."""
    body: Mapping[str, float]
    """mm by measurement; empty for a size."""
    place: Place
    young: bool = False
    """Whether the age in the file is below that of adults."""
    brings: tuple[str, ...] = ()
    """Tools, such as heat-gun or craft-knife=2, and what else somebody brings, in words."""


def read_people(path: Path, sizes: Collection[str]) -> Checked[list[Listed]]:
    """A YAML file of names, each with one of `sizes` or with measurements in a mapping."""
    value, source = yield from read_mapping(path, "names with sizes, such as Robin: M")
    if len(value) > MOST_PEOPLE:
        message = f"{len(value)} people are too many for one class; at most {MOST_PEOPLE}"
        yield source.problem("out-of-range", (), message)
        return []
    people = []
    for name, given in value.items():
        person = yield from _read_person(name, given, source, sizes)
        if person is not None:
            people.append(person)
    return people


def _read_person(
    name: str, given: Value, source: Source, sizes: Collection[str]
) -> Checked[Listed | None]:
    shown = name_of(name)
    if not shown:
        yield source.problem("out-of-range", (name,), NO_NAME, key=True)
        return None
    place = source.place((name,))
    young = False
    if isinstance(given, dict):
        young = yield from _read_age(name, given, source)
        brings = brought(_written(one) for one in _list(given.get("brings")))
        if brings is None:
            yield source.problem("out-of-range", (name, "brings"), NO_THINGS)
        given = {key: value for key, value in given.items() if key not in {"age", "brings"}}
        if set(given) == {"size"}:
            place = source.place((name, "size"))
            size = _written(given["size"])
            if size not in sizes:
                message = f'there is no size "{size}"{did_you_mean(size, sizes)}'
                yield source.problem("unknown-name", (name, "size"), message)
            return Listed(shown, size, {}, place, young, brings or ())
        body = yield from _read_body(name, given, source)
        return Listed(shown, "", body, place, young, brings or ())
    size = _written(given)
    if size not in sizes:
        message = f'there is no size "{size}"{did_you_mean(size, sizes)}'
        yield source.problem("unknown-name", (name,), message)
    return Listed(shown, size, {}, place)


NO_NAME = f"expected a name of at most {MOST_LETTERS} letters, without control characters"


NO_THINGS = f"expected at most {MOST_BROUGHT} things, each of at most {MOST_LETTERS} letters"


def brought(written: Iterable[str]) -> tuple[str, ...] | None:
    """Things from texts that list them with commas or semicolons; None where one is none."""
    found = [one for text in written for one in re.split("[,;]", text) if one.strip()]
    named = tuple(name_of(one) for one in found)
    return None if len(named) > MOST_BROUGHT or not all(named) else named


def _list(value: Value) -> list[Value]:
    """One thing stands for a list of one."""
    if value is None:
        return []
    return value if isinstance(value, list) else [value]


def name_of(written: str) -> str:
    """A name with single spaces; empty where it is none."""
    shown = " ".join(written.split())
    hidden = any(unicodedata.category(letter) in {"Cc", "Cf", "Co", "Cs"} for letter in shown)
    return "" if hidden or len(shown) > MOST_LETTERS else shown


def _written(value: Value) -> str:
    return str(getattr(value, "written", value))


def _read_age(name: str, given: dict[str, Value], source: Source) -> Checked[bool]:
    """Whether an age is given that is below that of adults. The age itself is not kept."""
    if "age" not in given:
        return False
    years = age_of(_written(given["age"]))
    if years is None:
        message = f"expected an age in whole years, at most {OLDEST}"
        yield source.problem("out-of-range", (name, "age"), message)
    return years is not None and years < OF_AGE


def age_of(written: str) -> int | None:
    """Whole years; None where it is no age."""
    if not (written.isascii() and written.isdigit()):
        return None
    years = int(written[:4])
    return years if 0 < years <= OLDEST else None


def _read_body(name: str, given: dict[str, Value], source: Source) -> Checked[dict[str, float]]:
    body: dict[str, float] = {}
    for measurement, length in given.items():
        if measurement == "size":
            continue  # told below: a size and measurements contradict each other
        trail: Trail = (name, measurement)
        try:
            body[measurement] = parse_expression(length).value({})
        except ExpressionError as error:
            yield source.problem("arithmetic", trail, str(error))
    if not given or "size" in given:
        message = "expected a size, or measurements such as {forearm: 26 cm}"
        yield source.problem("not-a-mapping", (name,), message)
    return body
