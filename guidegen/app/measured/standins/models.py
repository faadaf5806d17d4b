"""The part of Pydantic that records of a checked build file still need in a browser.

A browser is handed records that press has read and checked, as `packed.py` wrote them: nothing is
validated there. What is left are frozen records that know their fields, are copied with changes,
compared and shown. Names and meaning are Pydantic's.
"""

from collections.abc import Callable, Mapping
from typing import Annotated, Any, Self, get_args, get_origin, get_type_hints


class Marked:
    """What a field's type or default says beside its kind: limits, patterns, an alias."""

    def __init__(self, *_: object, **said: Any) -> None:  # noqa: ANN401 - Pydantic's own options
        self.pattern: str | None = said.get("pattern")
        self.alias: str | None = said.get("alias")


Field = AfterValidator = BeforeValidator = PlainSerializer = WithJsonSchema = Marked


class FieldInfo:
    """One field of a model."""

    def __init__(self, kind: Any, default: object, alias: str) -> None:  # noqa: ANN401 - any annotation
        whole = get_args(kind) if get_origin(kind) is Annotated else (kind,)
        said = (default,) if isinstance(default, Marked) else ()
        self.annotation, self.metadata = whole[0], [*whole[1:], *said]
        own = next((one.alias for one in said if one.alias), None)
        self.alias = own or alias


class _Fields:
    """`model_fields`: worked out when it is first asked for, once for each model."""

    def __get__(self, _: object, model: type["BaseModel"]) -> dict[str, FieldInfo]:
        if "_fields" not in model.__dict__:
            named = model.model_config["alias_generator"]
            hints = get_type_hints(model, include_extras=True)
            model._fields = {
                name: FieldInfo(
                    kind, model.__dict__.get(name, _inherited(model, name)), named(name)
                )
                for name, kind in hints.items()
                if not name.startswith("_") and name not in _OWN
            }
        return model._fields


def _inherited(model: type, name: str) -> object:
    return next((one.__dict__[name] for one in model.__mro__ if name in one.__dict__), None)


_OWN = frozenset({"model_config", "model_fields", "model_fields_set"})


class BaseModel:
    """A record. Frozen by custom: nothing on the way writes to one."""

    __slots__ = ("model_fields_set",)

    model_config: dict[str, Any] = {}  # noqa: RUF012 - each model sets its own
    model_fields = _Fields()
    model_fields_set: set[str]
    _fields: dict[str, FieldInfo]

    @classmethod
    def model_construct(cls, _fields_set: set[str], **values: object) -> Self:
        """A record of values that were checked before."""
        made = object.__new__(cls)
        made.__dict__.update(values)
        made.model_fields_set = _fields_set
        return made

    def model_copy(self, *, update: Mapping[str, object]) -> Self:
        """The same with other values."""
        given = self.model_fields_set | set(update)
        return self.model_construct(given, **{**self.__dict__, **update})

    def __eq__(self, other: object) -> bool:
        """Records of one model with the same values are equal."""
        return type(self) is type(other) and self.__dict__ == other.__dict__

    def __hash__(self) -> int:
        """Of the values."""
        return hash((type(self), *self.__dict__.values()))

    def __repr__(self) -> str:
        """As Pydantic shows it."""
        values = ", ".join(f"{name}={value!r}" for name, value in self.__dict__.items())
        return f"{type(self).__name__}({values})"


ConfigDict = dict
ErrorDetails = dict


class ValidationError(ValueError):
    """Never raised: nothing is validated."""


def model_validator(**_: str) -> Callable[[Any], Any]:
    """Not called: what it would check has been checked."""
    return lambda function: function
