"""Records in → JSON out, and back: frozen dataclasses and models of build files, whole.

Read back without checking: what press wrote was checked when it was read from its files. The same
records give the same text. A record of any module but guidegen's own is refused, both ways.
"""

import json
import sys
from collections.abc import Callable, Mapping
from dataclasses import fields, is_dataclass
from enum import Enum
from typing import cast

from pydantic import BaseModel

from guidegen.buildfile.yaml.expressions import Expression, parse_expression
from guidegen.words import Foreign

OWN = "guidegen."
"""Beginning of the names of modules whose records are packed."""


def pack(record: object) -> str:
    """A record as JSON. Raises TypeError for a value that it cannot hold."""
    packer = _Packer()
    data = packer.value(record)
    whole = {"classes": packer.classes, "record": data}
    return json.dumps(whole, ensure_ascii=False, separators=(",", ":"))


def unpack(text: str) -> object:
    """The record of a text that `pack` wrote. Raises TypeError for one that it did not write."""
    whole = json.loads(text)
    return _Unpacker([_class_of(*name.split(":")) for name in whole["classes"]]).value(
        whole["record"]
    )


def _class_of(module: str, name: str) -> type:
    if not module.startswith(OWN):
        raise TypeError(f"a record of {module} is not ours")
    # Only what is loaded already: a text makes nothing be imported.
    found = getattr(sys.modules.get(module), name, None)
    if not isinstance(found, type) or not (is_dataclass(found) or issubclass(found, _KINDS)):
        raise TypeError(f"{module}:{name} is no record")
    return found


_KINDS = (BaseModel, Enum)

_LISTS: dict[str, Callable[[list[object]], object]] = {
    "l": list,
    "t": tuple,
    "s": set,
    "f": frozenset,
}


class _Packer:
    """Values as JSON has them; all others are lists that begin with a letter for their kind."""

    def __init__(self) -> None:
        self.classes: list[str] = []

    def value(self, value: object) -> object:
        kind = type(value)
        if value is None or kind in {bool, int, float, str}:
            return value
        if kind is list or kind is tuple:
            return ["l" if kind is list else "t", *map(self.value, cast("list[object]", value))]
        if kind is set or kind is frozenset:
            # Sorted: the order of a set is that of its hashes, which change.
            found = sorted(cast("set[object]", value), key=str)
            return ["s" if kind is set else "f", *map(self.value, found)]
        if isinstance(value, Mapping):
            pairs: list[object] = [part for pair in value.items() for part in pair]
            return ["d", *map(self.value, pairs)]
        if isinstance(value, Expression):
            return ["n", value.text]
        if isinstance(value, Foreign):
            return ["w", str(value), value.language]
        if isinstance(value, Enum):
            return ["e", self._class(kind), value.name]
        if isinstance(value, int | str):
            # Numbers that remember how they were written do so for their author alone.
            return int(value) if isinstance(value, int) else str(value)
        return self._record(value)

    def _record(self, value: object) -> object:
        kind = type(value)
        if isinstance(value, BaseModel):
            names = kind.__pydantic_fields__  # type: ignore[attr-defined] # of every model
            given = sorted(value.model_fields_set)
            held: list[object] = [[name, self.value(getattr(value, name))] for name in names]
            return ["m", self._class(kind), given, *held]
        if is_dataclass(value):
            parts = [self.value(getattr(value, one.name)) for one in fields(value)]
            return ["r", self._class(kind), *parts]
        raise TypeError(f"a {kind.__name__} cannot be packed")

    def _class(self, kind: type) -> int:
        name = f"{kind.__module__}:{kind.__name__}"
        _class_of(kind.__module__, kind.__name__)
        if name not in self.classes:
            self.classes.append(name)
        return self.classes.index(name)


class _Unpacker:
    def __init__(self, classes: list[type]) -> None:
        self._classes = classes

    def value(self, data: object) -> object:
        if not isinstance(data, list):
            return data
        letter, *rest = data
        if letter in _LISTS:
            return _LISTS[letter]([self.value(one) for one in rest])
        match letter:
            case "d":
                parts = [self.value(one) for one in rest]
                return dict(zip(parts[::2], parts[1::2], strict=True))
            case "n":
                return parse_expression(rest[0])
            case "w":
                return Foreign(*rest)
            case "e":
                return cast("type[Enum]", self._classes[rest[0]])[rest[1]]
            case "m":
                kind, given, *held = rest
                values = {name: self.value(one) for name, one in held}
                return cast("type[BaseModel]", self._classes[kind]).model_construct(
                    _fields_set=set(given), **values
                )
            case "r":
                return self._dataclass(self._classes[rest[0]], rest[1:])
        raise TypeError(f"{letter!r} is no kind of value")

    def _dataclass(self, kind: type, held: list[object]) -> object:
        made: object = object.__new__(kind)
        for one, data in zip(fields(kind), held, strict=True):
            # Frozen records are set as their own class sets them.
            object.__setattr__(made, one.name, self.value(data))
        return made
