"""The kinds of page that a box begins and ends on, asked of its first and last child alone.

WeasyPrint 70 sorts out all children of a box, and of all boxes within, to take the first and the
last, each time that a page may break before or after it. Mended from outside, and only where the
library still is as described; pages keep their bytes.
"""

from collections.abc import Callable, Iterable, Sequence
from types import ModuleType
from typing import Protocol


class _Box(Protocol):
    children: Sequence["_Box"]

    def is_in_normal_flow(self) -> bool: ...

    def is_floated(self) -> bool: ...

    def page_values(self) -> tuple[str, str]: ...


type _PageValues = Callable[[_Box], tuple[str, str]]


def mend_named_pages(boxes: ModuleType) -> None:
    """Mend `weasyprint.formatting_structure.boxes`, once. Another version is left as it is."""
    parent = boxes.ParentBox
    if "page_values" in vars(parent) and not hasattr(parent.page_values, "guidegen"):
        long_way = parent.page_values
        parent.page_values = _of_ends(boxes.Box.page_values)
        parent.page_values.guidegen = long_way


def _of_ends(own: _PageValues) -> _PageValues:
    """What stands in place of ParentBox.page_values: `own` is that of a box without children."""

    def page_values(box: _Box) -> tuple[str, str]:
        start, end = own(box)
        first = _first_in_flow(box.children)
        if first is None:
            return start, end
        last = _first_in_flow(reversed(box.children))
        before = first.page_values()
        after = before if last is None or last is first else last.page_values()
        return before[0] or start, after[1] or end

    return page_values


def _first_in_flow(children: Iterable[_Box]) -> _Box | None:
    return next((one for one in children if one.is_in_normal_flow() or one.is_floated()), None)
