"""HTML that is XML as well, read by Python's reader of XML.

tinyhtml5 reads letter by letter in Python, for a tenth of the time of a short document. HTML is
read otherwise than XML only where elements are left open, end one another or are moved out of where
they stand, and where letters are not what they seem. Templates write hardly any of that. It is
checked here by the rules of HTML for what stands in what; a document that is not certain to be read
alike is read by the library. Mended from outside; trees stay the same.
"""

import re
from collections.abc import Callable
from types import ModuleType, SimpleNamespace
from typing import Any, Protocol
from xml.etree.ElementTree import Element, ParseError, fromstring


def _names(names: str) -> frozenset[str]:
    return frozenset(names.split())


PHRASES = _names(
    "a abbr b bdi bdo br cite code data del dfn em i img ins kbd mark q s samp small span strong"
    " sub sup svg time u var wbr"
)
"""What may stand in a paragraph, and leaves it open."""

FLOW = PHRASES | _names(
    "address article aside blockquote div dl figcaption figure footer h1 h2 h3 h4 h5 h6 header hr"
    " main nav ol p section table ul"
)
"""What may stand in most elements; what is not a phrase ends a paragraph."""

_NONE: frozenset[str] = frozenset()
_ROWS = frozenset({"tr"})
INSIDE = {
    "html": frozenset({"head", "body"}),
    "head": frozenset({"base", "link", "meta", "style", "title"}),
    "ul": frozenset({"li"}),
    "ol": frozenset({"li"}),
    "dl": frozenset({"dt", "dd"}),
    "table": frozenset({"caption", "colgroup", "thead", "tbody", "tfoot"}),
    "colgroup": frozenset({"col"}),
    "thead": _ROWS,
    "tbody": _ROWS,
    "tfoot": _ROWS,
    "tr": frozenset({"td", "th"}),
    **dict.fromkeys(("p", "h1", "h2", "h3", "h4", "h5", "h6"), PHRASES),
    **dict.fromkeys(("style", "title"), _NONE),
}
"""What may stand in elements that take less than FLOW: all else would be moved or end them. From
the insertion modes of the HTML Standard, 13.2.6.4."""

WITHOUT_TEXT = frozenset({"html", "head", "table", "colgroup", "thead", "tbody", "tfoot", "tr"})
"""Text in these is moved before them."""

VOID = _names("area base br col embed hr img input link meta source track wbr")
"""Elements without an end: HTML Standard, 13.1.2."""

SVG = "{http://www.w3.org/2000/svg}"
SHAPES = _names("circle ellipse g line path polygon polyline rect use")
INSIDE_SVG = SHAPES | {"defs", "desc", "svg", "text", "title", "tspan"}
"""Elements of a drawing whose names HTML takes as they are; none of them leads out of it."""

TEXTS = frozenset({"desc", "title"})
"""Elements of a drawing in which HTML begins again."""

DOCTYPE = re.compile(r"\s*<!doctype html>", re.IGNORECASE)
OPEN = re.compile(rf"<({'|'.join(VOID)})\b([^<>]*?)\s*/?>")
ENDED = re.compile(r"<([^\s<>/]*)[^<>]*/>")
UNLIKE = re.compile(
    r"""<[!?]|=\s*'|="[^"<]*[>\n\t\r]|&\#(?!3[49];)|<style[^<>]*>[^<]*&""", re.VERBOSE
)
"""Comments and the like, quotes that are not looked into, values that hold an end of their tag or
white space that XML makes a blank, letters by number, references where HTML reads none."""


class _Source(Protocol):
    def read(self) -> str: ...

    def seek(self, at: int) -> int: ...


type _Parse = Callable[..., Element]


def mend_reading(weasyprint: ModuleType) -> None:
    """Mend `weasyprint`, once. Another version of it is left as it is."""
    reader = getattr(weasyprint, "tinyhtml5", None)
    if isinstance(reader, ModuleType) and hasattr(reader, "constants"):
        cases = reader.constants.adjust_svg_attributes
        weasyprint.tinyhtml5 = SimpleNamespace(  # type: ignore[attr-defined]
            parse=_plainly(reader.parse, cases), long_way=reader.parse
        )


def _plainly(parse: _Parse, cases: dict[str, str]) -> _Parse:
    """`parse`, asked only for what is not certain to be read alike as XML."""

    def read(source: _Source, **how: Any) -> Element:  # noqa: ANN401 - handed on as they are
        text = source.read()
        source.seek(0)
        if isinstance(text, str) and how == {"namespace_html_elements": False}:
            tree = plain_tree(text, cases)
            if tree is not None:
                return tree
        return parse(source, **how)

    return read


def plain_tree(html: str, cases: dict[str, str]) -> Element | None:
    """The tree of a document, None where HTML might read it otherwise than XML.

    `cases` has the attributes of drawings that HTML gives capitals, by their small letters.
    """
    start = DOCTYPE.match(html)
    if start is None:
        return None
    text = html[start.end() :]
    if UNLIKE.search(text):
        return None
    text = OPEN.sub(r"<\1\2/>", text)
    if any(ended[1] not in VOID and ended[1] not in SHAPES for ended in ENDED.finditer(text)):
        return None
    try:
        root = fromstring(text)  # noqa: S314 - without a declaration no entity can grow
    except ParseError:
        return None
    if not _is_alike(root, cases):
        return None
    _head, body = root
    root.text = None
    # White space after the end belongs to the body.
    rest = (body.tail or "") + text[text.rindex(">") + 1 :]
    body.tail = None
    if len(body):
        body[-1].tail = (body[-1].tail or "") + rest or None
    else:
        body.text = (body.text or "") + rest or None
    return root


def _is_alike(root: Element, cases: dict[str, str]) -> bool:
    """Whether HTML leaves all elements where they stand; drawings get their names of elements."""
    if root.tag != "html" or [child.tag for child in root] != ["head", "body"]:
        return False
    # Each with what is open around it: a paragraph, a link.
    waiting = [(root, False, False)]
    while waiting:
        element, in_paragraph, in_link = waiting.pop()
        tag = element.tag
        if tag == "svg":
            if not _is_drawing(element, cases):
                return False
            continue
        may = INSIDE.get(tag, FLOW)
        # A paragraph stays open in all that its phrases hold.
        in_paragraph = in_paragraph or may is PHRASES
        in_link = in_link or tag == "a"
        if in_paragraph:
            may = PHRASES
        if (
            not all(name.islower() and name[0] != "{" for name in element.attrib)
            or (tag in VOID and (len(element) or element.text))
            or (tag in WITHOUT_TEXT and not _is_blank(element))
            or not all(child.tag in may for child in element)
            or (in_link and any(child.tag == "a" for child in element))
        ):
            return False
        waiting.extend((child, in_paragraph, in_link) for child in element)
    return True


def _is_blank(element: Element) -> bool:
    return not (element.text or "").strip() and not any(
        (child.tail or "").strip() for child in element
    )


def _is_drawing(svg: Element, cases: dict[str, str]) -> bool:
    """Whether HTML takes all of a drawing as it stands; its elements get their full names."""
    for element in svg.iter():
        if element.tag not in INSIDE_SVG or (element.tag in TEXTS and len(element)):
            return False
        for name in element.attrib:
            small = name.lower()
            if cases.get(small, small) != name or name[0] == "{" or ":" in name:
                return False
        element.tag = f"{SVG}{element.tag}"
    return True
