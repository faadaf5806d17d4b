"""The kinds of value that a build file holds: ids, quantities, durations."""

import re
import sys
from datetime import date
from typing import Annotated

from pydantic import (
    AfterValidator,
    BaseModel,
    BeforeValidator,
    ConfigDict,
    Field,
    PlainSerializer,
    WithJsonSchema,
)

from guidegen.buildfile.yaml.expressions import Expression, parse_expression


def _kebab(name: str) -> str:
    return name.replace("_", "-")


class Model(BaseModel):
    """Base of all records of a build file: frozen, keys in kebab case, unknown keys refused."""

    model_config = ConfigDict(
        frozen=True,
        extra="forbid",
        alias_generator=_kebab,
        populate_by_name=True,
        arbitrary_types_allowed=True,
        str_strip_whitespace=True,
        use_attribute_docstrings=True,
        strict=False,
        # A browser is handed records that press has checked: nothing there needs their validators,
        # and making those of all models takes seconds.
        defer_build=sys.platform == "emscripten",
    )


def _text(value: object) -> object:
    """A YAML number where a text is expected, such as a version 1.2, keeps its digits."""
    if isinstance(value, bool) or not isinstance(value, int | float):
        return value
    return getattr(value, "written", str(value))


Id = Annotated[
    str,
    BeforeValidator(_text),
    Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$", max_length=48),
]
"""Name that other values refer to, and part of addresses: lower case words with hyphens."""

SizeId = Annotated[
    str,
    BeforeValidator(_text),
    Field(pattern=r"^[A-Za-z0-9]+(-[A-Za-z0-9]+)*$", max_length=24),
]
"""Name of a size, such as XL or one-size."""

ValueName = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*$", max_length=40)]
"""Name in arithmetic: lower case words with underscores, since a hyphen would be a minus."""

Text = Annotated[str, BeforeValidator(_text), Field(min_length=1, max_length=20_000)]
"""Words for readers, CommonMark where the field says so."""

Line = Annotated[str, BeforeValidator(_text), Field(min_length=1, max_length=300)]
"""Words for readers in one line."""


def _real_date(text: str) -> str:
    """Refuse days that no calendar has."""
    try:
        date.fromisoformat(text)
    except ValueError:
        raise ValueError(f'expected a date such as 2026-11-30, found "{text}"') from None
    return text


DATE_PATTERN = r"^\d{4}-\d{2}-\d{2}$"

Date = Annotated[str, Field(pattern=DATE_PATTERN), AfterValidator(_real_date)]
"""A day as ISO 8601 writes it: year, month, day."""

Quantity = Annotated[
    Expression,
    BeforeValidator(parse_expression),
    PlainSerializer(str, return_type=str),
    WithJsonSchema(
        {
            "type": ["number", "string"],
            "description": "A number, a length with a unit (3/4 in, 60 cm), or arithmetic "
            "on measurements (calf + 20) and on other parts (edge(cuff, top) + 8).",
        }
    ),
]
"""A length in mm, an angle in degrees or a count, perhaps worked out from measurements."""

_DURATION = re.compile(
    r"(?:(?P<days>\d+(?:\.\d+)?)\s*d)?\s*(?:(?P<hours>\d+(?:\.\d+)?)\s*h)?"
    r"\s*(?:(?P<minutes>\d+(?:\.\d+)?)\s*min)?"
)


_MAX_DURATION = 40
"""Characters of a time. Our choice: with more, only blanks are left to try."""


def parse_duration(value: object) -> float:
    """Minutes from '5 min', '1 h 30 min', '2 d' or a number of minutes. Raises ValueError."""
    if isinstance(value, int | float) and not isinstance(value, bool):
        minutes = float(value)
    elif isinstance(value, str) and value.strip():
        words = value.strip()
        # The length comes first: a long run of blanks would keep the pattern trying for hours.
        match = _DURATION.fullmatch(words) if len(words) <= _MAX_DURATION else None
        if match is None:
            found = words[:_MAX_DURATION]
            raise ValueError(f'expected a time such as "5 min" or "1 h 30 min", found "{found}"')
        minutes = (
            float(match["days"] or 0) * 1440
            + float(match["hours"] or 0) * 60
            + float(match["minutes"] or 0)
        )
    else:
        raise ValueError('expected a time such as "5 min" or "1 h 30 min"')
    if not 0 <= minutes <= 60 * 24 * 60:
        raise ValueError("expected a time between 0 and 60 days")
    return minutes


Duration = Annotated[
    float,
    BeforeValidator(parse_duration),
    WithJsonSchema(
        {
            "type": ["number", "string"],
            "description": "Minutes, or a time such as '5 min', '1 h 30 min', '2 d'.",
        }
    ),
]
"""A time in minutes."""
