"""Elements, attributes and styles of an SVG in → what is refused in a drawing, and why.

A drawing of a piece is lines. Whatever runs, loads, shows pixels or points out of the file has no
business in it, and a build must not depend on it (W3C, SVG Integration: the 'secure static mode'
forbids the same things).
"""

import re

type Refusal = tuple[str, str, str]
"""Code, message, cure."""

_SCRIPTS = {"script", "handler", "listener"}
_PICTURES = {"image", "foreignObject", "video", "audio", "iframe", "canvas", "embed", "object"}
_LIVE = {
    "http://www.w3.org/1999/xhtml": "of web pages",
    "http://www.w3.org/1998/Math/MathML": "of formulas",
    "http://www.w3.org/2001/xml-events": "of events",
}
"""Namespaces that browsers act on wherever they stand in an SVG."""
_SPACES = re.compile(r"[\s\x00-\x1f]+")
_INNER = re.compile(r"#[^\s()\"'<>]+")
_ESCAPE = re.compile(r"\\([0-9a-fA-F]{1,6})\s?|\\(.)")
_URL = re.compile(r"(?:url|src|image|image-set)\s*\(\s*[\"']?([^)]*)", re.IGNORECASE)


STYLE_IN_OTHERS: Refusal = (
    "drawing-external",
    "a style inside an element that is not SVG is not allowed",
    "move it to the beginning of the drawing",
)


def refuse_namespace(namespace: str) -> Refusal | None:
    """Why an element of a namespace is refused; None for those that editors keep notes in."""
    if kind := _LIVE.get(namespace):
        return ("drawing-script", f"elements {kind} are not allowed in a drawing", "delete them")
    return None


def refuse_element(tag: str) -> Refusal | None:
    """Why an element is refused; None where it is not."""
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
        if target and not _INNER.fullmatch(target):
            return _external(target)
    if name in {"style", "transform"} or "(" in value:
        return refuse_css(value)
    return None


def refuse_css(css: str) -> Refusal | None:
    """Why a style is refused; None where it is not."""
    plain = _ESCAPE.sub(_unescape, _without_comments(css))
    if re.search(r"@import", plain, re.IGNORECASE):
        return _external("@import")
    for match in _URL.finditer(plain):
        target = match[1].strip().strip("\"'").strip()
        if target and not _INNER.fullmatch(target):
            return _external(target)
    if re.search(r"expression\s*\(|javascript:|-moz-binding", plain, re.IGNORECASE):
        return ("drawing-script", "scripts are not allowed in a style", "delete it")
    return None


def _without_comments(css: str) -> str:
    """CSS without comments; one that never ends hides the rest."""
    kept, position = [], 0
    while (start := css.find("/*", position)) >= 0:
        kept.append(css[position:start])
        end = css.find("*/", start + 2)
        if end < 0:
            return "".join(kept)
        position = end + 2
    return "".join([*kept, css[position:]])


def _unescape(match: re.Match[str]) -> str:
    """A CSS escape as the letter that it stands for (CSS Syntax Level 3, 4.3.7)."""
    if match[2] is not None:
        return match[2]
    code = int(match[1], 16)
    return chr(code) if 0 < code <= 0x10FFFF and not 0xD800 <= code <= 0xDFFF else "\ufffd"


def _external(target: str) -> Refusal:
    return (
        "drawing-external",
        f'"{target[:60]}" points outside the drawing',
        "only #id references inside the file are allowed: copy what it shows into the drawing",
    )
