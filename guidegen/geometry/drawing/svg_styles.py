"""Style sheets and style attributes of a drawing in → the few properties that matter out.

A drawing's colours and line widths say nothing about a
piece, so only visibility and transforms are looked for. Selectors without combinators (what
editors write: `.cls-1`, `#id`, `path.hole`) are matched; matching those takes linear time however
the file is made.
"""

import re
from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field

from guidegen.geometry.drawing.css import MAX_CSS, declarations, rules
from guidegen.geometry.drawing.svg_document import DrawingError, Element, SvgDocument
from guidegen.problems import Problem

PROPERTIES = frozenset({"display", "visibility", "transform"})
"""Properties that are looked for."""
MAX_RULES = 2_000
"""Selectors in one drawing. Our choice: editors write one per look, so a few dozen."""

_SIMPLE = re.compile(r"(\*|[A-Za-z][\w-]*)?((?:[.#][\w-]+)*)")

type Declarations = tuple[tuple[str, str, bool], ...]
"""Property, value, whether important."""


@dataclass(frozen=True, slots=True)
class _Rule:
    tag: str
    ids: frozenset[str]
    classes: frozenset[str]
    declarations: Declarations
    order: int

    @property
    def weight(self) -> tuple[int, int, int, int]:
        """Specificity and order; Selectors Level 4, 17."""
        return (len(self.ids), len(self.classes), int(self.tag not in {"", "*"}), self.order)

    def fits(self, element: Element, classes: frozenset[str]) -> bool:
        return (
            self.tag in {"", "*", element.tag}
            and self.ids <= {element.get("id", "")}
            and self.classes <= classes
        )


@dataclass
class StyleSheet:
    """The rules of a drawing, ready to be asked."""

    _rules: dict[str, list[_Rule]] = field(default_factory=lambda: defaultdict(list))
    _known: dict[Element, dict[str, str]] = field(default_factory=dict)

    def properties(self, element: Element) -> dict[str, str]:
        """The properties of one element itself, without what it inherits."""
        if element not in self._known:
            self._known[element] = self._cascade(element)
        return self._known[element]

    def _cascade(self, element: Element) -> dict[str, str]:
        found = {name: element.get(name, "") for name in PROPERTIES if element.get(name)}
        classes = frozenset(element.get("class", "").split())
        keys = [f"#{element.get('id', '')}", *sorted(f".{name}" for name in classes), ""]
        rules = [rule for key in keys for rule in self._rules.get(key, ())]
        cascade: list[tuple[str, str, bool]] = []
        for rule in sorted((r for r in rules if r.fits(element, classes)), key=lambda r: r.weight):
            cascade.extend(rule.declarations)
        cascade.extend(_declarations(element.get("style", "")))
        # Important declarations come last; sorting is stable, so the order within stays.
        for name, value, _ in sorted(cascade, key=lambda item: item[2]):
            found[name] = value
        return found

    def add(self, selector: str, declarations: Declarations, order: int) -> bool:
        """Take up a rule; False where the selector is not one of the simple ones."""
        match = _SIMPLE.fullmatch(selector)
        if match is None or not selector:
            return False
        names = re.findall(r"[.#][\w-]+", match[2])
        ids = frozenset(name[1:] for name in names if name[0] == "#")
        classes = frozenset(name[1:] for name in names if name[0] == ".")
        rule = _Rule(match[1] or "", ids, classes, declarations, order)
        self._rules[min(names, key=lambda name: (name[0] != "#", name), default="")].append(rule)
        return True


def read_styles(document: SvgDocument) -> tuple[StyleSheet, list[Problem]]:
    """The style sheet of a drawing, and warnings for selectors that are not read.

    Raises DrawingError for styles that are too large.
    """
    sheet, problems, order = StyleSheet(), [], 0
    for element in document.root.iter("style"):
        if len(element.text or "") > MAX_CSS:
            message = f"has more than {MAX_CSS} characters of styles"
            raise DrawingError(document.problem("drawing-too-large", element, message))
        for prelude, block in rules(element.text or ""):
            found = _declarations(block)
            if not found:
                continue
            for selector in prelude.split(","):
                order += 1
                if order > MAX_RULES:
                    message = f"has more than {MAX_RULES} rules"
                    raise DrawingError(document.problem("drawing-too-large", element, message))
                if not sheet.add(selector.strip(), found, order):
                    problems.append(_unread(document, element, selector.strip()))
    return sheet, problems


def _unread(document: SvgDocument, element: Element, selector: str) -> Problem:
    return document.problem(
        "drawing-style",
        element,
        f'hides or moves something by the selector "{selector[:60]}", which is not read',
        "use a class, an id or an element name alone, or put the style on the element itself",
    )


def _declarations(css: str | Iterable[object]) -> Declarations:
    """The declarations that matter of a block or a style attribute."""
    if isinstance(css, str) and not any(name in css.lower() for name in PROPERTIES):
        return ()
    return tuple(found for found in declarations(css) if found[0] in PROPERTIES)
