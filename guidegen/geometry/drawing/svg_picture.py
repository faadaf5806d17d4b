"""An SVG picture of an author's in → the same picture written anew, of nothing but what draws.

A browser that opens the file itself takes everything in it for its own. So the bytes that came are
never published: elements, attributes and styles are copied where lists here know them, and what a
reader's machine would have to draw is counted first, however a few lines refer to one another.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from xml.sax.saxutils import escape, quoteattr

from guidegen.buildfile.yaml.characters import forbidden_at
from guidegen.geometry.drawing.css import (
    INNER,
    MAX_CSS,
    rules,
    safe_declarations,
    safe_sheet,
    safe_value,
)
from guidegen.geometry.drawing.svg_document import (
    SVG_NAMESPACE,
    DrawingError,
    Element,
    SvgDocument,
    read_document,
)

MAX_COST = 20_000
"""Elements that are drawn, each as often as others refer to it. Our choice: as for drawings."""
MAX_REACH = 200
"""Elements inside or behind one another. Our choice: four times the levels of a drawing."""
LETTERS_EACH = 50
"""Letters of words that count as an element. Our choice."""


def _names(words: str) -> frozenset[str]:
    return frozenset(words.split())


PROPERTIES = _names(
    """clip-path clip-rule color color-interpolation color-interpolation-filters cursor display
    dominant-baseline alignment-baseline baseline-shift direction fill fill-opacity fill-rule filter
    flood-color flood-opacity font font-family font-size font-style font-variant font-weight
    font-stretch letter-spacing line-height marker marker-end marker-mid marker-start
    mask mask-type mix-blend-mode opacity overflow paint-order shape-rendering stop-color
    stop-opacity stroke stroke-dasharray stroke-dashoffset stroke-linecap stroke-linejoin
    stroke-miterlimit stroke-opacity stroke-width text-anchor text-decoration text-rendering
    transform transform-origin unicode-bidi vector-effect visibility white-space word-spacing
    writing-mode"""
)
"""Properties that change what is drawn and load nothing but by url(#id); SVG 2, appendix K."""

_MEASURES = _names(
    """class clipPathUnits cx cy d dx dy fx fy fr gradientTransform gradientUnits height id
    lengthAdjust markerHeight markerUnits markerWidth maskContentUnits maskUnits offset orient
    pathLength patternContentUnits patternTransform patternUnits points preserveAspectRatio r refX
    refY rotate rx ry spreadMethod textLength viewBox width x x1 x2 y y1 y2
    filterUnits primitiveUnits in in2 result stdDeviation mode operator k1 k2 k3 k4 values type
    role aria-labelledby aria-describedby aria-hidden"""
)
"""Attributes that say where and how large, and those for readers who cannot see."""

_WORDS = _names("aria-label lang systemLanguage")
"""Attributes of words, which may be any."""

ELEMENTS = _names(
    """svg g a switch defs symbol use path rect circle ellipse line polyline polygon text tspan
    title desc style linearGradient radialGradient stop pattern clipPath mask marker filter
    feBlend feColorMatrix feComposite feFlood feGaussianBlur feMerge feMergeNode feOffset"""
)
"""Elements that draw, or say how."""

_HARMLESS = re.compile(r"[\w\s.,+\-%#]*")
_REFERENCE = re.compile(r"url\(\s*[\"']?#([^\s()\"'<>]+)")
_NAMED = re.compile(r"[.#]?[\w-]+|\*")
_DRAWS_NOTHING = frozenset({"title", "desc", "style"})


@lru_cache(maxsize=64)
def clean_picture(data: bytes, file: str) -> bytes:
    """The picture as SVG of known parts only; the same bytes for the same picture.

    Raises DrawingError for what is refused in any drawing, for things that refer to themselves and
    for more than MAX_COST elements to draw.
    """
    document = read_document(data.decode("utf-8-sig"), file)
    _count(document)
    text = "".join(_written(document.root, is_root=True))
    return f"{text}\n".encode()


def _written(element: Element, *, is_root: bool = False) -> Iterator[str]:
    if element.tag not in ELEMENTS:
        return
    # A link is drawn as a group: where it leads is the author's affair, and no reader needs it.
    tag = "g" if element.tag == "a" else element.tag
    space = f" xmlns={quoteattr(SVG_NAMESPACE)}" if is_root else ""
    yield f"<{tag}{space}{''.join(_attributes(element))}>"
    if tag == "style":
        sheet = safe_sheet((element.text or "")[:MAX_CSS], PROPERTIES)
        yield escape(sheet) if forbidden_at(sheet) < 0 else ""
    else:
        yield escape(element.text or "")
        for child in element:
            yield from _written(child)
            yield escape(child.tail or "")
    yield f"</{tag}>"


def _attributes(element: Element) -> Iterator[str]:
    for name, value in element.attrib.items():
        kept = _kept(name, value)
        # An escape of styles, such as \\1, is one letter once they are read: perhaps one that XML
        # does not allow.
        if kept and forbidden_at(kept) < 0:
            yield f" {'xml:space' if name == 'space' else name}={quoteattr(kept)}"


def _kept(name: str, value: str) -> str:
    """What is kept of an attribute; empty for nothing."""
    if name == "href":
        return value.strip() if INNER.fullmatch(value.strip()) else ""
    if name == "style":
        return safe_declarations(value[:MAX_CSS], PROPERTIES)
    if name == "space":
        return "preserve" if value == "preserve" else ""
    if name in _WORDS or (name in _MEASURES and _HARMLESS.fullmatch(value)):
        return value
    if name in _MEASURES | PROPERTIES and len(value) <= MAX_CSS:
        return safe_value(value)
    return ""


@dataclass
class _Costs:
    """How much of a picture has been counted."""

    document: SvgDocument
    styled: dict[str, list[str]]
    """Ids that style sheets refer to, by what their selectors name: .class, #id, an element."""
    known: dict[Element, int] = field(default_factory=dict)

    def referred(self, element: Element) -> list[Element]:
        """What an element refers to by href and url(#id), in attributes and in style sheets."""
        texts = [value for value in element.attrib.values() if "url" in value.lower()]
        names = [name for text in texts for name in _REFERENCE.findall(text)]
        if element.get("href", "").strip().startswith("#"):
            names.append(element.get("href", "").strip()[1:])
        keys = [element.tag, f"#{element.get('id')}", "*"]
        keys += [f".{name}" for name in element.get("class", "").split()]
        names += [name for key in keys for name in self.styled.get(key, ())]
        return [self.document.ids[name] for name in names if name in self.document.ids]

    def settle(self, element: Element, inside: list[Element]) -> None:
        """Note what an element costs, once everything inside and behind it is known."""
        letters = len(element.text or "") + sum(len(child.tail or "") for child in element)
        own = 0 if element.tag in _DRAWS_NOTHING else 1 + letters // LETTERS_EACH
        # Summed, not walked again: a thing that is used twice costs twice, though it is counted
        # once.
        self.known[element] = own + sum(self.known.get(one, 0) for one in inside)
        if self.known[element] > MAX_COST:
            message = f"brings the picture to more than {MAX_COST} elements"
            raise DrawingError(self.document.problem("drawing-too-large", element, message))


def _count(document: SvgDocument) -> None:
    """Refuse a picture that draws too much: a reference costs what it leads to, each time.

    Every element is settled once, after all that it draws; so counting itself takes no longer than
    the file is, whatever it would unfold to.
    """
    costs = _Costs(document, _styled(document))
    open_ones: set[Element] = set()
    # A list instead of calls: a chain of references may be longer than Python's stack is deep.
    waiting = [(document.root, False)]
    while waiting:
        element, is_left = waiting.pop()
        if element in costs.known:
            continue
        inside = [*element, *costs.referred(element)]
        if is_left:
            open_ones.discard(element)
            costs.settle(element, inside)
            continue
        # Open are those whose insides are still being counted: to meet one of them again is a
        # circle.
        if element in open_ones or len(open_ones) > MAX_REACH:
            message = "refers to itself, or references are nested too deeply"
            raise DrawingError(document.problem("drawing-use", element, message))
        open_ones.add(element)
        # Comes up again after all that it draws, and is settled then.
        waiting.append((element, True))
        waiting.extend((one, False) for one in inside if one not in costs.known)


def _styled(document: SvgDocument) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for sheet in document.root.iter("style"):
        for selector, block in rules((sheet.text or "")[:MAX_CSS]):
            ids = _REFERENCE.findall(safe_declarations(block, PROPERTIES))
            for key in set(_NAMED.findall(selector)) if ids else ():
                found.setdefault(key, []).extend(ids)
    return found
