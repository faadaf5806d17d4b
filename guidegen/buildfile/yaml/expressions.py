"""Arithmetic on measurements: text in → checked expression out, numbers out of that.

A walker over Python's own syntax tree that knows numbers, names, + - * / ** % and a handful of
functions, and refuses everything else. Lengths carry their unit in the text: `3/4 in`, `60 cm`,
`1 1/2 in`; a number without a unit is millimetres (or degrees, or a count: the field says which).
Lengths of other parts are names too, written as questions: `edge(cuff, top) + 8`.
"""

import ast
import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from guidegen.buildfile.yaml.asks import LENGTHS, Ask, form_of, read_ask, take_asks
from guidegen.problems import did_you_mean
from guidegen.units import MM_PER_UNIT

MAX_LENGTH = 300
"""Characters in one expression. Our choice: the longest honest one has about 80."""
MAX_NUMBER = 1e9
"""Largest magnitude of any intermediate result: a thousand kilometres in mm, so always a slip."""
MAX_NESTING = 20
"""Levels of brackets."""

_LENGTH = re.compile(
    r"(?<![\w.])(?P<number>(?:\d+\s+)?\d+\s*/\s*\d+|\d+(?:\.\d+)?|\.\d+)\s*(?P<unit>mm|cm|m|in)\b(?!\s*\()"
)

_UNIT_LIKE = re.compile(
    r"(?<![\w.])\d+(?:\.\d+)?(?![eE][+-]?\d)\s*(?!(?:if|else|and|or|not|is|in|for)\b)"
    r"(?P<unit>[A-Za-z]\w*|[\"'\u2032\u2033])(?![\w(])"
)
"""A number with a word or inch mark behind it that is no unit, such as 60 ft or 3/4"."""

_FOREIGN_NUMBER = re.compile(r"(?<![\w.])(?:0[xXoObB]\w*|\d[\d.]*_\w*)")
"""Numbers that Python's syntax knows and build files do not: 0x8c, 1_40."""

FUNCTIONS: dict[str, Callable[..., float]] = {
    "min": min,
    "max": max,
    "abs": abs,
    "round": lambda value: float(round(value)),
    "floor": lambda value: float(math.floor(value)),
    "ceil": lambda value: float(math.ceil(value)),
    "sqrt": math.sqrt,
    "sin": lambda degrees: math.sin(math.radians(degrees)),
    "cos": lambda degrees: math.cos(math.radians(degrees)),
    "tan": lambda degrees: math.tan(math.radians(degrees)),
}
"""Functions that an expression may call; angles in degrees."""

CONSTANTS: dict[str, float] = {"pi": math.pi}
"""Names that are always there."""


class ExpressionError(ValueError):
    """The expression cannot be read or has no finite value; the message is for the author."""


@dataclass(frozen=True)
class Expression:
    """A number that may depend on measurements. Equal when written alike."""

    text: str
    """As the author wrote it."""
    names: frozenset[str] = frozenset()
    """Measurements and values that it needs, and lengths of parts as they are asked for."""
    tree: ast.expr = field(default_factory=lambda: ast.Constant(0), compare=False, repr=False)

    def value(self, values: Mapping[str, float]) -> float:
        """The number, with `values` for names. Raises ExpressionError."""
        return _evaluate(self.tree, values)

    @property
    def asks(self) -> tuple[Ask, ...]:
        """Lengths of other parts that it needs, in the order of the alphabet."""
        return tuple(ask for name in sorted(self.names) if (ask := read_ask(name)))

    def __str__(self) -> str:
        return self.text


class LengthMissingError(ExpressionError):
    """What is asked for belongs to a part that could not be made: that part tells why."""


def parse_expression(source: object) -> Expression:
    """An expression from a number or a text. Raises ExpressionError with what was expected."""
    if isinstance(source, Expression):
        return source
    if isinstance(source, bool) or not isinstance(source, int | float | str):
        raise ExpressionError("expected a number or arithmetic such as calf + 20")
    text = source.strip() if isinstance(source, str) else _plain_number(source)
    if not text:
        raise ExpressionError("expected a number or arithmetic, found nothing")
    if len(text) > MAX_LENGTH:
        raise ExpressionError(f"arithmetic longer than {MAX_LENGTH} characters")
    _check_brackets(text)
    if foreign := _FOREIGN_NUMBER.search(text):
        raise ExpressionError(
            f'"{_short(foreign[0])}" is no number; expected digits and a full stop, as in 140.5'
        )
    asks: list[Ask] = []
    code = _LENGTH.sub(_length_in_mm, take_asks(text, asks))
    if unit := _UNIT_LIKE.search(code):
        *most, last = MM_PER_UNIT
        word = unit["unit"]
        # Two letters are meant for a unit, more of them most often for a measurement.
        product = f"{unit[0].removesuffix(word).rstrip()}*{word}"
        star = f", or a star between them, as in {_short(product)}" if len(word) > 2 else ""
        raise ExpressionError(
            f'"{_short(word)}" is no unit; expected {", ".join(most)} or {last}, '
            f"as in 60 cm or 3/4 in{star}"
        )
    try:
        tree = ast.parse(code, mode="eval").body
    except (SyntaxError, ValueError, MemoryError, RecursionError):
        raise ExpressionError(
            f'cannot read "{_short(text)}" as arithmetic; expected something like '
            "calf + 20, 3/4 in or 2*pi*(backing + 5)"
        ) from None
    _name_asks(tree, asks)
    names: set[str] = set()
    _check(tree, names, depth=0)
    return Expression(text, frozenset(names), tree)


def _name_asks(tree: ast.expr, asks: list[Ask]) -> None:
    """Give each question its own name: nothing that an author may call a value looks like one."""
    written = {f"_ask_{number}": str(ask) for number, ask in enumerate(asks)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Name):
            node.id = written.get(node.id, node.id)


def _plain_number(number: float) -> str:
    return str(int(number)) if float(number).is_integer() else repr(float(number))


def _length_in_mm(match: re.Match[str]) -> str:
    """'1 1/2 in' -> '(38.1)'. Fractions are worked out here, so 3/4 in is one number."""
    whole, _, rest = match["number"].partition("/")
    if not rest:
        number = float(whole)
    else:
        *units, numerator = whole.split()
        if float(rest) == 0:
            raise ExpressionError(f'"{match[0]}" divides by zero')
        number = (float(units[0]) if units else 0.0) + float(numerator) / float(rest)
    return f"({number * MM_PER_UNIT[match['unit']]!r})"


def _check_brackets(text: str) -> None:
    depth = 0
    for letter in text:
        depth += (letter in "([{") - (letter in ")]}")
        if depth > MAX_NESTING:
            raise ExpressionError(f"more than {MAX_NESTING} levels of brackets")


def _check(node: ast.expr, names: set[str], depth: int) -> None:
    """Refuse all but arithmetic, and collect the names."""
    if depth > 4 * MAX_NESTING:
        raise ExpressionError("the arithmetic is nested too deeply")
    for child in _children(node, names):
        _check(child, names, depth + 1)


def _children(node: ast.expr, names: set[str]) -> list[ast.expr]:
    """What an allowed node is made of; a name is added to `names`."""
    match node:
        case ast.Constant(value=int() | float() as number) if not isinstance(number, bool):
            if abs(number) > MAX_NUMBER:
                raise ExpressionError("a number in it is too large")
            return []
        case ast.Name(id=name):
            if name in FUNCTIONS:
                raise ExpressionError(f"{name} is a function and needs brackets: {name}(…)")
            if name not in CONSTANTS:
                names.add(name)
            return []
        case ast.BinOp(left=left, op=op, right=right):
            if type(op) not in _OPERATORS:
                raise ExpressionError(f"expected + - * / % or **, found {_symbol(op)}")
            return [left, right]
        case ast.UnaryOp(op=ast.UAdd() | ast.USub(), operand=operand):
            return [operand]
        case ast.Call(func=ast.Name(id=name), args=arguments, keywords=[]):
            if name in LENGTHS:
                raise ExpressionError(f"expected {form_of(name)}, with names of the guide")
            if name not in FUNCTIONS:
                hint = did_you_mean(name, [*FUNCTIONS, *LENGTHS])
                raise ExpressionError(f'no function "{name}"{hint}')
            return arguments
    raise ExpressionError("expected arithmetic with numbers and measurement names only")


def _symbol(op: ast.operator) -> str:
    symbols: dict[type[ast.operator], str] = {
        ast.BitXor: "^ (write ** for a power)",
        ast.FloorDiv: "// (write floor(a / b))",
        ast.BitOr: "|",
        ast.BitAnd: "&",
        ast.MatMult: "@",
    }
    return symbols.get(type(op), "another operator")


def _power(base: float, exponent: float) -> float:
    if abs(exponent) > 8:
        raise ExpressionError(f"the power {exponent:.6g} is too large (8 at most)")
    result = base**exponent
    if isinstance(result, complex):
        raise ExpressionError("a root of a negative number has no value")
    return float(result)


_OPERATORS: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: lambda a, b: a + b,
    ast.Sub: lambda a, b: a - b,
    ast.Mult: lambda a, b: a * b,
    ast.Div: lambda a, b: a / b,
    ast.Mod: lambda a, b: a % b,
    ast.Pow: _power,
}


def _evaluate(node: ast.expr, values: Mapping[str, float]) -> float:
    try:
        result = _compute(node, values)
    except ExpressionError:
        raise  # said already, and a ValueError itself
    except ZeroDivisionError:
        raise ExpressionError("divides by zero") from None
    except (OverflowError, ValueError):
        raise ExpressionError("has no value: a root or a power is out of range") from None
    except TypeError:
        raise ExpressionError("a function has too few or too many arguments") from None
    if not math.isfinite(result) or abs(result) > MAX_NUMBER:
        raise ExpressionError("the result is not a sensible number")
    return result


def _compute(node: ast.expr, values: Mapping[str, float]) -> float:
    match node:
        case ast.Constant(value=number):
            return float(number)  # type: ignore[arg-type]  # _check allows numbers only
        case ast.Name(id=name):
            if name in CONSTANTS:
                return CONSTANTS[name]
            if name not in values:
                if read_ask(name) is not None:
                    raise ExpressionError(f"{name} is known in parts and in what is made of them")
                raise ExpressionError(
                    f'no measurement or value "{name}"{did_you_mean(name, values)}'
                )
            return values[name]
        case ast.BinOp(left=left, op=op, right=right):
            return _OPERATORS[type(op)](_evaluate(left, values), _evaluate(right, values))
        case ast.UnaryOp(op=op, operand=operand):
            number = _evaluate(operand, values)
            return -number if isinstance(op, ast.USub) else number
        case ast.Call(func=ast.Name(id=name), args=arguments):
            return float(FUNCTIONS[name](*[_evaluate(argument, values) for argument in arguments]))
    raise ExpressionError("expected arithmetic")  # pragma: no cover - _check lets nothing else by


def _short(text: str) -> str:
    return text if len(text) <= 40 else text[:37] + "…"
