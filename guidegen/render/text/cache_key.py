"""Records that a template is given in → their text, the same where the template sees the same.

The text is not for reading: it is what the key of a page is made of. A record of a kind that is not
known here has no text, and what shows it is made every time.
"""

import ast
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from types import MappingProxyType

from guidegen.words import Words

_PLAIN = (int, float, bool, bytes, type(None))
_ROWS = (tuple, list)


class NotKnownError(TypeError):
    """A value that this module cannot write."""


type Unspoken = Mapping[type, Collection[str]]
"""Fields of records that are left out, such as the words that a picture does not show."""


def shown_text(value: object, without: Unspoken = MappingProxyType({})) -> str:
    """A value with all that it holds but fields `without`, as text. Raises NotKnownError.

    Each text stands with its length before it, so that none is taken for another.
    """
    return "".join(_written(value, without))


def words_text(words: Words) -> str:
    """How a language says things, as text."""
    return shown_text((words.language, words.plural, words.texts))


def _written(value: object, without: Unspoken) -> Iterator[str]:
    kind = type(value)
    if kind in _PLAIN:
        yield f"{kind.__name__} {value!r};"
    elif isinstance(value, Enum):
        yield f"{kind.__module__}.{kind.__qualname__}.{value.name};"
    elif isinstance(value, str | float):
        yield from _said(value, without)
    elif isinstance(value, ast.AST):
        yield f"{ast.dump(value, include_attributes=True)};"
    elif isinstance(value, tuple | list) and kind in _ROWS:
        yield from _row(kind.__name__, value, without)
    elif isinstance(value, frozenset | set):
        yield from _row("set", sorted(shown_text(one, without) for one in value), without)
    elif isinstance(value, Mapping):
        yield from _row("map", value.items(), without)
    else:
        yield from _record(value, without)


def _said(value: str | float, without: Unspoken) -> Iterator[str]:
    """A text, or one of ours that knows more: its language, its length in mm."""
    kind = type(value)
    text = str(value) if isinstance(value, str) else repr(float(value))
    yield f"{kind.__qualname__} {len(text)} {text}"
    if hasattr(value, "__dict__"):
        raise NotKnownError(kind)
    own = () if kind is str else getattr(kind, "__slots__", ())
    for name in (own,) if isinstance(own, str) else own:
        yield from _written(getattr(value, name), without)


def _row(kind: str, values: Iterable[object], without: Unspoken) -> Iterator[str]:
    yield f"{kind}("
    for one in values:
        yield from _written(one, without)
    yield ")"


def _record(value: object, without: Unspoken) -> Iterator[str]:
    """A record by its fields; properties and methods give what follows from them."""
    kind = type(value)
    if is_dataclass(value) and not isinstance(value, type):
        names = [field.name for field in fields(value)]
    elif hasattr(kind, "model_fields"):  # a part of a build file, which allows no other fields
        names = [*kind.model_fields]
    else:
        raise NotKnownError(kind)
    yield f"{kind.__module__}.{kind.__qualname__}("
    for name in names:
        if name in without.get(kind, ()):
            continue
        yield name
        yield "="
        yield from _written(getattr(value, name), without)
    yield ")"
