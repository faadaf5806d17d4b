"""Models in → JSON Schema texts out, so that editors complete and check the files."""

import json
from collections.abc import Collection, Mapping
from typing import Any

from guidegen.buildfile.records.guide import Guide, Part, SequenceUse, StepRepeat
from guidegen.buildfile.records.meanings import NAMES_OF, Named
from guidegen.buildfile.records.site import Site
from guidegen.buildfile.records.stock import Stock
from guidegen.buildfile.records.vocabulary import DRAWING, LINING, SHAPES
from guidegen.buildfile.yaml.fields import DATE_PATTERN, Model

FILES: dict[str, type[Model]] = {"site": Site, "stock": Stock, "guide": Guide}
"""Schema by name of the YAML file that it is for."""

STOCK_SCHEMA = "stock.schema.json"


def schema_texts() -> dict[str, str]:
    """File name to JSON Schema (draft 2020-12) text, for site.yaml, stock.yaml and guide.yaml."""
    return {f"{name}.schema.json": _text(model, name) for name, model in FILES.items()}


def with_names(text: str, names: Mapping[Named, Collection[str]]) -> str:
    """A schema in which editors offer these names, by what they name, and take others too.

    Proof tells of a name that does not exist, with the nearest one: a schema that refused it would
    refuse as well what has just been added to another file.
    """

    offered = {str(kind): ids for kind, ids in names.items()}

    def offer(value: object) -> object:
        if isinstance(value, list):
            return [offer(one) for one in value]
        if not isinstance(value, dict):
            return value
        inner = {key: offer(one) for key, one in value.items()}
        known = offered.get(str(inner.get(NAMES_OF)))
        if not known:
            return inner
        plain = {key: one for key, one in inner.items() if key in _LIMITS}
        told = {key: one for key, one in inner.items() if key not in _LIMITS}
        return {**told, "anyOf": [{"enum": sorted(known)}, plain]}

    return _written(offer(json.loads(text)))


_EXTENDED = ("Caution", "Material", "Process", "Term", "Tool")
"""Things of a stock that extends another one: there a key alone is enough, and may be empty."""


def extending(text: str) -> str:
    """The schema of a stock.yaml that extends guidegen's own: its entries change single keys."""
    schema = json.loads(text)
    for name in _EXTENDED:
        thing = schema["$defs"][name]
        thing.pop("required", None)
        thing["properties"] = {
            key: {
                **({"description": one["description"]} if "description" in one else {}),
                "anyOf": [one, {"type": "null"}],
            }
            for key, one in thing["properties"].items()
        }
    return _written(schema)


_LIMITS = ("type", "maxLength", "minLength", "pattern")


def _written(schema: object) -> str:
    return json.dumps(schema, indent=2, ensure_ascii=False, sort_keys=True) + "\n"


def _text(model: type[Model], name: str) -> str:
    schema = model.model_json_schema(by_alias=True)
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    schema["title"] = f"guidegen {name}.yaml"
    if model is Guide:
        _offer_shapes(schema["$defs"][Part.__name__])
        _offer_repeats(schema)
    return _written(_as_typed(schema))


def _as_typed(value: object) -> object:
    """A schema that takes dates and versions as people type them, without quotes.

    To some readers of YAML 2026-01-01 is a date and 1.0 a number; ours reads both as they stand.
    """
    if isinstance(value, list):
        return [_as_typed(one) for one in value]
    if not isinstance(value, dict):
        return value
    inner = {key: _as_typed(one) for key, one in value.items()}
    if inner.get("pattern") == DATE_PATTERN:
        # No type of JSON is a date: what is no text is let through, and proof looks at it.
        del inner["type"]
    properties = inner.get("properties")
    version = properties.get("version") if isinstance(properties, dict) else None
    if isinstance(version, dict) and version.get("type") == "string":
        version["type"] = ["string", "number"]
    return inner


def _offer_repeats(schema: dict[str, Any]) -> None:
    """Entries of `steps` that become plain steps when they are read."""
    entries = schema["properties"]["steps"]["items"]
    offered = [dict(entries)]
    for model in (StepRepeat, SequenceUse):
        part = model.model_json_schema(by_alias=True)
        schema["$defs"] |= part.pop("$defs", {})
        schema["$defs"][model.__name__] = part
        offered.append({"$ref": f"#/$defs/{model.__name__}"})
    entries.clear()
    entries["anyOf"] = offered


def _offer_shapes(part: dict[str, Any]) -> None:
    """Let editors offer the computed shapes, and for each one its dimensions."""
    part["properties"]["shape"]["enum"] = [DRAWING, LINING, *SHAPES]
    part["allOf"] = [
        {
            "if": {"properties": {"shape": {"const": kind.name}}},
            "then": {
                "properties": {
                    "dimensions": {
                        "properties": {
                            dimension.name: {"description": dimension.help}
                            for dimension in kind.dimensions
                        },
                        "required": [d.name for d in kind.dimensions if d.default is None],
                        "additionalProperties": False,
                    }
                }
            },
        }
        for kind in SHAPES.values()
    ]
