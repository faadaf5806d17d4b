"""Lines of text, measured once for a set of fonts and drawn whole, where WeasyPrint does not.

WeasyPrint 70 measures a line each time that a box around it is tried: for the least and the most
width of all boxes that hold it, for each height of balanced columns, for each page that it might
stand on. In a booklet of 80 pages that is 5 times for each line, and a quarter of the time of a
layout. The result depends on text, style and room alone, so it is kept with the fonts that it was
measured with, for other documents too: those of two sizes say nearly the same. Words of drawings
are set letter by letter, each shaped twice and without kerning; words that have one place are set
as one line here.

Both are mended from outside and only where the library still is as described. Pages keep their
bytes under the first; under the second words of drawings get their kerning.
"""

from collections.abc import Callable, Hashable, Iterator
from types import ModuleType
from typing import Any, Protocol

from guidegen.render.pdf.mended.drawn_lines import DrawnLines

KEYS = (
    "direction",
    "font_family",
    "font_feature_settings",
    "font_kerning",
    "font_language_override",
    "font_size",
    "font_stretch",
    "font_style",
    "font_variant_alternates",
    "font_variant_caps",
    "font_variant_east_asian",
    "font_variant_ligatures",
    "font_variant_numeric",
    "font_variant_position",
    "font_variation_settings",
    "font_weight",
    "hyphenate_character",
    "hyphenate_limit_chars",
    "hyphenate_limit_zone",
    "hyphens",
    "lang",
    "letter_spacing",
    "line_height",
    "overflow_wrap",
    "tab_size",
    "text_decoration_line",
    "white_space",
    "word_break",
    "word_spacing",
)
"""All of a style that the library asks for while it breaks a line; a test compares."""

OWN_PLACES = ("dx", "dy", "rotate", "textLength", "letter-spacing")
"""What gives letters of a drawing places of their own."""

MOST = 40_000
"""Lines that are kept. Our choice: those of a few booklets, some 40 MB."""

type SplitLine = tuple[Any, int, int | None, float, float, float]
"""The library's: layout, length and start of the next line in bytes, width, height, baseline."""

type Splitter = Callable[..., SplitLine]


class _Style(Protocol):
    font_config: Any
    guidegen_number: int
    """Of how it sets lines; not there before a line is asked for."""

    def __contains__(self, key: str) -> bool: ...

    def __getitem__(self, key: str) -> object: ...


class _Kept:
    """The lines of one set of fonts; it lives as long as they do."""

    def __init__(self) -> None:
        self.drawn = DrawnLines()
        self._lines: dict[Hashable, SplitLine] = {}
        self._numbers: dict[str, int] = {}

    def number(self, style: _Style) -> int:
        """The same number for styles under which a line comes out the same."""
        number: int | None = getattr(style, "guidegen_number", None)
        if number is None:
            if (above := _all_of(style)) is not None:
                number = self.number(above)
            else:
                text = repr([style[key] for key in KEYS])
                number = self._numbers.setdefault(text, len(self._numbers))
            style.guidegen_number = number
        return number

    def find(self, key: Hashable) -> SplitLine | None:
        """A line that was measured before."""
        return self._lines.get(key)

    def keep(self, key: Hashable, line: SplitLine) -> None:
        """Keep a line that was measured."""
        if len(self._lines) >= MOST:
            self._lines.clear()
        self._lines[key] = line


def _all_of(style: _Style) -> _Style | None:
    """The style above one that has no rules, as that of a text, and sets lines alike."""
    above: _Style | None = getattr(style, "parent_style", None)
    if above is None or hasattr(style, "cascaded"):
        return None
    alike = all(style[key] == above[key] for key in KEYS if key in style)
    return above if alike else None


class _Element(Protocol):
    text: str


class _Node(Protocol):
    """An element of a drawing, as the library reads it."""

    attrib: dict[str, str]
    text: str
    _etree_node: _Element

    def get(self, name: str) -> str | None: ...


def mend_text_lines(
    line_break: ModuleType, layout: tuple[ModuleType, ...], svg: ModuleType
) -> None:
    """Mend `weasyprint.text.line_break`, the modules of `layout` that use it, and `svg`, once.

    Another version of them is left as it is.
    """
    modules = (line_break, *layout)
    if hasattr(line_break, "guidegen") or not all(
        hasattr(module, "split_first_line") for module in modules
    ):
        return
    split = _kept(line_break.split_first_line)
    for module in modules:
        module.split_first_line = split  # type: ignore[attr-defined]
    if hasattr(svg, "TAGS") and hasattr(svg, "text"):
        # The library tells words by comparing with the function, so both names must change.
        letters, svg.text = svg.text, _set_whole(svg.text)  # type: ignore[attr-defined]
        svg.TAGS.update({tag: svg.text for tag, draw in svg.TAGS.items() if draw is letters})
    line_break.guidegen = True  # type: ignore[attr-defined]


def _kept(split: Splitter) -> Splitter:
    """`split`, asked once for each text, style and room."""

    def split_first_line(  # noqa: PLR0917 - the library's order of arguments
        text: str,
        style: _Style,
        context: object,
        max_width: float | None,
        justification_spacing: float,
        is_line_start: bool = True,
        minimum: bool = False,
    ) -> SplitLine:
        kept: _Kept | None = getattr(style.font_config, "guidegen_lines", None)
        if kept is None:
            kept = style.font_config.guidegen_lines = _Kept()
        key = (
            text,
            kept.number(style),
            max_width,
            justification_spacing,
            is_line_start,
            minimum,
        )
        line = kept.find(key)
        if line is None:
            line = split(
                text, style, context, max_width, justification_spacing, is_line_start, minimum
            )
            kept.keep(key, line)
        # Each box has a layout of its own: the library loads and empties it while it draws.
        layout, *rest = line
        own = object.__new__(type(layout))
        own.__dict__.update(layout.__dict__)
        return (own, *rest)

    return split_first_line


def _set_whole(letter_by_letter: Callable[..., None]) -> Callable[..., None]:
    """A function that sets words of a drawing at one place as one line."""

    def text(svg: object, node: _Node, font_size: float) -> None:
        places = (node.attrib.get("x", ""), node.attrib.get("y", ""))
        if (
            not node.text
            or any(node.get(name) for name in OWN_PLACES)
            or any(mark in place.strip() for place in places for mark in ", ")
            or "\n" in node.text
        ):
            letter_by_letter(svg, node, font_size)
            return
        letters = node.text
        word = _Word(letters)
        node._etree_node.text = word
        try:
            letter_by_letter(svg, node, font_size)
        finally:
            node._etree_node.text = letters

    return text


class _Word(str):
    """Words that the library's loop over letters takes as one."""

    __slots__ = ()

    def __iter__(self) -> Iterator[str]:
        return iter((str(self),))
