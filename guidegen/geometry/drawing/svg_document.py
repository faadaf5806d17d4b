"""SVG text in → a checked element tree with the place of every element.

The first, suspicious reading of a drawing. It builds a bare tree from expat's events and refuses
on the way whatever a drawing of a piece never needs: entities, scripts, event handlers, pictures,
anything that points outside the file, and trees too deep or too large. Nothing is ever fetched.
References inside the file (`#id`) are only noted here; `paths` follows them.
"""

# The tree classes serve as plain containers; the parsing that the lint warns of is done below,
# by expat with document types and entities refused.
import xml.etree.ElementTree as ET
from collections.abc import Sequence
from dataclasses import dataclass, field
from xml.parsers import expat

from guidegen.geometry.drawing.svg_refusals import (
    FOREIGN,
    STYLE_IN_OTHERS,
    refuse_attribute,
    refuse_css,
    refuse_element,
    refuse_namespace,
    without_doctype,
)
from guidegen.problems import Place, Problem

MAX_TEXT = 2_000_000
"""Characters of one drawing. Our choice: 20,000 curves with seven digits fill about 1.5 MB."""
MAX_DEPTH = 48
"""Levels of nesting. Our choice: editors make fewer than ten, layers and groups included."""
MAX_ELEMENTS = 20_000
"""Elements of one drawing. Our choice: far above any template."""
MAX_ATTRIBUTES = 200
"""Attributes of one element. Our choice."""
MAX_FAULTS = 50
"""Refusals of one drawing that are told. Our choice: more are one slip, many times over."""

SVG_NAMESPACE = "http://www.w3.org/2000/svg"
"""Namespace of SVG elements; W3C, Scalable Vector Graphics 1.1, 1.3."""

XML_NAMESPACE = "http://www.w3.org/XML/1998/namespace"
"""Namespace of xml:space; W3C, Namespaces in XML 1.0, 3."""

type Element = ET.Element

NAME_KEYS = ("label", "data-name", "id")
"""Attributes with the name of an object: what editors show comes before the id, which they make up
where they must, since it has to be the only one of the file."""

_WORDED = frozenset({"style", "text", "tspan", "title", "desc"})
"""Elements whose letters are kept."""


class DrawingError(Exception):
    """A drawing that cannot be used; carries the problem for the author."""

    def __init__(self, problem: Problem, before: Sequence[Problem] = ()) -> None:
        self.problem = problem
        self.problems = (*before, problem)
        """All that was found until then, the last one included."""
        super().__init__(str(problem))


@dataclass(frozen=True, eq=False)
class SvgDocument:
    """A drawing as XML, checked and bounded."""

    file: str
    """Path as the author would type it."""
    root: Element
    """SVG elements carry bare names ('path'); elements of other namespaces are left out."""
    lines: tuple[str, ...]
    positions: dict[Element, tuple[int, int]] = field(default_factory=dict)
    """Line and column, from 1, of every element."""
    ids: dict[str, Element] = field(default_factory=dict)
    """Elements by id; the first one where an id is used twice."""
    parents: dict[Element, Element] = field(default_factory=dict)

    def place(self, element: Element) -> Place:
        """Where an element begins."""
        return place_in(self.file, self.lines, *self.positions.get(element, (0, 0)))

    def problem(
        self,
        code: str,
        element: Element,
        message: str,
        cure: str = "",
    ) -> Problem:
        """A problem about one element, which is named as its author sees it."""
        name = element_name(element)
        return Problem(code, self.place(element), "", f"{name} {message}", cure)


def element_name(element: Element) -> str:
    """How messages speak of an element: 'path "sleeve"', or 'this path' without a name."""
    name = shown_name(element)
    return f'{element.tag} "{name[:60]}"' if name else f"this {element.tag}"


def shown_name(element: Element) -> str:
    """The name that an editor shows: the label, which may stand twice, before the id."""
    return next((name for key in NAME_KEYS if (name := element.get(key, "").strip())), "")


def place_in(file: str, lines: tuple[str, ...], line: int, column: int) -> Place:
    """A place in a drawing with its source line, cut where a drawing is one endless line."""
    text = lines[line - 1] if 0 < line <= len(lines) else ""
    return Place(file, line, column, text[:400])


def read_document(text: str, file: str) -> SvgDocument:
    """The checked tree of an SVG text. Raises DrawingError with all that is refused."""
    document, faults = survey_document(text, file)
    if faults:
        raise DrawingError(faults[-1], faults[:-1])
    return document


def survey_document(text: str, file: str) -> tuple[SvgDocument, list[Problem]]:
    """The tree of an SVG text without what is refused in it, and why that is refused.

    For telling all faults at once: where there are any, the drawing must not be used. Raises
    DrawingError where nothing more can be read.
    """
    if len(text) > MAX_TEXT:
        message = f"the drawing is larger than {MAX_TEXT // 1_000_000} MB"
        cure = "leave out pictures and simplify paths with very many points"
        problem = Problem("drawing-too-large", Place(file), "", message, cure)
        raise DrawingError(problem)
    reader = _Reader(text, file)
    return reader.read(), reader.faults


class _Reader:
    """Listens to expat and grows the tree."""

    def __init__(self, text: str, file: str) -> None:
        self.text, self.file = text, file
        # For the source line of a problem; expat gives numbers of lines alone.
        self.lines = tuple(text.splitlines())
        self.stack: list[Element | None] = []
        self.root: Element | None = None
        self.count = 0
        self.positions: dict[Element, tuple[int, int]] = {}
        self.ids: dict[str, Element] = {}
        self.parents: dict[Element, Element] = {}
        self.faults: list[Problem] = []
        self.bare = False
        self.parser = expat.ParserCreate("utf-8", namespace_separator=" ")
        self.parser.buffer_text = True
        self.parser.StartElementHandler = self._start
        self.parser.EndElementHandler = self._end
        self.parser.CharacterDataHandler = self._text
        self.parser.StartDoctypeDeclHandler = self._doctype
        self.parser.ProcessingInstructionHandler = self._instruction

    def read(self) -> SvgDocument:
        try:
            # Encoded by ourselves: what the file says of its own encoding must not be believed, as
            # another reader may have checked its letters already.
            text = without_doctype(self.text)
            self.parser.Parse(text.encode("utf-8", "replace"), True)
        except expat.ExpatError as error:
            word = expat.ErrorString(error.code)
            raise self._error(
                "drawing-xml",
                f"the drawing is not well-formed XML: {word}",
                "save it again as plain SVG",
                (error.lineno, error.offset + 1),
            ) from None
        if self.root is None:
            raise self._error("drawing-xml", "the file is not an SVG drawing", "", (1, 1))
        return SvgDocument(self.file, self.root, self.lines, self.positions, self.ids, self.parents)

    def _here(self) -> tuple[int, int]:
        return (self.parser.CurrentLineNumber, self.parser.CurrentColumnNumber + 1)

    def _error(
        self, code: str, message: str, cure: str = "", at: tuple[int, int] | None = None
    ) -> DrawingError:
        place = place_in(self.file, self.lines, *(at or self._here()))
        return DrawingError(Problem(code, place, "", message, cure), self.faults)

    def _fault(self, code: str, message: str, cure: str, at: tuple[int, int] | None = None) -> None:
        """Keep what is refused, and go on reading without it."""
        if len(self.faults) < MAX_FAULTS:
            place = place_in(self.file, self.lines, *(at or self._here()))
            self.faults.append(Problem(code, place, "", message, cure))

    def _doctype(self, *_: object) -> None:
        raise self._error(
            "drawing-doctype",
            "a document type with entities or declarations of its own is not allowed in a drawing",
            "save as plain SVG, or delete all from <!DOCTYPE to its closing >",
        )

    def _instruction(self, target: str, data: str) -> None:
        if target.lower() == "xml-stylesheet":
            self._fault(
                "drawing-external",
                "a style sheet outside the drawing is not allowed",
                "put the styles into a style element",
            )

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        self.count += 1
        # Counted as they open: expat would go on through a file of any length.
        if self.count > MAX_ELEMENTS:
            raise self._error("drawing-too-large", f"more than {MAX_ELEMENTS} elements")
        if len(self.stack) >= MAX_DEPTH:
            raise self._error("drawing-too-deep", f"more than {MAX_DEPTH} levels of groups")
        if len(attributes) > MAX_ATTRIBUTES:
            raise self._error("drawing-too-large", f"more than {MAX_ATTRIBUTES} attributes")
        tag = self._tag(name)
        plain = _plain_attributes(attributes)
        # Before anything is left out: what stands inside foreign elements is not drawn by us, but
        # a browser that opens the file would run it.
        refused = self._refuse(name, tag, plain)
        # None marks what is left out, with all inside it; pushed, so that ends still match starts.
        if self.stack and (self.stack[-1] is None or tag is None or refused):
            self.stack.append(None)
            return
        if tag is None or (not self.stack and tag != "svg"):
            raise self._error("drawing-xml", "this is not an SVG drawing: expected an svg element")
        self._grow(tag, plain)

    def _refuse(self, name: str, tag: str | None, attributes: dict[str, str]) -> bool:
        """Tell what is refused, also inside of what is left out: browsers do not leave it out.

        True where the whole element goes; a refused attribute is taken out of `attributes`.
        """
        inside = self.stack[-1] if self.stack else None
        refused = refuse_namespace(name.rpartition(" ")[0])
        if tag is not None:
            within = inside.tag if inside is not None else ""
            refused = refused or refuse_element(tag, within)
            if tag == "style" and self.stack and inside is None:
                refused = refused or STYLE_IN_OTHERS
            for key, value in tuple(attributes.items()):
                fault = refuse_attribute(tag, key, value)
                # A clone of something outside is nothing without it.
                if fault is not None and tag == "use" and key == "href":
                    refused = refused or fault
                elif fault is not None:
                    del attributes[key]
                    self._fault(*fault)
        if refused is not None:
            self._fault(*refused)
        return refused is not None

    def _tag(self, name: str) -> str | None:
        """The bare name of an SVG element, None for other namespaces."""
        namespace, _, local = name.rpartition(" ")
        if not self.stack and not namespace:
            self.bare = True  # a drawing written by hand, without any namespace
        if namespace == SVG_NAMESPACE or (self.bare and not namespace):
            return local
        return None

    def _grow(self, tag: str, attributes: dict[str, str]) -> None:
        element = ET.Element(tag, attributes)
        if self.stack and self.stack[-1] is not None:
            self.stack[-1].append(element)
            self.parents[element] = self.stack[-1]
        else:
            self.root = element
        self.positions[element] = self._here()
        # Of two with one id the first counts, as browsers have it.
        self.ids.setdefault(attributes.get("id", ""), element)
        self.stack.append(element)

    def _end(self, name: str) -> None:
        element = self.stack.pop()
        # Only at its end are all letters of a style sheet there: expat may hand them over in
        # parts.
        if element is not None and element.tag == "style":
            refused = refuse_css(element.text or "")
            if refused is not None:
                self._fault(*refused, self.positions[element])
                element.text = ""

    def _text(self, data: str) -> None:
        element = self.stack[-1] if self.stack else None
        if element is not None and element.tag == "foreignObject" and data.strip():
            self._fault(*FOREIGN)
        if element is None or element.tag not in _WORDED:
            return
        if len(element):
            element[-1].tail = (element[-1].tail or "") + data
        else:
            element.text = (element.text or "") + data


def _plain_attributes(attributes: dict[str, str]) -> dict[str, str]:
    """Attributes by bare name; those of editors' own namespaces are left out, but for labels."""
    plain: dict[str, str] = {}
    for name, value in attributes.items():
        namespace, _, local = name.rpartition(" ")
        if not namespace or namespace == SVG_NAMESPACE:
            plain[local] = value
        elif local in {"href", "label"} or (local == "space" and namespace == XML_NAMESPACE):
            plain.setdefault(local, value)
    return plain
