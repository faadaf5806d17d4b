"""Elements, attributes and styles of an SVG in → what is refused in a drawing, and why.

A drawing of a piece is lines. Whatever runs, loads, shows pixels or points out of the file has no
business in it, and a build must not depend on it (W3C, SVG Integration: the 'secure static mode'
forbids the same things).
"""

import re

from guidegen.geometry.drawing.css import INNER, MAX_CSS, loads

type Refusal = tuple[str, str, str]
"""Code, message, cure."""

_SCRIPTS = {"script", "handler", "listener"}
_PICTURES = {"image", "video", "audio", "iframe", "canvas", "embed", "object"}
_LIVE = {
    "http://www.w3.org/1999/xhtml": "of web pages",
    "http://www.w3.org/1998/Math/MathML": "of formulas",
    "http://www.w3.org/2001/xml-events": "of events",
}
"""Namespaces that browsers act on wherever they stand in an SVG."""
_SPACES = re.compile(r"[\s\x00-\x1f]+")
_SUSPECT = re.compile(
    r"\\|url|src|image|import|element|cross|expression|javascript|binding|/\*", re.IGNORECASE
)
"""Without any of these a style loads nothing, and need not be taken apart."""

_DOCTYPE = re.compile(
    r"(\ufeff?\s*+(?><\?xml[^<>]*\?>)?+(?:\s++|(?><!--.*?-->))*+)"
    r"(<!DOCTYPE\s++svg(?:\s++(?:PUBLIC\s*+\"[^\"<>]*+\"|SYSTEM)\s*+\"[^\"<>]*+\")?+\s*+>)",
    re.DOTALL,
)
"""A document type without a word of its own, as editors write it. Every quantifier keeps what it
took, so that a file of nothing but comments is gone through once."""

STYLE_IN_OTHERS: Refusal = (
    "drawing-external",
    "a style inside an element that is not SVG is not allowed",
    "move it to the beginning of the drawing",
)


FOREIGN: Refusal = (
    "drawing-picture",
    "foreignObject is not allowed in a drawing: only lines can be cut",
    "trace it as a path, or delete it",
)


def refuse_namespace(namespace: str) -> Refusal | None:
    """Why an element of a namespace is refused; None for those that editors keep notes in."""
    if kind := _LIVE.get(namespace):
        return ("drawing-script", f"elements {kind} are not allowed in a drawing", "delete them")
    return None


def refuse_element(tag: str, parent: str) -> Refusal | None:
    """Why an element inside of a parent is refused; None where it is not."""
    # Some editors put one into a switch, for what only they can read; what stands in it is
    # refused.
    if parent == "foreignObject" or (tag == "foreignObject" and parent != "switch"):
        return FOREIGN
    if tag in _SCRIPTS:
        return ("drawing-script", "scripts are not allowed in a drawing", "delete the script")
    if tag in _PICTURES:
        return (
            "drawing-picture",
            f"{tag} is not allowed in a drawing: only lines can be cut",
            "trace it as a path, or delete it",
        )
    return None


def refuse_attribute(tag: str, name: str, value: str) -> Refusal | None:
    """Why an attribute is refused; None where it is not."""
    if re.fullmatch(r"on[a-zA-Z]+", name):
        return ("drawing-script", f"the event handler {name} is not allowed", "delete it")
    if name == "attributeName" and re.fullmatch(r"(?:\w+:)?(?:href|on[a-zA-Z]+)", value.strip()):
        return ("drawing-script", f"an animation of {value.strip()} is not allowed", "delete it")
    if name in {"href", "src"}:
        target = _SPACES.sub("", value)
        if target and not INNER.fullmatch(target):
            return _external(target)
    if name in {"style", "transform"} or "(" in value:
        return refuse_css(value)
    return None


def refuse_css(css: str) -> Refusal | None:
    """Why a style is refused; None where it is not."""
    if not _SUSPECT.search(css):
        return None
    if len(css) > MAX_CSS:
        message = f"more than {MAX_CSS} characters of styles are not allowed"
        return ("drawing-too-large", message, "delete what the drawing does not need")
    target = loads(css)
    if target is None:
        return None
    if target in {"expression(", "-moz-binding"} or target.lower().startswith("javascript"):
        return ("drawing-script", "scripts are not allowed in a style", "delete it")
    return _external(target)


def _external(target: str) -> Refusal:
    return (
        "drawing-external",
        f'"{target[:60]}" points outside the drawing',
        "only #id references inside the file are allowed: copy what it shows into the drawing",
    )


def without_doctype(text: str) -> str:
    """The text with a plain document type blanked out, lines and columns as they were.

    With it expat would pass over entities that nobody declared: a document type that it must not
    fetch might have done so. Without it each is an error.
    """
    found = _DOCTYPE.match(text)
    if found is None:
        return text
    return found[1] + re.sub(r"[^\n\r]", " ", found[2]) + text[found.end() :]
