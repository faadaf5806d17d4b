"""Values that no style sheet sets, looked up at once instead of worked out.

WeasyPrint 70 works out each value of each element's style by the same long way: whether it is set,
by which of two names, whether it must be computed. Nearly all values of a booklet are set by
nobody: they are the parent's or the initial one. Mended from outside, and only where the library
still is as described; styles stay the same.
"""

from collections.abc import Callable, Mapping
from copy import copy
from functools import lru_cache
from types import ModuleType
from typing import Any, Protocol

OWN_WAYS = ("display", "float", "page", "position")
"""Values that follow from others, or from further away than the parent."""


class _Style(Protocol):
    cascaded: Mapping[str, object]
    parent_style: Mapping[str, object] | None

    def __getitem__(self, key: str) -> Any: ...  # noqa: ANN401 - a value of any kind

    def __setitem__(self, key: str, value: object) -> None: ...


NOTES = {"footnote-call", "footnote-marker", "note-call", "note-marker", "note-callback"}
"""What the library's own style sheet gives every element, for notes that it may have."""

type _Missing = Callable[[_Style, str], object]


def mend_plain_values(css: ModuleType) -> None:
    """Mend `weasyprint.css`, once. Another version of it is left as it is."""
    names = ("ComputedStyle", "INHERITED", "INITIAL_VALUES", "INITIAL_NOT_COMPUTED", "check_math")
    if hasattr(css, "guidegen") or not all(
        hasattr(css, name) for name in (*names, "PHYSICAL_FUNCTIONS")
    ):
        return
    css.ComputedStyle.__missing__ = _at_once(css)
    css.guidegen = True  # type: ignore[attr-defined]


def _at_once(css: ModuleType) -> _Missing:
    work_out: _Missing = css.ComputedStyle.__missing__
    is_formula: Callable[[object], object] = css.check_math
    plain = {
        key
        for key in css.INITIAL_VALUES
        if key not in OWN_WAYS and not key.startswith(("text_decoration_", "__"))
    }
    inherited = plain & set(css.INHERITED)
    # What nobody sets and nobody computes, by the value that all have.
    initial = {
        key: css.INITIAL_VALUES[key] for key in plain - inherited - set(css.INITIAL_NOT_COMPUTED)
    }
    second = {
        key: tuple(name(block="ttb", inline=inline) for inline in ("ltr", "rtl"))
        for key, name in css.PHYSICAL_FUNCTIONS.items()
    }
    """The other name under which a value may be set, such as that of a margin at the start."""

    def missing(style: _Style, key: str) -> object:
        cascaded = style.cascaded
        if key in cascaded:
            return work_out(style, key)
        if key in second:
            forward, backward = second[key]
            if forward in cascaded or backward in cascaded:
                return work_out(style, key)
        if key in initial:
            value = initial[key]
        elif key in inherited and style.parent_style is not None:
            value = style.parent_style[key]
            # A formula of an own letter size comes out anew.
            if type(value) is not str and is_formula(value):
                return work_out(style, key)
        else:
            return work_out(style, key)
        style[key] = value
        return value

    return missing


def without_notes(sheet: Any, html: str) -> Any:  # noqa: ANN401 - a style sheet of the library
    """The library's own style sheet for a document that has no notes at the foot of its pages or
    beside them: with them each element has five more styles than it needs.
    """
    return sheet if "footnote" in html or "note(" in html else _plain(sheet)


@lru_cache(maxsize=2)
def _plain(sheet: Any) -> Any:  # noqa: ANN401 - a style sheet of the library
    plain, plain.matcher = copy(sheet), copy(sheet.matcher)
    plain.matcher.other_selectors = [
        one for one in sheet.matcher.other_selectors if one[3] not in NOTES
    ]
    # Nothing in it is a share of the page.
    plain.guidegen_says_all = True
    return plain
