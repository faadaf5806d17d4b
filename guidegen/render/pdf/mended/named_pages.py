"""The kinds of page that a box begins and ends on, asked of its first and last child alone.

WeasyPrint 70 sorts out all children of a box, and of all boxes within, to take the first and the
last, each time that a page may break before or after it; and asks each of both for its end and its
beginning, though it needs one: twice as many boxes a level. Mended from outside, and only where
the library still is as described; pages keep their bytes.
"""

from collections.abc import Iterable, Mapping, Sequence
from types import ModuleType
from typing import Protocol


class _Box(Protocol):
    style: Mapping[str, str]
    children: Sequence["_Box"]

    def is_in_normal_flow(self) -> bool: ...

    def is_floated(self) -> bool: ...

    def page_values(self) -> tuple[str, str]: ...


def mend_named_pages(boxes: ModuleType) -> None:
    """Mend `weasyprint.formatting_structure.boxes`, once. Another version is left as it is."""
    parent = boxes.ParentBox
    if "page_values" in vars(parent) and not hasattr(parent.page_values, "guidegen"):
        long_way = parent.page_values
        parent.page_values = page_values
        parent.page_values.guidegen = long_way


def page_values(box: _Box) -> tuple[str, str]:
    """What stands in place of ParentBox.page_values."""
    return _start(box), _end(box)


def _start(box: _Box) -> str:
    if type(box).page_values is not page_values:
        return box.page_values()[0]
    first = _first_in_flow(box.children)
    return (first and _start(first)) or box.style["page"]


def _end(box: _Box) -> str:
    if type(box).page_values is not page_values:
        return box.page_values()[1]
    last = _first_in_flow(reversed(box.children))
    return (last and _end(last)) or box.style["page"]


def _first_in_flow(children: Iterable[_Box]) -> _Box | None:
    for one in children:
        if one.is_in_normal_flow() or one.is_floated():
            return one
    return None
