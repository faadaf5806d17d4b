"""The types of the whole package in → which functions read each key of the build files.

./start python tests/key_readers.py

It asks the type checker of what type each `thing.key` of the code is, so that `step.parts` and `stack.parts`
are told apart. That takes three minutes of one core; what it finds is kept in tests/key_readers.json, a line for each key.
Keys that code reads by a name in a text, such as getattr(strap, "turned"), count where a function reads another key of the same thing beside it.
"""

import ast
import json
import sys
from collections import defaultdict
from collections.abc import Iterator
from pathlib import Path

from key_words import models
from mypy.build import BuildResult, build
from mypy.config_parser import parse_config_file
from mypy.find_sources import create_source_list
from mypy.nodes import Expression, MemberExpr, Node, TypeInfo
from mypy.options import Options
from mypy.traverser import all_name_and_member_expressions
from mypy.types import Instance, ProperType, TupleType, Type, UnionType, get_proper_type

ROOT = Path(__file__).parents[1]
KEPT = Path(__file__).with_suffix(".json")
RECORDS = "guidegen.buildfile.records"
TEMPLATES = sorted((ROOT / "themes").rglob("*.j2"))
ELSEWHERE = {
    "StepChange": ("buildfile.expand.sequences:_changed",),
    "Sequence": ("author:",),
    "Pack": ("buildfile.records.constructions.things:_weighed",),
}
"""Who takes a record as a whole, and so each key of it that nobody reads by name."""

type Readers = dict[str, list[str]]
"""Functions, as module:function, by Model.field."""


def find_readers() -> Readers:
    """Each field of the models of build files, and the functions that read it."""
    checked = _checked()
    found: defaultdict[str, set[str]] = defaultdict(set)
    for module, file in checked.files.items():
        if not module.startswith("guidegen."):
            continue
        functions = _functions(ast.parse(Path(file.path).read_text(encoding="utf-8")))
        for read in _reads(file):
            if read.expr in checked.types:
                for model in _models(checked.types[read.expr], read.name):
                    name = functions.get(read.line, "")
                    found[f"{model}.{read.name}"].add(f"{module.partition('.')[2]}:{name}")
    readers = {field: sorted(names) for field, names in sorted(found.items())}
    return readers | by_name(readers)


def by_name(readers: Readers) -> Readers:
    """Fields that no `thing.key` reads, and who reads them by a name in a text or in a template."""
    found: Readers = {}
    templates = " ".join(path.read_text(encoding="utf-8") for path in TEMPLATES)
    for name, kind in models().items():
        beside = {one for field in kind.model_fields for one in readers.get(f"{name}.{field}", ())}
        for field in kind.model_fields:
            bases = (base.__name__ for base in kind.__mro__)
            if any(f"{base}.{field}" in readers for base in bases):
                continue
            named = sorted(one for one in beside if field in _texts_in(one))
            shown = [f"themes:{name}"] if f"{name.lower()}.{field}" in templates else []
            if told := [*named, *shown, *ELSEWHERE.get(name, ())]:
                found[f"{name}.{field}"] = told
    return found


def _texts_in(reader: str) -> set[object]:
    """All texts that stand in a function."""
    module, _, name = reader.partition(":")
    path = ROOT / "guidegen" / f"{module.replace('.', '/')}.py"
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.FunctionDef) and node.name == name:
            return {one.value for one in ast.walk(node) if isinstance(one, ast.Constant)}
    return set()


def _checked() -> BuildResult:
    options = Options()
    parse_config_file(options, lambda: None, str(ROOT / "pyproject.toml"))
    options.export_types = options.preserve_asts = True
    options.incremental = options.fine_grained_incremental = False
    options.python_executable = sys.executable
    return build(create_source_list([str(ROOT / "guidegen")], options), options)


_INSIDE = (
    "defs", "body", "else_body", "finally_body", "func", "decorators", "arguments", "initializer",
    "expr", "lvalues", "rvalue", "index", "msg", "target", "subject", "guards", "bodies", "items",
    "handlers", "from_expr",
)  # fmt: skip
"""Where statements of the type checker's tree hold others, and expressions."""


def _reads(node: object) -> Iterator[MemberExpr]:
    """All expressions such as thing.key below a node."""
    if isinstance(node, Expression):
        yield from all_name_and_member_expressions(node)[1]
    elif isinstance(node, list | tuple):
        for one in node:
            yield from _reads(one)
    elif isinstance(node, Node):
        for name in _INSIDE:
            yield from _reads(getattr(node, name, None))


def _functions(tree: ast.Module) -> dict[int, str]:
    """The outermost function of each line; empty outside of all."""
    lines: dict[int, str] = {}
    for node in ast.walk(tree):
        if isinstance(node, ast.FunctionDef) and node.end_lineno is not None:
            for line in range(node.lineno, node.end_lineno + 1):
                lines.setdefault(line, node.name)
    return lines


def _models(kind: Type, name: str) -> Iterator[str]:
    """The models of which a value may be one, and that have a field of this name; other records of
    the same folder are none."""
    for info in _infos(get_proper_type(kind)):
        for base in info.mro:
            if name in base.names and base.module_name.startswith(RECORDS):
                if base.name in models() and name in models()[base.name].model_fields:
                    yield base.name
                break


def _infos(kind: ProperType) -> Iterator[TypeInfo]:
    if isinstance(kind, Instance):
        yield kind.type
    elif isinstance(kind, UnionType):
        for one in kind.items:
            yield from _infos(get_proper_type(one))
    elif isinstance(kind, TupleType):
        yield kind.partial_fallback.type


if __name__ == "__main__":
    lines = (f"{json.dumps(key)}: {json.dumps(names)}" for key, names in find_readers().items())
    KEPT.write_text("{\n" + ",\n".join(lines) + "\n}\n", encoding="utf-8")
