"""A record of a build file in → its texts for readers by trail; and the record with other texts.

A trail here is one that lasts: steps are found by their id, not by their number.
"""

from collections.abc import Callable
from typing import Any

from guidegen.buildfile.records.guide import (
    Change,
    Guide,
    Layer,
    Measurement,
    Part,
    Question,
    Stack,
)
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.steps import Picture, Step, Trouble, Use, Waiver
from guidegen.buildfile.records.stock import (
    Caution,
    Material,
    Pack,
    Process,
    Rate,
    SheetSize,
    Term,
    Tool,
)
from guidegen.buildfile.yaml.fields import Model
from guidegen.buildfile.yaml.tree import Trail

TEXTS: dict[type[Model], tuple[str, ...]] = {
    Guide: ("title", "summary", "overview", "licence_words", "assumes", "wearing",
            "care", "credits"),
    Measurement: ("name", "take"),
    Part: ("name", "texture", "note"),
    Stack: ("name",),
    Layer: ("note",),
    Change: ("text",),
    Question: ("ask", "answer"),
    Step: ("title", "text", "check", "again"),
    Use: ("note",),
    Trouble: ("sign", "cure"),
    Waiver: ("reason",),
    Picture: ("alt", "caption"),
    Site: ("title", "tagline", "about", "publisher", "contact", "prices_of"),
    Caution: ("title", "hazard", "consequence", "avoid", "first_aid", "no_protection"),
    SheetSize: ("name",),
    Pack: ("name",),
    Rate: ("source",),
    Material: ("name", "shop", "alternative", "note"),
    Tool: ("name", "alternative", "note"),
    Process: ("name", "how"),
    Term: ("term", "meaning"),
}  # fmt: skip
"""Fields that hold words for readers. Names of persons, licences and versions are not translated;
labels stand on the foam and stay the same in every language."""

_EXPANDED = frozenset({"sequences"})
"""Fields whose texts reach readers only through the steps that are made of them."""

type Changer = Callable[[Trail, str], str]


def texts_of(record: Model) -> dict[Trail, str]:
    """Every text for readers, in the order of the file."""
    found: dict[Trail, str] = {}

    def collect(trail: Trail, text: str) -> str:
        found[trail] = text
        return text

    with_texts(record, collect)
    return found


def with_texts[M: Model](record: M, change: Changer) -> M:
    """The record with each text as `change` gives it for its trail and words."""
    return _record(record, (), change)


def _record[M: Model](record: M, trail: Trail, change: Changer) -> M:
    texts = TEXTS.get(type(record), ())
    new: dict[str, object] = {}
    for name, info in type(record).model_fields.items():
        if name not in _EXPANDED:
            value = getattr(record, name)
            made = _value(value, (*trail, info.alias or name), change, text=name in texts)
            if made is not value:
                new[name] = made
    return record.model_copy(update=new) if new else record


def _value(value: Any, trail: Trail, change: Changer, *, text: bool) -> Any:  # noqa: ANN401 - any value of a build file
    if isinstance(value, str):
        return change(trail, value) if text else value
    if isinstance(value, Model):
        return _record(value, trail, change)
    if isinstance(value, dict):
        made = {
            key: _value(one, (*trail, str(key)), change, text=text) for key, one in value.items()
        }
        return made if any(made[key] is not value[key] for key in value) else value
    if isinstance(value, tuple):
        entries = tuple(
            _value(one, (*trail, one.id if isinstance(one, Step) else number), change, text=text)
            for number, one in enumerate(value)
        )
        return entries if any(a is not b for a, b in zip(entries, value, strict=True)) else value
    return value
