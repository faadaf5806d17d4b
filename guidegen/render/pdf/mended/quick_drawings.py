"""What drawings and boxes are painted with, worked out once, where WeasyPrint does not.

WeasyPrint 70 reads colours, lengths and strokes of each path of a drawing from their text, asks
each box of a page for the colour of an outline that it has not, and works out each colour that it
writes. Mended from outside, and only where the library still is as described; files keep their
bytes.
"""

import re
from collections.abc import Callable, Iterable
from functools import lru_cache
from types import ModuleType
from typing import Any

MOST = 4_000
"""Answers that are kept, of each kind. Our choice: those of a few booklets, 2 MB."""

LONG = 60
"""Letters of a text that is not kept: a path, above all."""

PAINT = (
    "fill",
    "fill-opacity",
    "stroke",
    "stroke-dasharray",
    "stroke-dashoffset",
    "stroke-linecap",
    "stroke-linejoin",
    "stroke-miterlimit",
    "stroke-opacity",
    "stroke-width",
)
"""All that the library asks of an element for its fill and stroke; a test compares."""

LENGTHS = ("stroke-dasharray", "stroke-dashoffset", "stroke-width")
"""Those that may be shares of something else."""

_NUMBERS = re.compile(r"[0-9. ]*")

READERS = ("alpha_value", "normalize", "parse_url", "size")
"""Functions of `weasyprint.svg.utils` whose answer follows from the text that they read."""

type _Theirs = Any
"""An object of the library."""


def mend_drawings(svg: ModuleType, readers: Iterable[ModuleType], pydyf: ModuleType) -> None:
    """Mend `weasyprint.svg`, and those of its modules that read texts, once.

    Another version of them is left as it is.
    """
    if hasattr(svg, "guidegen") or not all(hasattr(svg.utils, name) for name in READERS):
        return
    for name in READERS:
        function = getattr(svg.utils, name)
        kept = _kept(function)
        for module in (svg, svg.utils, *readers):
            if getattr(module, name, None) is function:
                setattr(module, name, kept)
    svg.SVG.set_graphical_state = _kept_paint(svg.SVG.set_graphical_state, pydyf)
    svg.guidegen = True  # type: ignore[attr-defined]


def mend_painting(draw: ModuleType, border: ModuleType, stream: ModuleType) -> None:
    """Mend `weasyprint.draw`, its `border`, and `weasyprint.pdf.stream`, once."""
    if hasattr(draw, "guidegen") or not hasattr(border, "draw_outline"):
        return
    draw.draw_outline = border.draw_outline = _outline(border)  # type: ignore[attr-defined]
    draw.draw_border = border.draw_border = _border(border)  # type: ignore[attr-defined]
    stream.Stream.set_color = _kept_colours(stream.Stream.set_color)
    draw.guidegen = True  # type: ignore[attr-defined]


def _kept[T](read: Callable[..., T]) -> Callable[..., T]:
    """`read`, asked once for each short text."""
    known = lru_cache(maxsize=MOST)(read)

    def asked(text: str | float | None, *others: float | None) -> T:
        if isinstance(text, str) and len(text) > LONG:
            return read(text, *others)
        return known(text, *others)

    return asked


def _kept_paint(work_out: Callable[..., Any], pydyf: ModuleType) -> Callable[..., Any]:
    """`SVG.set_graphical_state`, asked once for each way to paint that names no other element."""
    known: dict[object, tuple[object, list[Any]]] = {}

    class Noted(pydyf.Stream):  # type: ignore[name-defined,misc]
        """A stream that only notes its colours: whether they are written follows from others."""

        def set_color(self, color: object, stroke: bool = False) -> None:
            self.stream.append((color, stroke))

    def set_graphical_state(
        own: _Theirs, node: _Theirs, font_size: float, context: object = None
    ) -> object:
        paint = tuple(map(node.attrib.get, PAINT))
        lengths = "".join(filter(None, map(node.attrib.get, LENGTHS)))
        room = () if _NUMBERS.fullmatch(lengths) else (font_size, own.inner_diagonal)
        key = (paint, room)
        if key not in known:
            if any(word and ("(" in word or "context" in word) for word in (paint[0], paint[2])):
                return work_out(own, node, font_size, context)
            stream, own.stream = own.stream, Noted()
            try:
                found = work_out(own, node, font_size, context)
                if len(known) >= MOST:
                    known.clear()
                known[key] = (found, own.stream.stream)
            finally:
                own.stream = stream
        found, items = known[key]
        for item in items:
            if type(item) is tuple:
                own.stream.set_color(*item)
            else:
                own.stream.stream.append(item)
        return found

    return set_graphical_state


def _kept_colours(write: Callable[..., None]) -> Callable[..., None]:
    """`Stream.set_color`, with the operator of each colour worked out once."""
    known: dict[object, bytes] = {}

    def set_color(own: _Theirs, color: _Theirs, stroke: bool = False) -> None:
        state = (color.space, *color.coordinates)
        operator = known.get((state, stroke))
        if operator is None:
            write(own, color, stroke)
            last = own.stream[-1]
            if type(last) is bytes and last.endswith(b" RG" if stroke else b" rg"):
                if len(known) >= MOST:
                    known.clear()
                known[state, stroke] = last
            return
        own.set_alpha(color.alpha, stroke)
        name = "_current_color_stroke" if stroke else "_current_color"
        if state != getattr(own, name):
            setattr(own, name, state)
            own.stream.append(operator)

    return set_color


def _outline(border: ModuleType) -> Callable[[_Theirs, _Theirs], None]:
    """`draw_outline`, which asks boxes without outline for nothing else."""
    draw, kind = border.draw_outline, border.boxes.Box

    def draw_outline(stream: _Theirs, box: _Theirs) -> None:
        if box.style["outline_width"]:
            draw(stream, box)
            return
        for child in box.children:
            if isinstance(child, kind):
                draw_outline(stream, child)

    return draw_outline


def _border(border: ModuleType) -> Callable[[_Theirs, _Theirs], None]:
    """`draw_border`, which asks boxes without border for little else."""
    draw = border.draw_border

    def draw_border(stream: _Theirs, box: _Theirs) -> None:
        if (
            box.border_top_width
            or box.border_left_width
            or box.border_bottom_width
            or box.border_right_width
            or box.style["column_rule_width"]
            or box.style["border_image_source"][0] != "none"
        ):
            draw(stream, box)

    return draw_border
