"""The models of all files in, the handbook's chapter of every key out.

./start python tests/handbook_keys.py
"""

import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from key_words import read_by

from guidegen.buildfile.records.schema import schema_texts

CHAPTER = Path(__file__).parent.parent / "guidegen" / "handbook" / "reference" / "keys.md"

HEAD = """\
# Every key of every file

Written from the models that read your files, so nothing is missing here. A key in bold must be there; all
others have the default that is named, or are left out. Lengths are numbers of mm, or texts with a unit;
arithmetic may use measurements and values. `guidegen schema` writes the same for your editor, which then
completes keys and shows these words.

The last column tells who reads a key: codes of findings that [proof](../write/steps.md#proof) may tell because of it
(`guidegen proof --explain CODE` says more), or, where it leads to none, what it changes. All values are also checked for
their kind, all names for whether they are there, and all arithmetic, whatever the key.

"""

FILES = {
    "guide": "guide.yaml",
    "site": "site.yaml",
    "stock": "stock.yaml",
}

MODELS = {"guide.yaml": "Guide", "site.yaml": "Site", "stock.yaml": "Stock"}

PICTURES = {
    "Bevel": ("key-bevels.svg", "Section of a bevelled edge: thickness, angle from square, how far it falls back"),
    "Groove": ("key-grooves.svg", "Section of a V-groove: depth, mouth, what is left, the fold"),
    "Placement": ("key-placements.svg", "A piece with the place of another one drawn on it, and its groove"),
    "Stack": ("key-stacks.svg", "Section of a stack: layers from the body outward, with their thickness"),
    "Seam": ("key-seams.svg", "What joins the parts of a thing: seams with their lengths, and layers"),
}  # fmt: skip
"""Figure and its words, by the thing that it shows; tests/pictures/key_figures.py draws them."""

type Schema = dict[str, Any]


def keys_chapter() -> str:
    """The chapter: a section for each file, and one for each thing that stands in it."""
    done: set[str] = set()
    known = schema_texts()
    return HEAD + "".join(
        text
        for name, file in FILES.items()
        for text in _file(file, json.loads(known[f"{name}.schema.json"]), done)
    )


def _file(title: str, schema: Schema, done: set[str]) -> Iterator[str]:
    things: Schema = schema["$defs"]
    yield _section(2, title, schema, things)
    waiting = list(_things(schema))
    while waiting:
        name = waiting.pop(0)
        thing = things[name]
        if name in done or "properties" not in thing:
            continue
        done.add(name)
        yield _section(3, name, thing, things)
        # What stands in a thing follows it.
        waiting[:0] = list(_things(thing))


def _section(level: int, title: str, schema: Schema, things: Schema) -> str:
    must = set(schema.get("required", ()))
    rows = "".join(
        f"| {f'**`{key}`**' if key in must else f'`{key}`'} | {_kind(value, things)} "
        f"| {'' if key in must else _default(value)} | {_purpose(value, things)} "
        f"| {read_by(MODELS.get(title, title), key)} |\n"
        for key, value in sorted(schema["properties"].items(), key=lambda item: item[0] not in must)
    )
    picture = "![{1}](pictures/{0})\n\n".format(*PICTURES[title]) if title in PICTURES else ""
    return (
        f"{'#' * level} {title}\n\n{_words(schema.get('description', ''))}\n\n{picture}"
        "| key | what it holds | default | what it is for | read by |\n"
        f"| --- | --- | --- | --- | --- |\n{rows}\n"
    )


def _things(schema: object) -> Iterator[str]:
    """Names of the things that a schema refers to, in order."""
    if isinstance(schema, dict):
        for key, value in schema.items():
            if key == "$ref":
                yield value.rpartition("/")[2]
            elif key != "$defs":
                yield from _things(value)
    elif isinstance(schema, list):
        for value in schema:
            yield from _things(value)


def _kind(value: Schema, things: Schema) -> str:
    """What a key holds, in a few words."""
    if "$ref" in value:
        name = value["$ref"].rpartition("/")[2]
        thing = things[name]
        if "properties" in thing:
            return f"[{name}](#{name.lower()})"
        return _kind(thing, things)
    if "anyOf" in value:
        kinds = [_kind(one, things) for one in value["anyOf"] if one.get("type") != "null"]
        return " or ".join(dict.fromkeys(kinds))
    if "enum" in value:
        return ", ".join(f"`{one}`" for one in value["enum"])
    if "const" in value:
        return f"`{value['const']}`"
    kind = value.get("type")
    if isinstance(kind, list):
        return "number or text" if "number" in kind else " or ".join(map(str, kind))
    if kind == "array":
        if "prefixItems" in value:
            return f"list of {len(value['prefixItems'])}: {_kind(value['prefixItems'][0], things)}"
        return f"list: {_kind(value.get('items', {}), things)}"
    if kind == "object":
        inner = value.get("additionalProperties") or next(
            iter(value.get("patternProperties", {}).values()), None
        )
        return f"by name: {_kind(inner, things)}" if isinstance(inner, dict) else "by name"
    if kind is None and value.get("pattern", "").startswith("^\\d{4}-"):
        return "date"
    names = {"string": "text", "boolean": "`true` or `false`", "integer": "number"}
    return names.get(str(kind), str(kind or "anything"))


def _default(value: Schema) -> str:
    default = value.get("default")
    if default in (None, [], {}, ""):
        return ""
    return f"`{str(default).lower() if isinstance(default, bool) else default}`"


def _purpose(value: Schema, things: Schema) -> str:
    own = value.get("description", "")
    if not own and "$ref" in value:
        own = things[value["$ref"].rpartition("/")[2]].get("description", "")
    if not own:
        for one in value.get("anyOf", ()):
            own = own or _purpose(one, things)
    return _words(own).replace("|", "\\|")


def _words(text: str) -> str:
    """A description in one line, safe in Markdown."""
    return re.sub(r"\s+", " ", text).replace("<", "\\<").strip()


if __name__ == "__main__":
    CHAPTER.write_text(keys_chapter(), encoding="utf-8")
