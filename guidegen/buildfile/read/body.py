"""One reader's measurements in, from a file or from options → mm by measurement out."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from pathlib import Path

from guidegen.buildfile.read.mapping_file import read_mapping
from guidegen.buildfile.yaml.expressions import ExpressionError, parse_expression
from guidegen.problems import Place, Problem

OPTION = "--measure"
"""What stands for the file name in problems about options."""


@dataclass
class Body:
    """What was read, and what was wrong with it."""

    lengths: dict[str, float] = field(default_factory=dict)
    """mm by measurement."""
    problems: list[Problem] = field(default_factory=list)


def read_body(path: Path) -> Body:
    """A YAML file of measurements and lengths: `chest: 98 cm`, one to a line."""
    body = Body()
    expected = "measurements with lengths, such as chest: 98 cm"
    value, source = read_mapping(path, expected, body.problems)
    for name, length in value.items():
        try:
            body.lengths[name] = parse_expression(length).value({})
        except ExpressionError as error:
            body.problems.append(source.problem("arithmetic", (name,), str(error)))
    return body


def parse_measures(options: Iterable[str]) -> Body:
    """Options such as chest=98cm; a name given twice keeps the last length."""
    body = Body()
    for option in options:
        name, equals, length = option.partition("=")
        try:
            if not equals:
                raise ExpressionError("expected a measurement and a length, such as chest=98cm")
            body.lengths[name.strip()] = parse_expression(length).value({})
        except ExpressionError as error:
            place = Place(f"{OPTION} {option}")
            body.problems.append(Problem("arithmetic", place, "", str(error)))
    return body
