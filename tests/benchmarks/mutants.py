"""A module's text in → its mutants out: one operator, constant, branch or statement changed.

What no test should pin is left alone: docstrings, annotations, imports, names of looks in drawings,
and the words of messages, which the catalogue and tests of catalogues hold.
"""

import ast
from collections.abc import Iterator
from dataclasses import dataclass

OPERATORS: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub,
    ast.Sub: ast.Add,
    ast.Mult: ast.Div,
    ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult,
    ast.Pow: ast.Mult,
    ast.BitOr: ast.BitAnd,
    ast.BitAnd: ast.BitOr,
}
COMPARISONS: dict[type[ast.cmpop], tuple[type[ast.cmpop], ...]] = {
    ast.Lt: (ast.LtE, ast.GtE),
    ast.LtE: (ast.Lt, ast.Gt),
    ast.Gt: (ast.GtE, ast.LtE),
    ast.GtE: (ast.Gt, ast.Lt),
    ast.Eq: (ast.NotEq,),
    ast.NotEq: (ast.Eq,),
    ast.Is: (ast.IsNot,),
    ast.IsNot: (ast.Is,),
    ast.In: (ast.NotIn,),
    ast.NotIn: (ast.In,),
}
SAID = {"say", "many", "within", "msg", "text", "title_strip"}
"""Functions whose strings are words for readers."""
LOOKS = {"css", "help", "title", "key"}
"""Names of arguments whose strings are looks or words."""


@dataclass(frozen=True, slots=True)
class Mutant:
    """One change of one file."""

    line: int
    """From 1."""
    start: int
    end: int
    """Bytes of the text that are replaced."""
    text: str
    what: str
    """'<= → <': what changed, in a few words."""
    kind: str
    """operator, constant, branch or statement."""

    def applied(self, source: str) -> str:
        """The source with the change."""
        data = source.encode()
        return (data[: self.start] + self.text.encode() + data[self.end :]).decode()


def mutants_of(source: str) -> list[Mutant]:
    """All mutants of a module, in the order of its text."""
    tree = ast.parse(source)
    starts = [0]
    for line in source.encode().splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    found = []
    for node, new, what, kind in _changes(tree):
        start = starts[node.lineno - 1] + node.col_offset
        end = starts[(node.end_lineno or node.lineno) - 1] + (node.end_col_offset or 0)
        text = ast.unparse(new) if new is not None else "pass"
        if isinstance(new, ast.expr):
            text = f"({text})"
        found.append(Mutant(node.lineno, start, end, text, what, kind))
    return sorted(found, key=lambda one: (one.start, one.end, one.what))


type _Change = tuple[ast.expr | ast.stmt, ast.AST | None, str, str]


def _changes(tree: ast.AST) -> Iterator[_Change]:
    for child in _worth(tree):
        if isinstance(child, ast.BinOp | ast.Compare | ast.BoolOp | ast.UnaryOp):
            yield from _operators(child)
        elif isinstance(child, ast.Constant):
            yield from _constants(child)
        elif isinstance(child, ast.If | ast.IfExp | ast.While):
            yield child.test, ast.UnaryOp(ast.Not(), child.test), "condition turned", "branch"
        elif isinstance(child, ast.stmt):
            yield from _statements(child)
        yield from _changes(child)


def _worth(node: ast.AST) -> Iterator[ast.AST]:
    """Children that may be changed: no docstrings, annotations, imports, looks or words."""
    said = isinstance(node, ast.Call) and _name(node.func) in SAID
    for field, value in ast.iter_fields(node):
        if field in {"annotation", "returns", "decorator_list", "type_params", "exc", "msg"}:
            continue
        for child in value if isinstance(value, list) else [value]:
            if not isinstance(child, ast.AST) or _is_left(child, said=said):
                continue
            yield child


def _is_left(child: ast.AST, *, said: bool) -> bool:
    if isinstance(child, ast.Import | ast.ImportFrom | ast.TypeAlias | ast.JoinedStr | ast.Assert):
        return True
    if isinstance(child, ast.keyword) and child.arg in LOOKS:
        return True
    if isinstance(child, ast.Expr) and isinstance(child.value, ast.Constant):
        return True
    return said and isinstance(child, ast.Constant) and isinstance(child.value, str)


def _name(function: ast.expr) -> str:
    if isinstance(function, ast.Attribute):
        return function.attr
    return function.id if isinstance(function, ast.Name) else ""


def _operators(node: ast.BinOp | ast.Compare | ast.BoolOp | ast.UnaryOp) -> Iterator[_Change]:
    if isinstance(node, ast.BinOp):
        other = OPERATORS.get(type(node.op))
        if other is not None:
            yield _operator(node, ast.BinOp(node.left, other(), node.right))
    elif isinstance(node, ast.Compare) and len(node.ops) == 1:
        for change in COMPARISONS[type(node.ops[0])]:
            yield _operator(node, ast.Compare(node.left, [change()], node.comparators))
    elif isinstance(node, ast.BoolOp):
        turned = ast.Or() if isinstance(node.op, ast.And) else ast.And()
        yield _operator(node, ast.BoolOp(turned, node.values))
    elif isinstance(node, ast.UnaryOp) and not isinstance(node.operand, ast.Constant):
        yield _operator(node, node.operand)


def _operator(node: ast.expr, new: ast.expr) -> _Change:
    return node, new, f"{_short(node)} → {_short(new)}", "operator"


def _short(node: ast.AST) -> str:
    text = " ".join(ast.unparse(node).split())
    return text if len(text) <= 60 else f"{text[:57]}…"


def _constants(node: ast.Constant) -> Iterator[_Change]:
    value = node.value
    new: object
    if isinstance(value, bool):
        new = not value
    elif isinstance(value, int | float):
        new = value + 1
    elif isinstance(value, str) and value.strip():
        new = ""  # tests look for words in messages: letters added to them would not be seen
    else:
        return
    yield node, ast.Constant(new), f"{_short(node)} → {new!r}"[:90], "constant"


def _statements(node: ast.stmt) -> Iterator[_Change]:
    """Statements that may be left out, and what is given back."""
    if isinstance(node, ast.Expr | ast.AugAssign | ast.Continue | ast.Break):
        yield node, None, f"without {_short(node)}", "statement"
    elif isinstance(node, ast.Return) and node.value is not None:
        new = ast.Return(ast.Constant(None))
        yield node, new, f"{_short(node)} → return None", "statement"
