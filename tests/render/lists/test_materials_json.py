"""Materials lists for programs: what the published schema promises holds, whatever we rename."""

import json
from dataclasses import fields, is_dataclass, make_dataclass, replace

import jsonschema
import pytest
from render.page_samples import sample

from guidegen.layout.records import (
    Alternative,
    CutLength,
    LengthCut,
    LengthPiece,
    LengthPlan,
    PackCount,
)
from guidegen.render.lists.materials_json import SCHEMA, materials_json, materials_schema

VERSION_1 = {
    "": "schema guide title version date size currency prices_of lines cuts tools cost weight "
    "lengths finished_weight",
    "lines": "material kind name need low high have unit cost left shop alternative note basis "
    "area rate source packs others steps",
    "lines.packs": "name count amount price",
    "lines.others": "material packs",
    "cuts": "material length pieces note",
    "tools": "tool name protective steps alternative note",
    "lengths": "material packs cost least_cost least too_long",
    "lengths.packs": "name amount price pieces left at_hand",
    "lengths.packs.pieces": "start length note",
}
"""Keys of version 1, which programs of readers rely on: none may go without a new version."""


def full_sample():
    """A plan whose first size has every kind of entry."""
    content, plan, _ = sample()
    size = plan.sizes[0]
    packs = (PackCount("roll", 1, 5000.0, 6.0),)
    piece = LengthPiece(0.0, 600.0, "strap")
    cut = LengthCut("webbing", 9000.0, 1, "too long")
    lengths = LengthPlan(
        "webbing", (CutLength("roll", 5000.0, 6.0, (piece,), 4400.0),), 6.0, 6.0, 1, (cut,)
    )
    first = replace(size.materials.lines[0], others=(Alternative("Other foam", packs),))
    materials = replace(
        size.materials, lines=(first, *size.materials.lines[1:]), lengths=(lengths,)
    )
    return content, plan, replace(size, materials=materials)


def renamed(thing):
    """The same record under other inner names, which still answers to the old ones."""
    if isinstance(thing, tuple):
        return tuple(renamed(one) for one in thing)
    if not is_dataclass(thing):
        return thing
    values = {field.name: renamed(getattr(thing, field.name)) for field in fields(thing)}
    inner = make_dataclass(f"Renamed{type(thing).__name__}", [f"inner_{name}" for name in values])
    for name in values:
        setattr(inner, name, property(lambda self, at=name: getattr(self, f"inner_{at}")))
    for name, worked_out in vars(type(thing)).items():
        if isinstance(worked_out, property):
            setattr(inner, name, worked_out)
    return inner(*values.values())


def keys(thing, path=""):
    """Keys of every object of the file, by the path to it."""
    if isinstance(thing, list):
        found = [keys(one, path) for one in thing]
        return {name: set().union(*(one.get(name, set()) for one in found))
                for name in set().union(*found)}  # fmt: skip
    if not isinstance(thing, dict):
        return {}
    every = {path: set(thing)}
    for name, value in thing.items():
        every |= keys(value, f"{path}.{name}".strip("."))
    return every


def test_the_file_keeps_to_its_schema():
    """A list with every kind of entry is valid after JSON Schema, draft 2020-12."""
    schema = json.loads(materials_schema())
    jsonschema.Draft202012Validator.check_schema(schema)
    text = json.loads(materials_json(*full_sample()))
    jsonschema.Draft202012Validator(schema).validate(text)
    assert text["schema"] == SCHEMA == 1


def test_no_key_of_version_1_is_gone():
    """Programs of readers find every key of version 1 where it was, in the file and its schema."""
    text = json.loads(materials_json(*full_sample()))
    found = keys(text)
    for path, names in VERSION_1.items():
        assert set(names.split()) <= found[path], path
    schema = json.loads(materials_schema())
    for path, names in VERSION_1.items():
        part = schema
        for name in filter(None, path.split(".")):
            part = part["properties"][name]["items"]
        assert set(names.split()) <= set(part["required"]), path


def test_inner_names_may_change():
    """Records under other field names give the same bytes: no key follows from a field's name."""
    content, plan, size = full_sample()
    shadow = renamed(size)
    assert {field.name for field in fields(shadow.materials)}.isdisjoint(
        {field.name for field in fields(size.materials)}
    )
    assert materials_json(content, plan, shadow) == materials_json(content, plan, size)


@pytest.mark.parametrize("missing", ["schema", "lines", "tools"])
def test_the_schema_asks_for_its_keys(missing):
    """A file without one of its keys is refused."""
    text = json.loads(materials_json(*full_sample()))
    del text[missing]
    with pytest.raises(jsonschema.ValidationError, match=missing):
        jsonschema.validate(text, json.loads(materials_schema()))


def test_the_list_is_that_of_the_size():
    """The JSON list has the guide, its size, and the lines, packs and tools of the plan."""
    content, plan, size = full_sample()
    text = json.loads(materials_json(content, plan, size))
    assert (text["guide"], text["size"]) == (plan.file.id, size.size)
    assert text["cost"] == size.materials.cost
    assert [line["name"] for line in text["lines"]] == [line.name for line in size.materials.lines]
    assert [line["cost"] for line in text["lines"]] == [line.cost for line in size.materials.lines]
    assert len(text["tools"]) == len(size.materials.tools)
