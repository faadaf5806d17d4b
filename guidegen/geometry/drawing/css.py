"""Style sheets and style attributes in → their declarations, what they would load, what is safe.

The only module that imports tinycss2. Its tokens are looked at, never the text itself: a comment
inside a string is no comment, and what hides behind one is found.
"""

import re
from collections.abc import Collection, Iterable, Iterator
from typing import Any

import tinycss2  # type: ignore[import-untyped]

type Css = str | Iterable[object]
"""A text, or tokens of one."""

MAX_CSS = 200_000
"""Characters of one style. Our choice: a hundred times what editors write."""
MAX_DEPTH = 20
"""Brackets inside one another. Our choice: styles of pictures need three."""

INNER = re.compile(r"#[^\s()\"'<>]+")
"""A reference to something in the same file."""

_LOADING = frozenset(
    ("url", "src", "image", "image-set", "-webkit-image-set", "cross-fade", "element")
)
"""Functions that fetch what they name; CSS Values Level 4, CSS Images Level 4."""
_PLAIN = frozenset(
    {"rgb", "rgba", "hsl", "hsla", "hwb", "lab", "lch", "oklab", "oklch", "calc", "min", "max"}
    | {"clamp", "matrix", "translate", "translatex", "translatey", "scale", "scalex", "scaley"}
    | {"rotate", "skew", "skewx", "skewy"}
)
"""Functions that give a colour, a number or a transform, and load nothing."""
_SELECTOR = re.compile(r"[\w\-.#*,>+~\s]{1,2000}")
"""Names, classes and ids, one inside or beside another."""
_FAULTY = ("error", "at-keyword", "{} block", "[] block")


def loads(css: str) -> str | None:
    """The first thing outside the file that a style would fetch or run; None for nothing."""
    for token, depth in _tokens(tinycss2.parse_component_value_list(css)):
        if depth > MAX_DEPTH:
            return "brackets in brackets"
        match token.type:
            case "url" if not INNER.fullmatch(token.value.strip()):
                return str(token.value)
            case "error" if token.kind in {"bad-url", "eof-in-url"}:
                return "url("
            case "at-keyword" if token.lower_value == "import":
                return "@import"
            case "function" if token.lower_name in _LOADING:
                target = _named(token.arguments)
                if target and not INNER.fullmatch(target):
                    return target
            case "function" if token.lower_name == "expression":
                return "expression("
            case "ident" if token.lower_value in {"-moz-binding", "javascript", "url", "src"}:
                return str(token.value)
    return None


def _named(arguments: list[Any]) -> str:
    """What a function that loads is given, as it is written."""
    strings = [token.value for token, _ in _tokens(arguments) if token.type == "string"]
    return str(strings[0]).strip() if strings else str(tinycss2.serialize(arguments)).strip()


def _tokens(tokens: Iterable[Any]) -> Iterator[tuple[Any, int]]:
    """All tokens, those in brackets too, each with how many brackets it is in."""
    waiting = [(iter(tokens), 0)]
    while waiting:
        inside, depth = waiting[-1]
        token = next(inside, None)
        if token is None:
            waiting.pop()
            continue
        yield token, depth
        within = getattr(token, "arguments", None) or getattr(token, "content", None)
        if within and depth <= MAX_DEPTH:
            waiting.append((iter(within), depth + 1))


def declarations(css: Css) -> list[tuple[str, str, bool]]:
    """Property in lower case, value and whether it is important, of a block or an attribute."""
    return [
        (item.lower_name, tinycss2.serialize(item.value).strip(), item.important)
        for item in tinycss2.parse_blocks_contents(css, skip_comments=True, skip_whitespace=True)
        if item.type == "declaration"
    ]


def rules(css: str) -> list[tuple[str, list[object]]]:
    """Selector and block of every rule of a style sheet; rules with an @ are left out."""
    return [
        (tinycss2.serialize(rule.prelude).strip(), rule.content)
        for rule in tinycss2.parse_stylesheet(css, skip_comments=True, skip_whitespace=True)
        if rule.type == "qualified-rule"
    ]


def safe_value(value: str) -> str:
    """A value written anew from its tokens; empty where one of them is not known to be harmless."""
    tokens = tinycss2.parse_component_value_list(value, skip_comments=True)
    for token, depth in _tokens(tokens):
        refused = depth > 3 or token.type in _FAULTY
        if token.type == "url":
            refused = not INNER.fullmatch(token.value)
        elif token.type == "function":
            name = token.lower_name
            inner = name == "url" and INNER.fullmatch(_named(token.arguments))
            refused = not (name in _PLAIN or inner)
        if refused:
            return ""
    return str(tinycss2.serialize(tokens)).strip()


def safe_declarations(css: Css, properties: Collection[str]) -> str:
    """The declarations of known properties with harmless values, written anew."""
    kept = []
    for name, value, important in declarations(css):
        safe = safe_value(value) if name in properties else ""
        if safe:
            kept.append(f"{name}: {safe}{' !important' if important else ''}")
    return "; ".join(kept)


def safe_sheet(css: str, properties: Collection[str]) -> str:
    """A style sheet written anew: plain selectors, known properties, harmless values, no @."""
    lines = []
    for selector, block in rules(css):
        kept = safe_declarations(block, properties) if _SELECTOR.fullmatch(selector) else ""
        if kept:
            lines.append(f"{selector} {{ {kept} }}")
    return "\n".join(lines)
