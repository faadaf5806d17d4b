"""A file of the people of a class in → names, each with a size or with measurements of their own.

Robin: M
Kim: {forearm: 26 cm, wrist: 165}
"""

import unicodedata
from collections.abc import Collection, Mapping
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


@dataclass(frozen=True, slots=True)
class Listed:
    """Somebody of the file."""

    name: str
    size: str
    """Empty for own measurements."""
    body: Mapping[str, float]
    """mm by measurement; empty for a size."""
    place: Place


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
    shown = " ".join(name.split())
    if (
        not shown
        or len(shown) > MOST_LETTERS
        or any(unicodedata.category(letter) in {"Cc", "Cf", "Co", "Cs"} for letter in shown)
    ):
        message = f"expected a name of at most {MOST_LETTERS} letters, without control characters"
        yield source.problem("out-of-range", (name,), message, key=True)
        return None
    place = source.place((name,))
    if isinstance(given, dict):
        body = yield from _read_body(name, given, source)
        return Listed(shown, "", body, place)
    size = getattr(given, "written", str(given))
    if size not in sizes:
        message = f'there is no size "{size}"{did_you_mean(size, sizes)}'
        yield source.problem("unknown-name", (name,), message)
    return Listed(shown, size, {}, place)


def _read_body(name: str, given: dict[str, Value], source: Source) -> Checked[dict[str, float]]:
    body: dict[str, float] = {}
    for measurement, length in given.items():
        trail: Trail = (name, measurement)
        try:
            body[measurement] = parse_expression(length).value({})
        except ExpressionError as error:
            yield source.problem("arithmetic", trail, str(error))
    if not given:
        message = "expected a size, or measurements such as {forearm: 26 cm}"
        yield source.problem("not-a-mapping", (name,), message)
    return body
