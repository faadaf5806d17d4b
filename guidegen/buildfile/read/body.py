"""One reader's measurements in, from a file or from options → mm by measurement out."""

from collections.abc import Iterable
from pathlib import Path

from guidegen.buildfile.read.mapping_file import read_mapping
from guidegen.buildfile.yaml.expressions import ExpressionError, parse_expression
from guidegen.problems import Checked, Place, Problem

OPTION = "--measure"
"""What stands for the file name in problems about options."""


def read_body(path: Path) -> Checked[dict[str, float]]:
    """A YAML file of measurements and lengths: `chest: 98 cm`, one to a line."""
    expected = "measurements with lengths, such as chest: 98 cm"
    value, source = yield from read_mapping(path, expected)
    lengths = {}
    for name, length in value.items():
        try:
            lengths[name] = parse_expression(length).value({})
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
            lengths[name.strip()] = parse_expression(length).value({})
        except ExpressionError as error:
            yield Problem("arithmetic", Place(f"{OPTION} {option}"), "", str(error))
    return lengths
