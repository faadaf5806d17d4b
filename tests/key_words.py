"""The kept readers of each key in → in words who reads it: codes of findings, or a rule.

A code is told where a function that reads the key makes that finding, or where it serves one beside it that does.
Where none does, the key changes what is worked out or shown, and that is told instead.
"""

import ast
import json
import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from guidegen.buildfile.records import schema as _all_models  # noqa: F401 - so that all models exist
from guidegen.buildfile.yaml.fields import Model
from guidegen.findings.registry import CODES

ROOT = Path(__file__).parents[1]
KEPT = Path(__file__).with_name("key_readers.json")
MOST = 4
"""Codes of one key that are told: of more, those of the functions that read the fewest keys."""

RULES = {
    "author": "you alone", "app.commands": "commands", "app.jobs": "press", "app.measured": "own measurements",
    "app.preview": "show", "assembly": "finished view", "bench": "worksheets",
    "buildfile.derive": "what follows from it", "buildfile.expand": "usual steps and repeats",
    "buildfile.living": "numbers in words", "buildfile.read": "reading",
    "buildfile.records": "reading", "buildfile.translate": "translations",
    "checks": "proof", "geometry.drawing": "drawings", "geometry.fastening": "fastenings",
    "geometry.fit": "size advice", "geometry.grading": "grading", "geometry": "pieces",
    "layout.buying": "quantities", "layout.nesting": "cut plans", "layout.paper": "template pages",
    "layout.times": "time line", "layout": "time line", "pictures": "pictures",
    "render.booklets": "booklets", "render.classes": "class papers", "render.lists": "lists",
    "render.site": "pages", "render": "pages and booklets", "themes": "pages and booklets",
}  # fmt: skip
"""What a folder of the program works out or shows, in a few words."""

ORDER = tuple(RULES.values())
_MAKES = re.compile("|".join(f'"{code}"' for code in CODES))
RANK = {code: number for number, code in enumerate(CODES)}

NAMES = frozenset({"name", "title"})
"""Keys by which findings of all kinds call a thing: that reads them for words alone."""


@cache
def models() -> dict[str, type[Model]]:
    """Every model of a build file, by name."""
    return {model.__name__: model for model in _below(Model)}


def _below(model: type[Model]) -> Iterator[type[Model]]:
    for one in model.__subclasses__():
        yield one
        yield from _below(one)


@cache
def kept_readers() -> dict[str, list[str]]:
    """Functions, as module:function, by Model.field: those that are still there."""
    found: dict[str, list[str]] = json.loads(KEPT.read_text(encoding="utf-8"))
    return {
        field: [one for one in readers if _lives(field, one)] for field, readers in found.items()
    }


def readers_of(model: str, key: str) -> list[str]:
    """Functions that read a key of a model, by the model or by one that it is made from."""
    kind = models()[model]
    names = (name for name, info in kind.model_fields.items() if (info.alias or name) == key)
    field = next(names, key)
    return sorted(
        {one for base in kind.__mro__ for one in kept_readers().get(f"{base.__name__}.{field}", ())}
    )


def read_by(model: str, key: str) -> str:
    """Who reads a key, in words for its table."""
    readers = readers_of(model, key)
    busy = _busy()
    codes: dict[str, int] = {}
    for reader in readers:
        for code in codes_of(reader) if key not in NAMES else ():
            codes[code] = min(codes.get(code, 9999), busy[reader])
    if codes:
        first = sorted(codes, key=lambda code: (codes[code], RANK[code]))[:MOST]
        return ", ".join(f"`{code}`" for code in sorted(first, key=RANK.__getitem__))
    rules = {_rule(reader) for reader in readers}
    return ", ".join(sorted(rules, key=ORDER.index)[:3])


def _rule(reader: str) -> str:
    folder = ".".join(reader.partition(":")[0].split(".")[:2])
    return RULES.get(folder) or RULES[folder.partition(".")[0]]


@cache
def _busy() -> Counter[str]:
    """How many keys each function reads."""
    return Counter(one for readers in kept_readers().values() for one in readers)


@cache
def codes_of(reader: str) -> frozenset[str]:
    """Codes of the findings that a function makes, itself or through what it calls beside it; of
    one that makes none, those of the functions beside it that call it."""
    module, _, name = reader.partition(":")
    own, calls = _module(module)
    near = {name, *calls.get(name, ())}
    found = frozenset(code for one in near for code in own.get(one, ()))
    if found:
        return found
    callers = [one for one, called in calls.items() if name in called]
    return frozenset(code for one in callers for code in own.get(one, ()))


@cache
def _module(name: str) -> tuple[dict[str, frozenset[str]], dict[str, frozenset[str]]]:
    """Of each function of a module the codes that it makes, and whom it calls."""
    if not _MAKES.search(_text(name)):
        return {}, {}
    own: dict[str, frozenset[str]] = {}
    calls: dict[str, frozenset[str]] = {}
    for node in ast.walk(ast.parse(_text(name))):
        if isinstance(node, ast.FunctionDef):
            made = [one for one in ast.walk(node) if isinstance(one, ast.Call)]
            own[node.name] = frozenset(code for one in made for code in _first(one))
            calls[node.name] = frozenset(
                str(getattr(one.func, "id", getattr(one.func, "attr", ""))) for one in made
            )
    return own, calls


def _first(call: ast.Call) -> Iterator[str]:
    """Codes that a call may have as its first argument."""
    for node in ast.walk(call.args[0]) if call.args else ():
        if isinstance(node, ast.Constant) and node.value in CODES:
            yield str(node.value)


def unread() -> list[str]:
    """Keys that nobody is known to read, as Model.key."""
    keys = {
        f"{name}.{info.alias or field}": (name, info.alias or field)
        for name, kind in models().items()
        if kind.__module__.startswith("guidegen.buildfile.records")
        for field, info in kind.model_fields.items()
    }
    return [key for key, (name, field) in keys.items() if not readers_of(name, field)]


def _lives(field: str, reader: str) -> bool:
    """Whether a kept reader still is: its function is there, and its module speaks of the key."""
    module, _, function = reader.partition(":")
    if field.startswith(WHOLE) or module in {"author", "themes"}:
        return True
    text = _text(module)
    key = re.compile(rf"\b{field.partition('.')[2]}\b")
    return f"def {function}" in text and key.search(text) is not None


WHOLE = ("StepChange.",)
"""Things that are taken as a whole, so that none of their keys is spoken of."""


@cache
def _text(module: str) -> str:
    path = ROOT / "guidegen" / f"{module.replace('.', '/')}.py"
    return path.read_text(encoding="utf-8") if path.is_file() else ""
