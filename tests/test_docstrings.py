"""What docstrings of the stages from geometry to pictures have to say, by their syntax trees."""

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent / "guidegen"
STAGES = ("geometry", "layout", "pictures")
UNITS = re.compile(
    r"\bmm\b|mm²|m²|degree|radian|°|\bpt\b|\bpx\b|\bcells\b|grams|kg|hours|minutes|[Tt]he number|"
    r"\bΩ|\bmA\b|\bshare|ratio|percent|%|factor|0 to 1|[Pp]rice|money",
)
"""Units of what is measured, and words for what has none."""
NO_NUMBER_OF_OURS = {"answer", "living_value", "living_sum"}
"""They give what an author asks for, in the unit of that."""


def public_functions() -> Iterator[tuple[str, ast.FunctionDef]]:
    """Functions at the top of modules that others may call."""
    for stage in STAGES:
        for path in sorted((ROOT / stage).rglob("*.py")):
            for node in ast.parse(path.read_text(encoding="utf-8")).body:
                if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
                    yield f"{path.relative_to(ROOT)}:{node.name}", node


@cache
def functions() -> dict[str, ast.FunctionDef]:
    """The same by file and name, read once."""
    return dict(public_functions())


def raised(function: ast.AST) -> Iterator[str]:
    """Names of the errors that a function raises itself and does not catch."""
    for node in ast.iter_child_nodes(function):
        if isinstance(node, ast.Raise) and node.exc is not None:
            exc = node.exc.func if isinstance(node.exc, ast.Call) else node.exc
            if isinstance(exc, ast.Name) and exc.id[0].isupper() and exc.id != "AssertionError":
                yield exc.id
        elif isinstance(node, ast.Try):
            for handler in (*node.handlers, *node.orelse, *node.finalbody):
                yield from raised(handler)
        else:
            yield from raised(node)


@pytest.mark.parametrize("stage", STAGES)
def test_functions_that_give_a_number_name_its_unit(stage: str) -> None:
    """A float without a unit is a riddle: mm, degrees, hours, or a word that it has none."""
    silent = [
        name
        for name, node in functions().items()
        if name.startswith(stage)
        and node.returns is not None
        and ast.unparse(node.returns) == "float"
        and node.name not in NO_NUMBER_OF_OURS
        and not UNITS.search(ast.get_docstring(node) or "")
    ]
    assert silent == []


@pytest.mark.parametrize("stage", STAGES)
def test_functions_that_raise_name_the_error(stage: str) -> None:
    """Who calls a function reads in its docstring what to catch."""
    silent = [
        f"{name} raises {error}"
        for name, node in functions().items()
        if name.startswith(stage)
        for error in sorted(set(raised(node)))
        if error not in (ast.get_docstring(node) or "")
    ]
    assert silent == []
