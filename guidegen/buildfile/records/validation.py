"""Plain values and their places in → a typed record, or problems in the author's words."""

from collections.abc import Iterator
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from guidegen.buildfile.yaml.fields import Model
from guidegen.buildfile.yaml.tree import Source, Trail, Value
from guidegen.problems import Problem, did_you_mean

MAX_PROBLEMS = 200
"""Problems told of one file. Our choice: nobody reads more."""


def validate[M: Model](
    model: type[M], value: Value, source: Source
) -> tuple[M | None, list[Problem]]:
    """A record of `model`, or None and every problem that was found."""
    if not isinstance(value, dict):
        return None, [source.problem("not-a-mapping", (), "expected keys with values")]
    try:
        return model.model_validate(value), []
    except ValidationError as error:
        details = error.errors(include_url=False)[:MAX_PROBLEMS]
        return None, [_problem(model, detail, source) for detail in details]


def _problem(model: type[Model], detail: ErrorDetails, source: Source) -> Problem:
    trail, is_key = _trail(detail["loc"])
    kind = detail["type"]
    if kind == "missing":
        return source.problem("missing-key", trail[:-1], f'needs the key "{trail[-1]}"')
    if kind == "extra_forbidden":
        name = str(trail[-1])
        hint = did_you_mean(name, _field_names(model, trail[:-1]))
        return source.problem("unknown-key", trail, f'no key "{name}" here{hint}', key=True)
    return source.problem("bad-value", trail, _words(detail), key=is_key)


def _trail(loc: tuple[int | str, ...]) -> tuple[Trail, bool]:
    """A trail of keys from pydantic's location, and whether the key itself is wrong."""
    is_key = bool(loc) and loc[-1] == "[key]"
    return tuple(step for step in loc if step != "[key]"), is_key


def _words(detail: ErrorDetails) -> str:
    """The message in plain words; `found` shows what stands there where that helps."""
    context = detail.get("ctx", {})
    found = _found(detail["input"])
    match detail["type"]:
        case "value_error":
            return str(context.get("error", detail["msg"]))
        case "enum" | "literal_error":
            expected = str(context.get("expected", ""))
            choices = [word.strip("'") for word in expected.replace(" or ", ", ").split(", ")]
            return f"expected one of {', '.join(choices)}{found}{_near(detail['input'], choices)}"
        case "string_pattern_mismatch":
            return f"{_pattern_words(str(context.get('pattern', '')))}{found}"
        case "string_type":
            return f"expected a text{found}"
        case "string_too_short" | "too_short":
            return "expected something here, found nothing"
        case "too_long" if not isinstance(detail["input"], str):
            return f"expected at most {context.get('max_length')} entries"
        case "string_too_long" | "too_long":
            return f"longer than {context.get('max_length')} characters"
        case "tuple_type":
            return f"expected a list{found}"
        case "dict_type" | "model_type":
            return f"expected keys with values{found}"
        case _:
            message = detail["msg"]
            return f"{message[:1].lower()}{message[1:].replace('Input', 'value')}{found}"


def _near(value: object, choices: list[str]) -> str:
    hint = did_you_mean(str(value), choices) if isinstance(value, str) else ""
    return hint if "did you mean" in hint else ""


def _pattern_words(pattern: str) -> str:
    if pattern.startswith("^[a-z0-9]+"):
        return "expected lower case words with hyphens, such as shoulder-cap"
    if pattern.startswith("^[A-Za-z0-9]+"):
        return "expected letters and digits with hyphens, such as XL"
    if pattern.startswith("^[a-z][a-z0-9_]"):
        return "expected lower case words with underscores, such as upper_arm"
    if "\\d{4}" in pattern:
        return "expected a date such as 2026-11-25"
    if pattern.startswith("^https"):
        return "expected an address that starts with https:// and ends with a slash"
    return f"expected a text of the form {pattern}"


def _found(value: object) -> str:
    if isinstance(value, dict):
        return ", found keys with values"
    if isinstance(value, list | tuple):
        return ", found a list"
    text = str(value)
    return f', found "{text if len(text) <= 40 else text[:37] + "…"}"'


def _field_names(model: type[Model], trail: Trail) -> list[str]:
    """Names of the keys that the record at `trail` may have."""
    kind: Any = model
    for step in trail:
        kind = next(_inside(kind, step), None)
        if kind is None:
            return []
    record = _record(kind)
    return [info.alias or name for name, info in record.model_fields.items()] if record else []


def _inside(kind: Any, step: str | int) -> Iterator[Any]:  # noqa: ANN401 - a type annotation
    """The annotation one step further down."""
    record = _record(kind)
    if record is not None:
        for name, info in record.model_fields.items():
            if (info.alias or name) == step:
                yield info.annotation
        return
    for part in _alternatives(kind):
        if get_origin(part) in {dict, tuple}:
            arguments = get_args(part)
            yield arguments[1] if get_origin(part) is dict else arguments[0]


def _record(kind: Any) -> type[Model] | None:  # noqa: ANN401 - a type annotation
    for part in _alternatives(kind):
        if isinstance(part, type) and issubclass(part, Model):
            return part
    return None


def _alternatives(kind: Any) -> Iterator[Any]:  # noqa: ANN401 - a type annotation
    """The members of a union, annotations taken off."""
    if get_origin(kind) is Annotated:
        yield from _alternatives(get_args(kind)[0])
    elif get_origin(kind) in {Union, UnionType}:
        for part in get_args(kind):
            yield from _alternatives(part)
    else:
        yield kind
