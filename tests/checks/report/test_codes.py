"""The registry of codes and the code that uses them."""

import ast
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

from guidegen.checks.report.explain import explain, list_codes
from guidegen.errors import UsageError
from guidegen.findings.records import CodeGroup
from guidegen.findings.registry import CODES
from guidegen.problems import Severity

PACKAGE = Path(__file__).parents[3] / "guidegen"

MAKERS = {
    "problem", "Problem", "refuse", "note", "path_problem", "_problem", "file_problem", "_error",
    "_refuse", "_Stop", "_Found", "refusal",
}  # fmt: skip
"""Functions and records whose first argument is a code."""

GIVERS = {"Refusal", "_fault_code", "_refusal"}
"""A type whose first member is a code, and functions that return codes."""

FORM = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")


def codes_in(source: str) -> Iterator[str]:
    """All codes that a text makes findings with."""
    yield from codes_of(ast.parse(source))


def codes_of(tree: ast.Module) -> Iterator[str]:
    """The same of a text that is parsed."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            name = getattr(node.func, "attr", getattr(node.func, "id", ""))
            if name in MAKERS and node.args:
                yield from constants(node.args[0])
            elif name == "append" and node.args and is_kept(node.args[0]):
                yield from constants(node.args[0].elts[0])
        elif isinstance(node, ast.FunctionDef):
            returns = {getattr(part, "id", "") for part in ast.walk(node.returns or node)}
            if node.name in GIVERS or (node.returns and returns & GIVERS):
                for part in ast.walk(node):
                    if isinstance(part, ast.Return) and part.value is not None:
                        value = part.value
                        yield from constants(
                            value.elts[0] if isinstance(value, ast.Tuple) else value
                        )


def is_kept(node: ast.expr) -> bool:
    """Whether this is a finding of the reader of YAML, a tuple until its place is known."""
    return isinstance(node, ast.Tuple) and len(node.elts) == 5


def constants(node: ast.expr) -> Iterator[str]:
    """The texts that an expression may be: one, or the two of a choice."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        if FORM.fullmatch(node.value):
            yield node.value
    elif isinstance(node, ast.IfExp):
        yield from constants(node.body)
        yield from constants(node.orelse)


@cache
def sources() -> dict[Path, ast.Module]:
    """Every module of the program, read once for all tests."""
    paths = sorted(PACKAGE.rglob("*.py"))
    return {path: ast.parse(path.read_text(encoding="utf-8")) for path in paths}


@cache
def used() -> dict[str, str]:
    """Codes that the program uses, each with one file."""
    return {code: path.name for path, tree in sources().items() for code in codes_of(tree)}


def test_every_code_in_use_is_registered():
    """No finding can be made whose reason and cure are not written down."""
    assert {code: file for code, file in used().items() if code not in CODES} == {}


def test_every_registered_code_is_in_use():
    """The registry tells of nothing that no longer happens."""
    assert sorted(set(CODES) - set(used())) == []


def test_no_code_is_computed():
    """Codes are written out where findings are made, so that the tests above see all of them."""
    for path, tree in sources().items():
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and node.args:
                name = getattr(node.func, "attr", getattr(node.func, "id", ""))
                if name in MAKERS:
                    assert not isinstance(node.args[0], ast.JoinedStr | ast.BinOp), path


def test_codes_are_found_however_they_are_written():
    """The scan sees calls, choices, tuples and returned codes."""
    source = (
        'Problem("a-b" if x else "c", 1)\n'
        'self.problems.append(("d", t, l, c, "words"))\n'
        'def f() -> Refusal | None:\n    return ("e", "words", "cure")\n'
        'source.problem("F g", 1)\n'
    )
    assert sorted(codes_in(source)) == ["a-b", "c", "d", "e"]


@pytest.mark.parametrize("code", CODES)
def test_reason_and_cure_are_sentences(code):
    """Each code says in plain sentences why it matters and what to do."""
    about = CODES[code]
    assert FORM.fullmatch(about.code)
    for words in (about.why, about.cure):
        assert words[0].isupper() or words[0].isdigit()
        assert words.endswith(".")
        assert "!" not in words


def test_groups_are_in_the_order_of_work():
    """Groups stand together, in the order in which a guide is made."""
    groups = list(dict.fromkeys(about.group for about in CODES.values() if about.group))
    assert set(groups) == set(CodeGroup)
    listed = [line.lower() for line in list_codes().splitlines() if line and line[0] != " "]
    assert listed == [str(group) for group in CodeGroup]


def test_explain_tells_everything():
    """One code is explained with group, weight, reason and cure; a slip gets a hint."""
    words = explain("order-rule")
    for part in ("order-rule", "steps", Severity.ERROR, "why", "cure"):
        assert part in words
    with pytest.raises(UsageError, match='did you mean "order-rule"'):
        explain("order-rul")
