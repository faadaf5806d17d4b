"""Size plan in → its materials list as JSON bytes out, for other programs, with its schema.

What the file says is stated here and in the columns of the materials list, not in the names of our
records: those may change, this may not. Whoever adds a key leaves SCHEMA as it is; whoever takes
one out or gives it another meaning raises it, since programs of others read the file.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from guidegen.buildfile.read.content import Content
from guidegen.layout.records import (
    Alternative,
    CutLength,
    GuidePlan,
    LengthCut,
    LengthPiece,
    LengthPlan,
    MaterialLine,
    MaterialsList,
    PackCount,
    SizePlan,
    ToolLine,
)
from guidegen.render.views.material_rows import COLUMNS, MaterialRow, line_row
from guidegen.render.views.scene import step_numbers
from guidegen.render.views.tables import Look, Medium, shown_in

SCHEMA = 1
"""Version of the file's keys and their meanings."""

FILE = "materials.schema.json"


@dataclass(frozen=True)
class Key[Thing]:
    """One key of an object in the file."""

    name: str
    kind: "str | Keys[Any]"
    """Of JSON, or 'strings' for a list of them; or the keys of the objects in a list."""
    value: Callable[[Thing], Any]
    help: str


type Keys[Thing] = tuple[Key[Thing], ...]

PACK: Keys[PackCount] = (
    Key("name", "string", lambda pack: pack.name, "name of the pack; empty for none"),
    Key("count", "integer", lambda pack: pack.count, "how many to buy"),
    Key("amount", "number", lambda pack: pack.amount, "in one pack, in the unit of the line"),
    Key("price", "number", lambda pack: pack.price, "of one pack"),
)
OTHER: Keys[Alternative] = (
    Key("material", "string", lambda other: other.material, "another material; empty for the same"),
    Key("packs", PACK, lambda other: other.packs, "the packs to buy instead"),
)
CUT: Keys[LengthCut] = (
    Key("material", "string", lambda cut: cut.material, "key of the material in stock.yaml"),
    Key("length", "number", lambda cut: cut.length, "mm"),
    Key("pieces", "integer", lambda cut: cut.pieces, "how many of this length"),
    Key("note", "string", lambda cut: cut.note, "what they are for"),
)
TOOL: Keys[ToolLine] = (
    Key("tool", "string", lambda tool: tool.tool, "key of the tool in stock.yaml"),
    Key("name", "string", lambda tool: tool.name, "what it is called"),
    Key("protective", "boolean", lambda tool: tool.protective, "whether it protects people"),
    Key("steps", "strings", lambda tool: tool.steps, "ids of the steps that need it"),
    Key("alternative", "string", lambda tool: tool.alternative, "what does as well"),
    Key("note", "string", lambda tool: tool.note, "the author's words, CommonMark"),
)
LENGTH_PIECE: Keys[LengthPiece] = (
    Key("start", "number", lambda piece: piece.start, "mm from the end of the pack"),
    Key("length", "number", lambda piece: piece.length, "mm"),
    Key("note", "string", lambda piece: piece.note, "what it is for"),
)
LENGTH_PACK: Keys[CutLength] = (
    Key("name", "string", lambda pack: pack.name, "name of the pack; empty for none"),
    Key("amount", "number", lambda pack: pack.amount, "mm in the pack"),
    Key("price", "number", lambda pack: pack.price, "of the pack"),
    Key("pieces", LENGTH_PIECE, lambda pack: pack.pieces, "cut in this order, the longest first"),
    Key("left", "number", lambda pack: pack.left, "mm that stay over at its end"),
    Key("at_hand", "boolean", lambda pack: pack.at_hand, "whether it is there and not bought"),
)
LENGTHS: Keys[LengthPlan] = (
    Key("material", "string", lambda plan: plan.material, "key of the material in stock.yaml"),
    Key("packs", LENGTH_PACK, lambda plan: plan.packs, "what is cut from each pack"),
    Key("cost", "number", lambda plan: plan.cost, "price of the packs"),
    Key("least_cost", "number", lambda plan: plan.least_cost, "no plan can cost less"),
    Key("least", "integer", lambda plan: plan.least, "no plan can do with fewer packs"),
    Key("too_long", CUT, lambda plan: plan.too_long, "cuts that no pack is long enough for"),
)

_KINDS = {Look.AMOUNT: "number", Look.MONEY: "number", Look.COUNT: "integer"}
"""Of columns; texts for all others."""


def _line_keys(numbers: Mapping[str, int], currency: str) -> Keys[MaterialLine]:
    """Keys of a line: the columns for programs, then what is more than a value."""

    def reader(value: Callable[[MaterialRow], Any]) -> Callable[[MaterialLine], Any]:
        return lambda line: value(line_row(line, numbers, currency))

    columns = tuple(
        Key(column.id, _KINDS.get(column.look, "string"), reader(column.value), column.help)
        for column in shown_in(COLUMNS, Medium.DATA)
    )
    return (
        *columns,
        Key("packs", PACK, lambda line: line.packs, "what to buy: together they cover `high`"),
        Key("others", OTHER, lambda line: line.others, "other packs that would do, cheapest first"),
        Key("steps", "strings", lambda line: line.steps, "ids of the steps that use it"),
    )


def _list_keys(numbers: Mapping[str, int], currency: str = "") -> Keys[MaterialsList]:
    """Keys of the list; `numbers` are those of the steps by id."""
    lines = _line_keys(numbers, currency)
    return (
        Key("lines", lines, lambda one: one.lines, "what to buy, or to have"),
        Key("cuts", CUT, lambda one: one.cuts, "lengths to cut from webbing, elastic or tape"),
        Key("tools", TOOL, lambda one: one.tools, "tools and protective equipment"),
        Key("cost", "number", lambda one: one.cost, "price of all packs"),
        Key("weight", "number", lambda one: one.weight, "grams of foam in the finished kit"),
        Key("lengths", LENGTHS, lambda one: one.lengths, "how packs of lengths are cut"),
        Key(
            "finished_weight", "number", lambda one: one.finished_weight,
            "grams of the finished kit, as far as stock.yaml tells",
        ),
    )  # fmt: skip


HEAD: dict[str, tuple[str, dict[str, object]]] = {
    "schema": (f"version of this schema: {SCHEMA}", {"const": SCHEMA}),
    "guide": ("id of the guide", {"type": "string"}),
    "title": ("its title", {"type": "string"}),
    "version": ("its version", {"type": "string"}),
    "date": ("date of that version, ISO 8601", {"type": "string"}),
    "size": ("name of the size", {"type": "string"}),
    "currency": ("ISO 4217 code of all prices", {"type": "string"}),
    "prices_of": ("date of the prices", {"type": "string"}),
}
"""Keys about the list as a whole, with what a schema says of them."""


def materials_json(content: Content, plan: GuidePlan, size: SizePlan) -> bytes:
    """The whole list after `materials_schema`; UTF-8, a line end at the end."""
    guide = plan.file.guide
    head = (
        SCHEMA,
        plan.file.id,
        guide.title,
        guide.version,
        str(guide.date),
        size.size,
        content.site.currency,
        str(content.site.prices_of),
    )
    keys = _list_keys(step_numbers(guide), content.site.currency)
    text = dict(zip(HEAD, head, strict=True)) | _data(keys, size.materials)
    return (json.dumps(text, indent=2, ensure_ascii=False) + "\n").encode("utf-8")


def _data(keys: Keys[Any], thing: object) -> dict[str, object]:
    return {key.name: _value(key, key.value(thing)) for key in keys}


def _value(key: Key[Any], value: object) -> object:
    if isinstance(value, tuple):
        return [_data(key.kind, one) if isinstance(key.kind, tuple) else one for one in value]
    return value


def materials_schema() -> str:
    """JSON Schema (draft 2020-12) of materials.json. Amounts are in the unit of their line."""
    schema = _object_schema(_list_keys({}))
    head: dict[str, object] = {
        name: {**kind, "description": words} for name, (words, kind) in HEAD.items()
    }
    schema["properties"] = head | schema["properties"]
    schema["required"] = [*HEAD, *schema["required"]]
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = f"guidegen materials.json, version {SCHEMA}"
    return json.dumps(schema, indent=2, ensure_ascii=False, sort_keys=True) + "\n"


def _object_schema(keys: Keys[Any]) -> dict[str, Any]:
    # Further keys may come without a new version: a reader passes over what it does not know.
    properties = {key.name: {**_kind_schema(key.kind), "description": key.help} for key in keys}
    return {"type": "object", "properties": properties, "required": [key.name for key in keys]}


def _kind_schema(kind: "str | Keys[Any]") -> Mapping[str, Any]:
    if isinstance(kind, tuple):
        return {"type": "array", "items": _object_schema(kind)}
    if kind == "strings":
        return {"type": "array", "items": {"type": "string"}}
    return {"type": kind}
