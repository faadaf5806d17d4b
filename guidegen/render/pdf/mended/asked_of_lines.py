"""What WeasyPrint asks about a line again and again, answered from memory or not asked at all.

WeasyPrint 70 writes fourteen values of a style as one text for each piece of a line, to find how
high its lines are at the least; asks Pango for each pair of letters at the ends of two pieces
whether a line may break there; and measures the shortest start of each line, although that says
where it stands only beside a float. Mended from outside, and only where the library still is as
described; pages keep their bytes.
"""

from collections.abc import Callable
from functools import lru_cache
from types import ModuleType
from typing import Any

from guidegen.render.pdf.mended.kept_block import end_of

type _Theirs = Any
"""What the library hands over: boxes, styles, its context."""

MOST = 20_000
"""Pairs of letters that are kept. Our choice: a few megabytes."""


def mend_asked_of_lines(inline: ModuleType, preferred: ModuleType) -> None:
    """Mend `weasyprint.layout.inline` and `weasyprint.layout.preferred`, once.

    Another version of them is left as it is.
    """
    names = ("strut", "can_break_text", "inline_min_content_width")
    if hasattr(inline, "guidegen") or not all(hasattr(inline, name) for name in names):
        return
    inline.guidegen = {name: getattr(inline, name) for name in names}  # type: ignore[attr-defined]
    inline.strut = _once_a_style(inline.strut)  # type: ignore[attr-defined]
    inline.can_break_text = lru_cache(maxsize=MOST)(inline.can_break_text)  # type: ignore[attr-defined]
    preferred.can_break_text = inline.can_break_text  # type: ignore[attr-defined]
    inline.inline_min_content_width = _beside_floats(inline.inline_min_content_width)  # type: ignore[attr-defined]


def _once_a_style(strut: Callable[[_Theirs], tuple[float, float]]) -> Callable[..., object]:
    """Height and baseline of the lines of a style, kept with it: it has one set of fonts."""

    def of_style(style: _Theirs) -> tuple[float, float]:
        try:
            height: tuple[float, float] = style.guidegen_strut
        except AttributeError:
            height = style.guidegen_strut = strut(style)
        return height

    return of_style


def _beside_floats(least_width: Callable[..., float]) -> Callable[..., float]:
    """The least width of a line or of its start; of no account where no float reaches it.

    The library compares it with the room between floats that stand beside the line. In text from
    right to left it asks for it once more.
    """

    def width(
        context: _Theirs, box: _Theirs, *how: object, first_line: bool = False, **more: object
    ) -> float:
        if (
            first_line
            and box.style["direction"] == "ltr"
            and all(
                shape.position_y < box.position_y and end_of(shape) <= box.position_y
                for shape in context.excluded_shapes
            )
        ):
            return 0
        return least_width(context, box, *how, first_line=first_line, **more)

    return width
