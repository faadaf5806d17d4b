"""A record of a build file in → every text in it, by place, with what its field's type says of it.

The one walk over the models: reading, proof, translation and preview all take it.
"""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Annotated, Any, Literal, get_args, get_origin

from guidegen.buildfile.records.meanings import (
    FileName,
    Meaning,
    OutsideCode,
    Refers,
    Wording,
)
from guidegen.buildfile.yaml.fields import Model
from guidegen.buildfile.yaml.tree import Trail


@dataclass(frozen=True, slots=True)
class Leaf:
    """One text of a record."""

    trail: Trail
    """Where it stands in the file."""
    lasting: Trail
    """The same by a way that lasts: entries of a list that have an id stand under it."""
    text: str
    meaning: Meaning
    owner: Model
    """The record whose field holds it."""
    key: bool = False
    """True where the key of an entry is meant, not its value."""


@dataclass(frozen=True, slots=True)
class Field:
    """What the type of one field says of the texts in it."""

    name: str
    key: str
    """As the file writes it."""
    texts: Meaning | None
    """Of the texts that are values."""
    keys: Meaning | None
    """Of the keys, where the field is a mapping whose keys refer to something."""
    unsaid: bool
    """True where there is a text of which nothing is said."""


type Visit = Callable[[Leaf], str]

EXPANDED = frozenset({"sequences"})
"""Fields that reach readers only through the steps that are made of them."""


@cache
def fields_of(model: type[Model]) -> tuple[Field, ...]:
    """Fields of a model in their order. Raises TypeError for a text that says nothing of itself."""
    found = tuple(_field(name, info) for name, info in model.model_fields.items())
    unsaid = [field.name for field in found if field.unsaid]
    if unsaid:
        raise TypeError(
            f"{model.__name__}.{unsaid[0]} does not say what its text means: "
            "give it a type of buildfile/records/meanings.py, such as Translated or Prose"
        )
    return found


def _field(name: str, info: Any) -> Field:  # noqa: ANN401 - pydantic's record of a field
    kind = Annotated[info.annotation, *info.metadata] if info.metadata else info.annotation
    found = list(_texts(kind))
    said = [meaning for meaning, _ in found if meaning is not None]
    unsaid = any(meaning is None and not closed for meaning, closed in found)
    keys = next((meaning for meaning in _keys(kind) if meaning is not None), None)
    return Field(name, info.alias or name, said[0] if said else None, keys, unsaid)


def _texts(kind: Any) -> Iterator[tuple[Meaning | None, bool]]:  # noqa: ANN401 - a type annotation
    """The texts of an annotation: what is said of each, and whether a pattern closes it."""
    origin, arguments = get_origin(kind), get_args(kind)
    if kind is str:
        yield None, False
    elif origin is Annotated:
        said, closed = _marks(arguments[1:])
        for inner, inner_closed in _texts(arguments[0]):
            yield said or inner, closed or inner_closed
    elif origin is dict:
        yield from _texts(arguments[1])
    elif origin is not Literal:
        for part in arguments:
            yield from _texts(part)


def _keys(kind: Any) -> Iterator[Meaning | None]:  # noqa: ANN401 - a type annotation
    """What is said of the keys of a mapping."""
    origin, arguments = get_origin(kind), get_args(kind)
    if origin is Annotated:
        yield from _keys(arguments[0])
    elif origin is dict:
        yield from (meaning for meaning, _ in _texts(arguments[0]))


def _marks(marks: Iterable[Any]) -> tuple[Meaning | None, bool]:
    """The meaning among the marks of an annotation, and whether one of them is a pattern."""
    said, closed = None, False
    for mark in marks:
        if isinstance(mark, Wording | Refers | FileName | OutsideCode):
            said = mark
        inner = [mark, *getattr(mark, "metadata", ())]
        closed = closed or any(getattr(part, "pattern", None) for part in inner)
    return said, closed


def walk(record: Model, *, expanded: bool = False) -> Iterator[Leaf]:
    """Every text of the record that says what it is, in the order of the fields.

    `expanded` walks the sequences of steps as well, which readers see only as steps.
    """
    return iter(_leaves(_Same(record), expanded))


@dataclass(frozen=True, slots=True, eq=False)
class _Same:
    """A record that is equal to itself alone: comparing two guides takes as long as a walk."""

    record: Model

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.record is self.record

    def __hash__(self) -> int:
        return id(self.record)


@lru_cache(maxsize=12)
def _leaves(same: _Same, expanded: bool) -> tuple[Leaf, ...]:
    """Kept for the last few records, since a dozen checks walk over the same guide in turn."""
    found: list[Leaf] = []

    def collect(leaf: Leaf) -> str:
        found.append(leaf)
        return leaf.text

    rebuilt(same.record, collect, expanded=expanded)
    return tuple(found)


def rebuilt[M: Model](record: M, visit: Visit, *, expanded: bool = False) -> M:
    """The record with each text as `visit` gives it; the same one where nothing changes."""
    return _Walk(visit, expanded).record(record, (), ())


@dataclass(frozen=True, slots=True)
class _Walk:
    """One walk over a record."""

    visit: Visit
    expanded: bool

    def record[M: Model](self, record: M, trail: Trail, lasting: Trail) -> M:
        new: dict[str, object] = {}
        for field in fields_of(type(record)):
            if field.name in EXPANDED and not self.expanded:
                continue
            value = getattr(record, field.name)
            place = _Place((*trail, field.key), (*lasting, field.key), record, field)
            made = self.value(value, place)
            if made is not value:
                new[field.name] = made
        return record.model_copy(update=new) if new else record

    def value(self, value: Any, place: "_Place") -> Any:  # noqa: ANN401 - any value of a build file
        if isinstance(value, str):
            return self.visit(place.leaf(value)) if place.field.texts else value
        if isinstance(value, Model):
            return self.record(value, place.trail, place.lasting)
        if isinstance(value, dict):
            return self.mapping(value, place)
        if isinstance(value, tuple):
            entries = tuple(
                self.value(one, place.below(number, getattr(one, "id", number)))
                for number, one in enumerate(value)
            )
            same = all(a is b for a, b in zip(entries, value, strict=True))
            return value if same else entries
        return value

    def mapping(self, value: dict[str, Any], place: "_Place") -> dict[str, Any]:
        """The values of a mapping; its keys are shown to the visitor, and stay."""
        made = {}
        for key, one in value.items():
            inside = place.below(str(key), str(key))
            if place.field.keys is not None:
                self.visit(inside.leaf(str(key), key=True))
            made[key] = self.value(one, inside)
        return made if any(made[key] is not value[key] for key in value) else value


@dataclass(frozen=True, slots=True)
class _Place:
    """Where the walk stands."""

    trail: Trail
    lasting: Trail
    owner: Model
    field: Field

    def below(self, step: str | int, lasting: str | int) -> "_Place":
        return _Place((*self.trail, step), (*self.lasting, lasting), self.owner, self.field)

    def leaf(self, text: str, *, key: bool = False) -> Leaf:
        meaning = self.field.keys if key else self.field.texts
        assert meaning is not None  # noqa: S101 - narrows the type: asked by those who looked
        return Leaf(self.trail, self.lasting, text, meaning, self.owner, key)


def wordings(record: Model, *, expanded: bool = False) -> Iterator[tuple[Leaf, Wording]]:
    """Its texts in words, each with what is said of it."""
    for leaf in walk(record, expanded=expanded):
        if isinstance(leaf.meaning, Wording):
            yield leaf, leaf.meaning


def texts_of(record: Model, *, expanded: bool = False) -> dict[Trail, str]:
    """Every text that is translated, by its lasting trail, in the order of the file; those of
    sequences of steps as well where `expanded`."""
    found = wordings(record, expanded=expanded)
    return {leaf.lasting: leaf.text for leaf, said in found if said.translated}


def wanted_texts(record: Model, *, expanded: bool = False) -> dict[Trail, str]:
    """Those that a translation lacks where it has them not: all but names."""
    return {
        leaf.lasting: leaf.text
        for leaf, said in wordings(record, expanded=expanded)
        if said.translated and not said.name
    }


def with_texts[M: Model](
    record: M, change: Callable[[Trail, str], str], *, expanded: bool = False
) -> M:
    """The record with each translated text as `change` gives it for its lasting trail and words;
    those of sequences of steps as well where `expanded`."""

    def visit(leaf: Leaf) -> str:
        if isinstance(leaf.meaning, Wording) and leaf.meaning.translated:
            return change(leaf.lasting, leaf.text)
        return leaf.text

    return rebuilt(record, visit, expanded=expanded)


def keys_from_files(model: type[Model]) -> tuple[str, ...]:
    """Keys of a file whose value may be the name of a Markdown file that holds the text."""
    return tuple(
        field.key
        for field in fields_of(model)
        if isinstance(field.texts, Wording) and field.texts.from_file
    )
