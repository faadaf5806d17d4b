"""One reader's measurements in, from a file or from options → mm by measurement out."""

import re
from collections.abc import Iterable
from pathlib import Path

from guidegen.buildfile.read.mapping_file import read_mapping
from guidegen.buildfile.yaml.expressions import ExpressionError, parse_expression
from guidegen.buildfile.yaml.tree import Value
from guidegen.problems import Checked, Place, Problem

OPTION = "--measure"
"""What stands for the file name in problems about options."""

TWO_SIDES = re.compile(
    r"\d\s*[a-z\"]*\s*(?:;|&|,\s|\band\b|/\s*(?=[2-9]\d|1\d\d))\s*\d", re.IGNORECASE
)
"""Two lengths where one is wanted, as of arms that differ: 28.5 cm and 30 cm, 285/310. Nobody
divides a length by twenty or more; 28,5 is one number."""
COMMA = re.compile(r"(\d+),(\d{1,2})(\s*[a-z\"]*)", re.IGNORECASE)
"""A length as many languages write it."""


def read_body(path: Path) -> Checked[dict[str, float]]:
    """A YAML file of measurements and lengths: `chest: 98 cm`, one to a line."""
    expected = "measurements with lengths, such as chest: 98 cm"
    value, source = yield from read_mapping(path, expected)
    lengths = {}
    for name, length in value.items():
        try:
            lengths[name] = _length(length)
        except ExpressionError as error:
            yield source.problem("arithmetic", (name,), str(error))
    return lengths


def parse_measures(options: Iterable[str]) -> Checked[dict[str, float]]:
    """Options such as chest=98cm; a name given twice keeps the last length."""
    lengths = {}
    for option in options:
        name, equals, length = option.partition("=")
        try:
            if not equals:
                raise ExpressionError("expected a measurement and a length, such as chest=98cm")
            lengths[name.strip()] = _length(length)
        except ExpressionError as error:
            yield Problem("arithmetic", Place(f"{OPTION} {option}"), "", str(error))
    return lengths


def _length(given: Value) -> float:
    """mm of a length as typed. Raises ExpressionError."""
    text = given if isinstance(given, str) else ""
    if isinstance(given, list) or TWO_SIDES.search(text):
        raise ExpressionError(
            f'"{str(given).strip()}" is two lengths, expected one: a guide that measures both '
            "sides asks for each by its name; for any other, where left and right differ, make the "
            "pack twice, once with the lengths of each side, and take its pieces from each"
        )
    if comma := COMMA.fullmatch(text.strip()):
        raise ExpressionError(
            f'"{text.strip()}" has a comma: write {comma[1]}.{comma[2]}{comma[3]}'
        )
    return parse_expression(given).value({})
