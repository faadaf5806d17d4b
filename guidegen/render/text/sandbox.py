"""A theme's templates → run without reaching for Python, within bounds of time and memory.

Every loop, call, file, output and text that grows is paid for out of one number of turns for each
page, so that no few letters make endless work. It is a count and no clock: the same page is made or
refused on every machine.
"""

from collections.abc import Callable, Iterable, Mapping, Sized
from contextvars import ContextVar
from functools import wraps
from typing import Any

from jinja2 import Template, TemplateSyntaxError, Undefined, nodes, pass_context
from jinja2.exceptions import SecurityError
from jinja2.runtime import Context, markup_join, str_join
from jinja2.sandbox import ImmutableSandboxedEnvironment
from jinja2.visitor import NodeTransformer

MOST_TURNS = 500_000
"""Turns of one page: of loops, calls, outputs. Our choice: five hundred steps of a hundred turns
each take 50,000."""
TEXT_OF_A_TURN = 200
"""Letters that count as one turn more. Our choice."""
FILE_TURNS = 100
"""Turns that it costs to take in another template. Measured: some thirty times a call's time."""
LONGEST = 1_000_000
"""Letters of a text, or things in a list, that a template puts together. Our choice."""
LARGEST = 10**15
"""Of whole numbers that a template works out. Our choice: more digits cost memory."""

KEPT = frozenset(
    {"abs", "attr", "capitalize", "count", "d", "default", "dictsort", "e", "escape", "first"}
    | {"float", "forceescape", "groupby", "int", "items", "last", "length", "list", "lower"}
    | {"map", "max", "min", "reject", "rejectattr", "reverse", "safe", "select", "selectattr"}
    | {"sort", "striptags", "title", "trim", "truncate", "unique", "upper", "urlencode"}
    | {"wordcount"}
)
"""jinja2's filters that make nothing longer than what they are given."""
_PADDING = frozenset({"format", "format_map", "center", "ljust", "rjust", "zfill", "expandtabs"})
"""Methods of texts whose result may be far longer than the text."""
_PLAIN = (str, int, float, Undefined, type(None))
"""What a template may print: containers would be written out with all that is in them."""

_turns_left: ContextVar[int] = ContextVar("turns_left", default=MOST_TURNS)


def begin_page() -> None:
    """A page begins, with all its turns."""
    _turns_left.set(MOST_TURNS)


def _spend(turns: int) -> None:
    _turns_left.set(_turns_left.get() - turns)
    if _turns_left.get() < 0:
        raise SecurityError(f"loops, calls and texts of one page take more than {MOST_TURNS} turns")


def _spend_on(value: object) -> None:
    """Pay for a text or a list that is gone through, compared or written, and all that it holds."""
    if isinstance(value, str):
        _spend(1 + len(value) // TEXT_OF_A_TURN)
    elif isinstance(value, _CONTAINERS):
        _spend(1 + _weight(value, {}))


_CONTAINERS = (list, tuple, dict, set, frozenset)


def _weight(value: object, known: dict[int, int]) -> int:
    """Things in a container and in those within it, each as often as a comparison meets it.

    Forty lists that hold the one before twice are few things in memory and 2⁴⁰ to compare, in one
    go that no clock of ours can end. `known` has the weight of each container by its id, so that
    the walk itself meets every one of them once. Raises SecurityError for more than LONGEST.
    """
    found = known.get(id(value))
    if found is None:
        parts = [*value, *value.values()] if isinstance(value, dict) else value
        found = len(value) if isinstance(value, Sized) else 0
        if isinstance(parts, _CONTAINERS):
            found += sum(_weight(one, known) for one in parts if isinstance(one, _CONTAINERS))
        _fits(found)
        known[id(value)] = found
    return found


def _paid(value: Any) -> Any:  # noqa: ANN401 - values of templates
    """A value that is compared or put into a new list, paid for."""
    _spend_on(value)
    return value


@pass_context
def _weighed(context: Context, value: Any) -> Any:  # noqa: ANN401 - values of templates
    """A list, tuple or mapping that a template has written down."""
    return _paid(value)


def _fits(length: int) -> None:
    if length > LONGEST:
        raise SecurityError(f"a template puts together more than {LONGEST} letters or things")


@pass_context
def _count_turns(context: Context, items: Iterable[object], cost: int) -> Iterable[object]:
    """What a loop goes through; an error where all loops of the page take too many turns."""
    things = items if isinstance(items, Sized) else tuple(items)
    _spend(cost * len(things))
    return things


@pass_context
def _joined(context: Context, items: list[object]) -> str:
    """What `~` puts together."""
    return _join(context, items)


@pass_context
def _join(context: Context, items: Iterable[Any], between: str = "", attribute: str = "") -> str:
    """Texts and numbers, one after another; `attribute` of each where it is named."""
    if attribute:
        items = [context.environment.getattr(item, attribute) for item in items]
    parts = [_printed(item) for item in items]
    if between and parts:
        parts = [part for one in parts for part in (between, one)][1:]
    length = sum(len(str(part)) for part in parts)
    _fits(length)
    _spend(1 + len(parts) + length // TEXT_OF_A_TURN)
    if any(hasattr(part, "__html__") for part in parts):
        return str(markup_join(parts)) if not context.eval_ctx.autoescape else markup_join(parts)
    return str_join(parts)


@pass_context
def _replace(context: Context, text: str, old: str, new: str) -> str:
    """The text with every `old` replaced."""
    _fits(len(text) + text.count(old) * len(new))
    _spend_on(text)
    return text.replace(old, new)


@pass_context
def _round(context: Context, number: float, precision: int = 0) -> float:
    """The number with few decimals."""
    if not -15 <= precision <= 15:
        raise SecurityError("round is for up to 15 decimals")
    return round(number, precision)


def _printed(value: Any) -> Any:  # noqa: ANN401 - values of templates
    """A value that may be printed, paid for."""
    if not isinstance(value, _PLAIN) and not hasattr(value, "__html__"):
        raise SecurityError(f"cannot print a {type(value).__name__} as it is")
    _spend_on(value)
    return value


def _counted(filter_: Callable[..., Any]) -> Callable[..., Any]:
    """A filter that pays for what it goes through."""

    @wraps(filter_)
    def run(*values: Any, **named: Any) -> Any:  # noqa: ANN401 - values of templates
        for value in values:
            _spend_on(value)
        return filter_(*values, **named)

    return run


def _through(name: str, node: nodes.Expr) -> nodes.Filter:
    return nodes.Filter(node, name, [], [], None, None, lineno=node.lineno)


class _Bounds(NodeTransformer):
    """Loops are counted, and `~`, lists and comparisons go through filters that are."""

    def visit_Compare(self, node: nodes.Compare) -> nodes.Node:  # noqa: N802 - jinja2 asks for this name
        """The same of sides that are paid for."""
        self.generic_visit(node)
        node.expr = _through("weighed", node.expr)
        for operand in node.ops:
            operand.expr = _through("weighed", operand.expr)
        return node

    def visit_List(self, node: nodes.List) -> nodes.Node:  # noqa: N802 - jinja2 asks for this name
        """The same, weighed with all that it holds."""
        self.generic_visit(node)
        return _through("weighed", node)

    def visit_Tuple(self, node: nodes.Tuple) -> nodes.Node:  # noqa: N802 - jinja2 asks for this name
        """The same, unless values are put into it."""
        self.generic_visit(node)
        return _through("weighed", node) if node.ctx == "load" else node

    def visit_Dict(self, node: nodes.Dict) -> nodes.Node:  # noqa: N802 - jinja2 asks for this name
        """The same, weighed with all that it holds."""
        self.generic_visit(node)
        return _through("weighed", node)

    def visit_Concat(self, node: nodes.Concat) -> nodes.Node:  # noqa: N802 - jinja2 asks for this name
        """The same by a filter."""
        self.generic_visit(node)
        parts = nodes.List(node.nodes, lineno=node.lineno)
        return nodes.Filter(parts, "joined", [], [], None, None, lineno=node.lineno)

    def visit_For(self, node: nodes.For) -> nodes.Node:  # noqa: N802 - jinja2 asks for this name
        """The same over what is counted."""
        self.generic_visit(node)
        text = sum(len(data.data) for data in node.find_all(nodes.TemplateData))
        cost = nodes.Const(1 + text // TEXT_OF_A_TURN)
        node.iter = nodes.Filter(node.iter, "turns", [cost], [], None, None, lineno=node.lineno)
        return node


class Sandbox(ImmutableSandboxedEnvironment):
    """jinja2's sandbox without what makes endless text, numbers or work from a few letters."""

    intercepted_binops = frozenset({"+", "-", "*", "/", "//", "%", "**"})

    def __init__(self, lengths: Mapping[str, int], **options: Any) -> None:  # noqa: ANN401 - handed on as they are
        """`lengths` are those of the templates, by name."""
        super().__init__(finalize=_printed, **options)
        self._lengths = lengths
        own = {"joined": _joined, "join": _join, "replace": _replace, "round": _round}
        self.filters = {
            **{name: _counted(self.filters[name]) for name in sorted(KEPT)},
            **own,
            "turns": _count_turns,
            "weighed": _weighed,
        }
        tests: dict[str, Any] = {**self.tests}
        self.tests.update({name: _counted(test) for name, test in tests.items()})
        for name in ("lipsum", "range"):
            del self.globals[name]

    def _generate(
        self,
        source: nodes.Template,
        name: str | None,
        filename: str | None,
        defer_init: bool = False,
    ) -> str:
        """Count the turns of every loop, so that loops within loops come to an end.

        jinja2 has this hook to generate code in another way.
        """
        for loop in source.find_all(nodes.For):
            if loop.recursive:
                raise TemplateSyntaxError(
                    "recursive loops are not for templates", loop.lineno, name, filename
                )
        bounded = _Bounds().visit(source)
        bounded.set_environment(self)
        return super()._generate(bounded, name, filename, defer_init)

    def _load_template(self, name: str, globals: Any) -> Template:  # noqa: ANN401 - jinja2's own names
        """Pay for a template that is included or imported: it may do so with itself."""
        _spend(FILE_TURNS + self._lengths.get(name, 0) // TEXT_OF_A_TURN)
        return super()._load_template(name, globals)

    def call_binop(self, context: Context, operator: str, left: Any, right: Any) -> Any:  # noqa: ANN401 - values of templates
        """Arithmetic of numbers, and texts or lists after one another; no powers."""
        numbers = all(isinstance(side, int | float) for side in (left, right))
        if operator == "**" or not (numbers or operator == "+"):
            raise SecurityError(f"{operator} is for plain numbers only")
        if not numbers and isinstance(left, Sized) and isinstance(right, Sized):
            _fits(len(left) + len(right))
            _spend_on(left)
            _spend_on(right)
        result = super().call_binop(context, operator, left, right)
        if isinstance(result, int) and abs(result) > LARGEST:
            raise SecurityError("a number in the template is too large")
        return result

    def call(__self, __context: Context, __obj: Any, *values: Any, **named: Any) -> Any:  # noqa: ANN401, N805 - jinja2's own names, so that any may be given
        """A call, paid for with what it gives: macros may call themselves twice."""
        _spend(1)
        owner = getattr(__obj, "__self__", None)
        for value in (owner, values, named):
            if isinstance(value, _CONTAINERS) and value:
                _spend_on(value)
        if isinstance(owner, str):
            most = max((len(value) for value in values if isinstance(value, Sized)), default=0)
            _fits(len(owner) * most)
            if isinstance(values[0] if values else None, Iterable):
                for one in values[0]:
                    _spend_on(one)
        result = super().call(__context, __obj, *values, **named)
        _spend_on(result)
        return result

    def is_safe_attribute(self, obj: Any, attr: str, value: Any) -> bool:  # noqa: ANN401 - values of templates
        """Methods that pad a text to any width, and those of numbers and bytes, are refused too."""
        if isinstance(obj, int | float | bytes) or (
            isinstance(obj, str) and attr in _PADDING | {"translate", "encode"}
        ):
            return False
        return super().is_safe_attribute(obj, attr, value)

    def wrap_str_format(self, value: Any) -> Any:  # noqa: ANN401 - values of templates
        """Formats can pad as well; jinja2 asks for them here rather than as an attribute."""
        if super().wrap_str_format(value) is not None:
            raise SecurityError("format is not for templates")
        return None
