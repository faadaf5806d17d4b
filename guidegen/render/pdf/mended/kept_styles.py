"""Styles of elements, worked out once for all documents of the same style sheets.

WeasyPrint 70 gives elements of one document a style together where the same rules hold for them,
and works all out anew for the next. The booklets of two sizes, and the tries of a summary, have
nearly the same elements. What a style says follows from that of the parent, from the rules that
hold and from a few attributes; only lengths in shares of the page follow from more, and documents
with such lengths keep the library's way. Mended from outside, and only where the library still is
as described; styles stay the same.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from inspect import signature
from math import inf
from types import ModuleType
from typing import Any

from guidegen.render.pdf.mended.kept_sheets import is_of_page, says_all
from guidegen.render.pdf.mended.telling import listening

SVG = "{http://www.w3.org/2000/svg}svg"

MOST_SETS = 12
"""Sets of style sheets whose styles are kept. Our choice: each form of document has one."""

MOST = 12_000
"""Styles that are kept for a set. Our choice: those of a few booklets."""

PARAMETERS = ("self", "html", "sheets", "presentational_hints", "font_config", "target_collector")
"""Of what is mended here."""

type _Theirs = Any
"""What the library hands over: elements, styles, sheets."""

type _Sheets = list[tuple[_Theirs, str, tuple[int, int, int] | None]]
"""Sheets, each with its origin and a specificity of its own."""

type _Cascaded = dict[str, tuple[object, object]]
"""Values and their weights by name."""


@dataclass(frozen=True, slots=True)
class _Made:
    """The style of an element, and those of what its rules put before and after it."""

    own: _Theirs
    pseudo: Mapping[str, _Theirs]
    likeness: int
    """A number that it shares with styles that differ in nothing but where links lead to it:
    what stands in one would have the same style in the other."""


@dataclass(slots=True)
class _Known:
    """The styles under one set of style sheets, by what they follow from."""

    sheets: tuple[_Theirs, ...]
    """Held, since Python gives the id of a dead sheet to the next."""
    made: dict[object, _Made] = field(default_factory=dict)
    likenesses: dict[object, int] = field(default_factory=dict)

    def clear(self) -> None:
        """Forget all."""
        self.made.clear()
        self.likenesses.clear()


class _Few:
    """Some elements where the library expects a tree."""

    def __init__(self, *elements: _Theirs) -> None:
        self._elements = elements

    def iter(self) -> Iterator[_Theirs]:
        """All of them."""
        return iter(self._elements)

    iter_subtree = iter


class _NoDocument:
    """A document without elements: what the library sets up besides their styles."""

    etree_element = wrapper_element = _Few()
    base_url = ""


def mend_styles(css: ModuleType) -> None:
    """Mend `weasyprint.css`, once. Another version of it is left as it is."""
    kind = getattr(css, "StyleFor", None)
    names = ("find_style_attributes", "preprocess_declarations", "declaration_precedence")
    if (
        kind is not None
        and not hasattr(kind, "guidegen")
        and tuple(signature(kind.__init__).parameters) == PARAMETERS
        and all(hasattr(css, name) for name in names)
    ):
        kind.guidegen = kind.__init__
        kind.__init__ = _kept(css, kind.__init__)


def _kept(css: ModuleType, long_way: Callable[..., None]) -> Callable[..., None]:
    """What stands in place of StyleFor.__init__."""

    def init(  # noqa: PLR0917 - the library's order of arguments
        style_for: _Theirs,
        html: _Theirs,
        sheets: _Sheets,
        presentational_hints: bool,
        font_config: _Theirs,
        target_collector: _Theirs,
    ) -> None:
        known = None if presentational_hints else _known(font_config, sheets)
        if known is None or any(
            is_of_page(element.get("style", "")) for element in html.etree_element.iter()
        ):
            long_way(style_for, html, sheets, presentational_hints, font_config, target_collector)
            return
        long_way(style_for, _NoDocument, sheets, False, font_config, target_collector)
        styling = _Styling(css, style_for, html, sheets, target_collector)
        with listening() as told:
            styling.run(known)
        if told.any:
            known.clear()

    return init


def _known(font_config: _Theirs, sheets: _Sheets) -> _Known | None:
    """The styles that are kept with the fonts for a set of sheets; None where they follow from
    more than is asked for here.
    """
    if not all(says_all(sheet) for sheet, *_ in sheets):
        return None
    sets: dict[object, _Known] = font_config.__dict__.setdefault("guidegen_styles", {})
    key = tuple((id(sheet), *how) for sheet, *how in sheets)
    known = sets.get(key)
    if known is None:
        if len(sets) >= MOST_SETS:
            sets.clear()
        known = sets[key] = _Known(tuple(sheet for sheet, *_ in sheets))
    if len(known.made) >= MOST:
        known.clear()
    return known


@dataclass(frozen=True, slots=True)
class _Styling:
    """The styles of one document."""

    css: ModuleType
    style_for: _Theirs
    html: _Theirs
    sheets: _Sheets
    collector: _Theirs

    def run(self, known: _Known) -> None:
        """Give every element its styles, parents before children."""
        styles = self.style_for.get_computed_styles()
        likenesses: dict[_Theirs, int] = {}
        for wrapper in self.html.wrapper_element.iter_subtree():
            element = wrapper.etree_element
            parent = wrapper.parent.etree_element if wrapper.parent else None
            rules = [
                (number, *rule)
                for number, (sheet, *_) in enumerate(self.sheets)
                for rule in sheet.matcher.match(wrapper)
            ]
            above = None if parent is None else likenesses[parent]
            # Rules of one number in a sheet are the same.
            like = (above, _own(element), tuple(rule[:3] for rule in rules))
            key = (like, _anchors(element))
            made = known.made.get(key)
            if made is None:
                number = known.likenesses.setdefault(like, len(known.likenesses))
                made = known.made[key] = self._make(element, parent, rules, number)
            else:
                styles[element, None] = made.own
                self._collect(made.own)
                for pseudo, style in made.pseudo.items():
                    styles[element, pseudo] = style
                    self._collect(style)
            likenesses[element] = made.likeness

    def _collect(self, style: _Theirs) -> None:
        if self.collector and style["anchor"]:
            self.collector.collect_anchor(style["anchor"])

    def _make(
        self, element: _Theirs, parent: _Theirs, rules: list[tuple[Any, ...]], likeness: int
    ) -> _Made:
        """The styles of an element by the library's own means, in its order."""
        css, root, base_url = self.css, self.html.etree_element, self.html.base_url
        cascaded: dict[tuple[_Theirs, str | None], _Cascaded]
        cascaded = self.style_for.get_cascaded_styles()
        for specificity, _, declarations, url in css.find_style_attributes(
            _Few(element), False, base_url
        ):
            own = cascaded.setdefault((element, None), {})
            self._cascade(
                own, css.preprocess_declarations(url, declarations), "author", specificity
            )
        for number, specificity, _, pseudo, (declarations, _) in rules:
            _, origin, of_sheet = self.sheets[number]
            style = cascaded.setdefault((element, pseudo), {})
            self._cascade(style, declarations, origin, of_sheet or specificity)
        compute = self.style_for.set_computed_styles
        how = {"root": root, "base_url": base_url, "target_collector": self.collector}
        compute(element, parent=parent, **how)
        pseudos = [pseudo for _, pseudo in cascaded if pseudo]
        for one in pseudos:
            compute(element, parent=element, pseudo_type=one, **how)
        cascaded.clear()
        styles = self.style_for.get_computed_styles()
        pseudo = {one: styles[element, one] for one in pseudos}
        return _Made(styles[element, None], pseudo, likeness)

    def _cascade(
        self,
        style: _Cascaded,
        declarations: Iterable[tuple[str, object, bool]],
        origin: str,
        specificity: tuple[int, int, int],
    ) -> None:
        """Add what outweighs what is there. No sheet that is kept has layers: `inf`, as theirs."""
        for name, values, important in declarations:
            weight = (self.css.declaration_precedence(origin, important), inf, specificity)
            if name not in style or style[name][1] <= weight:  # type: ignore[operator]
                style[name] = values, weight


def _own(element: _Theirs) -> tuple[object, ...]:
    """All of an element that the library makes declarations of, but what links lead to; a test
    compares.
    """
    get = element.get
    own = (get("style"), get("lang"))
    return (*own, get("width"), get("height")) if element.tag == SVG else own


def _anchors(element: _Theirs) -> tuple[object, ...]:
    """What links lead to: nothing within an element has it from there."""
    return element.get("id"), element.get("name") if element.tag == "a" else None
